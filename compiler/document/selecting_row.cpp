#include "compiler/document/selecting_row.hpp"

#include <utility>

#include "compiler/document/look_ahead.hpp"

namespace stk::document {

namespace {

using knit::Act;
using knit::Step;

// What may be done between the row and the chart without a needle being touched.
bool leaves_the_needles(Act act) {
  switch (act) {
    case Act::tension:
    case Act::counter:
    case Act::thread:
    case Act::cut:
    case Act::rest_yarn:
    case Act::hang_comb:
    case Act::hang_weights:
    case Act::remove_comb:
      return true;
    default:
      return false;
  }
}

class RowAwaitsChart {
 public:
  bool ends(const Step& step) const { return step.kind == Step::Kind::repeat; }
  void forget() { plain_ = nullptr; }
  const Step* pass(const Step& step, const knit::SizeRecord& record) {
    switch (step.operation.act) {
      case Act::knit:
      case Act::knit_to_row:
        plain_ = record.amount > 0 ? &step : nullptr;
        return nullptr;
      case Act::knit_chart:
        return std::exchange(plain_, nullptr);
      default:
        if (!leaves_the_needles(step.operation.act)) plain_ = nullptr;
        return nullptr;
    }
  }

 private:
  const Step* plain_ = nullptr;  // the step of plain rows just knitted
};

}  // namespace

std::map<const Step*, knit::SizeSet> rows_before_charts(const std::vector<Step>& steps, knit::SizeSet sizes) {
  return looked_ahead<RowAwaitsChart>(steps, sizes);
}

}  // namespace stk::document
