// Where a step stands in the source, and through which technique calls it was reached. The machine carries a number (its
// Tag) for each; faults bring it back, here it becomes places again.
#pragma once

#include <map>
#include <vector>

#include "compiler/text/span.hpp"
#include "runtime/units.hpp"

namespace stk::knit {

struct Site {
  text::Span step;
  std::vector<text::Span> calls;   // outermost first
  // What the designer would mend: the step, or, when it stands in a library used by name, the call that led there.
  text::Span mend;
};

class Sites {
 public:
  // `library[file]`: the files that are libraries used by name.
  explicit Sites(std::vector<bool> library) : library_(std::move(library)) {}

  runtime::Tag tag(text::Span step, const std::vector<text::Span>& calls);
  const Site& operator[](runtime::Tag tag) const { return sites_[tag]; }
  bool known(runtime::Tag tag) const { return tag < sites_.size(); }
  bool in_library(text::FileId file) const { return file.value < library_.size() && library_[file.value]; }

 private:
  struct Less {
    bool operator()(const Site& a, const Site& b) const;
  };
  std::vector<bool> library_;
  std::vector<Site> sites_;
  std::map<Site, runtime::Tag, Less> tags_;
};

}  // namespace stk::knit
