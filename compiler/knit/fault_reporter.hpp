// One fault of one size on its way to a finding: where it stands in the source, and what is said of it. faults.cpp has the
// kinds in a row; what takes more than a line is in fault_reporter_*.cpp.
#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "compiler/knit/fault_words.hpp"
#include "compiler/knit/faults.hpp"

namespace stk::knit {

class FaultReporter {
 public:
  FaultReporter(const FaultContext& context, const runtime::Fault& fault, const Bench& bench, std::size_t size)
      : c_(context), f_(fault), bench_(bench), size_(size) {}

  void report();

 private:
  using Builder = findings::Builder;
  using Code = findings::Code;

  template <Code C, class... A>
  Builder at(runtime::Tag tag, A&&... a) {
    const bool known = c_.sites.known(tag);
    const text::Span place = known ? c_.sites[tag].mend : text::Span{};
    Builder builder = c_.findings.report<C>(place, std::forward<A>(a)...);
    builder.at(c_.edition, grade_bit()).mirrored(bench_.mirrored());
    if (bench_.knitting()) builder.row(static_cast<std::uint32_t>(f_.counter));
    if (f_.needle >= 0) builder.needle(needle_text(bench_, f_.needle));
    else if (!f_.needles.empty()) builder.needle(needle_text(bench_, f_.needles.first()));
    // Inside a library the designer mends the call; where it happened is shown beside.
    if (known && c_.sites[tag].step.file.value != place.file.value) builder.label(c_.sites[tag].step, "at this step of the library");
    return builder;
  }
  template <Code C>
  Builder at() {
    return at<C>(f_.tag);
  }
  // At the step that brought it about, where that is known: there it is mended.
  template <Code C>
  Builder at_cause() {
    return at<C>(f_.cause != runtime::no_tag && c_.sites.known(f_.cause) ? f_.cause : f_.tag);
  }
  std::uint64_t grade_bit() const { return std::uint64_t{1} << size_; }

  void cause(Builder& builder, const char* words) {
    if (f_.cause != runtime::no_tag && c_.sites.known(f_.cause) && !(c_.sites[f_.cause].mend == c_.sites[f_.tag].mend))
      builder.label(c_.sites[f_.cause].mend, "{}", words);
  }

  // Beside a finding at its cause: where it was noticed.
  void noticed(Builder& builder) {
    if (f_.cause != runtime::no_tag && c_.sites.known(f_.cause) && !(c_.sites[f_.cause].mend == c_.sites[f_.tag].mend))
      builder.label(c_.sites[f_.tag].mend, "knitted here");
  }

  // fault_reporter_yarn.cpp
  void carriage_elsewhere();
  void float_too_long();
  std::string beside_another_bed(int needle, std::optional<runtime::Bed> bed) const;
  // fault_reporter_edges.cpp
  const char* edge_side(runtime::EdgeId id, bool opposite = false) const;
  void loops_on_needles(const std::string& needles);
  void selvedge_left_open();
  void hung_crossed();
  void marked_row_unfit();
  void hang_counts();
  void edge_not_open();
  void tail_elsewhere();
  void graft_counts();
  std::string sections_text(const std::vector<runtime::EdgeId>& side) const;
  void seam_counts();
  Builder tell_lengths(Builder builder);

  const FaultContext& c_;
  const runtime::Fault& f_;
  const Bench& bench_;
  std::size_t size_;
};

}  // namespace stk::knit
