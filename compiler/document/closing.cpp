// The closing matter: what was checked before the text was written, and what no check can know.
#include <fmt/core.h>

#include "compiler/document/matter.hpp"

namespace stk::document {

std::vector<Block> closing(const Printing& printing) {
  std::vector<Block> blocks;
  for (const auto& [name, text] : printing.facts.pattern.other) {
    Paragraph paragraph;
    paragraph.lead = capitalised(words_of(name));
    paragraph.sentences.push_back({text});
    blocks.push_back(std::move(paragraph));
  }
  blocks.push_back(Heading{1, "What was checked", ""});
  Paragraph paragraph;
  const bool one = (printing.printed & (printing.printed - 1)) == 0;
  paragraph.sentences.push_back(
      {fmt::format("Before this text was written, {} knitted row by row on a machine in software.",
                   one ? "this size was" : "every size was")});
  paragraph.sentences.push_back(
      {"Every count of stitches and rows, every needle and every side of the carriage printed here comes from that "
       "run."});
  bool eased = false;
  for (const knit::MeasureFacts& measure : printing.edition.measures) {
    for (std::size_t i = 0; i < measure.ease.size(); ++i) {
      eased = eased || (knit::has(printing.printed, i) && measure.ease[i]);
    }
  }
  if (eased) {
    paragraph.sentences.push_back({"The finished measurements, as the pattern works them out, lie within the ease that its designer asks for."});
  }
  paragraph.sentences.push_back(
      {"It knows your yarn and your machine by their gauge alone: knit and wash a swatch first."});
  blocks.push_back(std::move(paragraph));
  return blocks;
}

}  // namespace stk::document
