// `explain`: the page of a finding, as it was built in; or the list of all.
#include <fmt/format.h>

#include <string>
#include <vector>

#include "compiler/driver/commands.hpp"
#include "compiler/driver/terminal.hpp"
#include "compiler/findings/catalog.hpp"
#include "compiler/findings/suggest.hpp"

namespace stk::driver {
namespace {

int printed(std::string_view text) {
  if (print(text)) return no_errors;
  complain("the page could not be written to standard output");
  return wrong_usage;
}

int list_all() {
  std::string text;
  for (const findings::CatalogEntry& entry : findings::catalog()) {
    text += fmt::format("{}  {}\n", entry.name, entry.slug);
  }
  return printed(text);
}

}  // namespace

int run_explain(const ExplainCommand& command) {
  if (command.code.empty()) return list_all();
  if (const auto code = findings::find_code(command.code)) return printed(findings::explanation(*code));
  for (const findings::RetiredCode& retired : findings::retired_codes()) {
    if (retired.name == command.code) {
      complain(fmt::format("{} is not reported any more: {}", retired.name, retired.why));
      return wrong_usage;
    }
  }
  std::vector<std::string> known;
  for (const findings::CatalogEntry& entry : findings::catalog()) {
    known.emplace_back(entry.name);
    known.emplace_back(entry.slug);
  }
  const auto near = findings::nearest_word(command.code, known);
  complain(fmt::format("there is no finding `{}`", command.code),
           near ? fmt::format("`{}` is near", near->word) : "`stockinger explain` lists them all");
  return wrong_usage;
}

}  // namespace stk::driver
