// What follows from the number of rows, over the random programs: the side of the carriage from whether they are even,
// and the rows of the two selvedges, which is what a seam goes by. The needles are looked at before each step and the
// rows worked out from them, one by one; no number comes from the machine that is tested.
#include <array>
#include <catch2/catch.hpp>
#include <map>
#include <memory>
#include <string>

#include "tests/model/program.hpp"

using namespace stk::model;

namespace {

constexpr std::uint32_t programs = 4000;

bool even(std::int64_t number) {
  return number % 2 == 0;
}

struct Rows {
  std::int64_t passes = 0, left = 0, right = 0;
  bool all_alike = true;  // no stitch was ever held or slipped or tucked, no bed rested, nothing knitted round
};

// The passes of one step, knitted one by one on what can be seen of the needles: which of them the outermost loops of
// the fabric take part in.
class Observer {
 public:
  Observer(const Machine& machine, const Operation& operation) : machine_(machine) {
    carrying_ = {machine.carrying(Bed::main), machine.carrying(Bed::second)};
    from_ = machine.carriage().value_or(Side::right);
    lasting_ = machine.threaded().given() && machine.threaded().value < 2;  // the first two of program_yarns
    if (const auto* knit = std::get_if<Knit>(&operation.what)) {
      round_ = knit->mode == KnitMode::rounds;
      for (std::int64_t row = 0; row < knit->passes; ++row) pass({}, {});
    } else if (const auto* joined = std::get_if<KnitJoined>(&operation.what)) {
      for (std::int64_t row = 0; row < joined->passes; ++row) pass({}, {});
    } else if (const auto* pattern = std::get_if<KnitPattern>(&operation.what)) {
      for (const NeedleSet& row : pattern->rows) {
        pass(pattern->kind == PatternKind::slip ? row : NeedleSet{},
             pattern->kind == PatternKind::tuck ? row & carrying_[0] : NeedleSet{});
      }
    }
  }
  Rows rows;

 private:
  void pass(const NeedleSet& slipped, const NeedleSet& tucked) {
    const Side to = from_ == Side::left ? Side::right : Side::left;
    from_ = to;
    const CarriageKnits knits = machine_.carriage_knits();
    if (knits == CarriageKnits::to_left && to == Side::right) return;  // slips back
    if (knits == CarriageKnits::to_right && to == Side::left) return;
    if (!lasting_) return;
    ++rows.passes;
    NeedleSet knitted;
    std::array<bool, 2> knits_on{};
    for (const Bed bed : {Bed::main, Bed::second}) {
      if (machine_.rests(bed)) continue;
      NeedleSet of_bed = machine_.in_work(bed);
      if (bed == Bed::main) of_bed -= slipped;
      carrying_[static_cast<std::size_t>(bed)] |= of_bed;  // an eyelet takes the yarn
      if (bed == Bed::main) of_bed -= tucked;
      knitted |= of_bed;
      knits_on[static_cast<std::size_t>(bed)] = !of_bed.empty();
    }
    NeedleSet fabric = carrying_[0] | carrying_[1];
    if (!(fabric - knitted).empty()) rows.all_alike = false;
    if (machine_.tube() || round_) rows.all_alike = false;
    const bool flap = machine_.tube() && knits_on[0] != knits_on[1];   // rows on one layer of a tube
    if (round_ || (machine_.tube() && !flap)) return;                  // a tube has no selvedge
    if (flap) fabric = carrying_[knits_on[0] ? 0 : 1];
    rows.left += knitted.contains(fabric.first());
    rows.right += knitted.contains(fabric.last());
  }

  const Machine& machine_;
  std::array<NeedleSet, 2> carrying_;
  Side from_ = Side::right;
  bool lasting_ = false, round_ = false;
};

bool real_fault(const Outcome& outcome) {
  for (const Fault& fault : outcome.faults)
    if (!is_note(fault.kind)) return true;
  return false;
}

}  // namespace

TEST_CASE("an odd number of passes changes the side of the carriage, and the counter counts them all") {
  std::int64_t passes = 0, odd = 0, beginnings = 0;
  for (std::uint32_t seed = 1; seed <= programs; ++seed) {
    const Program program = random_program(seed, seed % 3 == 0);
    Fabric fabric;
    for (const YarnKind kind : program_yarns) fabric.add_yarn(kind);
    std::vector<std::unique_ptr<Machine>> machines;
    for (int piece = 0; piece < pieces; ++piece) machines.push_back(std::make_unique<Machine>(program.spec, fabric));
    std::array<bool, pieces> knitted{};  // since the needles were bare
    for (std::size_t index = 0; index < program.steps.size(); ++index) {
      const Step& step = program.steps[index];
      const auto* operation = std::get_if<Operation>(&step.what);
      if (operation == nullptr) {
        fabric.apply(std::get<FinishingOperation>(step.what));
        continue;
      }
      Machine& machine = *machines[static_cast<std::size_t>(step.piece)];
      const auto before = machine.carriage();
      bool& has_rows = knitted[static_cast<std::size_t>(step.piece)];
      const bool bare = machine.nothing_on_needles();
      if (bare) has_rows = false;
      const bool free_to_go = !has_rows;
      const std::int64_t passes_before = machine.passes(), counter_before = machine.counter();
      const Outcome outcome = machine.apply(*operation);
      INFO("seed " << seed << ", step " << index);
      REQUIRE(machine.passes() == passes_before + outcome.passes);
      const auto* cast_on = std::get_if<CastOn>(&operation->what);
      if (cast_on && outcome.edges.empty()) continue;  // not done
      if (cast_on) {
        ++beginnings;
        REQUIRE(machine.carriage() == cast_on->carriage);
        REQUIRE(machine.counter() == (cast_on->method == CastOnMethod::zigzag ? 1 : 0));
      } else if (!std::holds_alternative<ResetCounter>(operation->what)) {
        REQUIRE(machine.counter() == counter_before + outcome.passes);
      }
      if (!cast_on && outcome.passes > 0 && outcome.loops > 0) has_rows = true;
      // Over bare needles, and over loops that a hand has just put there, the carriage may be taken to the side that a
      // beginning asks for; elsewhere that is a fault. What is hung with a yarn that has no place yet may be begun on
      // either side.
      const bool placed = (cast_on && free_to_go) || std::holds_alternative<Hang>(operation->what);
      if (!before || placed || real_fault(outcome)) continue;
      passes += outcome.passes;
      odd += !even(outcome.passes);
      REQUIRE((machine.carriage() == before) == even(outcome.passes));
    }
  }
  CHECK(passes > 20'000);
  CHECK(odd > 2'000);
  CHECK(beginnings > 2'000);
}

TEST_CASE(
    "a selvedge has the rows of its section but those in which its outermost stitch was held, slipped or tucked") {
  std::int64_t alike = 0, unequal = 0, shorter = 0;
  for (std::uint32_t seed = 1; seed <= 5 * programs; ++seed) {
    const Program program = random_program(seed, true);
    Fabric fabric;
    for (const YarnKind kind : program_yarns) fabric.add_yarn(kind);
    std::vector<std::unique_ptr<Machine>> machines;
    for (int piece = 0; piece < pieces; ++piece) machines.push_back(std::make_unique<Machine>(program.spec, fabric));
    std::map<std::uint32_t, Rows> sections;
    for (std::size_t index = 0; index < program.steps.size(); ++index) {
      const Step& step = program.steps[index];
      const auto* operation = std::get_if<Operation>(&step.what);
      if (operation == nullptr) {
        fabric.apply(std::get<FinishingOperation>(step.what));
        continue;
      }
      Machine& machine = *machines[static_cast<std::size_t>(step.piece)];
      const Observer seen(machine, *operation);
      const Outcome outcome = machine.apply(*operation);
      // Behind a fault it is for the machine to say what became of the row: the program ends here.
      if (real_fault(outcome)) break;
      if (!machine.section().given()) continue;
      INFO("seed " << seed << ", step " << index);
      Rows& sum = sections[machine.section().value];
      sum.passes += seen.rows.passes;
      sum.left += seen.rows.left;
      sum.right += seen.rows.right;
      sum.all_alike = sum.all_alike && seen.rows.all_alike;
      const Section& section = fabric.section(machine.section());
      REQUIRE(fabric.edge(section.left).rows == sum.left);
      REQUIRE(fabric.edge(section.right).rows == sum.right);
      if (!sum.all_alike) continue;  // otherwise both edges have all the rows, and there are no short rows
      REQUIRE(section.short_row_series == 0);
      REQUIRE(section.passes == sum.passes);
      REQUIRE(sum.left == sum.passes);
      REQUIRE(sum.right == sum.passes);
    }
    for (const auto& [id, sum] : sections) {
      alike += sum.all_alike && sum.passes > 0;
      unequal += sum.left != sum.right;
      shorter += sum.left < sum.passes && sum.right < sum.passes;
    }
  }
  // The programs are good enough to say so.
  INFO(alike << " " << unequal << " " << shorter);
  CHECK(alike > 1'000);
  CHECK(unequal > 100);
  CHECK(shorter > 20);
}
