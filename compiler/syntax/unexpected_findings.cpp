// Findings where something else was expected: which words, in what place, and what was perhaps meant.
#include <algorithm>
#include <array>
#include <iterator>

#include "compiler/findings/suggest.hpp"
#include "compiler/syntax/build_ast.hpp"
#include "compiler/syntax/mistakes.hpp"
#include "grammar/words.hpp"

namespace stk::syntax {
namespace {

using findings::Code;
using findings::Confidence;
using Voice = Expected::Voice;

bool is_letter(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || static_cast<unsigned char>(c) >= 0x80;
}

template <class List>
bool holds(const List& list, std::string_view word) {
  return std::find(std::begin(list), std::end(list), word) != std::end(list);
}

// "`over`, `with`, a comma or the end of the line"
std::string in_words(const std::vector<std::string>& list) {
  std::string joined;
  for (std::size_t i = 0; i < list.size(); ++i) {
    if (i > 0) joined += i + 1 == list.size() ? " or " : ", ";
    joined += list[i];
  }
  return joined;
}

// What is shown: strong phrases, or the weak ones if there are no others; phrases before words, and not too many.
std::string shown(const ErrorNote& note) {
  std::vector<std::string> phrases, words, weak;
  for (const Expected& e : note.expected) {
    std::string quoted = fmt::format("`{}`", e.text);
    if (e.voice == Voice::phrase) phrases.emplace_back(e.text);
    if (e.voice == Voice::word) words.push_back(std::move(quoted));
    if (e.voice == Voice::weak_phrase) weak.emplace_back(e.text);
    if (e.voice == Voice::weak_word) weak.push_back(std::move(quoted));
  }
  if (phrases.empty() && words.empty()) phrases = weak;
  constexpr std::size_t most = 6;
  if (phrases.empty() && words.empty()) return "something else";
  std::vector<std::string> all = std::move(words);
  if (all.size() + phrases.size() > most) {
    all.resize(std::min(all.size(), most - std::min(most - 1, phrases.size())));
  }
  all.insert(all.end(), phrases.begin(), phrases.end());
  return in_words(all);
}

}  // namespace

// The nearest words of the place where an unknown word begins a line.
void Mistakes::unknown_word(Id id, const ErrorNote& note, text::Span word) {
  const std::string_view spelled = text(word);
  const Id bad = parent_[id];
  Id around = parent_[bad] == Tree::none ? bad : parent_[bad];
  const bool in_file = kind(around) == Kind::file;
  const Kind owner = in_file ? Kind::file : kind(parent_[around]);
  std::vector<std::string> known;
  const auto add = [&known](const auto& list) { known.insert(known.end(), std::begin(list), std::end(list)); };
  std::string_view place = "a step";
  if (in_file) {
    add(grammar::part_words);
    place = "a part of a source";
  } else if (owner == Kind::edition) {
    add(grammar::edition_words);
    place = "a line of an edition";
  } else {
    add(grammar::step_words);
    if (owner == Kind::technique) add(grammar::contract_words);
  }
  auto finding = findings_.report<Code::S02>(word, spelled);
  finding.label("{} cannot begin with this", place);
  std::uint32_t behind = word.end;
  while (behind < tree_.source.size() && tree_.source[behind] == ' ') ++behind;
  const char next = behind < tree_.source.size() ? tree_.source[behind] : '\n';
  if (const auto near = findings::nearest_word(spelled, known)) {
    finding.help("the nearest word is `{}`", near->word)
        .edit(word, near->word, near->certain ? Confidence::certain : Confidence::likely);
  } else if (next == '=') {
    finding.help("a value is given its name with `let {} = …`", spelled)
        .edit(span(word.begin, word.begin), "let ", Confidence::likely);
  } else if (next == '(' && !in_file) {
    finding.help("a technique is worked with `work {}(…)`", spelled)
        .edit(span(word.begin, word.begin), "work ", Confidence::likely);
  } else if (in_file && (holds(grammar::step_words, spelled) || holds(grammar::contract_words, spelled))) {
    finding.help("`{}` stands between the braces of a piece or a technique", spelled);
  } else if (holds(grammar::edition_words, spelled)) {
    finding.help("`{}` stands between the braces of an edition", spelled);
  } else if (!in_file && holds(grammar::contract_words, spelled)) {
    finding.help("`{}` stands directly between the braces of a technique", spelled);
  } else if (!in_file && holds(grammar::part_words, spelled)) {
    finding.help("`{}` stands outside of pieces and techniques", spelled);
  } else if (spelled == "else") {
    finding.help("`else` stands behind the `}}` of its `if`");
  }
  (void)note;
}

// A quotation mark that opens a text and is not closed, before the mistake in a broken statement.
bool Mistakes::unclosed_in(Id bad, const ErrorNote& note) {
  std::uint32_t open = Tree::none;
  for (std::uint32_t at = node(bad).begin; at < note.at && at < tree_.source.size(); ++at) {
    const char c = tree_.source[at];
    if (c == '\\') {
      ++at;
    } else if (c == '"') {
      open = open == Tree::none ? at : Tree::none;
    } else if (c == '\n') {
      open = Tree::none;
    }
  }
  if (open == Tree::none) return false;
  std::uint32_t end = open;
  while (end < tree_.source.size() && tree_.source[end] != '\n' && tree_.source[end] != '\r') ++end;
  unclosed_text(open, end);
  return true;
}

void Mistakes::unexpected(Id id) {
  const ErrorNote& note = tree_.notes[node(id).note];
  const Id bad = parent_[id];
  for (const Expected& e : note.expected) {
    if (e.voice == Voice::too_deep) return deep(note.at, note.at + 1);
  }
  if (kind(id) == Kind::noted && unclosed_in(bad, note)) return;
  const text::Span found = word_at(note.at);
  std::size_t length = 0;
  if (const auto plain = look_alike(tree_.source.substr(std::min<std::size_t>(note.at, tree_.source.size())), length);
      !plain.empty()) {
    return look_alike_sign(found, plain);
  }
  const bool begins = kind(bad) == Kind::bad_statement && note.at == node(bad).begin;
  const Id around = begins ? parent_[bad] : Tree::none;
  const bool verbs =
      begins && (kind(around) == Kind::file || (kind(around) == Kind::lines && has_verbs(kind(parent_[around]))));
  if (verbs && !found.empty() && is_letter(text(found).front())) {
    const bool again = text(found) == "stockinger" && places_.count(0) > 0;  // said already: it is not the first line
    if (!again && first_at(found.begin)) unknown_word(id, note, found);
    return;
  }
  expected(note);
}

// The first word of the line on which a place lies.
std::string_view Mistakes::verb_before(std::uint32_t byte) const {
  const std::string_view before = tree_.source.substr(0, byte);
  const std::size_t line = before.find_last_of('\n');
  std::size_t begin = line == std::string_view::npos ? 0 : line + 1;
  while (begin < before.size() && before[begin] == ' ') ++begin;
  return text(word_at(static_cast<std::uint32_t>(begin)));
}

bool Mistakes::has_verbs(Kind owner) {
  switch (owner) {
    case Kind::pattern:
    case Kind::library:
    case Kind::sizes:
    case Kind::measures:
    case Kind::machine_class:
    case Kind::chart:
      return false;
    default:
      return true;
  }
}

void Mistakes::expected(const ErrorNote& note) {
  // On a later line, or at the end of one, what is missing is missing right behind the last good word.
  text::Span place = word_at(note.at);
  const std::string_view between = tree_.source.substr(note.good_end, note.at - std::min(note.at, note.good_end));
  const bool missing = note.at >= tree_.source.size() || place.empty() || between.find('\n') != std::string_view::npos;
  if (missing && note.good_end > 0) place = span(note.good_end, note.good_end);
  if (!first_at(place.begin)) return;
  const std::string_view spelled = text(place);
  const bool name = std::any_of(note.expected.begin(), note.expected.end(),
                                [](const Expected& e) { return e.voice == Voice::phrase && e.text == "a name"; });
  if (name && !missing && (holds(grammar::reserved_words, spelled) || holds(grammar::unit_words, spelled))) {
    findings_.report<Code::S18>(place, spelled)
        .label("a name was expected here")
        .help("add something to the word: `{}_1`, `my_{}`", spelled, spelled);
    return;
  }
  auto finding = findings_.report<Code::S01>(place, shown(note));
  if (missing) {
    finding.label("missing here");
  } else {
    finding.label("found `{}`", spelled);
  }
  if (note.opening != Tree::none) finding.label(span(note.opening, note.opening + 1), "to close this bracket");
  if (missing) return;
  if (holds(grammar::unit_words, spelled)) {  // knit rows 3
    std::uint32_t number = place.end;
    while (number < tree_.source.size() && tree_.source[number] == ' ') ++number;
    const text::Span next = word_at(number);
    const std::string_view amount = text(next);
    if (!amount.empty() && amount.front() >= '0' && amount.front() <= '9') {
      finding.help("the number stands before its unit: `{} {}`", amount, spelled)
          .edit(span(place.begin, next.end), std::string(amount) + ' ' + std::string(spelled), Confidence::likely);
      return;
    }
  }
  if (spelled == "of") {   // decrease 1 on each side of second bed
    const std::string_view verb = verb_before(place.begin);
    if (verb == "decrease" || verb == "increase") {
      finding.help("`{}` shapes the edges of the main bed; edge stitches of the second are moved: `move 3 on each side of "
                   "second bed {} by 1`", verb, verb == "decrease" ? "inward" : "outward");
      return;
    }
  }
  if (spelled.size() < 3) return;
  std::vector<std::string> known;
  for (const Expected& e : note.expected) {
    if ((e.voice == Voice::word || e.voice == Voice::weak_word || e.voice == Voice::hint) && !e.text.empty() &&
        is_letter(e.text.front()))
      known.emplace_back(e.text);
  }
  if (const auto near = findings::nearest_word(spelled, known)) {
    finding.help("the nearest word is `{}`", near->word)
        .edit(place, near->word, near->certain ? Confidence::certain : Confidence::likely);
  }
}

}  // namespace stk::syntax
