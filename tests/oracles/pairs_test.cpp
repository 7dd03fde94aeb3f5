// The estimates of the examples against what is published and sold for a pair: 100 g at 400 to 420 m to 100 g for
// adults, 150 g from EU size 42, 50 g for a toddler, 10 g for a newborn (shop lists and sock books, seen). Such figures
// are what one buys, whole balls with something left: so an estimate must not be more, and not less than a third of it.
#include <catch2/catch.hpp>
#include <string>
#include <variant>

#include "compiler/service/session.hpp"
#include "compiler/text/disk_files.hpp"
#include "stdlib/library.hpp"

using namespace stk;

namespace {

// Grams that the main yarn of an edition needs, with its margin.
std::optional<double> grams(const service::Checked& checked, const std::string& edition, const std::string& size) {
  for (const knit::EditionFacts& e : checked.facts->editions)
    for (std::size_t i = 0; e.name == edition && i < checked.facts->sizes.size(); ++i)
      if (checked.facts->sizes[i].name == size) {
        double all = 0;
        for (const knit::YarnFacts& yarn : e.yarns)
          if (!yarn.waste && yarn.mass.at(i)) all += std::stod(values::decimal(yarn.mass[i]->value, 3));
        return all;
      }
  return std::nullopt;  // not every style has every size
}

service::Checked example(const std::string& name) {
  const std::string path = std::string(STK_SOURCE_DIR) + "/examples/" + name + ".stk";
  text::DiskFiles files(path, stdlib::files());
  text::FileResult read = text::read_source(path);
  REQUIRE(std::holds_alternative<text::FileText>(read));
  auto& [shown, content] = std::get<text::FileText>(read);
  service::Checked checked = service::Session(files).check(shown, std::move(content), {});
  REQUIRE_FALSE(checked.has_errors());
  return checked;
}

int compared = 0;
void within_bought(std::optional<double> estimate, double bought) {
  if (!estimate) return;
  ++compared;
  CHECK(*estimate <= bought);
  CHECK(*estimate >= bought / 3);
}

}  // namespace

TEST_CASE("a pair takes no more than what is published for it, and not far less") {
  for (const char* name : {"slack-water", "breakwater", "harbour-wall", "strandline", "lighthouse", "spindrift"}) {
    INFO(name);
    const service::Checked checked = example(name);
    // The standard edition is of fingering wool, 420 m to 100 g.
    within_bought(grams(checked, "standard", "toddler_m"), 50);
    within_bought(grams(checked, "standard", "women_m"), 100);
    // Men M and L have feet of 27.1 and 29.3 cm: EU 42 2/3 and 46 (1.5 times the length and 2; ISO/TS 19407:2015).
    within_bought(grams(checked, "standard", "men_m"), 150);
    within_bought(grams(checked, "standard", "men_l"), 150);
  }
  CHECK(compared >= 20);
}

TEST_CASE("a long sock takes more, and less than twice as much") {
  // A leg of 34 cm instead of 16, and wider: what is published is of ordinary length.
  const std::optional<double> estimate = grams(example("mooring"), "standard", "women_m");
  REQUIRE(estimate);
  CHECK(*estimate > 100);
  CHECK(*estimate < 200);
}

TEST_CASE("first socks take a few grams") {
  // A newborn's is 10 g; ours, with a leg and in the same yarn, less than 20.
  const service::Checked checked = example("sandhopper");
  const std::optional<double> newborn = grams(checked, "standard", "newborn");
  REQUIRE(newborn);
  CHECK(*newborn > 4);
  CHECK(*newborn < 20);
}
