// Files that live in memory: for tests, for an editor's unsaved texts and for a browser.
#pragma once

#include <map>
#include <span>
#include <string>
#include <vector>

#include "compiler/text/embedded.hpp"
#include "compiler/text/files.hpp"

namespace stk::text {

class MemoryFiles : public Files {
 public:
  // The libraries that were built into the program; none for a test that wants none.
  explicit MemoryFiles(std::span<const EmbeddedFile> built_in = {}) : built_in_(built_in) {}

  void add(std::string path, std::string text);          // a neighbour: "shared-sizes.stk"
  void add_library(std::string name, std::string text);  // hides a built-in one of the same name

  FileResult library(const std::string& name) override;
  FileResult neighbour(const std::string& from, const std::string& path) override;
  std::vector<std::string> libraries() const override;

 private:
  std::span<const EmbeddedFile> built_in_;
  std::map<std::string, std::string> neighbours_;
  std::map<std::string, std::string> libraries_;
};

}  // namespace stk::text
