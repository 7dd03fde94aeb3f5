#include "compiler/outputs/paths.hpp"

#include <fmt/core.h>

#include <vector>

#include "compiler/outputs/characters.hpp"

namespace stk::outputs {

namespace {

std::vector<std::string> split(std::string_view text, char at) {
  std::vector<std::string> parts(1);
  for (const char c : text) c == at ? (void)parts.emplace_back() : (void)parts.back().push_back(c);
  return parts;
}

std::string replaced(std::string text, std::string_view what, std::string_view with) {
  for (std::size_t at = text.find(what); at != std::string::npos; at = text.find(what, at + with.size())) {
    text.replace(at, what.size(), with);
  }
  return text;
}

}  // namespace

std::string slug(std::string_view text) {
  const std::string plain = plain_letters(text);
  std::string result;
  for (const char c : plain) {
    const bool kept = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9');
    if (kept)
      result += c;
    else if (!result.empty() && result.back() != '-')
      result += '-';
  }
  while (!result.empty() && result.back() == '-') result.pop_back();
  return result.empty() ? "pattern" : result;
}

std::string output_path(const OutputOptions& options, const document::Document& document, std::string_view format) {
  std::string path = replaced(options.path_template, "{style}", slug(document.title.name));
  path = replaced(std::move(path), "{edition}", document.edition.empty() ? "" : slug(document.edition));
  path = replaced(std::move(path), "{size}", document.size.empty() ? "" : slug(document.size));
  std::string result;
  for (const std::string& folder : split(path, '/')) {
    std::string name;
    for (const std::string& part : split(folder, '.')) {  // "sock.mid..{format}": nothing between two dots
      if (!part.empty()) name += (name.empty() ? "" : ".") + part;
    }
    if (!name.empty()) result += (result.empty() ? "" : "/") + name;  // so `..` and a leading `/` come to nothing
  }
  return replaced(std::move(result), "{format}", format);
}

std::string chart_path(const OutputOptions& options, const document::Document& document, std::size_t number,
                       std::string_view extension) {
  std::string path = output_path(options, document, fmt::format("chart-{}.{}", number, extension));
  const std::size_t folder = path.rfind('/');
  return path.insert(folder == std::string::npos ? 0 : folder + 1, "charts/");
}

std::string relative_path(std::string_view from, std::string_view to) {
  std::vector<std::string> source = split(from, '/'), target = split(to, '/');
  std::size_t common = 0;
  while (common + 1 < source.size() && common + 1 < target.size() && source[common] == target[common]) ++common;
  std::string path;
  for (std::size_t i = common; i + 1 < source.size(); ++i) path += "../";
  for (std::size_t i = common; i < target.size(); ++i) path += target[i] + (i + 1 < target.size() ? "/" : "");
  return path;
}

}  // namespace stk::outputs
