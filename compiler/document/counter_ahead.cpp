#include "compiler/document/counter_ahead.hpp"

namespace stk::document {

namespace {

using knit::Act;
using knit::SizeSet;
using knit::Step;
using Kind = Step::Kind;

struct Way {  // of one size
  std::size_t size;
  const Step* cast_on = nullptr;   // the one that just was, no row since
  std::map<const Step*, SizeSet>& found;

  void follow(const std::vector<Step>& steps) {
    for (const Step& step : steps) {
      if (!knit::has(step.sizes, size)) continue;
      if (step.kind == Kind::repeat || (step.kind == Kind::expect && step.expects_row)) {
        cast_on = nullptr;
      } else if (step.kind != Kind::operation) {
        follow(step.steps);
      } else if (!step.records[size].idle) {
        operation(step);
      }
    }
  }

  void operation(const Step& step) {
    const knit::SizeRecord& record = step.records[size];
    if (step.operation.act == Act::cast_on) {
      cast_on = &step;
    } else if (step.operation.act == Act::counter) {
      if (cast_on != nullptr) found[cast_on] |= SizeSet{1} << size;
      cast_on = nullptr;
    } else if (record.before.row_counter != record.after.row_counter) {
      cast_on = nullptr;
    }
  }
};

}  // namespace

std::map<const Step*, SizeSet> set_before_first_row(const std::vector<Step>& steps, SizeSet sizes) {
  std::map<const Step*, SizeSet> found;
  for (std::size_t size = 0; size < 64; ++size) {
    if (knit::has(sizes, size)) Way{size, nullptr, found}.follow(steps);
  }
  return found;
}

}  // namespace stk::document
