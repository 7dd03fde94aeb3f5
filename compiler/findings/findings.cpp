#include "compiler/findings/findings.hpp"

#include <algorithm>
#include <utility>

namespace stk::findings {

Builder::Builder(Findings& owner, Code code, text::Span primary, std::string title) : owner_(&owner) {
  finding_.code = code;
  finding_.severity = entry(code).severity;
  finding_.title = std::move(title);
  finding_.primary = primary;
}

Builder::~Builder() {
  if (owner_) owner_->add(std::move(finding_));
}

Builder& Builder::edit(text::Span span, std::string replacement, Confidence confidence) {
  finding_.edits.push_back({span, std::move(replacement), confidence});
  return *this;
}

Builder& Builder::at(std::uint16_t edition, std::uint64_t sizes) {
  for (Lanes& lanes : finding_.lanes) {
    if (lanes.edition == edition) {
      lanes.sizes |= sizes;
      return *this;
    }
  }
  finding_.lanes.push_back({edition, sizes});
  return *this;
}

Builder& Builder::row(std::uint32_t counter) {
  finding_.row = counter;
  return *this;
}

Builder& Builder::needle(std::string name) {
  finding_.needle = std::move(name);
  return *this;
}

Builder& Builder::mirrored(bool value) {
  finding_.mirrored = value;
  return *this;
}

bool has_errors(const std::vector<Finding>& findings) {
  return std::any_of(findings.begin(), findings.end(),
                     [](const Finding& finding) { return finding.severity == Severity::error; });
}

bool Findings::has_errors() const {
  return findings::has_errors(all_);
}

}  // namespace stk::findings
