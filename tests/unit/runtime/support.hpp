// A machine with its fabric and yarns, and short words for the operations that most tests do.
#pragma once

#include <algorithm>
#include <limits>
#include <ostream>
#include <string>
#include <vector>

#include "runtime/machine.hpp"

namespace stk::runtime {

inline std::ostream& operator<<(std::ostream& out, FaultKind kind) { return out << fault_name(kind); }
inline std::ostream& operator<<(std::ostream& out, const NeedleSet& set) {
  out << "{";
  for (const int needle : set) out << " " << needle;
  return out << " }";
}

// A bench with one piece on it. Every operation gets the next tag, counted from 1, so that causes can be named.
struct Bench {
  // Few tests are about weights: for the others the machine does not miss them.
  explicit Bench(const MachineSpec& of = MachineSpec{}, bool misses_weights = false)
      : spec(with_patience(of, misses_weights)), machine(spec, fabric) {
    main = fabric.add_yarn(YarnKind::lasting);
    contrast = fabric.add_yarn(YarnKind::lasting);
    waste = fabric.add_yarn(YarnKind::waste);
    cord = fabric.add_yarn(YarnKind::cord);
  }
  static MachineSpec with_patience(MachineSpec spec, bool misses_weights) {
    if (!misses_weights) spec.rows_without_weights = std::numeric_limits<int>::max();
    return spec;
  }
  static MachineSpec two_beds() {
    MachineSpec spec;
    spec.beds = 2;
    return spec;
  }

  template <class Op>
  Outcome operator()(const Op& op) {
    Outcome outcome = machine.apply(Operation{++tag, op});
    faults.insert(faults.end(), outcome.faults.begin(), outcome.faults.end());
    return outcome;
  }
  template <class Op>
  Outcome finish(const Op& op) {
    Outcome outcome = fabric.apply(FinishingOperation{++tag, op});
    faults.insert(faults.end(), outcome.faults.begin(), outcome.faults.end());
    return outcome;
  }
  // n stitches about the centre (the odd one on the right), e-wrapped in the main yarn.
  Outcome cast_on(int n, Side carriage = Side::right) {
    (*this)(ThreadYarn{main});
    return (*this)(CastOn{CastOnMethod::e_wrap, Bed::main, centred(n), {}, carriage, {}, {}, 0});
  }
  NeedleSet centred(int n) const {
    const int first = spec.needles / 2 - n / 2;
    return NeedleSet::range(first, first + n - 1);
  }
  int at(const char* name) const { return needle_index(spec, name); }
  NeedleSet from_to(const char* first, const char* last) const { return NeedleSet::range(at(first), at(last)); }

  std::vector<FaultKind> kinds() const {
    std::vector<FaultKind> all;
    for (const Fault& fault : faults) all.push_back(fault.kind);
    return all;
  }
  bool clean() const { return faults.empty(); }
  const Fault& only() const { return faults.at(faults.size() == 1 ? 0 : faults.size()); }  // throws unless there is one

  MachineSpec spec;
  Fabric fabric;
  Machine machine;
  YarnId main, contrast, waste, cord;
  Tag tag = 0;
  std::vector<Fault> faults;
};

inline std::vector<FaultKind> kinds_of(const Outcome& outcome) {
  std::vector<FaultKind> all;
  for (const Fault& fault : outcome.faults) all.push_back(fault.kind);
  return all;
}

using Kinds = std::vector<FaultKind>;

// What one step raises, and nothing from before it; `bench.only()` is then its one fault.
template <class Op>
Kinds raised(Bench& bench, const Op& op) {
  bench.faults.clear();
  return kinds_of(bench(op));
}
template <class Op>
Kinds finished(Bench& bench, const Op& op) {
  bench.faults.clear();
  return kinds_of(bench.finish(op));
}

inline constexpr std::int64_t cm = 10'000;   // micrometres

}  // namespace stk::runtime
