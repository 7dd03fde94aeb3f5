// The sections as knitted, for the report: stretches of one heading put together.
#include <algorithm>

#include "compiler/fit/shape.hpp"
#include "compiler/fit/stretches.hpp"

namespace stk::fit {
namespace {

SectionMeasure& section_called(std::vector<SectionMeasure>& sections, const std::string& piece,
                               const std::string& name) {
  if (sections.empty() || sections.back().piece != piece || sections.back().section != name) {
    SectionMeasure made;
    made.piece = piece;
    made.section = name;
    made.height = Rational(0);
    sections.push_back(std::move(made));
  }
  return sections.back();
}

void add(SectionMeasure& section, const Stretch& stretch) {
  section.fewest = section.rows == 0 ? stretch.stitches : std::min(section.fewest, stretch.stitches);
  section.most = std::max(section.most, stretch.stitches);
  section.rows += stretch.rows;
  section.tube = stretch.tube;
  section.height = plus(section.height, stretch.height());
  const Maybe width = stretch.width();
  if (width && (!section.narrowest || *width < *section.narrowest)) section.narrowest = width;
  if (width && (!section.widest || *width > *section.widest)) section.widest = width;
}

}  // namespace

std::vector<SectionMeasure> sections_of(const knit::EditionFacts& edition, std::size_t size) {
  std::vector<SectionMeasure> sections;
  for (const knit::PieceFacts& piece : edition.pieces) {
    const PieceShape shape = shape_of(edition, piece, size);
    auto short_rows = shape.short_rows.begin();
    const auto those_before = [&](std::size_t stretch) {
      for (; short_rows != shape.short_rows.end() && short_rows->before <= stretch; ++short_rows) {
        section_called(sections, piece.name, short_rows->section).short_rows += short_rows->rows;
      }
    };
    for (std::size_t i = 0; i < shape.stretches.size(); ++i) {
      those_before(i);
      add(section_called(sections, piece.name, shape.stretches[i].section), shape.stretches[i]);
    }
    those_before(shape.stretches.size());
  }
  return sections;
}

}  // namespace stk::fit
