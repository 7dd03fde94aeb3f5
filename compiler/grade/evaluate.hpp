// Working out expressions, for every size of one edition side by side.
//
// Pattern-level names are worked out when they are first asked for and kept; names inside pieces, techniques and formulas
// live in Frames. What only the machine knows (which needles `all` are, how many a set holds) is asked of a Host, which
// knit/ provides; at pattern level there is none.
#pragma once

#include <map>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "compiler/findings/findings.hpp"
#include "compiler/grade/value.hpp"
#include "compiler/names/program.hpp"
#include "compiler/syntax/ast.hpp"

namespace stk::grade {

struct Binding {
  std::string name;
  Graded value;
  text::Span declared;
};

// The names of one block, technique call or formula. A name is looked for outwards, then among the declarations of `file`.
struct Frame {
  const Frame* outer = nullptr;
  text::FileId file;
  std::vector<Binding> bindings;

  const Binding* find(std::string_view name) const;
};

class Host {
 public:
  virtual ~Host() = default;
  virtual Graded select(const syntax::Expr& selector, const Frame& frame, SizeSet active) = 0;
  virtual Graded count(NeedlesId needles, SizeSet active) = 0;               // stitches' dimension
  virtual std::string phrase(NeedlesId needles, std::size_t size) = 0;       // "the right half"
};

// A gauge of the edition, per length; `fabric` is empty for the main one.
struct FabricGauge {
  std::string fabric;
  values::Quantity stitches, rows;
  std::int32_t tension_hundredths = 0;   // the tension that the gauge was measured at, from MT
  text::Span where;
};

class Evaluator {
 public:
  // `settings`: name and value as the user gave them ("heel_part", "40%").
  Evaluator(const names::Program& program, std::uint16_t edition, const std::map<std::string, std::string>& settings,
            findings::Findings& findings);

  std::size_t sizes() const { return sizes_; }
  std::uint16_t edition() const { return edition_; }
  const std::vector<FabricGauge>& gauges() const { return gauges_; }
  const FabricGauge* gauge(std::string_view fabric) const;

  void use_host(Host* host) { host_ = host; }

  Graded evaluate(const syntax::Expr& expr, const Frame& frame, SizeSet active);
  // A text with its numbers put in, for every size.
  std::vector<std::string> text(const syntax::Expr& text, const Frame& frame, SizeSet active);

  // A count for a machine step: whole, not negative, of `dimension` (a bare literal takes it). What is not is reported;
  // lanes without a good value are empty.
  std::vector<std::optional<std::int64_t>> whole(const syntax::Expr& expr, values::Dimension dimension, const Frame& frame,
                                                 SizeSet active);
  // The same for any quantity of one dimension (a tail, an ease).
  std::vector<std::optional<values::Quantity>> quantity(const syntax::Expr& expr, values::Dimension dimension,
                                                        const Frame& frame, SizeSet active);
  std::vector<std::optional<bool>> condition(const syntax::Expr& expr, const Frame& frame, SizeSet active);

  // MT - 2 as hundredths of a dial number, -200; reported when it is no number.
  std::optional<std::int32_t> tension(const syntax::Tension& tension, const Frame& frame, SizeSet active);

  // A let, with the check that a count is not negative.
  Graded let(const syntax::Let& let, const Frame& frame, SizeSet active);

  // A pattern-level name: a let, a setting or a row of the sizes table. Empty when there is none.
  std::optional<Graded> pattern_value(text::FileId from, std::string_view name);

  // Each name in the expression with its value in one size: "body = 42 sts", for notes under a broken rule.
  std::vector<std::string> parts(const syntax::Expr& expr, const Frame& frame, std::size_t size);
  // Where the names of the expression were declared.
  std::vector<text::Span> origins(const syntax::Expr& expr, const Frame& frame);

 private:
  friend class Operators;

  Graded name(const syntax::Expr& expr, const syntax::NameRef& ref, const Frame& frame, SizeSet active);
  Graded declared(const names::Declaration& declaration);
  Graded call(const syntax::Expr& expr, const syntax::Call& call, const Frame& frame, SizeSet active);
  Graded built_in(const syntax::Expr& expr, const syntax::Call& call, const Frame& frame, SizeSet active);
  Graded gauge_call(const syntax::Expr& expr, const syntax::Call& call, const Frame& frame, SizeSet active);
  Graded grade(const syntax::Expr& expr, const std::vector<syntax::SizeValue>& values);
  Graded except(const syntax::Expr& expr, const syntax::ExceptGrade& grade);
  Value number(const syntax::SizeValue& spelled);
  Graded setting(const syntax::Setting& setting, const Frame& frame);
  Graded measure(const names::Measure& measure, const Frame& frame);
  Graded cells(const names::Measure& measure);
  Graded worked_out(const names::Measure& measure, const Frame& frame, SizeSet active);
  void refuse_below_zero(const syntax::Name& name, const syntax::Expr& expr, Graded& value, const Frame& frame, SizeSet active);
  void read_gauges();

  const names::Program& program_;
  std::uint16_t edition_;
  const std::map<std::string, std::string>& settings_;
  findings::Findings& findings_;
  std::size_t sizes_;
  Host* host_ = nullptr;
  std::vector<FabricGauge> gauges_;
  std::unordered_map<const void*, Graded> known_;   // by declaration
  std::uint32_t depth_ = 0;
  std::set<std::pair<std::uint16_t, std::uint32_t>> unknown_;   // where names/ has reported a name: what it means stays open
};

}  // namespace stk::grade
