// Names of output files.
#pragma once

#include <string>
#include <string_view>

#include "compiler/document/document.hpp"
#include "compiler/outputs/backend.hpp"

namespace stk::outputs {

// "Slack Water house sock": "slack-water-house-sock"; accents fall away, anything else becomes a hyphen.
std::string slug(std::string_view text);

std::string output_path(const OutputOptions& options, const document::Document& document, std::string_view format);
// In charts/ beside the text: "charts/slack-water-house-sock.mid.chart-1.svg".
std::string chart_path(const OutputOptions& options, const document::Document& document, std::size_t number,
                       std::string_view extension);
// How a file at `from` links to one at `to`.
std::string relative_path(std::string_view from, std::string_view to);

}  // namespace stk::outputs
