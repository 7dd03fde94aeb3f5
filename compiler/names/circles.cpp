// Circles among lets and among techniques, each told once with its chain, and chains of techniques that are too long.
#include <algorithm>

#include "compiler/names/resolver.hpp"
#include "compiler/text/limits.hpp"

namespace stk::names {

using findings::Code;

namespace {

class Circles {
 public:
  Circles(const Uses& uses, findings::Findings& findings) : uses_(uses), findings_(findings) {}

  // Depth first without recursion of our own: a chain of lets may be as long as the source.
  void from(const Declaration* start) {
    if (done_.contains(start)) return;
    open(start);
    while (!path_.empty()) {
      Step& step = path_.back();
      const auto found = uses_.find(step.declaration);
      if (found == uses_.end() || step.next == found->second.size()) {
        close();
        continue;
      }
      const auto [used, span] = found->second[step.next++];
      if (used->space != start->space || done_.contains(used)) {
        const auto depth = depth_.find(used);
        if (depth != depth_.end()) step.depth = std::max(step.depth, depth->second + 1);
        continue;
      }
      if (open_.contains(used)) {
        report(used, span);
      } else {
        open(used);
      }
    }
  }

 private:
  struct Step {
    const Declaration* declaration;
    std::size_t next = 0;
    std::uint32_t depth = 1;
  };

  void open(const Declaration* declaration) {
    path_.push_back({declaration});
    open_.insert(declaration);
  }

  void close() {
    const Step step = path_.back();
    path_.pop_back();
    open_.erase(step.declaration);
    done_.insert(step.declaration);
    depth_[step.declaration] = step.depth;
    if (!path_.empty()) path_.back().depth = std::max(path_.back().depth, step.depth + 1);
    if (step.declaration->space != Space::technique || step.depth != text::limits::call_depth + 1) return;
    findings_.report<Code::N25>(step.declaration->span)
        .label("from here {} techniques work one another", step.depth)
        .note("at most {} may", text::limits::call_depth)
        .help("put the steps of some of them into one");
  }

  void report(const Declaration* again, text::Span span) {
    const auto begin = std::find_if(path_.begin(), path_.end(), [&](const Step& s) { return s.declaration == again; });
    std::string chain;
    const std::size_t length = static_cast<std::size_t>(path_.end() - begin);
    const bool technique = again->space == Space::technique;
    const std::string_view verb = technique ? " works " : " needs ";
    std::size_t shown = 0;
    for (auto step = begin; step != path_.end(); ++step) {
      // A circle of hundreds is told by its beginning and its end.
      if (++shown > 4 && shown < length) {
        if (shown == 5) chain += "…" + std::string(verb);
        continue;
      }
      chain += std::string(step->declaration->name) + std::string(verb);
    }
    chain += again->name;
    if (technique) {
      auto builder = findings_.report<Code::N24>(again->span, again->name);
      builder.label(span, "the circle closes here").note("{}", chain);
      builder.help("a repeat says how often: repeat N times {{ … }}");
    } else {
      auto builder = findings_.report<Code::N04>(again->span, again->name);
      builder.label(span, "the circle closes here").note("{}", chain);
      const bool row = std::holds_alternative<const Measure*>(again->what);
      builder.help("{}", row ? "write one of them down as numbers, one for each size"
                             : "work one of them out from the sizes or the gauge alone");
    }
  }

  const Uses& uses_;
  findings::Findings& findings_;
  std::vector<Step> path_;
  std::set<const Declaration*> open_, done_;
  std::map<const Declaration*, std::uint32_t> depth_;
};

}  // namespace

void report_circles(const Program& program, const Uses& uses, findings::Findings& findings) {
  Circles circles(uses, findings);
  for (const Declaration& declaration : program.declarations()) {
    if (declaration.space == Space::value || declaration.space == Space::technique) circles.from(&declaration);
  }
}

}  // namespace stk::names
