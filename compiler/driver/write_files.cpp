#include "compiler/driver/write_files.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <string_view>
#include <system_error>
#include <utility>

namespace stk::driver {
namespace {

namespace fs = std::filesystem;

std::string in_words(int error) {
  switch (error) {
    case ENOSPC:
      return "the disk is full";
    case EDQUOT:
      return "your share of the disk is used up";
    case EFBIG:
      return "the file would be larger than is allowed";
    case EROFS:
      return "the disk can only be read";
    case EACCES:
    case EPERM:
      return "you have no permission to write there";
    case ENOTDIR:
      return "a part of the path is a file, not a folder";
    case EISDIR:
      return "a folder of that name is in the way";
    case ENAMETOOLONG:
      return "the name is too long";
    case ENOENT:
      return "the folder is gone";
    default:
      return std::generic_category().message(error);
  }
}

std::string cannot(const fs::path& path, int error) {
  return fmt::format("{} cannot be written: {}", path.string(), in_words(error));
}

class Writer {
 public:
  explicit Writer(fs::path folder) : folder_(std::move(folder)) {}
  Writer(const Writer&) = delete;
  Writer& operator=(const Writer&) = delete;

  // Takes away what did not come to be a file, and the folders made for it.
  ~Writer() {
    for (const Pending& pending : pending_) ::unlink(pending.temporary.c_str());
    for (auto made = made_folders_.rbegin(); made != made_folders_.rend(); ++made) ::rmdir(made->c_str());
  }

  bool prepare(const outputs::Output& file) {
    const fs::path target = (folder_ / file.path).lexically_normal();
    return make_folders(target.parent_path()) && not_in_the_way(target) && write_beside(target, file.bytes);
  }

  bool put_in_place() {
    while (!pending_.empty()) {
      const Pending& pending = pending_.front();
      if (::rename(pending.temporary.c_str(), pending.target.c_str()) != 0) return fail(pending.target, errno);
      written_.push_back(pending.target.string());
      made_folders_.clear();  // they are in use now
      pending_.erase(pending_.begin());
    }
    return true;
  }

  Written result() { return {std::move(written_), std::move(problem_)}; }

 private:
  struct Pending {
    std::string temporary;
    fs::path target;
  };

  bool fail(const fs::path& path, int error) {
    problem_ = cannot(path, error);
    return false;
  }

  bool make_folders(const fs::path& folder) {
    fs::path so_far;
    for (const fs::path& part : folder) {
      so_far /= part;
      if (::mkdir(so_far.c_str(), 0777) == 0) {
        made_folders_.push_back(so_far.string());
      } else if (errno != EEXIST && errno != EISDIR) {
        const int error = errno;
        struct stat status {};
        if (::stat(so_far.c_str(), &status) != 0 || !S_ISDIR(status.st_mode)) return fail(so_far, error);
      } else {
        struct stat status {};
        if (::stat(so_far.c_str(), &status) == 0 && !S_ISDIR(status.st_mode)) return fail(so_far, ENOTDIR);
      }
    }
    return true;
  }

  bool not_in_the_way(const fs::path& target) {
    struct stat status {};
    if (::stat(target.c_str(), &status) == 0 && S_ISDIR(status.st_mode)) return fail(target, EISDIR);
    return true;
  }

  bool write_beside(const fs::path& target, std::string_view bytes) {
    std::string temporary = (target.parent_path() / ".stockinger-XXXXXX").string();
    const int fd = ::mkostemp(temporary.data(), O_CLOEXEC);
    if (fd < 0) return fail(target, errno);
    pending_.push_back({temporary, target});
    int error = write_all(fd, bytes);
    // mkostemp gives a file that only its owner may read; an output is an ordinary file.
    const mode_t mask = ::umask(0);
    ::umask(mask);
    if (error == 0 && ::fchmod(fd, 0666 & ~mask) != 0) error = errno;
    if (error == 0 && ::fsync(fd) != 0 && errno != EINVAL && errno != ENOTSUP) error = errno;
    if (::close(fd) != 0 && error == 0) error = errno;  // a network disk tells of its being full only here
    return error == 0 || fail(target, error);
  }

  static int write_all(int fd, std::string_view bytes) {
    while (!bytes.empty()) {
      const ssize_t written = ::write(fd, bytes.data(), bytes.size());
      if (written < 0 && errno == EINTR) continue;
      if (written < 0) return errno;
      bytes.remove_prefix(static_cast<std::size_t>(written));
    }
    return 0;
  }

  fs::path folder_;
  std::vector<Pending> pending_;
  std::vector<std::string> made_folders_, written_;
  std::string problem_;
};

bool stays_inside(const std::string& path) {
  const fs::path normal = fs::path(path).lexically_normal();
  return !path.empty() && normal.is_relative() && *normal.begin() != ".." && normal.has_filename();
}

}  // namespace

Written write_files(const std::string& folder, const std::vector<outputs::Output>& files) {
  Writer writer(folder);
  for (const outputs::Output& file : files) {
    if (!stays_inside(file.path)) return {{}, fmt::format("{} leads out of the output folder", file.path)};
    if (!writer.prepare(file)) return writer.result();
  }
  writer.put_in_place();
  return writer.result();
}

}  // namespace stk::driver
