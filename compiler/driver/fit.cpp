// `fit`: check first; then tell how each size fits, and whom the sizes fit.
#include <fmt/format.h>

#include <filesystem>
#include <variant>

#include "compiler/driver/commands.hpp"
#include "compiler/driver/reading.hpp"
#include "compiler/driver/terminal.hpp"
#include "compiler/driver/write_files.hpp"
#include "compiler/findings/render.hpp"
#include "compiler/text/columns.hpp"
#include "compiler/text/memory_files.hpp"

namespace stk::driver {

int run_fit(const FitCommand& command) {
  const std::optional<service::Checked> checked = read_and_check(command.file, command.selected);
  if (!checked) return wrong_usage;
  if (!checked->measurable) {
    print_error(findings::render_text(checked->findings, checked->sources, checked->names, style_of_error(),
                                      command.selected.show));
    print_error("no fit was worked out: what was not knitted without a fault has no measures\n");
    return found_errors;
  }
  text::MemoryFiles none;
  const service::Fitted fitted =
      service::Session(none).fit(*checked, options_of(command.selected), {command.json, !command.plot.empty()});
  if (const auto* const refusal = std::get_if<service::Refusal>(&fitted)) {
    complain(fmt::format("{}: {}", text::printable(command.file), refusal->reason), refusal->help);
    return wrong_usage;
  }
  const service::FitOutput& output = std::get<service::FitOutput>(fitted);
  if (!print(output.report)) {
    complain("the report could not be written to standard output");
    return wrong_usage;
  }
  if (!command.plot.empty()) {
    const std::filesystem::path path(command.plot);
    const std::string folder = path.parent_path().empty() ? "." : path.parent_path().string();
    const Written written = write_files(folder, {{path.filename().string(), output.plot}});
    if (!written.problem.empty()) {
      complain(written.problem, "the picture was not written");
      return wrong_usage;
    }
  }
  return checked->has_errors() ? found_errors : no_errors;
}

}  // namespace stk::driver
