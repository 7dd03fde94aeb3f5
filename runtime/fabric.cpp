#include "runtime/fabric.hpp"

#include <utility>

namespace stk::runtime {

YarnId Fabric::add_yarn(YarnKind kind) {
  yarns_.push_back(Yarn{kind, 0});
  return YarnId{static_cast<std::uint32_t>(yarns_.size() - 1)};
}

EdgeId Fabric::add(Edge edge) {
  edges_.push_back(std::move(edge));
  return EdgeId{static_cast<std::uint32_t>(edges_.size() - 1)};
}

SectionId Fabric::add_section(PieceId piece, Tag tag) {
  const SectionId id{static_cast<std::uint32_t>(sections_.size())};
  Section section;
  section.piece = piece;
  section.made = tag;
  for (const Side side : {Side::left, Side::right}) {
    Edge edge;
    edge.kind = EdgeKind::selvedge;
    edge.side = side;
    edge.piece = piece;
    edge.section = id;
    edge.made = tag;
    (side == Side::left ? section.left : section.right) = add(edge);
  }
  sections_.push_back(section);
  return id;
}

EdgeId Fabric::mirrored_edge(EdgeId id) const {
  if (!has(id) || edge(id).kind != EdgeKind::selvedge) return id;
  const Section& of = section(edge(id).section);
  return edge(id).side == Side::left ? of.right : of.left;
}

std::int64_t Fabric::selvedge_rows(SectionId id, Side side) const {
  return edge(side == Side::left ? section(id).left : section(id).right).rows;
}

}  // namespace stk::runtime
