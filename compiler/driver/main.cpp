// The command line: options are read, one command runs, its exit status is the program's.
#include <csignal>
#include <exception>
#include <new>
#include <variant>

#include "compiler/driver/commands.hpp"
#include "compiler/driver/options.hpp"
#include "compiler/driver/terminal.hpp"

namespace stk::driver {
namespace {

struct Run {
  int operator()(const CheckCommand& command) const { return run_check(command); }
  int operator()(const BuildCommand& command) const { return run_build(command); }
  int operator()(const FitCommand& command) const { return run_fit(command); }
  int operator()(const ExplainCommand& command) const { return run_explain(command); }
  int operator()(const SwatchCommand& command) const { return run_swatch(command); }
  int operator()(const Printed& printed) const { return print(printed.text) ? no_errors : wrong_usage; }
  int operator()(const Misused& misused) const {
    complain(misused.message, misused.help);
    return wrong_usage;
  }
};

}  // namespace
}  // namespace stk::driver

int main(int argc, char** argv) {
  // A file that grows beyond what is allowed must be an error of write(), which is reported, not the end of the
  // program.
  std::signal(SIGXFSZ, SIG_IGN);
  try {
    return std::visit(stk::driver::Run{}, stk::driver::read_options(argc, argv));
  } catch (const std::bad_alloc&) {
    stk::driver::print_error("stockinger: there is not enough memory\n");
  } catch (const std::exception& error) {
    stk::driver::complain("a mistake of the program itself", error.what());
  }
  return stk::driver::wrong_usage;
}
