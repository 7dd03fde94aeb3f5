// Files from the disk: neighbours inside the pattern's folder, libraries from a folder or from the program itself.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "compiler/text/embedded.hpp"
#include "compiler/text/files.hpp"

namespace stk::text {

// One file that the user named, or "-" for standard input (shown as <standard input>): its text in valid UTF-8, without
// a byte order mark, or what is wrong with it. Only a plain file or a pipe is read, and never more than the limit.
FileResult read_source(const std::string& path);

class DiskFiles : public Files {
 public:
  // `pattern` is the path that the user named; its folder is as far as neighbours reach. `library_folder` replaces the
  // built-in libraries.
  DiskFiles(const std::string& pattern, std::span<const EmbeddedFile> built_in,
            std::optional<std::string> library_folder = std::nullopt);

  FileResult library(const std::string& name) override;
  FileResult neighbour(const std::string& from, const std::string& path) override;
  std::vector<std::string> libraries() const override;

 private:
  FileResult inside(const std::string& folder, const std::string& path, const std::string& shown) const;

  std::string folder_;  // of the pattern, as the user wrote it: "" or "patterns/"
  std::span<const EmbeddedFile> built_in_;
  std::optional<std::string> library_folder_;
};

}  // namespace stk::text
