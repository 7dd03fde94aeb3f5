#include "tests/support/snapshot.hpp"

#include <algorithm>
#include <sstream>

namespace stk::test {
namespace {

bool starts(std::string_view text, std::string_view with) {
  return text.substr(0, with.size()) == with;
}

std::string trimmed(std::string_view text) {
  const std::size_t begin = text.find_first_not_of(" \t\r");
  if (begin == std::string_view::npos) return {};
  return std::string(text.substr(begin, text.find_last_not_of(" \t\r") - begin + 1));
}

void read_command(const std::string& command, Snapshot& test) {
  std::istringstream words(command);
  std::string word, value;
  words >> word;
  if (word != "check" && word != "build" && word != "fit") test.mistake = "`#@ run:` takes check, build or fit";
  test.build = word == "build";
  test.fit = word == "fit";
  while (words >> word) {
    if (!(words >> value)) {
      test.mistake = word + " needs a value";
    } else if (word == "--to") {
      std::istringstream list(value);
      for (std::string format; std::getline(list, format, ',');) test.formats.push_back(format);
    } else if (word == "--format") {
      test.json = value == "json";
    } else if (word == "--edition") {
      test.options.edition = value;
    } else if (word == "--size") {
      test.options.size = value;
    } else if (word == "--set" || word == "--measure") {
      const std::size_t equals = std::min(value.find('='), value.size() - 1);
      auto& values = word == "--set" ? test.options.settings : test.options.measures;
      values[value.substr(0, equals)] = value.substr(equals + 1);
    } else {
      test.mistake = "the harness does not know " + word;
    }
  }
  if (test.build && test.formats.empty()) test.mistake = "`build` needs `--to` here";
}

// What stands after `#~` in a line.
void read_markers(std::string_view line, const std::string& file, std::uint32_t number, Snapshot& test) {
  for (std::size_t at = line.find("#~"); at != std::string_view::npos; at = line.find("#~", at + 2)) {
    std::string_view rest = line.substr(at + 2);
    std::uint32_t above = 0;
    while (starts(rest, "^")) {
      rest.remove_prefix(1);
      ++above;
    }
    std::istringstream words(std::string(rest.substr(0, rest.find('#'))));
    std::string word;
    bool library = false;
    while (words >> word) {
      if (word == "<library>") {
        library = true;
      } else if (library) {
        test.marked.push_back({"<library>", 0, word});
      } else {
        test.marked.push_back({file, number - above, word});
      }
    }
  }
}

}  // namespace

Snapshot read_snapshot(std::string_view source) {
  Snapshot test;
  std::string file = main_file;
  std::string* text = &test.text;
  std::uint32_t number = 0;
  while (!source.empty()) {
    const std::size_t end = std::min(source.find('\n'), source.size() - 1) + 1;
    const std::string_view line = source.substr(0, end);
    source.remove_prefix(end);
    const std::string trim = trimmed(line.back() == '\n' ? line.substr(0, line.size() - 1) : line);
    if (starts(trim, "#@ file:")) {
      file = trimmed(std::string_view(trim).substr(8));
      const auto [place, is_new] = test.neighbours.emplace(file, "");
      if (!is_new || file == main_file) test.mistake = "two files are called " + file;
      text = &place->second;
      number = 0;
      continue;
    }
    ++number;
    if (test.proves.empty() && starts(trim, "# ")) test.proves = trim.substr(2);
    if (starts(trim, "#@ run:")) {
      read_command(trim.substr(7), test);
    } else if (starts(trim, "#@")) {
      test.mistake = "the harness does not know " + trim;
    }
    read_markers(line, file, number, test);
    text->append(line);
  }
  if (test.proves.empty()) test.mistake = "its first comment must say what it proves";
  std::sort(test.marked.begin(), test.marked.end());
  return test;
}

}  // namespace stk::test
