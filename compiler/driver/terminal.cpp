#include "compiler/driver/terminal.hpp"

#include <fmt/format.h>
#include <sys/ioctl.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstdlib>
#include <string>

namespace stk::driver {
namespace {

constexpr std::size_t default_width = 80, least_width = 40, most_width = 120;

bool write_all(int fd, std::string_view text) {
  while (!text.empty()) {
    const ssize_t written = ::write(fd, text.data(), text.size());
    if (written < 0 && errno == EINTR) continue;
    if (written <= 0) return false;
    text.remove_prefix(static_cast<std::size_t>(written));
  }
  return true;
}

findings::TextStyle style_of(int fd) {
  findings::TextStyle style{default_width, false};
  if (::isatty(fd) == 0) return style;
  const char* const no_colour = std::getenv("NO_COLOR");  // no-color.org: present and not empty, whatever its value
  const char* const terminal = std::getenv("TERM");
  style.colour = (no_colour == nullptr || *no_colour == '\0') && terminal != nullptr && *terminal != '\0' &&
                 std::string_view(terminal) != "dumb";
  winsize size{};
  if (::ioctl(fd, TIOCGWINSZ, &size) == 0 && size.ws_col > 0) {
    style.width = std::clamp<std::size_t>(size.ws_col, least_width, most_width);
  }
  return style;
}

}  // namespace

bool print(std::string_view text) {
  return write_all(STDOUT_FILENO, text);
}
bool print_error(std::string_view text) {
  return write_all(STDERR_FILENO, text);
}

void complain(std::string_view message, std::string_view help) {
  std::string text = fmt::format("stockinger: {}\n", message);
  if (!help.empty()) text += fmt::format("  help: {}\n", help);
  print_error(text);  // if even this cannot be written, the exit status still tells
}

findings::TextStyle style_of_output() {
  return style_of(STDOUT_FILENO);
}
findings::TextStyle style_of_error() {
  return style_of(STDERR_FILENO);
}

}  // namespace stk::driver
