// Casting on, knitting, yarns, the counter and the comb.
#include <fmt/core.h>

#include <algorithm>

#include "compiler/document/telling.hpp"
#include "compiler/values/format.hpp"

namespace stk::document {

namespace {

using knit::Method;
using knit::Side;
using knit::SizeRecord;

std::string rows(std::int64_t n) {
  return fmt::format("{}{}row{}", n, no_break, n == 1 ? "" : "s");
}

// Where the wraps begin: away from the side on which the carriage then stands.
std::string towards(const Telling& t) {
  return t.run(t.each([](const SizeRecord& r) {
    return std::string(r.yarn_side == Side::left ? "from left to right" : "from right to left");
  }));
}

// "36 (42, 48) sts over L18–R18 (L21–R21)", or the needles that were set before. Where others stand in work too, they are
// told apart by their bed, or by name. Beside stitches the needles come into work first: a sentence of its own.
std::string over(const Telling& t, Told& told) {
  using Kind = knit::Selection::Kind;
  const auto& selections = t.operation().selections;
  const Kind kind = selections.empty() ? Kind::all : selections.front().kind;
  const bool named = !selections.empty() && !selections.front().name.empty();
  const std::string needles = t.side_by_side() ? t.needles() : t.noun("needle").text;
  if (t.always([](const SizeRecord& r) { return r.before.stitches > 0 && r.after.in_work > r.before.in_work; })) {
    told.sentences.push_back(fmt::format("bring {} to WP", needles));
    return fmt::format("these needles, {}", t.amount("st"));
  }
  if (kind == Kind::span) return fmt::format("{} over {}", t.amount("st"), t.needles());
  if (t.always([](const SizeRecord& r) { return r.before.stitches == 0 && r.before.in_work == r.amount; })) {
    return fmt::format("the needles in WP, {}", t.amount("st"));
  }
  if (named || (kind != Kind::all && kind != Kind::bed)) return fmt::format("{}, {}", needles, t.amount("st"));
  const bool main = t.always([](const SizeRecord& r) { return r.needles.first.bed == knit::Bed::main; });
  return fmt::format("the needles of the {} bed, {}", main ? "main" : "second", t.amount("st"));
}

void open_on_waste(const Telling& t, Told& told) {
  const knit::Operation& o = t.operation();
  const std::int64_t before = o.waste_rows_before_comb, after = o.waste_rows - o.waste_rows_before_comb;
  const bool turned = (o.waste_rows + o.cord_rows) % 2 != 0;  // the wraps began where the carriage then stood
  const auto side = [&](bool flipped) {
    return t.run(t.each(
        [&](const SizeRecord& r) { return carriage_word(flipped ? other(r.after.carriage) : r.after.carriage); }));
  };
  told.sentences = {fmt::format("thread {}", t.waste())};
  const std::string needles = over(t, told);
  told.tension_at = told.sentences.size();
  told.sentences.push_back(fmt::format("e-wrap {}, {}", needles, towards(t)));
  told.sentences.push_back(side(turned));
  if (before > 0) {
    told.sentences.push_back("knit " + rows(before) + " and hang the comb with its weights");
    if (after > 0) told.sentences.push_back("knit " + rows(after));
  } else {
    told.sentences.push_back("knit " + rows(o.waste_rows));
  }
  if (o.cord_rows > 0) {
    told.sentences.push_back(side(o.cord_rows % 2 != 0));
    told.sentences.push_back(fmt::format("take out {} and knit {} with the ravel cord", t.waste(), rows(o.cord_rows)));
    told.sentences.push_back("unthread the cord");
  }
}

}  // namespace

Told tell_cast_on(const Telling& t) {
  Told told;
  told.row = told.side = told.says_stitches = told.makes_fabric = told.breaks = true;
  const auto wrapped = [&](const std::string& verb, const std::string& how = "") {
    const std::string needles = over(t, told);
    told.tension_at = told.sentences.size();
    told.sentences.push_back(fmt::format("{} {}{}, {}", verb, needles, how, towards(t)));
  };
  switch (t.operation().method) {
    case Method::open_on_waste:
      open_on_waste(t, told);
      break;
    case Method::closed_by_latch:
      wrapped("with the latch tool chain on");
      break;
    case Method::closed_by_crochet:
      wrapped("with a crochet hook chain on");
      break;
    case Method::every_other_with_weave:
      wrapped("cast on", ", weaving the yarn over every other needle");
      break;
    case Method::zigzag:
      told.sentences = {"RC" + std::string(no_break) + "000",
                        fmt::format("with the carriage on the {}, knit 1{}row over both beds: the zigzag, {}",
                                    t.run(t.each([](const SizeRecord& r) { return side_word(other(r.after.carriage)); })),
                                    no_break, t.amount("st"))};
      told.tension_at = 1;
      break;
    default:
      wrapped("e-wrap");
      break;
  }
  return told;
}

bool knits_rounds(const knit::Step& step) {
  bool any = false;
  if (step.operation.act != knit::Act::knit) return false;
  for (const SizeRecord& r : step.records) {
    if (r.amount == 0 || r.idle) continue;
    if (r.after.row_counter - r.before.row_counter != 2 * r.amount) return false;
    any = true;
  }
  return any;
}

namespace {

// After rounds on two beds, or rows on one, a row of both needs the carriage set back; not while one of the beds rests.
void both_ways(const Telling& t, Told& told) {
  const bool on_two_beds = t.always([](const SizeRecord& r) {
    return r.before.second_bed > 0 && r.before.second_bed < r.before.stitches && r.before.held == 0;
  });
  const bool set_otherwise = t.memory().rounds || t.memory().one_bed;
  if (set_otherwise && on_two_beds) told.sentences.push_back("set the carriage to knit both beds both ways");
}

}  // namespace

namespace {

// "front.leg.right" without its side: "the leg of the front".
std::string whole_of(const Telling& t, const std::string& edge) {
  const std::size_t dot = edge.rfind('.');
  const std::string words = t.edges({edge});
  static constexpr std::string_view of = " of ";
  const std::size_t part = words.find(of);
  return dot == std::string::npos || part == std::string::npos ? words : words.substr(part + of.size());
}

// A piece joined to another one while it is knitted: "joining both edges to the leg of the front". How it is done is said
// the first time in a piece.
void joined_along_rows(const Telling& t, const std::vector<knit::Joining>& all, Told& told) {
  if (all.empty()) return;
  const bool both = all.size() == 2 && all[0].side != all[1].side;
  std::string text;
  if (both && all[0].edges.size() == 1 && all[1].edges.size() == 1 &&
      whole_of(t, all[0].edges.front()) == whole_of(t, all[1].edges.front())) {
    text = " both edges to " + whole_of(t, all[0].edges.front());
  } else {
    for (const knit::Joining& one : all)
      text += fmt::format("{} the {} edge to {}", text.empty() ? "" : " and", side_word(one.side), t.edges(one.edges));
  }
  told.sentences.back() += ", joining" + text;
  if (t.memory().joined) return;
  // The other piece lies as it will in the sock: with its left edge at the right end, it has been turned round.
  const auto turned = [](const knit::Joining& one) {
    return !one.edges.empty() && one.edges.front().size() > 5 &&
           one.edges.front().substr(one.edges.front().size() - 5) == (one.side == knit::Side::left ? "right" : ".left");
  };
  const bool round = std::all_of(all.begin(), all.end(), turned);
  // Said before the rows: it is done from the first of them on.
  const std::vector<std::string> how = {
      fmt::format("in the next rows the other piece is joined on: hold it upright before the bed, the edge it began with down and its "
                  "{} side towards you{}",
                  round ? "knit" : "purl", round ? ", so that its right edge lies at the left end of the work" : ""),
      fmt::format("before each row{} hang the next loop of its edge, from the bottom upwards and one for every 2{}rows of it, on the "
                  "end needle {}",
                  both ? "" : " that starts from the " + side_word(all.front().side), no_break, both ? "beside the carriage" : "there")};
  told.sentences.insert(told.sentences.begin() + static_cast<std::ptrdiff_t>(told.tension_at), how.begin(), how.end());
  told.tension_at += how.size();
}

// Open stitches that wait beside the work are taken in by its end stitches: said in the sentence `head` of the row.
void taken_in(const Telling& t, const std::vector<knit::Joining>& all, std::size_t head, bool along_rows_too, Told& told) {
  if (all.empty()) return;
  std::vector<std::string> edges;
  for (const knit::Joining& one : all) edges.push_back(t.edges(one.edges));
  const bool both = all.size() == 2 && all[0].side != all[1].side;
  told.sentences[head] += fmt::format("{} taking in {}", along_rows_too ? " and" : ",", joined(edges));
  told.sentences.push_back(fmt::format("before each row{} hang the next st {}, the one nearest to the work, on the end needle "
                                       "there; the row knits the two as one",
                                       both ? "" : " that starts from the " + side_word(all.front().side),
                                       both ? "that waits on the carriage's side" : "of " + edges.front()));
  if (t.always([](const SizeRecord& r) { return r.waste_drawn; })) told.sentences.push_back(fmt::format("draw out {}", t.waste()));
}

void joined_to(const Telling& t, Told& told) {
  std::vector<knit::Joining> rows, loops;
  for (const knit::Joining& one : t.operation().joining)
    (one.edges.empty() || along_rows(one.edges.front()) ? rows : loops).push_back(one);
  std::size_t head = told.sentences.size() - 1;
  const std::size_t said_before = told.tension_at;
  joined_along_rows(t, rows, told);
  head += told.tension_at - said_before;   // how pieces are joined is said before the row
  taken_in(t, loops, head, !rows.empty(), told);
}

}  // namespace

Told tell_knit(const Telling& t) {
  Told told;
  told.makes_fabric = told.soft_side = true;
  const bool rounds = knits_rounds(t.step());
  if (rounds && !t.memory().rounds) told.sentences.push_back("set the carriage for rounds");
  if (!rounds) both_ways(t, told);
  told.tension_at = told.sentences.size();
  told.sentences.push_back("knit " + t.amount(rounds ? "round" : "row"));
  // A long stretch is knitted by the counter.
  constexpr std::int64_t easily_counted = 7;
  told.row = told.side = !t.always([](const SizeRecord& r) { return r.amount <= easily_counted; });
  told.breaks = told.row;
  joined_to(t, told);
  return told;
}

Told tell_knit_to_row(const Telling& t) {
  Told told;
  told.makes_fabric = told.side = told.stitches = told.says_row = told.breaks = true;
  const std::string to = t.run(t.each([](const SizeRecord& r) { return counter_digits(r.target); }));
  both_ways(t, told);
  told.tension_at = told.sentences.size();
  told.sentences.push_back(fmt::format("knit to RC{}{}", no_break, to));
  joined_to(t, told);
  return told;
}

Told tell_knit_by_hand(const Telling& t) {
  Told told;
  const auto& selections = t.operation().selections;
  const bool part = !selections.empty() && (selections.front().kind == knit::Selection::Kind::half || !selections.front().name.empty());
  const std::string needles = part && t.always([](const SizeRecord& r) { return r.needles.first.number != 0; }) ? ", " + t.needles() : "";   // where its line begins must be sure
  told.sentences = {fmt::format("with {} knit {} by hand over {}{}; the carriage stays where it is", t.yarn(),
                                t.amount("row"), t.noun("needle").text, needles)};
  return told;
}

namespace {

// Which columns of a drawn repeat the work begins and ends with. For some of the sizes only they are told size by size:
// a list of numbers would be half dashes.
void columns_at_the_ends(const Telling& t, Told& told) {
  const PerSize left = t.each([](const SizeRecord& r) { return fmt::format("{}", r.target); });
  const PerSize right = t.each([](const SizeRecord& r) { return fmt::format("{}", r.second_amount); });
  const bool alike = agree(left, t.scope()) && agree(right, t.scope());
  const auto& names = t.memory().size_names;
  if (alike || t.scope() == t.printed() || names.size() != left.size()) {
    told.sentences.push_back(fmt::format("column {} of it stands at the left end of the work", t.run(left)));
    told.sentences.push_back(fmt::format("column {} stands at the right end", t.run(right)));
    return;
  }
  std::string list;
  for (std::size_t i = 0; i < left.size(); ++i) {
    if (!left[i] || !right[i]) continue;
    list += fmt::format("{}{}{}{}{}and{}{}", list.empty() ? "" : ", ", kept_together(names[i]), no_break, *left[i], no_break, no_break, *right[i]);
  }
  told.sentences.push_back("its columns at the left and at the right end of the work are: " + list);
}

}  // namespace

Told tell_knit_chart(const Telling& t) {
  Told told;
  told.makes_fabric = told.row = told.side = told.breaks = true;
  const knit::Operation& o = t.operation();
  const std::string name = o.edges.empty() ? "the chart" : "the " + words_of(o.edges.front()) + " chart";
  told.sentences = {fmt::format("thread {} as the second colour and set the carriage for two colours", t.yarn(1))};
  told.tension_at = told.sentences.size();
  told.sentences.push_back(fmt::format("knit {}, {}", name, t.amount("row")));
  if (!o.edges_to.empty()) {
    told.sentences.push_back(
        fmt::format("the first and the last needle knit {} in every one of these rows, whatever is selected there",
                    t.code_of(o.edges_to.front())));
  } else {
    told.sentences.push_back("the first and the last needle knit as the chart has them");
  }
  columns_at_the_ends(t, told);
  told.chart_at = told.sentences.size();
  told.sentences.push_back("then set the carriage to knit plain again");
  return told;
}

Told tell_thread(const Telling& t) {
  Told told;
  const bool second_joins = t.operation().yarns.size() > 1 && t.memory().threaded == t.operation().yarns.front();
  if (!second_joins) told.sentences = {"thread " + t.yarn()};
  // A carriage knits plain rows with the first feeder alone; what the second one does, the rows of a chart say.
  if (t.operation().yarns.size() > 1) {
    told.sentences.push_back(fmt::format("thread {} in the second feeder: it knits in the rows of a chart only, and plain rows "
                                         "are of {} alone",
                                         t.yarn(1), t.yarn()));
  }
  return told;
}

Told tell_cut(const Telling& t) {
  Told told;
  if (t.always([](const SizeRecord& r) { return r.yarn_needle.number == 0; })) {   // it never knitted: nothing hangs
    told.sentences = {fmt::format("take {} out of the feeder", t.yarn())};
    return told;
  }
  std::string sentence = "cut " + t.yarn();
  const PerSize tails = t.each([](const SizeRecord& r) { return r.length ? values::amount_text(*r.length) : ""; });
  if (t.always([](const SizeRecord& r) { return r.length.has_value(); })) {
    sentence += fmt::format(" with a tail of {}{}cm", t.run(tails), no_break);
    sentence += "; it hangs on the " + t.run(t.each([](const SizeRecord& r) { return side_word(r.yarn_side); }));
  }
  told.sentences = {std::move(sentence)};
  return told;
}

Told tell_rest_yarn(const Telling& t) {
  Told told;
  const PerSize sides = t.each([](const SizeRecord& r) { return side_word(r.before.carriage); });
  told.sentences = {fmt::format("take {} out of the carriage and let it rest at the edge{}", t.yarn(),
                                agree(sides, t.scope()) ? " on the " + t.run(sides) : "")};
  return told;
}

Told tell_counter(const Telling& t) {
  Told told;
  told.new_paragraph = told.says_row = true;
  const std::string to = t.run(t.each([](const SizeRecord& r) { return counter_digits(r.target); }));
  told.sentences = {fmt::format("RC{}{}", no_break, to)};
  return told;
}

Told tell_hang_comb(const Telling& t) {
  Told told;
  std::string sentence = t.memory().comb_hung ? "move the comb and the weights" : "hang the comb with its weights";
  if (!t.operation().edges.empty()) sentence += (t.memory().comb_hung ? " to " : " on ") + t.edges(t.operation().edges);
  told.joins = true;
  told.sentences = {std::move(sentence)};
  return told;
}

Told tell_hang_weights(const Telling& t) {
  Told told;
  std::string sentence = "hang weights";
  if (!t.operation().edges.empty()) {
    sentence = t.memory().comb_hung ? "move the weights to " : "hang weights on ";
    sentence += t.edges(t.operation().edges);
  } else if (!t.memory().comb_hung) {
    sentence += " on the fabric";
  } else {   // they hang already, and the fabric has grown away from them
    const bool some_wait = t.always([](const SizeRecord& r) { return r.after.held > 0; });
    sentence = some_wait ? "move the weights up under the needles that knit" : "move the weights up and out to the edges";
  }
  told.sentences = {std::move(sentence)};
  return told;
}

Told tell_remove_comb(const Telling&) {
  Told told;
  told.sentences = {"unhang the comb and the weights"};
  return told;
}

}  // namespace stk::document
