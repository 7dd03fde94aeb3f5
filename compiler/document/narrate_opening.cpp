// The opening matter: what a knitter wants to know before the first needle is moved.
#include <fmt/core.h>

#include <algorithm>

#include "compiler/document/graded.hpp"
#include "compiler/document/matter.hpp"
#include "compiler/document/words.hpp"
#include "compiler/values/format.hpp"

namespace stk::document {

namespace {

// "foot length": what is held against a row of the sizes table bears its name.
std::string finished_words(const knit::Facts& facts, const std::string& measure) {
  const auto& names = facts.body_measure_names;
  const std::string of_foot = "foot_" + measure;
  return words_of(std::find(names.begin(), names.end(), of_foot) != names.end() ? of_foot : measure);
}

using values::Quantity;
using values::Rational;

std::vector<std::size_t> printed_sizes(const Printing& p) {
  std::vector<std::size_t> sizes;
  for (std::size_t i = 0; i < p.facts.sizes.size(); ++i) {
    if (knit::has(p.printed, i)) sizes.push_back(i);
  }
  return sizes;
}

std::string size_name(const Printing& p, std::size_t size) {
  const knit::SizeName& name = p.facts.sizes[size];
  if (name.printed.empty() && name.name.empty()) return "One size";  // a pattern without a sizes table
  return name.printed.empty() ? words_of(name.name) : name.printed;
}

Paragraph line(std::string lead, std::string text) {
  Paragraph paragraph;
  paragraph.lead = std::move(lead);
  paragraph.sentences.push_back({std::move(text)});
  return paragraph;
}

// "24.5 (9¾)": centimetres, then inches.
std::string both_measures(const std::optional<Quantity>& quantity) {
  if (!quantity) return "-";
  if (quantity->dimension != values::dimensions::length) return values::quantity_text(*quantity);
  return fmt::format("{} ({})", values::centimetres(quantity->value), values::inches(quantity->value));
}

bool any_value(const std::vector<std::optional<Quantity>>& values, knit::SizeSet printed) {
  for (std::size_t i = 0; i < values.size(); ++i) {
    if (knit::has(printed, i) && values[i]) return true;
  }
  return false;
}

template <class Cell>
void add_column(Table& table, const std::vector<std::size_t>& sizes, std::string title, Cell cell) {
  table.columns.push_back(std::move(title));
  for (std::size_t row = 0; row < sizes.size(); ++row) table.rows[row].push_back(cell(sizes[row]));
}

Table size_table(const Printing& p, std::string caption) {
  Table table;
  table.caption = std::move(caption);
  table.columns = {"Size"};
  for (const std::size_t size : printed_sizes(p)) table.rows.push_back({size_name(p, size)});
  return table;
}

std::optional<Quantity> at(const std::vector<std::optional<Quantity>>& values, std::size_t size) {
  return size < values.size() ? values[size] : std::nullopt;
}

// "50 g": a label in ounces is told in whole grams.
std::string grams_text(const Quantity& mass) {
  const Rational whole = values::nearest(mass.value);
  const bool odd = !(whole == mass.value) && whole > Rational(10);
  return kept_together(values::quantity_text(odd ? Quantity{whole, mass.dimension} : mass));
}

// Feet and finished socks in one table; in two where it would be too wide to be read at one glance.
std::vector<Table> measurements(const Printing& p) {
  constexpr std::size_t widest = 6;
  const std::vector<std::size_t> sizes = printed_sizes(p);
  Table body = size_table(p, "Measurements in cm, inches in parentheses");
  for (std::size_t row = 0; row < p.facts.body_measures.size() && row < p.facts.body_measure_names.size(); ++row) {
    const knit::Amount& values = p.facts.body_measures[row];
    if (!any_value(values, p.printed)) continue;
    add_column(body, sizes, capitalised(words_of(p.facts.body_measure_names[row])),
               [&](std::size_t size) { return both_measures(at(values, size)); });
  }
  Table finished = size_table(p, "The finished sock, in cm, inches in parentheses");
  for (const knit::MeasureFacts& measure : p.edition.measures) {
    if (!any_value(measure.finished, p.printed)) continue;
    add_column(finished, sizes, "Finished " + finished_words(p.facts, measure.name),
               [&](std::size_t size) { return both_measures(at(measure.finished, size)); });
  }
  if (body.columns.size() + finished.columns.size() > widest + 2) {
    body.caption = "The foot and leg, in cm, inches in parentheses";
    return {body, finished};
  }
  body.columns.insert(body.columns.end(), finished.columns.begin() + 1, finished.columns.end());
  for (std::size_t row = 0; row < body.rows.size(); ++row) {
    body.rows[row].insert(body.rows[row].end(), finished.rows[row].begin() + 1, finished.rows[row].end());
  }
  return {body};
}

// Whole units, upwards: nobody buys a third of a metre.
std::string whole_up(const std::optional<Quantity>& quantity, const Rational& unit) {
  if (!quantity) return "-";
  const values::Outcome<Rational> amount = values::divide(quantity->value, unit);
  return amount ? values::number_text(values::ceil(*amount)) : values::amount_text(*quantity);
}

Table yarn_and_needles(const Printing& p) {
  const std::vector<std::size_t> sizes = printed_sizes(p);
  Table table = size_table(p, "Needles and yarn");
  if (!p.edition.needles_needed.empty()) {
    add_column(table, sizes, "Needles in use", [&](std::size_t size) {
      return size < p.edition.needles_needed.size() ? fmt::format("{}", p.edition.needles_needed[size]) : "-";
    });
  }
  for (const knit::YarnFacts& yarn : p.edition.yarns) {
    const std::string code = p.yarns.at(yarn.name).code;
    if (any_value(yarn.length, p.printed)) {
      add_column(table, sizes, code + ", m",
                 [&](std::size_t size) { return whole_up(at(yarn.length, size), Rational(1000)); });
    }
    if (any_value(yarn.mass, p.printed)) {
      add_column(table, sizes, code + ", g",
                 [&](std::size_t size) { return whole_up(at(yarn.mass, size), Rational(1)); });
    }
    if (yarn.ball && any_value(yarn.balls, p.printed)) {
      add_column(table, sizes, fmt::format("{}, balls of {}", code, grams_text(*yarn.ball)),
                 [&](std::size_t size) { return whole_up(at(yarn.balls, size), Rational(1)); });
    }
  }
  return table;
}

Quantity rounded_tex(const Quantity& count) {  // 238.1 tex is finer than anybody spins
  const values::Outcome<Rational> tex = values::amount_in(count, *values::find_unit("tex"));
  const values::Outcome<Quantity> whole =
      tex ? values::in_unit(values::nearest(*tex), *values::find_unit("tex")) : values::Outcome<Quantity>(tex.reason());
  return whole ? *whole : count;
}

// "420 m to 100 g (238 tex), 2 (2, 3) balls of 50 g"
std::string count_and_stock(const Printing& p, const knit::YarnFacts& yarn) {
  std::string text;
  if (yarn.label_length && yarn.label_mass) {
    const values::Outcome<Rational> metres = values::divide(yarn.label_length->value, Rational(1000));
    if (metres) {
      text += ", " + kept_together(fmt::format("{} m to {}", values::number_text(*metres > Rational(10) ? values::nearest(*metres) : *metres),
                                               grams_text(*yarn.label_mass)));
    }
    if (yarn.count) text += " (" + kept_together(values::quantity_text(rounded_tex(*yarn.count))) + ")";
  } else if (yarn.count) {
    text += ", " + kept_together(values::quantity_text(rounded_tex(*yarn.count)));
  }
  if (yarn.ball && any_value(yarn.balls_stated, p.printed)) {
    PerSize balls(p.facts.sizes.size());
    for (std::size_t i = 0; i < balls.size(); ++i) {
      if (const std::optional<Quantity> stated = at(yarn.balls_stated, i)) balls[i] = values::number_text(stated->value);
    }
    text += ", " + counted(balls, "ball", p.printed, p.printed) + " of " +
            grams_text(*yarn.ball);
  }
  return text;
}

// "The yarn is for the pair: its loops, tails and seams, and a tenth more."
void how_reckoned(const Printing& p, Paragraph& paragraph) {
  const bool pairs = !p.edition.pieces.empty() &&
                     std::all_of(p.edition.pieces.begin(), p.edition.pieces.end(),
                                 [](const knit::PieceFacts& piece) { return piece.make == 2; });
  bool waste = false;
  std::string margins;
  for (const knit::YarnFacts& yarn : p.edition.yarns) {
    if (!any_value(yarn.length, p.printed)) continue;
    waste = waste || yarn.waste;
    const std::string margin = values::percent(yarn.margin.value) + std::string(no_break) + "%";
    if (margins.find(margin) == std::string::npos) margins += (margins.empty() ? "" : " and ") + margin;
  }
  paragraph.sentences.push_back({fmt::format("The yarn is for {}: loops, tails and seams, worked out from the gauge, and "
                                             "{} over.",
                                             pairs ? "the pair" : "all that is made here", margins)});
  paragraph.sentences.push_back({waste ? "A swatch comes on top; waste yarn can be used again." : "A swatch comes on top."});
}

std::string per_10_cm(const Quantity& gauge) {  // base units: sts to the mm
  const values::Outcome<Rational> amount = values::multiply(gauge.value, Rational(100));
  return amount ? values::number_text(*amount, 1) : values::amount_text(gauge);
}
std::string per_inch(const Quantity& gauge) {
  const values::Outcome<Rational> amount = values::multiply(gauge.value, Rational::of(127, 5));
  return amount ? values::number_text(*amount, 1) : values::amount_text(gauge);
}

std::string gauge_text(const knit::GaugeFacts& gauge) {
  std::string text = gauge.fabric.empty() ? "" : capitalised(words_of(gauge.fabric)) + ": ";
  text += fmt::format("{}{}sts and {}{}rows to 10{}cm ({}{}sts and {}{}rows to the inch), ", per_10_cm(gauge.stitches),
                      no_break, per_10_cm(gauge.rows), no_break, no_break, per_inch(gauge.stitches), no_break,
                      per_inch(gauge.rows), no_break);
  return text + fmt::format("washed, knitted at {}.", tension_word(gauge.tension_hundredths));
}

std::string machine_text(const knit::MachineFacts& machine) {
  std::string text = machine.printed.empty() ? words_of(machine.name) : machine.printed;
  text = capitalised(std::move(text));
  if (machine.pitch) {
    const values::Outcome<Rational> mm = values::divide(machine.pitch->value, Rational(1));
    if (mm) text += fmt::format(", {}{}mm from needle to needle", values::number_text(*mm), no_break);
  }
  if (machine.needles > 0) text += fmt::format(", {}{}needles on the bed", machine.needles, no_break);
  if (machine.beds > 1) text += ", with the second bed";
  return text + ".";
}

// An edition may name yarns that this pattern has no use for; they are not asked of the knitter.
bool is_used(const knit::YarnFacts& yarn, const Printing& p, const std::string& instructions) {
  return any_value(yarn.length, p.printed) || has_word(instructions, p.yarns.at(yarn.name).code);
}

void materials(const Printing& p, const std::string& instructions, std::vector<Block>& blocks) {
  blocks.push_back(Heading{1, "Materials", ""});
  List list;
  list.items.push_back(line("Machine", machine_text(p.edition.machine)));
  for (const knit::YarnFacts& yarn : p.edition.yarns) {
    if (!is_used(yarn, p, instructions)) continue;
    const YarnWord& word = p.yarns.at(yarn.name);
    std::string text = yarn.description + count_and_stock(p, yarn);
    if (text.starts_with(", ")) text.erase(0, 2);
    list.items.push_back(line(fmt::format("{} ({})", capitalised(word.meaning), word.code), text + "."));
  }
  for (const knit::GaugeFacts& gauge : p.edition.gauges) list.items.push_back(line("Gauge", gauge_text(gauge)));
  if (const auto words = tools(p.edition, p.printed); !words.empty()) {
    list.items.push_back(line("Tools", capitalised(joined(words)) + "."));
  }
  blocks.push_back(std::move(list));
  Table table = yarn_and_needles(p);
  if (table.columns.size() < 2) return;
  const bool yarn = table.columns.size() > (p.edition.needles_needed.empty() ? 1U : 2U);
  blocks.push_back(std::move(table));
  if (!yarn) return;
  Paragraph paragraph;
  how_reckoned(p, paragraph);
  blocks.push_back(std::move(paragraph));
}

// A `-` that stands for a number.
bool uses_dash(const std::string& text) {
  const std::string before_all = std::string(no_break);
  for (std::size_t at = text.find('-'); at != std::string::npos; at = text.find('-', at + 1)) {
    const bool opens =
        at == 0 || text[at - 1] == ' ' || text[at - 1] == '(' || (at >= 2 && text.compare(at - 2, 2, before_all) == 0);
    const std::size_t end = at + 1;
    const bool closes = end == text.size() || std::string_view(" ,).").find(text[end]) != std::string_view::npos ||
                        text.compare(end, 2, before_all) == 0;
    if (opens && closes) return true;
  }
  return false;
}

// Tuck and slip are told by what the needles do: how a machine is told to do it is common practice and differs.
std::string on_selecting(const std::string& text) {
  const bool tuck = has_word(text, "set to tuck"), slip = has_word(text, "set to slip");
  if (!tuck && !slip) return {};
  return fmt::format("Machines differ in how needles are set to {}: on many, those that are not selected do it, so select the "
                     "others. Where a card or a screen selects them, the row before these rows is the selecting row.",
                     tuck && slip ? "tuck or slip" : tuck ? "tuck" : "slip");
}

// Whose measures these are: the person's, those that follow from them, and what is left of the size.
void made_to_measure(const knit::ToMeasureFacts& made, std::vector<Block>& blocks) {
  const auto list = [](const std::vector<std::string>& names) {
    std::vector<std::string> words;
    for (const std::string& name : names) words.push_back("the " + words_of(name));
    return joined(words);
  };
  Paragraph paragraph;
  paragraph.sentences.push_back(
      {fmt::format("{} {} given for one person.", capitalised(list(made.given)),
                   made.given.size() == 1 ? "was" : "were")});
  if (!made.worked_out.empty()) {
    const bool one = made.worked_out.size() == 1;
    paragraph.sentences.push_back(
        {fmt::format("{} {} worked out anew.", capitalised(list(made.worked_out)), one ? "is" : "are")});
  }
  const std::string size = fmt::format("{}, the size that {}", made.base, made.chosen ? "was chosen" : "comes nearest");
  const std::string rest = "every other number that does not follow from the measures";
  if (made.taken.empty()) {
    paragraph.sentences.push_back({fmt::format("{} is that of {}.", capitalised(rest), size)});
  } else {
    paragraph.sentences.push_back({fmt::format("{} {} of {}, and so is {}.", capitalised(list(made.taken)),
                                               made.taken.size() == 1 ? "is that" : "are those", size, rest)});
  }
  blocks.push_back(std::move(paragraph));
}

void how_to_read(const Printing& p, const std::string& text, std::vector<Block>& blocks) {
  const std::vector<std::size_t> sizes = printed_sizes(p);
  if (sizes.size() > 1) {
    PerSize names(p.facts.sizes.size());
    for (const std::size_t size : sizes) names[size] = kept_together(size_name(p, size));
    Paragraph paragraph;
    paragraph.lead = "Sizes";
    paragraph.sentences.push_back({graded(names, p.printed, p.printed) + "."});
    paragraph.sentences.push_back(
        {"Directions for the first size come first, the others in parentheses; a single number "
         "applies to all sizes."});
    if (uses_dash(text)) paragraph.sentences.push_back({"A dash (-) means: not for this size."});
    blocks.push_back(std::move(paragraph));
  } else if (sizes.size() == 1 && !p.facts.sizes[sizes[0]].name.empty()) {
    blocks.push_back(line("Size", size_name(p, sizes[0]) + "."));
    if (p.facts.to_measure && p.facts.to_measure->size == sizes[0]) made_to_measure(*p.facts.to_measure, blocks);
  }
}

}  // namespace

std::vector<Block> opening(const Printing& p, const std::vector<Block>& instructions) {
  std::vector<Block> blocks;
  if (!p.facts.pattern.summary.empty()) blocks.push_back(line("", p.facts.pattern.summary));
  const std::string text = text_of(instructions);
  how_to_read(p, text, blocks);
  for (Table& table : measurements(p)) {
    if (table.columns.size() > 1) blocks.emplace_back(std::move(table));
  }
  materials(p, text, blocks);

  if (const std::vector<Definition> words = abbreviations(p, instructions); !words.empty()) {
    blocks.push_back(Heading{1, "Abbreviations", ""});
    Definitions definitions{words};
    if (text.find("Repeat from") != std::string::npos) {
      definitions.entries.push_back({"*", "begins what is repeated; “times in all” counts the first time too"});
    }
    blocks.push_back(std::move(definitions));
  }

  blocks.push_back(Heading{1, "Before you begin", ""});
  List notes;
  for (const std::string& note : p.facts.pattern.notes) notes.items.push_back(line("", note));
  notes.items.push_back(line("", "Left and right are yours as you sit at the machine, the purl side towards you."));
  if (const std::string told = on_selecting(text); !told.empty()) notes.items.push_back(line("", told));
  blocks.push_back(std::move(notes));
  for (const std::string& text_of_caution : cautions(p)) {
    Remark remark;
    remark.caution = true;
    remark.text.sentences.push_back({text_of_caution});
    blocks.push_back(std::move(remark));
  }
  return blocks;
}

}  // namespace stk::document
