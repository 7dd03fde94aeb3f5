// Programs and faults as text, for the moment a test fails.
#include <sstream>
#include <type_traits>

#include "tests/model/program.hpp"

namespace stk::model {
namespace {

std::string text(const NeedleSet& set) {
  std::string out = "{";
  for (const int n : set) out += " " + std::to_string(n);
  return out + " }";
}
template <class Kind>
std::string text(Id<Kind> id) {
  return id.given() ? std::to_string(id.value) : "-";
}
template <class T>
std::string text(const std::vector<T>& list) {
  std::string out = "[";
  for (const T& each : list) out += " " + text(each);
  return out + " ]";
}
template <class T>
std::string text(const T& value)
  requires(std::is_enum_v<T> || std::is_integral_v<T>)
{
  return std::to_string(static_cast<std::int64_t>(value));
}

constexpr const char* operation_names[] = {
    "BeginSection", "ResetCounter", "SetTension",    "SetPitch",     "SetCarriage", "ThreadYarn",  "RestYarn",
    "CutYarn",      "SetNeedles",   "BringIntoWork", "PutOutOfWork", "Hold",        "Release",     "Wrap",
    "Lift",         "Move",         "SayEmpties",    "Decrease",     "Increase",    "Cross",       "Transfer",
    "LatchUp",      "CastOn",       "MarkRow",       "Hang",         "PickUp",       "HangComb",    "HangWeights", "RemoveComb",
    "Knit",         "KnitPattern",  "KnitJoined",    "KnitByHand",   "ScrapOff",    "TakeOff",     "BindOff",
    "Gather",       "Drop",         "OpenSlot",      "DrawWaste",    "DivideEdge",
    "EndPiece"};
constexpr const char* finishing_names[] = {"DrawWaste",     "DivideEdge",  "Graft",       "Seam",  "CloseCorners",
                                           "ThreadThrough", "WeaveInEnds", "Finish"};

// Whatever of the known fields an operation has.
struct Fields {
  std::ostringstream& out;
  template <class Op>
  void operator()(const Op& op) const {
#define STK_FIELD(field) \
  if constexpr (requires { op.field; }) out << " " #field " " << text(op.field)
    STK_FIELD(bed);
    STK_FIELD(beds);
    STK_FIELD(from);
    STK_FIELD(method);
    STK_FIELD(mode);
    STK_FIELD(main_to);
    STK_FIELD(kind);
    STK_FIELD(side);
    STK_FIELD(stitches);
    STK_FIELD(inset);
    STK_FIELD(eyelet);
    STK_FIELD(first);
    STK_FIELD(left);
    STK_FIELD(right);
    STK_FIELD(needles);
    STK_FIELD(second_needles);
    STK_FIELD(facing);
    STK_FIELD(in_work);
    STK_FIELD(parts);
    STK_FIELD(distance);
    STK_FIELD(empties);
    STK_FIELD(brings);
    STK_FIELD(onto);
    STK_FIELD(passes);
    STK_FIELD(rows);
    STK_FIELD(loops);
    STK_FIELD(order);
    STK_FIELD(pitch);
    STK_FIELD(knits);
    STK_FIELD(to);
    STK_FIELD(offset_tenths);
    STK_FIELD(yarn);
    STK_FIELD(second);
    STK_FIELD(waste);
    STK_FIELD(cord);
    STK_FIELD(waste_rows);
    STK_FIELD(tail_micrometres);
    STK_FIELD(tail_needed_micrometres);
    STK_FIELD(edge);
    STK_FIELD(on);
    STK_FIELD(along);
    STK_FIELD(on_left);
    STK_FIELD(on_right);
    STK_FIELD(a);
    STK_FIELD(b);
    STK_FIELD(with_tail);
    if constexpr (requires { op.stretches; }) {
      for (const auto& [a, b] : op.stretches) out << " stretch " << a << "/" << b;
    }
    STK_FIELD(slot);
    STK_FIELD(selvedges);
    STK_FIELD(sections);
    STK_FIELD(moves_comb);
    STK_FIELD(upper_on_holder);
#undef STK_FIELD
    if constexpr (requires { op.carriage.has_value(); }) {
      if (op.carriage) out << " carriage " << text(*op.carriage);
    } else if constexpr (requires { op.carriage; }) {
      out << " carriage " << text(op.carriage);
    }
  }
};

}  // namespace

std::string printed(const Program& program) {
  std::ostringstream out;
  const MachineSpec& spec = program.spec;
  out << spec.needles << " needles, " << spec.beds << " beds, float " << spec.float_limit << ", hook "
      << spec.hook_limit << ", prongs " << spec.tool_prongs << ", reach " << spec.move_reach << ", crossing "
      << spec.crossing_reach << ", tuck " << spec.tuck_limit << "/" << spec.tuck_neighbours << ", slip "
      << spec.slip_limit << ", hold " << spec.long_hold_passes << ", weights "
      << spec.weights_reach << "/" << spec.rows_without_weights << ", dial " << spec.dial_span_tenths << "\n";
  for (std::size_t index = 0; index < program.steps.size(); ++index) {
    const Step& step = program.steps[index];
    out << "  " << index << ": ";
    if (const auto* operation = std::get_if<Operation>(&step.what)) {
      out << "piece " << step.piece << ", tag " << operation->tag << " " << operation_names[operation->what.index()];
      std::visit(Fields{out}, operation->what);
    } else {
      const auto& finishing = std::get<FinishingOperation>(step.what);
      out << "tag " << finishing.tag << " " << finishing_names[finishing.what.index()];
      std::visit(Fields{out}, finishing.what);
    }
    out << "\n";
  }
  return out.str();
}

std::string printed(const Fault& fault) {
  std::ostringstream out;
  out << fault_name(fault.kind) << " tag " << fault.tag << " cause "
      << (fault.cause == no_tag ? "-" : text(fault.cause)) << " bed " << text(fault.bed) << " needle " << fault.needle
      << " " << text(fault.needles) << " counter " << fault.counter << " pass " << fault.pass << " a " << fault.a
      << " b " << fault.b << " c " << fault.c << " d " << fault.d << " yarn " << text(fault.yarn) << " edge "
      << text(fault.edge) << "/" << text(fault.other_edge) << " slot " << text(fault.slot) << " section "
      << text(fault.section);
  return out.str();
}

}  // namespace stk::model
