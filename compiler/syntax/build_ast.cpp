// Reading the nodes of the concrete tree: children by kind, words, sides, beds, settings, spellings of numbers.
#include "compiler/syntax/build_ast.hpp"

#include <algorithm>
#include <array>
#include <utility>

namespace stk::syntax {

bool is_mistake(Kind kind) {
  switch (kind) {
    case Kind::noted:
    case Kind::text_unclosed:
    case Kind::bad_text_value:
    case Kind::too_deep:
    case Kind::merge_marker:
      return true;
    default:
      return false;
  }
}

AstBuilder::Id AstBuilder::child(Id id, Kind wanted) const {
  for (const Id at : children(id)) {
    if (kind(at) == wanted) return at;
  }
  return Tree::none;
}

bool AstBuilder::broken(Id id) const {
  for (Id at = id + 1 - node(id).size; at < id; ++at) {
    if (is_mistake(kind(at))) return true;
  }
  return false;
}

std::string_view AstBuilder::first_word(Id id) const {
  const std::string_view all = text(id);
  std::size_t end = 0;
  while (end < all.size() && ((all[end] >= 'a' && all[end] <= 'z') || all[end] == '-')) ++end;
  return all.substr(0, end);
}

// The words of a node, whatever blanks, line ends or comments lie between them: from its tokens.
std::string AstBuilder::words(Id id) const {
  std::string joined;
  auto token = std::lower_bound(tree_.tokens.begin(), tree_.tokens.end(), node(id).begin,
                                [](const Token& t, std::uint32_t byte) { return t.begin < byte; });
  for (; token != tree_.tokens.end() && token->end <= node(id).end; ++token) {
    if (!joined.empty()) joined += '_';
    joined += tree_.source.substr(token->begin, token->end - token->begin);
  }
  for (char& c : joined) {
    if (c == '-') c = '_';
  }
  return joined;
}

std::vector<Name> AstBuilder::names(const Ids& ids, Kind wanted) const {
  std::vector<Name> found;
  for (const Id id : ids) {
    if (kind(id) == wanted) found.push_back(name(id));
  }
  return found;
}

Side AstBuilder::side(Id id) const {
  const std::string_view word = first_word(id);
  if (word == "left") return Side::left;
  if (word == "right") return Side::right;
  if (word == "each") return Side::each;
  if (word == "carriage") return Side::carriage;
  return Side::far;
}

Direction AstBuilder::direction(Id id) const {
  const std::string_view word = first_word(id);
  if (word == "left") return Direction::left;
  if (word == "right") return Direction::right;
  if (word == "inward") return Direction::inward;
  if (word == "outward") return Direction::outward;
  if (word == "inside") return Direction::inside;
  return Direction::outside;
}

Bed AstBuilder::bed(Id id) const {
  const std::string_view word = first_word(id);
  if (word == "main") return Bed::main;
  return word == "second" ? Bed::second : Bed::both;
}

Tile AstBuilder::tile(Id id) const {
  Tile made{{}, span(id)};
  for (const char c : text(id)) {
    if (c == '|' || c == '.') made.needles.push_back(c == '|');
  }
  return made;
}

std::string plain_number(std::string_view spelled) {
  std::string plain;
  for (std::size_t at = 0; at < spelled.size();) {
    std::size_t length = 1;
    if (spelled[at] == ',') {
      plain += '.';
    } else if (static_cast<unsigned char>(spelled[at]) >= 0x80) {
      const auto as = look_alike(spelled.substr(at), length);
      plain += as.empty() ? spelled.substr(at, 1) : as;
    } else {
      plain += spelled[at];
    }
    at += length;
  }
  return plain;
}

std::string_view look_alike(std::string_view at, std::size_t& length) {
  using Pair = std::pair<std::string_view, std::string_view>;
  static constexpr std::array pairs = {
      Pair{"×", "*"},  Pair{"·", "*"},  Pair{"÷", "/"},        Pair{"–", "-"},  Pair{"—", "-"},  Pair{"−", "-"},
      Pair{"‐", "-"},  Pair{"‑", "-"},  Pair{"“", "\""},       Pair{"”", "\""}, Pair{"„", "\""}, Pair{"‟", "\""},
      Pair{"«", "\""}, Pair{"»", "\""}, Pair{"‘", "\""},       Pair{"’", "\""}, Pair{"‚", "\""}, Pair{"‛", "\""},
      Pair{"≤", "<="}, Pair{"≥", ">="}, Pair{"≠", " is not "}, Pair{"（", "("}, Pair{"）", ")"}, Pair{"，", ","},
      Pair{"：", ":"}, Pair{"［", "["}, Pair{"］", "]"},       Pair{"｛", "{"}, Pair{"｝", "}"}, Pair{"＝", "="},
      Pair{"＋", "+"}, Pair{"－", "-"}, Pair{"＊", "*"},       Pair{"％", "%"}, Pair{"０", "0"}, Pair{"１", "1"},
      Pair{"２", "2"}, Pair{"３", "3"}, Pair{"４", "4"},       Pair{"５", "5"}, Pair{"６", "6"}, Pair{"７", "7"},
      Pair{"８", "8"}, Pair{"９", "9"}};
  for (const auto& [sign, plain] : pairs) {
    if (at.substr(0, sign.size()) == sign) {
      length = sign.size();
      return plain;
    }
  }
  return {};
}

}  // namespace stk::syntax
