// Techniques, their arguments, and what they call.
#include <catch2/catch.hpp>

#include "tests/unit/names/checked.hpp"

using namespace stk;
using names::Checked;
using names::codes;

namespace {

const std::string plain = "technique plain(length: rows, more: rows = 2 rows) {\n  knit length + more\n}\n";
const std::string edge =
    "technique cuff(edge: rolled or turned = rolled) {\n  if edge is turned {\n    knit 2 rows\n  }\n}\n";

std::string worked(const std::string& technique, const std::string& call) {
  return codes(technique + "piece sock {\n  work " + call + "\n}\n");
}

}  // namespace

TEST_CASE("arguments are matched by name, the first also by place") {
  CHECK(worked(plain, "plain(4)") == "");
  CHECK(worked(plain, "plain(length: 4, more: 3)") == "");
  CHECK(worked(plain, "plain(4, more: 3)") == "");
  CHECK(worked(plain, "plain(4, 3)") == "N10:6");
  CHECK(worked(plain, "plain(more: 3)") == "N08:6");
  CHECK(worked(plain, "plain(4, length: 3)") == "N09:6");
  CHECK(worked(plain, "plain(lenght: 3)") == "N07:6");
  CHECK(worked("technique none() {\n  knit 2 rows\n}\n", "none(3)") == "N10:6");
}

TEST_CASE("an unknown technique is told and its arguments are still used") {
  CHECK(codes(plain + "let n = 4 rows\npiece sock {\n  work plian(n + 1)\n  work plain(n)\n}\n") == "N06:7");
}

TEST_CASE("a technique of a library that no use line names is told with its library") {
  Checked checked;
  checked.check("piece sock {\n  work short_row_heel(right half, down_to: 8)\n}\n");
  CHECK(checked.codes() == "N06:3");
  CHECK(checked.only().primary_label == "the library `heels` has it, and is not used here");
  CHECK(checked.only().helps.at(0) == "write `use heels` above the sizes");
}

TEST_CASE("a choice is one of its words, or another choice handed on") {
  CHECK(worked(edge, "cuff()") == "");
  CHECK(worked(edge, "cuff(turned)") == "");
  CHECK(worked(edge, "cuff(edge: tunred)") == "N23:8");
  CHECK(codes(edge + "technique both(edge: rolled or turned) {\n  work cuff(edge: edge)\n}\n") == "");
  CHECK(codes("technique cuff(edge: rolled or turned) {\n  if edge is tunred {\n    knit 2 rows\n  }\n}\n") == "N23:3");
}

TEST_CASE("a technique that works itself is told with its chain") {
  Checked checked;
  checked.check("technique a() {\n  work b()\n}\ntechnique b() {\n  work a()\n}\n");
  CHECK(checked.codes() == "N24:2");
  CHECK(checked.only().notes.at(0) == "a works b works a");
}

TEST_CASE("techniques may work one another 64 deep") {
  const auto chain = [](int length) {
    std::string text;
    for (int i = 1; i < length; ++i) {
      text += "technique t" + std::to_string(i) + "() {\n  work t" + std::to_string(i + 1) + "()\n}\n";
    }
    return codes(text + "technique t" + std::to_string(length) + "() {\n  knit 2 rows\n}\n");
  };
  CHECK(chain(64) == "");
  CHECK(chain(65) == "N25:2");
  CHECK(chain(80) == "N25:47");
}

TEST_CASE("what a technique needs, leaves and says may use its lets") {
  CHECK(codes("technique heel(part: needles) {\n  let n = count(part)\n  needs n >= 4 sts, \"{n} are too few\"\n"
              "  leaves n sts\n  says \"Over {n} sts\"\n  knit 2 rows\n}\n") == "");
}

TEST_CASE("an edge is not looked up among values") {
  CHECK(codes("technique close(edge: edge) {\n  seam edge to edge\n}\npiece sock {\n  work close(sock.left)\n}\n") ==
        "");
}

TEST_CASE("a parameter that is named twice") {
  CHECK(codes("technique heel(n: sts, n: rows) {\n  knit n\n}\n").substr(0, 5) == "N02:2");
}
