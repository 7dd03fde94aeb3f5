// The staircase of a heel or a toe: which needles knit in each row, read off the record of one size.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "compiler/document/chart.hpp"
#include "compiler/knit/facts.hpp"

namespace stk::document {

// The rows of these steps, without those of techniques inside; nothing where no row knits fewer needles than another
// while some are held.
std::optional<ShortRowChart> short_row_chart(const std::vector<knit::Step>& steps, std::size_t size);

// The chart in words, for those who cannot see it.
std::string in_words(const ShortRowChart& chart);

}  // namespace stk::document
