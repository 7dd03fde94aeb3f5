// Every chart of a document in two files: SVG, and plain characters with the chart in words.
#include "compiler/outputs/chart_svg.hpp"
#include "compiler/outputs/chart_text.hpp"
#include "compiler/outputs/formats.hpp"
#include "compiler/outputs/paths.hpp"
#include "compiler/text/columns.hpp"

namespace stk::outputs {

namespace {

class ChartsBackend final : public Backend {
 public:
  std::string_view name() const override { return "charts"; }
  std::string_view summary() const override { return "charts of needles, colours and short rows, each as SVG and as plain text"; }
  std::vector<Output> write(const knit::Facts&, const document::Document& document,
                            const OutputOptions& options) const override {
    constexpr std::size_t page_width = 80;
    std::vector<Output> outputs;
    for (const document::Chart& chart : document.charts) {
      outputs.push_back({chart_path(options, document, chart.number, "svg"), chart_svg(chart)});
      std::string text;
      for (const std::string& line : chart_lines(chart, page_width)) text += line + "\n";
      text += "\n";
      for (const std::string& line : text::wrapped(chart.alternative, page_width)) text += line + "\n";
      outputs.push_back({chart_path(options, document, chart.number, "txt"), text});
    }
    return outputs;
  }
};

}  // namespace

const Backend& charts_backend() {
  static const ChartsBackend backend;
  return backend;
}

}  // namespace stk::outputs
