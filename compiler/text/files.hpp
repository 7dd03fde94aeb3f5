// The door to the outside for reading: the core asks for a file here and never opens one itself, so that tests, an editor
// and a browser can answer from memory.
#pragma once

#include <string>
#include <variant>
#include <vector>

namespace stk::text {

struct FileText {
  std::string name;    // shown in findings
  std::string text;
};
// In plain words, for a finding: "there is no file of this name", "it lies outside the pattern's folder".
struct FileProblem {
  std::string reason;
};
using FileResult = std::variant<FileText, FileProblem>;

class Files {
 public:
  virtual ~Files() = default;
  // `use heels`: a library by name.
  virtual FileResult library(const std::string& name) = 0;
  // `use "shared-sizes.stk"` written in the file `from`: a neighbour, inside the pattern's folder after links are resolved.
  virtual FileResult neighbour(const std::string& from, const std::string& path) = 0;
  // The names that library() would answer, for suggestions.
  virtual std::vector<std::string> libraries() const = 0;
};

}  // namespace stk::text
