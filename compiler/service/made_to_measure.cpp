#include "compiler/service/made_to_measure.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <utility>

#include "compiler/findings/suggest.hpp"
#include "compiler/grade/evaluate.hpp"
#include "compiler/grade/settings.hpp"
#include "compiler/values/format.hpp"

namespace stk::service {
namespace {

using values::Quantity;
using values::Rational;

// How far a pattern is stretched beyond its sizes (a judgement): a child may be half the smallest adult of the table,
// and no foot is half as large again as the largest. A slip of the point or inches taken for centimetres lies outside.
const Rational least_share = Rational::of(1, 2);
const Rational greatest_share = Rational::of(3, 2);

struct Given {
  std::size_t row;  // of program.sizes.measures
  Quantity value;
  std::vector<std::optional<Rational>> own;  // of each size
};

std::string shown(const Quantity& quantity) {
  return quantity.dimension.is_plain() ? values::number_text(quantity.value, 2) : values::quantity_text(quantity);
}

std::optional<Rational> times(const Rational& a, const Rational& b) {
  const auto product = values::multiply(a, b);
  return product ? std::optional<Rational>(*product) : std::nullopt;
}

// |given - own| / own in ten-thousandths.
std::optional<std::int64_t> distance(const Rational& given, const Rational& own) {
  if (own.is_zero()) return std::nullopt;
  const auto apart = values::subtract(given, own);
  if (!apart) return std::nullopt;
  const auto share = values::divide(values::absolute(*apart), values::absolute(own));
  const auto scaled = share ? values::multiply(*share, Rational(10000)) : share;
  return scaled ? values::nearest(*scaled).as_int64() : std::nullopt;
}

// A long leg makes no large foot: measures of the foot decide alone where any is given.
std::vector<Given> deciding(const std::vector<Given>& all, const names::SizesTable& sizes) {
  std::vector<Given> feet;
  std::copy_if(all.begin(), all.end(), std::back_inserter(feet),
               [&](const Given& given) { return sizes.measures[given.row].name.rfind("foot_", 0) == 0; });
  return feet.empty() ? all : feet;
}

std::optional<std::size_t> nearest_size(const std::vector<Given>& all, std::size_t sizes) {
  std::optional<std::size_t> nearest;
  std::int64_t smallest = 0;
  for (std::size_t size = 0; size < sizes; ++size) {
    std::int64_t sum = 0;
    const bool has_all = std::all_of(all.begin(), all.end(), [&](const Given& given) {
      const auto apart = given.own[size] ? distance(given.value.value, *given.own[size]) : std::nullopt;
      if (apart) sum += *apart;
      return apart.has_value();
    });
    if (!has_all || (nearest && sum >= smallest)) continue;
    nearest = size;
    smallest = sum;
  }
  return nearest;
}

class Reader {
 public:
  Reader(const names::Program& program, const Options& options)
      : program_(program), evaluator_(program, 0, options.settings, apart_) {}

  // One `--measure`; what is wrong with it goes into `refusals`.
  std::optional<Given> read(const std::string& name, const std::string& spelled, std::vector<Refusal>& refusals) {
    const std::vector<names::Measure>& rows = program_.sizes.measures;
    const auto row = std::find_if(rows.begin(), rows.end(), [&](const names::Measure& m) { return m.name == name; });
    if (row == rows.end()) {
      refusals.push_back(unknown(name));
      return std::nullopt;
    }
    const auto value = grade::read_setting(spelled);
    if (!value) {
      refusals.push_back(
          {fmt::format("`{}` cannot be read as a measure of {}", spelled, name),
           fmt::format("a number with a decimal point and its unit: `--measure {}={}`", name, sample(*row))});
      return std::nullopt;
    }
    Given given{static_cast<std::size_t>(row - rows.begin()), *value, own(*row)};
    if (const Quantity* first = any_; first && first->dimension != value->dimension) {
      refusals.push_back({fmt::format("`{}` is {}, and {} is {}", name, values::describe(first->dimension), spelled,
                                      values::describe(value->dimension)),
                          fmt::format("write it like `--measure {}={}`", name, sample(*row))});
      return std::nullopt;
    }
    if (auto refusal = out_of_reach(name, given)) {
      refusals.push_back(std::move(*refusal));
      return std::nullopt;
    }
    return given;
  }

 private:
  Refusal unknown(const std::string& name) const {
    std::vector<std::string> known;
    for (const names::Measure& measure : program_.sizes.measures) known.push_back(measure.name);
    Refusal refusal{fmt::format("the sizes of this pattern have no measure `{}`", name), {}};
    if (const auto near = findings::nearest_word(name, known))
      refusal.help = fmt::format("`{}` is near", near->word);
    else if (!known.empty())
      refusal.help = fmt::format("they have {}", fmt::join(known, ", "));
    else
      refusal.help = "there is no table of sizes, so there is no measure to give";
    return refusal;
  }

  std::vector<std::optional<Rational>> own(const names::Measure& row) {
    std::vector<std::optional<Rational>> all(program_.sizes.size());
    any_ = nullptr;
    values_ = evaluator_.pattern_value(row.span.file, row.name);
    if (!values_) return all;
    for (std::size_t i = 0; i < all.size(); ++i)
      if (const Quantity* q = values_->quantity(i)) {
        all[i] = q->value;
        if (!any_) any_ = q;
      }
    return all;
  }

  // A value of the row, to show how one is written: "24.6cm".
  std::string sample(const names::Measure& row) {
    own(row);
    std::string text = any_ ? shown(*any_) : "24.5cm";
    text.erase(std::remove(text.begin(), text.end(), ' '), text.end());
    return text;
  }

  std::optional<Refusal> out_of_reach(const std::string& name, const Given& given) const {
    std::optional<Rational> least, most;
    for (const auto& own : given.own) {
      if (own && (!least || *own < *least)) least = own;
      if (own && (!most || *own > *most)) most = own;
    }
    if (!least || !most) return Refusal{fmt::format("no size of this pattern has a value for `{}`", name), {}};
    const auto low = times(*least, least_share), high = times(*most, greatest_share);
    if (!low || !high || (given.value.value >= *low && given.value.value <= *high)) return std::nullopt;
    const auto show = [&](const Rational& value) { return shown({value, given.value.dimension}); };
    Refusal refusal{fmt::format("{} as `{}` is out of reach of this pattern", shown(given.value), name), {}};
    refusal.help = least == most ? fmt::format("its size has {}", show(*least))
                                 : fmt::format("its sizes go from {} to {}", show(*least), show(*most));
    refusal.help += fmt::format("; {} to {} can be made from them", show(*low), show(*high));
    return refusal;
  }

  const names::Program& program_;
  findings::Findings apart_;  // what is wrong with a row is found again where all is worked out
  grade::Evaluator evaluator_;
  std::optional<grade::Graded> values_;
  const Quantity* any_ = nullptr;  // the first value of the row looked at last
};

}  // namespace

std::vector<Refusal> make_to_measure(names::Program& program, const Options& options) {
  std::vector<Refusal> refusals;
  if (program.editions.empty()) return refusals;  // a finding: nothing is worked out without one
  std::vector<Given> all;
  Reader reader(program, options);
  for (const auto& [name, spelled] : options.measures)
    if (auto given = reader.read(name, spelled, refusals)) all.push_back(std::move(*given));
  if (!refusals.empty()) return refusals;

  const std::optional<std::size_t> chosen = options.size ? program.sizes.index_of(*options.size) : std::nullopt;
  const std::optional<std::size_t> base =
      options.size ? chosen : nearest_size(deciding(all, program.sizes), program.sizes.size());
  if (!base) {
    if (!options.size)  // a size that is not known is refused for itself
      refusals.push_back(
          {"no size of this pattern has all the measures that are given", "give fewer, or say `--size`"});
    return refusals;
  }
  names::SizeColumn& column = program.sizes.columns[*base];
  program.sizes.made = names::ToMeasure{*base, column.printed, chosen.has_value()};
  column.printed = "Made to measure";
  for (const Given& given : all) program.sizes.measures[given.row].given = given.value;
  return refusals;
}

}  // namespace stk::service
