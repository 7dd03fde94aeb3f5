// Collecting findings. A phase reports and goes on; nothing is printed here and nothing is thrown.
//
//   return findings.report<Code::C04>(step.verb, group)
//       .label("{} needles are in work here: {} groups and {} over", n, n / group, n % group)   // under the primary
//       span .label(cause, "{} became {} here", 44, 42)                                             // elsewhere
//       .help("39 and 42 divide by 3")
//       .at(edition, sizes).row(142);
//
// The arguments of the title are checked against the catalogue's text when compiling. What report() gives turns into a
// Reported, which can be made nowhere else: a function that returns Result<T> cannot fail in silence, and whoever
// receives a Reported stays quiet, so that one mistake is one finding.
#pragma once

#include <fmt/format.h>

#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "compiler/findings/catalog.hpp"
#include "compiler/findings/finding.hpp"

namespace stk::findings {

class Findings;

class [[nodiscard]] Reported {
  friend class Builder;
  Reported() = default;
};

template <class T>
using Result = std::variant<T, Reported>;

// Adds the finding to its collector when it goes out of scope.
class Builder {
 public:
  Builder(Findings& owner, Code code, text::Span primary, std::string title);
  Builder(Builder&& other) noexcept : owner_(other.owner_), finding_(std::move(other.finding_)) { other.owner_ = nullptr; }
  Builder(const Builder&) = delete;
  Builder& operator=(const Builder&) = delete;
  ~Builder();

  template <class... A>
  Builder& label(fmt::format_string<A...> text, A&&... a) {
    finding_.primary_label = fmt::format(text, std::forward<A>(a)...);
    return *this;
  }
  template <class... A>
  Builder& label(text::Span span, fmt::format_string<A...> text, A&&... a) {
    finding_.labels.push_back({span, fmt::format(text, std::forward<A>(a)...)});
    return *this;
  }
  template <class... A>
  Builder& note(fmt::format_string<A...> text, A&&... a) {
    finding_.notes.push_back(fmt::format(text, std::forward<A>(a)...));
    return *this;
  }
  template <class... A>
  Builder& help(fmt::format_string<A...> text, A&&... a) {
    finding_.helps.push_back(fmt::format(text, std::forward<A>(a)...));
    return *this;
  }
  Builder& edit(text::Span span, std::string replacement, Confidence confidence);
  Builder& at(std::uint16_t edition, std::uint64_t sizes);  // may be called more than once
  Builder& row(std::uint32_t counter);
  Builder& needle(std::string name);
  Builder& mirrored(bool value);

  operator Reported() const { return Reported{}; }

 private:
  Findings* owner_;   // null once moved from
  Finding finding_;
};

class Findings {
 public:
  template <Code C, class... A>
  Builder report(text::Span primary, A&&... a) {
    return Builder(*this, C, primary, fmt::format(fmt::format_string<A...>(title_of<C>()), std::forward<A>(a)...));
  }
  void add(Finding finding) { all_.push_back(std::move(finding)); }

  const std::vector<Finding>& all() const { return all_; }  // as reported, not merged
  bool has_errors() const;

 private:
  std::vector<Finding> all_;
};

bool has_errors(const std::vector<Finding>& findings);

// merge.cpp: one mistake, one finding. Findings of one code at one primary span become one, with their sizes united and
// the texts of the first; order is by file and place, earlier phase first at a tie.
std::vector<Finding> merged(const std::vector<Finding>& all);

}  // namespace stk::findings
