#include "tests/bench/sources.hpp"

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <iterator>

namespace stk::bench {
namespace {

namespace fs = std::filesystem;

std::string find_largest() {
  std::string path;
  std::uintmax_t size = 0;
  for (const auto& entry : fs::directory_iterator(fs::path(STK_SOURCE_DIR) / "examples")) {
    if (entry.path().extension() != ".stk" || entry.file_size() <= size) continue;
    size = entry.file_size();
    path = entry.path().string();
  }
  if (path.empty()) {
    std::cerr << "bench: there is no pattern in examples/\n";
    std::exit(2);
  }
  return path;
}

}  // namespace

const std::string& largest_example_path() {
  static const std::string path = find_largest();
  return path;
}

const std::string& largest_example() {
  static const std::string text = [] {
    std::ifstream file(largest_example_path(), std::ios::binary);
    return std::string(std::istreambuf_iterator<char>(file), {});
  }();
  return text;
}

std::string grown(std::size_t bytes) {
  // Everything after the first line may stand more than once, as far as the parser cares.
  const std::string& one = largest_example();
  const std::size_t body = one.find('\n') + 1;
  std::string text = one;
  while (text.size() < bytes) text += one.substr(body);
  return text;
}

}  // namespace stk::bench
