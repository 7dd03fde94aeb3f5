// The small words of the machine: sides, beds, ids, what machine it is, and the names of its needles.
#pragma once

#include <compare>
#include <cstdint>
#include <string>
#include <string_view>

#include "runtime/needle_set.hpp"

namespace stk::runtime {

// Left and right are the knitter's, at the machine, the purl side facing her (the main bed's fabric).
enum class Side : std::uint8_t { left, right };
constexpr Side opposite(Side side) { return side == Side::left ? Side::right : Side::left; }

enum class Bed : std::uint8_t { main, second };
constexpr Bed other(Bed bed) { return bed == Bed::main ? Bed::second : Bed::main; }
enum class Beds : std::uint8_t { main, second, both };

// Whatever the caller likes to call an operation (a step's number, say). Faults carry it back, never looked at.
using Tag = std::uint32_t;
inline constexpr Tag no_tag = 0xffffffffu;

// Handles into a Fabric, given out one after the other from 0. A default one means "none".
template <class Kind>
struct Id {
  std::uint32_t value = 0xffffffffu;
  constexpr bool given() const { return value != 0xffffffffu; }
  constexpr auto operator<=>(const Id&) const = default;
};
using YarnId = Id<struct YarnKindOfId>;
using EdgeId = Id<struct EdgeKindOfId>;
using SlotId = Id<struct SlotKindOfId>;        // a line of waste knitted in by hand, to be opened later
using SectionId = Id<struct SectionKindOfId>;
using PieceId = Id<struct PieceKindOfId>;      // one Machine's work

// What machine it is. Tensions everywhere are offsets from the main tension MT in tenths of a dial number (MT - 2 is
// -20), because a pattern does not know the knitter's MT: only the span between the slackest and the tightest is
// checked.
struct MachineSpec {
  int needles = 150;               // on each bed, 2..needle_limit
  int beds = 1;                    // 1 or 2
  int pitch_micrometres = 6500;
  int dial_span_tenths = 100;      // a dial from 0 to 10
  int float_limit = 5;             // loops a yarn may pass between two stitches of it
  int hook_limit = 3;              // loops safe on one hook, wraps included (tucks have a limit of their own)
  int tool_prongs = 7;             // widest transfer tool
  int move_reach = 5;              // needles a loop stretches when its neighbours stay
  int crossing_reach = 6;          // stitches in one crossing (3 over 3)
  int tuck_limit = 4;              // successive tucks on one needle
  int slip_limit = 6;              // successive rows a needle is slipped over
  int tuck_neighbours = 2;         // needles side by side tucking in one row
  int long_hold_passes = 60;       // a longer hold without moving the weights is worth a note
  int weights_reach = 7;           // needles beyond the weights that they still pull on
  int rows_without_weights = 20;   // a fabric knitted longer with none is worth a note
  int least_waste_rows = 6;        // to hold live loops
  int usual_waste_rows = 8;
  int abrupt_tension_tenths = 30;  // a greater change inside one fabric is worth a note

  bool valid() const;              // the ranges above, and every other figure positive
};

// Names count outward from the centre: L1 and R1 stand beside it. An odd needle more stands on the right.
constexpr int needles_left_of_centre(const MachineSpec& spec) { return spec.needles / 2; }
std::string needle_name(const MachineSpec& spec, int needle);                  // "L12"
int needle_index(const MachineSpec& spec, Side side, int number);              // L12 -> index; -1 when not on the bed
int needle_index(const MachineSpec& spec, std::string_view name);              // "R7" -> index; -1 when not a name
Side needle_side(const MachineSpec& spec, int needle);
int needle_number(const MachineSpec& spec, int needle);                        // 12 of L12

}  // namespace stk::runtime
