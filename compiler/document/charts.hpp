// Charts of needle settings and moves, of colours and of short rows, made from what the record drew. One chart serves every size where the sizes
// differ in the number of repeats alone; equal charts of different steps are one.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "compiler/document/chart.hpp"
#include "compiler/knit/facts.hpp"

namespace stk::document {

class Charts {
 public:
  Charts(const knit::Facts& facts, knit::SizeSet printed) : facts_(facts), printed_(printed) {}

  // The charts of a step, as indices into all(); empty when nothing was drawn. `title` says what is done.
  std::vector<std::size_t> of_step(const knit::Step& step, knit::SizeSet scope, const std::string& title);

  // Of a setting on two beds.
  std::size_t of_two_beds(const knit::Step& step, knit::SizeSet scope);

  // Of rows in two colours; the yarns as they are printed.
  std::size_t of_colours(const knit::Operation& operation, knit::SizeSet scope, const std::string& ground,
                         const std::string& second);

  // Of the rows of a technique that holds needles, in the first of the sizes; nothing where it holds none. `title` is
  // what is worked: "Short rows over the right half".
  std::optional<std::size_t> of_short_rows(const knit::Step& technique, knit::SizeSet scope, const std::string& title);

  const std::vector<Chart>& all() const { return charts_; }
  std::vector<Chart> take() { return std::move(charts_); }

 private:
  std::vector<Chart> pictures_of(const knit::Step& step, knit::SizeSet scope, const std::string& title, bool chosen_only) const;
  std::size_t add(Chart chart);

  const knit::Facts& facts_;
  knit::SizeSet printed_;
  std::vector<Chart> charts_;
};

// A chart in words, for those who cannot see it.
std::string in_words(const NeedleChart& chart);

}  // namespace stk::document
