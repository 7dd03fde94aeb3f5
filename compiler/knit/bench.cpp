#include "compiler/knit/bench.hpp"

#include <algorithm>

namespace stk::knit {


void Bench::begin_piece(const std::string& name, bool mirrored) {
  mirrored_ = mirrored;
  machine_ = std::make_unique<runtime::Machine>(spec_, fabric_);
  pieces_.push_back({name, mirrored, machine_->piece(), {}, {}, {}});
}

void Bench::begin_section(const std::string& name, runtime::SectionId id) { pieces_.back().sections.push_back({name, id}); }

void Bench::name_edge(const std::string& name, runtime::EdgeId edge) {
  Piece& piece = pieces_.back();
  const std::string section = piece.sections.empty() ? std::string() : piece.sections.back().name;
  piece.edges.push_back({name, section, edge});
}

void Bench::name_slot(const std::string& name, runtime::SlotId slot) { pieces_.back().slots.push_back({name, slot}); }

Part Bench::find_in(const Piece& piece, const std::string* path, std::size_t length) const {
  Part part;
  if (length == 0) return part;
  const std::string& last = path[length - 1];
  if (length == 2 && (last == "upper" || last == "lower"))
    for (const NamedSlot& slot : piece.slots)
      if (slot.name == path[0]) {
        const runtime::Slot& s = fabric_.slot(slot.id);
        part.edges.push_back(last == "lower" ? s.lower : s.upper);
        return part;
      }
  if (length == 1)
    for (const NamedSlot& slot : piece.slots)
      if (slot.name == last) {
        part.slot = slot.id;
        return part;
      }
  const std::string section = length == 2 ? path[0] : std::string();
  if (length > 2) return part;
  if (length == 2 && std::none_of(piece.sections.begin(), piece.sections.end(), [&](const NamedSection& s) { return s.name == section; }))
    return part;
  if (last == "left" || last == "right") {
    const bool left = (last == "left") != piece.mirrored;
    for (const NamedSection& s : piece.sections)
      if (length == 1 || s.name == section) {
        const runtime::Section& fabric_section = fabric_.section(s.id);
        const runtime::EdgeId edge = left ? fabric_section.left : fabric_section.right;
        // A section in which nothing was knitted at this side has no chain to sew.
        if (length == 2 || fabric_.edge(edge).rows > 0) part.edges.push_back(edge);
      }
    return part;
  }
  if (last == "eyelets") {
    for (const NamedSection& s : piece.sections)
      if (length == 1 || s.name == section) part.sections.push_back(s.id);
    return part;
  }
  if (last == "cast_on") {
    for (auto s = piece.sections.rbegin(); s != piece.sections.rend(); ++s)
      if ((length == 1 || s->name == section) && fabric_.section(s->id).cast_on.given()) {
        part.edges.push_back(fabric_.section(s->id).cast_on);
        return part;
      }
    return part;
  }
  for (auto edge = piece.edges.rbegin(); edge != piece.edges.rend(); ++edge)
    if (edge->name == last && (length == 1 || edge->section == section)) {
      part.edges.push_back(edge->id);
      return part;
    }
  return part;
}

Part Bench::find(const std::vector<std::string>& path) const {
  // The piece at hand first, then pieces by name.
  Part part;
  if (machine_ && !pieces_.empty()) part = find_in(pieces_.back(), path.data(), path.size());
  if (!part.found() && path.size() > 1)
    for (auto piece = pieces_.rbegin(); piece != pieces_.rend() && !part.found(); ++piece)
      if (piece->name == path[0]) part = find_in(*piece, path.data() + 1, path.size() - 1);
  // apply() changes left and right about once more on the way to the machine.
  if (machine_ && mirrored_)
    for (runtime::EdgeId& edge : part.edges) edge = fabric_.mirrored_edge(edge);
  return part;
}

std::string Bench::selvedge_name(runtime::EdgeId selvedge) const {
  const runtime::Edge& edge = fabric_.edge(selvedge);
  for (const Piece& piece : pieces_) {
    if (!(piece.id == edge.piece)) continue;
    const bool left = (edge.side == runtime::Side::left) != piece.mirrored;
    const std::string section = section_name(edge.section);
    return piece.name + (section.empty() ? "" : "." + section) + (left ? ".left" : ".right");
  }
  return "";
}

std::vector<std::string> Bench::known_parts() const {
  std::vector<std::string> result;
  for (const Piece& piece : pieces_) {
    const bool inside = machine_ && &piece == &pieces_.back();
    const std::string prefix = inside ? std::string() : piece.name + ".";
    for (const NamedEdge& edge : piece.edges) result.push_back(prefix + edge.name);
    for (const NamedSlot& slot : piece.slots) result.push_back(prefix + slot.name);
    for (const char* side : {"left", "right", "cast_on"}) {
      // Only what was cast on has such an edge.
      const auto there = [&](const NamedSection& s) { return side[0] != 'c' || fabric_.section(s.id).cast_on.given(); };
      if (std::any_of(piece.sections.begin(), piece.sections.end(), there)) result.push_back(prefix + side);
      for (const NamedSection& s : piece.sections)
        if (!s.name.empty() && there(s)) result.push_back(prefix + s.name + "." + side);
    }
  }
  return result;
}

std::optional<runtime::PieceId> Bench::piece_called(std::string_view name) const {
  for (const Piece& piece : pieces_)
    if (piece.name == name) return piece.id;
  return std::nullopt;
}

bool Bench::piece_is_mirrored(runtime::PieceId id) const {
  return std::any_of(pieces_.begin(), pieces_.end(), [&](const Piece& p) { return p.id == id && p.mirrored; });
}

std::string Bench::section_name(runtime::SectionId section) const {
  for (const Piece& piece : pieces_)
    for (const NamedSection& named : piece.sections)
      if (named.id == section) return named.name;
  return {};
}

std::vector<runtime::EdgeId> Bench::selvedges_hung_from(runtime::SlotId slot) const {
  // The lower edge knows who hung it only by its tag; the piece whose first section begins with it has no cast-on edge.
  std::vector<runtime::EdgeId> result;
  const runtime::PieceId own = fabric_.edge(fabric_.slot(slot).lower).piece;
  for (const Piece& piece : pieces_) {
    if (piece.id == own) continue;
    const bool cast_on = std::any_of(piece.sections.begin(), piece.sections.end(), [&](const NamedSection& s) { return fabric_.section(s.id).cast_on.given(); });
    if (cast_on) continue;
    for (const NamedSection& s : piece.sections)
      for (const runtime::EdgeId edge : {fabric_.section(s.id).left, fabric_.section(s.id).right})
        if (fabric_.edge(edge).rows > 0 && fabric_.edge(edge).state != runtime::EdgeState::used) result.push_back(edge);
  }
  return result;
}

runtime::Outcome Bench::apply(runtime::Operation operation) {
  const bool begins_section = std::holds_alternative<runtime::BeginSection>(operation.what);
  const std::size_t sections = fabric_.sections().size();
  if (mirrored_) operation = runtime::mirrored(operation, spec_, fabric_);
  runtime::Outcome outcome = machine_->apply(operation);
  // What is knitted before any section stands in one that the machine opens silently: its edges are the piece's as well.
  if (!begins_section && fabric_.sections().size() > sections) begin_section("", runtime::SectionId{static_cast<std::uint32_t>(sections)});
  return outcome;
}

std::optional<runtime::Side> Bench::carriage() const {
  if (const auto side = machine_->carriage()) return seen(*side);
  return std::nullopt;
}

Needle Bench::needle(int real_index, runtime::Bed bed) const {
  if (real_index < 0) return {};
  const std::int32_t number = runtime::needle_number(spec_, real_index);
  return {runtime::needle_side(spec_, real_index) == runtime::Side::left ? -number : number,
          bed == runtime::Bed::main ? knit::Bed::main : knit::Bed::second};
}

NeedleSpan Bench::span(const runtime::NeedleSet& logical, runtime::Bed bed) const {
  const runtime::NeedleSet real = seen(logical);
  return {needle(real.first(), bed), needle(real.last(), bed)};
}

std::int32_t Bench::loop_tension_hundredths() const {
  if (!machine_ || machine_->stitches(runtime::Bed::second) > 0) return 0;
  return machine_->tension(runtime::Bed::main) * 10;
}

MachineState Bench::state() const {
  MachineState state;
  if (!machine_) return state;
  const runtime::Machine& m = *machine_;
  // Before a cast-on or a hang settles it, the side is told as the first sock's.
  state.carriage = m.carriage().value_or(seen(runtime::Side::right)) == runtime::Side::left ? Side::left : Side::right;
  state.row_counter = m.counter();
  state.stitches = m.stitches();
  state.in_work = in_work(runtime::Bed::main).count() + in_work(runtime::Bed::second).count();
  state.held = held(runtime::Bed::main).count() + held(runtime::Bed::second).count();
  state.second_bed = m.stitches(runtime::Bed::second);
  const runtime::NeedleSet& carrying = m.carrying(runtime::Bed::main);
  state.span = carrying.empty() ? NeedleSpan{needle(m.carrying(runtime::Bed::second).first(), runtime::Bed::second), needle(m.carrying(runtime::Bed::second).last(), runtime::Bed::second)}
                                : NeedleSpan{needle(carrying.first()), needle(carrying.last())};
  if (const runtime::NeedleSet& facing = m.carrying(runtime::Bed::second); !facing.empty())
    state.second_span = {needle(facing.first(), runtime::Bed::second), needle(facing.last(), runtime::Bed::second)};
  if (const runtime::NeedleSet working = carrying & m.in_work(runtime::Bed::main); !working.empty())
    state.working = {needle(working.first()), needle(working.last())};
  state.tension_hundredths = m.tension(runtime::Bed::main) * 10;
  state.second_tension_hundredths = m.tension(runtime::Bed::second) * 10;
  return state;
}

}  // namespace stk::knit
