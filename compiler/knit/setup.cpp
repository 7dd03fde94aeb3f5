#include "compiler/knit/setup.hpp"

#include "compiler/knit/setup_yarn.hpp"

#include <algorithm>

#include "compiler/text/limits.hpp"

namespace stk::knit {
namespace {

static_assert(runtime::needle_limit == text::limits::needles_on_a_bed, "the machine and the table of limits agree");

// How far beside a weight its pull still brings a loop down (common practice: a weight at least every hand's breadth).
constexpr int weights_reach_micrometres = 50'000;

using findings::Code;
using grade::Frame;
using values::Quantity;

// A figure of a machine class: `pitch 6.5 mm`, `needles 150`, `dial 0 to 10`.
std::optional<Quantity> figure(const syntax::MachineClass& machine, std::string_view name, std::size_t which, grade::Evaluator& evaluator,
                               text::FileId file) {
  Frame frame{nullptr, file, {}};
  for (const syntax::MachineField& field : machine.fields)
    if (field.name.text == name && field.values.size() > which && field.values[which]) {
      const grade::Graded value = evaluator.evaluate(*field.values[which], frame, grade::all_sizes(evaluator.sizes()));
      if (const Quantity* q = value.quantity(0)) return *q;
    }
  return std::nullopt;
}

// Where a figure is written; the machine's name where it is not.
text::Span place_of(const syntax::MachineClass& machine, std::string_view name) {
  for (const syntax::MachineField& field : machine.fields)
    if (field.name.text == name) return field.name.span;
  return machine.name.span;
}

std::string printed_of(const syntax::MachineClass& machine, grade::Evaluator& evaluator, text::FileId file) {
  Frame frame{nullptr, file, {}};
  for (const syntax::MachineField& field : machine.fields)
    if (field.name.text == "printed" && !field.values.empty() && field.values[0])
      return evaluator.text(*field.values[0], frame, 1)[0];
  std::string name = machine.name.text;   // mid_gauge: "mid gauge"
  for (char& c : name)
    if (c == '_') c = ' ';
  return name;
}

}  // namespace

EditionSetup set_up(const names::Program& program, grade::Evaluator& evaluator, findings::Findings& findings) {
  EditionSetup setup;
  setup.index = evaluator.edition();
  const names::Placed<syntax::Edition>& placed = program.editions[setup.index];
  const syntax::Edition& written = *placed.node;
  const grade::SizeSet everywhere = grade::all_sizes(evaluator.sizes());
  Frame frame{nullptr, placed.span.file, {}};
  setup.name = written.name.text;

  runtime::MachineSpec spec;
  if (written.machines.empty()) {
    findings.report<Code::G23>(written.name.span).label("this edition names none")
        .help("`machine mid_gauge` inside the edition; `machine mid_gauge with second bed` for two beds");
    return setup;
  }
  const syntax::MachineRef& ref = written.machines.front();
  const names::Declaration* declaration = program.find(placed.span.file, names::Space::machine, ref.name.text);
  const auto* machine = declaration ? std::get_if<const syntax::MachineClass*>(&declaration->what) : nullptr;
  if (!machine) return setup;   // unknown: names/ reported it
  const text::FileId machine_file = declaration->file();
  setup.machine.name = ref.name.text;
  setup.machine.printed = printed_of(**machine, evaluator, machine_file);
  setup.machine.beds = ref.second_bed ? 2 : 1;
  const auto needles = figure(**machine, "needles", 0, evaluator, machine_file);
  const auto pitch = figure(**machine, "pitch", 0, evaluator, machine_file);
  const auto low = figure(**machine, "dial", 0, evaluator, machine_file), high = figure(**machine, "dial", 1, evaluator, machine_file);
  const auto count = needles ? needles->value.as_int64() : std::nullopt;
  if (!count || *count < 2 || *count > runtime::needle_limit) {
    findings.report<Code::G24>(place_of(**machine, "needles"), "needles").label("a bed has 2 to {} needles", runtime::needle_limit).help("`needles 150`");
    return setup;
  }
  spec.needles = static_cast<int>(*count);
  spec.beds = setup.machine.beds;
  setup.machine.needles = spec.needles;
  if (pitch && pitch->dimension == values::dimensions::length) {
    setup.machine.pitch = *pitch;
    const auto micrometres = values::multiply(pitch->value, values::Rational(1000));
    const auto whole = micrometres ? values::nearest(*micrometres).as_int64() : std::nullopt;
    if (whole && *whole > 0 && *whole < 100000) spec.pitch_micrometres = static_cast<int>(*whole);
    else findings.report<Code::G24>(place_of(**machine, "pitch"), "pitch").label("needles stand some millimetres apart").help("`pitch 6.5 mm`");
  }
  if (const auto repeat = figure(**machine, "repeat", 0, evaluator, machine_file)) {
    setup.repeat = repeat->value.as_int64();
    if (!setup.repeat || *setup.repeat < 1 || *setup.repeat > runtime::needle_limit)
      findings.report<Code::G24>(place_of(**machine, "repeat"), "repeat").label("a repeat is 1 needle or more").help("`repeat 24 sts`");
  }
  if (low && high) {
    const auto span = values::subtract(*high, *low);
    const auto tenths = span ? values::multiply(span->value, values::Rational(10)) : values::Outcome<values::Rational>(values::Reason::out_of_range);
    const auto whole = tenths ? values::nearest(*tenths).as_int64() : std::nullopt;
    if (whole && *whole > 0 && *whole < 10000) spec.dial_span_tenths = static_cast<int>(*whole);
    else findings.report<Code::G24>(place_of(**machine, "dial"), "dial").label("a dial goes from a smaller number to a larger one").help("`dial 0, 10`");
  }

  spec.weights_reach = std::max(1, weights_reach_micrometres / spec.pitch_micrometres);

  std::vector<std::optional<std::int64_t>> limits(evaluator.sizes());
  for (const names::Placed<syntax::Floats>& floats : program.floats) {
    Frame floats_frame{nullptr, floats.span.file, {}};
    if (floats.node->limit) limits = evaluator.whole(*floats.node->limit, values::dimensions::sts, floats_frame, everywhere);
  }
  for (std::size_t i = 0; i < evaluator.sizes(); ++i) {
    runtime::MachineSpec own = spec;
    if (limits[i]) own.float_limit = static_cast<int>(std::min<std::int64_t>(*limits[i], runtime::needle_limit));
    setup.specs.push_back(own);
  }

  for (const syntax::Yarn& yarn : written.yarns) setup.yarns.push_back(set_up_yarn(yarn, frame, evaluator, findings));
  setup.good = true;
  return setup;
}

}  // namespace stk::knit
