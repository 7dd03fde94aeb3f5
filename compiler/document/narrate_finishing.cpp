// Sewing up: seams, grafts, cords, ends.
#include <fmt/core.h>

#include <algorithm>

#include "compiler/document/telling.hpp"

namespace stk::document {

namespace {

using knit::Method;
using knit::SizeRecord;

std::string second_amount(const Telling& t) {
  return t.run(t.each([](const SizeRecord& r) { return fmt::format("{}", r.second_amount); }));
}
bool even(const Telling& t) {
  return t.always([](const SizeRecord& r) { return r.amount == r.second_amount; });
}
bool counted_rows(const Telling& t) {
  return t.always([](const SizeRecord& r) { return r.amount > 0 && r.second_amount > 0; });
}

// "Ease in the 4 extra rows where the short rows are: 2 at the heel and 2 at the toe." What no short rows explain is taken up
// evenly.
void ease_in(const Telling& t, Told& told) {
  std::vector<std::string> sections;
  std::vector<PerSize> rows;
  bool alike = true, all = true;
  PerSize more = t.each([&](const SizeRecord& r) {
    const std::int64_t difference = std::abs(r.amount - r.second_amount);
    if (difference == 0) return std::string();
    std::int64_t explained = 0;
    std::vector<std::string> names;
    for (const knit::ExtraRows& extra : r.extra_rows) {
      explained += extra.rows;
      names.push_back(extra.section);
    }
    alike = alike && !names.empty() && explained <= difference && (sections.empty() || names == sections) &&
            std::none_of(names.begin(), names.end(), [](const std::string& name) { return name.empty(); });
    all = all && explained == difference;
    sections = names;
    return fmt::format("{}", difference);
  });
  for (auto& text : more) {
    if (text && text->empty()) text.reset();   // a size in which the edges are alike
  }
  if (!alike) {
    told.sentences.back() += "; take up the difference evenly";
    return;
  }
  std::vector<std::string> places;
  for (std::size_t i = 0; i < sections.size(); ++i) {
    PerSize of_it = t.each([i](const SizeRecord& r) {
      return i < r.extra_rows.size() ? fmt::format("{}", r.extra_rows[i].rows) : std::string();
    });
    for (std::size_t size = 0; size < of_it.size(); ++size) {
      if (!more[size]) of_it[size].reset();
    }
    places.push_back(fmt::format("{} at {}", t.run(of_it), t.parts({sections[i]})));
  }
  if (all && places.size() == 1) {
    told.sentences.push_back(fmt::format("ease in the {} where the short rows are, at {}",
                                         counted(more, "extra row", t.printed(), t.scope()), t.parts(sections)));
    return;
  }
  std::string sentence = fmt::format("ease in the {} where the short rows are, {}",
                                     counted(more, "extra row", t.printed(), t.scope()), joined_parts(std::move(places)));
  if (!all) sentence += "; take up the others evenly";
  told.sentences.push_back(std::move(sentence));
}

}  // namespace

Told tell_graft(const Telling& t) {
  Told told;
  told.breaks = true;
  const std::string one = t.edges(t.operation().edges), other = t.edges(t.operation().edges_to);
  const Layers layers = t.memory().edition == nullptr
                            ? Layers::untold
                            : layers_of(*t.memory().edition, t.operation().edges, t.operation().edges_to);
  std::string sentence = fmt::format("graft {} to {}", one, other);
  if (layers == Layers::laid) sentence = fmt::format("lay {} on {}, purl sides together, and graft them", one, other);
  if (layers == Layers::as_they_came) {
    sentence = "lay the two layers as they came off the machine, purl sides together, and " + sentence;
  }
  const std::string& from = t.operation().from;
  if (from == "left" || from == "right")
    sentence += ", beginning on the " + from;
  else if (!from.empty())
    sentence += ", beginning with the tail at " + words_of(from);
  if (t.sides_turn() && t.in_part()) {
    sentence += " (of the second, mirrored one with left and right changed about)";
  } else if (t.sides_turn() && (from == "left" || from == "right")) {
    sentence += fmt::format(" (of the second, mirrored one on the {})", from == "left" ? "right" : "left");
  }
  told.sentences = {std::move(sentence)};
  if (counted_rows(t)) {
    told.sentences.push_back(even(t) ? fmt::format("there are {} on each", t.amount("st"))
                                     : fmt::format("there are {} on the first", t.amount("st")));
    if (!even(t)) {
      told.sentences.push_back(fmt::format("on the second there are {}{}loops between sts, and half a loop at each end, which "
                                           "is taken too",
                                           second_amount(t), no_break));
    }
  }
  told.sentences.push_back("remove " + t.waste() + (t.in_part() ? " from these sts" : ""));
  return told;
}

Told tell_seam(const Telling& t) {
  Told told;
  told.breaks = true;
  std::string sentence = fmt::format("seam {} to {}", t.edges(t.operation().edges), t.edges(t.operation().edges_to));
  if (t.memory().on_other_side) {   // its counts are those of the first side
    told.sentences = {sentence + " in the same way"};
    return told;
  }
  if (t.operation().with_own_tail)
    sentence += ", with the tail";
  else if (!t.operation().yarns.empty())
    sentence += fmt::format(", with a new length of {}", t.yarn());
  if (t.operation().method == Method::mattress) sentence += ", in mattress stitch";
  if (t.operation().method == Method::flat) sentence += ", flat, edge against edge";
  if (t.in_part() && t.sides_turn()) sentence += " (of the second, mirrored one with left and right changed about)";
  told.sentences = {std::move(sentence)};
  if (!counted_rows(t)) return told;
  const std::string unit = t.always([](const SizeRecord& r) { return r.rows; }) ? "row" : "st";
  if (even(t)) {
    told.sentences.push_back(fmt::format("each edge has {}", t.amount(unit)));
    return told;
  }
  // Edges of one name each are called by it; sums of edges are the first and the second.
  const bool named = t.operation().edges.size() == 1 && t.operation().edges_to.size() == 1;
  told.sentences.push_back(fmt::format("{} has {}", named ? t.edges(t.operation().edges) : "the first edge", t.amount(unit)));
  told.sentences.push_back(
      fmt::format("{} has {}{}{}s", named ? t.edges(t.operation().edges_to) : "the second", second_amount(t), no_break, unit));
  ease_in(t, told);
  return told;
}

Told tell_thread_through(const Telling& t) {
  Told told;
  told.breaks = true;
  const std::string what = t.operation().yarns.empty() ? "the cord" : "the " + words_of(t.operation().yarns.front());
  told.sentences = {fmt::format("thread {} through {}", what, t.edges(t.operation().edges))};
  return told;
}

Told tell_close_corners(const Telling& t) {
  Told told;
  told.sentences = {fmt::format("close the corners of {} with a few sts", t.parts(t.operation().edges))};
  return told;
}

Told tell_weave_in_ends(const Telling&) {
  Told told;
  told.sentences = {"weave in the ends"};
  return told;
}

}  // namespace stk::document
