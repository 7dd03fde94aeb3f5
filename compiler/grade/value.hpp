// What an expression comes to: one value for every size, side by side.
//
// A lane is one size. A lane that holds Poison has had its mistake reported already: whatever is worked out from it is
// Poison too, in silence, so that one mistake is one finding. Absent is the `-` of a graded value: this size has none.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "compiler/values/quantity.hpp"

namespace stk::grade {

struct Poison {};
struct Absent {
  friend bool operator==(Absent, Absent) = default;
};
struct Word {            // a choice given to a technique (`by_hand`), a yarn, an edge: a name that stands for itself
  std::string text;
  friend bool operator==(const Word&, const Word&) = default;
};
// A set of needles. What it holds is known to the machine side (knit/) alone, which hands out these numbers; see Host.
struct NeedlesId {
  std::uint32_t value = 0;
  friend bool operator==(NeedlesId, NeedlesId) = default;
};

using Value = std::variant<Poison, Absent, values::Quantity, bool, std::string, Word, NeedlesId>;

using SizeSet = std::uint64_t;   // bit i = size i
inline SizeSet size_bit(std::size_t size) { return SizeSet{1} << size; }
inline SizeSet all_sizes(std::size_t count) { return count >= 64 ? ~SizeSet{0} : size_bit(count) - 1; }
inline bool has_size(SizeSet set, std::size_t size) { return ((set >> size) & 1U) != 0; }

class Graded {
 public:
  explicit Graded(std::size_t sizes) : lanes_(sizes, Value{Poison{}}) {}
  Graded(std::size_t sizes, const Value& everywhere) : lanes_(sizes, everywhere) {}

  std::size_t size() const { return lanes_.size(); }
  Value& operator[](std::size_t size) { return lanes_[size]; }
  const Value& operator[](std::size_t size) const { return lanes_[size]; }

  const values::Quantity* quantity(std::size_t size) const { return std::get_if<values::Quantity>(&lanes_[size]); }
  bool poisoned(std::size_t size) const { return std::holds_alternative<Poison>(lanes_[size]); }
  // The needles, which are one handle for all sizes.
  std::optional<NeedlesId> needles() const {
    for (const Value& v : lanes_)
      if (const auto* id = std::get_if<NeedlesId>(&v)) return *id;
    return std::nullopt;
  }

 private:
  std::vector<Value> lanes_;
};

// "stitches", "needles", "a text": what kind of thing a value is, to stand in a finding.
std::string describe(const Value& value);
// As it is shown to a reader: "48 sts", "10.5 cm", "yes", "-".
std::string text_of(const Value& value);

}  // namespace stk::grade
