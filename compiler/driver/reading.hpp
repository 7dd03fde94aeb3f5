// From a file's name to what was found in it: the part that `check` and `build` share.
#pragma once

#include <optional>
#include <string>

#include "compiler/driver/options.hpp"
#include "compiler/service/session.hpp"

namespace stk::driver {

service::Options options_of(const Selected& selected);

// Reads and checks one file. Nothing if it could not be read, or if the options do not fit it; that has been said on
// standard error then.
std::optional<service::Checked> read_and_check(const std::string& file, const Selected& selected);

// "made to measure from Women M: given foot_length; of Women M leg_length"; empty for a pattern in its own sizes.
std::string to_measure_line(const service::Checked& checked);

}  // namespace stk::driver
