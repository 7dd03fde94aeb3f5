// Writing the outputs to disk: each file whole or not at all.
#pragma once

#include <string>
#include <vector>

#include "compiler/outputs/backend.hpp"

namespace stk::driver {

struct Written {
  std::vector<std::string> paths;  // those that are in place now, in order
  std::string problem;             // empty if all are; else what went wrong, in words, with the path
};

// Makes the folder (and those inside it) where they are missing. All files are first written beside their places under
// other names and forced to the disk; only when every one of them is whole do they take their names, one after the
// other. So a full disk leaves nothing behind, and a reader never meets half a file.
Written write_files(const std::string& folder, const std::vector<outputs::Output>& files);

}  // namespace stk::driver
