// The text of a whole pattern, and what every format must hold to.
#include <algorithm>
#include <catch2/catch.hpp>
#include <regex>
#include <set>
#include <sstream>

#include "compiler/document/write.hpp"
#include "compiler/outputs/backend.hpp"
#include "compiler/text/columns.hpp"
#include "tests/unit/sample_facts.hpp"

using namespace stk;
using outputs::Output;

namespace {

std::vector<Output> written(std::string_view backend, const knit::Facts& facts, knit::SizeSet sizes = 15) {
  const outputs::Backend* const found = outputs::find_backend(backend);
  REQUIRE(found != nullptr);
  return found->write(facts, document::write_document(facts, 0, sizes), {});
}

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines;
  std::istringstream in(text);
  for (std::string line; std::getline(in, line);) lines.push_back(line);
  return lines;
}

bool holds(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

// Every whole number that stands somewhere in the record, as it may be printed.
void collect(const knit::NeedleSpan& span, std::set<std::string>& found) {
  found.insert(std::to_string(std::abs(span.first.number)));
  found.insert(std::to_string(std::abs(span.last.number)));
}
void collect(const std::vector<knit::Step>& steps, std::set<std::string>& found) {
  const auto add = [&](std::int64_t n) { found.insert(std::to_string(n)); };
  for (const knit::Step& step : steps) {
    add(step.operation.inset);
    add(step.operation.inset + 1);
    add(step.operation.prongs);
    for (const knit::Selection& selection : step.operation.selections) {
      for (const std::int64_t n : selection.count) add(n);
      for (const std::int64_t n : selection.group) add(n);
    }
    for (const knit::SizeRecord& r : step.records) {
      for (const std::int64_t n : {r.amount, r.target, r.second_amount, r.after.row_counter}) add(n);
      for (const std::int64_t n : {r.emptied, r.after.stitches, r.after.in_work}) add(n);
      if (step.kind == knit::Step::Kind::repeat && r.amount > 1) add(r.amount - 1);  // "times more"
      if (r.length) add(r.length->value.as_int64().value_or(0) / 10);
      collect(r.needles, found);
      collect(r.after.span, found);
      if (r.drawn) {  // a repeat of a chart counts the needles drawn
        for (std::size_t tile = 1; tile <= r.drawn->after.size(); ++tile) {
          for (std::size_t edges = 0; edges < 12 && edges < r.drawn->after.size(); ++edges) {
            if ((r.drawn->after.size() - edges) % tile == 0) {
              add(static_cast<std::int64_t>((r.drawn->after.size() - edges) / tile));
            }
          }
        }
      }
    }
    collect(step.steps, found);
    for (const auto& turn : step.turns) collect(turn, found);
  }
}

std::string without_leading_zeros(std::string digits) {
  digits.erase(0, std::min(digits.find_first_not_of('0'), digits.size() - 1));
  return digits;
}

}  // namespace

TEST_CASE("the list of formats") {
  std::set<std::string_view> names;
  for (const outputs::Backend* backend : outputs::backends()) {
    CHECK(names.insert(backend->name()).second);
    CHECK_FALSE(backend->summary().empty());
  }
  CHECK(names == std::set<std::string_view>{"text", "markdown", "charts"});
  CHECK(outputs::find_backend("pdf") == nullptr);
}

TEST_CASE("the steps of a whole sock, as they are printed") {
  const std::vector<Output> files = written("text", test::sample_facts());
  REQUIRE(files.size() == 1);
  CHECK(files[0].path == "slack-water-bed-sock.mid.txt");
  const std::string& text = files[0].bytes;
  const std::size_t begin = text.find("LEG AND FOOT"), end = text.find("WHAT WAS CHECKED");
  REQUIRE(begin != std::string::npos);
  REQUIRE(end != std::string::npos);
  CHECK(text.substr(begin, end - begin) ==
        R"(LEG AND FOOT
Thread MY. At MT, e-wrap 36 (42, 48, 54) sts over L18–R18 (L21–R21, L24–R24,
L27–R27), from left to right. RC 000. COR.
Knit 3 rows and hang the comb with its weights. Knit to RC 112 (142, 154, 178).
COR. 36 (42, 48, 54) sts.

SHAPING
RC 000.
*Knit 2 rows. On each side, with the 3-prong transfer tool, move the 3 edge sts
one needle inwards and put the emptied needle in NWP (chart 1). Repeat from *
3 (3, 6, 6) times in all. RC 006 (006, 012, 012). COR. 30 (36, 36, 42) sts,
L15–R15 (L18–R18, L18–R18, L21–R21).

TOE
Sizes Women L and Men L only: Knit - (-, 2, 4) rows.
All sizes: From the left, move the last st of each group of 3 to the needle on
its left, and put the 10 (12, 12, 14) empty needles in NWP (chart 2). 20 (24,
24, 28) sts, L15–R14 (L18–R17, L18–R17, L21–R20).
RC 000. At MT−1, knit to RC 004. COR. 20 (24, 24, 28) sts.
Cut MY with a tail of 50 (55, 60, 65) cm; it hangs on the right. Unhang the comb
and the weights. Thread the tail on a needle and draw it through all 20 (24, 24,
28) sts, from right to left. Take the sts off the machine, pull the tail tight
and fasten it off.

FINISHING
Seam the left edge to the right edge, with the tail, in mattress stitch. Each
edge has 122 (152, 172, 196) rows.
Weave in the ends.

SECOND SOCK
Work as the first.

)");
}

TEST_CASE("no line is wider than 80 and none ends in a blank") {
  for (const knit::SizeSet sizes : {15ULL, 1ULL, 8ULL, 6ULL}) {
    for (const std::string& line : lines_of(written("text", test::sample_facts(), sizes)[0].bytes)) {
      INFO(line);
      CHECK(text::display_width(line) <= 80);
      CHECK((line.empty() || line.back() != ' '));
      CHECK_FALSE(holds(line, "\u00A0"));
    }
  }
}

TEST_CASE("all sizes are there, and the text of one size holds no other") {
  for (const char* backend : {"text", "markdown"}) {
    const std::string all = written(backend, test::sample_facts())[0].bytes;
    for (const char* size : {"Child M", "Women M", "Women L", "Men L"}) CHECK(holds(all, size));
    const Output one = written(backend, test::sample_facts(), 0b0100)[0];
    CHECK(holds(one.path, ".women-l."));
    CHECK(holds(one.bytes, "Women L"));
    for (const char* size : {"Child M", "Women M", "Men L"}) CHECK_FALSE(holds(one.bytes, size));
    CHECK_FALSE(holds(one.bytes, "RC 112"));
    // No graded number is left: nothing like "36 (42" below the measurements, which give inches in parentheses.
    const std::string steps = one.bytes.substr(std::min(one.bytes.find("\nLEG AND"), one.bytes.find("## Leg and")));
    CHECK_FALSE(std::regex_search(steps, std::regex("[0-9](\u00A0| )\\([0-9]")));
  }
}

TEST_CASE("every number of the instructions stands in the record") {
  const knit::Facts facts = test::sample_facts();
  std::set<std::string> recorded;
  collect(facts.editions[0].pieces[0].first, recorded);
  collect(facts.editions[0].finish, recorded);
  const std::regex number("[0-9]+");
  const auto check = [&](const std::string& text) {
    for (std::sregex_iterator it(text.begin(), text.end(), number), end; it != end; ++it) {
      INFO(it->str());
      CHECK(recorded.count(without_leading_zeros(it->str())) == 1);
    }
  };
  std::string text = written("text", facts)[0].bytes;
  text = text.substr(text.find("LEG AND FOOT"), text.find("WHAT WAS CHECKED") - text.find("LEG AND FOOT"));
  check(std::regex_replace(text, std::regex("chart \\d+|MT[−+]\\d"), ""));
  // In an SVG the words are text; the rest is coordinates.
  for (const Output& file : written("charts", facts)) {
    if (!holds(file.path, ".svg")) continue;
    const std::regex words("<text[^>]*>([^<]*)</text>");
    for (std::sregex_iterator it(file.bytes.begin(), file.bytes.end(), words), end; it != end; ++it) {
      check(std::regex_replace((*it)[1].str(), std::regex("Chart \\d+"), ""));
    }
  }
}

TEST_CASE("the same bytes on every run") {
  const knit::Facts facts = test::sample_facts();
  for (const outputs::Backend* backend : outputs::backends()) {
    const auto first = backend->write(facts, document::write_document(facts, 0, 15), {});
    const auto second = backend->write(facts, document::write_document(facts, 0, 15), {});
    REQUIRE(first.size() == second.size());
    for (std::size_t i = 0; i < first.size(); ++i) {
      CHECK(first[i].path == second[i].path);
      CHECK(first[i].bytes == second[i].bytes);
    }
  }
}

TEST_CASE("a table too wide for the page goes on below, its first column again") {
  knit::Facts facts = test::sample_facts();
  for (int i = 0; i < 9; ++i) {
    facts.body_measure_names.push_back("circumference_" + std::to_string(i));
    facts.body_measures.push_back(facts.body_measures[0]);
  }
  const std::string text = written("text", facts)[0].bytes;
  std::size_t rows = 0;
  for (const std::string& line : lines_of(text)) rows += line.rfind("Women M ", 0) == 0 ? 1 : 0;
  CHECK(rows >= 3);  // two parts of this table, and the table of needles
  for (const std::string& line : lines_of(text)) CHECK(text::display_width(line) <= 80);
}

TEST_CASE("a second sock that mirrors exactly is one paragraph, any other is printed in full") {
  knit::Facts facts = test::sample_facts();
  knit::PieceFacts& piece = facts.editions[0].pieces[0];
  piece.second_mirrored = true;
  piece.mirrored = piece.first;
  piece.mirrors_exactly = true;
  const std::string short_text = written("text", facts)[0].bytes;
  CHECK(holds(short_text, "Work as the first with the sides changed"));
  piece.mirrors_exactly = false;
  const std::string full = written("text", facts)[0].bytes;
  CHECK_FALSE(holds(full, "Work as the first"));
  CHECK(holds(full.substr(full.find("SECOND SOCK")), "Knit to RC 112 (142, 154, 178)."));
}
