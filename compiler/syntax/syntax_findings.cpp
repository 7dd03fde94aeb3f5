// From mistakes in the finished tree to findings: the walk, the file's first line, what stands outside every part.
//
// Only nodes that are still in the tree are looked at, so a guess that the parser gave up can never be reported.
#include "compiler/syntax/syntax_findings.hpp"

#include <algorithm>

#include "compiler/syntax/build_ast.hpp"
#include "compiler/syntax/mistakes.hpp"
#include "compiler/text/encoding.hpp"
#include "compiler/text/limits.hpp"

namespace stk::syntax {

using findings::Code;
using findings::Confidence;

bool report_unreadable(const text::Source& source, findings::Findings& findings) {
  const std::string_view all = source.text();
  if (const auto problem = text::text_problem(all)) {
    const auto at = static_cast<std::uint32_t>(text::first_bad_utf8(all).value_or(0));
    findings.report<Code::S15>(text::Span{at, at, source.id()}).label("{}", *problem);
    return true;
  }
  const auto control = std::find_if(all.begin(), all.end(), [](char c) {
    return static_cast<unsigned char>(c) < 0x20 && c != '\n' && c != '\r' && c != '\t' && c != '\f';
  });
  if (control == all.end()) return false;
  const auto at = static_cast<std::uint32_t>(control - all.begin());
  findings.report<Code::S15>(text::Span{at, at + 1, source.id()})
      .label("a control character (U+{:04X}) stands here", static_cast<unsigned>(static_cast<unsigned char>(*control)));
  return true;
}

void report_mistakes(const Tree& tree, const text::Source& source, findings::Findings& findings) {
  Mistakes(tree, source, findings).report();
}

Mistakes::Mistakes(const Tree& tree, const text::Source& source, findings::Findings& findings)
    : tree_(tree), source_(source), findings_(findings), parent_(tree.nodes.size(), Tree::none) {
  for (Id id = 0; id < tree.nodes.size(); ++id) {
    const Id first = id + 1 - node(id).size;
    for (Id below = id; below > first; below = below - node(below - 1).size) parent_[below - 1] = id;
  }
}

void Mistakes::report() {
  if (tree_.tokens.empty()) {
    findings_.report<Code::S16>(span(0, 0))
        .label("there is nothing but blanks and comments here")
        .help("a pattern begins with the line `stockinger 1`");
    return;
  }
  file_items();
  // In the order of the source, outer nodes first.
  std::vector<Id> order;
  for (Id id = 0; id < tree_.nodes.size(); ++id) {
    if (is_mistake(kind(id)) || has_spelling(kind(id))) order.push_back(id);
  }
  std::stable_sort(order.begin(), order.end(), [&](Id a, Id b) { return node(a).begin < node(b).begin; });
  for (const Id id : order) visit(id);
}

bool Mistakes::first_at(std::uint32_t byte) {
  if (stopped_ || !places_.insert(byte).second) return false;
  if (++reported_ <= text::limits::syntax_findings) return true;
  stopped_ = true;
  findings_.report<Code::S19>(span(byte, byte), text::limits::syntax_findings)
      .label("what follows from here on is not listed")
      .help("mend what stands above first; the rest is looked at then");
  return false;
}

void Mistakes::visit(Id id) {
  switch (kind(id)) {
    case Kind::noted:
      switch (kind(parent_[id])) {
        case Kind::missing_brace:
          return missing_brace(parent_[id]);
        case Kind::missing_open:
          return missing_open(parent_[id]);
        default:
          return unexpected(id);
      }
    case Kind::bad_text_value:
      return unexpected(id);
    case Kind::text_unclosed:
      return unclosed_text(node(parent_[id]).begin, node(parent_[id]).end);
    case Kind::too_deep:
      return deep(node(id).begin, node(id).begin + 1);
    default:
      return spelling(id);
  }
}

void Mistakes::file_items() {
  bool outside = false;  // a part ended too early, and that was said
  std::uint32_t part_end = 0;
  for (const Id id : tree_.children(tree_.root())) {
    switch (kind(id)) {
      case Kind::missing_version:
        missing_version();
        break;
      case Kind::version:
        check_version(id);
        break;
      case Kind::merge_marker:
        break;
      case Kind::stray_brace:
        if (!outside) stray(id);
        outside = true;
        break;
      case Kind::misplaced:
        if (!outside && first_at(node(id).begin)) {
          auto finding = findings_.report<Code::S17>(word_at(node(id).begin));
          if (part_end > 0) finding.label(span(part_end - 1, part_end), "the part before ended here");
          finding.help("steps stand between the braces of a piece, of a technique or of `finish`");
        }
        outside = true;
        break;
      default:
        outside = outside && kind(id) != Kind::piece && kind(id) != Kind::technique && kind(id) != Kind::finish;
        if (node(id).end > 0 && tree_.source[node(id).end - 1] == '}') part_end = node(id).end;
    }
  }
  for (Id id = 0; id < tree_.nodes.size(); ++id) {
    if (kind(id) == Kind::merge_marker) merge_marker(id);
  }
}

void Mistakes::missing_version() {
  if (!first_at(0)) return;
  const std::uint32_t first = tree_.tokens.empty() ? 0 : tree_.tokens.front().begin;
  findings_.report<Code::S13>(word_at(first))
      .label("the first line must say which version of the language this is")
      .edit(span(0, 0), "stockinger 1\n\n", Confidence::certain);
  places_.insert(first);
}

void Mistakes::check_version(Id id) {
  for (const Id child : tree_.children(id)) {
    if (kind(child) != Kind::version_number || plain_number(text(span(child))) == "1") continue;
    if (!first_at(node(child).begin)) continue;
    findings_.report<Code::S14>(span(child), text(span(child)))
        .label("this program knows version 1")
        .help("`stockinger 1` is the first line of every source that this program can read");
  }
}

void Mistakes::stray(Id id) {
  if (!first_at(node(id).begin)) return;
  findings_.report<Code::S05>(span(node(id).begin, node(id).begin + 1))
      .label("every `{{` before it is closed already")
      .help("one `}}` belongs to each `{{`: leave this one out, or look for the `{{` that is missing above");
}

// Three kinds of line for one mistake: the first is reported, the others are shown with it.
void Mistakes::merge_marker(Id id) {
  const std::string_view line = text(span(id));
  const bool begins = line.front() == '<';
  if (!begins && places_.count(Tree::none) > 0) return;  // shown with the one that began
  if (!first_at(node(id).begin)) return;
  places_.insert(Tree::none);
  const std::uint32_t first_line_end =
      node(id).begin + static_cast<std::uint32_t>(std::min(line.find('\n'), line.size()));
  auto finding = findings_.report<Code::S10>(span(node(id).begin, first_line_end));
  finding.label("here two versions of the file were put together");
  for (Id next = id + 1; begins && next < tree_.nodes.size(); ++next) {
    if (kind(next) != Kind::merge_marker) continue;
    const std::string_view other = text(span(next));
    if (other.front() == '<') break;
    finding.label(span(node(next).begin, node(next).begin + 7), "the second version begins here");
    break;
  }
  finding.help("keep the lines of one version and take out the lines with <<<<<<<, ======= and >>>>>>>");
}

void Mistakes::deep(std::uint32_t begin, std::uint32_t end) {
  if (!first_at(begin)) return;
  findings_.report<Code::S11>(span(begin, end))
      .label("more than {} lie around this one", text::limits::block_depth)
      .help("give parts of it names with `let`, or make a technique of what lies inside");
  stopped_ = true;
}

text::Span Mistakes::word_at(std::uint32_t byte) const {
  const std::string_view all = tree_.source;
  std::uint32_t end = byte;
  const auto is_word = [](char c) {
    const auto u = static_cast<unsigned char>(c);
    return u >= 0x80 || c == '_' || (c >= '0' && c <= '9') || (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
  };
  while (end < all.size() && is_word(all[end])) ++end;
  if (end == byte && end < all.size() && all[end] != '\n' && all[end] != '\r') ++end;
  std::size_t length = 0;
  if (!look_alike(all.substr(byte), length).empty()) end = byte + static_cast<std::uint32_t>(length);
  return span(byte, end);
}

}  // namespace stk::syntax
