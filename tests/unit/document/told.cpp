#include "tests/unit/document/told.hpp"

#include "compiler/document/words.hpp"

namespace stk::test {

using namespace document;

std::string plain(std::string text) {
  for (std::size_t at = text.find(no_break); at != std::string::npos; at = text.find(no_break, at)) {
    text.replace(at, no_break.size(), " ");
  }
  return text;
}

namespace {

std::string run_of(const Paragraph& paragraph) {
  std::string text = paragraph.lead.empty() ? "" : paragraph.lead + ":";
  for (const Sentence& sentence : paragraph.sentences) text += (text.empty() ? "" : " ") + sentence.text;
  return text;
}

}  // namespace

std::string lines_of(const std::vector<Block>& blocks) {
  std::string text;
  for (const Block& block : blocks) {
    if (const auto* heading = std::get_if<Heading>(&block)) {
      text += "# " + heading->text + (heading->aside.empty() ? "" : " (" + heading->aside + ")") + "\n";
    } else if (const auto* paragraph = std::get_if<Paragraph>(&block)) {
      text += run_of(*paragraph) + "\n";
    } else if (const auto* list = std::get_if<List>(&block)) {
      for (const Paragraph& item : list->items) text += "- " + run_of(item) + "\n";
    } else if (const auto* remark = std::get_if<Remark>(&block)) {
      text += (remark->caution ? "CAUTION " : "NOTE ") + run_of(remark->text) + "\n";
    }
  }
  return plain(text);
}

std::string told(std::vector<knit::Step> steps, knit::SizeSet printed) {
  knit::Facts facts = sample_facts();
  knit::EditionFacts& edition = facts.editions[0];
  edition.yarns.push_back({});
  edition.yarns.back().name = "waste";
  edition.yarns.push_back({});
  edition.yarns.back().name = "contrast";
  const Printing printing{facts, edition, printed, yarn_words(edition.yarns), "sock"};
  Charts charts(facts, printed);
  std::vector<Block> blocks;
  Worked worked;
  Narrator narrator(printing, charts, blocks, worked);
  narrator.tell_all(steps, 1);
  return lines_of(blocks);
}

}  // namespace stk::test
