// Each example of our own house, broken in the way that is characteristic of its construction: one line is changed as a
// tired designer would change it, and the finding that names the mistake must be among those that come.
#include <catch2/catch.hpp>

#include <algorithm>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

#include "compiler/findings/catalog.hpp"
#include "compiler/service/session.hpp"
#include "compiler/text/disk_files.hpp"
#include "stdlib/library.hpp"

using namespace stk;

namespace {

struct Broken {
  const char* example;
  const char* right;  // stands in the source once or more; the first is changed
  const char* wrong;
  const char* code;
  const char* why;
};

const std::vector<Broken> broken{
    {"slack-water", "rounded to multiple of 4", "rounded to multiple of 4 plus 2", "C38", "the toe needs groups of 4"},
    {"breakwater", "across body + 1, ending [|]", "across body", "C07", "the needle more that the hem needs is forgotten"},
    {"mooring", "decrease 1 on each side, 2 in", "decrease 1 on left, 2 in", "C07", "half of the decreases are forgotten"},
    {"sandhopper", "knit to row leg + foot", "knit to row leg + foot + 1 row", "Y19", "an odd row more brings the carriage to the other side"},
    {"sandhopper", "  [.x.x]\n  [...x]\n  [.x..]\n  [...x]\n  [.x..]\n  [x.x.]\n",
     "  [.x.x.]\n  [....x]\n  [.x.x.]\n  [....x]\n  [.x.x.]\n  [x.x.x]\n", "Y01", "a float over four stitches, for an infant"},
    {"harbour-wall", "- 2 * (gusset as rows)", "- (gusset as rows)", "E03", "the gussets take two rows for each decrease"},
    {"strandline", "open sock.heel_slot, upper on holder", "open sock.heel_slot", "E17", "the upper loops hang free"},
    {"lighthouse", "  knit foot\n", "  knit foot as rows\n", "B05", "rows knit the two layers of the tube together"},
    {"spindrift", "  cut contrast, tail 15 cm\n", "", "E31", "the second yarn is left at rest"},
    {"kelp-line", "seam sole.right to top.left, mattress, with main", "seam sole.right to top.right, mattress, with main",
     "E06", "one side is sewn twice and the other never"},
    {"two-tides", "knit to row foot, joining", "knit to row foot + 8 rows, joining", "E28", "the front has no rows left"},
    {"capstan", "knit 4 rows\n    work cable_row", "work cable_row", "C19", "loops of the hem and of the crossing add up"},
    {"drift-line", "work tuck_rows()", "work tuck_rows(6 rows)", "C38", "a stitch is tucked too often"},
    {"groyne", "second bed [. |]", "second bed [| .]", "B03", "the needles of the rib face each other"},
    {"tide-table", "- 2 * shaping", "- shaping", "G20", "the heel's own length is forgotten"},
    {"rising-tide", "instep: left half", "instep: 2 on left", "C38", "the toe's first loops find no needles"},
    {"ripple-mark", "  rest main ", " ", "Y07", "the wool alone is still in the feeder when the strengthened one is threaded"},
    {"twin-creek", "half - big on left of second bed", "half - big - 1 on left of second bed", "C38",
     "the toes are parted at another needle on the second bed"},
    {"sluice", "bind off all, by latch, loose", "bind off main bed, by latch, loose", "E19", "half of the ring stays on the second bed"},
    {"bulwark", "  scrap off all as sole_end", "  take off 1 on left as tip, on holder\n  scrap off all as sole_end", "E01", "a st of the toe stays on its holder"},
    {"freeboard", "  work hem_at_end(hem)\n", "  mark row as fold\n  knit 2 * hem\n  decrease 1 on right, 2 in\n  hang fold on all\n  knit 1 row\n", "C31",
     "the hem is one needle short of its first row"},
    {"dinghy", "to instep sts on right", "to (instep + 2 sts) on right", "E03", "one edge of the instep takes more than the other"},
    {"gangway", "out: 2, back: 1", "out: 2, back: 2", "C38", "the rib to end with is not that of the beginning"},
};

std::string source_of(const std::string& path) {
  std::ifstream file(path);
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

}  // namespace

TEST_CASE("each example broken in its characteristic way gives the finding that names the mistake") {
  for (const Broken& one : broken) {
    DYNAMIC_SECTION(one.example << ": " << one.why) {
      const std::string path = std::string(STK_SOURCE_DIR) + "/examples/" + one.example + ".stk";
      std::string text = source_of(path);
      const std::size_t at = text.find(one.right);
      REQUIRE(at != std::string::npos);
      text.replace(at, std::string(one.right).size(), one.wrong);
      text::DiskFiles files(path, stdlib::files(), std::nullopt);
      const service::Checked checked = service::Session(files).check(path, text, {});
      std::vector<std::string> codes;
      for (const findings::Finding& finding : checked.findings)
        codes.emplace_back(findings::entry(finding.code).name);
      CAPTURE(codes);
      CHECK(std::count(codes.begin(), codes.end(), one.code) > 0);
    }
  }
}
