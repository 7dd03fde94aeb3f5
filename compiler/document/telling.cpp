#include "compiler/document/telling.hpp"

#include <fmt/core.h>

#include <algorithm>

namespace stk::document {

PerSize Telling::amounts() const {
  return each([](const knit::SizeRecord& r) { return fmt::format("{}", r.amount); });
}
std::string Telling::amount(std::string_view noun) const {
  return counted(amounts(), noun, printed_, scope_);
}
std::string Telling::amount() const {
  return run(amounts());
}
bool Telling::amount_is(std::int64_t n) const {
  return always([n](const knit::SizeRecord& r) { return r.amount == n; });
}

std::string Telling::needles() const {
  return run(each([](const knit::SizeRecord& r) { return span_name(r.needles); }));
}

bool Telling::side_by_side() const {
  const auto place = [](knit::Needle needle) { return needle.number < 0 ? needle.number : needle.number - 1; };
  return always([&](const knit::SizeRecord& r) { return r.amount == place(r.needles.last) - place(r.needles.first) + 1; });
}

std::string Telling::carriage_after() const {
  return run(each([](const knit::SizeRecord& r) { return side_word(r.after.carriage); }));
}

Noun Telling::noun(std::string_view what) const {
  if (operation().selections.empty()) return {"", "all " + std::string(what) + "s", true, false, false};
  return noun_of(operation().selections.front(), std::string(what), printed_, scope_);
}

std::string Telling::code_of(std::string_view yarn) const {
  const auto word = yarns_.find(std::string(yarn));
  return word != yarns_.end() ? word->second.code : "the " + words_of(yarn);
}

std::string Telling::yarn(std::size_t index) const {
  return index < operation().yarns.size() ? code_of(operation().yarns[index]) : "the yarn";
}

std::string Telling::waste() const {
  return code_of("waste");
}

namespace {

void collect_headings(const std::vector<knit::Step>& steps, Headings& found) {
  for (const knit::Step& step : steps) {
    if (step.kind == knit::Step::Kind::section && !step.name.empty() && !step.title.empty()) {
      found.sections.try_emplace(step.name, step.title.front());
    }
    collect_headings(step.steps, found);
  }
}

}  // namespace

// The headings of the sections of the piece that an edge is of.
Headings Telling::headings_of(const std::string& edge) const {
  Headings found;
  if (memory_.edition == nullptr) return found;
  const std::string first = edge.substr(0, edge.find('.'));
  const auto& pieces = memory_.edition->pieces;
  const bool says_piece = std::any_of(pieces.begin(), pieces.end(), [&](const auto& piece) { return piece.name == first; });
  if (says_piece) found.piece = first;
  for (const knit::PieceFacts& piece : pieces) {
    if (!says_piece || piece.name == first) collect_headings(piece.first, found);
  }
  return found;
}

// "left half of sock.cast_on" is "the left half of the cast-on edge of the sock"; "left sts of" is told with its count.
std::string Telling::edge_called(const std::string& name) const {
  for (const char* part : {"left half of ", "right half of ", "rest of "}) {
    if (name.starts_with(part)) return "the " + (part + edge_called(name.substr(std::string_view(part).size())));
  }
  return edge_words(name, piece_, headings_of(name));
}

std::string Telling::edge(std::size_t index) const {
  return index < operation().edges.size() ? edge_called(operation().edges[index]) : "the edge";
}
std::string Telling::edge_to(std::size_t index) const {
  return index < operation().edges_to.size() ? edge_called(operation().edges_to[index]) : "the edge";
}

std::string Telling::edges(const std::vector<std::string>& names) const {
  std::vector<std::string> words;
  bool whole = true;
  const std::size_t from = &names == &operation().edges_to ? operation().edges.size() : 0;
  for (std::size_t k = 0; k < names.size(); ++k) {
    const bool left = names[k].starts_with("left sts of "), right = names[k].starts_with("right sts of ");
    whole = whole && names[k].find(' ') == std::string::npos;
    if (!left && !right) {
      words.push_back(edge_called(names[k]));
      continue;
    }
    const PerSize counts = each([&](const knit::SizeRecord& r) {
      return fmt::format("{}", from + k < r.part_counts.size() ? r.part_counts[from + k] : 0);
    });
    words.push_back(fmt::format("the {} on the {} of {}", counted(counts, "st", printed_, scope_), left ? "left" : "right",
                                edge_called(names[k].substr(left ? 12 : 13))));
  }
  return whole ? joined_edges(std::move(words)) : joined(words);
}

bool Telling::in_part() const {
  const auto part = [](const std::string& name) { return name.starts_with("left ") || name.starts_with("right "); };
  return std::any_of(operation().edges.begin(), operation().edges.end(), part) ||
         std::any_of(operation().edges_to.begin(), operation().edges_to.end(), part);
}

// Where several pieces come before the finishing, the words of the second one do not reach as far as this.
bool Telling::sides_turn() const {
  const auto mirrored = [&](const std::string& edge) {
    const std::size_t name = edge.rfind(' ') + 1;   // behind "left half of "
    return memory_.mirrored.count(edge.substr(name, edge.find('.') - name)) > 0;
  };
  return piece_.empty() && (std::any_of(operation().edges.begin(), operation().edges.end(), mirrored) ||
                            std::any_of(operation().edges_to.begin(), operation().edges_to.end(), mirrored));
}

std::string Telling::parts(const std::vector<std::string>& names) const {
  std::vector<std::string> words;
  for (const std::string& name : names) words.push_back(part_words(name, piece_, headings_of(name)));
  return joined_parts(std::move(words));
}

Told tell(const Telling& t) {
  using knit::Act;
  switch (t.operation().act) {
    case Act::cast_on:
      return tell_cast_on(t);
    case Act::knit:
      return tell_knit(t);
    case Act::knit_to_row:
      return tell_knit_to_row(t);
    case Act::knit_by_hand:
      return tell_knit_by_hand(t);
    case Act::knit_chart:
      return tell_knit_chart(t);
    case Act::thread:
      return tell_thread(t);
    case Act::cut:
      return tell_cut(t);
    case Act::rest_yarn:
      return tell_rest_yarn(t);
    case Act::tension:
      return {};  // said with what is knitted at it
    case Act::counter:
      return tell_counter(t);
    case Act::hang_comb:
      return tell_hang_comb(t);
    case Act::hang_weights:
      return tell_hang_weights(t);
    case Act::remove_comb:
      return tell_remove_comb(t);
    case Act::hold:
      return tell_hold(t);
    case Act::release:
      return tell_release(t);
    case Act::wrap:
      return tell_wrap(t);
    case Act::bring_into_work:
      return tell_bring(t);
    case Act::put_out_of_work:
      return tell_put(t);
    case Act::set_needles:
      return tell_set_needles(t);
    case Act::move:
      return tell_move(t);
    case Act::transfer:
      return tell_transfer(t);
    case Act::lift:
      return tell_lift(t);
    case Act::increase:
      return tell_increase(t);
    case Act::decrease:
      return tell_decrease(t);
    case Act::fill:
      return tell_fill(t);
    case Act::cross:
      return tell_cross(t);
    case Act::tuck:
      return tell_tuck(t);
    case Act::slip:
      return tell_slip(t);
    case Act::mark_row:
      return tell_mark_row(t);
    case Act::hang_edge:
      return tell_hang_edge(t);
    case Act::pick_up:
      return tell_pick_up(t);
    case Act::open:
      return tell_open(t);
    case Act::latch_up:
      return tell_latch_up(t);
    case Act::scrap_off:
      return tell_scrap_off(t);
    case Act::take_off:
      return tell_take_off(t);
    case Act::bind_off:
      return tell_bind_off(t);
    case Act::gather:
      return tell_gather(t);
    case Act::pitch:
      return tell_pitch(t);
    case Act::carriage_knits:
      return tell_carriage_knits(t);
    case Act::graft:
      return tell_graft(t);
    case Act::seam:
      return tell_seam(t);
    case Act::thread_through:
      return tell_thread_through(t);
    case Act::close_corners:
      return tell_close_corners(t);
    case Act::weave_in_ends:
      return tell_weave_in_ends(t);
  }
  return {};
}

}  // namespace stk::document
