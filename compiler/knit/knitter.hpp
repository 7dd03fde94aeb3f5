// Knitting a pattern: statements run from top to bottom, all sizes side by side, each size on its own machine; what comes
// out is one tree of graded steps (facts.hpp).
//
//   blocks.cpp        sections, lets, branches, repeats, technique calls, texts
//   expectations.cpp  expect, needs, leaves
//   steps_*.cpp       machine steps to operations, one small function a verb
//   finishing.cpp     the finish block
//   operands.cpp      what the verbs share: needles or a count, clauses, yarns, edges
//
// A Knitter does one run of one edition: the first sock, or the mirrored one.
#pragma once

#include <functional>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <utility>
#include <vector>

#include "compiler/findings/findings.hpp"
#include "compiler/grade/evaluate.hpp"
#include "compiler/knit/bench.hpp"
#include "compiler/knit/faults.hpp"
#include "compiler/knit/facts.hpp"
#include "compiler/knit/selections.hpp"
#include "compiler/knit/setup.hpp"
#include "compiler/knit/sites.hpp"
#include "compiler/names/program.hpp"

namespace stk::knit {

class Knitter {
 public:
  Knitter(const names::Program& program, const EditionSetup& setup, grade::Evaluator& evaluator, Sites& sites,
          findings::Findings& findings, bool mirrored);
  ~Knitter();

  // Every piece in source order, then the finish block.
  struct KnittedPiece {
    const syntax::Piece* piece;
    std::int64_t make = 1;
    std::vector<Step> steps;
  };
  std::vector<KnittedPiece> pieces();
  std::vector<Step> finish();

  const std::vector<Bench*>& benches() const { return bench_pointers_; }
  // Rows of short-row sections and the like need more than one look; for the figures of an edition.
  std::vector<std::int64_t> loops_of_yarn(std::size_t yarn) const;   // per size

 private:
  using SizeSet = grade::SizeSet;
  using Counts = std::vector<std::optional<std::int64_t>>;

  // Where the run is: the names in reach, the sizes that got here, the calls that led here, where steps are recorded.
  struct Place {
    grade::Frame* frame;
    SizeSet active;
    std::vector<text::Span>* calls;
    bool drawing = true;         // settings are drawn in the first turn of a repeat only
  };

  // blocks.cpp
  void statements(const std::vector<syntax::Statement>& block, std::size_t from, Place place, std::vector<Step>& out);
  void let(const syntax::Let& let, Place& place, std::vector<Step>& out);
  void section(const syntax::Section& section, text::Span where, Place& place, std::vector<Step>& out);
  void only_for(const syntax::OnlyFor& only, text::Span where, Place& place, std::vector<Step>& out);
  void branch(const syntax::If& branch, text::Span where, Place& place, std::vector<Step>& out);
  void repeat(const syntax::Repeat& repeat, text::Span where, Place& place, std::vector<Step>& out);
  void say(const syntax::Say& say, text::Span where, Place& place, std::vector<Step>& out);
  void note(const syntax::Note& note, text::Span where, Place& place, std::vector<Step>& out);
  void work(const syntax::Work& work, text::Span where, Place& place, std::vector<Step>& out);
  bool bind_arguments(const syntax::Technique& technique, const syntax::Work& work, Place& place, grade::Frame& inside);
  void inner(const syntax::Block& block, const Place& place, std::vector<Step>& out);
  SizeSet living(SizeSet active) const;          // those not lost
  bool budget(SizeSet active, text::Span where);

  // expectations.cpp
  void expect(const syntax::Expect& expect, text::Span where, Place& place, std::vector<Step>& out);
  struct Failing { SizeSet sizes = 0; std::string label; bool counts = false, side = false; std::vector<std::string> parts; };
  Failing check(const syntax::Fact& fact, Place& place);
  void contracts(const syntax::Technique& technique, bool leaves, text::Span call, Place& place);

  // operands.cpp
  struct Needles { grade::NeedlesId id; bool counted = false; };   // counted: given as a number
  std::optional<Needles> needles(const syntax::Expr& expr, Place& place, Among among, const syntax::Step* step = nullptr,
                                 bool if_any = false);
  bool means_needles(const syntax::Expr& expr, const grade::Frame& frame);
  Counts passes(const syntax::Expr& expr, Place& place, bool& rounds);
  const syntax::Clause* clause(const syntax::Step& step, syntax::Clause::Kind kind, std::string_view word = {}) const;
  bool clauses_fit(const syntax::Step& step, std::initializer_list<std::string_view> words,
                   std::initializer_list<syntax::Clause::Kind> kinds);
  std::string verb_text(const syntax::Step& step) const;
  std::optional<std::size_t> yarn(const syntax::Name& name);
  std::optional<std::size_t> yarn_called(std::string_view name) const;
  std::vector<std::string> path_of(const syntax::EdgeRef& ref) const;
  std::string edge_name(const syntax::EdgeRef& ref) const;   // "sock.left": what a parameter stands for
  std::optional<Part> edge(const syntax::EdgeRef& ref, std::size_t size, SizeSet& missing) const;
  void report_missing_edge(const syntax::EdgeRef& ref, SizeSet missing);
  std::optional<runtime::Side> side_of(const syntax::Clause* clause) const;

  // edge_parts.cpp
  struct AskedPart {
    std::optional<runtime::Side> side;   // none: all of the edge
    bool half = false;
    Counts counts;                       // else so many
    text::Span span;
  };
  // "left half of sock.cast_on", "rest of sock.cast_on": as Operation::edges has it.
  void told_edges(const syntax::Step& step, SizeSet active, Operation& operation) const;
  std::vector<AskedPart> asked_parts(const syntax::Step& step, Place& place);
  bool take_parts(const syntax::Step& step, std::size_t size, const std::vector<AskedPart>& asked,
                  std::vector<runtime::EdgeId>& edges, SizeRecord& record);

  // steps_*.cpp
  void step(const syntax::Step& step, text::Span where, Place& place, std::vector<Step>& out);
  using PerSize = std::function<void(std::size_t size, Bench& bench, SizeRecord& record)>;
  // Records one operation: before and after in each size, and in between whatever `act` does.
  Step& operate(const syntax::Step& written, Operation operation, Place& place, std::vector<Step>& out, const PerSize& act);
  runtime::Outcome apply(const syntax::Step& written, std::size_t size, decltype(runtime::Operation::what) what);
  void draw(const Bench& bench, const std::vector<DrawnNeedle>& before, const std::vector<DrawnMove>& moves, SizeRecord& record) const;
  void draw(const Bench& bench, const std::vector<DrawnNeedle>& before, const std::vector<DrawnNeedle>& after,
            const std::vector<DrawnMove>& moves, SizeRecord& record) const;
  void draw_beds(const Bench& bench, const std::vector<DrawnNeedle>& before, SizeRecord& record) const;
  std::vector<DrawnNeedle> picture(const Bench& bench, runtime::Bed bed = runtime::Bed::main) const;
  void lose(SizeSet sizes);
  void thread_at_first(const syntax::Step& step, Place& place, std::vector<Step>& out);

  void cast_on(const syntax::Step&, Place&, std::vector<Step>&);
  void knit(const syntax::Step&, Place&, std::vector<Step>&);
  void knit_to_row(const syntax::Step&, Place&, std::vector<Step>&);
  void knit_by_hand(const syntax::Step&, Place&, std::vector<Step>&);
  void knit_chart(const syntax::Step&, Place&, std::vector<Step>&);
  std::optional<std::string> fabric_counted_in(const syntax::Expr& expr, const grade::Frame& frame, int depth = 0) const;
  struct Joined {
    std::vector<runtime::EdgeId> left, right;
    bool any() const { return !left.empty() || !right.empty(); }
  };
  std::vector<Joined> joined_edges(const syntax::Step& step, Place& place, Operation& operation);
  bool knit_passes(const syntax::Step& step, std::size_t size, std::int64_t count, bool rounds, const Joined& joined);
  void have_met(const syntax::Step& step, std::size_t size, const Joined& joined);
  void report_idle_second(SizeSet active, bool piece_ends);
  void check_gauge_of(const syntax::Expr&, Place&, const Counts& rows);
  bool measured(const syntax::Expr&, const grade::Frame&) const;
  void thread(const syntax::Step&, Place&, std::vector<Step>&);
  void cut(const syntax::Step&, Place&, std::vector<Step>&);
  void rest_yarn(const syntax::Step&, Place&, std::vector<Step>&);
  void tension(const syntax::Step&, Place&, std::vector<Step>&);
  void counter(const syntax::Step&, Place&, std::vector<Step>&);
  void comb(const syntax::Step&, Place&, std::vector<Step>&);
  void hold_release_wrap(const syntax::Step&, Place&, std::vector<Step>&);
  void bring_or_put(const syntax::Step&, Place&, std::vector<Step>&);
  void set_needles(const syntax::Step&, Place&, std::vector<Step>&);
  void move(const syntax::Step&, Place&, std::vector<Step>&);
  void transfer(const syntax::Step&, Place&, std::vector<Step>&);
  void lift_or_latch(const syntax::Step&, Place&, std::vector<Step>&);
  void shape(const syntax::Step&, Place&, std::vector<Step>&);
  void fill(const syntax::Step&, Place&, std::vector<Step>&);
  void cross(const syntax::Step&, Place&, std::vector<Step>&);
  void tuck_or_slip(const syntax::Step&, Place&, std::vector<Step>&);
  void mark_row(const syntax::Step&, Place&, std::vector<Step>&);
  void hang_edge(const syntax::Step&, Place&, std::vector<Step>&);
  void pick_up(const syntax::Step&, Place&, std::vector<Step>&);
  void open(const syntax::Step&, Place&, std::vector<Step>&);
  void scrap_off(const syntax::Step&, Place&, std::vector<Step>&);
  void take_off(const syntax::Step&, Place&, std::vector<Step>&);
  void bind_off(const syntax::Step&, Place&, std::vector<Step>&);
  void gather(const syntax::Step&, Place&, std::vector<Step>&);
  void pitch(const syntax::Step&, Place&, std::vector<Step>&);
  void carriage_knits(const syntax::Step&, Place&, std::vector<Step>&);

  // finishing.cpp
  void finishing(const syntax::Step& step, Place& place, std::vector<Step>& out);
  void end_piece(const syntax::Piece& piece, SizeSet active);
  void report_resting(const syntax::Piece& piece, SizeSet active);
  std::vector<runtime::EdgeId> sum_of_edges(const std::vector<syntax::EdgeRef>& refs, std::size_t size, std::vector<SizeSet>& missing) const;
  std::vector<runtime::EdgeId> sides_of_section(const syntax::EdgeRef& ref, std::size_t size) const;
  static std::int64_t small_rows(const Bench& bench, runtime::SectionId section);
  bool mirrored_edge_piece(std::size_t size, runtime::EdgeId edge) const;
  void sewn_with(const Operation& operation, Bench& bench, runtime::EdgeId along, std::int64_t micrometres);
  std::int64_t micrometres_of(const Bench& bench, const std::vector<runtime::EdgeId>& edges, double times) const;

  runtime::Tag tag(text::Span step) { return sites_.tag(step, *calls_); }
  void report_faults(const runtime::Outcome& outcome, std::size_t size, const runtime::Seam* seam = nullptr);

  const names::Program& program_;
  const EditionSetup& setup_;
  grade::Evaluator& evaluator_;
  Sites& sites_;
  findings::Findings& findings_;
  bool mirrored_;
  std::uint16_t edition_;
  std::size_t sizes_;
  std::vector<Bench> benches_;
  std::vector<Bench*> bench_pointers_;
  Selections selections_;
  const grade::Frame* frame_ = nullptr;          // of the statement at hand: a parameter may stand for a yarn or an edge
  std::vector<text::Span>* calls_ = nullptr;     // of the statement at hand
  std::string section_name_;                     // of the section at hand, and whether the counter still shows earlier rows
  std::vector<std::int64_t> counter_at_section_;
  bool counter_reset_ = true;
  std::set<std::pair<std::string, std::int32_t>> gauges_told_;   // counted by this fabric's gauge, knitted at that tension
  bool finishing_ = false;
  // Beyond the turns that are kept (and beyond a bound on all steps) the machine goes on and nothing is written down.
  bool recording_ = true;
  std::int64_t recorded_ = 0;
  std::vector<Step> scratch_;
  std::int64_t steps_allowed_ = 0;               // of one size; less in a source that does not read, which is never written
  bool broken_source_ = false;
  std::vector<std::vector<std::int64_t>> entry_passes_;   // per technique being worked: passes when it began, per size
};

}  // namespace stk::knit
