#include "compiler/document/layers.hpp"

#include <algorithm>
#include <functional>

namespace stk::document {

namespace {

using knit::Act;
using knit::Method;
using knit::SizeRecord;
using knit::Step;
using Steps = std::vector<Step>;

void each_operation(const Steps& steps, const std::function<void(const Step&)>& see) {
  for (const Step& step : steps) {
    if (step.kind == Step::Kind::operation) see(step);
    each_operation(step.steps, see);
    for (const Steps& turn : step.turns) each_operation(turn, see);
  }
}

bool in_any_size(const Step& step, const std::function<bool(const SizeRecord&)>& test) {
  for (std::size_t i = 0; i < step.records.size(); ++i) {
    if (knit::has(step.sizes, i) && !step.records[i].idle && test(step.records[i])) return true;
  }
  return false;
}

// Rows of both beds together, a bed at rest not counted: a rib has no purl side.
bool knits_a_rib(const Step& step) {
  return in_any_size(step, [](const SizeRecord& r) {
    const bool both = r.before.second_bed > 0 && r.before.second_bed < r.before.stitches;
    const bool rests = r.before.held >= r.before.second_bed;
    return both && !rests && r.after.row_counter - r.before.row_counter == r.amount;
  });
}

bool knits(const Step& step) {
  return step.operation.act == Act::knit || step.operation.act == Act::knit_to_row;
}

// The step that took an edge off the needles, if one did, and whether the rows at the edge are plain.
struct Made {
  const Step* step = nullptr;
  bool plain = true;
};

Made making_of(const knit::EditionFacts& edition, const std::string& edge) {
  const std::size_t dot = edge.rfind('.');
  const std::string last = dot == std::string::npos ? edge : edge.substr(dot + 1);
  const std::string piece = edge.substr(0, edge.find('.'));
  Made made;
  bool all_plain = true;
  for (const knit::PieceFacts& facts : edition.pieces) {
    if (dot != std::string::npos && facts.name != piece) continue;
    bool plain = true, turned = false;
    each_operation(facts.first, [&](const Step& step) {
      const knit::Operation& o = step.operation;
      if (knits(step)) plain = !knits_a_rib(step);
      if (o.act == Act::hang_edge && o.method == Method::reversed) turned = true;
      all_plain = all_plain && plain && !turned;
      const bool makes = (o.act == Act::scrap_off || o.act == Act::take_off) &&
                         std::find(o.edges.begin(), o.edges.end(), last) != o.edges.end();
      if (makes && made.step == nullptr) made = {&step, plain && !turned};
    });
  }
  // A cast-on, or the loops at a line of waste: any rows may lie at it.
  if (made.step == nullptr) made.plain = all_plain;
  return made;
}

}  // namespace

Layers layers_of(const knit::EditionFacts& edition, const std::vector<std::string>& edges,
                 const std::vector<std::string>& edges_to) {
  if (edges.size() != 1 || edges_to.size() != 1) return Layers::untold;
  const Made a = making_of(edition, edges.front()), b = making_of(edition, edges_to.front());
  if (!a.plain || !b.plain) return Layers::untold;
  const bool tube = a.step != nullptr && a.step == b.step &&
                    in_any_size(*a.step, [](const SizeRecord& r) { return r.before.second_bed > 0; });
  return tube ? Layers::as_they_came : Layers::laid;
}

}  // namespace stk::document
