// What a swatch says to do: words for knitters.
#pragma once

#include <string>
#include <vector>

#include "compiler/driver/options.hpp"
#include "compiler/fabric/swatch.hpp"

namespace stk::driver {

std::string words_of(fabric::Tightness band);  // "sock fabric"
std::string words_of(fabric::Impossible why, const fabric::Swatch& swatch);

// One piece of advice a line, the weightiest first.
std::vector<std::string> advice_on(const SwatchCommand& command, const fabric::Swatch& swatch,
                                   const fabric::Reading& reading);

// Lines of at most so many columns, further ones indented; ends with a line end.
std::string wrapped(const std::string& text, std::size_t columns, std::size_t indent);

}  // namespace stk::driver
