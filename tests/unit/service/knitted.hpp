// A source knitted in memory, and its record looked into: what the tests of whole constructions share.
#pragma once

#include <catch2/catch.hpp>
#include <fstream>
#include <optional>
#include <sstream>
#include <string>
#include <vector>

#include "compiler/findings/render.hpp"
#include "compiler/knit/facts.hpp"
#include "compiler/service/session.hpp"
#include "compiler/text/memory_files.hpp"
#include "stdlib/library.hpp"

namespace stk::test {

inline std::string read_file(const std::string& path) {
  std::ifstream in(path, std::ios::binary);
  REQUIRE(in);
  std::ostringstream text;
  text << in.rdbuf();
  return text.str();
}

using Row = std::vector<std::int64_t>;   // one number a size

class Knitted {
 public:
  // A source of tests/sources with its neighbours there.
  static Knitted file(const std::string& name) {
    const std::string folder = std::string(STK_SOURCE_DIR) + "/tests/sources/";
    return Knitted(name, read_file(folder + name));
  }
  // The same with one wording changed for another wherever it stands.
  static Knitted file(const std::string& name, const std::string& from, const std::string& to) {
    std::string text = read_file(std::string(STK_SOURCE_DIR) + "/tests/sources/" + name);
    std::size_t changed = 0;
    for (std::size_t at = text.find(from); at != std::string::npos; at = text.find(from, at + to.size()), ++changed)
      text.replace(at, from.size(), to);
    REQUIRE(changed > 0);
    return Knitted(name, text);
  }
  Knitted(const std::string& name, const std::string& text) {
    text::MemoryFiles files(stdlib::files());
    for (const char* neighbour : {"shared-sizes.stk", "shared-editions.stk", "heels.stk", "toes.stk"})
      files.add(neighbour, read_file(std::string(STK_SOURCE_DIR) + "/tests/sources/" + neighbour));
    service::Session session(files);
    checked_ = session.check(name, text, {});
    INFO(findings::render_text(checked_.findings, checked_.sources, checked_.names, {}, 0));
    REQUIRE_FALSE(checked_.has_errors());
    REQUIRE(checked_.facts.has_value());
  }

  const knit::EditionFacts& edition(const std::string& name) const {
    for (const knit::EditionFacts& e : checked_.facts->editions)
      if (e.name == name) return e;
    FAIL("no edition " + name);
    return checked_.facts->editions.front();
  }
  std::size_t sizes() const { return checked_.facts->sizes.size(); }

 private:
  service::Checked checked_;
};

inline const knit::Step& section(const std::vector<knit::Step>& steps, const std::string& name) {
  for (const knit::Step& step : steps)
    if (step.kind == knit::Step::Kind::section && step.name == name) return step;
  FAIL("no section " + name);
  return steps.front();
}

// All operations of one kind below some steps, in order; of a repeat, those of every turn.
inline void collect(const std::vector<knit::Step>& steps, knit::Act act, std::vector<const knit::Step*>& found) {
  for (const knit::Step& step : steps) {
    if (step.kind == knit::Step::Kind::operation && step.operation.act == act) found.push_back(&step);
    collect(step.steps, act, found);
    for (const std::vector<knit::Step>& turn : step.turns) collect(turn, act, found);
  }
}
inline const knit::Step& only(const std::vector<knit::Step>& steps, knit::Act act, std::size_t which = 0) {
  std::vector<const knit::Step*> found;
  collect(steps, act, found);
  REQUIRE(found.size() > which);
  return *found[which];
}

// The machine as the last step that a size took left it.
inline std::optional<knit::MachineState> end_of(const std::vector<knit::Step>& steps, std::size_t size) {
  for (auto step = steps.rbegin(); step != steps.rend(); ++step) {
    if (!knit::has(step->sizes, size)) continue;
    if (const auto inner = end_of(step->steps, size)) return inner;
    for (auto turn = step->turns.rbegin(); turn != step->turns.rend(); ++turn)
      if (const auto inner = end_of(*turn, size)) return inner;
    if (step->kind == knit::Step::Kind::operation || step->kind == knit::Step::Kind::expect) return step->records[size].after;
  }
  return std::nullopt;
}

template <class Pick>
Row row_of(std::size_t sizes, Pick pick) {
  Row row;
  for (std::size_t i = 0; i < sizes; ++i) row.push_back(pick(i));
  return row;
}
inline Row counters(const std::vector<knit::Step>& piece, const std::string& name, std::size_t sizes) {
  return row_of(sizes, [&](std::size_t i) { return end_of(section(piece, name).steps, i)->row_counter; });
}
inline Row stitches(const std::vector<knit::Step>& piece, const std::string& name, std::size_t sizes) {
  return row_of(sizes, [&](std::size_t i) { return std::int64_t{end_of(section(piece, name).steps, i)->stitches}; });
}
inline bool all_on(const std::vector<knit::Step>& piece, const std::string& name, std::size_t sizes, knit::Side side) {
  for (std::size_t i = 0; i < sizes; ++i)
    if (end_of(section(piece, name).steps, i)->carriage != side) return false;
  return true;
}
inline Row amounts(const knit::Step& step) {
  return row_of(step.records.size(), [&](std::size_t i) { return step.records[i].amount; });
}
inline Row second_amounts(const knit::Step& step) {
  return row_of(step.records.size(), [&](std::size_t i) { return step.records[i].second_amount; });
}
inline Row tails_cm(const knit::Step& step) {
  return row_of(step.records.size(), [&](std::size_t i) {
    REQUIRE(step.records[i].length);
    return static_cast<std::int64_t>(step.records[i].length->value.numerator() / step.records[i].length->value.denominator()) / 10;
  });
}

}  // namespace stk::test
