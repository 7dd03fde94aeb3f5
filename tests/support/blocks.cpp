#include "tests/support/blocks.hpp"

#include <algorithm>
#include <filesystem>
#include <sstream>

#include "tests/support/checking.hpp"

namespace stk::test {
namespace {

bool starts(std::string_view text, std::string_view with) {
  return text.substr(0, with.size()) == with;
}

// A fence is three or more backquotes, indented by three blanks at most (CommonMark 0.30, section 4.5).
std::size_t fence(std::string_view line) {
  const std::size_t indent = std::min(line.find_first_not_of(' '), line.size());
  const std::size_t end = std::min(line.find_first_not_of('`', indent), line.size());
  return indent <= 3 && end - indent >= 3 ? end - indent : 0;
}

}  // namespace

std::vector<Block> fenced_blocks(std::string_view markdown) {
  std::vector<Block> blocks;
  std::istringstream lines{std::string(markdown)};
  std::string line, heading;
  std::uint32_t number = 0;
  std::size_t open = 0;  // backquotes of the open fence
  while (std::getline(lines, line)) {
    ++number;
    const std::size_t ticks = fence(line);
    if (open == 0 && ticks > 0) {
      std::string info = line.substr(line.find_last_of('`') + 1);
      info.erase(0, std::min(info.find_first_not_of(' '), info.size()));
      blocks.push_back({std::move(info), "", number + 1, heading});
      open = ticks;
    } else if (open > 0 && ticks >= open && line.find_first_not_of("` ") == std::string::npos) {
      open = 0;
    } else if (open > 0) {
      blocks.back().text += line + '\n';
    } else if (starts(line, "#")) {
      heading = line.substr(std::min(line.find_first_not_of("# "), line.size()));
    }
  }
  return blocks;
}

bool is_ours(const Block& block) {
  return block.info == "stk" || starts(block.info, "stk ");
}

Listing listing(const Block& block) {
  Listing result{block.text, std::nullopt, {}, {}};
  std::istringstream words(block.info);
  std::string word, frame;
  words >> word;  // stk
  while (words >> word) {
    if (word == "finding") {
      words >> word;
      result.finding = word;
    } else if (word == "top" || word == "sizes" || word == "piece" || word == "finish") {
      frame = word;
    } else if (word != "file") {
      result.mistake = "`" + word + "` in the info string";
    }
  }
  if (frame.empty()) return result;
  std::istringstream lines(read_file(std::string(STK_SOURCE_DIR) + "/tests/support/frames/" + frame + ".stk"));
  result.text.clear();
  for (std::string line; std::getline(lines, line);) {
    if (line.find("#@ here") != std::string::npos) {
      result.text += block.text;
    } else if (starts(line, "#@ tolerate:")) {
      std::istringstream codes(line.substr(12));
      while (codes >> word) result.tolerated.push_back(word);
    } else {
      result.text += line + '\n';
    }
  }
  return result;
}

}  // namespace stk::test
