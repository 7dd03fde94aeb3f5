#include "compiler/names/sizes_table.hpp"

#include <algorithm>

#include "compiler/findings/suggest.hpp"
#include "compiler/text/limits.hpp"

namespace stk::names {

using findings::Code;
using findings::Confidence;

namespace {

using Cell = std::variant<syntax::SizeValue, syntax::Text>;

bool has_texts(const syntax::TableRow& row) {
  return std::any_of(row.cells.begin(), row.cells.end(),
                     [](const Cell& cell) { return std::holds_alternative<syntax::Text>(cell); });
}
bool has_numbers(const syntax::TableRow& row) {
  return std::any_of(row.cells.begin(), row.cells.end(),
                     [](const Cell& cell) { return std::holds_alternative<syntax::SizeValue>(cell); });
}

std::string plain_text(const syntax::Text& text) {
  std::string whole;
  for (const syntax::TextPiece& piece : text.pieces) whole += piece.literal;
  return whole;
}

// "women_l", or "women_l and men_l", or "women_l, men_m and 3 more"
std::string listed(const std::vector<syntax::Name>& columns, std::size_t from) {
  std::string list;
  const std::size_t left = columns.size() - from;
  const std::size_t shown = left > 4 ? 3 : left;
  for (std::size_t i = 0; i < shown; ++i) {
    if (i > 0) list += i + 1 == left ? " and " : ", ";
    list += columns[from + i].text;
  }
  if (shown < left) list += " and " + std::to_string(left - shown) + " more";
  return list;
}

// The columns of one table: no name twice, not too many. What goes beyond the limit is left out of the table.
std::vector<syntax::Name> checked_columns(const std::vector<syntax::Name>& columns, text::Span span,
                                          findings::Findings& findings) {
  std::vector<syntax::Name> kept;
  if (columns.empty()) {
    findings.report<Code::G09>(span)
        .label("no column stands here")
        .help("name the sizes in the first line of the table, or leave the table out for a pattern in one size");
  }
  for (const syntax::Name& column : columns) {
    const auto twice = std::find_if(kept.begin(), kept.end(), [&](const auto& k) { return k.text == column.text; });
    if (twice != kept.end()) {
      findings.report<Code::G02>(column.span, column.text)
          .label("again here")
          .label(twice->span, "the first")
          .help("give each size a name of its own");
    }
    kept.push_back(column);  // also a second one: the rows below have a value for it
  }
  if (columns.size() > text::limits::sizes) {
    findings.report<Code::G03>(columns[text::limits::sizes].span, text::limits::sizes)
        .label("size {} of {}", text::limits::sizes + 1, columns.size())
        .help("divide the sizes over two patterns that share their lets");
  }
  return kept;
}

bool check_row(const syntax::TableRow& row, const std::vector<syntax::Name>& columns, findings::Findings& findings) {
  if (row.formula) return true;
  bool good = true;
  const std::size_t cells = row.cells.size(), wanted = columns.size();
  if (cells < wanted) {
    good = false;
    const text::Span where = row.cell_spans.empty() ? row.name.span : text::cover(row.name.span, row.cell_spans.back());
    findings.report<Code::G01>(where, row.name.text)
        .label("{} of {} values: none is left for {}", cells, wanted, listed(columns, cells))
        .label(columns[cells].span, "no value for this size")
        .help("put in what is missing, or `-` for a size that has none");
  } else if (cells > wanted) {
    good = false;
    findings.report<Code::G01>(row.cell_spans[wanted], row.name.text)
        .label("{} values for {} sizes: the first too many", cells, wanted)
        .help("take out what is too much, or name one more size in the first line of the table");
  }
  if (has_texts(row) && has_numbers(row)) {
    good = false;
    findings.report<Code::G07>(row.name.span, row.name.text)
        .label("texts and numbers stand in this row")
        .help("a row holds numbers, or is the row `printed` with the sizes' names");
  }
  return good;
}

void check_printed(const syntax::TableRow& row, findings::Findings& findings) {
  const bool is_printed = row.name.text == "printed";
  if (is_printed == has_texts(row)) return;
  auto builder = findings.report<Code::G08>(row.name.span, row.name.text);
  if (is_printed && row.formula) {
    builder.label("the sizes' names are worked out here")
        .help("write them in quotes: printed \"Child M\" \"Women M\"; a row such as `shoe = …` prints a number beside them");
  } else if (is_printed) {
    builder.label("numbers stand here").help("write the sizes' names in quotes: printed \"Child M\" \"Women M\"");
  } else {
    builder.label("texts stand here").help("call the row of the sizes' names `printed`");
  }
}

Measure own_measure(const syntax::TableRow& row, std::size_t sizes) {
  Measure measure{row.name.text, row.name.span, {}, nullptr, row.unit ? &*row.unit : nullptr, nullptr, &row, {}};
  measure.cells.resize(sizes, nullptr);
  measure.formula = row.formula.get();
  for (std::size_t i = 0; i < std::min(sizes, row.cells.size()); ++i) {
    measure.cells[i] = std::get_if<syntax::SizeValue>(&row.cells[i]);
  }
  return measure;
}

// One row of a library's table, its columns picked by the names of the pattern's sizes.
Measure taken_measure(const syntax::Name& name, const syntax::TableRow& row, const syntax::Measures& table,
                      const std::vector<SizeColumn>& sizes) {
  Measure measure{row.name.text, name.span, {}, nullptr, row.unit ? &*row.unit : nullptr, &table, &row, {}};
  for (const SizeColumn& size : sizes) {
    const syntax::SizeValue* cell = nullptr;
    for (std::size_t i = 0; i < std::min(table.columns.size(), row.cells.size()); ++i) {
      if (table.columns[i].text == size.name) cell = std::get_if<syntax::SizeValue>(&row.cells[i]);
    }
    measure.cells.push_back(cell);
  }
  return measure;
}

std::vector<std::string> texts(const std::vector<syntax::Name>& names) {
  std::vector<std::string> result;
  for (const syntax::Name& name : names) result.push_back(name.text);
  return result;
}

void check_sizes_in(const syntax::FromRow& from, const syntax::Measures& table, const std::vector<SizeColumn>& sizes,
                    findings::Findings& findings) {
  const std::vector<std::string> known = texts(table.columns);
  for (const SizeColumn& size : sizes) {
    if (std::find(known.begin(), known.end(), size.name) != known.end()) continue;
    auto builder = findings.report<Code::G04>(size.span, table.name.text, size.name);
    builder.label("this size").label(from.table.span, "is looked up in this table");
    if (const auto near = findings::nearest_word(size.name, known)) {
      builder.help("the nearest is `{}`", near->word);
      // Never certain: the size's name stands in other places too.
      builder.edit(size.span, near->word, Confidence::likely);
    } else {
      builder.help("its sizes are {}; for others write the measures out as rows of this table",
                   listed(table.columns, 0));
    }
  }
}

void take_from(const syntax::FromRow& from, const FindMeasures& find, SizesTable& result,
               findings::Findings& findings) {
  const syntax::Measures* table = find(from.table);
  if (!table) return;
  check_sizes_in(from, *table, result.columns, findings);
  for (const syntax::Name& name : from.columns) {
    const auto row = std::find_if(table->rows.begin(), table->rows.end(),
                                  [&](const syntax::TableRow& r) { return r.name.text == name.text; });
    if (row != table->rows.end()) {
      result.measures.push_back(taken_measure(name, *row, *table, result.columns));
      continue;
    }
    std::vector<std::string> known;
    for (const syntax::TableRow& r : table->rows) known.push_back(r.name.text);
    auto builder = findings.report<Code::G06>(name.span, table->name.text, name.text);
    builder.label("no such measure in `{}`", table->name.text);
    if (const auto near = findings::nearest_word(name.text, known)) {
      builder.help("the nearest is `{}`", near->word);
      builder.edit(name.span, near->word, near->certain ? Confidence::certain : Confidence::likely);
    }
  }
}

}  // namespace

SizesTable one_size() {
  SizesTable table;
  table.columns.emplace_back();
  return table;
}

SizesTable sizes_table(const Placed<syntax::Sizes>& sizes, const FindMeasures& find, findings::Findings& findings) {
  SizesTable result;
  const std::vector<syntax::Name> columns = checked_columns(sizes.node->columns, sizes.span, findings);
  if (columns.empty()) return one_size();
  result.declared = true;
  result.span = sizes.span;
  for (std::size_t i = 0; i < std::min<std::size_t>(columns.size(), text::limits::sizes); ++i) {
    result.columns.push_back({columns[i].text, columns[i].span, columns[i].text});
  }
  for (const syntax::TableRow& row : sizes.node->rows) {
    if (check_row(row, columns, findings)) check_printed(row, findings);
    if (row.name.text != "printed") {
      result.measures.push_back(own_measure(row, result.columns.size()));
      continue;
    }
    for (std::size_t i = 0; i < std::min(result.columns.size(), row.cells.size()); ++i) {
      if (const auto* text = std::get_if<syntax::Text>(&row.cells[i])) result.columns[i].printed = plain_text(*text);
    }
  }
  for (const syntax::FromRow& from : sizes.node->from) take_from(from, find, result, findings);
  return result;
}

void check_measures(const syntax::Measures& measures, findings::Findings& findings) {
  const std::vector<syntax::Name> columns = checked_columns(measures.columns, measures.name.span, findings);
  if (columns.empty()) return;
  for (const syntax::TableRow& row : measures.rows) {
    // What is measured is written down; what follows from it is the pattern's to work out.
    if (row.formula) {
      findings.report<Code::G08>(row.name.span, row.name.text)
          .label("worked out in a table of measures")
          .help("put it into the `sizes` of the pattern, where rows may be worked out");
    } else if (check_row(row, columns, findings)) {
      check_printed(row, findings);
    }
  }
}

}  // namespace stk::names
