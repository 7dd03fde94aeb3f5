// What a reader knows after a step: what hangs, what is threaded, how long the columns are, which bed is left.
#include "compiler/document/narrator.hpp"

namespace stk::document {

using knit::Step;

void Narrator::note_memory(const Step& one) {
  note_beds(one);
  note_rows(one);
  switch (one.operation.act) {
    case knit::Act::cast_on:
      memory_.cast_on = one.operation.method;
      // A cast-on beside stitches leaves hanging what hangs.
      if (one.operation.method == knit::Method::open_on_waste) memory_.comb_hung = true, memory_.only_weights = false;
      break;
    case knit::Act::hang_comb:
      memory_.comb_hung = true;
      memory_.only_weights = false;
      break;
    case knit::Act::hang_weights:
      memory_.only_weights = !memory_.comb_hung || memory_.only_weights;
      memory_.comb_hung = true;
      break;
    case knit::Act::remove_comb:
      memory_.comb_hung = false;
      break;
    case knit::Act::set_needles:
      memory_.needles_set = true;
      break;
    case knit::Act::lift:   // what follows a technique in its section is not "as for" it
      worked_.close_corners(piece_, section_);
      break;
    case knit::Act::scrap_off:
      memory_.threaded.clear();
      [[fallthrough]];
    case knit::Act::hang_edge:
      memory_.needles_set = false;
      break;
    case knit::Act::rest_yarn:
      memory_.threaded.clear();
      break;
    case knit::Act::cut:
      memory_.yarn_cut = true;
      memory_.threaded.clear();
      break;
    case knit::Act::thread:
      memory_.yarn_cut = false;
      memory_.threaded = one.operation.yarns.empty() ? "" : one.operation.yarns.front();
      break;
    case knit::Act::knit:
    case knit::Act::knit_to_row:
      memory_.rounds = knits_rounds(one);
      for (const knit::Joining& joining : one.operation.joining) {
        for (const std::string& edge : joining.edges) {
          if (along_rows(edge)) memory_.joined = true;
          else memory_.taken_in.insert(edge);
        }
      }
      break;
    default:
      break;
  }
}

// How long the columns are: known while nothing but plain rows over all needles was done since the casting on.
void Narrator::note_rows(const Step& one) {
  using knit::Act;
  switch (one.operation.act) {
    case Act::cast_on:
    case Act::knit:
    case Act::knit_to_row:
      break;
    case Act::thread:
    case Act::cut:
    case Act::rest_yarn:
    case Act::tension:
    case Act::counter:
    case Act::hang_comb:
    case Act::hang_weights:
    case Act::remove_comb:
    case Act::latch_up:
      return;
    default:
      memory_.rows_since_cast_on.clear();
      return;
  }
  for (std::size_t i = 0; i < one.records.size(); ++i) {
    if (!knit::has(one.sizes, i) || one.records[i].idle) continue;
    const knit::SizeRecord& record = one.records[i];
    const bool whole_bed = record.after.held == 0 && record.after.second_bed == 0 && record.after.in_work == record.after.stitches;
    if (!whole_bed) memory_.rows_since_cast_on.erase(i);
    else if (one.operation.act == Act::cast_on) memory_.rows_since_cast_on[i] = 0;
    else if (memory_.rows_since_cast_on.count(i) > 0) memory_.rows_since_cast_on[i] += record.after.row_counter - record.before.row_counter;
  }
}

// Of two beds one is left alone once the other is bare, until something is knitted on both.
void Narrator::note_beds(const Step& one) {
  const auto both = [](const knit::MachineState& state) { return state.second_bed > 0 && state.second_bed < state.stitches; };
  bool left_one = false, on_both = false;
  for (std::size_t i = 0; i < one.records.size(); ++i) {
    if (!knit::has(one.sizes, i) || one.records[i].idle) continue;
    const knit::SizeRecord& record = one.records[i];
    left_one = left_one || (both(record.before) && !both(record.after) && record.after.stitches > 0);
    on_both = on_both || both(record.after);
  }
  using knit::Act;
  const Act act = one.operation.act;
  if (left_one) memory_.one_bed = true;
  if (on_both && (act == Act::transfer || act == Act::knit || act == Act::knit_to_row)) memory_.one_bed = false;
}

}  // namespace stk::document
