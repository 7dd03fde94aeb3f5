#include <fmt/core.h>

#include <optional>

#include "compiler/document/charts.hpp"
#include "compiler/document/check_table.hpp"
#include "compiler/document/matter.hpp"
#include "compiler/document/narrator.hpp"
#include "compiler/document/words.hpp"
#include "compiler/document/write.hpp"

namespace stk::document {

namespace {

using knit::PieceFacts;
using knit::SizeSet;

void add_paragraph(std::vector<Block>& blocks, std::vector<std::string> sentences) {
  Paragraph paragraph;
  for (std::string& sentence : sentences) paragraph.sentences.push_back({std::move(sentence)});
  blocks.emplace_back(std::move(paragraph));
}

// How the others of a piece are made: alike, or with the sides changed. A mirrored piece is printed in full only where
// its record is not the first one's mirror.
void others(const Printing& printing, const PieceFacts& piece, Charts& charts, std::vector<Block>& blocks, Worked& worked) {
  if (piece.make < 2) return;
  const std::string name = words_of(piece.name);
  if (!piece.second_mirrored) {
    blocks.emplace_back(Heading{1, fmt::format("{} {}", piece.make == 2 ? "Second" : "More of the", name), ""});
    add_paragraph(blocks, {piece.make == 2 ? "Work as the first."
                                           : fmt::format("Make {} in all, each as the first.", piece.make)});
    return;
  }
  blocks.emplace_back(Heading{1, "Second " + name, ""});
  if (piece.mirrors_exactly && !worked.sides_changed_for.empty()) {
    add_paragraph(blocks, {fmt::format("Work as the first with the sides changed, as for the {}.", worked.sides_changed_for)});
    return;
  }
  if (piece.mirrors_exactly) {
    add_paragraph(blocks,
                  {"Work as the first with the sides changed: for left read right and for right left, for COR read "
                   "COL and for COL COR, for L needles read R needles and for R needles L needles. What is on the left in "
                   "a chart is on the right here."});
    worked.sides_changed_for = "second " + name;
    return;
  }
  add_paragraph(blocks, {"It mirrors the first, but not step for step: here it is in full."});
  Worked apart;   // "as for the heel" would be read of the first
  Narrator narrator(printing, charts, blocks, apart);
  narrator.tell_all(piece.mirrored, 2, name);
}

}  // namespace

Document write_document(const knit::Facts& facts, std::size_t edition, SizeSet sizes) {
  Document document;
  if (edition >= facts.editions.size()) return document;
  const SizeSet all = facts.sizes.size() >= 64 ? ~SizeSet{0} : (SizeSet{1} << facts.sizes.size()) - 1;
  Printing printing{facts, facts.editions[edition], sizes & all, yarn_words(facts.editions[edition].yarns), ""};
  if (printing.printed == 0) printing.printed = all;
  const bool one_piece = printing.edition.pieces.size() <= 1;
  if (one_piece && !printing.edition.pieces.empty()) printing.piece = printing.edition.pieces.front().name;

  document.edition = printing.edition.name;
  document.sizes = printing.printed;
  document.title = {facts.pattern.title,  facts.pattern.by, facts.pattern.version, words_of(printing.edition.name), "",
                    facts.pattern.summary};
  for (std::size_t i = 0; i < facts.sizes.size(); ++i) {
    if (printing.printed != SizeSet{1} << i) continue;  // the text of one size
    if (facts.sizes.size() == 1 && facts.sizes[i].name.empty()) continue;
    document.size = facts.to_measure ? "made_to_measure" : facts.sizes[i].name;
    document.title.size = facts.sizes[i].printed.empty() ? words_of(facts.sizes[i].name) : facts.sizes[i].printed;
  }

  Charts charts(facts, printing.printed);
  Worked worked;
  std::vector<Block> instructions;
  for (const PieceFacts& piece : printing.edition.pieces) {
    if (!one_piece) {
      instructions.emplace_back(
          Heading{1, capitalised(words_of(piece.name)), piece.make > 1 ? fmt::format("make {}", piece.make) : ""});
    }
    Narrator narrator(printing, charts, instructions, worked);
    narrator.tell_all(piece.first, one_piece ? 1 : 2, words_of(piece.name));
    if (std::optional<Table> table = check_table(narrator.section_ends(), facts.sizes, printing.printed)) {
      instructions.emplace_back(Heading{one_piece ? 1 : 2, "Check table", ""});
      add_paragraph(instructions, {"Where the work stands at the end of each section: RC, side of the carriage, sts, end needles."});
      instructions.emplace_back(std::move(*table));
    }
    if (!one_piece && piece.second_mirrored) others(printing, piece, charts, instructions, worked);
  }
  if (!printing.edition.finish.empty()) {
    instructions.emplace_back(Heading{1, "Finishing", ""});
    Narrator narrator(printing, charts, instructions, worked);
    narrator.tell_all(printing.edition.finish, 2);
  }
  if (one_piece) {
    for (const PieceFacts& piece : printing.edition.pieces) others(printing, piece, charts, instructions, worked);
  }

  document.blocks = opening(printing, instructions);
  for (Block& block : instructions) document.blocks.push_back(std::move(block));
  for (Block& block : closing(printing)) document.blocks.push_back(std::move(block));
  document.charts = charts.take();
  return document;
}

}  // namespace stk::document
