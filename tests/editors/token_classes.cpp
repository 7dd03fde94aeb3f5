// What the parser takes each token of a source for, one a line: line, byte column, UTF-16 column (both from 1), length
// in bytes, class, text. The tests of the highlighting compare with this.
#include <cstdio>
#include <fstream>
#include <iterator>
#include <string>

#include "compiler/syntax/tree.hpp"
#include "compiler/text/source.hpp"

int main(int argc, char** argv) {
  using namespace stk;
  if (argc != 2) return 2;
  std::ifstream in(argv[1], std::ios::binary);
  const text::Source source({}, argv[1], std::string(std::istreambuf_iterator<char>(in), {}));
  const syntax::Tree tree = syntax::parse_tree(source.text());
  std::uint32_t line_begin = 0, seen = 0;
  for (const syntax::Token& token : tree.tokens) {
    for (; seen < token.begin; ++seen) {
      if (source.text()[seen] == '\n') line_begin = seen + 1;
    }
    const std::string spelled(source.text().substr(token.begin, token.end - token.begin));
    if (token.token_class == syntax::TokenClass::line_end || spelled.find('\n') != std::string::npos) continue;
    std::printf("%u\t%u\t%u\t%u\t%s\t%s\n", source.position(token.begin).line, token.begin - line_begin + 1,
                source.utf16_column(token.begin) + 1, token.end - token.begin,
                std::string(syntax::name_of(token.token_class)).c_str(), spelled.c_str());
  }
  return tree.notes.empty() ? 0 : 1;
}
