// How a finding reads. The layout is that of the reference's example; each case below is one thing that it must get right.
#include <catch2/catch.hpp>
#include <string>

#include "compiler/findings/findings.hpp"
#include "compiler/findings/render.hpp"
#include "compiler/text/columns.hpp"

using namespace stk::findings;
using stk::text::FileId;
using stk::text::Sources;
using stk::text::Span;

namespace {

const LaneNames four{{"child_m", "women_m", "women_l", "men_l"}, {"Child M", "Women M", "Women L", "Men L"}, {"mid", "standard"}};

// The span of `what` in the first source.
Span in(const Sources& sources, std::string_view what, std::uint16_t file = 0) {
  const std::size_t at = sources[FileId{file}].text().find(what);
  REQUIRE(at != std::string_view::npos);
  return {static_cast<std::uint32_t>(at), static_cast<std::uint32_t>(at + what.size()), FileId{file}};
}

Finding about(Span primary, std::string title = "the groups of 3 do not come out even") {
  Finding finding;
  finding.code = Code::S01;
  finding.title = std::move(title);
  finding.primary = primary;
  return finding;
}

std::string text(const Finding& finding, const Sources& sources, std::size_t width = 80) {
  return render_text(finding, sources, four, {width, false});
}

bool fits(const std::string& text, std::size_t width) {
  for (std::size_t begin = 0; begin < text.size();) {
    const std::size_t end = std::min(text.find('\n', begin), text.size());
    if (stk::text::display_width(std::string_view(text).substr(begin, end - begin)) > width) return false;
    begin = end + 1;
  }
  return true;
}

}  // namespace

TEST_CASE("a whole finding") {
  Sources sources;
  sources.add("slack-water.stk", "# 1\n  decrease 1 each side\n\n  move last of each 3 one needle left\n");
  Finding finding = about(in(sources, "last of each 3"));
  finding.primary_label = "40 needles are in work here: 13 groups and 1 over";
  finding.labels = {{in(sources, "decrease 1 each side"), "42 became 40 here"}};
  finding.notes = {"a group has as many needles as the technique was given"};
  finding.helps = {"39 and 42 divide by 3; `rounded to multiple of 6` on `body` (line 24) gives 42"};
  finding.lanes = {{0, 0b1010}};
  finding.row = 142;
  CHECK(text(finding, sources) ==
        "error S01: the groups of 3 do not come out even                slack-water.stk:4\n"
        "    4 |   move last of each 3 one needle left\n"
        "      |        ^^^^^^^^^^^^^^ 40 needles are in work here: 13 groups and 1 over\n"
        "  in sizes Women M and Men L (of 4), edition mid, at RC 142\n"
        "    2 |   decrease 1 each side\n"
        "      |   -------------------- 42 became 40 here\n"
        "  note: a group has as many needles as the technique was given\n"
        "  help: 39 and 42 divide by 3; `rounded to multiple of 6` on `body` (line 24)\n"
        "        gives 42\n");
}

TEST_CASE("a label on the line of the primary stands under it in the same excerpt") {
  Sources sources;
  sources.add("a.stk", "knit 3 sts\n");
  Finding finding = about(in(sources, "sts"));
  finding.labels = {{in(sources, "3"), "the amount"}};
  CHECK(text(finding, sources, 60) ==
        "error S01: the groups of 3 do not come out even      a.stk:1\n"
        "    1 | knit 3 sts\n"
        "      |        ^^^\n"
        "      |      - the amount\n");
}

TEST_CASE("a label in another file names it") {
  Sources sources;
  sources.add("a.stk", "use \"b.stk\"");
  sources.add("b.stk", "x\nlet y = 3");
  Finding finding = about(in(sources, "b.stk"));
  finding.labels = {{in(sources, "y", 1), "declared here"}};
  CHECK(text(finding, sources) ==
        "error S01: the groups of 3 do not come out even                          a.stk:1\n"
        "    1 | use \"b.stk\"\n"
        "      |      ^^^^^\n"
        "  b.stk:2\n"
        "    2 | let y = 3\n"
        "      |     - declared here\n");
}

TEST_CASE("marks stand under wide characters, accents and tabs") {
  Sources sources;
  sources.add("a.stk", "\t\"日本 e\u0301\" 12 x");
  Finding finding = about(in(sources, "12"));
  CHECK(text(finding, sources, 60) ==
        "error S01: the groups of 3 do not come out even      a.stk:1\n"
        "    1 |     \"日本 e\u0301\" 12 x\n"
        "      |              ^^\n");
  finding.primary = in(sources, "本");
  CHECK(text(finding, sources, 60).find("      |        ^^\n") != std::string::npos);
}

TEST_CASE("a place between two characters, at the end of a line and of a file") {
  Sources sources;
  sources.add("a.stk", "knit\nhold");
  const auto marked = [&](std::uint32_t begin, std::uint32_t end) { return text(about({begin, end, FileId{}}), sources); };
  CHECK(marked(2, 2).find("    1 | knit\n      |   ^\n") != std::string::npos);
  CHECK(marked(4, 4).find("    1 | knit\n      |     ^\n") != std::string::npos);
  CHECK(marked(4, 5).find("    1 | knit\n      |     ^\n") != std::string::npos);    // the line end itself
  CHECK(marked(9, 9).find("    2 | hold\n      |     ^\n") != std::string::npos);
  CHECK(marked(50, 60).find("    2 | hold\n      |     ^\n") != std::string::npos);
  CHECK(marked(2, 9).find("    1 | knit\n      |   ^^\n") != std::string::npos);     // goes on in the next line
}

TEST_CASE("an empty source can be pointed at") {
  Sources sources;
  sources.add("a.stk", "");
  CHECK(text(about({0, 0, FileId{}}), sources) ==
        "error S01: the groups of 3 do not come out even                          a.stk:1\n"
        "    1 |\n"
        "      | ^\n");
}

TEST_CASE("a long line is shown around its mark") {
  Sources sources;
  std::string line(100000, 'a');
  line.replace(50000, 3, "XYZ");
  sources.add("a.stk", line);
  const std::string shown = text(about(in(sources, "XYZ")), sources, 40);
  CHECK(fits(shown, 40));
  CHECK(shown.find("…aaaaaaaaaXYZaaaaaaaaaaaaaaaaaa…\n") != std::string::npos);
  CHECK(shown.find("      |           ^^^\n") != std::string::npos);
  const std::string start = text(about({0, 100000, FileId{}}), sources, 40);
  CHECK(fits(start, 40));
  CHECK(start.find("^^^^^^^^") != std::string::npos);
}

TEST_CASE("nothing is wider than asked for, down to forty columns") {
  Sources sources;
  sources.add("a-rather-long-name-of-a-pattern-file.stk", "  move last of each 3 one needle left, and then some more words of prose\n");
  Finding finding = about(in(sources, "one needle"), "a title of many words that must be wrapped because it is too long");
  finding.primary_label = "a label of many words that must be wrapped too";
  finding.labels = {{in(sources, "some more"), "and another one that goes on for quite a while"}};
  finding.notes = {"a note of many words that must be wrapped as well, or it would stand beyond the edge"};
  finding.helps = finding.notes;
  finding.lanes = {{0, 0b0011}, {1, 0b0001}};
  for (const std::size_t width : {44u, 60u, 80u, 120u}) {
    INFO(text(finding, sources, width));
    CHECK(fits(text(finding, sources, width), width));
  }
}

TEST_CASE("without a source the finding stands alone") {
  Finding finding = about({0, 0, FileId{}});
  finding.primary_label = "the facts";
  CHECK(text(finding, {}) == "error S01: the groups of 3 do not come out even\n  the facts\n");
}

TEST_CASE("an edit is offered in words where no help says it already") {
  Sources sources;
  sources.add("a.stk", "knti 3");
  Finding finding = about(in(sources, "knti"));
  finding.edits = {{finding.primary, "knit"}};
  CHECK(text(finding, sources).find("  help: write `knit` in place of `knti`\n") != std::string::npos);
  finding.edits = {{finding.primary, ""}};
  CHECK(text(finding, sources).find("  help: take out `knti`\n") != std::string::npos);
  finding.edits = {{{6, 6, FileId{}}, " rows"}};
  CHECK(text(finding, sources).find("  help: add ` rows` at line 1, column 7\n") != std::string::npos);
  finding.helps = {"write `knit`"};
  CHECK(text(finding, sources).find("add") == std::string::npos);
}

TEST_CASE("where it happens, in words") {
  const auto where = [](std::vector<Lanes> lanes, const LaneNames& names = four) {
    Finding finding;
    finding.lanes = std::move(lanes);
    return where_it_happens(finding, names);
  };
  using Lines = std::vector<std::string>;
  CHECK(where({}).empty());
  CHECK(where({{0, 0b0001}}) == Lines{"in size Child M (of 4), edition mid"});
  CHECK(where({{0, 0b1111}}) == Lines{"in all 4 sizes, edition mid"});
  CHECK(where({{0, 0b0111}}) == Lines{"in all 4 sizes but Men L, edition mid"});
  CHECK(where({{0, 0b0110}}) == Lines{"in sizes Women M and Women L (of 4), edition mid"});
  CHECK(where({{0, 0b1111}, {1, 0b1111}}) == Lines{"in all 4 sizes, both editions"});
  CHECK(where({{0, 0b1111}, {1, 0b0001}}) ==
        Lines{"in all 4 sizes, edition mid", "in size Child M (of 4), edition standard"});
  CHECK(where({{0, 0b1}}, {{"one"}, {"One size"}, {"mid"}}) == Lines{"in size One size, edition mid"});
  CHECK(where({{0, 0b11}}, {{"a", "b"}, {"A", ""}, {}}) == Lines{"in both sizes"});
  CHECK(where({{0, 0b10}}, {{"a", "b"}, {"A", ""}, {}}) == Lines{"in size b (of 2)"});
  Finding finding;
  finding.lanes = {{0, 0b0001}, {1, 0b0010}};
  finding.row = 7;
  finding.needle = "L12";
  finding.mirrored = true;
  CHECK(where_it_happens(finding, four) ==
        Lines{"in size Child M (of 4), edition mid, at RC 7, needle L12, in the second, mirrored piece only",
              "in size Women M (of 4), edition standard"});
}

TEST_CASE("colour is asked for, and goes with the text") {
  Sources sources;
  sources.add("a.stk", "knit 3");
  Finding finding = about(in(sources, "3"));
  finding.helps = {"do this"};
  const std::string plain = text(finding, sources);
  const std::string coloured = render_text(finding, sources, four, {80, true});
  CHECK(plain.find('\x1b') == std::string::npos);
  CHECK(coloured.find("\x1b[1;31merror S01:\x1b[0m the groups") != std::string::npos);
  CHECK(coloured.find("  \x1b[32mhelp:\x1b[0m do this\n") != std::string::npos);
  std::string without;   // taking the colours out again gives the plain text
  for (std::size_t i = 0; i < coloured.size(); ++i) {
    if (coloured[i] == '\x1b') {
      i = coloured.find('m', i);
    } else {
      without += coloured[i];
    }
  }
  CHECK(without == plain);
}

TEST_CASE("many findings: the first are shown, errors before warnings, and all are counted") {
  Sources sources;
  sources.add("a.stk", "knit 3");
  std::vector<Finding> all;
  for (int i = 0; i < 4; ++i) all.push_back(about({0, 1, FileId{}}, "finding " + std::to_string(i)));
  all[0].severity = Severity::warning;
  all[1].severity = Severity::note;
  CHECK(render_text({}, sources, four, {}, 0).empty());
  const std::string two = render_text(all, sources, four, {}, 2);
  CHECK(two.find("finding 0") == std::string::npos);
  CHECK(two.find("finding 1") == std::string::npos);
  CHECK(two.find("finding 2") < two.find("finding 3"));
  CHECK(two.find("\n2 errors, 1 warning, 1 note; 2 more than are shown here (--show 0 shows all)\n") != std::string::npos);
  const std::string every = render_text(all, sources, four, {}, 0);
  CHECK(every.find("warning S01: finding 0") < every.find("note S01: finding 1"));
  CHECK(every.find("\n2 errors, 1 warning, 1 note\n") != std::string::npos);
  CHECK(render_text(all, sources, four, {}, 4) == every);
}
