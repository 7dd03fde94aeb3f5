// The same work in a mirror: the second sock of a pair whose sides are changed about.
#include <utility>

#include "runtime/fabric.hpp"
#include "runtime/operations.hpp"

namespace stk::runtime {
namespace {

class Mirror {
 public:
  Mirror(int needles, const Fabric& fabric) : needles_(needles), fabric_(fabric) {}

  // Whatever has none of the fields below is its own mirror image.
  template <class Op>
  void operator()(Op& op) const {
    if constexpr (requires { op.needles; }) op.needles = op.needles.mirrored(needles_);
    if constexpr (requires { op.facing; }) op.facing = op.facing.mirrored(needles_);
    if constexpr (requires { op.second_needles; }) op.second_needles = op.second_needles.mirrored(needles_);
    if constexpr (requires { op.in_work; }) op.in_work = op.in_work.mirrored(needles_);
    if constexpr (requires { op.side; }) op.side = opposite(op.side);
    if constexpr (requires { op.onto == Side::left; }) op.onto = opposite(op.onto);
    if constexpr (requires { op.open_side; }) op.open_side = opposite(op.open_side);
    if constexpr (requires { op.distance; }) op.distance = -op.distance;
    if constexpr (requires { op.empties; }) op.empties = mirrored(op.empties);
    if constexpr (requires { op.along; }) mirror(op.along);
    if constexpr (requires { op.selvedges; }) mirror(op.selvedges);
    if constexpr (requires { op.edge; }) op.edge = fabric_.mirrored_edge(op.edge);
  }
  void operator()(SetCarriage& set) const {
    if (set.knits == CarriageKnits::both_ways) return;
    set.knits = set.knits == CarriageKnits::to_left ? CarriageKnits::to_right : CarriageKnits::to_left;
  }
  void operator()(Knit& knit) const { knit.main_to = opposite(knit.main_to); }
  void operator()(CastOn& cast_on) const {
    cast_on.needles = cast_on.needles.mirrored(needles_);
    cast_on.second_needles = cast_on.second_needles.mirrored(needles_);
    cast_on.carriage = opposite(cast_on.carriage);
  }
  void operator()(Hang& hang) const {
    hang.needles = hang.needles.mirrored(needles_);
    hang.second_needles = hang.second_needles.mirrored(needles_);
    hang.open_side = opposite(hang.open_side);
    if (hang.carriage) hang.carriage = opposite(*hang.carriage);
  }
  void operator()(Cross& cross) const {
    cross.first = needles_ - cross.first - cross.left - cross.right;
    std::swap(cross.left, cross.right);
  }
  void operator()(KnitPattern& knit) const {
    for (NeedleSet& row : knit.rows) row = row.mirrored(needles_);
  }
  void operator()(KnitJoined& knit) const {
    std::swap(knit.on_left, knit.on_right);
    mirror(knit.on_left);
    mirror(knit.on_right);
  }
  void operator()(ScrapOff& scrap) const {
    for (NeedleSet& part : scrap.parts) part = part.mirrored(needles_);
  }
  void operator()(Graft& graft) const {
    if (graft.from == GraftFrom::left) {
      graft.from = GraftFrom::right;
    } else if (graft.from == GraftFrom::right) {
      graft.from = GraftFrom::left;
    }
  }
  void operator()(Seam& seam) const {
    mirror(seam.a);
    mirror(seam.b);
  }

 private:
  static Empties mirrored(Empties empties) {
    if (empties == Empties::filled_from_left) return Empties::filled_from_right;
    if (empties == Empties::filled_from_right) return Empties::filled_from_left;
    return empties;
  }
  void mirror(std::vector<EdgeId>& edges) const {
    for (EdgeId& edge : edges) edge = fabric_.mirrored_edge(edge);
  }

  int needles_;
  const Fabric& fabric_;
};

}  // namespace

Operation mirrored(const Operation& operation, const MachineSpec& spec, const Fabric& fabric) {
  Operation image = operation;
  std::visit(Mirror(spec.needles, fabric), image.what);
  return image;
}

FinishingOperation mirrored(const FinishingOperation& operation, const Fabric& fabric) {
  FinishingOperation image = operation;
  std::visit(Mirror(0, fabric), image.what);
  return image;
}

}  // namespace stk::runtime
