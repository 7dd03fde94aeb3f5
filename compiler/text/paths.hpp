// Paths as text: what may be written after `use`, where it leads, and how a file is called in findings. No file is
// opened here, so that every implementation of Files refuses the same paths with the same words.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace stk::text {

// What is wrong with a path in `use "..."` before any file is looked for, or nothing.
std::optional<std::string> path_problem(std::string_view path);

// What is wrong with a library's name, or nothing.
std::optional<std::string> library_name_problem(std::string_view name);

// Where `path`, written in the file `from`, leads: "leg/cuff.stk" + "../toe.stk" is "toe.stk". Empty if it climbs above
// the folder that `from` counts from.
std::string joined(std::string_view from, std::string_view path);

// A library's file is shown as "<library>/heels.stk", wherever it lies.
std::string library_file(std::string_view name);
bool is_library_file(std::string_view file);
// "heels" of "<library>/heels.stk".
std::string_view library_of(std::string_view file);

}  // namespace stk::text
