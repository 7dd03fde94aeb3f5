#include "compiler/document/worked.hpp"

#include <algorithm>
#include <optional>

#include "compiler/document/same_work.hpp"

namespace stk::document {

namespace {

// What the reader knows decides how a few steps are worded; the mirrored pieces and how to join do not.
bool same(const Memory& a, const Memory& b) {
  return a.comb_hung == b.comb_hung && a.only_weights == b.only_weights && a.one_bed == b.one_bed && a.threaded == b.threaded &&
         a.cast_on == b.cast_on && a.yarn_cut == b.yarn_cut && a.rounds == b.rounds &&
         a.needles_set == b.needles_set && a.rows_since_cast_on == b.rows_since_cast_on;
}

}  // namespace

bool Worked::can_be_named(const Part& known, const Part& from) const {
  const auto place = places_.find({known.piece, known.section});
  const Place at = place == places_.end() ? Place{} : place->second;
  const bool here = known.piece == from.piece && known.section == from.section;
  return !here && !known.section.empty() && at.sections == 1 && (from.kind != Kind::turn || at.stars == 1);
}

bool Worked::corners_were_closed(const Part& known) const {
  const auto place = places_.find({known.piece, known.section});
  return known.kind == Kind::technique && place != places_.end() && place->second.corners;
}

const Worked::Part* Worked::find_other_side(const Part& part) const {
  if (part.kind != Kind::section && part.kind != Kind::technique) return nullptr;
  std::optional<std::vector<knit::Step>> changed;
  for (const Part& known : parts_) {
    if (known.kind != part.kind || (part.scope & ~known.scope) != 0 || !same(known.memory, part.memory)) continue;
    if (!can_be_named(known, part)) continue;
    if (!changed) changed = with_sides_changed(part.steps());
    if (!changed) return nullptr;
    if (same_work(known.steps(), *changed, part.scope)) return &known;
  }
  return nullptr;
}

const Worked::Part* Worked::find(const Part& part) const {
  for (const Part& known : parts_) {
    if (known.kind != part.kind || (part.scope & ~known.scope) != 0 || !same(known.memory, part.memory)) continue;
    if (part.kind == Kind::cast_on) {
      if (known.piece == part.piece || known.piece.empty()) continue;   // "as for the front"
    } else if (!can_be_named(known, part)) {
      continue;
    }
    const bool equal = part.kind == Kind::turn ? same_turn(known.steps(), part.steps(), part.scope)
                                               : same_work(known.steps(), part.steps(), part.scope);
    if (equal) return &known;
  }
  return nullptr;
}

bool Worked::warned_before(const knit::Step& caution, knit::SizeSet scope) {
  for (Warning& known : warnings_) {
    if (!(known.where == caution.where) || known.title != caution.title) continue;
    if ((scope & ~known.scope) == 0) return true;
    known.scope |= scope;
    return false;
  }
  warnings_.push_back({caution.where, caution.title, scope});
  return false;
}

void Worked::add(Part part) {
  const auto of_its_piece = [&](const Part& known) { return known.kind == Kind::cast_on && known.piece == part.piece; };
  if (part.kind == Kind::cast_on && std::any_of(parts_.begin(), parts_.end(), of_its_piece)) return;
  parts_.push_back(std::move(part));
}

}  // namespace stk::document
