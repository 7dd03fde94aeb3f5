#include "compiler/document/narrator.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <cctype>

#include "compiler/document/both_sides_moved.hpp"

namespace stk::document {

namespace {

using knit::SizeSet;
using knit::Step;
using Kind = Step::Kind;
using Steps = std::vector<Step>;

SizeSet busy(const Step& step, SizeSet scope) {  // the sizes that have something to do here
  SizeSet set = 0;
  for (std::size_t i = 0; i < step.records.size(); ++i) {
    if (knit::has(scope & step.sizes, i) && !step.records[i].idle) set |= SizeSet{1} << i;
  }
  return set;
}

// A step whose number leads the sentence prints `-` in a size that has nothing to do; any other is told for the rest.
bool leads_with_number(knit::Act act) {
  return act == knit::Act::knit || act == knit::Act::knit_to_row;
}

void collect_names(const knit::Selection& selection, std::set<std::string>& names) {
  if (!selection.name.empty()) names.insert(selection.name);
  for (const knit::Selection& part : selection.parts) collect_names(part, names);
}
void collect_names(const Steps& steps, std::set<std::string>& names) {
  for (const Step& step : steps) {
    if (step.kind == Kind::operation) {
      for (const knit::Selection& selection : step.operation.selections) collect_names(selection, names);
    }
    collect_names(step.steps, names);
    for (const Steps& turn : step.turns) collect_names(turn, names);
  }
}

// Steps before which a knitter looks where the carriage stands.
bool asks_for_side(knit::Act act) {
  using knit::Act;
  switch (act) {
    case Act::hold:
    case Act::release:
    case Act::wrap:
    case Act::hang_edge:
    case Act::pick_up:
    case Act::cut:
    case Act::rest_yarn:
    case Act::scrap_off:
    case Act::take_off:
    case Act::bind_off:
    case Act::gather:
    case Act::knit_by_hand:
    case Act::carriage_knits:
      return true;
    default:
      return false;
  }
}

// A heading holds no graded number: "Toe of 9 (10, 11) sts" is "Toe".
std::string without_graded(const std::string& title) {
  const std::size_t run = title.find(std::string(no_break) + "(");
  if (run == std::string::npos) return title;
  std::string text = title.substr(0, title.rfind(' ', run) == std::string::npos ? 0 : title.rfind(' ', run));
  for (const std::string_view word : {" of", " from", " to", " over", ",", ":", " with", " in"}) {
    if (text.size() >= word.size() && text.compare(text.size() - word.size(), word.size(), word) == 0) {
      text.resize(text.size() - word.size());
    }
  }
  return text;
}

bool closes_corners(const Step& step) {
  return step.kind == Kind::operation && step.operation.act == knit::Act::close_corners;
}

bool holds_sections(const Steps& steps) {
  return std::any_of(steps.begin(), steps.end(),
                     [](const Step& step) { return step.kind == Kind::section || holds_sections(step.steps); });
}

bool only_sections(const Steps& steps) {
  return !steps.empty() &&
         std::all_of(steps.begin(), steps.end(), [](const Step& step) { return step.kind == Kind::section; });
}

}  // namespace

void Narrator::tell_all(const Steps& all, int level, const std::string& piece) {
  level_ = level;
  piece_ = piece;
  used_names_.clear();
  section_.clear();
  before_charts_ = rows_before_charts(all, printing_.printed);
  counter_ahead_ = set_before_first_row(all, printing_.printed);
  last_told_ = nullptr;
  collect_names(all, used_names_);
  for (Known& known : known_) known = {};
  memory_ = {};
  memory_.edition = &printing_.edition;
  for (const knit::SizeName& size : printing_.facts.sizes) memory_.size_names.push_back(size.printed.empty() ? words_of(size.name) : size.printed);
  for (const knit::PieceFacts& one : printing_.edition.pieces) {
    if (one.second_mirrored) memory_.mirrored.insert(one.name);
  }
  scope_ = block_scope_ = printing_.printed;
  steps(all, printing_.printed);
  settle();
  end_paragraph();
}

void Narrator::steps(const Steps& all, SizeSet scope) {
  for (auto one = all.begin(); one != all.end(); ++one) {
    const SizeSet inner = scope & one->sizes;
    if (inner == 0) continue;
    if (one + 1 != all.end()) {
      if (const std::optional<Step> both = both_sides_moved(*one, one[1], inner)) {
        step(*both, inner);
        ++one;
        continue;
      }
    }
    if (!closes_corners(*one)) {
      step(*one, inner);
      continue;
    }
    Step corners = *one;   // all that come one after the other are closed in one sentence
    for (auto next = one + 1; next != all.end() && closes_corners(*next) && next->sizes == one->sizes; one = next++) {
      corners.operation.edges.insert(corners.operation.edges.end(), next->operation.edges.begin(), next->operation.edges.end());
    }
    step(corners, inner);
  }
}

void Narrator::step(const Step& one, SizeSet scope) {
  switch (one.kind) {
    case Kind::operation:
      operation(one, scope);
      break;
    case Kind::section:
      section(one, scope);
      break;
    case Kind::only_for:
    case Kind::condition:
      // Blocks of sections bring their own headings, with their sizes; others are told under this one.
      if (only_sections(one.steps)) {
        steps(one.steps, scope);
      } else {
        if (scope != scope_ && !inside_fold() && !is_remark(one)) settle();
        steps(one.steps, scope);
      }
      break;
    case Kind::repeat:
      repeat(one, scope);
      break;
    case Kind::technique:
      technique(one, scope);
      break;
    case Kind::say:
      said(one, scope);
      break;
    case Kind::note:
    case Kind::caution:
      if (!inside_fold()) remark(one, scope);
      break;
    case Kind::expect:
      expect(one, scope);
      break;
    case Kind::needles_named:
      needles_named(one, scope);
      break;
  }
}

void Narrator::operation(const Step& one, SizeSet scope) {
  const SizeSet acting = busy(one, scope);
  if (acting == 0) {
    remember(one, scope);
    return;
  }
  const SizeSet told_for = leads_with_number(one.operation.act) ? scope : acting;
  memory_.in_fold = inside_fold();
  once_for_both_sides(one, told_for);
  const Telling telling(one, printing_.printed, told_for, printing_.yarns, memory_, printing_.piece);
  Told told = tell(telling);
  if (const auto ahead = counter_ahead_.find(&one); ahead != counter_ahead_.end() && (told_for & ~ahead->second) == 0) told.row = false;
  if (told.sentences.empty()) {
    remember(one, scope);
    return;
  }
  if (told.joins && joined_to_last(told, told_for)) {
    remember(one, scope);
    note_memory(one);
    return;
  }
  due_.unsaid_side = due_.unsaid_side || (due_.soft_side && asks_for_side(one.operation.act));
  settle();
  if (one.operation.act == knit::Act::cast_on && !inside_fold()) cast_on_once(one, told_for, told);
  if (told.new_paragraph && !inside_fold() && open_.sentences.size() > 1) break_ = true;
  if (told.makes_fabric) {
    std::string& sentence = told.sentences[told.tension_at];
    sentence = with_tension(std::move(sentence), one, acting);
  }
  std::vector<std::size_t> charts;
  if (one.operation.act == knit::Act::knit_chart) {
    charts = {charts_.of_colours(one, acting, telling.yarn(0), telling.yarn(1))};
  } else if (told.both_beds) {
    charts = {charts_.of_two_beds(one, acting)};
  } else if (!told.chart.empty()) {
    charts = charts_.of_step(one, acting, capitalised(told.chart));
  }
  for (std::size_t i = 0; i < told.sentences.size(); ++i) {
    std::string sentence = std::move(told.sentences[i]);
    if (i + 1 == told.chart_at.value_or(told.sentences.size()) && !charts.empty()) {
      std::vector<std::string> numbers;
      for (const std::size_t chart : charts) numbers.push_back(fmt::format("{}", charts_.all()[chart].number));
      sentence += fmt::format(" (chart{}{}{})", charts.size() > 1 ? "s" : "", no_break, joined(numbers));
    }
    say(told_for, std::move(sentence));
  }
  const bool selects = selecting_row(one, acting);
  for (const std::size_t chart : charts) after_paragraph_.push_back(ChartReference{chart});
  bool count_changed = false;
  for (std::size_t i = 0; i < one.records.size(); ++i) {
    if (!knit::has(acting, i)) continue;
    const knit::SizeRecord& record = one.records[i];
    count_changed = count_changed || (record.before.stitches != record.after.stitches && record.after.stitches != 0);
    if (told.says_row) known_[i].row = record.after.row_counter;
    if (told.says_stitches) {
      known_[i].stitches = record.after.stitches;
      known_[i].span = record.after.span;
      known_[i].second_span = record.after.second_span;
    }
  }
  remember(one, scope);
  note_memory(one);
  last_knit_ = one.operation.act == knit::Act::knit && one.operation.joining.empty() && !selects;
  const bool emptied = std::all_of(one.records.begin(), one.records.end(), [&](const knit::SizeRecord& r) {
    return !knit::has(acting, static_cast<std::size_t>(&r - one.records.data())) || r.after.stitches == 0;
  });
  if (emptied && one.operation.act != knit::Act::set_needles) memory_.comb_hung = false;
  due_.scope = told_for;   // of a size that has no rows here they are told too: it stands as it stood
  due_.row = told.row;
  due_.side = told.side;
  due_.soft_side = told.soft_side;
  due_.stitches_intro = told.stitches_intro;
  due_.stitches = !emptied && !told.says_stitches && (told.stitches || count_changed);
  if (inside_fold()) due_ = {};
  if (told.breaks && !inside_fold() && !(due_.row || due_.side || due_.stitches)) break_ = true;
}

// Told with the row and not with the chart: by then it would be too late.
bool Narrator::selecting_row(const Step& one, SizeSet scope) {
  const auto found = before_charts_.find(&one);
  if (found == before_charts_.end() || (found->second & scope) == 0 || inside_fold()) return false;
  bool single = true;
  for (std::size_t i = 0; i < one.records.size(); ++i) {
    if (knit::has(found->second & scope, i)) single = single && one.records[i].amount == 1;
  }
  say(found->second & scope,
      fmt::format("if your machine selects needles from a card or a screen, {} is the selecting row: set the pattern to its "
                  "first row before you knit it",
                  single ? "this row" : "the last of these rows"));
  return true;
}

// "Knit 3 rows and hang the comb.": two short steps of one moment.
bool Narrator::joined_to_last(const Told& told, SizeSet scope) {
  if (!last_knit_ || scope != scope_ || open_.sentences.empty() || break_) return false;
  std::string& last = open_.sentences.back().text;
  if (last.empty() || last.back() != '.') return false;
  last.pop_back();
  last += " and " + told.sentences.front() + ".";
  last_knit_ = false;
  return true;
}

// A section ends where it does or, if some sizes go on in sections of their own inside it, where the first of these begins.
void Narrator::end_section() {
  if (!begun_) return;
  States states(known_.size()), before_off(known_.size());
  for (std::size_t i = 0; i < states.size(); ++i) {
    if (!knit::has(begun_->scope, i)) continue;
    states[i] = known_[i].now;
    before_off[i] = known_[i].before_off;
  }
  section_ends_.push_back(section_end(begun_->title, states, before_off));
  begun_.reset();
}

void Narrator::section(const Step& one, SizeSet scope) {
  if (begun_) {   // the section before goes on in sections of some sizes: it is told to its end here
    due_.unsaid_row = due_.unsaid_side = due_.unsaid_stitches = true;
    due_.scope = begun_->scope;
  }
  settle();
  end_paragraph();
  end_section();
  const SizeSet outer = block_scope_;
  Heading heading;
  heading.level = level_;
  const std::string title = title_of(one, scope);
  heading.text = without_graded(title);
  if (scope != printing_.printed) {
    heading.aside = only_for(scope, printing_.printed, printing_.facts.sizes);
    if (!heading.aside.empty()) heading.aside[0] = heading.aside[0] == 'S' ? 's' : 'a';
  }
  section_ = heading.text;
  if (section_.size() > 1 && std::islower(static_cast<unsigned char>(section_[1])) != 0) {
    section_[0] = static_cast<char>(std::tolower(static_cast<unsigned char>(section_[0])));
  }
  blocks_.push_back(heading);
  const std::size_t first_block = blocks_.size();
  worked_.begin_section(piece_, section_);
  begun_ = Begun{heading.text, scope};
  last_told_ = nullptr;
  scope_ = block_scope_ = scope;
  Worked::Part whole = part(Worked::Kind::section, one.steps, scope);
  steps(one.steps, scope);
  due_.unsaid_row = due_.unsaid_side = due_.unsaid_stitches = true;
  due_.scope = scope;
  if (holds_sections(one.steps) || inside_fold()) settle();   // the steps of a fold are gone when it has been told
  else told_once(std::move(whole), first_block, scope, "");
  end_paragraph();
  end_section();
  block_scope_ = outer;
  scope_ = outer;
}

void Narrator::technique(const Step& one, SizeSet scope) {
  if (inside_fold()) {
    steps(one.steps, scope);
    return;
  }
  settle();
  end_paragraph();
  const std::size_t first_block = blocks_.size();
  const SizeSet entered = scope_;
  Worked::Part whole = part(Worked::Kind::technique, one.steps, scope);
  const std::string title = title_of(one, scope);
  if (!title.empty()) {
    std::string sentence = title;
    if (const auto chart = charts_.of_short_rows(one, scope, without_graded(title))) {
      sentence += fmt::format(" (chart{}{})", no_break, charts_.all()[*chart].number);
      after_paragraph_.push_back(ChartReference{*chart});
    }
    say(scope, std::move(sentence));
    break_ = true;
  }
  steps(one.steps, scope);
  settle();
  if (one.name.empty()) return;
  end_paragraph();
  if (!title.empty()) told_once(std::move(whole), first_block, entered, without_graded(title));
}

void Narrator::said(const Step& one, SizeSet scope) {
  if (!inside_fold()) {
    settle();
    end_paragraph();
    lead_ = title_of(one, scope);
  }
  steps(one.steps, scope);
  if (!inside_fold()) break_ = true;
}

void Narrator::remark(const Step& one, SizeSet scope, const std::string& before) {
  if (one.kind == Kind::caution && worked_.warned_before(one, scope)) return;
  settle();
  Remark block;
  block.caution = one.kind == Kind::caution;
  std::string text = title_of(one, scope);
  if (!before.empty()) {
    if (text.size() > 1 && std::islower(static_cast<unsigned char>(text[1])) != 0) {
      text[0] = static_cast<char>(std::tolower(static_cast<unsigned char>(text[0])));
    }
    text = before + ": " + text;
  }
  if (!text.empty() && std::string_view(".!?").find(text.back()) == std::string_view::npos) text += '.';
  if (scope != scope_ && scope != block_scope_)
    block.text.lead = only_for(scope, printing_.printed, printing_.facts.sizes);
  block.text.sentences.push_back({capitalised(std::move(text))});
  end_paragraph();
  blocks_.push_back(std::move(block));
}

void Narrator::expect(const Step& one, SizeSet scope) {
  if (inside_fold()) return;
  due_.scope = due_.any() ? (due_.scope | scope) : scope;
  due_.unsaid_row = due_.unsaid_row || one.expects_row;
  due_.unsaid_side = due_.unsaid_side || one.expects_carriage;
  due_.unsaid_stitches = due_.unsaid_stitches || one.expects_stitches;
}

void Narrator::needles_named(const Step& one, SizeSet scope) {
  if (one.operation.selections.empty() || used_names_.count(one.name) == 0) return;
  knit::Selection named = one.operation.selections.front();
  named.name = one.name;
  PerSize spans(named.needles.size());
  for (std::size_t i = 0; i < spans.size(); ++i) spans[i] = span_name(named.needles[i]);
  if (spans.empty()) return;
  settle();
  // The halves and beds are not many things but one.
  const bool one_thing = named.kind == knit::Selection::Kind::half;
  const bool bed = named.kind == knit::Selection::Kind::bed;
  // L6 stands on each of two beds.
  std::string of_bed;
  const bool two_beds = std::any_of(known_.begin(), known_.end(), [](const Known& known) { return known.now && known.now->second_bed > 0; });
  if (two_beds && !bed && !named.needles.empty())
    of_bed = named.needles.front().first.bed == knit::Bed::second ? " of the second bed" : " of the main bed";
  say(scope, fmt::format("{}{} {} {}{}", bed ? "the needles of " : "", called(named), one_thing ? "is" : "are",
                         graded(spans, printing_.printed, scope), of_bed));
}

}  // namespace stk::document
