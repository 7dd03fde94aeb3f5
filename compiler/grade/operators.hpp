// Arithmetic on graded values: sums, products, comparisons, units and rounding, each over all sizes at once. What cannot be
// worked out is reported once, with the sizes it concerns, and leaves Poison behind.
#pragma once

#include "compiler/findings/findings.hpp"
#include "compiler/grade/value.hpp"
#include "compiler/syntax/ast.hpp"

namespace stk::grade {

// Where reports go, and which edition they concern.
struct Desk {
  findings::Findings& findings;
  std::uint16_t edition = 0;
};

// `3`, `12 (14, 15)`, `5 except (…)`, `-2`: numbers written on the spot. Such a one takes its neighbour's unit in a sum or a
// comparison; a name never does.
bool is_bare_literal(const syntax::Expr& expr);
// Gives the plain numbers among the lanes of a bare literal the dimension of a count.
void adopt(Graded& literal, values::Dimension dimension);

Graded binary(Desk desk, const syntax::Expr& expr, const syntax::Binary& op, Graded left, Graded right, SizeSet active);
Graded unary(Desk desk, const syntax::Expr& expr, const syntax::Unary& op, Graded operand, SizeSet active);
Graded with_unit(Desk desk, const syntax::Expr& expr, const syntax::WithUnit& unit, Graded operand, SizeSet active);
Graded as_unit(Desk desk, const syntax::Expr& expr, const syntax::As& as, Graded operand, SizeSet active);
Graded rounded(Desk desk, const syntax::Expr& expr, const syntax::Rounded& how, Graded operand, const Graded* modulus,
               const Graded* offset, SizeSet active);

// "{} is wanted here": reported over the lanes in `wrong`, with what the first of them is.
void report_wrong_kind(Desk desk, const syntax::Expr& expr, std::string_view wanted, const Value& is, SizeSet wrong);
// A reason from values/ as a finding.
void report_reason(Desk desk, const syntax::Expr& expr, values::Reason reason, SizeSet wrong);

}  // namespace stk::grade
