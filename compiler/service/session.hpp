// The only public door: one source in, everything that was found out of it out. The command line, the tests and an
// editor are clients of this; nothing behind it prints, exits or opens a file but through `Files`.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "compiler/findings/finding.hpp"
#include "compiler/findings/render.hpp"
#include "compiler/knit/facts.hpp"
#include "compiler/outputs/backend.hpp"
#include "compiler/text/files.hpp"
#include "compiler/text/source.hpp"

namespace stk::service {

struct Options {
  std::optional<std::string> edition;           // only this one; none = all
  std::optional<std::string> size;              // only this one; none = all, side by side
  std::map<std::string, std::string> settings;  // a value that the user sets, as spelled: "heel_part", "40%"
  // One person's measures, as spelled: "foot_length", "24.3cm". Then one size is made: the nearest, or `size`.
  std::map<std::string, std::string> measures{};
};

// Something that the user asked for and that cannot be done, in whole sentences without a full stop: "the pattern has
// no edition `mdi`" with what is near, "`mid`".
struct Refusal {
  std::string reason;
  std::string help;  // may be empty
};

struct Checked {
  text::Sources sources;
  std::vector<findings::Finding> findings;  // merged and in order; those of the edition and size asked for
  findings::LaneNames names;
  std::optional<knit::Facts> facts;  // none where errors left nothing that could be knitted
  std::vector<Refusal> refusals;     // the options do not fit this pattern
  bool sound = false;                // no error in any size of the editions asked for
  bool measurable = false;           // no error in them but those that tell of fit: a report of fit can be made

  bool has_errors() const;  // among the findings kept
  bool usable() const { return refusals.empty() && sound && facts.has_value(); }
};

struct FitOutput {
  std::string report;                // text or JSON
  std::string plot;                  // SVG; empty unless asked for
};
struct FitOptions {
  bool json = false;
  bool plot = false;                 // of the one edition asked for, or of the only one
};
using Fitted = std::variant<FitOutput, Refusal>;

using Built = std::variant<std::vector<outputs::Output>, Refusal>;

class Session {
 public:
  explicit Session(text::Files& files) : files_(files) {}

  // `name` is how findings call the file; `text` is UTF-8 (text/encoding.hpp says whether it is).
  Checked check(std::string name, std::string text, const Options& options) const;

  // All files of the wanted formats for every edition asked for, in a fixed order, each path once. `checked` must be
  // usable and have been made with the same options.
  Built build(const Checked& checked, const std::vector<std::string>& formats, const Options& options) const;

  // How each size fits, and whom the sizes fit. `checked` must have been knitted without an error but those of fit
  // (`measurable`), with the same options.
  Fitted fit(const Checked& checked, const Options& options, const FitOptions& fit_options) const;

 private:
  text::Files& files_;
};

}  // namespace stk::service
