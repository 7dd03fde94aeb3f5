#include "compiler/text/xml.hpp"

#include "compiler/text/columns.hpp"

namespace stk::text {

std::string xml(std::string_view raw) {
  std::string escaped;
  for (const char c : printable(raw)) {
    switch (c) {
      case '&':
        escaped += "&amp;";
        break;
      case '<':
        escaped += "&lt;";
        break;
      case '>':
        escaped += "&gt;";
        break;
      case '"':
        escaped += "&quot;";
        break;
      default:
        escaped += c;
    }
  }
  return escaped;
}

}  // namespace stk::text
