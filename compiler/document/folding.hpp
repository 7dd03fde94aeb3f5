// Turns of a repeat that are alike fold into one text.
//
//   turns of one size      A A A A B         fold: A × 4, then B
//   another size           A A A A A A B     fold: A × 6, then B: the same text, "4 (6) times"
//
// Turns are compared in the record, size by size, never as text. Sizes whose turns fold to the same sequence are told
// together, the others in a text of their own. Turns that differ in nothing but the size of the groups they count, each
// time one less (a star toe), are alike too.
#pragma once

#include <cstdint>
#include <vector>

#include "compiler/knit/facts.hpp"

namespace stk::document {

struct Fold {                           // one thing to say, once, with how often it is done
  std::vector<knit::Step> body;         // each size's records from that size's own turn
  std::vector<std::int64_t> times;      // per size of the pattern; 0 outside the class
  std::vector<std::int64_t> unwrapped;  // the last so many of them find no needle to wrap: the end of a short-row shape
  std::vector<std::int64_t> last_group;   // each turn counts groups of one less than the turn before, the last of so many; 0: no
  std::vector<knit::MachineState> after;  // the last of them
};
struct FoldClass {
  knit::SizeSet sizes = 0;
  std::vector<Fold> folds;
};
std::vector<FoldClass> fold_turns(const knit::Step& repeat, knit::SizeSet scope);

// Turns that differ in nothing but the rows knitted in them, one stretch a turn ("evenly": 4, 4, 3 …). Empty if they
// are not like that; else per size, turn by turn. `before`: the rows come before the rest of the turn.
struct UnevenRows {
  std::vector<std::vector<std::int64_t>> rows;
  bool before = false;
};
UnevenRows uneven_rows(const knit::Step& repeat, knit::SizeSet scope);

// A remark that stands in some turns only, and the first turn with it in each size (counted from 1; 0: none).
struct TurnRemark {
  const knit::Step* remark = nullptr;
  knit::SizeSet sizes = 0;
  std::vector<std::int64_t> turn;
  bool every_turn = false;
};
std::vector<TurnRemark> remarks_in_turns(const knit::Step& repeat, knit::SizeSet scope);

// The state in which a step left the machine in one size; null if it holds no operation that was reached.
const knit::MachineState* last_state(const knit::Step& step, std::size_t size);

bool is_remark(const knit::Step& step);  // a note or caution, or a block of nothing else

}  // namespace stk::document
