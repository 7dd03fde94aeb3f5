// The neutral document: what a reader gets, before any format. All sentences are built here, once; text, Markdown, HTML
// and PDF only lay them out, so they cannot disagree.
//
//   Document
//   ├─ title block
//   ├─ blocks: Heading | Paragraph | Table | List | Definitions | Remark | ChartReference
//   └─ charts: referred to by index
//
// Text is UTF-8, as it is meant to be read: nothing is escaped. U+00A0 stands where a line must not break ("RC 016",
// "48 (52"); a back end that has no such character prints a blank there. A sentence ends with its full stop. No block
// knows a width, a font or a colour.
#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <variant>
#include <vector>

#include "compiler/document/chart.hpp"
#include "compiler/knit/facts.hpp"

namespace stk::document {

struct Title {
  std::string name;     // Slack Water house sock
  std::string by;       // Tidewrack Hosiery
  std::string version;  // 1.2
  std::string edition;  // mid
  std::string size;     // Women M, in the text of one size; else empty
  std::string summary;
};

struct Heading {
  int level = 1;      // 1: a part (Materials, a piece); 2: a section of a piece
  std::string text;   // never holds a graded number
  std::string aside;  // what helps to find the place: "sizes Women L and Men L only"; printed after it
};

struct Sentence {
  std::string text;
};
struct Paragraph {
  std::string lead;  // "Narrow", "All sizes": printed before the sentences, with a colon, set off where possible
  std::vector<Sentence> sentences;
};

struct Table {
  std::string caption;
  std::vector<std::string> columns;
  std::vector<std::vector<std::string>> rows;  // the first cell names the row; numbers stand right
};

struct List {
  std::vector<Paragraph> items;
};

struct Definition {
  std::string term;     // NWP
  std::string meaning;  // non-working position: …
};
struct Definitions {
  std::vector<Definition> entries;
};

struct Remark {  // stands where it is needed, set off from the steps
  bool caution = false;
  Paragraph text;
};

struct ChartReference {   // the best place for the picture; the sentence before says "chart 1" already
  std::size_t chart = 0;  // index into Document::charts
};

using Block = std::variant<Heading, Paragraph, Table, List, Definitions, Remark, ChartReference>;

struct Document {
  Title title;
  std::string edition;      // its name in the source, for paths
  std::string size;         // the size's name in the source in the text of one size; else empty
  knit::SizeSet sizes = 0;  // printed here
  std::vector<Block> blocks;
  std::vector<Chart> charts;
};

}  // namespace stk::document
