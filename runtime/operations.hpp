// What can be done at the machine and in finishing, as plain data: the compiler's steps, random programs and the slow
// reference model all speak this list, and nothing in it is a selector or a name. Each says what it needs; where a need
// is not met a fault of faults.def is raised (its name in brackets) and the machine goes on from a defined state.
//
// Positions: NWP out of work; WP and UWP in work (no difference to the machine here); HP held.
// "In work" = WP or UWP. "Carries" = has at least one loop on its hook, whatever its position.
// Needs common to all and not repeated: needles named are on the bed [off_the_bed], the bed exists [no_second_bed].
// An operation over several needles leaves out the needles that are at fault and does the rest.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <variant>
#include <vector>

#include "runtime/needle_set.hpp"
#include "runtime/units.hpp"

namespace stk::runtime {

// ----------------------------------------------------------------------------------------------- settings and counting

// Begins a stretch of fabric whose selvedges and cast-on edge are counted by themselves. A machine begins in section
// none: passes knitted before the first BeginSection open one silently.
struct BeginSection {};
struct ResetCounter {
  std::int64_t to = 0;
};
struct SetTension {  // offset from MT in tenths of a number [tension_beyond_dial]
  Beds beds = Beds::main;
  int offset_tenths = 0;
};
enum class Pitch : std::uint8_t { full, half };  // full: needles face each other; half: they face the gaps
struct SetPitch {
  Pitch pitch = Pitch::full;
};
// to_left: knits on its way to the left only, and slips both beds on the way back (a free pass): a round cord.
enum class CarriageKnits : std::uint8_t { both_ways, to_left, to_right };
struct SetCarriage {
  CarriageKnits knits = CarriageKnits::both_ways;
};

// ------------------------------------------------------------------------------------------------------------- yarn

// Needs a free feeder, or the same yarns in it [feeder_busy]; a second yarn for two-colour rows. A yarn cut or never
// used begins anew: it has no last place, so it floats from nowhere. A rested one goes on from where it rests.
struct ThreadYarn {
  YarnId yarn{};
  YarnId second{};  // not given: one yarn
};
struct RestYarn {  // out of the feeder, not cut: needs it threaded [yarn_not_threaded]
  YarnId yarn{};
};
struct CutYarn {  // needs it threaded, or resting on the fabric [yarn_not_threaded]; leaves an end with this tail
  YarnId yarn{};
  std::int64_t tail_micrometres = 0;
};

// ----------------------------------------------------------------------------------------------------------- needles

// The whole bed is set anew: these in work, every other out [loops_out_of_work where one of those carries].
struct SetNeedles {
  Bed bed = Bed::main;
  NeedleSet in_work{};
};
// Needs them out of work, or in work and empty already (an eyelet becomes an empty needle); held [needles_held]. They
// stand empty: something must come on them before they are knitted [empty_needles_knitted].
struct BringIntoWork {
  Bed bed = Bed::main;
  NeedleSet needles{};
};
struct PutOutOfWork {  // needs them empty [loops_out_of_work]
  Bed bed = Bed::main;
  NeedleSet needles{};
};
// Needs them in work [not_in_work] and carrying [without_loops]. Holding every needle in work of one bed while the
// other carries rests that bed: its side of the carriage slips, and no turn is looked for there. The carriage is set to
// hold and back by the machine itself.
struct Hold {
  Bed bed = Bed::main;
  NeedleSet needles{};
};
struct Release {  // needs them held, or the bed at rest [not_held]
  Bed bed = Bed::main;
  NeedleSet needles{};
};
// The threaded yarn goes round held needles beside the needle knitted last. Needs them held [not_held], next to that
// needle [wrap_away_from_yarn], a yarn [no_yarn_threaded], and room on the hook [hook_too_full].
struct Wrap {
  Bed bed = Bed::main;
  NeedleSet needles{};
};
// The loop below the neighbour (the other bed's end stitch facing it, or the needle beside it outside the set) is hung
// on the needle too, against a gap. Needs a loop on both [without_loops, nothing_to_lift] and room [hook_too_full].
struct Lift {
  Bed bed = Bed::main;
  NeedleSet needles{};
};

// ------------------------------------------------------------------------------------------------- moving and shaping

enum class Empties : std::uint8_t { unsaid, out_of_work, in_work, filled_from_left, filled_from_right };
// The loops of these needles go `distance` needles to the right (negative: left), in order. Needs: each carries
// [without_loops] and is not held [needles_held]; lands on the bed [moved_off_bed], on a needle in work or held
// [lands_outside_work]; `brings` says that the step brings needles into work itself. Hooks: [hook_too_full]. Reach:
// [move_too_far]. What happens to needles emptied: said here, or `unsaid` until SayEmpties, or else a fault at the pass
// that would knit them. A yarn's last place moves with its loop.
struct Move {
  Bed bed = Bed::main;
  NeedleSet needles{};
  int distance = 0;
  Empties empties = Empties::unsaid;
  bool brings = false;
};
// What becomes of empty needles. Needs them empty and in work [not_empty]; filled ones a loop on the neighbour of that
// side that has been knitted since it was made [nothing_to_fill_from].
struct SayEmpties {
  Bed bed = Bed::main;
  NeedleSet needles{};
  Empties empties = Empties::out_of_work;
};
// Full-fashioned, at one side of the needles in work. Decrease, `inset` whole stitches in: the inset + 1 edge loops
// move in by one, one needle becomes empty and is put out of work. Increase: the `inset` edge loops move out by one
// (inset 0: a new edge needle), the gap is filled from the loop below its outer neighbour (filled, needs one row), or
// is an eyelet. Needs: enough stitches, inset + 2 for a decrease, inset for an increase and at least one, twice as many
// where the other side follows (`sides` 2) [too_few_to_shape]; needles side by side at that edge, in work and
// carrying [gap_in_shaping]; prongs [tool_too_narrow]; the outer needle on the bed [moved_off_bed] and free
// [needle_occupied]; hooks [hook_too_full].
struct Decrease {
  Bed bed = Bed::main;
  Side side = Side::left;
  int inset = 0;
  int sides = 1;   // 2: this is the first of a decrease on each side
};
struct Increase {
  Bed bed = Bed::main;
  Side side = Side::left;
  int inset = 0;
  bool eyelet = false;
  int sides = 1;   // 2: this is the first of an increase on each side
};
// A cable: of left + right loops side by side from `first`, the left ones change places with the right ones. Needs them
// in work and carrying [without_loops], and not too many [crossing_too_wide].
struct Cross {
  Bed bed = Bed::main;
  int first = 0;
  int left = 1, right = 1;
};
// Loops go to the facing needles of the other bed. Needs full pitch [transfer_at_half_pitch], loops [without_loops],
// and the facing needle empty unless `onto` [needle_occupied]. Arrive in WP; the needles left go to NWP.
struct Transfer {
  Bed from = Bed::second;
  NeedleSet needles{};
  bool onto = false;
};
// A stitch is dropped as far as the section's first row and latched up on the other face. Needs a loop on each
// [without_loops].
struct LatchUp {
  Bed bed = Bed::main;
  NeedleSet needles{};
};

// ------------------------------------------------------------------------------------------------ beginning, hanging

enum class CastOnMethod : std::uint8_t {
  e_wrap, closed_by_latch, closed_by_crochet, every_other_with_weave, open_on_waste, zigzag
};
// Needs the needles empty [needles_carry], at least one [nothing_in_work], a yarn [no_yarn_threaded] (open on waste:
// waste and cord are given here and the feeder must be free of a yarn in use [feeder_busy]). Ends with the carriage on
// `carriage`, which a bed that carries nothing, or only loops just wrapped by hand, grants without more; else it must
// stand there [carriage_elsewhere], and for the zigzag on the other side. A yarn that hangs from the fabric begins where
// it hangs [float_too_long]. The needles come into WP, all other empty ones of the bed stay as they are. The
// counter becomes 0 (1 after a zigzag). Makes one edge (Outcome::edges[0]):
//   e-wrap, closed, weave   n whole loops, secure
//   open on waste           waste passes, the comb after three of them, one pass of cord, their number chosen so that
// the
//                           carriage ends where asked; the first pass of a lasting yarn makes the edge: n whole loops,
//                           or n - 1 between loops and 2 halves; live until hung, bound or grafted
//   zigzag                  a pass over both beds; the comb goes in at once, before the next
struct CastOn {
  CastOnMethod method = CastOnMethod::e_wrap;
  Bed bed = Bed::main;
  NeedleSet needles{};         // of `bed`; for the zigzag those of the main bed
  NeedleSet second_needles{};  // of the second bed: zigzag only
  Side carriage = Side::right;
  YarnId waste{}, cord{};        // open on waste only
  int waste_rows = 0;        // 0: the usual number (7 or 8 as the side asks)
};

// The row whose loops are on these needles is marked, so that it can be hung from later. Needs at least one needle
// [nothing_in_work] and a loop on each [without_loops]. Makes one edge of n whole loops (Outcome::edges[0]); nothing hangs
// on it, so it may stay as it is.
struct MarkRow {
  Bed bed = Bed::main;
  NeedleSet needles{};
};

enum class Loops : std::uint8_t { whole, between };
enum class HangOrder : std::uint8_t { straight, reversed, folded };
// An edge's loops are hung on needles: a new beginning on empty needles, or a hem on needles that carry. Needs: the
// edge there to be hung [edge_not_open], not yet used [edge_already_used]; as many loops of the kind as needles
// [hang_counts_differ]; room on the hooks [hook_too_full]; needles that all carry, or lie within the work, or are all
// empty [needles_carry]. The cast-on of the fabric on the needles: straight up in a hem [hung_aside] and on the bed that
// faces it, in reverse beside the work, where the fabric folds sideways [hung_crossed]. A marked row: as a hem only, by its
// whole loops, in the fabric where it lies, once a row is knitted on each of these needles [marked_row_unfit]; straight up
// like a cast-on.
//   whole    n needles take the n whole loops, or (the upper edge of a slot, n - 1 between + 2 halves) n - 1 and one
// half
//   between  n needles take n between loops, or n - 1 and one half; a half of a cast-on lies under its end stitch, so
//            that no needle beyond the stitches of the cast-on can take it. Or one needle over each stretch that was out
//            of work in the cast-on takes the long loop below it
//   folded   the first half of the edge on `second_needles` of the second bed from the far side, the last half on
// `needles`
//            of the main bed, open on `open_side`: the fabric becomes a tube
// `carriage` says where the carriage is to start, allowed while no yarn is threaded or the thread is new
// [carriage_elsewhere]. A comb hanging in the edge is moved to the fold when `moves_comb` (Outcome::comb_moved), else
// [comb_hangs_in_edge]. Waste and cord that hold a cast-on edge come away with it (Outcome::waste_drawn). Its yarn comes along.
struct Hang {
  EdgeId edge{};
  Bed bed = Bed::main;
  NeedleSet needles{};
  NeedleSet second_needles{};  // folded only
  Loops loops = Loops::whole;
  HangOrder order = HangOrder::straight;
  Side open_side = Side::right;
  std::optional<Side> carriage{};
  bool moves_comb = true;
};
// Loops along selvedges are hung on empty needles beside the work, from the work outwards, `loops` for every `rows`
// rows. Needs selvedges not yet used [edge_already_used], those knitted last first where they lie above one another
// [pick_up_from_far_end], needles empty [needles_carry] and adjoining the work on `onto` [pick_up_apart], no more than
// the rows give [pick_up_too_many]; fewer is worth a note [pick_up_leaves_rows].
struct PickUp {
  std::vector<EdgeId> along{};
  Bed bed = Bed::main;
  Side onto = Side::left;
  NeedleSet needles{};
  int loops = 1, rows = 2;
};

// ------------------------------------------------------------------------------------------------------- comb, weights

// Needs fabric to hang on: rows since the cast-on 3 (e-wrap, weave), 1 (closed), 0 (zigzag) [comb_too_early]; into a
// zigzag before the next pass [comb_too_late]; loops on needles [comb_without_fabric]. `on` an edge: that one. Weights
// hang on the comb: from the first to the last of the needles that carry.
struct HangComb {
  EdgeId on{};
};
// Weights hung on the fabric itself, or moved up: to where HangComb would hang them, needing the same loops. What is held
// is held anew for the note on long holds.
struct HangWeights {};
struct RemoveComb {};   // and the weights with it; needs it hanging [no_comb]

// ----------------------------------------------------------------------------------------------------------- knitting

// rows: every pass knits the needles in work of both beds, but of a bed at rest. rounds: the main bed on the way to
// `main_to`, the second bed on the way back, a round being two passes. `passes` counts passes of the carriage in either
// case, free ones included; 0 to 10^12, other figures are brought within. A carriage whose side is unknown is taken to
// stand on the right. Needs: something in work [nothing_in_work], a yarn [no_yarn_threaded], nothing empty but eyelets
// [empty_needles_knitted, eyelet_on_edge, eyelet_beside_edge], the yarn within reach [float_too_long], held neighbours
// closed where the carriage turns [open_turn, open_slit], and on two beds [opposed_at_full_pitch, tube_shut_below,
// layers_joined, tube_side_open, bed_rests_in_round, corner_gap]; notes [tension_jumps, long_hold, weights_do_not_reach,
// no_weights, tube_shut_by_zigzag, beds_at_two_tensions, and short_rows_apart from Hold and Wrap].
enum class KnitMode : std::uint8_t { rows, rounds };
struct Knit {
  std::int64_t passes = 1;
  KnitMode mode = KnitMode::rows;
  Side main_to = Side::left;  // rounds only; the other way about in a mirrored piece
};
// Patterned passes on the main bed, one for each set, with the needs of Knit. two_colour: these needles take the second
// yarn [no_second_yarn], the others the first; tuck: these take the yarn without knitting [tuck_too_long,
// tucks_side_by_side]; slip: these are passed over [slip_too_long].
enum class PatternKind : std::uint8_t { two_colour, tuck, slip };
struct KnitPattern {
  PatternKind kind = PatternKind::two_colour;
  std::vector<NeedleSet> rows{};
};
// Rows that join the piece to an edge that is there, on one side or on both: each time the carriage starts from a joined
// side one loop of that edge is first hung on the end stitch there. Of selvedges a loop stands for two rows. Of live
// edges (taken or scrapped off) it is the whole loop nearest to the work, so the right end of an edge joined on the left
// comes first; loops left over stay live, and with the last one the edge is used and its waste comes away
// (Outcome::waste_drawn). Needs selvedges or live edges, not both on one side [join_sorts_differ], not yet used and named
// once [edge_already_used, edge_not_open], with rows or loops enough for these passes [join_runs_out], a stitch to hang
// on [without_loops], in work [not_in_work], room [hook_too_full], and the needs of Knit. The rows of the piece's own
// selvedge are joined, those of the other as far as they were knitted. Edges that cannot be joined leave the rows
// unknitted; the live ones among them count as used.
struct KnitJoined {
  std::int64_t passes = 2;
  // What is joined on each side, one after the other, from the rows or loops to be joined first; empty: nothing there.
  std::vector<EdgeId> on_left{}, on_right{};
};
// One row by hand, from left to right over some needles, with a yarn of its own [no_such_yarn]: carriage, counter and
// threaded yarn stay. Needs needles in work [not_in_work] with loops [without_loops], its yarn in reach. Waste leaves a
// slot (Outcome::slot): its lower edge n whole loops, its upper n - 1 between and 2 halves, once the next row is
// knitted.
struct KnitByHand {
  Bed bed = Bed::main;
  NeedleSet needles{};
  YarnId yarn{};
};

// ----------------------------------------------------------------------------------------------------- taking off

// Waste is knitted over all the parts together (others in work wait, held parts are released) and dropped: one live
// edge on waste for each part (Outcome::edges, in the order given). Needs a free feeder [feeder_busy], loops
// [without_loops], rows enough [too_little_waste]. Needles go to NWP. The passes count on the row counter.
struct ScrapOff {
  Bed bed = Bed::main;
  std::vector<NeedleSet> parts{};
  YarnId waste{};
  int rows = 0;  // 0: the usual 8
};
struct TakeOff {  // on a holder or a cord: one live edge
  Bed bed = Bed::main;
  NeedleSet needles{};
};
// Needs loops [without_loops] and the yarn, threaded, at one end of them, or at the end of the other bed beside it
// [yarn_not_at_end]. Secure; needles to NWP. Both beds: round a tube, one bed and back along the other; across flat
// fabric, from bed to bed. Outcome::edges: one for each bed.
struct BindOff {
  Bed bed = Bed::main;
  NeedleSet needles{};
  NeedleSet facing{};   // of the other bed
};
// A tail is drawn through the loops, round both beds where both are named, and they come off. Needs a yarn cut
// [yarn_not_cut] with its end at either end of them [tail_elsewhere], long enough [tail_too_short] (0: not checked).
struct Gather {
  Bed bed = Bed::main;
  NeedleSet needles{};
  NeedleSet facing{};   // of the other bed
  std::int64_t tail_needed_micrometres = 0;
};
struct Drop {  // the loops are let go on purpose (a ladder, or waste knitted for nothing)
  Bed bed = Bed::main;
  NeedleSet needles{};
};
// The waste of a slot is drawn. Needs its lower loops on needles or on a holder first, and the upper ones said
// [loops_hang_free]; the waste knitted over [slot_not_knitted]; not opened before [edge_already_used].
struct OpenSlot {
  SlotId slot{};
  bool upper_on_holder = false;
};
// Waste or cord that holds a live edge comes away. Needs its loops on needles, grafted or bound [waste_still_holds], no
// comb in it [comb_hangs_in_edge].
struct DrawWaste {
  EdgeId edge{};
};
// So many stitches at one side of an edge become an edge of their own (Outcome::edges; all that are left: the edge itself),
// and the edge is what remains of it: still live on its waste, where it was. The tail at that side goes with them. Needs
// an edge of stitches, knitted over and not of a slot [edge_not_open], unused [edge_already_used], with as many of them
// [edge_runs_out], and no comb in it [comb_hangs_in_edge].
struct DivideEdge {
  EdgeId edge{};
  Side side = Side::left;
  int stitches = 1;
};
// The piece is done: nothing on the needles [loops_on_needles]. Yarn still in the feeder is cut (Outcome::yarn_cut).
struct EndPiece {};

struct Operation {
  Tag tag = no_tag;
  std::variant<BeginSection, ResetCounter, SetTension, SetPitch, SetCarriage, ThreadYarn, RestYarn, CutYarn, SetNeedles,
               BringIntoWork, PutOutOfWork, Hold, Release, Wrap, Lift, Move, SayEmpties, Decrease, Increase, Cross,
               Transfer, LatchUp, CastOn, MarkRow, Hang, PickUp, HangComb, HangWeights, RemoveComb, Knit, KnitPattern,
               KnitJoined, KnitByHand, ScrapOff, TakeOff, BindOff, Gather, Drop, OpenSlot, DrawWaste, DivideEdge,
               EndPiece>
      what;
};

// ---------------------------------------------------------------------------------------------------------- finishing
// Works on a Fabric alone, after its pieces.

// Where a graft begins: at that end of both edges, or, for two edges taken off one bed side by side, at the open side
// (their outer ends) or at the fold (where they met).
enum class GraftFrom : std::uint8_t { left, right, open_side, fold };
// Needs both live [edge_not_open] and unused [edge_already_used], equal by kind: n whole to n whole, or n whole to n -
// 1 between and 2 halves [graft_counts_differ]. With a tail: it hangs where the graft begins [tail_elsewhere], long
// enough [tail_too_short] (0: not checked). Secures both; their waste comes away.
struct Graft {
  EdgeId a{}, b{};
  GraftFrom from = GraftFrom::right;
  bool with_tail = true;  // else with a new length of yarn
  std::int64_t tail_needed_micrometres = 0;
};
// Edge to edge: selvedges (rows), or cast-on and bound edges (stitches), several of a side one after the other. Needs
// edges of one sort [seam_sorts_differ], unused [edge_already_used], lengths equal within the allowance: 5 %, and 3 rows
// more on the side with short rows for each series of them [seam_counts_differ]. Stretch k of the seam ends before
// a[stretches[k][0]] and b[stretches[k][1]]; each is compared by itself, and what follows the last. With a tail: some
// end of yarn still free at an end of these edges [tail_elsewhere], long enough [tail_too_short].
struct Seam {
  std::vector<EdgeId> a{}, b{};
  bool with_tail = false;
  std::int64_t tail_needed_micrometres = 0;
  std::vector<std::array<std::uint32_t, 2>> stretches{};
};
// A slot's corners: needs it opened [slot_not_opened]; takes the small selvedges of the heel with it. Without a slot, the
// small selvedges that short rows left at their sides.
struct CloseCorners {
  SlotId slot{};
  std::vector<EdgeId> selvedges{};
};
// A cord or elastic through the eyelets of sections. Needs eyelets there [no_eyelets].
struct ThreadThrough {
  std::vector<SectionId> sections{};
};
struct WeaveInEnds {};  // every end of lasting yarn not used in a graft, gather or seam
// The sock is done. Needs every live edge secured [edge_never_secured], every slot closed [slot_not_closed], every end
// woven in [ends_not_woven], no waste left [waste_left]; a selvedge left open beside others that were sewn is worth a
// note [selvedge_left_open].
struct Finish {};

struct FinishingOperation {
  Tag tag = no_tag;
  std::variant<DrawWaste, DivideEdge, Graft, Seam, CloseCorners, ThreadThrough, WeaveInEnds, Finish> what;
};

// The same work as seen in a mirror: needles, sides and directions changed about, and left selvedges for right ones.
// Other ids stay: run in a Fabric of its own, the mirrored work is given the same ids in the same order. `fabric` is
// that one.
class Fabric;
Operation mirrored(const Operation& operation, const MachineSpec& spec, const Fabric& fabric);
FinishingOperation mirrored(const FinishingOperation& operation, const Fabric& fabric);

}  // namespace stk::runtime
