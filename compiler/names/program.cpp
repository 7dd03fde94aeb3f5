#include "compiler/names/program.hpp"

#include <algorithm>

namespace stk::names {

std::optional<std::size_t> SizesTable::index_of(std::string_view name) const {
  for (std::size_t i = 0; i < columns.size(); ++i) {
    if (columns[i].name == name) return i;
  }
  return std::nullopt;
}

const LoadedFile* Program::file(text::FileId id) const {
  const auto found = std::find_if(files_.begin(), files_.end(), [&](const LoadedFile& f) { return f.id == id; });
  return found == files_.end() ? nullptr : &*found;
}

const Declaration* Program::find(text::FileId from, Space space, std::string_view name) const {
  if (const auto seen = by_file_.find(from.value); seen != by_file_.end()) {
    if (const auto found = seen->second.find({space, name}); found != seen->second.end()) return found->second;
  }
  const auto found = everywhere_.find({space, name});
  return found == everywhere_.end() ? nullptr : found->second;
}

std::vector<std::string> Program::names_seen(text::FileId from, Space space) const {
  std::vector<std::string> names;
  const auto take = [&](const std::map<Key, const Declaration*>& table) {
    for (auto at = table.lower_bound({space, ""}); at != table.end() && at->first.first == space; ++at) {
      names.emplace_back(at->first.second);
    }
  };
  if (const auto seen = by_file_.find(from.value); seen != by_file_.end()) take(seen->second);
  take(everywhere_);
  return names;
}

}  // namespace stk::names
