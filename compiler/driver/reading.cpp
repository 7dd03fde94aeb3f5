#include "compiler/driver/reading.hpp"

#include <fmt/format.h>

#include <filesystem>
#include <system_error>
#include <utility>
#include <variant>

#include "compiler/driver/terminal.hpp"
#include "compiler/text/columns.hpp"
#include "compiler/text/disk_files.hpp"
#include "stdlib/library.hpp"

namespace stk::driver {

service::Options options_of(const Selected& selected) {
  return {selected.edition, selected.size, selected.settings, selected.measures};
}

std::optional<service::Checked> read_and_check(const std::string& file, const Selected& selected) {
  if (selected.library) {
    std::error_code error;
    if (!std::filesystem::is_directory(*selected.library, error)) {
      complain(fmt::format("{}: there is no folder of this name to take libraries from",
                           text::printable(*selected.library)));
      return std::nullopt;
    }
  }
  text::FileResult read = text::read_source(file);
  if (const auto* const problem = std::get_if<text::FileProblem>(&read)) {
    complain(fmt::format("{}: {}", file == "-" ? "standard input" : text::printable(file), problem->reason));
    return std::nullopt;
  }
  auto& [name, content] = std::get<text::FileText>(read);
  text::DiskFiles files(file == "-" ? std::string() : file, stdlib::files(), selected.library);
  service::Checked checked = service::Session(files).check(name, std::move(content), options_of(selected));
  for (const service::Refusal& refusal : checked.refusals) {
    complain(fmt::format("{}: {}", text::printable(name), refusal.reason), refusal.help);
  }
  if (!checked.refusals.empty()) return std::nullopt;
  return checked;
}

std::string to_measure_line(const service::Checked& checked) {
  if (!checked.facts || !checked.facts->to_measure) return {};
  const auto& made = *checked.facts->to_measure;
  std::string line = fmt::format("made to measure from {}: given {}", made.base, fmt::join(made.given, ", "));
  if (!made.worked_out.empty()) line += fmt::format("; worked out {}", fmt::join(made.worked_out, ", "));
  if (!made.taken.empty()) line += fmt::format("; of {} {}", made.base, fmt::join(made.taken, ", "));
  return line + "\n";
}

}  // namespace stk::driver
