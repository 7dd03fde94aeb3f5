// A chart as SVG: black on white, to be read at arm's length, with its key on the same page.
#pragma once

#include <string>

#include "compiler/document/chart.hpp"

namespace stk::outputs {

std::string chart_svg(const document::Chart& chart);

}  // namespace stk::outputs
