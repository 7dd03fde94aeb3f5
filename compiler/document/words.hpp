// The printed words of the trade: needles, sides, counters, tensions, yarns, lists. Nothing here knows a step.
#pragma once

#include <cstddef>
#include <cstdint>
#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "compiler/knit/facts.hpp"

namespace stk::document {

inline constexpr std::string_view no_break = "\u00A0";  // a blank at which no line ends

std::string needle_name(std::int32_t number);         // "R5", "L12"
std::string span_name(const knit::NeedleSpan& span);  // "L12–R12", "R5" for one, "" for none
bool along_rows(const std::string& edge);              // a side edge, not open sts
std::string side_word(knit::Side side);               // "left", "right"
std::string bed_word(knit::Bed bed);                  // "main", "second"
std::string carriage_word(knit::Side side);           // "COL", "COR"
knit::Side other(knit::Side side);
std::string counter_digits(std::int64_t rows);              // "016": as the counter shows it
std::string tension_word(std::int32_t hundredths);          // "MT", "MT−2", "MT+1.5"
std::string ordinal(std::int64_t n);                        // "second", "third", "12th"
std::string joined(const std::vector<std::string>& words);  // "A", "A and B", "A, B and C"
std::string capitalised(std::string text);
std::string words_of(std::string_view name);       // "sole_end": "sole end"
std::string kept_together(std::string_view text);  // its blanks do not break

// "Sizes Women L and Men L only", "All sizes but Infant M", "All sizes": which of the printed sizes a text is for.
std::string only_for(knit::SizeSet scope, knit::SizeSet printed, const std::vector<knit::SizeName>& sizes);
std::string size_list(knit::SizeSet scope, const std::vector<knit::SizeName>& sizes);  // "Women L and Men L"

// How the yarns of an edition are called: MY and WY for main and waste, CC for contrast, otherwise two letters of the
// name.
struct YarnWord {
  std::string code;
  std::string meaning;  // "main yarn"
};
std::map<std::string, YarnWord> yarn_words(const std::vector<knit::YarnFacts>& yarns);

// An edge as a reader finds it: "sock.gusset.left" is "the left edge of the gusset", "sole_end" "the sole end". `piece`
// is the name of the only piece of a pattern, which need not be said; empty when there are several.
// A section or a slot as a whole: "back.heel" is "the heel of the back".
// The name of a section is the designer's; a reader sees its heading, so where the name is no word of that, the heading is
// given: the section “Instep to sole”.
struct Headings {
  std::string piece;                             // the edge's own, which has no heading of its own
  std::map<std::string, std::string> sections;   // by the name of the section
};
std::string part_words(std::string_view part, std::string_view piece, const Headings& headings = {});
std::string edge_words(std::string_view edge, std::string_view piece, const Headings& headings = {});

// Several of them, what they share said once: "the left edges of the gusset and the toe"; "the heel and the toe of the
// back".
std::string joined_edges(std::vector<std::string> edges);
std::string joined_parts(std::vector<std::string> parts);

}  // namespace stk::document
