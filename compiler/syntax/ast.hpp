// The typed tree of one source file: what build_ast.cpp makes of the concrete tree, and all that later phases see.
//
// Every node has a Span. Where the source was broken the tree holds Invalid, whose mistake has been reported already:
// whoever meets one stays quiet and goes on. The tree says only what was written; meaning (which `all`, which unit fits,
// which clause a step takes) is decided in names/, grade/ and knit/.
#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "compiler/text/span.hpp"

namespace stk::syntax {

using text::Span;

struct Name {
  std::string text;
  Span span;
};

enum class Side : std::uint8_t { left, right, each, carriage, far };             // `each side`, `carriage side`, `far side`
enum class Direction : std::uint8_t { left, right, inward, outward, inside, outside };
enum class Bed : std::uint8_t { main, second, both };

// ---------------------------------------------------------------------------------------------------- expressions
// Numbers and needle selectors share one type: `let half = body / 2` and `let heel = right half` look alike to the
// parser when a name stands alone, so only the evaluator can tell them apart.

struct Expr;
using ExprPtr = std::unique_ptr<Expr>;

struct Invalid {};

struct Number {        // as spelled: "12", "2.5", "1/2", "1½", "½"; the minus of a graded value is in SizeValue
  std::string digits;
};
struct SizeValue {     // one entry of a graded value or of a table; dash = `-`, this size has none
  bool dash = false;
  bool negative = false;
  std::string digits;
  Span span;
};
struct Grade {         // 12 (14, 15, 17): the first size's value is values[0]
  std::vector<SizeValue> values;
};
struct ExceptGrade {   // 5 except (infant_m: 3, toddler_m: 3)
  SizeValue others;
  std::vector<std::pair<Name, SizeValue>> exceptions;
};
struct WithUnit {      // 5 cm, body sts, (2 * x) rows
  ExprPtr operand;
  Name unit;           // as spelled: mm cm m in st sts row rows round rounds needle needles g kg tex % ...
};
struct As {            // widen as rows: one to one, said aloud
  ExprPtr operand;
  Name unit;           // sts, rows, rounds, count
};
struct TextPiece {     // literal bytes (escapes resolved), or an expression in braces
  std::string literal;
  ExprPtr value;       // null for a literal piece
  Span span;
};
struct Text {          // "Toe, from {begin} to {begin + 2 * widen} sts"
  std::vector<TextPiece> pieces;
};
struct NameRef {       // body; sock.gusset.left (an edge or a part)
  std::vector<Name> parts;
};
struct Argument {
  std::optional<Name> label;
  ExprPtr value;
};
struct Call {          // stitches(foot_around * 90%), short_row_heel(right half, down_to: 8)
  Name callee;
  std::vector<Argument> arguments;
};
struct Unary {
  enum class Op : std::uint8_t { minus, logical_not } op;
  ExprPtr operand;
};
struct Binary {
  enum class Op : std::uint8_t {
    add, subtract, multiply, divide, mod, less, less_equal, greater, greater_equal, is, is_not, logical_and, logical_or
  } op;
  Span op_span;
  ExprPtr left, right;
};
struct Rounded {       // a - 2 * b rounded up to multiple of 4 plus 1
  enum class Direction : std::uint8_t { nearest, up, down } direction = Direction::nearest;
  enum class Target : std::uint8_t { whole, even, odd, multiple, parity } target = Target::whole;
  ExprPtr operand;
  ExprPtr modulus;     // of `multiple of`; of `parity of`
  ExprPtr offset;      // `plus 1`, `minus 1`; null if none
  bool offset_negative = false;
  Span how;            // from `rounded` to the end
};
struct Conditional {   // if heeled then 10 rows else 0 rows
  ExprPtr condition, consequent, alternative;
};
struct Fraction {      // a yarn count system: Nm 9.5/1
  Name system;
  std::string count, ply;
};

// Selectors. `all`, `empties` and `held` alone are NameRef: the evaluator knows them when no declaration hides them.
struct BedSelector { Bed bed; };                                      // main bed
struct HalfSelector { Side side; };                                   // left half, right half
struct MiddleSelector { ExprPtr count; };                             // middle 6
struct OnSideSelector { ExprPtr count; Side side; };                  // 2 on right, 1 on each side
struct OfEachSelector {                                               // last of each 3, first 2 of each groups
  enum class Which : std::uint8_t { first, middle, last } which;
  ExprPtr count;                                                      // null means 1
  ExprPtr group;
};
struct EverySelector { ExprPtr ordinal; };                            // null = every other; `every 3rd` holds Number "3"
struct NeedleRange {                                                  // L12, L12 to R5
  struct Needle { char side; std::string digits; Span span; };        // side 'L' or 'R'
  Needle from;
  std::optional<Needle> to;
};
struct OfSelector { ExprPtr selection, within; };                     // last of each 2 of (all except 2 on right)
struct ExceptSelector { ExprPtr from, without; };                     // all except sole
struct UnionSelector { ExprPtr left, right; };                        // `and` between needles, where only needles can stand

struct Expr {
  Span span;
  std::variant<Invalid, Number, Grade, ExceptGrade, WithUnit, As, Text, NameRef, Call, Unary, Binary, Rounded, Conditional,
               Fraction, BedSelector, HalfSelector, MiddleSelector, OnSideSelector, OfEachSelector, EverySelector,
               NeedleRange, OfSelector, ExceptSelector, UnionSelector>
      node;
};

// ------------------------------------------------------------------------------------------------------ statements

struct Statement;
struct Block {
  Span span;           // from `{` to `}`
  std::vector<Statement> statements;
};

struct Tile {          // [| | .] : true = in work
  std::vector<bool> needles;
  Span span;
};
struct Tension {       // MT, MT - 2
  ExprPtr offset;      // null = MT itself
  bool negative = false;
  Span span;
};
struct EdgeRef {       // sock.gusset.left, sock.sole_end, cast_on
  std::vector<Name> parts;
  Span span;
  ExprPtr part;        // null = all of it; a HalfSelector or an OnSideSelector: `left half of sole.cast_on`
};

// What must hold (`expect`, `needs`, `leaves`).
struct Fact {
  enum class Kind : std::uint8_t {
    carriage_side,     // carriage right                      side
    carriage_beside,   // carriage beside part                needles
    nothing_held,
    row,               // row 24                              amount
    in_work, held, empty, side_by_side,                    // needles: `part in work`
    count,             // body sts [in work|held] [on bed]    amount (an expression with its unit)
    rows_knitted,      // total rows knitted                  amount
    edge_rows,         // left edge 120 rows                  side, amount
    condition          // down_to >= 2 sts and down_to < n    amount
  } kind;
  Span span;
  ExprPtr amount;
  ExprPtr needles;
  Side side = Side::left;
  std::optional<Bed> bed;
  bool counts_held = false;   // `20 sts held`
};

// One machine step or finishing step: a verb, what it works on, and clauses after commas. Which fields a kind uses is
// said beside it; a clause that a kind does not take is refused by knit/, not by the grammar.
enum class StepKind : std::uint8_t {
  cast_on,             // needles (a number of sts or a selector)
  knit,                // amount [needles: over] [names: with yarn]
  knit_to_row,         // amount
  knit_chart,          // names: chart
  thread,              // names: one or two yarns
  cut, rest_yarn,      // names
  tension,             // tension, or amount: the name of a value that holds one [bed]
  counter,             // amount
  hang_comb, hang_weights,      // [edges]
  remove_comb,
  hold, release, wrap, // needles
  bring_into_work,     // needles
  put_out_of_work,     // needles
  set_needles,         // tile, needles: across
  move,                // needles, direction, amount: by
  move_to_bed,         // needles, bed
  lift,                // needles
  increase, decrease,  // amount, side
  fill,                // direction
  cross,               // amount, second_amount, needles: at
  tuck, slip,          // needles, amount: for
  mark_row,            // names: as [needles: of]
  hang_edge,           // edges, needles: on
  pick_up,             // amount, edges: along
  open,                // edges
  latch_up,            // needles
  scrap_off, take_off, // named
  bind_off,            // needles
  gather,              // needles [names: as]
  pitch,               // word: full, half
  carriage_knits,      // word: both_ways, to_left, to_right
  graft, seam,         // edges, edges_to
  thread_through,      // names: yarn or piece; edges
  close_corners,       // edges
  weave_in_ends
};

struct Clause {
  enum class Kind : std::uint8_t {
    method,            // word: e_wrap, closed_by_latch, closed_by_crochet, open_on_waste, every_other_with_weave, zigzag,
                       //       by_hand, by_latch, loose, mattress, flat, folded, reversed, by_loops_between, centred ...
    carriage,          // side
    placed,            // word: centre | needles: placed from L4
    ending,            // tile
    second_bed,        // tile: second bed [. . | |]
    empties,           // word: out_of_work, in_work, filled_from; side for filled_from
    inset,             // amount: `2 in` of increase and decrease
    filled,            // direction: filled from outside; word eyelet
    tail,              // amount
    onto,              // side or needles
    every_rows,        // amount, second_amount: 1 for every 2 rows
    from,              // word: the_open_side, the_fold; or side
    open_side,         // side
    upper_on, with, repeat_from, end_needles,   // name, word or needles
    as,                // name
    rows,              // amount: rows of waste
    joining            // side, edges: `joining left to instep.right`
  } kind;
  Span span;
  std::string word;
  ExprPtr amount, second_amount, needles;
  std::optional<Side> side;
  std::optional<Direction> direction;
  std::optional<Tile> tile;
  std::optional<Name> name;
  std::vector<EdgeRef> edges;
};

struct NamedSelection {   // sole as sole_end
  ExprPtr needles;
  Name name;
};

struct Step {
  StepKind kind;
  Span verb;           // `scrap off`
  ExprPtr amount, second_amount;
  ExprPtr needles;
  std::vector<EdgeRef> edges, edges_to;
  std::vector<NamedSelection> named;
  std::vector<Name> names;
  std::optional<Side> side;
  std::optional<Direction> direction;
  std::optional<Bed> bed;
  std::optional<Tile> tile;
  std::optional<Tension> tension;
  std::string word;
  std::vector<Clause> clauses;
};

struct Let {
  Name name;
  std::vector<Name> parameters;
  bool has_parameters = false;   // let f() = 3 is a formula too
  ExprPtr value;
};
struct Section { std::optional<Name> name; ExprPtr title; };
struct OnlyFor { std::vector<Name> names; Block body; };
struct If { ExprPtr condition; Block then; std::unique_ptr<Statement> otherwise; };   // otherwise: a Nested or an If
struct Nested { Block body; };                                                        // the body of an else
struct Repeat { ExprPtr times; std::optional<Name> turn; Block body; };
struct Say { ExprPtr text; Block body; };
struct Note { bool caution = false; ExprPtr text; };
struct Expect { std::vector<Fact> facts; };
struct Work { Call call; std::optional<Name> as; };

struct Statement {
  Span span;
  std::variant<Invalid, Let, Section, OnlyFor, If, Nested, Repeat, Say, Note, Expect, Work, Step> node;
};

// ------------------------------------------------------------------------------------------------------ declarations

struct Field {         // by "Tidewrack Hosiery"
  Name name;
  std::vector<ExprPtr> texts;
};
struct Pattern { ExprPtr title; std::vector<Field> fields; };
struct Library { Name name; std::vector<Field> fields; };
struct Use { std::optional<Name> library; std::optional<Name> alias; ExprPtr path; };

struct TableRow {      // foot_length 10.5 13 16 cm   or   printed "Infant M" "Toddler M"
  Name name;
  std::vector<std::variant<SizeValue, Text>> cells;
  std::vector<Span> cell_spans;
  std::optional<Name> unit;
  ExprPtr formula;     // foot_around = foot_length * 93%: the row is worked out and has no cells
  ExprPtr source;      // measures only: a text after a comma that says where the row comes from
};
struct FromRow { Name table; std::vector<Name> columns; Span span; };   // from feet foot_length, foot_around
struct Sizes { std::vector<Name> columns; std::vector<TableRow> rows; std::vector<FromRow> from; };
struct Measures { Name name; std::vector<Name> columns; std::vector<TableRow> rows; };   // a library's table of bodies

struct YarnLabel { ExprPtr length, mass; Span span; };                                   // 420 m to 100 g
struct YarnStock { ExprPtr balls, size; Span span; };                                    // 2 balls of 50 g; balls null: balls of 50 g
struct Yarn {
  Name name;
  ExprPtr description;
  std::vector<ExprPtr> properties;   // its count: 238 tex, Nm 8.4/2
  std::vector<YarnLabel> labels;     // its count, as a label has it
  std::vector<YarnStock> stock;      // how it is bought
  ExprPtr margin;                    // margin 15%; null = the usual one
};
struct Gauge { std::optional<Name> fabric; ExprPtr stitches, rows, over; std::optional<Tension> tension; Span span; };
struct MachineRef { Name name; bool second_bed = false; };
struct Edition { Name name; std::vector<MachineRef> machines; std::vector<Yarn> yarns; std::vector<Gauge> gauges; };

struct MachineField { Name name; std::vector<ExprPtr> values; Span span; };              // pitch 6.5 mm; needles 150; dial 0, 10
struct MachineClass { Name name; std::vector<MachineField> fields; };

struct Setting { Name name; ExprPtr value, from, to, step, text; };
struct EaseRange { Name measure; ExprPtr from, to; Span span; };
struct Ease { std::vector<EaseRange> ranges; };
struct Floats { ExprPtr limit; };
struct Finished { Name measure; ExprPtr value; };
struct Mark { char mark; Name yarn; Span span; };
struct ChartRow { std::string marks; Span span; };
struct Chart { Name name; std::optional<Name> seen_from; std::vector<Mark> key; std::vector<ChartRow> rows; };

struct Parameter {
  Name name;
  std::vector<Name> kinds;   // one kind word, or the choices of `by_hand or by_carriage`
  ExprPtr fallback;          // null = must be given
};
struct Contract { bool leaves = false; std::vector<Fact> facts; ExprPtr message; Span span; };
struct Technique {
  Name name;
  std::vector<Parameter> parameters;
  std::vector<Contract> contracts;
  ExprPtr says;        // null = none
  Block body;
};
struct Piece { Name name; ExprPtr make; bool second_mirrored = false; Block body; };
struct Finish { Block body; };

struct Item {
  Span span;
  bool broken = false;   // a mistake inside has been reported: what seems to be missing or unused may have been there
  std::variant<Invalid, Pattern, Library, Use, Sizes, Measures, Edition, MachineClass, Setting, Ease, Floats, Finished, Let,
               Chart, Technique, Piece, Finish>
      node;
};

struct File {
  std::optional<Name> version;   // of `stockinger 1`
  std::vector<Item> items;
};

}  // namespace stk::syntax
