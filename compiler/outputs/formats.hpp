// The back ends that exist, one function each; backends.cpp lists them.
#pragma once

#include "compiler/outputs/backend.hpp"

namespace stk::outputs {

const Backend& text_backend();
const Backend& markdown_backend();
const Backend& charts_backend();

}  // namespace stk::outputs
