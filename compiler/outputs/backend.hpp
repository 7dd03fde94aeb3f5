// The one interface of all formats. A back end lays out a Document (or reads Facts, for numbers and charts) and returns
// files in memory: it reports no findings, reads no files, knows no clock and no locale, and gives the same bytes on
// every run. Whoever called it writes them to disk.
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "compiler/document/document.hpp"
#include "compiler/knit/facts.hpp"

namespace stk::outputs {

struct Output {
  std::string path;  // relative to the output folder, with `/`, never leading outside it
  std::string bytes;
};

struct OutputOptions {
  // The name of a file, by these words in braces:
  //   {style}    the pattern's title in small letters with hyphens: slack-water
  //   {edition}  the edition's name: mid
  //   {size}     the size's name in the text of one size, else nothing
  //   {format}   what kind of file it is: txt, md, chart-1.svg
  // A part between two dots that comes to nothing is left out with its dot: slack-water-house-sock.mid.txt. `/` makes
  // folders. Charts lie in charts/ beside the text.
  std::string path_template = "{style}.{edition}.{size}.{format}";
};

// Stateless and const: one may be used from several threads at once.
class Backend {
 public:
  virtual ~Backend() = default;
  virtual std::string_view name() const = 0;     // "markdown", the word after --to
  virtual std::string_view summary() const = 0;  // one line for --help
  // One edition, in all sizes or in one: call it for each that is wanted. Two back ends may give the same file
  // (Markdown brings the charts it shows); files of one path then have the same bytes.
  virtual std::vector<Output> write(const knit::Facts& facts, const document::Document& document,
                                    const OutputOptions& options) const = 0;
};

std::span<const Backend* const> backends();          // the list stands in backends.cpp
const Backend* find_backend(std::string_view name);  // null if there is none

}  // namespace stk::outputs
