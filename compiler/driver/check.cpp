// `check`: every file is read and checked for itself, and all findings are printed.
#include <fmt/format.h>

#include <algorithm>
#include <deque>
#include <vector>

#include "compiler/driver/commands.hpp"
#include "compiler/driver/reading.hpp"
#include "compiler/driver/terminal.hpp"
#include "compiler/findings/render.hpp"

namespace stk::driver {
namespace {

std::string counted(std::size_t n, const char* what) {
  return fmt::format("{} {}{}", n, what, n == 1 ? "" : "s");
}

// "slack-water.stk: no errors, in 4 sizes and 2 editions": says what was looked at, so that silence is never mistaken
// for a check that did not take place.
std::string all_clear(const service::Checked& checked) {
  const std::string& name = checked.sources[text::FileId{}].name();
  std::string line = fmt::format("{}: nothing found", name);
  if (checked.facts && checked.facts->to_measure) {
    line += fmt::format(", in {}", counted(checked.facts->editions.size(), "edition"));
  } else if (checked.facts) {
    line += fmt::format(", in {} and {}", counted(checked.facts->sizes.size(), "size"),
                        counted(checked.facts->editions.size(), "edition"));
  }
  return line + "\n";
}

}  // namespace

int run_check(const CheckCommand& command) {
  std::deque<service::Checked> all;
  int status = no_errors;
  bool printed = true;
  for (const std::string& file : command.files) {
    std::optional<service::Checked> checked = read_and_check(file, command.selected);
    if (!checked) {
      status = wrong_usage;
      continue;
    }
    if (checked->has_errors()) status = std::max(status, found_errors);
    if (!command.json) {
      const std::string text = findings::render_text(checked->findings, checked->sources, checked->names,
                                                     style_of_output(), command.selected.show);
      printed = print(to_measure_line(*checked) + (text.empty() ? all_clear(*checked) : text)) && printed;
    } else {
      all.push_back(std::move(*checked));
    }
  }
  if (command.json) {
    std::vector<findings::Run> runs;
    for (const service::Checked& checked : all) runs.push_back({&checked.findings, &checked.sources, &checked.names});
    printed = print(findings::render_json(runs));
  }
  if (!printed) {
    complain("the findings could not be written to standard output");
    return wrong_usage;
  }
  return status;
}

}  // namespace stk::driver
