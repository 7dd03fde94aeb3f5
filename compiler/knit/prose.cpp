#include "compiler/knit/prose.hpp"

#include <cctype>
#include <string>

namespace stk::knit {

using findings::Code;

void check_prose(const syntax::Expr& expr, findings::Findings& findings, const Sites& sites) {
  const auto* text = std::get_if<syntax::Text>(&expr.node);
  if (!text || sites.in_library(expr.span.file)) return;
  for (const syntax::TextPiece& piece : text->pieces) {
    if (piece.value) continue;
    for (std::size_t i = 0; i < piece.literal.size(); ++i) {
      if (!std::isdigit(static_cast<unsigned char>(piece.literal[i]))) continue;
      std::size_t end = i;
      while (end < piece.literal.size() && std::isdigit(static_cast<unsigned char>(piece.literal[end]))) ++end;
      // A needle's or a chart's own name ("chart 1", "R1") is no count, nor is an ordinal or a part of a word.
      const bool part_of_word = (i > 0 && std::isalpha(static_cast<unsigned char>(piece.literal[i - 1]))) ||
                                (end < piece.literal.size() && std::isalpha(static_cast<unsigned char>(piece.literal[end])));
      if (part_of_word) {
        i = end;
        continue;
      }
      const std::string digits = piece.literal.substr(i, end - i);
      findings.report<Code::P01>(expr.span).label("`{}` stays as it is when the pattern changes", digits)
          .help("`{{name}}` in the text puts in the number that was worked out and checked");
      return;
    }
  }
}

}  // namespace stk::knit
