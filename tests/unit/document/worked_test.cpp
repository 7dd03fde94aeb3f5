// What was told before is named, not told again; and only where the record is the same.
#include "compiler/document/worked.hpp"

#include <catch2/catch.hpp>

#include "compiler/document/same_work.hpp"
#include "tests/unit/document/told.hpp"

using namespace stk;
using namespace stk::document;
using knit::Act;
using knit::Step;
using test::Recorder;
using test::told;

namespace {

constexpr knit::SizeSet all_sizes = 15;

// Stretches told in a text of more than two hundred letters, from where the work stands.
void stretches(Recorder& r) {
  r.counter(0);
  for (std::int64_t row = 20; row <= 100; row += 20) r.knit_to_row({row, row, row, row + 2});
  for (int n = 0; n < 3; ++n) r.knit({6, 6, 6, 8});
}

// Two sections of stretches with some rows between them.
std::vector<Step> two_sections(const char* first, const char* second) {
  Recorder r(4);
  r.cast_on({36, 36, 36, 38});
  for (const char* title : {first, second}) {
    r.open(Step::Kind::section, title, r.all());
    stretches(r);
    r.close();
  }
  return r.take();
}

std::vector<Step> stretches_after(std::int64_t rows, const test::Counts& sts = {36, 36, 36, 36}) {
  Recorder r(4);
  r.cast_on(sts);
  r.knit({rows, rows, rows, rows});
  const std::size_t before = 2;
  stretches(r);
  std::vector<Step> steps = r.take();
  steps.erase(steps.begin(), steps.begin() + static_cast<std::ptrdiff_t>(before));
  return steps;
}

Step seam(const std::string& one, const std::string& other, const test::Counts& rows) {
  Recorder r(4);
  Step& step = r.counted(Act::seam, rows);
  step.operation.edges = {one};
  step.operation.edges_to = {other};
  step.operation.yarns = {"main"};
  step.operation.method = knit::Method::mattress;
  for (std::size_t i = 0; i < rows.size(); ++i) {
    step.records[i].second_amount = rows[i];
    step.records[i].rows = true;
  }
  return r.take().front();
}

// The longer edge has two rows more in the heel, and `others` that no short rows explain.
void with_a_heel(Step& step, std::int64_t others) {
  for (knit::SizeRecord& record : step.records) {
    record.amount += 2 + others;
    record.extra_rows = {{"heel", 2}};
  }
}

}  // namespace

TEST_CASE("work is the same where its record is: counts, needles, sides; the counter from the first row on") {
  CHECK(same_work(stretches_after(2), stretches_after(2), all_sizes));
  CHECK(same_work(stretches_after(2), stretches_after(4), all_sizes));   // it is set to 000 first
  CHECK_FALSE(same_work(stretches_after(2), stretches_after(3), all_sizes));   // the carriage stands on the other side
  CHECK_FALSE(same_work(stretches_after(2), stretches_after(2, {36, 36, 36, 40}), all_sizes));
  CHECK(same_work(stretches_after(2), stretches_after(2, {36, 36, 36, 40}), all_sizes & 7));   // in the other sizes it is

  const auto without_reset = [](std::int64_t rows) {
    std::vector<Step> steps = stretches_after(rows);
    steps.erase(steps.begin(), steps.begin() + 6);   // plain rows are left, which a reader finds by the counter
    for (Step& step : steps) {
      for (knit::SizeRecord& record : step.records) record.before.row_counter += rows, record.after.row_counter += rows;
    }
    return steps;
  };
  CHECK_FALSE(same_work(without_reset(2), without_reset(4), all_sizes));
  CHECK(same_turn(without_reset(2), without_reset(4), all_sizes));
}

TEST_CASE("other needles, another yarn, another number of turns: other work") {
  const std::vector<Step> model = stretches_after(2);
  std::vector<Step> other = model;
  other.back().records[2].needles = {{-3, knit::Bed::main}, {3, knit::Bed::main}};
  CHECK_FALSE(same_work(model, other, all_sizes));
  CHECK(same_work(model, other, 3));   // the size of that record aside
  other = model;
  other.back().operation.yarns = {"contrast"};
  CHECK_FALSE(same_work(model, other, all_sizes));
  other = model;
  other.pop_back();
  CHECK_FALSE(same_work(model, other, all_sizes));

  const auto turns = [](const test::Counts& counts) {
    Recorder r(4);
    r.cast_on({36, 36, 36, 36});
    r.repeat(counts, [](Recorder& body, std::int64_t) { body.knit({2, 2, 2, 2}); });
    return r.take();
  };
  CHECK(same_work(turns({3, 4, 4, 5}), turns({3, 4, 4, 5}), all_sizes));
  CHECK_FALSE(same_work(turns({3, 4, 4, 5}), turns({3, 4, 4, 6}), all_sizes));
}

TEST_CASE("a section that is worked as another is told by its name, and where the work then stands") {
  const std::string text = told(two_sections("Leg", "Foot"));
  CHECK(text.substr(text.find("# Foot")) == "# Foot\nWork as the leg. RC 118 (118, 118, 126). COR. 36 (36, 36, 38) sts.\n");
  // Two sections of one title: which would be meant? Both are told.
  CHECK(told(two_sections("Stripe", "Stripe")).find("Work as") == std::string::npos);
  std::vector<Step> steps = two_sections("Leg", "Foot");
  steps.back().steps.back().records[1].amount = 4;
  CHECK(told(steps).find("Work as") == std::string::npos);
}

TEST_CASE("a second seam that is the first with its sides changed is sewn in the same way") {
  CHECK(told({seam("sole.left", "top.right", {40, 44, 48, 52}), seam("sole.right", "top.left", {40, 44, 48, 52})}) ==
        "Seam the left edge of the sole to the right edge of the top, with a new length of MY, in mattress stitch. Each "
        "edge has 40 (44, 48, 52) rows.\n"
        "Seam the right edge of the sole to the left edge of the top in the same way.\n");
  // Another count, or another edge, is told in full.
  for (const Step& second : {seam("sole.right", "top.left", {40, 44, 48, 50}), seam("sole.right", "leg.left", {40, 44, 48, 52})}) {
    CHECK(told({seam("sole.left", "top.right", {40, 44, 48, 52}), second}).find("in the same way") == std::string::npos);
  }
}

TEST_CASE("where to ease: at the short rows, the rest evenly, evenly where nothing explains it") {
  const auto eased = [](Step step) {
    const std::string text = told({std::move(step)});
    return text.substr(text.rfind("rows. ") == std::string::npos ? 0 : text.rfind("rows. "));
  };
  Step step = seam("sole.left", "top.right", {40, 44, 48, 52});
  with_a_heel(step, 0);
  CHECK(eased(step) == "rows. Ease in the 2 extra rows where the short rows are, at the heel.\n");
  with_a_heel(step, -2);
  for (knit::SizeRecord& record : step.records) record.amount += 2, record.extra_rows.push_back({"toe", 2});
  CHECK(eased(step) == "rows. Ease in the 4 extra rows where the short rows are, 2 at the heel and 2 at the toe.\n");
  step = seam("sole.left", "top.right", {40, 44, 48, 52});
  with_a_heel(step, 1);
  CHECK(eased(step) == "rows. Ease in the 3 extra rows where the short rows are, 2 at the heel; take up the others evenly.\n");
  step = seam("sole.left", "top.right", {40, 44, 48, 52});
  with_a_heel(step, 0);
  step.records[0] = seam("sole.left", "top.right", {40, 44, 48, 52}).records[0];   // one size has no heel
  CHECK(eased(step) == "rows. Ease in the - (2, 2, 2) extra rows where the short rows are, at the heel.\n");
  for (knit::SizeRecord& record : step.records) record.extra_rows.clear();
  CHECK(told({step}).find("rows; take up the difference evenly.") != std::string::npos);
}

TEST_CASE("corners that are closed one after the other are closed in one sentence") {
  const auto corners = [](const std::string& of) {
    Recorder r(4);
    r.op(Act::close_corners).operation.edges = {of};
    return r.take().front();
  };
  CHECK(told({corners("back.heel"), corners("back.toe")}) ==
        "Close the corners of the heel and the toe of the back with a few sts.\n");
  CHECK(told({corners("back.heel"), corners("front.toe")}) ==
        "Close the corners of the heel of the back and the toe of the front with a few sts.\n");
}

TEST_CASE("work on the other side is the same with needles, sides and carriage changed about; a chart is not turned round") {
  const auto decreases = [](knit::Side side, knit::Side carriage, std::int64_t rows) {
    Recorder r(4);
    for (auto& state : r.states()) {
      state.carriage = carriage;
      state.stitches = 36;
      state.span = test::about_centre(36);
    }
    r.knit({rows, rows, rows, rows});
    Step& step = r.counted(Act::decrease, {1, 1, 1, 1});
    step.operation.side = side;
    step.operation.inset = 2;
    for (knit::SizeRecord& record : step.records) {
      record.needles.first.number = record.needles.last.number = side == knit::Side::left ? -18 : 18;
    }
    return r.take();
  };
  const std::vector<Step> left = decreases(knit::Side::left, knit::Side::left, 4);
  const auto changed = with_sides_changed(left);
  REQUIRE(changed.has_value());
  CHECK(same_work(*changed, decreases(knit::Side::right, knit::Side::right, 4), all_sizes));
  CHECK_FALSE(same_work(*changed, decreases(knit::Side::right, knit::Side::left, 4), all_sizes));    // from the same side
  CHECK_FALSE(same_work(*changed, decreases(knit::Side::left, knit::Side::right, 4), all_sizes));    // at the same edge
  CHECK_FALSE(same_work(*changed, decreases(knit::Side::right, knit::Side::right, 6), all_sizes));   // in other rows
  CHECK_FALSE(same_work(*changed, left, all_sizes));
  CHECK(same_work(*with_sides_changed(*changed), left, all_sizes));

  Recorder r(4);
  r.counted(Act::knit_chart, {2, 2, 2, 2});
  CHECK_FALSE(with_sides_changed(r.take()).has_value());
}

TEST_CASE("a chart that only the text left out would refer to is not printed") {
  const knit::Facts facts = test::sample_facts();
  Charts charts(facts, all_sizes);
  Recorder r(4);
  r.cast_on({36, 42, 42, 48});
  const Step& move = r.move_last_of_each(3);
  charts.of_step(move, all_sizes, "Move");
  const std::size_t before = charts.all().size();
  charts.of_step(move, all_sizes, "Move once more");
  REQUIRE(charts.all().size() > before);
  charts.keep(before);
  CHECK(charts.all().size() == before);
}
