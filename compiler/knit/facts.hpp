// What was checked: the record of every size of every edition as it was knitted, and the read-only input of all outputs.
//
//   Facts
//   └─ EditionFacts            machine, yarns, gauges, measures, variables
//      ├─ PieceFacts           first: the steps as knitted; mirrored: the second one, if it was made mirrored (also knitted)
//      │  └─ Step …            a tree: sections, repeats and techniques hold steps; an operation is a leaf
//      └─ finish: Step …
//
// All sizes stand side by side: a Step has one SizeRecord for each size of the pattern, in the order of the sizes table.
// A step that some sizes do not take is one Step whose `sizes` lacks them. Nothing here is ever worked out again from the
// source, and no sizes are ever reconstructed by comparing texts: every number that is printed stands in a SizeRecord, a
// Selection or an Amount.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "compiler/text/span.hpp"
#include "compiler/values/quantity.hpp"

namespace stk::knit {

using SizeSet = std::uint64_t;   // bit i = size i of the sizes table
inline constexpr bool has(SizeSet set, std::size_t size) { return (set >> size) & 1U; }

enum class Side : std::uint8_t { left, right };
enum class Bed : std::uint8_t { main, second };

// A needle by its name at the machine: R5 is +5, L12 is -12; 0 is no needle.
struct Needle {
  std::int32_t number = 0;
  Bed bed = Bed::main;
  friend bool operator==(const Needle&, const Needle&) = default;
};
struct NeedleSpan {              // from the leftmost to the rightmost; both 0 when there is none
  Needle first, last;
  friend bool operator==(const NeedleSpan&, const NeedleSpan&) = default;
};

// The machine between two steps, in one size.
struct MachineState {
  Side carriage = Side::right;
  std::int64_t row_counter = 0;
  std::int32_t stitches = 0;         // needles that carry loops: in work and held, both beds
  std::int32_t in_work = 0;          // needles in working position, with or without loops
  std::int32_t held = 0;
  std::int32_t second_bed = 0;       // stitches on the second bed, of `stitches`
  NeedleSpan span;                   // outermost needles that carry loops: of the main bed, or of the second if it alone has any
  NeedleSpan second_span;            // those of the second bed
  NeedleSpan working;                // outermost needles of the main bed that are in work and carry loops
  std::int32_t tension_hundredths = 0;   // of the main bed: offset from MT in hundredths of a dial number
  std::int32_t second_tension_hundredths = 0;   // of the second bed
  friend bool operator==(const MachineState&, const MachineState&) = default;
};

// One needle of a drawn setting.
struct DrawnNeedle {
  enum class Position : std::uint8_t { out, work, upper, hold, tuck, slip } position = Position::out;
  std::uint8_t loops = 0;
  bool eyelet = false;               // empty, and left in work on purpose
  friend bool operator==(const DrawnNeedle&, const DrawnNeedle&) = default;
};
struct DrawnMove { std::int32_t from = 0, to = 0; };   // indices into DrawnBed::before
// A stretch of the main bed before and after a step, from needle `first` to the right; of a transfer also the second bed
// after it, needle for needle.
struct DrawnBed {
  Needle first;
  std::vector<DrawnNeedle> before, after;
  std::vector<DrawnNeedle> second;
  std::vector<DrawnMove> moves;
};

// Rows that the short rows of a section put on the longer edge of a seam alone.
struct ExtraRows {
  std::string section;               // "sole.heel"; empty when it has no name
  std::int64_t rows = 0;
  friend bool operator==(const ExtraRows&, const ExtraRows&) = default;
};

// What one step did in one size. Fields that a step does not use stay 0.
struct SizeRecord {
  bool idle = false;                 // was reached and had nothing to do (0 rows, 0 times): prints `-` or nothing
  MachineState before, after;
  std::int64_t amount = 0;           // rows knitted, stitches cast on, needles moved, put, brought, decreases made, turns
  std::int64_t target = 0;           // the RC of `knit to row`, the value of `counter`, by how many needles a move goes; of a
                                     // marked row that is hung its RC, 0 where the counter was set since
  std::int32_t emptied = 0;          // needles that a move left empty
  NeedleSpan needles;                // the first and last needle that the step worked on
  std::int64_t second_amount = 0;    // the other edge of a graft or seam; 1 for every n rows; of `amount` that which lies on
                                     // the second bed (hold, release, gather); loops that a transfer meets on the needles;
                                     // of `amount` the loops that a lift takes over a corner of a tube
  std::optional<values::Quantity> length;   // a tail
  bool comb_moved = false, waste_drawn = false;   // hang: the comb went to the fold; waste and cord came away
  bool rows = false;                 // seam: amounts are rows, else stitches
  std::vector<ExtraRows> extra_rows; // seam: where rows of the longer edge come from; what they leave over nothing explains
  std::vector<std::int32_t> part_counts;   // scrap off, take off: stitches of each part
  std::int32_t set_aside = 0;        // scrap off: needles held while the waste was knitted, and released again
  Side yarn_side = Side::right;      // where the end of the cut or gathering yarn hangs; cast on: where its wraps begin
  Needle yarn_needle;
  std::optional<DrawnBed> drawn;     // steps that change a setting or move loops (first turn of a repeat only)
};

// A number as the designer wrote it, worked out for every size: one entry a size; empty where the size has none.
using Amount = std::vector<std::optional<values::Quantity>>;

// Which needles, as the designer said it: `last of each 3`, `1 on far side of sole`. The needles themselves stand in the
// records; this is for the words.
struct Selection {
  enum class Kind : std::uint8_t {
    none, all, empties, held, bed, half, middle, on_side, of_each, every, range, of, except, both,
    span                             // so many needles as a row about the centre (`cast on 36`): amount in count
  } kind = Kind::none;
  enum class Where : std::uint8_t { left, right, each, carriage, far, first, middle, last } where = Where::left;
  Bed bed = Bed::main;
  bool both_beds = false;            // bed: the two of them
  std::vector<std::int64_t> count;   // per size: n on SIDE, middle n, k of each; empty when not used
  std::vector<std::int64_t> group;   // per size: each n, every nth
  std::vector<NeedleSpan> needles;   // per size: what it came to when it was evaluated
  std::vector<Selection> parts;      // of: selection, within; except: from, without; both: left, right
  std::string name;                  // when a `let` or a parameter gave it a name: "sole"
};

enum class Act : std::uint8_t {
  cast_on, knit, knit_to_row, knit_by_hand, knit_chart, thread, cut, rest_yarn, tension, counter, hang_comb, hang_weights,
  remove_comb, hold, release, wrap, bring_into_work, put_out_of_work, set_needles, move, transfer, lift, increase, decrease,
  fill, cross, tuck, slip, mark_row, hang_edge, pick_up, open, latch_up, scrap_off, take_off, bind_off, gather, pitch, carriage_knits,
  graft, seam, thread_through, close_corners, weave_in_ends
};
enum class Method : std::uint8_t {
  none, e_wrap, closed_by_latch, closed_by_crochet, open_on_waste, every_other_with_weave, zigzag, by_latch, by_crochet,
  mattress, flat, by_loops_between, folded, reversed, marked_row, loops_as_they_came, full, half, both_ways, to_left, to_right
};
enum class Empties : std::uint8_t { unsaid, out_of_work, in_work, filled };
enum class Way : std::uint8_t { aside, inward, outward };   // of a move: to one side, or each half of the work its own way

// A side edge that was joined to another piece while this one was knitted.
struct Joining {
  Side side = Side::left;
  std::vector<std::string> edges;    // printed words, as in Operation::edges
};

// How an operation was done, the same in every size.
struct Operation {
  Act act = Act::knit;
  Method method = Method::none;
  std::vector<Selection> selections; // one; `scrap off` has one for each edge it makes
  std::vector<std::string> edges;    // names of edges made (scrap off, cast on, mark row) or used (hang, graft, seam): printed words
  std::vector<std::string> edges_to;
  std::vector<std::string> yarns;    // names of the edition's yarns
  Empties empties = Empties::unsaid;
  std::optional<Side> side;          // `carriage right`, `move … left`, `increase 1 on right`, `fill empties from left`
  std::optional<Side> filled_from;   // move: the neighbour of an emptied needle that gives it a loop
  Way way = Way::aside;              // move
  bool each_side = false;            // increase and decrease
  std::int32_t inset = 0;            // `2 in`
  std::int32_t prongs = 0;           // of the transfer tool
  std::vector<bool> tile, ending, second_tile;   // set needles: true = in work
  bool by_hand = false;
  std::int32_t rate_loops = 1, rate_rows = 2;    // pick up: loops for every rows
  bool upper_on_holder = false;                  // open
  std::vector<std::string> chart;                // knit chart: its rows, the first knitted first, as drawn
  std::string chart_marks;                       // the ground's mark and the second yarn's
  bool loose = false;
  std::vector<Joining> joining;      // knit, knit_to_row
  bool with_own_tail = false;        // seam: `with tail`; otherwise yarns[0] is the length that sews
  std::string from;                  // graft: "the open side", "the fold", "left", "right"
  std::int32_t waste_rows = 0;       // cast on open, scrap off: rows of waste in all
  std::int32_t waste_rows_before_comb = 0;
  std::int32_t cord_rows = 0;        // ravel cord
};

struct Step {
  enum class Kind : std::uint8_t {
    operation,
    section,           // title; steps until the next section of the same block
    only_for,          // `only for`: the sizes are in `sizes`; steps inside
    condition,         // one branch of an `if` that some sizes take; steps inside
    repeat,            // turns (per size in records[i].amount); `rounds` holds the steps of each turn
    technique,         // title = what it `says`; steps inside
    say,               // title heads the steps inside
    note, caution,     // title
    expect,            // a check that held: the place where counts are printed
    needles_named      // `let sole = right half`: operation.selections[0], name
  } kind = Kind::operation;
  text::Span where;                  // in the source
  SizeSet sizes = 0;                 // the sizes that reached it
  std::vector<std::string> title;    // per size (interpolated numbers may differ); one entry if all agree
  std::string name;                  // of a section, a technique, a named set
  Operation operation;
  std::vector<SizeRecord> records;   // one a size; those outside `sizes` are empty
  std::vector<Step> steps;           // children
  std::vector<std::vector<Step>> turns;   // repeat: the children of each turn (at most kept_turns of them)
  bool expects_stitches = false, expects_carriage = false, expects_row = false;   // expect: what was asked
};
inline constexpr std::size_t kept_turns = 2048;

struct PieceFacts {
  std::string name;
  std::int64_t make = 1;
  bool second_mirrored = false;
  std::vector<Step> first;
  std::vector<Step> mirrored;        // empty unless second_mirrored
  bool mirrors_exactly = false;      // the second record is the first with its sides changed, step for step
};

// How much of a yarn there is in everything that is made (a pair of socks: both), per size. Fabric is loops and floats;
// `length` is fabric, ends and seams with the margin upon them: what a knitter should have. Masses only where the count is
// known; no length where no gauge is.
struct YarnFacts {
  std::string name;                  // main, waste, contrast
  std::string description;
  bool waste = false;
  std::optional<values::Quantity> count;      // mass per length
  std::optional<values::Quantity> label_length, label_mass;   // 420 m to 100 g, when that is how the count was stated
  std::vector<std::int64_t> loops;            // of one of each piece
  Amount in_fabric, ends;                     // ends: tails, and what sews and grafts
  values::Quantity margin;                    // 0.1: a tenth more
  Amount length, mass;
  std::optional<values::Quantity> ball;       // the mass of one, when that was said
  Amount balls, balls_stated;                 // whole ones that are needed; those the designer stated
};
struct GaugeFacts {
  std::string fabric;                // empty: the main fabric
  values::Quantity stitches, rows;   // per length
  std::int32_t tension_hundredths = 0;
};
struct MachineFacts {
  std::string name, printed;
  std::int32_t needles = 0;
  std::int32_t beds = 1;
  std::optional<values::Quantity> pitch;
};
struct MeasureFacts {                // a finished measure, and the body measure it is held against if there is one
  std::string name;
  Amount finished, body;
  std::vector<std::optional<values::Quantity>> ease;     // (finished - body) / body
  text::Span where;                  // its name in the `finished` line
  bool ease_declared = false;        // `ease NAME from to to`: the range in which `ease` must lie, size by size
  Amount ease_from, ease_to;
};
struct VariableFacts {               // for the grading sheet
  std::string name;
  std::vector<std::string> values;   // per size, as printed
};

struct EditionFacts {
  std::string name;
  MachineFacts machine;
  std::vector<YarnFacts> yarns;
  std::vector<GaugeFacts> gauges;
  std::vector<MeasureFacts> measures;
  std::vector<VariableFacts> variables;
  std::vector<std::int32_t> needles_needed;   // per size: the most needles of one bed ever in use
  std::vector<PieceFacts> pieces;
  std::vector<Step> finish;
};

struct SizeName {
  std::string name;                  // infant_m
  std::string printed;               // Infant M
};
struct PatternFacts {
  std::string title, by, version, summary;
  std::vector<std::string> notes, cautions;                        // of the pattern block
  std::vector<std::pair<std::string, std::string>> other;          // further fields, in source order
};

struct ToMeasureFacts {              // one size is of one person; the others are as the table has them
  std::size_t size = 0;
  std::string base;                  // how that size is printed otherwise: what was not given is of that size
  bool chosen = false;               // the user named the size; otherwise it is the nearest
  std::vector<std::string> given, taken, worked_out;   // names of body measures: the person's, the size's, those that follow
};

struct Facts {
  PatternFacts pattern;
  std::vector<SizeName> sizes;       // one unnamed size when the pattern has no sizes table
  std::vector<Amount> body_measures; // rows of the sizes table
  std::vector<std::string> body_measure_names;
  std::optional<ToMeasureFacts> to_measure;
  std::vector<EditionFacts> editions;
};

}  // namespace stk::knit
