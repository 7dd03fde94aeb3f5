#include "compiler/document/words.hpp"

#include <catch2/catch.hpp>

using namespace stk;
using namespace stk::document;

TEST_CASE("needles, counters and tensions are spelled as on the machine") {
  CHECK(needle_name(5) == "R5");
  CHECK(needle_name(-12) == "L12");
  CHECK(span_name({{-12, {}}, {12, {}}}) == "L12–R12");
  CHECK(span_name({{12, {}}, {12, {}}}) == "R12");
  CHECK(span_name({}).empty());
  CHECK(counter_digits(0) == "000");
  CHECK(counter_digits(16) == "016");
  CHECK(counter_digits(1234) == "1234");
  CHECK(tension_word(0) == "MT");
  CHECK(tension_word(-200) == "MT−2");
  CHECK(tension_word(150) == "MT+1.5");
  CHECK(tension_word(-5) == "MT−0.05");
}

TEST_CASE("lists and ordinals") {
  CHECK(joined({}).empty());
  CHECK(joined({"A"}) == "A");
  CHECK(joined({"A", "B", "C"}) == "A, B and C");
  CHECK(ordinal(2) == "second");
  CHECK(ordinal(11) == "11th");
  CHECK(ordinal(22) == "22nd");
  CHECK(ordinal(113) == "113th");
}

TEST_CASE("sizes are listed, or left out when that is shorter") {
  const std::vector<knit::SizeName> sizes{{"a", "Child M"}, {"b", "Women M"}, {"c", "Women L"}, {"d", "Men L"}};
  const auto plain = [](std::string text) {
    for (std::size_t at = text.find(no_break); at != std::string::npos; at = text.find(no_break))
      text.replace(at, 2, " ");
    return text;
  };
  CHECK(plain(only_for(0b1100, 0b1111, sizes)) == "Sizes Women L and Men L only");
  CHECK(plain(only_for(0b0001, 0b1111, sizes)) == "Size Child M only");
  CHECK(plain(only_for(0b1110, 0b1111, sizes)) == "All sizes but Child M");
  CHECK(plain(only_for(0b1111, 0b1111, sizes)) == "All sizes");
}

TEST_CASE("yarns have the trade's two letters, each its own") {
  std::vector<knit::YarnFacts> yarns;
  for (const char* name : {"main", "waste", "contrast", "mint", "heel_toe", "navy", "natural"}) {
    yarns.emplace_back();
    yarns.back().name = name;
  }
  const auto words = yarn_words(yarns);
  CHECK(words.at("main").code == "MY");
  CHECK(words.at("waste").code == "WY");
  CHECK(words.at("contrast").code == "CC");
  CHECK(words.at("mint").code == "MI");  // MY is the main yarn
  CHECK(words.at("heel_toe").code == "HT");
  CHECK(words.at("heel_toe").meaning == "heel toe yarn");
  CHECK(words.at("navy").code == "NY");
  CHECK(words.at("natural").code == "NA");
}

TEST_CASE("edges by where they lie") {
  CHECK(edge_words("sock.left", "sock") == "the left edge");
  CHECK(edge_words("sole.left", "") == "the left edge of the sole");
  CHECK(edge_words("sock.gusset.left", "sock") == "the left edge of the gusset");
  CHECK(edge_words("gusset.left", "sock") == "the left edge of the gusset");
  CHECK(edge_words("sole_end", "sock") == "the sole end");
  CHECK(edge_words("cast_on", "sock") == "the cast-on edge");
  CHECK(edge_words("sock.toe", "sock") == "the toe edge");
  CHECK(edge_words("left edge of the cuff", "sock") == "the left edge of the cuff");
}

TEST_CASE("a section is called by its heading where the name is no word of it; a piece by its name") {
  const Headings headings{"top", {{"cuff", "Rib cuff"}, {"one", "Instep to sole"}, {"gusset", "Gussets"}, {"top", "Casing"}}};
  CHECK(edge_words("cuff.left", "sock", headings) == "the left edge of the cuff");
  CHECK(edge_words("gusset.left", "sock", headings) == "the left edge of the gusset");
  CHECK(edge_words("sock.one.left", "sock", headings) == "the left edge of the section “Instep to sole”");
  CHECK(edge_words("top.one.left", "", headings) == "the left edge of the section “Instep to sole” of the top");
  CHECK(edge_words("top.top.eyelets", "", headings) == "the eyelets of the section “Casing” of the top");
  CHECK(part_words("top.one", "", headings) == "the section “Instep to sole” of the top");
}
