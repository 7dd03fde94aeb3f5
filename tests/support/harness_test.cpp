// The harness itself: a test that cannot fail would be worse than none.
#include <catch2/catch.hpp>

#include "tests/support/blocks.hpp"
#include "tests/support/line_diff.hpp"
#include "tests/support/snapshot.hpp"

using namespace stk::test;

TEST_CASE("a snapshot's source is split into files, markers and a command") {
  const Snapshot test = read_snapshot(
      "# what it proves\n"
      "#@ run: build --to text,markdown --edition mid --set part=40%\n"
      "stockinger 1\n"
      "knit 3  #~ C04 C05  # why\n"
      "  #~^^ S01\n"
      "#~ <library> N07\n"
      "#@ file: other.stk\n"
      "x  #~ N01\n");
  CHECK(test.mistake == "");
  CHECK(test.proves == "what it proves");
  CHECK(test.build);
  CHECK(test.formats == std::vector<std::string>{"text", "markdown"});
  CHECK(test.options.edition == "mid");
  CHECK(test.options.settings.at("part") == "40%");
  CHECK(test.text.find("#~ <library> N07\n") != std::string::npos);  // lines keep their numbers
  CHECK(test.neighbours.at("other.stk") == "x  #~ N01\n");
  CHECK(test.marked == std::vector<Place>{{"<library>", 0, "N07"},
                                          {"other.stk", 1, "N01"},
                                          {"test.stk", 3, "S01"},
                                          {"test.stk", 4, "C04"},
                                          {"test.stk", 4, "C05"}});
}

TEST_CASE("mistakes in a snapshot's own commands are told") {
  CHECK(read_snapshot("stockinger 1\n").mistake == "its first comment must say what it proves");
  CHECK(read_snapshot("# x\n#@ rum: check\n").mistake == "the harness does not know #@ rum: check");
  CHECK(read_snapshot("# x\n#@ run: tidy\n").mistake == "`#@ run:` takes check, build or fit");
  CHECK(read_snapshot("# x\n#@ run: build\n").mistake == "`build` needs `--to` here");
  CHECK(read_snapshot("# x\n#@ run: check --from y\n").mistake == "the harness does not know --from");
  CHECK(read_snapshot("# x\n#@ file: a.stk\n#@ file: a.stk\n").mistake == "two files are called a.stk");
}

TEST_CASE("a unified diff") {
  CHECK(line_diff("a\nb\n", "a\nb\n", "x", "y").empty());
  CHECK(line_diff("a\nb\nc\n", "a\nB\nc\n", "x", "y") == "--- x\n+++ y\n@@ -1,3 +1,3 @@\n a\n-b\n+B\n c\n");
  CHECK(line_diff("", "a\n", "x", "y") == "--- x\n+++ y\n@@ -0,0 +1,1 @@\n+a\n");
  CHECK(line_diff("a\n", "a", "x", "y") == "--- x\n+++ y\n@@ -1,1 +1,1 @@\n-a\n+a\\ no line end\n");
  const std::string far = line_diff("1\n2\n3\n4\n5\n6\n7\n8\n9\n", "0\n2\n3\n4\n5\n6\n7\n8\n0\n", "x", "y");
  CHECK(far == "--- x\n+++ y\n@@ -1,4 +1,4 @@\n-1\n+0\n 2\n 3\n 4\n@@ -6,4 +6,4 @@\n 6\n 7\n 8\n-9\n+0\n");
}

TEST_CASE("fenced blocks with their headings") {
  const auto blocks =
      fenced_blocks("# One\n```stk\na\n```\ntext\n## Two\n````stk piece finding C04\n```\n````\n```sh\nls\n```\n");
  REQUIRE(blocks.size() == 3);
  CHECK(blocks[0].info == "stk");
  CHECK(blocks[0].text == "a\n");
  CHECK(blocks[0].heading == "One");
  CHECK(blocks[0].line == 3);
  CHECK(blocks[1].text == "```\n");
  CHECK(blocks[1].heading == "Two");
  CHECK(is_ours(blocks[1]));
  CHECK_FALSE(is_ours(blocks[2]));
  CHECK(listing(blocks[0]).text == "a\n");
  CHECK(listing({"stk piec", "a\n", 1, ""}).mistake == "`piec` in the info string");
  CHECK(listing({"stk file finding C04", "a\n", 1, ""}).finding == "C04");
}
