// For the tests against published tables: a table of tests/oracles/data as it stands there.
#pragma once

#include <fstream>
#include <map>
#include <sstream>
#include <string>
#include <vector>

namespace stk::oracles {

// Columns 1 and 2 (measure and sex) -> heading -> what `read` makes of the cell. Lines that begin with # say the source.
template <class Read>
auto data_table(const std::string& name, Read read) {
  std::ifstream file(STK_SOURCE_DIR "/tests/oracles/data/" + name);
  std::map<std::string, std::map<std::string, decltype(read(std::string()))>> table;
  std::vector<std::string> head;
  for (std::string line; std::getline(file, line);) {
    if (line.empty() || line[0] == '#') continue;
    std::vector<std::string> cells;
    std::stringstream row(line);
    for (std::string cell; std::getline(row, cell, ',');) cells.push_back(cell);
    if (head.empty()) {
      head = cells;
      continue;
    }
    for (std::size_t i = 2; i < cells.size(); ++i) table[cells[0] + " " + cells[1]][head[i]] = read(cells[i]);
  }
  return table;
}

}  // namespace stk::oracles
