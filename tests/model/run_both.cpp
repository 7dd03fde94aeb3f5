// Runs a program on the fast and on the slow machine and looks at everything that can be seen of either after every
// step.
#include <algorithm>
#include <memory>
#include <sstream>
#include <tuple>

#include "tests/model/program.hpp"
#include "tests/model/reference.hpp"

namespace stk::model {
namespace {

auto key(const Fault& fault) {
  std::string needles;
  for (const int n : fault.needles) needles += static_cast<char>(n);
  return std::make_tuple(fault.kind, fault.tag, fault.cause, fault.bed, fault.needle, needles, fault.counter,
                         fault.pass, std::array{fault.a, fault.b, fault.c, fault.d}, fault.yarn, fault.edge,
                         fault.other_edge, fault.slot, fault.section);
}

std::string faults_differ(std::vector<Fault> fast, std::vector<Fault> slow) {
  const auto by_key = [](const Fault& a, const Fault& b) { return key(a) < key(b); };
  std::sort(fast.begin(), fast.end(), by_key);
  std::sort(slow.begin(), slow.end(), by_key);
  if (fast == slow) return "";
  std::string text = "faults differ\n";
  for (const Fault& fault : fast) text += "  fast: " + printed(fault) + "\n";
  for (const Fault& fault : slow) text += "  slow: " + printed(fault) + "\n";
  return text;
}

template <class T>
void differ(std::ostringstream& out, const char* what, const T& fast, const T& slow) {
  if (!(fast == slow)) out << what << ": fast " << fast << ", slow " << slow << "\n";
}

int number(std::optional<Side> side) { return side ? static_cast<int>(*side) : -1; }

void beds_differ(std::ostringstream& out, const Machine& fast, const SlowMachine& slow) {
  for (const Bed bed : {Bed::main, Bed::second}) {
    const std::vector<Needle>& needles = slow.needles(bed);
    differ(out, "rests", fast.rests(bed), slow.rests(bed));
    for (int n = 0; n < static_cast<int>(needles.size()); ++n) {
      const Needle& needle = needles[static_cast<std::size_t>(n)];
      std::ostringstream one;
      differ(one, "in work", fast.in_work(bed).contains(n), needle.in_work());
      differ(one, "held", fast.held(bed).contains(n), needle.held());
      differ(one, "loops", fast.loops_on(bed, n), static_cast<int>(needle.loops.size()));
      int wraps = 0;
      for (const Loop& loop : needle.loops) wraps += loop.kind == Loop::Kind::wrap;
      differ(one, "wraps", fast.wraps_on(bed, n), wraps);
      differ(one, "eyelet", fast.eyelets(bed).contains(n), needle.eyelet);
      if (!one.str().empty()) out << (bed == Bed::main ? "main " : "second ") << n << ": " << one.str();
    }
  }
}

void ledgers_differ(std::ostringstream& out, const Machine& fast, const SlowMachine& slow) {
  if (!(fast.ledger() == slow.ledger())) out << "ledgers differ\n";
  const Ledger& of = fast.ledger();
  const std::int64_t came = of.cast_on + of.picked_up + of.increased + of.lifted + of.hung + of.wrapped + of.tucked;
  const std::int64_t went = of.merged + of.secured + of.to_edges + of.dropped;
  differ(out, "loops that came, and went or are there", came, went + fast.loops_on_hooks());
}

void fabrics_differ(std::ostringstream& out, const Fabric& fast, const Sock& slow) {
  differ(out, "edges", fast.edges().size(), slow.edges.size());
  for (std::size_t index = 0; index < std::min(fast.edges().size(), slow.edges.size()); ++index) {
    const Edge& a = fast.edges()[index];
    const Edge& b = slow.edges[index];
    const auto all = [](const Edge& edge) {
      return std::tie(edge.kind, edge.state, edge.live, edge.waste_in, edge.whole, edge.between, edge.half, edge.rows,
                      edge.joined, edge.side, edge.bed, edge.piece, edge.section, edge.yarn, edge.made, edge.used, edge.counter,
                      edge.pass);
    };
    if (all(a) == all(b) && a.needles == b.needles) continue;
    out << "edge " << index << ": kind " << int(a.kind) << "/" << int(b.kind) << ", state " << int(a.state) << "/"
        << int(b.state) << ", live " << a.live << "/" << b.live << ", whole " << a.whole << "/" << b.whole << ", rows "
        << a.rows << "/" << b.rows << ", yarn " << a.yarn.value << "/" << b.yarn.value << "\n";
  }
  differ(out, "slots", fast.slots().size(), slow.slots.size());
  for (std::size_t index = 0; index < std::min(fast.slots().size(), slow.slots.size()); ++index) {
    const Slot& a = fast.slots()[index];
    const Slot& b = slow.slots[index];
    if (std::tie(a.knitted_over, a.opened, a.closed) != std::tie(b.knitted_over, b.opened, b.closed))
      out << "slot " << index << "\n";
  }
  differ(out, "sections", fast.sections().size(), slow.sections.size());
  for (std::size_t index = 0; index < std::min(fast.sections().size(), slow.sections.size()); ++index) {
    const Section& a = fast.sections()[index];
    const Section& b = slow.sections[index];
    differ(out, "passes of a section", a.passes, b.passes);
    differ(out, "short rows of a section", a.short_row_series, b.short_row_series);
    differ(out, "eyelets of a section", a.eyelets, b.eyelets);
  }
  differ(out, "ends", fast.ends().size(), slow.ends.size());
  for (std::size_t index = 0; index < std::min(fast.ends().size(), slow.ends.size()); ++index) {
    const YarnEnd& a = fast.ends()[index];
    const YarnEnd& b = slow.ends[index];
    const auto all = [](const YarnEnd& end) {
      return std::tie(end.yarn, end.bed, end.needle, end.pass, end.tail_micrometres, end.last, end.used, end.woven,
                      end.edge);
    };
    if (all(a) != all(b)) out << "end " << index << " at " << a.needle << "/" << b.needle << "\n";
  }
  for (std::size_t index = 0; index < fast.yarns().size(); ++index) {
    differ(out, "loops of a yarn", fast.yarns()[index].loops, slow.yarn_loops[index]);
  }
}

}  // namespace

Report run_both(const Program& program) {
  Report report;
  Fabric fabric;
  Sock sock;
  for (const YarnKind kind : program_yarns) {
    fabric.add_yarn(kind);
    sock.add_yarn(kind);
  }
  std::vector<std::unique_ptr<Machine>> fast;
  std::vector<std::unique_ptr<SlowMachine>> slow;
  for (int piece = 0; piece < pieces; ++piece) {
    fast.push_back(std::make_unique<Machine>(program.spec, fabric));
    slow.push_back(std::make_unique<SlowMachine>(program.spec, sock));
  }
  for (std::size_t index = 0; index < program.steps.size(); ++index) {
    const Step& step = program.steps[index];
    const std::size_t piece = static_cast<std::size_t>(step.piece);
    std::vector<Fault> fast_faults, slow_faults;
    if (const auto* operation = std::get_if<Operation>(&step.what)) {
      fast_faults = fast[piece]->apply(*operation).faults;
      slow_faults = slow[piece]->apply(*operation);
    } else {
      const auto& finishing = std::get<FinishingOperation>(step.what);
      fast_faults = fabric.apply(finishing).faults;
      slow_faults = sock.finish(finishing);
    }
    report.faults.insert(report.faults.end(), fast_faults.begin(), fast_faults.end());
    std::ostringstream out;
    out << faults_differ(fast_faults, slow_faults);
    const Machine& a = *fast[piece];
    const SlowMachine& b = *slow[piece];
    differ(out, "carriage", number(a.carriage()), number(b.carriage()));
    differ(out, "counter", a.counter(), b.counter());
    differ(out, "passes", a.passes(), b.passes());
    differ(out, "tube", a.tube(), b.tube());
    differ(out, "comb", a.comb_hangs(), b.comb_hangs());
    differ(out, "weights", a.weights_hang(), b.weights_hang());
    differ(out, "threaded", a.threaded().value, b.threaded().value);
    for (std::uint32_t yarn = 0; yarn < fabric.yarns().size(); ++yarn) {
      const auto place = a.place(YarnId{yarn}), expected = b.place(YarnId{yarn});
      differ(out, "yarn has a place", place.has_value(), expected.has_value());
      if (!place || !expected) continue;
      differ(out, "place of a yarn", place->needle, expected->needle);
      differ(out, "bed of a yarn", static_cast<int>(place->bed), static_cast<int>(expected->bed));
      differ(out, "pass of a yarn", place->pass, expected->pass);
    }
    beds_differ(out, a, b);
    ledgers_differ(out, a, b);
    fabrics_differ(out, fabric, sock);
    if (out.str().empty()) continue;
    report.difference = "after step " + std::to_string(index) + ":\n" + out.str();
    return report;
  }
  return report;
}

Program shrunk(Program program) {
  const auto differs = [](const Program& candidate) { return !run_both(candidate).difference.empty(); };
  for (std::size_t chunk = std::max<std::size_t>(program.steps.size() / 2, 1); chunk > 0;) {
    bool smaller = false;
    for (std::size_t from = 0; from + chunk <= program.steps.size();) {
      Program candidate = program;
      const auto begin = candidate.steps.begin() + static_cast<std::ptrdiff_t>(from);
      candidate.steps.erase(begin, begin + static_cast<std::ptrdiff_t>(chunk));
      if (differs(candidate)) {
        program = candidate;
        smaller = true;
      } else {
        from += chunk;
      }
    }
    if (!smaller) chunk /= 2;
  }
  for (Step& step : program.steps) {
    auto* operation = std::get_if<Operation>(&step.what);
    auto* knit = operation ? std::get_if<Knit>(&operation->what) : nullptr;
    while (knit != nullptr && knit->passes > 0) {
      --knit->passes;
      if (differs(program)) continue;
      ++knit->passes;
      break;
    }
  }
  return program;
}

}  // namespace stk::model
