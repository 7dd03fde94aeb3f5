// `build`: check first; write only what was checked without an error.
#include <fmt/format.h>

#include <variant>

#include "compiler/driver/commands.hpp"
#include "compiler/driver/reading.hpp"
#include "compiler/driver/terminal.hpp"
#include "compiler/driver/write_files.hpp"
#include "compiler/text/columns.hpp"
#include "compiler/text/memory_files.hpp"

namespace stk::driver {

int run_build(const BuildCommand& command) {
  const std::optional<service::Checked> checked = read_and_check(command.file, command.selected);
  if (!checked) return wrong_usage;
  // What is written goes to standard output, what was found to standard error.
  print_error(findings::render_text(checked->findings, checked->sources, checked->names, style_of_error(),
                                    command.selected.show));
  if (!checked->sound) {
    print_error(checked->has_errors() ? "nothing was written\n"
                                      : "nothing was written: other sizes of the pattern have errors\n");
    return found_errors;
  }
  text::MemoryFiles none;
  const service::Built built = service::Session(none).build(*checked, command.formats, options_of(command.selected));
  if (const auto* const refusal = std::get_if<service::Refusal>(&built)) {
    complain(fmt::format("{}: {}", text::printable(command.file), refusal->reason), refusal->help);
    return wrong_usage;
  }
  const Written written = write_files(command.folder, std::get<std::vector<outputs::Output>>(built));
  std::string list = to_measure_line(*checked);
  for (const std::string& path : written.paths) list += fmt::format("wrote {}\n", path);
  const bool printed = print(list);
  if (!written.problem.empty()) {
    complain(written.problem,
             written.paths.empty() ? "nothing was written" : "the files named above are whole; no other was written");
    return wrong_usage;
  }
  if (!printed) {
    complain("all files were written, but their list could not be printed on standard output");
    return wrong_usage;
  }
  return no_errors;
}

}  // namespace stk::driver
