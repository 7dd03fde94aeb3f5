#include "compiler/text/disk_files.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <poll.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <filesystem>
#include <system_error>
#include <utility>

#include "compiler/text/encoding.hpp"
#include "compiler/text/limits.hpp"
#include "compiler/text/paths.hpp"

namespace stk::text {
namespace {

namespace fs = std::filesystem;

// errno in a designer's words; the few that people meet, and the system's own text for the rest.
std::string in_words(int error) {
  switch (error) {
    case ENOENT:
      return "there is no file of this name";
    case EACCES:
    case EPERM:
      return "you have no permission to read it";
    case EISDIR:
      return "it is a folder, not a file";
    case ENOTDIR:
      return "a part of its path is a file, not a folder";
    case ELOOP:
      return "its links go round in a circle";
    case ENAMETOOLONG:
      return "its name is too long";
    case EMFILE:
    case ENFILE:
      return "too many files are open";
    default:
      return fmt::format("it cannot be read: {}", std::generic_category().message(error));
  }
}

class Descriptor {  // closes what it opened
 public:
  explicit Descriptor(int fd) : fd_(fd) {}
  ~Descriptor() {
    if (fd_ > STDERR_FILENO) ::close(fd_);
  }
  Descriptor(const Descriptor&) = delete;
  Descriptor& operator=(const Descriptor&) = delete;
  int get() const { return fd_; }

 private:
  int fd_;
};

FileResult read_all(int fd, std::string shown) {
  std::string bytes;
  std::array<char, 65536> buffer{};
  // One byte beyond the limit is read, never more: it tells "too long" from "just fits".
  while (bytes.size() <= limits::source_bytes) {
    const ssize_t got = ::read(fd, buffer.data(), buffer.size());
    if (got < 0 && errno == EINTR) continue;
    if (got < 0) return FileProblem{in_words(errno)};
    if (got == 0) break;
    bytes.append(buffer.data(), static_cast<std::size_t>(got));
  }
  if (bytes.size() > limits::source_bytes) {
    return FileProblem{
        fmt::format("it is longer than {} MiB, the most that a source may have", limits::source_bytes / (1024 * 1024))};
  }
  if (auto problem = text_problem(bytes)) return FileProblem{std::move(*problem)};
  return FileText{std::move(shown), std::string(without_byte_order_mark(bytes))};
}

// `pipes`: what the user names may be a pipe (a shell's substitution); what a source names must be a plain file.
FileResult read_path(const std::string& path, const std::string& shown, bool pipes) {
  // O_NONBLOCK: opening a pipe that nobody writes to must not wait for ever before its kind is known.
  const Descriptor file(::open(path.c_str(), O_RDONLY | O_CLOEXEC | O_NONBLOCK));
  if (file.get() < 0) return FileProblem{in_words(errno)};
  struct stat status {};
  if (::fstat(file.get(), &status) != 0) return FileProblem{in_words(errno)};
  if (S_ISDIR(status.st_mode)) return FileProblem{in_words(EISDIR)};
  if (!S_ISREG(status.st_mode) && !(pipes && S_ISFIFO(status.st_mode))) {
    return FileProblem{"it is a device or a socket, not a file"};
  }
  if (S_ISFIFO(status.st_mode)) {
    // A writer may come a moment later than the reader; before it is there, reading finds an end and not a wait.
    pollfd waiting{file.get(), POLLIN, 0};
    constexpr int patience = 10'000;   // milliseconds
    if (::poll(&waiting, 1, patience) == 0) return FileProblem{"it is a pipe that nothing writes to"};
    const int flags = ::fcntl(file.get(), F_GETFL);
    if (flags < 0 || ::fcntl(file.get(), F_SETFL, flags & ~O_NONBLOCK) < 0) return FileProblem{in_words(errno)};
  }
  return read_all(file.get(), shown);
}

// Is `file` inside `folder`, both without links, part by part ("/a/bc" is not inside "/a/b")?
bool lies_inside(const fs::path& file, const fs::path& folder) {
  const auto [end_of_folder, ignored] = std::mismatch(folder.begin(), folder.end(), file.begin(), file.end());
  return end_of_folder == folder.end();
}

}  // namespace

FileResult read_source(const std::string& path) {
  if (path == "-") return read_all(STDIN_FILENO, "<standard input>");
  if (path.find('\0') != std::string::npos) return FileProblem{"its name has a zero byte in it"};
  return read_path(path, path, true);
}

DiskFiles::DiskFiles(const std::string& pattern, std::span<const EmbeddedFile> built_in,
                     std::optional<std::string> library_folder)
    : folder_(pattern.substr(0, pattern.rfind('/') + 1)),
      built_in_(built_in),
      library_folder_(std::move(library_folder)) {
  if (library_folder_ && !library_folder_->empty() && library_folder_->back() != '/') *library_folder_ += '/';
}

FileResult DiskFiles::inside(const std::string& folder, const std::string& path, const std::string& shown) const {
  std::error_code error;
  const fs::path root = fs::canonical(folder.empty() ? "." : folder, error);
  if (error) return FileProblem{in_words(error.value())};
  const fs::path file = fs::canonical(path, error);
  if (error) return FileProblem{in_words(error.value())};
  if (!lies_inside(file, root)) return FileProblem{"it lies outside the pattern's folder"};
  // A link may have led to another kind of file.
  if (file.extension() != ".stk") return FileProblem{"only files that end in `.stk` can be used"};
  return read_path(file.string(), shown, false);
}

FileResult DiskFiles::library(const std::string& name) {
  if (auto problem = library_name_problem(name)) return FileProblem{std::move(*problem)};
  if (library_folder_) {
    FileResult result = inside(*library_folder_, *library_folder_ + name + ".stk", library_file(name));
    const auto* const problem = std::get_if<FileProblem>(&result);
    if (problem != nullptr && problem->reason == in_words(ENOENT)) {
      return FileProblem{fmt::format("there is no library of this name in {}", *library_folder_)};
    }
    return result;
  }
  for (const EmbeddedFile& file : built_in_) {
    if (file.name == name) return FileText{library_file(name), std::string(file.text)};
  }
  return FileProblem{"there is no library of this name"};
}

FileResult DiskFiles::neighbour(const std::string& from, const std::string& path) {
  if (auto problem = path_problem(path)) return FileProblem{std::move(*problem)};
  const std::string target = joined(from, path);
  if (target.empty()) return FileProblem{"it lies outside the pattern's folder"};
  if (is_library_file(target)) return library(std::string(library_of(target)));
  return inside(folder_, target, target);
}

std::vector<std::string> DiskFiles::libraries() const {
  std::vector<std::string> names;
  if (library_folder_) {
    std::error_code error;
    fs::directory_iterator entry(*library_folder_, error);
    while (!error && entry != fs::directory_iterator()) {
      if (entry->path().extension() == ".stk") names.push_back(entry->path().stem().string());
      entry.increment(error);
    }
  } else {
    for (const EmbeddedFile& file : built_in_) names.emplace_back(file.name);
  }
  std::sort(names.begin(), names.end());
  return names;
}

}  // namespace stk::text
