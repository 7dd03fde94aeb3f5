// Used files: what they give, what is missing, circles and limits.
#include <catch2/catch.hpp>

#include "compiler/text/limits.hpp"
#include "tests/unit/names/checked.hpp"

using namespace stk;
using names::Checked;

namespace {

std::string library(const std::string& name, const std::string& body) {
  return "stockinger 1\nlibrary " + name + " {\n  by \"Tidewrack Hosiery\"\n}\n" + body;
}

}  // namespace

TEST_CASE("a neighbour gives its lets and its sizes") {
  Checked checked;
  checked.with("shared.stk", library("shared", "sizes {\n  a b\n  foot 10 12 cm\n}\nlet twice = 2 * foot\n"));
  checked.check("use \"shared.stk\"\nlet four = 2 * twice + foot\n");
  CHECK(checked.codes() == "");
  CHECK(checked.program.sizes.columns.size() == 2);
  CHECK(checked.program.find(checked.program.main().id, names::Space::value, "twice") != nullptr);
}

TEST_CASE("what a used file uses is not seen through it") {
  Checked checked;
  checked.with("a.stk", library("a", "use \"b.stk\"\nlet x = y\n")).with("b.stk", library("b", "let y = 3\n"));
  checked.check("use \"a.stk\"\nlet z = y\n");
  CHECK(checked.codes() == "N01:3");
}

TEST_CASE("a library's technique sees its own lets and not the pattern's") {
  Checked checked;
  checked.with("a.stk", library("a", "technique t() {\n  knit n\n}\n"));
  checked.check("use \"a.stk\"\nlet n = 4 rows\npiece sock {\n  work t()\n  knit n\n}\n");
  CHECK(checked.codes() == "N01:6 in a.stk");
}

TEST_CASE("a file used as something is reached by that name alone") {
  const std::string body = "let n = 4 rows\ntechnique two(pairs: count) {\n  knit pairs * 2 rows\n}\n";
  Checked checked;
  checked.with("a.stk", library("a", body));
  checked.check("use \"a.stk\" as a\nlet twice = 2 * a.n\npiece sock {\n  work a.two(pairs: 3)\n  knit twice\n}\n");
  CHECK(checked.codes() == "");
  Checked bare;
  bare.with("a.stk", library("a", body));
  bare.check("use \"a.stk\" as a\nlet twice = 2 * n\npiece sock {\n  work two(pairs: 3)\n  knit twice\n}\n");
  CHECK(bare.codes() == "N01:3 N06:5");
  CHECK(bare.only().helps.at(0) == "a file used as something is named first: `a.n`");
  Checked heels;
  heels.check("use heels as h\npiece sock {\n  work h.short_row_heel(right half, down_to: 8)\n}\n");
  CHECK(heels.codes() == "");
}

TEST_CASE("a name with a point in it cannot be declared") {
  CHECK(names::codes("technique a.b() {\n  knit 2 rows\n}\n") == "N15:2");
}

TEST_CASE("an own name hides a used one, with a warning") {
  Checked checked;
  checked.with("a.stk", library("a", "let n = 4 rows\n"));
  checked.check("use \"a.stk\"\nlet n = 6 rows\n");
  CHECK(checked.codes() == "N14:3");
}

TEST_CASE("a library that is not there") {
  Checked checked;
  checked.check("use heals\npiece sock {\n  work short_row_heel(right half, down_to: 8)\n}\n");
  CHECK(checked.codes() == "N17:2");  // and not that the technique is unknown too
  CHECK(checked.mended().substr(0, 10) == "use heels\n");
}

TEST_CASE("a neighbour that cannot be used") {
  Checked checked;
  checked.check("use \"nowhere.stk\"\n");
  CHECK(checked.codes() == "N18:2");
  Checked outside;
  outside.check("use \"../outside.stk\"\n");
  CHECK(outside.codes() == "N18:2");
}

TEST_CASE("circles are told with their chain") {
  Checked self;
  self.with("sock.stk", "stockinger 1\nuse \"sock.stk\"\n");
  self.check("use \"sock.stk\"\n");
  CHECK(self.codes() == "N19:2");
  CHECK(self.only().primary_label == "`sock.stk` uses itself");

  Checked pair;
  pair.with("a.stk", library("a", "use \"b.stk\"\n")).with("b.stk", library("b", "use \"a.stk\"\n"));
  pair.check("use \"a.stk\"\n");
  CHECK(pair.codes() == "N19:5 in b.stk");
  CHECK(pair.only().notes.at(0) == "a.stk uses b.stk uses a.stk");
}

TEST_CASE("one file used by two others is read once") {
  Checked checked;
  checked.with("a.stk", library("a", "use \"c.stk\"\nlet x = z\n"))
      .with("b.stk", library("b", "use \"c.stk\"\nlet y = z\n"));
  checked.with("c.stk", library("c", "let z = 3\n"));
  checked.check("use \"a.stk\"\nuse \"b.stk\"\nlet s = x + y\n");
  CHECK(checked.codes() == "");
  CHECK(checked.program.files().size() == 4);
}

TEST_CASE("a used file needs its heading, and is no pattern") {
  Checked bare;
  bare.with("a.stk", "stockinger 1\nlet x = 3\n").check("use \"a.stk\"\nlet y = x\n");
  CHECK(bare.codes() == "N20:2");
  Checked pattern;
  pattern.with("a.stk", "stockinger 1\npattern \"Sock\" {\n}\n").check("use \"a.stk\"\n");
  CHECK(pattern.codes() == "N20:2");
}

TEST_CASE("a file used twice") {
  Checked checked;
  checked.check("use heels\nuse heels\n");
  CHECK(checked.codes() == "N02:3");
}

TEST_CASE("the depth of used files is limited on both sides") {
  const auto chain = [](std::uint32_t length) {
    Checked checked;
    for (std::uint32_t i = 1; i <= length; ++i) {
      const std::string use = i < length ? "use \"f" + std::to_string(i + 1) + ".stk\"\n" : "";
      checked.with("f" + std::to_string(i) + ".stk", library("f", use));
    }
    return checked.check("use \"f1.stk\"\n").codes();
  };
  CHECK(chain(text::limits::library_depth) == "");
  CHECK(chain(text::limits::library_depth + 1) == "N21:5 in f32.stk");
}

TEST_CASE("the number of used files is limited on both sides") {
  const auto many = [](std::uint32_t count) {
    Checked checked;
    std::string uses;
    for (std::uint32_t i = 1; i <= count; ++i) {
      checked.with("f" + std::to_string(i) + ".stk", library("f", ""));
      uses += "use \"f" + std::to_string(i) + ".stk\"\n";
    }
    return checked.check(uses).codes();
  };
  CHECK(many(text::limits::library_files) == "");
  CHECK(many(text::limits::library_files + 2) == "N21:258");
}
