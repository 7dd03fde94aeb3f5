#include "compiler/knit/twists.hpp"

#include <algorithm>
#include <array>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <utility>
#include <vector>

namespace stk::knit {

namespace {

using Pieces = std::pair<std::uint32_t, std::uint32_t>;      // the one knitted first, the other
using Sections = std::pair<std::uint32_t, std::uint32_t>;    // that meet, one of each piece

// All that joins two pieces.
struct Joins {
  std::set<Sections> sections;
  bool alike = false;                                        // something else says that they begin at the same end
  std::vector<std::pair<const Met*, bool>> sides;            // and whether the same side of both was taken
};

enum class Lying { unknown, alike, opposite, contrary };

// The sections that meet, taken two at a time: in the same order on both pieces, or in the opposite one.
Lying way_of(const Joins& joins) {
  bool alike = joins.alike, opposite = false;
  for (auto one = joins.sections.begin(); one != joins.sections.end(); ++one)
    for (auto other = std::next(one); other != joins.sections.end(); ++other) {
      if (one->first == other->first || one->second == other->second) continue;
      ((one->first < other->first) == (one->second < other->second) ? alike : opposite) = true;
    }
  return alike && opposite ? Lying::contrary : alike ? Lying::alike : opposite ? Lying::opposite : Lying::unknown;
}

// The piece began with this edge: what is cast on later lies somewhere inside.
bool first_cast_on(const runtime::Fabric& fabric, const runtime::Edge& edge) {
  if (edge.kind != runtime::EdgeKind::cast_on) return false;
  const auto& sections = fabric.sections();
  const auto first = std::find_if(sections.begin(), sections.end(), [&](const runtime::Section& s) { return s.piece == edge.piece; });
  return first != sections.end() && edge.section.value == static_cast<std::uint32_t>(first - sections.begin());
}

void take(const Bench& bench, const Met& met, std::map<Pieces, Joins>& joins) {
  const runtime::Fabric& fabric = bench.fabric();
  const auto meet = [&](runtime::EdgeId id, runtime::EdgeId other_id, auto&& act) {
    const runtime::Edge *a = &fabric.edge(id), *b = &fabric.edge(other_id);
    if (a->piece == b->piece) return;
    if (b->piece.value < a->piece.value) std::swap(a, b);
    act(joins[{a->piece.value, b->piece.value}], *a, *b);
  };
  const auto rows = [](const runtime::Edge& a, const runtime::Edge& b) {
    return a.kind == runtime::EdgeKind::selvedge && b.kind == runtime::EdgeKind::selvedge;
  };
  const auto sections = [&](Joins& of, const runtime::Edge& a, const runtime::Edge& b) {
    if (rows(a, b)) of.sections.insert({a.section.value, b.section.value});
  };
  bool named = false;
  std::map<Pieces, std::array<bool, 2>> sides;   // of these pieces: opposite sides, the same side
  for (const runtime::EdgeId id : met.edges)
    for (const runtime::EdgeId other : met.edges_to)
      meet(id, other, [&](Joins& of, const runtime::Edge& a, const runtime::Edge& b) {
        of.alike = of.alike || (rows(a, b) && met.while_knitting) || (first_cast_on(fabric, a) && first_cast_on(fabric, b));
        if (!rows(a, b)) return;
        sides[{a.piece.value, b.piece.value}][a.side == b.side] = true;
        const std::string name = bench.section_name(a.section);
        if (met.while_knitting || name.empty() || name != bench.section_name(b.section)) return;
        named = true;
        sections(of, a, b);
      });
  if (!named && met.one_to_one)
    for (std::size_t i = 0; i < met.edges.size(); ++i) meet(met.edges[i], met.edges_to[i], sections);
  for (const auto& [pieces, taken] : sides)
    if (taken[0] != taken[1]) joins[pieces].sides.emplace_back(&met, taken[1]);
}

// "instep.leg.left + instep.foot.left" with the sides exchanged.
std::string other_side(std::string words) {
  std::size_t end = 0;
  do {
    end = std::min(words.find(" + ", end), words.size());
    std::size_t begin = words.rfind('.', end - 1);
    begin = begin == std::string::npos ? 0 : begin + 1;
    const std::string side = words.substr(begin, end - begin);
    if (side == "left" || side == "right") {
      const std::string other = side == "left" ? "right" : "left";
      words.replace(begin, side.size(), other);
      end = begin + other.size();
    }
    end += 3;
  } while (end < words.size());
  return words;
}

struct Twist {
  const Met* met;
  Lying way;
  grade::SizeSet sizes;
};

}  // namespace

void check_twists(const Knitter& knitter, findings::Findings& findings, std::uint16_t edition) {
  if (findings.has_errors()) return;
  std::vector<Twist> twists;
  for (std::size_t i = 0; i < knitter.benches().size(); ++i) {
    const Bench& bench = *knitter.benches()[i];
    if (bench.lost) continue;
    std::map<Pieces, Joins> joins;
    for (const Met& met : bench.met) take(bench, met, joins);
    for (const auto& [pieces, of] : joins) {
      const Lying way = way_of(of);
      const auto taken = [&](bool same) { return std::any_of(of.sides.begin(), of.sides.end(), [&](const auto& s) { return s.second == same; }); };
      const bool known = way == Lying::alike || way == Lying::opposite;
      if (!known && !(taken(true) && taken(false))) continue;
      for (const auto& [met, same] : of.sides) {
        if (same == (way == Lying::opposite)) continue;
        const auto told = std::find_if(twists.begin(), twists.end(), [&](const Twist& t) {
          return t.met->where == met->where && t.met->words == met->words && t.met->words_to == met->words_to && t.way == way;
        });
        if (told != twists.end()) told->sizes |= grade::size_bit(i);
        else twists.push_back({met, way, grade::size_bit(i)});
      }
    }
  }
  for (const Twist& twist : twists) {
    const Met& met = *twist.met;
    const char* meet = met.words.find(" + ") == std::string::npos ? "meets" : "meet";
    auto builder = findings.report<findings::Code::E40>(met.where);
    if (twist.way == Lying::opposite) builder.label("`{}` {} `{}`, of a piece that is knitted the other way", met.words, meet, met.words_to);
    else if (twist.way == Lying::alike) builder.label("`{}` {} `{}`, and both pieces begin at the same end", met.words, meet, met.words_to);
    else builder.label("`{}` {} `{}`; another edge of these pieces is joined left to right", met.words, meet, met.words_to);
    builder.help("`{}{} to {}`: the purl sides lie together", met.while_knitting ? "joining " : "", met.words, other_side(met.words_to)).at(edition, twist.sizes);
  }
}

}  // namespace stk::knit
