// Charts of rows in squares: two colours, and the staircase of short rows.
#pragma once

#include "compiler/document/chart.hpp"
#include "compiler/outputs/svg_drawing.hpp"

namespace stk::outputs {

int width_of(const document::ColourChart& chart);
int width_of(const document::ShortRowChart& chart);

// Drawn from (x, y) downwards, with the key; each gives where it ends.
int colours(Drawing& drawing, const document::ColourChart& chart, int x, int y);
int staircase(Drawing& drawing, const document::ShortRowChart& chart, int x, int y);

}  // namespace stk::outputs
