#include "compiler/text/memory_files.hpp"

#include <algorithm>
#include <utility>

#include "compiler/text/encoding.hpp"
#include "compiler/text/paths.hpp"

namespace stk::text {
namespace {

FileResult checked(std::string name, std::string_view bytes) {
  if (auto problem = text_problem(bytes)) return FileProblem{std::move(*problem)};
  return FileText{std::move(name), std::string(without_byte_order_mark(bytes))};
}

}  // namespace

void MemoryFiles::add(std::string path, std::string text) {
  neighbours_[std::move(path)] = std::move(text);
}
void MemoryFiles::add_library(std::string name, std::string text) {
  libraries_[std::move(name)] = std::move(text);
}

FileResult MemoryFiles::library(const std::string& name) {
  if (auto problem = library_name_problem(name)) return FileProblem{std::move(*problem)};
  if (const auto found = libraries_.find(name); found != libraries_.end()) {
    return checked(library_file(name), found->second);
  }
  for (const EmbeddedFile& file : built_in_) {
    if (file.name == name) return FileText{library_file(name), std::string(file.text)};
  }
  return FileProblem{"there is no library of this name"};
}

FileResult MemoryFiles::neighbour(const std::string& from, const std::string& path) {
  if (auto problem = path_problem(path)) return FileProblem{std::move(*problem)};
  const std::string name = joined(from, path);
  if (name.empty()) return FileProblem{"it lies outside the pattern's folder"};
  if (is_library_file(name)) return library(std::string(library_of(name)));
  const auto found = neighbours_.find(name);
  if (found == neighbours_.end()) return FileProblem{"there is no file of this name"};
  return checked(name, found->second);
}

std::vector<std::string> MemoryFiles::libraries() const {
  std::vector<std::string> names;
  for (const auto& [name, text] : libraries_) names.push_back(name);
  for (const EmbeddedFile& file : built_in_) names.emplace_back(file.name);
  std::sort(names.begin(), names.end());
  names.erase(std::unique(names.begin(), names.end()), names.end());
  return names;
}

}  // namespace stk::text
