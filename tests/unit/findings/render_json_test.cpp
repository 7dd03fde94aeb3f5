// Findings for programs: what is always there, and that it is JSON.
#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "compiler/findings/findings.hpp"
#include "compiler/findings/render.hpp"

using namespace stk::findings;
using nlohmann::json;
using stk::text::FileId;
using stk::text::Sources;

namespace {

const LaneNames names{{"child_m", "women_m"}, {"Child M", "Women M"}, {"mid", "standard"}};

json parsed(const std::vector<Finding>& findings, const Sources& sources) {
  return json::parse(render_json({{&findings, &sources, &names}}));
}

}  // namespace

TEST_CASE("no findings are an empty array") {
  CHECK(json::parse(render_json({})) == json::array());
  CHECK(parsed({}, {}) == json::array());
}

TEST_CASE("every key is there, null where there is nothing") {
  Sources sources;
  sources.add("a.stk", "knit\n½ \"x\" 3");
  Finding finding;
  finding.code = Code::S01;
  finding.title = "a \"quoted\" title";
  finding.primary = {8, 11, FileId{}};
  const json one = parsed({finding}, sources)[0];
  CHECK(one["code"] == "S01");
  CHECK(one["severity"] == "error");
  CHECK(one["message"] == "a \"quoted\" title");
  CHECK(one["file"] == "a.stk");
  CHECK(one["line"] == 2);
  CHECK(one["column"] == 3);
  CHECK(one["end_line"] == 2);
  CHECK(one["end_column"] == 6);
  for (const char* key : {"sizes", "edition", "row", "needle", "label"}) {
    INFO(key);
    REQUIRE(one.contains(key));
    CHECK(one[key].is_null());
  }
  for (const char* key : {"lanes", "labels", "notes", "helps", "edits"}) {
    INFO(key);
    REQUIRE(one.contains(key));
    CHECK(one[key] == json::array());
  }
  CHECK(one["mirrored"] == false);
}

TEST_CASE("sizes and edition are those of the first edition concerned; lanes have all") {
  Sources sources;
  sources.add("a.stk", "knit 3");
  Finding finding;
  finding.primary = {0, 4, FileId{}};
  finding.primary_label = "here";
  finding.lanes = {{0, 0b10}, {1, 0b11}};
  finding.row = 142;
  finding.needle = "L12";
  finding.labels = {{{5, 6, FileId{}}, "there"}};
  finding.notes = {"fact"};
  finding.helps = {"mend"};
  finding.edits = {{{5, 6, FileId{}}, "4", Confidence::certain}};
  const json one = parsed({finding}, sources)[0];
  CHECK(one["sizes"] == json{"women_m"});
  CHECK(one["edition"] == "mid");
  CHECK(one["row"] == 142);
  CHECK(one["needle"] == "L12");
  CHECK(one["lanes"] == json::parse(R"([{"edition": "mid", "sizes": ["women_m"]},
                                        {"edition": "standard", "sizes": ["child_m", "women_m"]}])"));
  CHECK(one["label"] == "here");
  CHECK(one["labels"][0]["message"] == "there");
  CHECK(one["labels"][0]["column"] == 6);
  CHECK(one["notes"] == json{"fact"});
  CHECK(one["helps"] == json{"mend"});
  CHECK(one["edits"][0]["replacement"] == "4");
  CHECK(one["edits"][0]["confidence"] == "certain");
  CHECK(one["edits"][0]["begin"] == 5);
  CHECK(one["edits"][0]["end"] == 6);
}

TEST_CASE("several runs make one array, each with its own sources") {
  Sources first, second;
  first.add("a.stk", "one");
  second.add("b.stk", "two");
  Finding finding;
  finding.primary = {0, 3, FileId{}};
  const std::vector<Finding> findings{finding};
  const json all = json::parse(render_json({{&findings, &first, &names}, {&findings, &second, &names}}));
  REQUIRE(all.size() == 2);
  CHECK(all[0]["file"] == "a.stk");
  CHECK(all[1]["file"] == "b.stk");
}

TEST_CASE("bytes that are not UTF-8 do not break it, nor does a place without a source") {
  Finding finding;
  finding.title = "bad \xFF byte";
  const json one = parsed({finding}, {})[0];
  CHECK(one["message"] == "bad \uFFFD byte");
  CHECK(one["file"].is_null());
  CHECK(one["line"].is_null());
}
