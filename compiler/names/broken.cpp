#include "compiler/names/broken.hpp"

#include <algorithm>

namespace stk::names {

namespace {

bool in_word(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '_';
}

class Words {
 public:
  explicit Words(const text::Source& source) : source_(source) {}

  void of(text::Span span) {
    const std::string_view text = source_.text(span);
    for (auto at = text.begin(); at != text.end();) {
      const auto begin = std::find_if(at, text.end(), in_word);
      const auto end = std::find_if_not(begin, text.end(), in_word);
      if (begin != end) words.emplace(begin, end);
      at = end;
    }
  }

  void of(const syntax::Block& block) {
    for (const syntax::Statement& statement : block.statements) of(statement);
  }

  void of(const syntax::Statement& statement) {
    if (std::holds_alternative<syntax::Invalid>(statement.node)) return of(statement.span);
    if (const auto* only = std::get_if<syntax::OnlyFor>(&statement.node)) return of(only->body);
    if (const auto* nested = std::get_if<syntax::Nested>(&statement.node)) return of(nested->body);
    if (const auto* repeat = std::get_if<syntax::Repeat>(&statement.node)) return of(repeat->body);
    if (const auto* say = std::get_if<syntax::Say>(&statement.node)) return of(say->body);
    if (const auto* choice = std::get_if<syntax::If>(&statement.node)) {
      of(choice->then);
      if (choice->otherwise) of(*choice->otherwise);
    }
  }

  std::set<std::string, std::less<>> words;

 private:
  const text::Source& source_;
};

}  // namespace

std::set<std::string, std::less<>> broken_words(const syntax::File& file, const text::Source& source) {
  Words words(source);
  for (const syntax::Item& item : file.items) {
    if (std::holds_alternative<syntax::Invalid>(item.node)) words.of(item.span);
    if (const auto* technique = std::get_if<syntax::Technique>(&item.node)) words.of(technique->body);
    if (const auto* piece = std::get_if<syntax::Piece>(&item.node)) words.of(piece->body);
    if (const auto* finish = std::get_if<syntax::Finish>(&item.node)) words.of(finish->body);
  }
  return std::move(words.words);
}

}  // namespace stk::names
