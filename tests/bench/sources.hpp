// What is measured: the largest pattern of examples/, and the same grown a hundredfold.
#pragma once

#include <string>

namespace stk::bench {

const std::string& largest_example_path();
const std::string& largest_example();

// The example with its lets and techniques repeated under other names until it has about so many bytes: long, but of
// the same texture. It is for the parser only.
std::string grown(std::size_t bytes);

}  // namespace stk::bench
