// Nearest words and nearest counts.
#include "compiler/findings/suggest.hpp"

#include <catch2/catch.hpp>
#include <limits>
#include <string>
#include <vector>

using namespace stk::findings;

TEST_CASE("edit distance") {
  // Textbook pairs: kitten/sitting is 3 in most treatments of the Levenshtein distance; ca/abc is 3 for optimal string
  // alignment (a full Damerau distance would be 2).
  CHECK(edit_distance("kitten", "sitting") == 3);
  CHECK(edit_distance("ca", "abc") == 3);
  CHECK(edit_distance("", "knit") == 4);
  CHECK(edit_distance("knit", "") == 4);
  CHECK(edit_distance("knit", "knit") == 0);
  CHECK(edit_distance("kint", "knit") == 1);      // two letters swapped
  CHECK(edit_distance("Knit", "knit") == 0);      // capitals are alike
  CHECK(edit_distance("kit", "knit") == 1);
}

TEST_CASE("the nearest word within a third of its length") {
  const std::vector<std::string> known{"body", "half", "heel_to", "hem_rows", "foot"};
  CHECK(nearest_word("bdoy", known)->word == "body");
  CHECK(nearest_word("bdoy", known)->certain);
  CHECK(nearest_word("hem_row", known)->word == "hem_rows");
  CHECK(nearest_word("hemrow", known)->word == "hem_rows");
  CHECK_FALSE(nearest_word("hemrow", known)->certain);   // two letters away
  CHECK_FALSE(nearest_word("gusset", known));
  CHECK_FALSE(nearest_word("body", known));              // it is known
  CHECK_FALSE(nearest_word("body", {}));
  CHECK_FALSE(nearest_word("", known));
  CHECK_FALSE(nearest_word("x", known));
  CHECK_FALSE(nearest_word("x", {"y"}));                 // every letter differs: nothing alike
}

TEST_CASE("two words equally near are not certain, and the first is taken") {
  const auto near = nearest_word("legs", {"lega", "legb"});
  CHECK(near->word == "lega");
  CHECK_FALSE(near->certain);
  CHECK(near_words("legs", {"lega", "foot", "legb", "leg"}) == std::vector<std::string>{"lega", "legb", "leg"});
}

TEST_CASE("nearest counts") {
  using Counts = std::vector<std::int64_t>;
  CHECK(nearest_counts(40, 3) == Counts{39, 42});
  CHECK(nearest_counts(42, 3) == Counts{42});
  CHECK(nearest_counts(2, 3) == Counts{3});              // 0 stitches is no count
  CHECK(nearest_counts(40, 4, 1) == Counts{37, 41});
  CHECK(nearest_counts(41, 4, 1) == Counts{41});
  CHECK(nearest_counts(40, 4, -1) == Counts{39, 43});
  CHECK(nearest_counts(-5, 3) == Counts{3});
  CHECK(nearest_counts(0, 4, 1) == Counts{1});
  CHECK(nearest_counts(0, 3) == Counts{3});
  CHECK(nearest_counts(40, 0).empty());
  CHECK(nearest_counts(40, -3).empty());
  CHECK(nearest_counts(std::numeric_limits<std::int64_t>::max(), 3).empty());
  CHECK(nearest_counts(std::numeric_limits<std::int64_t>::min(), 3).empty());
}
