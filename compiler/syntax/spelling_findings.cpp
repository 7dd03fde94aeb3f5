// Findings about what was understood and is spelled otherwise: signs that look alike, a decimal comma, too many digits,
// letters that no name has.
#include <algorithm>

#include "compiler/syntax/build_ast.hpp"
#include "compiler/syntax/mistakes.hpp"
#include "compiler/text/limits.hpp"

namespace stk::syntax {

using findings::Code;
using findings::Confidence;

bool Mistakes::has_spelling(Kind kind) {
  switch (kind) {
    case Kind::number:
    case Kind::yarn_count:
    case Kind::ordinal:
    case Kind::needle:
    case Kind::minus_sign:
    case Kind::dash:
    case Kind::minus_op:
    case Kind::sum_op:
    case Kind::product_op:
    case Kind::comparison_op:
    case Kind::text:
    case Kind::declared_name:
    case Kind::size_name:
    case Kind::callee:
      return true;
    default:
      return false;
  }
}

void Mistakes::spelling(Id id) {
  switch (kind(id)) {
    case Kind::number:
    case Kind::yarn_count:
    case Kind::ordinal:
    case Kind::needle:
      return odd_number(id);
    case Kind::minus_sign:
    case Kind::dash:
    case Kind::minus_op:
    case Kind::sum_op:
    case Kind::product_op:
    case Kind::comparison_op: {
      if (static_cast<unsigned char>(text(span(id)).front()) < 0x80) return;
      std::size_t length = 0;
      if (const auto plain = look_alike(text(span(id)), length); !plain.empty()) look_alike_sign(span(id), plain);
      return;
    }
    case Kind::text:
      return odd_text(id);
    case Kind::declared_name:
    case Kind::size_name:
    case Kind::callee:
      return odd_name(id);
    default:
      return;
  }
}

void Mistakes::look_alike_sign(text::Span at, std::string_view plain) {
  if (!first_at(at.begin)) return;
  findings_.report<Code::S07>(at, text(at), plain)
      .label("write `{}`", plain)
      .edit(at, std::string(plain), Confidence::certain);
}

void Mistakes::odd_number(Id id) {
  const std::string_view spelled = text(span(id));
  const std::string plain = plain_number(spelled);
  const auto digits = std::count_if(plain.begin(), plain.end(), [](char c) { return c >= '0' && c <= '9'; });
  if (static_cast<std::size_t>(digits) > text::limits::digits) {
    if (!first_at(node(id).begin)) return;
    findings_.report<Code::S12>(span(id), text::limits::digits).label("{} digits", digits);
  } else if (spelled.find(',') != std::string_view::npos) {
    if (!first_at(node(id).begin)) return;
    findings_.report<Code::S09>(span(id))
        .label("write `{}`", plain)
        .help("a comma parts two values: put a blank behind it if that is meant")
        .edit(span(id), plain, Confidence::certain);
  } else if (std::any_of(spelled.begin(), spelled.end(), [](char c) { return c == '\xEF'; })) {  // full-width digits
    look_alike_sign(span(id), plain);
  }
}

// A text between other marks than straight ones: one finding, both ends are mended.
void Mistakes::odd_text(Id id) {
  const text::Span whole = span(id);
  const std::string_view spelled = text(whole);
  std::size_t opening = 0;
  if (spelled.front() == '\'') opening = 1;
  if (opening == 0 && look_alike(spelled, opening) != "\"") opening = 0;
  std::size_t closing = 0;
  const auto below = tree_.children(id);
  const bool unclosed = !below.empty() && kind(below.back()) == Kind::text_unclosed;
  if (!unclosed) {
    if (spelled.size() > 1 && spelled.back() == '\'') closing = 1;
    for (const std::size_t length : {std::size_t{2}, std::size_t{3}}) {
      std::size_t found = 0;
      if (spelled.size() > length && look_alike(spelled.substr(spelled.size() - length), found) == "\"" &&
          found == length)
        closing = length;
    }
  }
  if ((opening == 0 && closing == 0) || unclosed) return;
  if (!first_at(whole.begin)) return;
  const auto begin_end = whole.begin + static_cast<std::uint32_t>(opening);
  const auto end_begin = whole.end - static_cast<std::uint32_t>(closing);
  const text::Span mark = opening > 0 ? span(whole.begin, begin_end) : span(end_begin, whole.end);
  auto finding = findings_.report<Code::S07>(mark, text(mark), "\"");
  finding.label("a text stands between straight quotation marks");
  if (opening > 0) finding.edit(span(whole.begin, begin_end), "\"", Confidence::certain);
  if (closing > 0) finding.edit(span(end_begin, whole.end), "\"", Confidence::certain);
}

// Capitals and hyphens are found where names are declared (names/); here only letters that no keyboard need have.
void Mistakes::odd_name(Id id) {
  const std::string_view spelled = text(span(id));
  if (std::none_of(spelled.begin(), spelled.end(), [](char c) { return static_cast<unsigned char>(c) >= 0x80; }))
    return;
  if (!first_at(node(id).begin)) return;
  findings_.report<Code::S08>(span(id), spelled)
      .label("written with a letter that is not among a to z")
      .help("names are for the source alone; what is printed is the text beside them, which may hold any letter");
}

}  // namespace stk::syntax
