#include "compiler/document/selections.hpp"

#include <fmt/core.h>

#include <cctype>

#include "compiler/document/words.hpp"

namespace stk::document {

namespace {

using knit::Selection;
using Kind = Selection::Kind;
using Where = Selection::Where;

PerSize numbers(const std::vector<std::int64_t>& values) {
  PerSize texts;
  for (const std::int64_t value : values) texts.push_back(fmt::format("{}", value));
  return texts;
}

class Wording {
 public:
  Wording(std::string noun, knit::SizeSet printed, knit::SizeSet scope)
      : noun_(std::move(noun)), printed_(printed), scope_(scope) {}

  Noun of(const Selection& s) const {
    if (!s.name.empty()) return {"", called(s), true, false, false};
    switch (s.kind) {
      case Kind::none:
        return {"", "the " + noun_ + "s", true, false, false};
      case Kind::all:
        return {"", "all " + noun_ + "s", true, false, false};
      case Kind::empties:
        return {"", "the empty needles", true, false, true};
      case Kind::held:
        return {"", "the held " + noun_ + "s", true, false, false};
      case Kind::bed:
        return {"", bed(s), true, false, false};
      case Kind::half:
        return {"", called(s), true, false, false};
      case Kind::middle:
        return {"", "the middle " + count(s, true), !single(s), false, false};
      case Kind::on_side:
        return on_side(s);
      case Kind::of_each:
        return of_each(s);
      case Kind::every:
        return every(s);
      case Kind::range:
        return range(s);
      case Kind::span:
        return {"", count(s, false), !single(s), false, false};
      case Kind::of:
        return within(s);
      case Kind::except:
        return except(s);
      case Kind::both:
        return both(s);
    }
    return {};
  }

 private:
  static std::string bed(const Selection& s) { return s.both_beds ? "both beds" : "the " + bed_word(s.bed) + " bed"; }

  bool single(const Selection& s) const {
    const PerSize values = numbers(s.count);
    return s.count.empty() || (agree(values, scope_) && graded(values, printed_, scope_) == "1");
  }

  // "st" for one (the number left out, as one says "the last st"), "2 sts" for more.
  std::string count(const Selection& s, bool bare_one) const {
    if (single(s)) return bare_one || s.count.empty() ? noun_ : "1" + std::string(no_break) + noun_;
    return counted(numbers(s.count), noun_, printed_, scope_);
  }

  Noun on_side(const Selection& s) const {
    const std::string many = "last " + count(s, true);
    switch (s.where) {
      case Where::left:
        return {"", "the " + many + " on the left", !single(s), false, false};
      case Where::right:
        return {"", "the " + many + " on the right", !single(s), false, false};
      case Where::each:
        return {"", "the " + many + " on each side", true, false, single(s)};
      case Where::carriage:
        return {"", "the " + many + " on the carriage side", !single(s), false, false};
      default:
        return {"", "the " + many + " at the end away from the carriage", !single(s), false, false};
    }
  }

  Noun of_each(const Selection& s) const {
    const char* which = s.where == Where::first ? "first" : s.where == Where::middle ? "middle" : "last";
    const std::string group = graded(numbers(s.group), printed_, scope_);
    return {"", fmt::format("the {} {} of each group of{}{}", which, count(s, true), no_break, group), true, true,
            single(s)};
  }

  Noun every(const Selection& s) const {
    PerSize nth;
    for (const std::int64_t n : s.group) nth.push_back(ordinal(n));
    const std::string which = nth.empty() ? "second" : graded(nth, printed_, scope_);
    return {"", "every " + which + " " + noun_, false, true, true};
  }

  Noun range(const Selection& s) const {
    PerSize spans;
    bool one = true;
    for (const knit::NeedleSpan& span : s.needles) {
      spans.push_back(span_name(span));
      one = one && span.first == span.last;
    }
    const std::string where = graded(spans, printed_, scope_);
    if (noun_ == "needle")
      return {"", (one ? "needle" : "needles") + std::string(no_break) + where, !one, false, false};
    return {"", fmt::format("the {}{} on {}", noun_, one ? "" : "s", where), !one, false, false};
  }

  // `last of each 2 of (all except 2 on right)` is told in the order of the hands: what stays first, then the others.
  // `last of each 2 of (first 2 of each 4)` is one needle of each four, the second; `… of (all except (first 2 of each 4))`
  // chooses among the other two. 0 where it is not so simple, or not alike in all sizes.
  std::int64_t place_in_group(const Selection& s) const {
    const Selection &chosen = s.parts[0], *run = &s.parts[1];
    bool rest = false;
    if (run->name.empty() && run->kind == Kind::except && run->parts.size() == 2 && run->parts[0].kind == Kind::all) {
      run = &run->parts[1];
      rest = true;
    }
    if (!chosen.name.empty() || !run->name.empty() || chosen.kind != Kind::of_each || run->kind != Kind::of_each) return 0;
    if (run->where == Where::middle || !single(chosen) || !same(run->count) || !same(run->group) || !same(chosen.group)) return 0;
    const std::int64_t group = value(run->group, 0), size = run->count.empty() ? 1 : value(run->count, 1);
    const std::int64_t chosen_from = rest ? group - size : size;
    if (group < 2 || size < 1 || size >= group || value(chosen.group, 0) != chosen_from) return 0;
    const bool at_left = (run->where == Where::first) != rest;
    const std::int64_t within = chosen.where == Where::first ? 1 : chosen.where == Where::last ? chosen_from : (chosen_from + 1) / 2;
    return at_left ? within : group - chosen_from + within;
  }
  bool same(const std::vector<std::int64_t>& values) const { return values.empty() || agree(numbers(values), scope_); }
  std::int64_t value(const std::vector<std::int64_t>& values, std::int64_t otherwise) const {
    for (std::size_t i = 0; i < values.size(); ++i) {
      if (knit::has(scope_, i)) return values[i];
    }
    return otherwise;
  }

  Noun within(const Selection& s) const {
    if (s.parts.size() != 2) return {"", "the " + noun_ + "s", true, false, false};
    if (const std::int64_t place = place_in_group(s); place > 0) {
      const Selection& run = s.parts[1].kind == Kind::of_each ? s.parts[1] : s.parts[1].parts[1];
      return {"", fmt::format("the {} {} of each group of{}{}", ordinal(place), noun_, no_break, value(run.group, 0)), true, true,
              true};
    }
    Noun chosen = of(s.parts[0]);
    const Selection& where = s.parts[1];
    std::vector<std::string> left;  // what stays, in the order said
    bool plural = false;
    const Selection* rest = &where;
    while (rest->name.empty() && rest->kind == Kind::except && rest->parts.size() == 2) {
      const Noun stays = of(rest->parts[1]);
      left.insert(left.begin(), stays.text);
      plural = plural || stays.plural || left.size() > 1;
      rest = &rest->parts[0];
    }
    if (!left.empty() && rest->kind == Kind::all) {
      chosen.before = fmt::format("leave {} as {}", joined(left), plural ? "they are" : "it is");
      chosen.text += " of the others";
    } else if (where.kind != Kind::all) {
      chosen.text += " of " + of(where).text;
    }
    return chosen;
  }

  Noun except(const Selection& s) const {
    if (s.parts.size() != 2) return {"", "the " + noun_ + "s", true, false, false};
    const Selection& without = s.parts[1];
    if (s.parts[0].kind == Kind::all && without.kind == Kind::half) {  // all but the right half: the left half
      return {"", without.where == Where::left ? "the right half" : "the left half", true, false, false};
    }
    if (s.parts[0].kind == Kind::all && without.kind == Kind::bed) {  // all but the main bed: the second
      return {"", without.bed == knit::Bed::main ? "the second bed" : "the main bed", true, false, false};
    }
    Noun from = of(s.parts[0]);
    from.text += " but " + of(without).text;
    return from;
  }

  Noun both(const Selection& s) const {
    std::vector<std::string> texts;
    for (const Selection& part : s.parts) texts.push_back(of(part).text);
    return {"", joined(texts), true, false, true};
  }

  std::string noun_;
  knit::SizeSet printed_, scope_;
};

}  // namespace

std::string sts_of(const std::string& noun) {
  const auto stands = [&](std::string_view word) {   // as a word of its own
    const auto letter = [&](std::size_t i) { return i < noun.size() && (std::isalnum(static_cast<unsigned char>(noun[i])) != 0); };
    for (std::size_t at = noun.find(word); at != std::string::npos; at = noun.find(word, at + 1)) {
      if (!letter(at + word.size()) && (at == 0 || !letter(at - 1))) return true;
    }
    return false;
  };
  return stands("st") || stands("sts") ? noun : "the sts of " + noun;
}

std::string called(const Selection& s) {
  if (s.kind == Kind::half) return s.where == Where::left ? "the left half" : "the right half";
  if (s.kind == Kind::bed) return s.both_beds ? "both beds" : "the " + bed_word(s.bed) + " bed";
  std::string name = words_of(s.name);
  if (name.size() < 7 || name.substr(name.size() - 7) != "needles") name += " needles";
  return "the " + name;
}

Noun noun_of(const Selection& selection, const std::string& noun, knit::SizeSet printed, knit::SizeSet scope) {
  return Wording(noun, printed, scope).of(selection);
}

}  // namespace stk::document
