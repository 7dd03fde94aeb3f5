// Every limit of the program in one place. Each is tested on both sides, and passing one gives a finding (or, for the
// file that was named on the command line, a message) that says what to do. A limit lives here even when another folder
// enforces it, so that nobody has to search for it; what a machine bears stands in runtime/units.hpp.
#pragma once

#include <cstdint>

namespace stk::text::limits {

// Bytes of one source file. A hand-written pattern has some 4 KiB; Span holds 32-bit offsets, so this must stay far
// below 4 GiB.
inline constexpr std::uint32_t source_bytes = 4u * 1024 * 1024;

// Blocks inside one another. The parser recurses once a level: at 256 levels it uses a small part of an 8 MiB stack
// even in a sanitized build.
inline constexpr std::uint32_t block_depth = 256;

// Brackets inside one another in one expression; the same reason.
inline constexpr std::uint32_t expression_depth = 256;

// Techniques that call one another. Recursion is refused before; this bounds a long chain of different ones.
inline constexpr std::uint32_t call_depth = 64;

// Libraries that use one another in a chain, and all files of one pattern. FileId has 16 bits.
inline constexpr std::uint32_t library_depth = 32;
inline constexpr std::uint32_t library_files = 256;

// Turns of one repeat, and steps of one size after all repeats are unrolled: what bounds time and memory of a run.
inline constexpr std::uint64_t repeat_turns = 1'000'000;
inline constexpr std::uint64_t steps_of_a_size = 10'000'000;

// Digits in one number as it is spelled. Exact values are ratios of checked 64-bit integers; more digits cannot fit in
// any case, and this stops the reading of a megabyte of digits.
inline constexpr std::uint32_t digits = 64;

// Columns of the sizes table. Lanes (findings/finding.hpp) has one bit a size in 64.
inline constexpr std::uint32_t sizes = 64;

// Mistakes of writing that are listed of one file: one with more is no source, and a list of millions helps nobody.
inline constexpr std::uint32_t syntax_findings = 200;

// Needles on one bed. Hobby flat-beds have up to some 250; the rest is room for a fine-gauge or joined bed.
inline constexpr std::uint32_t needles_on_a_bed = 1000;

// Findings shown by default; all are counted, and `--show 0` shows every one.
inline constexpr std::uint32_t findings_shown = 20;

// Bytes of all outputs of one run.
inline constexpr std::uint64_t output_bytes = 256ull * 1024 * 1024;

// Bytes of a path in `use "..."`: below what every file system takes.
inline constexpr std::uint32_t path_bytes = 1024;

}  // namespace stk::text::limits
