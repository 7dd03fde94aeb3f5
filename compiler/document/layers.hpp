// How two layers lie that are grafted to one another, as far as the record tells.
//
//   sts of the main bed and of the second, scrapped off a tube        as they came off the machine
//   edges of plain fabric from anywhere else                          one laid on the other
//   a rib, or fabric turned over on its way                           not told
#pragma once

#include <string>
#include <vector>

#include "compiler/knit/facts.hpp"

namespace stk::document {

enum class Layers : std::uint8_t { untold, laid, as_they_came };

// Edges as an operation of the finish names them: "sock.sole_end".
Layers layers_of(const knit::EditionFacts& edition, const std::vector<std::string>& edges,
                 const std::vector<std::string>& edges_to);

}  // namespace stk::document
