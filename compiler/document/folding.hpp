// Turns of a repeat that are alike fold into one text.
//
//   turns of one size      A A A A B         fold: A × 4, then B
//   another size           A A A A A A B     fold: A × 6, then B: the same text, "4 (6) times"
//
// Turns are compared in the record, size by size, never as text. Sizes whose turns fold to the same sequence are told
// together, the others in a text of their own.
#pragma once

#include <cstdint>
#include <vector>

#include "compiler/knit/facts.hpp"

namespace stk::document {

struct Fold {                              // one thing to say, once, with how often it is done
  std::vector<knit::Step> body;            // each size's records from that size's own turn
  std::vector<std::int64_t> times;         // per size of the pattern; 0 outside the class
};
struct FoldClass {
  knit::SizeSet sizes = 0;
  std::vector<Fold> folds;
};
std::vector<FoldClass> fold_turns(const knit::Step& repeat, knit::SizeSet scope);

// A remark that stands in some turns only, and the first turn with it in each size (counted from 1; 0: none).
struct TurnRemark {
  const knit::Step* remark = nullptr;
  knit::SizeSet sizes = 0;
  std::vector<std::int64_t> turn;
  bool every_turn = false;
};
std::vector<TurnRemark> remarks_in_turns(const knit::Step& repeat, knit::SizeSet scope);

bool is_remark(const knit::Step& step);    // a note or caution, or a block of nothing else

}  // namespace stk::document
