#include "compiler/fit/shape.hpp"

#include <algorithm>

#include "compiler/fit/stretches.hpp"
#include "compiler/fit/usual.hpp"

namespace stk::fit {
namespace {

using knit::Act;
using knit::Step;

// "sock.cuff.left" belongs to the piece sock and is a left edge.
bool of_piece(const std::string& edge, const std::string& piece) {
  return edge.size() > piece.size() && edge.compare(0, piece.size(), piece) == 0 && edge[piece.size()] == '.';
}
bool ends_with(const std::string& edge, const std::string& word) {
  return edge.size() > word.size() && edge.compare(edge.size() - word.size(), word.size(), word) == 0 &&
         edge[edge.size() - word.size() - 1] == '.';
}
bool any_of_piece(const std::vector<std::string>& edges, const std::string& piece, const char* word) {
  return std::any_of(edges.begin(), edges.end(),
                     [&](const std::string& edge) { return of_piece(edge, piece) && ends_with(edge, word); });
}

struct Joined {
  bool to_itself = false;     // left to right
  std::string other;          // the piece that its edges are sewn to, or joined to at the machine
  bool cast_on_used = false;  // grafted or sewn
  bool tip = false;           // to another cast-on: the two are the tip of a toe, and never the opening
  bool cord = false;          // threaded through anything of the sock
};

void look(const std::vector<Step>& steps, std::size_t size, const std::string& piece, Joined& joined) {
  for (const Step& step : steps) {
    if (!knit::has(step.sizes, size)) continue;
    look(step.steps, size, piece, joined);
    if (step.kind != Step::Kind::operation) continue;
    joined.cord = joined.cord || step.operation.act == Act::thread_through;
    if (step.operation.act != Act::seam && step.operation.act != Act::graft) continue;
    const auto& a = step.operation.edges;
    const auto& b = step.operation.edges_to;
    joined.cast_on_used = joined.cast_on_used || any_of_piece(a, piece, "cast_on") || any_of_piece(b, piece, "cast_on");
    const auto begun = [](const std::string& edge) { return ends_with(edge, "cast_on"); };
    joined.tip = joined.tip || (any_of_piece(a, piece, "cast_on") && std::any_of(b.begin(), b.end(), begun)) ||
                 (any_of_piece(b, piece, "cast_on") && std::any_of(a.begin(), a.end(), begun));
    if (step.operation.act != Act::seam) continue;
    if ((any_of_piece(a, piece, "left") && any_of_piece(b, piece, "right")) ||
        (any_of_piece(a, piece, "right") && any_of_piece(b, piece, "left"))) {
      joined.to_itself = true;
    }
    for (const auto& [mine, theirs] : {std::pair(&a, &b), std::pair(&b, &a)}) {
      if (!any_of_piece(*mine, piece, "left") && !any_of_piece(*mine, piece, "right")) continue;
      for (const std::string& edge : *theirs) {
        if (!of_piece(edge, piece) && (ends_with(edge, "left") || ends_with(edge, "right"))) {
          joined.other = edge.substr(0, edge.find('.'));
        }
      }
    }
  }
}

// Edges joined while a piece is knitted: those of `mine` to those of `other`, whichever of the two is looked for.
void look_at_machine(const std::vector<Step>& steps, std::size_t size, const std::string& knitted,
                     const std::string& piece, Joined& joined) {
  for (const Step& step : steps) {
    if (!knit::has(step.sizes, size)) continue;
    look_at_machine(step.steps, size, knitted, piece, joined);
    for (const std::vector<Step>& turn : step.turns) look_at_machine(turn, size, knitted, piece, joined);
    for (const knit::Joining& joining : step.operation.joining) {
      for (const std::string& edge : joining.edges) {
        if (!ends_with(edge, "left") && !ends_with(edge, "right")) continue;
        const std::string other = edge.substr(0, edge.find('.'));
        if (other == knitted) continue;
        if (piece == knitted) joined.other = other;
        if (piece == other) joined.other = knitted;
      }
    }
  }
}

Joined joined_of(const knit::EditionFacts& edition, std::size_t size, const std::string& piece) {
  Joined joined;
  look(edition.finish, size, piece, joined);
  for (const knit::PieceFacts& one : edition.pieces) look_at_machine(one.first, size, one.name, piece, joined);
  return joined;
}

Maybe finished(const knit::EditionFacts& edition, const char* name, std::size_t size) {
  for (const knit::MeasureFacts& measure : edition.measures) {
    if (measure.name == name) return value_at(measure.finished, size);
  }
  return std::nullopt;
}

Maybe height_of(const std::vector<Stretch>& stretches) {
  Maybe sum = Rational(0);
  for (const Stretch& stretch : stretches) sum = plus(sum, stretch.height());
  return sum;
}

// A sock without a heel: what lies above the middle of the foot, and no part drawn together for a toe.
void cut_tube(std::vector<Stretch>& stretches, const Maybe& foot) {
  while (!stretches.empty() && stretches.back().thinned) stretches.pop_back();
  const Maybe all = height_of(stretches);
  const Maybe leg = minus(all, over(foot, Rational(2)));
  if (!leg || leg->is_negative() || leg->is_zero()) {
    std::int64_t widest = 0;
    for (const Stretch& stretch : stretches) widest = std::max(widest, stretch.stitches);
    while (!stretches.empty() && stretches.back().stitches < widest) stretches.pop_back();
    return;
  }
  Maybe height = Rational(0);
  std::size_t used = 0;
  while (used < stretches.size() && height && *height < *leg) height = plus(height, stretches[used++].height());
  stretches.resize(used);
}

// A piece from its top edge to the heel.
Leg leg_of_piece(const knit::EditionFacts& edition, const PieceShape& shape, const Joined& joined, std::size_t size) {
  Leg leg;
  const bool ends_bound = shape.bind_off.has_value();
  const bool toe_up = joined.tip || shape.begins_closed || (ends_bound && (joined.cast_on_used || shape.cast_on_hung_late));
  std::vector<Stretch> stretches = shape.stretches;
  if (toe_up) {
    leg.has_heel = !shape.splits.empty() && shape.splits.back() > 0;
    if (leg.has_heel) {
      const auto heel = static_cast<std::ptrdiff_t>(std::min(shape.splits.back(), stretches.size()));
      stretches.erase(stretches.begin(), stretches.begin() + heel);
    }
    std::reverse(stretches.begin(), stretches.end());
    leg.edge.cast_on = false;   // an end on waste is grafted to something soft
    if (ends_bound) leg.edge = *shape.bind_off;
  } else {
    leg.has_heel = !shape.splits.empty() && shape.splits.front() > 0;
    if (leg.has_heel) stretches.resize(std::min(shape.splits.front(), stretches.size()));
    if (shape.cast_on) leg.edge = *shape.cast_on;
  }
  if (!leg.has_heel) cut_tube(stretches, finished(edition, "length", size));
  leg.drawn_in = joined.cord;
  leg.stretches = std::move(stretches);
  return leg;
}

// Two halves row beside row: where either changes, a new stretch begins.
std::vector<Stretch> side_by_side(const std::vector<Stretch>& a, const std::vector<Stretch>& b) {
  std::vector<Stretch> both;
  std::size_t i = 0, j = 0;
  std::int64_t left_a = a.empty() ? 0 : a[0].rows, left_b = b.empty() ? 0 : b[0].rows;
  while (i < a.size() && j < b.size()) {
    Stretch stretch = a[i];
    if (opening_limit(b[j].fabric) < opening_limit(a[i].fabric)) stretch.fabric = b[j].fabric;
    stretch.rows = std::min(left_a, left_b);
    stretch.stitches += b[j].stitches;
    if (stretch.sts_per_mm != b[j].sts_per_mm)
      stretch.sts_per_mm = over(Rational(stretch.stitches), plus(a[i].width(), b[j].width()));
    if (stretch.rows > 0) both.push_back(stretch);
    left_a -= stretch.rows;
    left_b -= stretch.rows;
    if (left_a <= 0 && ++i < a.size()) left_a = a[i].rows;
    if (left_b <= 0 && ++j < b.size()) left_b = b[j].rows;
  }
  return both;
}

std::int64_t rows_of(const std::vector<Stretch>& stretches) {
  std::int64_t rows = 0;
  for (const Stretch& stretch : stretches) rows += stretch.rows;
  return rows;
}

}  // namespace

std::string fabric_word(Fabric fabric) {
  switch (fabric) {
    case Fabric::rib:
      return "rib";
    case Fabric::stranded:
      return "stranded";
    case Fabric::plain:
      break;
  }
  return "plain";
}

Maybe Leg::height() const {
  return height_of(stretches);
}

std::optional<Leg> leg_of(const knit::EditionFacts& edition, std::size_t size) {
  std::optional<Leg> best;
  for (const knit::PieceFacts& piece : edition.pieces) {
    const PieceShape shape = shape_of(edition, piece, size);
    if (shape.hung_at_first || shape.stretches.empty()) continue;
    const Joined joined = joined_of(edition, size, piece.name);
    Leg leg = leg_of_piece(edition, shape, joined, size);
    const bool all_tube =
        std::all_of(leg.stretches.begin(), leg.stretches.end(), [](const Stretch& stretch) { return stretch.tube; });
    if (!joined.to_itself && !all_tube) {
      const auto other = std::find_if(edition.pieces.begin(), edition.pieces.end(),
                                      [&](const knit::PieceFacts& p) { return p.name == joined.other; });
      if (other == edition.pieces.end()) continue;
      const Joined back = joined_of(edition, size, other->name);
      if (back.other != piece.name || back.to_itself) continue;
      const Leg half = leg_of_piece(edition, shape_of(edition, *other, size), back, size);
      // The half without the heel has no end of its own here: it is cut where the other one is.
      if (!leg.has_heel && half.has_heel) continue;
      leg.stretches = side_by_side(leg.stretches, half.stretches);
      leg.edge.yields = leg.edge.yields && half.edge.yields;
    }
    if (leg.stretches.empty()) continue;
    if (!best || rows_of(leg.stretches) > rows_of(best->stretches)) best = std::move(leg);
  }
  return best;
}

}  // namespace stk::fit
