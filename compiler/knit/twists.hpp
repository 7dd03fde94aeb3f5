// Two pieces that are joined with the purl side of one of them outside.
//
//     a ┌───┐   b ┌───┐      Both lie with the purl side up, their first rows at the same end: b is turned over on a, its
//       │   │     │   │      left edge comes to lie on a's right one. So left meets right. Where b is knitted the other way,
//       └───┘     └───┘      its last row at a's first one, left meets left.
//
// Which way the pieces lie is told by the sections that meet, by cast-on edges that meet, and by rows joined while knitting.
#pragma once

#include "compiler/findings/findings.hpp"
#include "compiler/knit/knitter.hpp"

namespace stk::knit {

// Looks at the first sock, all that was joined of it. Silent when one piece is folded, and where nothing tells which way
// two pieces lie.
void check_twists(const Knitter& knitter, findings::Findings& findings, std::uint16_t edition);

}  // namespace stk::knit
