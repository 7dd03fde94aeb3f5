#include "compiler/knit/run.hpp"

#include <algorithm>
#include <optional>

#include "compiler/knit/fabric_checks.hpp"
#include "compiler/knit/knitter.hpp"
#include "compiler/knit/measures.hpp"
#include "compiler/knit/mirror.hpp"
#include "compiler/knit/one_sock.hpp"
#include "compiler/knit/prose.hpp"
#include "compiler/knit/pairs.hpp"
#include "compiler/knit/twists.hpp"
#include "compiler/knit/unsewn.hpp"
#include "compiler/knit/yarns.hpp"
#include "compiler/values/format.hpp"

namespace stk::knit {
namespace {

using findings::Code;

// The texts of the pattern block: known fields by name, the others in order.
PatternFacts pattern_facts(const names::Program& program, grade::Evaluator& evaluator, findings::Findings& findings, const Sites& sites) {
  PatternFacts facts;
  if (!program.pattern) return facts;
  grade::Frame frame{nullptr, program.main().id, {}};
  const auto text = [&](const syntax::ExprPtr& expr) {
    return expr ? evaluator.text(*expr, frame, grade::all_sizes(evaluator.sizes()))[0] : std::string();
  };
  facts.title = text(program.pattern->title);
  for (const syntax::Field& field : program.pattern->fields)
    for (const syntax::ExprPtr& expr : field.texts) {
      const std::string value = text(expr);
      const std::string& name = field.name.text;
      if (name == "by") facts.by = value;
      else if (name == "version") facts.version = value;
      else if (name == "summary") facts.summary = value;
      else if (name == "note") facts.notes.push_back(value);
      else if (name == "caution") facts.cautions.push_back(value);
      else facts.other.emplace_back(name, value);
      // A summary speaks of ages and repeats in words; what is told to do stands in notes and cautions.
      if (expr && (name == "note" || name == "caution")) check_prose(*expr, findings, sites);
    }
  return facts;
}

// Findings of the mirrored run that the first run has already are not said twice.
void add_mirrored(const findings::Findings& mirrored, findings::Findings& findings) {
  const std::vector<findings::Finding> first = findings.all();
  for (findings::Finding finding : mirrored.all()) {
    const bool known = std::any_of(first.begin(), first.end(), [&](const findings::Finding& f) {
      return f.code == finding.code && f.primary == finding.primary;
    });
    if (known) continue;
    finding.mirrored = true;
    findings.add(std::move(finding));
  }
}

EditionFacts knit_edition(const names::Program& program, std::uint16_t index, const RunOptions& options, Sites& sites,
                          findings::Findings& findings) {
  EditionFacts facts;
  grade::Evaluator evaluator(program, index, options.settings, findings);
  const EditionSetup setup = set_up(program, evaluator, findings);
  facts.name = setup.name;
  facts.machine = setup.machine;
  for (const grade::FabricGauge& gauge : evaluator.gauges())
    facts.gauges.push_back({gauge.fabric, gauge.stitches, gauge.rows, gauge.tension_hundredths});
  // Every let of the pattern is worked out, used or not: what is wrong with it is wrong.
  for (const names::Placed<syntax::Let>& placed : program.lets) {
    if (placed.node->has_parameters) continue;
    const auto value = evaluator.pattern_value(placed.span.file, placed.node->name.text);
    if (!value) continue;
    VariableFacts variable{placed.node->name.text, {}};
    for (std::size_t i = 0; i < evaluator.sizes(); ++i) variable.values.push_back(grade::text_of((*value)[i]));
    facts.variables.push_back(std::move(variable));
  }
  for (const names::Placed<syntax::Setting>& placed : program.settings) evaluator.pattern_value(placed.span.file, placed.node->name.text);
  if (!setup.good) return facts;
  check_fabric(setup, evaluator, findings);

  const bool any_mirrored = std::any_of(program.pieces.begin(), program.pieces.end(),
                                        [](const names::Placed<syntax::Piece>& p) { return p.node->second_mirrored; });
  Knitter first(program, setup, evaluator, sites, findings, false);
  std::vector<Knitter::KnittedPiece> pieces = first.pieces();
  facts.finish = first.finish();
  facts.yarns = yarn_facts(first, setup, evaluator, pieces);
  grade::SizeSet whole = 0;
  for (std::size_t i = 0; i < first.benches().size(); ++i)
    if (!first.benches()[i]->lost) whole |= grade::size_bit(i);
  check_stock(program, setup, facts.yarns, whole, findings);
  for (const Bench* bench : first.benches()) facts.needles_needed.push_back(bench->most_needles);
  for (Knitter::KnittedPiece& piece : pieces)
    facts.pieces.push_back({piece.piece->name.text, piece.make, piece.piece->second_mirrored, std::move(piece.steps), {}, false});
  if (any_mirrored) {
    findings::Findings apart;
    Knitter second(program, setup, evaluator, sites, apart, true);
    std::vector<Knitter::KnittedPiece> again = second.pieces();
    second.finish();
    add_mirrored(apart, findings);
    for (std::size_t p = 0; p < again.size(); ++p)
      if (facts.pieces[p].second_mirrored) {
        facts.pieces[p].mirrored = std::move(again[p].steps);
        mirror_words(facts.pieces[p].mirrored);
        facts.pieces[p].mirrors_exactly = mirrors_exactly(facts.pieces[p].first, facts.pieces[p].mirrored);
      }
  }
  facts.measures = measure_facts(program, evaluator, findings);
  check_sewn(program, first, facts.pieces, findings, index);
  check_one_sock(program, findings, index);
  check_partners(program, first, facts.pieces, findings, index);
  check_pairs(program, first, facts.pieces, findings, index);
  check_twists(first, findings, index);
  // A size that was left must have been told why: nothing is ever written from half a record.
  grade::SizeSet left = 0;
  for (std::size_t i = 0; i < first.benches().size(); ++i)
    if (first.benches()[i]->lost) left |= grade::size_bit(i);
  if (left && !findings.has_errors())
    findings.report<Code::F22>(program.pieces.empty() ? text::Span{} : program.pieces.front().node->name.span)
        .label("some of its steps could not be worked out").at(index, left);
  return facts;
}

std::optional<ToMeasureFacts> to_measure_facts(const names::SizesTable& sizes) {
  if (!sizes.made) return std::nullopt;
  ToMeasureFacts facts{sizes.made->size, sizes.made->base, sizes.made->chosen, {}, {}, {}};
  for (const names::Measure& measure : sizes.measures)
    (measure.given ? facts.given : measure.formula ? facts.worked_out : facts.taken).push_back(measure.name);
  return facts;
}

// Two neighbouring sizes that come out alike in every let of counts, in every edition: the rounding made one of two.
void check_sizes_apart(const names::Program& program, const Facts& facts, findings::Findings& findings) {
  std::string pairs;
  std::optional<std::size_t> first;
  for (std::size_t i = 0; i + 1 < facts.sizes.size(); ++i) {
    bool counted = false;
    const bool alike = !facts.editions.empty() && std::all_of(facts.editions.begin(), facts.editions.end(), [&](const EditionFacts& e) {
      return std::all_of(e.variables.begin(), e.variables.end(), [&](const VariableFacts& v) {
        if (v.values[i] == "?") return false;
        counted = counted || v.values[i].find(" sts") != std::string::npos || v.values[i].find(" row") != std::string::npos;
        return v.values[i] == v.values[i + 1];
      });
    });
    if (!alike || !counted) continue;
    if (!first) first = i + 1;
    pairs += (pairs.empty() ? "" : "; ") + facts.sizes[i].printed + " and " + facts.sizes[i + 1].printed;
  }
  if (first)
    findings.report<Code::G21>(program.sizes.columns[*first].span).label("the same counts everywhere: {}", pairs)
        .help("a smaller step of rounding keeps them apart, or one size serves both");
}

}  // namespace

Facts knit(const names::Program& program, const RunOptions& options, findings::Findings& findings) {
  Facts facts;
  std::vector<bool> library;
  for (const names::LoadedFile& file : program.files()) {
    if (file.id.value >= library.size()) library.resize(file.id.value + 1u, false);
    library[file.id.value] = file.by_name;
  }
  Sites sites(std::move(library));
  for (const names::SizeColumn& column : program.sizes.columns) facts.sizes.push_back({column.name, column.printed});
  for (std::size_t e = 0; e < program.editions.size(); ++e) {
    if (e == 0) {
      grade::Evaluator evaluator(program, 0, options.settings, findings);
      facts.pattern = pattern_facts(program, evaluator, findings, sites);
      for (const names::Measure& measure : program.sizes.measures)
        if (const auto value = evaluator.pattern_value(program.main().id, measure.name)) {
          Amount row;
          for (std::size_t i = 0; i < evaluator.sizes(); ++i) {
            const values::Quantity* q = value->quantity(i);
            row.push_back(q ? std::optional(*q) : std::nullopt);
          }
          facts.body_measures.push_back(std::move(row));
          facts.body_measure_names.push_back(measure.name);
        }
    }
    facts.editions.push_back(knit_edition(program, static_cast<std::uint16_t>(e), options, sites, findings));
  }
  if (program.pattern && program.editions.empty() && !program.pieces.empty())
    findings.report<Code::G25>(program.pieces.front().span).label("nothing says on which machine, with which yarn and gauge")
        .help("`edition mid {{ … }}` with a `machine`, a `yarn main` and a `gauge`");
  facts.to_measure = to_measure_facts(program.sizes);
  if (!facts.to_measure) check_sizes_apart(program, facts, findings);   // one person may well have the measures of a size
  return facts;
}

}  // namespace stk::knit
