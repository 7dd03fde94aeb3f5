#include "tests/support/checking.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <fstream>
#include <iterator>

#include "compiler/findings/catalog.hpp"
#include "compiler/text/memory_files.hpp"
#include "stdlib/library.hpp"

namespace stk::test {

service::Checked check(const std::string& name, std::string_view text, const Neighbours& neighbours,
                       const service::Options& options) {
  text::MemoryFiles files(stdlib::files());
  for (const auto& [path, content] : neighbours) files.add(path, content);
  return service::Session(files).check(name, std::string(text), options);
}

std::vector<Place> places(const service::Checked& checked) {
  std::vector<Place> result;
  for (const findings::Finding& finding : checked.findings) {
    if (finding.severity == findings::Severity::note) continue;
    const text::Source& source = checked.sources[finding.primary.file];
    result.push_back(
        {source.name(), source.position(finding.primary.begin).line, std::string(findings::entry(finding.code).name)});
  }
  std::sort(result.begin(), result.end());
  return result;
}

std::vector<std::string> codes(const service::Checked& checked) {
  std::vector<std::string> result;
  for (const findings::Finding& finding : checked.findings) {
    if (finding.severity != findings::Severity::note) result.emplace_back(findings::entry(finding.code).name);
  }
  return result;
}

std::string findings_text(const service::Checked& checked) {
  return findings::render_text(checked.findings, checked.sources, checked.names, {80, false}, 0);
}

std::string read_file(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  INFO(path);
  REQUIRE(file);
  return {std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
}

}  // namespace stk::test
