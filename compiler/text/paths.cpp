#include "compiler/text/paths.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <vector>

#include "compiler/text/limits.hpp"

namespace stk::text {
namespace {

constexpr std::string_view library_folder = "<library>/";
constexpr std::string_view ending = ".stk";

bool ends_with(std::string_view text, std::string_view end) {
  return text.size() >= end.size() && text.substr(text.size() - end.size()) == end;
}

}  // namespace

std::optional<std::string> path_problem(std::string_view path) {
  if (path.empty()) return "the path is empty";
  if (path.size() > limits::path_bytes) return fmt::format("the path is longer than {} bytes", limits::path_bytes);
  if (std::any_of(path.begin(), path.end(), [](char c) { return static_cast<unsigned char>(c) < 0x20 || c == 0x7F; })) {
    return "the path has a control character in it";
  }
  if (path.find('\\') != std::string_view::npos) return "folders in a path are divided by `/`";
  if (path.front() == '/' || (path.size() > 1 && path[1] == ':')) {
    return "the path must start at the pattern's folder, not at the top of the disk";
  }
  if (!ends_with(path, ending) || path.size() == ending.size() || path[path.size() - ending.size() - 1] == '/') {
    return "only files that end in `.stk` can be used";
  }
  return std::nullopt;
}

std::optional<std::string> library_name_problem(std::string_view name) {
  const bool good = !name.empty() && std::all_of(name.begin(), name.end(), [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '_';
  });
  if (!good) return "a library's name has letters, digits and `_` only";
  return std::nullopt;
}

std::string joined(std::string_view from, std::string_view path) {
  std::string result(from.substr(0, from.rfind('/') + 1));  // npos + 1 is 0: no folder
  std::vector<std::string_view> parts;
  while (!path.empty()) {
    const std::size_t slash = std::min(path.find('/'), path.size());
    const std::string_view part = path.substr(0, slash);
    path.remove_prefix(std::min(slash + 1, path.size()));
    if (part.empty() || part == ".") continue;
    if (part != "..") {
      parts.push_back(part);
    } else if (!parts.empty()) {
      parts.pop_back();
    } else if (!result.empty() && result != library_folder && result != "/" && !ends_with(result, "../")) {
      result.pop_back();  // the last folder of `from`
      result.erase(result.rfind('/') + 1);
    } else {
      return {};
    }
  }
  for (const std::string_view part : parts) {
    result += part;
    result += '/';
  }
  if (!parts.empty()) result.pop_back();
  return result;
}

std::string library_file(std::string_view name) {
  return fmt::format("{}{}{}", library_folder, name, ending);
}

bool is_library_file(std::string_view file) {
  return file.substr(0, library_folder.size()) == library_folder;
}

std::string_view library_of(std::string_view file) {
  if (is_library_file(file)) file.remove_prefix(library_folder.size());
  if (ends_with(file, ending)) file.remove_suffix(ending.size());
  return file;
}

}  // namespace stk::text
