// PEGTL's own analysis of the grammar: no rule can run for ever without reading on.
#include <catch2/catch.hpp>
#include <tao/pegtl/contrib/analyze.hpp>

#include "grammar/parts.hpp"

TEST_CASE("the grammar has no loop without progress") {
  CHECK(tao::pegtl::analyze<stk::grammar::file>() == 0);
}
