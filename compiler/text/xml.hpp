// Text inside XML, for the pictures.
#pragma once

#include <string>
#include <string_view>

namespace stk::text {

// Printable, and escaped for the content of an element or an attribute.
std::string xml(std::string_view raw);

}  // namespace stk::text
