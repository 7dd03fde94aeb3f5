#include "compiler/document/selecting_row.hpp"

namespace stk::document {

namespace {

using knit::Act;
using knit::SizeSet;
using knit::Step;
using Kind = Step::Kind;

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

struct Way {  // of one size
  std::size_t size;
  const Step* plain = nullptr;  // the step of plain rows just knitted
  std::map<const Step*, SizeSet>& found;

  void follow(const std::vector<Step>& steps) {
    for (const Step& step : steps) {
      if (!knit::has(step.sizes, size)) continue;
      if (step.kind == Kind::repeat) {
        plain = nullptr;
      } else if (step.kind != Kind::operation) {
        follow(step.steps);
      } else if (!step.records[size].idle) {
        operation(step);
      }
    }
  }

  void operation(const Step& step) {
    switch (step.operation.act) {
      case Act::knit:
      case Act::knit_to_row:
        plain = step.records[size].amount > 0 ? &step : nullptr;
        break;
      case Act::knit_chart:
        if (plain != nullptr) found[plain] |= SizeSet{1} << size;
        plain = nullptr;
        break;
      default:
        if (!leaves_the_needles(step.operation.act)) plain = nullptr;
    }
  }
};

}  // namespace

std::map<const Step*, SizeSet> rows_before_charts(const std::vector<Step>& steps, SizeSet sizes) {
  std::map<const Step*, SizeSet> found;
  for (std::size_t size = 0; size < 64; ++size) {
    if (knit::has(sizes, size)) Way{size, nullptr, found}.follow(steps);
  }
  return found;
}

}  // namespace stk::document
