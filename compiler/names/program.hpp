// A pattern with every file that it uses, and where each declared name stands. Nothing is worked out here.
//
// Names live in spaces that never meet: a value, a technique and a piece may share a name, because the place where a name
// stands says which is meant. A file sees what it declares itself and what the files that it uses declare, not what those
// use in turn: so a technique of a library sees its own library's lets and techniques and nothing of the pattern's. Yarns,
// sizes, editions and fabrics belong to the pattern as a whole and are seen from everywhere; machine classes and tables of
// measures of the libraries `machines` and `feet` are seen without a `use`.
#pragma once

#include <cstdint>
#include <deque>
#include <map>
#include <set>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include "compiler/names/sizes.hpp"
#include "compiler/syntax/ast.hpp"
#include "compiler/text/source.hpp"

namespace stk::names {

enum class Space : std::uint8_t {
  value,       // lets, formulas, settings, measures of the sizes
  technique,
  chart,
  piece,
  size,        // seen from everywhere
  edition,     // seen from everywhere; sizes and editions may not share a name, for `only for` takes both
  yarn,        // seen from everywhere: the yarns of all editions
  fabric,      // seen from everywhere: the names of gauges, as in rows(x, hem)
  machine,
  measures
};

struct Declaration {
  Space space;
  std::string_view name;
  text::Span span;       // of the name
  std::variant<const syntax::Let*, const syntax::Setting*, const Measure*, const syntax::Technique*, const syntax::Chart*,
               const syntax::Piece*, const SizeColumn*, const syntax::Edition*, const syntax::Yarn*,
               const syntax::Gauge*, const syntax::MachineClass*, const syntax::Measures*>
      what;

  text::FileId file() const { return span.file; }
};

struct UsedFile {
  text::FileId file;
  std::string alias;     // `use heels as h`: its names are h.short_row_heel; empty: they stand alone
  const syntax::Use* written;
  text::Span span;
};

struct LoadedFile {
  text::FileId id;
  std::string name;      // as findings show it
  bool by_name = false;  // `use heels`, not a file of the pattern's folder: what it declares need not be used
  syntax::File tree;
  std::vector<UsedFile> uses;
  // What keeps one mistake one finding: words of lines that were not understood may have declared something, and a file
  // that could not be read may have declared anything.
  std::set<std::string, std::less<>> broken_words;
  bool incomplete = false;
};

// A declaration of the whole pattern with the place where it stands.
template <class T>
struct Placed {
  const T* node;
  text::Span span;
};

class Program {
 public:
  const LoadedFile& main() const { return files_.front(); }
  const std::deque<LoadedFile>& files() const { return files_; }
  const LoadedFile* file(text::FileId id) const;

  // What a name means in a file; null if it is not known there. "h.short_row_heel" looks into the file used as h.
  const Declaration* find(text::FileId from, Space space, std::string_view name) const;
  // All names of a space that a file sees, as it would write them: for suggestions and for completion.
  std::vector<std::string> names_seen(text::FileId from, Space space) const;
  const std::deque<Declaration>& declarations() const { return declarations_; }

  // The pattern as a whole, in the order in which it is written; used files first.
  const syntax::Pattern* pattern = nullptr;
  SizesTable sizes;
  std::vector<Placed<syntax::Edition>> editions;
  std::vector<Placed<syntax::Setting>> settings;
  std::vector<Placed<syntax::Let>> lets;           // of the main file and of the pattern's own neighbours
  std::vector<Placed<syntax::Ease>> eases;
  std::vector<Placed<syntax::Floats>> floats;
  std::vector<Placed<syntax::Finished>> finished;
  std::vector<Placed<syntax::Chart>> charts;
  std::vector<Placed<syntax::Technique>> techniques;
  std::vector<Placed<syntax::Piece>> pieces;
  std::vector<Placed<syntax::Finish>> finishes;

  // Techniques that are worked, known nowhere, and yet stand in a library that no `use` line names: for the mend.
  std::map<std::string, std::string, std::less<>> techniques_elsewhere;

 private:
  friend class Loader;
  friend class Collector;

  std::deque<LoadedFile> files_;                   // the main file first; addresses stay good
  std::deque<Declaration> declarations_;
  std::deque<std::string> qualified_;              // "h.short_row_heel": what keys of aliased names point at
  using Key = std::pair<Space, std::string_view>;
  std::map<std::uint16_t, std::map<Key, const Declaration*>> by_file_;
  std::map<Key, const Declaration*> everywhere_;
};

}  // namespace stk::names
