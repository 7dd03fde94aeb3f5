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
  // Where several pieces come before the finishing, the words of the second one do not reach as far as this.
  const auto mirrored = [&](const std::vector<std::string>& edges) {
    return std::any_of(edges.begin(), edges.end(), [&](const std::string& edge) {
      return t.memory().mirrored.count(edge.substr(0, edge.find('.'))) > 0;
    });
  };
  if ((from == "left" || from == "right") && t.piece().empty() &&
      (mirrored(t.operation().edges) || mirrored(t.operation().edges_to))) {
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
  told.sentences.push_back(fmt::format("remove {}", t.waste()));
  return told;
}

Told tell_seam(const Telling& t) {
  Told told;
  told.breaks = true;
  std::string sentence = fmt::format("seam {} to {}", t.edges(t.operation().edges), t.edges(t.operation().edges_to));
  if (t.operation().with_own_tail)
    sentence += ", with the tail";
  else if (!t.operation().yarns.empty())
    sentence += fmt::format(", with a new length of {}", t.yarn());
  if (t.operation().method == Method::mattress) sentence += ", in mattress stitch";
  if (t.operation().method == Method::flat) sentence += ", flat, edge against edge";
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
  told.sentences.push_back(fmt::format("{} has {}{}{}s; take up the difference evenly",
                                       named ? t.edges(t.operation().edges_to) : "the second", second_amount(t), no_break, unit));
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
