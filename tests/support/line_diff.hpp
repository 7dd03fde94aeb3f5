// Two texts compared line by line, shown as a unified diff: what a test prints where a long text is not what it should
// be.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace stk::test {

std::vector<std::string> lines_of(std::string_view text);

// Empty if both are equal. Three lines of context; a missing line end at the end is named.
std::string line_diff(std::string_view expected, std::string_view actual, const std::string& expected_name,
                      const std::string& actual_name);

}  // namespace stk::test
