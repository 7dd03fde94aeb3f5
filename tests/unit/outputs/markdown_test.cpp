#include <catch2/catch.hpp>

#include "compiler/document/write.hpp"
#include "compiler/outputs/backend.hpp"
#include "compiler/outputs/characters.hpp"
#include "compiler/outputs/paths.hpp"
#include "tests/unit/sample_facts.hpp"

using namespace stk;
using outputs::Output;

namespace {

std::vector<Output> written(const knit::Facts& facts, const outputs::OutputOptions& options = {}) {
  return outputs::find_backend("markdown")->write(facts, document::write_document(facts, 0, 15), options);
}

bool holds(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

}  // namespace

TEST_CASE("headings, tables and linked charts") {
  const std::vector<Output> files = written(test::sample_facts());
  REQUIRE(files.size() == 3);
  const std::string& text = files[0].bytes;
  CHECK(files[0].path == "slack-water-bed-sock.mid.md");
  CHECK(files[1].path == "charts/slack-water-bed-sock.mid.chart-1.svg");
  CHECK(holds(text, "# Slack Water bed sock\n\nTidewrack Hosiery, version 1.2, edition mid\n"));
  CHECK(holds(text, "\n## Leg and foot\n"));
  CHECK(holds(text, "| Size | Foot length | Foot around | Finished foot around |\n| :--- | ---: | ---: | ---: |\n"));
  CHECK(holds(text, "| Women M | 24.5 (9¾) | 22.5 (8¾) | 17.5 (7) |\n"));
  CHECK(holds(text, "](<charts/slack-water-bed-sock.mid.chart-1.svg>)"));
  CHECK(holds(text, "\\*Knit"));
}

TEST_CASE("nothing that a designer writes is taken for Markdown") {
  knit::Facts facts = test::sample_facts();
  facts.pattern.title = "A *sock* | with `ticks` [and](links) <b>&amp;</b>";
  facts.pattern.summary = "1. is no list";
  facts.pattern.notes = {"- not a list", "# no heading", "_low_ ~~line~~ \\ back", "line\nbreak"};
  facts.sizes[0].printed = "S|M";
  const std::string text = written(facts)[0].bytes;
  CHECK(holds(text, "# A \\*sock\\* \\| with \\`ticks\\` \\[and\\](links) \\<b\\>\\&amp;\\</b\\>\n"));
  CHECK(holds(text, "\n1\\. is no list\n"));
  CHECK(holds(text, "\n- \\- not a list\n- \\# no heading\n- \\_low\\_ \\~\\~line\\~\\~ \\\\ back\n- line"));
  CHECK(holds(text, "| S\\|M |"));
}

TEST_CASE("names of files follow the template and never lead out of the folder") {
  document::Document doc;
  doc.title.name = "Été à la Plage, Größe 3!";
  doc.edition = "mid_gauge";
  CHECK(outputs::slug(doc.title.name) == "ete-a-la-plage-grosse-3");
  CHECK(outputs::slug("靴下") == "pattern");
  outputs::OutputOptions options;
  CHECK(outputs::output_path(options, doc, "txt") == "ete-a-la-plage-grosse-3.mid-gauge.txt");
  doc.size = "women_l";
  CHECK(outputs::output_path(options, doc, "txt") == "ete-a-la-plage-grosse-3.mid-gauge.women-l.txt");
  CHECK(outputs::chart_path(options, doc, 2, "svg") == "charts/ete-a-la-plage-grosse-3.mid-gauge.women-l.chart-2.svg");
  options.path_template = "/../{edition}/../{style}.{format}";
  CHECK(outputs::output_path(options, doc, "md") == "mid-gauge/ete-a-la-plage-grosse-3.md");
  CHECK(outputs::relative_path("mid/a.md", "mid/charts/b.svg") == "charts/b.svg");
  CHECK(outputs::relative_path("a/b/c.md", "a/d/e.svg") == "../d/e.svg");
  CHECK(outputs::relative_path("c.md", "charts/e.svg") == "charts/e.svg");
}

TEST_CASE("capitals are those of the letters, not of the bytes") {
  CHECK(outputs::upper_case("Größe, été") == "GRÖẞE, ÉTÉ");
}
