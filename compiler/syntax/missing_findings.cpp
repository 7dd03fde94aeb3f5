// Findings about what is not there: a brace, a closing quotation mark.
//
// A forgotten `}` is noticed only where the next part begins, far below. Indentation tells more: where a `}` stands
// further to the left than the block that it closes, that block is the one whose own brace was forgotten.
#include <algorithm>
#include <iterator>

#include "compiler/syntax/mistakes.hpp"

namespace stk::syntax {

using findings::Code;
using findings::Confidence;

// How far the line of this byte is indented.
std::uint32_t Mistakes::indent(std::uint32_t byte) const {
  std::uint32_t begin = byte;
  while (begin > 0 && tree_.source[begin - 1] != '\n') --begin;
  std::uint32_t at = begin;
  while (at < tree_.source.size() && (tree_.source[at] == ' ' || tree_.source[at] == '\t')) ++at;
  return at - begin;
}

// The line that opens a block, as far as it fits: `repeat steps times {`.
std::string Mistakes::opener(Id lines) const {
  const std::string_view line = source_.line(source_.position(node(lines).begin).line);
  const std::size_t first = line.find_first_not_of(" \t");
  if (first == std::string_view::npos) return "{";
  std::string_view shown =
      line.substr(first, line.find('{', first) == std::string_view::npos ? std::string_view::npos
                                                                         : line.find('{', first) + 1 - first);
  if (shown.size() > 48) return std::string(shown.substr(0, shown.find_first_of(" (\""))) + " … {";
  return std::string(shown);
}

// The block inside `lines` that took a brace standing too far left, or none.
Mistakes::Id Mistakes::unclosed_inside(Id lines) const {
  for (Id id = lines + 1 - node(lines).size; id < lines; ++id) {
    if (kind(id) != Kind::lines || node(id).end == 0 || tree_.source[node(id).end - 1] != '}') continue;
    const std::uint32_t brace = node(id).end - 1;
    std::uint32_t begin = brace;
    while (begin > 0 && (tree_.source[begin - 1] == ' ' || tree_.source[begin - 1] == '\t')) --begin;
    const bool alone = begin == 0 || tree_.source[begin - 1] == '\n';
    if (alone && indent(brace) < indent(node(id).begin)) return id;
  }
  return Tree::none;
}

void Mistakes::missing_brace(Id id) {
  // All blocks that end here for want of a brace, the innermost first; they are one finding at its place.
  const std::uint32_t here = node(id).begin;
  std::vector<Id> open;
  for (Id at = id; at != Tree::none; at = parent_[at]) {
    if (kind(at) != Kind::lines) continue;
    const auto below = tree_.children(at);
    if (!below.empty() && kind(below.back()) == Kind::missing_brace && node(below.back()).begin == here)
      open.push_back(at);
  }
  if (open.empty()) return;
  // Right behind the last token of the block.
  auto next = std::lower_bound(tree_.tokens.begin(), tree_.tokens.end(), here,
                               [](const Token& token, std::uint32_t byte) { return token.begin < byte; });
  while (next != tree_.tokens.begin() && std::prev(next)->token_class == TokenClass::line_end) --next;
  std::uint32_t place = next == tree_.tokens.begin() ? 0 : std::prev(next)->end;
  Id blamed = open.front();
  if (open.size() == 1) {
    if (const Id inside = unclosed_inside(open.front()); inside != Tree::none) {
      blamed = inside;
      const auto statements = tree_.children(inside);
      place = statements.empty() ? node(inside).begin + 1 : node(statements.back()).end;
    }
  }
  if (places_.count(here) > 0 && open.front() != parent_[id]) return;
  if (!first_at(place)) return;
  places_.insert(here);
  auto finding = findings_.report<Code::S03>(span(place, place));
  finding.label("a `}}` was expected here or further up");
  if (blamed == open.front()) {
    for (const Id at : open) finding.label(span(node(at).begin, node(at).begin + 1), "to close `{}`", opener(at));
  } else {
    finding.label(span(node(blamed).begin, node(blamed).begin + 1), "to close `{}`", opener(blamed));
  }
  finding.help("{}", open.size() == 1 ? "put a line with `}` behind the last line of the block"
                                      : "put a `}` behind the last line of each of these blocks");
}

void Mistakes::missing_open(Id id) {
  std::uint32_t place = node(id).begin;
  while (place > 0 &&
         (tree_.source[place - 1] == ' ' || tree_.source[place - 1] == '\t' || tree_.source[place - 1] == '\r'))
    --place;
  if (!first_at(place)) return;
  findings_.report<Code::S04>(span(place, place))
      .label("a `{{` was expected at the end of this line")
      .edit(span(place, place), " {", Confidence::certain);
}

void Mistakes::unclosed_text(std::uint32_t begin, std::uint32_t end) {
  if (!first_at(begin)) return;
  findings_.report<Code::S06>(span(begin, end))
      .label("the text begins here and does not end on this line")
      .edit(span(end, end), "\"", Confidence::likely);
}

}  // namespace stk::syntax
