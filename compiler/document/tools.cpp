// The tools that the steps of an edition need, found by going through them.
#include <fmt/core.h>

#include <algorithm>

#include "compiler/document/matter.hpp"

namespace stk::document {

namespace {

using knit::Act;
using knit::Method;

struct Needs {
  std::vector<std::int32_t> prongs;
  bool transfer = false, cord = false, comb = false, latch = false, hook = false, needle = false, holder = false;
  bool crossing = false, marking = false;
};

void add_prongs(Needs& needs, std::int32_t prongs) {
  if (std::find(needs.prongs.begin(), needs.prongs.end(), prongs) == needs.prongs.end()) needs.prongs.push_back(prongs);
}

void see(const knit::Operation& o, Needs& needs) {
  switch (o.act) {
    case Act::move:
    case Act::increase:
    case Act::decrease:
      if (o.prongs > 1) add_prongs(needs, o.prongs);
      needs.transfer = needs.transfer || o.prongs <= 1 || o.empties == knit::Empties::filled || o.act == Act::increase;
      break;
    case Act::knit:
    case Act::knit_to_row:
      needs.transfer = needs.transfer || !o.joining.empty();
      break;
    case Act::open:
      needs.holder = needs.holder || o.upper_on_holder;
      break;
    case Act::cross:
      needs.transfer = needs.crossing = true;
      break;
    case Act::transfer:
    case Act::lift:
    case Act::fill:
    case Act::hang_edge:
    case Act::pick_up:
      needs.transfer = true;
      break;
    case Act::mark_row:
      needs.marking = needs.needle = true;
      break;
    case Act::hang_comb:
      needs.comb = true;
      break;
    case Act::cast_on:
      needs.cord = needs.cord || o.cord_rows > 0;
      needs.latch = needs.latch || o.method == Method::closed_by_latch;
      needs.hook = needs.hook || o.method == Method::closed_by_crochet;
      needs.comb = needs.comb || o.method == Method::open_on_waste;
      break;
    case Act::bind_off:
      needs.latch = needs.latch || o.method == Method::by_latch;
      needs.hook = needs.hook || o.method == Method::by_crochet;
      break;
    case Act::latch_up:
      needs.latch = true;
      break;
    case Act::take_off:
      needs.holder = true;
      break;
    case Act::gather:
    case Act::graft:
    case Act::seam:
    case Act::thread_through:
    case Act::close_corners:
    case Act::weave_in_ends:
      needs.needle = true;
      break;
    default:
      break;
  }
}

void see(const std::vector<knit::Step>& steps, knit::SizeSet printed, Needs& needs) {
  for (const knit::Step& step : steps) {
    if ((step.sizes & printed) == 0) continue;
    if (step.kind == knit::Step::Kind::operation) see(step.operation, needs);
    see(step.steps, printed, needs);
    for (const std::vector<knit::Step>& turn : step.turns) see(turn, printed, needs);
  }
}

}  // namespace

std::vector<std::string> tools(const knit::EditionFacts& edition, knit::SizeSet printed) {
  Needs needs;
  for (const knit::PieceFacts& piece : edition.pieces) see(piece.first, printed, needs);
  see(edition.finish, printed, needs);
  std::vector<std::string> words;
  if (needs.comb) words.push_back("comb and weights");
  if (needs.transfer) words.push_back(needs.crossing ? "two transfer tools" : "transfer tool");
  std::sort(needs.prongs.begin(), needs.prongs.end());
  for (const std::int32_t prongs : needs.prongs) words.push_back(fmt::format("{}-prong transfer tool", prongs));
  if (needs.latch) words.push_back("latch tool");
  if (needs.hook) words.push_back("crochet hook");
  if (needs.cord) words.push_back("ravel cord");
  if (needs.holder) words.push_back("a length of smooth thread as a holder");
  if (needs.marking) words.push_back("a length of contrasting yarn to mark a row");
  if (needs.needle) words.push_back("blunt sewing needle");
  return words;
}

}  // namespace stk::document
