#include <algorithm>
#include <memory>

#include "tests/model/program.hpp"

namespace stk::model {
namespace {

class Generator {
 public:
  Generator(std::uint32_t seed, bool orderly) : random_(seed), orderly_(orderly) {}

  Program make() {
    Program program;
    MachineSpec& spec = program.spec;
    spec.needles = number(6, 26);
    spec.beds = number(1, 2);
    spec.float_limit = number(1, 6);
    spec.hook_limit = number(2, 4);
    spec.tool_prongs = number(2, 7);
    spec.move_reach = number(1, 5);
    spec.crossing_reach = number(3, 6);
    spec.tuck_limit = number(1, 4);
    spec.slip_limit = number(1, 4);
    spec.tuck_neighbours = number(1, 3);
    spec.long_hold_passes = number(4, 60);
    spec.weights_reach = number(1, 4);
    spec.rows_without_weights = number(1, 40);
    spec.dial_span_tenths = number(40, 100);
    for (const YarnKind kind : program_yarns) fabric_.add_yarn(kind);
    for (int piece = 0; piece < pieces; ++piece) machines_.push_back(std::make_unique<Machine>(spec, fabric_));
    const int length = number(5, 60);
    for (int index = 0; index < length; ++index) {
      Step step;
      piece_ = index * pieces / length;
      step.piece = piece_;
      const Tag tag = static_cast<Tag>(index + 1);
      if (index > length / 3 && one_in(7)) {
        const FinishingOperation operation{tag, finishing()};
        fabric_.apply(operation);
        step.what = operation;
      } else {
        const Operation operation{tag, what()};
        machine().apply(operation);
        step.what = operation;
      }
      program.steps.push_back(step);
    }
    return program;
  }

 private:
  using What = decltype(Operation::what);

  int number(int least, int most) {
    return static_cast<int>(random_() % static_cast<unsigned>(most - least + 1)) + least;
  }
  bool one_in(int n) { return number(1, n) == 1; }
  bool odd_thing(int n) { return !orderly_ && one_in(n); }
  Machine& machine() { return *machines_[static_cast<std::size_t>(piece_)]; }
  const MachineSpec& spec() { return machine().spec(); }
  Side side() { return one_in(2) ? Side::left : Side::right; }
  Bed bed() { return (spec().beds == 2 && one_in(3)) || odd_thing(40) ? Bed::second : Bed::main; }
  int needle() { return odd_thing(30) ? number(0, 40) : number(0, spec().needles - 1); }
  NeedleSet some(const NeedleSet& of) {   // a random part of a set
    NeedleSet set;
    if (of.empty()) return set;
    if (one_in(3)) {   // one of them, mostly an end
      set.insert(one_in(3) ? of.first() : one_in(2) ? of.last() : of.next(number(of.first(), of.last())));
      return set;
    }
    const int each = number(2, 4), start = number(0, each - 1);
    const bool run = one_in(2);
    const int low = number(of.first(), of.last()), high = low + number(0, 8);
    int index = 0;
    for (const int n : of) {
      if (run ? n >= low && n <= high : index % each == start) set.insert(n);
      ++index;
    }
    return set;
  }
  NeedleSet range() {
    const int first = needle();
    return NeedleSet::range(first, first + number(0, spec().needles / 2));
  }
  NeedleSet among(const NeedleSet& likely) {
    if (odd_thing(12) || likely.empty()) return one_in(2) ? range() : NeedleSet::one(needle());
    return one_in(3) ? likely : some(likely);
  }
  NeedleSet stitches(Bed of) { return machine().carrying(of) & machine().in_work(of); }
  YarnId yarn() {
    return odd_thing(40) ? YarnId{9} : YarnId{static_cast<std::uint32_t>(one_in(12) ? number(0, 3) : number(0, 1))};
  }
  YarnId waste() { return odd_thing(30) ? YarnId{} : odd_thing(15) ? YarnId{0} : YarnId{2}; }
  Empties empties() { return static_cast<Empties>(orderly_ ? number(1, 4) : number(0, 4)); }
  template <class Wanted>
  EdgeId edge(Wanted wanted) {
    std::vector<EdgeId> all;
    for (std::uint32_t index = 0; index < fabric_.edges().size(); ++index) {
      if (wanted(fabric_.edges()[index])) all.push_back(EdgeId{index});
    }
    if (all.empty() || odd_thing(10)) return EdgeId{static_cast<std::uint32_t>(number(0, 12))};
    return all[random_() % all.size()];
  }
  EdgeId any_edge() {
    return edge([](const Edge&) { return true; });
  }
  EdgeId live_edge() {
    return edge([](const Edge& of) { return of.live && of.state != EdgeState::used; });
  }
  EdgeId selvedge(Side of) {
    return edge(
        [of](const Edge& at) { return at.kind == EdgeKind::selvedge && at.side == of && at.state != EdgeState::used; });
  }
  SlotId slot() {
    return SlotId{static_cast<std::uint32_t>(
        number(0, std::max(0, static_cast<int>(fabric_.slots().size()) - (orderly_ ? 1 : 0))))};
  }

  What begin() {
    const Bed of = bed();
    CastOn cast_on;
    cast_on.method = static_cast<CastOnMethod>(number(0, spec().beds == 2 || odd_thing(9) ? 5 : 4));
    if (!machine().threaded().given() && cast_on.method != CastOnMethod::open_on_waste && !odd_thing(6))
      return ThreadYarn{yarn()};
    cast_on.bed = of;
    const int width = number(2, spec().needles);
    const int first = number(0, spec().needles - width);
    cast_on.needles = NeedleSet::range(first, first + width - 1);
    if (one_in(4)) cast_on.needles = some(cast_on.needles);
    if (cast_on.method == CastOnMethod::zigzag) {
      const NeedleSet all = cast_on.needles;
      cast_on.needles = {};
      int index = 0;
      for (const int n : all) (index++ % 2 ? cast_on.second_needles : cast_on.needles).insert(n);
      if (odd_thing(5)) cast_on.second_needles = all;
    }
    cast_on.carriage = side();
    cast_on.waste = waste();
    cast_on.cord = odd_thing(30) ? YarnId{} : YarnId{3};
    cast_on.waste_rows = one_in(3) ? number(1, 10) : 0;
    if (odd_thing(12)) cast_on.needles = among({});
    return cast_on;
  }

  What what() {
    Machine& m = machine();
    const bool bare = m.stitches() == 0;
    if (bare && one_in(4)) return hang();
    if (bare && !odd_thing(6)) return begin();
    if (bare && one_in(4)) return EndPiece{};
    const Bed of = bed();
    const NeedleSet work = stitches(of), held = m.held(of), all = m.carrying(of);
    switch (number(0, 48)) {
      case 0: return BeginSection{};
      case 1: return ResetCounter{number(0, 3)};
      case 2:
        return SetTension{static_cast<Beds>(spec().beds == 2 || odd_thing(9) ? number(0, 2) : 0), number(-6, 6) * 10};
      case 3: return SetPitch{one_in(2) ? Pitch::full : Pitch::half};
      case 4: return SetCarriage{static_cast<CarriageKnits>(one_in(2) ? 0 : number(0, 2))};
      case 5: return ThreadYarn{yarn(), one_in(2) ? YarnId{} : yarn()};
      case 6: return RestYarn{one_in(4) ? yarn() : m.threaded()};
      case 7: return CutYarn{one_in(4) ? yarn() : m.threaded(), number(0, 4) * 100'000};
      case 8: return SetNeedles{of, odd_thing(2) ? range() : all | some(m.all_needles())};
      case 9: return BringIntoWork{of, among(m.all_needles() - all)};
      case 10: return PutOutOfWork{of, among(m.empties(of))};
      case 11:
      case 12: return Hold{of, one_in(3) ? all : among(work)};
      case 13:
        return Hold{of, NeedleSet::one(m.carriage() == Side::left ? work.last() : work.first())};  // the far side
      case 14: return Hold{of, NeedleSet::one(m.carriage() == Side::left ? work.first() : work.last())};
      case 15: return Release{of, one_in(2) && m.rests(of) ? all : among(held)};
      case 16:
      case 17: return wrap(of);
      case 18: return Lift{of, among(one_in(2) ? NeedleSet::one(all.first()) | NeedleSet::one(all.last()) : all)};
      case 19:
        return Move{of, among(work), (one_in(2) ? 1 : -1) * (one_in(4) ? number(0, 9) : 1), empties(), one_in(4)};
      case 20: {   // the last of each few, or all together
        NeedleSet last;
        int index = 0;
        const int each = number(2, 4);
        for (const int n : work) {
          if (++index % each == 0) last.insert(n);
        }
        return Move{of, one_in(4) ? work : last, one_in(3) ? 1 : -1, empties(), false};
      }
      case 21: return SayEmpties{of, among(m.empties(of)), empties()};
      case 22: return Decrease{of, side(), number(0, 3), number(1, 2)};
      case 23: return Increase{of, side(), number(0, 3), one_in(4), number(1, 2)};
      case 24: return Cross{of, one_in(8) ? needle() : std::max(0, work.first()), number(1, 3), number(1, 3)};
      case 25: return Transfer{of, among(stitches(of)), one_in(4)};
      case 26: return LatchUp{of, among(work)};
      case 27: return begin();
      case 28: return hang();
      case 29: return pick_up(of);
      case 30: return HangComb{one_in(2) ? EdgeId{} : any_edge()};
      case 31: return one_in(2) ? What{HangWeights{}} : What{RemoveComb{}};
      case 32: return pattern();
      case 33: return KnitByHand{Bed::main, among(stitches(Bed::main)), one_in(4) ? yarn() : waste()};
      case 34: return scrap(of);
      case 35: return TakeOff{of, among(all)};
      case 36: return BindOff{of, one_in(2) ? all : among(all), one_in(3) ? m.carrying(other(of)) : NeedleSet{}};
      case 37:
        return Gather{of, one_in(2) ? all : among(all), one_in(2) ? m.carrying(other(of)) : NeedleSet{},
                      number(0, 3) * 100'000};
      case 38: return odd_thing(3) ? What{Drop{of, among(all)}} : What{Knit{1}};
      case 39: return one_in(2) ? What{OpenSlot{slot(), one_in(2)}} : What{DrawWaste{any_edge()}};
      case 40: return one_in(4) ? What{EndPiece{}} : What{Knit{number(1, 2)}};
      case 41:
        return KnitJoined{number(1, one_in(3) ? 30 : 4), one_in(2) ? joined_edges() : std::vector<EdgeId>{},
                          one_in(2) ? joined_edges() : std::vector<EdgeId>{}};
      case 42:
      case 43: return MarkRow{of, one_in(3) ? among(all) : all};
      case 44: return one_in(2) ? What{divide()} : knit();
      default: return knit();
    }
  }
  std::vector<EdgeId> joined_edges() {
    const auto one = [&] {
      const EdgeId open = live_edge();
      const bool loops = one_in(2) && fabric_.has(open) && fabric_.edge(open).kind == EdgeKind::live;
      return loops ? open : selvedge(side());
    };
    std::vector<EdgeId> edges{one()};
    if (one_in(4)) edges.push_back(one());
    return edges;
  }
  What knit() {
    Knit knit{one_in(6) ? number(0, 45) : number(1, 3)};
    const bool rounds = machine().tube() ? !one_in(5) : one_in(9);
    if (rounds && (spec().beds == 2 || odd_thing(4))) knit.mode = KnitMode::rounds;
    if (one_in(9)) knit.main_to = Side::right;
    return knit;
  }
  What wrap(Bed of) {
    const NeedleSet held = machine().held(of), work = stitches(of);
    if (odd_thing(6) || work.empty()) return Wrap{of, among(held)};
    NeedleSet beside;
    beside.insert(held.previous(work.first()));
    beside.insert(held.next(work.last()));
    return Wrap{of, some(beside)};
  }
  What pattern() {
    KnitPattern knit;
    knit.kind = static_cast<PatternKind>(number(0, 2));
    const int rows = number(1, 5);
    const NeedleSet all = machine().all_needles();
    const NeedleSet same = some(all);
    for (int row = 0; row < rows; ++row) knit.rows.push_back(one_in(3) ? some(all) : one_in(9) ? all : same);
    return knit;
  }
  What hang() {
    Hang hang;
    const bool row = one_in(3);
    hang.edge = edge([row](const Edge& of) {
      if (row && of.kind != EdgeKind::row) return false;
      return of.state != EdgeState::used && of.kind != EdgeKind::selvedge && of.state != EdgeState::forming;
    });
    if (fabric_.has(hang.edge) && fabric_.edge(hang.edge).kind == EdgeKind::row && !odd_thing(5)) {
      const Edge& of = fabric_.edge(hang.edge);   // above itself, or nearly so
      hang.bed = of.bed;
      hang.needles = one_in(3) ? stitches(of.bed) : of.needles;
      if (one_in(8)) hang.order = HangOrder::reversed;
      return hang;
    }
    hang.bed = bed();
    hang.loops = one_in(3) ? Loops::between : Loops::whole;
    int count = number(1, 8);
    if (fabric_.has(hang.edge)) {
      const Edge& of = fabric_.edge(hang.edge);
      count = hang.loops == Loops::between || of.whole == 0 ? of.between + (one_in(3) ? 1 : 0) : of.whole;
    }
    if (odd_thing(8)) count += number(-2, 2);
    const int first = number(0, std::max(0, spec().needles - count));
    hang.needles = NeedleSet::range(first, first + count - 1);
    if (one_in(4)) hang.order = HangOrder::reversed;
    if (spec().beds == 2 && one_in(2)) {
      hang.order = HangOrder::folded;
      hang.needles = NeedleSet::range(first, first + (count + 1) / 2 - 1);
      hang.second_needles = NeedleSet::range(first, first + count / 2 - 1);
    }
    hang.open_side = side();
    if (one_in(3)) hang.carriage = side();
    hang.moves_comb = !odd_thing(2);
    return hang;
  }
  DivideEdge divide() {
    DivideEdge divide;
    divide.edge = one_in(8) ? any_edge() : edge([](const Edge& of) { return of.state != EdgeState::used && of.whole > 0; });
    divide.side = side();
    const int there = fabric_.has(divide.edge) ? fabric_.edge(divide.edge).whole : 4;
    divide.stitches = odd_thing(6) ? there + number(-1, 2) : number(1, std::max(1, there));
    return divide;
  }
  What pick_up(Bed of) {
    PickUp pick_up;
    pick_up.bed = of;
    pick_up.onto = side();
    pick_up.along = {selvedge(pick_up.onto)};
    if (one_in(3)) pick_up.along.push_back(selvedge(pick_up.onto));
    pick_up.loops = number(1, 3);
    pick_up.rows = number(1, 4);
    std::int64_t rows = fabric_.has(pick_up.along[0]) ? fabric_.edge(pick_up.along[0]).rows : 3;
    int count = static_cast<int>(std::min<std::int64_t>(rows * pick_up.loops / pick_up.rows, 12));
    if (one_in(4)) count += number(-1, 1);
    const NeedleSet all = machine().carrying(of);
    const int edge = pick_up.onto == Side::left ? all.first() : all.last();
    if (!all.empty() && !odd_thing(8)) {
      pick_up.needles = pick_up.onto == Side::left ? NeedleSet::range(edge - count, edge - 1)
                                                   : NeedleSet::range(edge + 1, edge + count);
      if (orderly_) pick_up.needles &= machine().all_needles();
    } else {
      pick_up.needles = among({});
    }
    return pick_up;
  }
  What scrap(Bed of) {
    const YarnId threaded = machine().threaded();
    if (threaded.given() && machine().place(threaded) && !odd_thing(3))
      return CutYarn{threaded, number(0, 4) * 100'000};
    ScrapOff scrap;
    scrap.bed = of;
    scrap.waste = waste();
    const NeedleSet all = machine().carrying(of);
    const NeedleSet part = among(all);
    scrap.parts = {part};
    if (one_in(2)) scrap.parts.push_back(odd_thing(6) ? all : all - part);
    scrap.rows = one_in(3) ? number(3, 12) : 0;
    return scrap;
  }

  using Finishing = decltype(FinishingOperation::what);
  Finishing finishing() {
    switch (number(0, 8)) {
      case 0: return one_in(2) ? Finishing{DrawWaste{any_edge()}} : Finishing{divide()};
      case 1:
      case 2: {
        Graft graft{live_edge(), live_edge()};
        graft.from = static_cast<GraftFrom>(number(0, 3));
        graft.with_tail = one_in(2);
        graft.tail_needed_micrometres = number(0, 3) * 100'000;
        return graft;
      }
      case 3:
      case 4: {
        Seam seam{{selvedge(Side::left)}, {selvedge(Side::right)}};
        if (one_in(4)) seam.a = {any_edge()}, seam.b = {any_edge()};
        if (one_in(3)) seam.b.push_back(selvedge(Side::right));
        if (one_in(3)) {
          seam.a.push_back(selvedge(Side::left));
          if (one_in(2)) seam.stretches = {{1, static_cast<std::uint32_t>(number(0, 2))}};
        }
        seam.with_tail = one_in(2);
        seam.tail_needed_micrometres = number(0, 3) * 100'000;
        return seam;
      }
      case 5: return CloseCorners{slot(), one_in(2) ? std::vector<EdgeId>{} : std::vector<EdgeId>{selvedge(side())}};
      case 6:
        return ThreadThrough{{SectionId{
            static_cast<std::uint32_t>(number(0, std::max(0, static_cast<int>(fabric_.sections().size()) - 1)))}}};
      case 7: return WeaveInEnds{};
      default: return Finish{};
    }
  }

  std::mt19937 random_;
  bool orderly_;
  Fabric fabric_;
  std::vector<std::unique_ptr<Machine>> machines_;
  int piece_ = 0;
};

}  // namespace

Program random_program(std::uint32_t seed, bool orderly) { return Generator(seed, orderly).make(); }

}  // namespace stk::model
