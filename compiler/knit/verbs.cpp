#include "compiler/knit/verbs.hpp"

namespace stk::knit {

std::string verb_of(syntax::StepKind kind) {
  using K = syntax::StepKind;
  switch (kind) {
    case K::cast_on: return "cast on";
    case K::knit: return "knit";
    case K::knit_to_row: return "knit to row";
    case K::knit_chart: return "knit chart";
    case K::thread: return "thread";
    case K::cut: return "cut";
    case K::rest_yarn: return "rest";
    case K::tension: return "tension";
    case K::counter: return "counter";
    case K::hang_comb: return "hang comb";
    case K::hang_weights: return "hang weights";
    case K::remove_comb: return "remove comb";
    case K::hold: return "hold";
    case K::release: return "release";
    case K::wrap: return "wrap";
    case K::bring_into_work: return "bring into work";
    case K::put_out_of_work: return "put out of work";
    case K::set_needles: return "set needles";
    case K::move:
    case K::move_to_bed: return "move";
    case K::lift: return "lift";
    case K::increase: return "increase";
    case K::decrease: return "decrease";
    case K::fill: return "fill";
    case K::cross: return "cross";
    case K::tuck: return "tuck";
    case K::slip: return "slip";
    case K::mark_row: return "mark row";
    case K::hang_edge: return "hang";
    case K::pick_up: return "pick up";
    case K::open: return "open";
    case K::latch_up: return "latch up";
    case K::scrap_off: return "scrap off";
    case K::take_off: return "take off";
    case K::bind_off: return "bind off";
    case K::gather: return "gather";
    case K::pitch: return "pitch";
    case K::carriage_knits: return "carriage knits";
    case K::graft: return "graft";
    case K::seam: return "seam";
    case K::thread_through: return "thread through";
    case K::close_corners: return "close corners";
    case K::weave_in_ends: return "weave in ends";
  }
  return "step";
}

std::string words_of(std::string_view method) {
  if (method == "e_wrap") return "e-wrap";
  std::string text(method);
  for (char& c : text)
    if (c == '_') c = ' ';
  return text;
}

bool is_finishing(syntax::StepKind kind) {
  using K = syntax::StepKind;
  return kind == K::graft || kind == K::seam || kind == K::thread_through || kind == K::close_corners || kind == K::weave_in_ends;
}

}  // namespace stk::knit
