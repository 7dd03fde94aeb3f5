#include "compiler/document/counter_ahead.hpp"

#include <utility>

#include "compiler/document/look_ahead.hpp"

namespace stk::document {

namespace {

using knit::Act;
using knit::Step;

class CastOnAwaitsCounter {
 public:
  bool ends(const Step& step) const {
    return step.kind == Step::Kind::repeat || (step.kind == Step::Kind::expect && step.expects_row);
  }
  void forget() { cast_on_ = nullptr; }
  const Step* pass(const Step& step, const knit::SizeRecord& record) {
    if (step.operation.act == Act::counter) return std::exchange(cast_on_, nullptr);
    if (step.operation.act == Act::cast_on) cast_on_ = &step;
    else if (record.before.row_counter != record.after.row_counter) cast_on_ = nullptr;
    return nullptr;
  }

 private:
  const Step* cast_on_ = nullptr;   // the one that just was, no row since
};

}  // namespace

std::map<const Step*, knit::SizeSet> set_before_first_row(const std::vector<Step>& steps, knit::SizeSet sizes) {
  return looked_ahead<CastOnAwaitsCounter>(steps, sizes);
}

}  // namespace stk::document
