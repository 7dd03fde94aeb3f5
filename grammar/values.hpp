// Numbers, graded values, expressions and needle selectors: one ladder for all of them, loosest binding first.
//
//   if … then … else …                     conditional
//   a or b                                 disjunction
//   a and b, needles except needles        conjunction, from left to right
//   not a                                  negation
//   a < b, a is b                          comparison
//   needles of needles                     narrowed
//   2 on right                             placed
//   a rounded up to even                   rounded
//   a + b   a * b   -a   x as rows         sum, product, unary, postfix
//   5 cm, body sts                         measured
//   12 (14, 15), name, call(…), (…), "…", left half, L12 to R5
//
// Only one ladder, because a name alone may be an amount or needles; and so nothing is ever read twice. A level makes a
// node only where it has more than one part.
#pragma once

#include "grammar/text.hpp"
#include "grammar/tokens.hpp"

namespace stk::grammar {

// clang-format off

struct expression;          // any of the ladder
struct rounded;
struct postfix;

// An amount stands where words such as `on`, `of` or `except` would go on with the statement: knit 3 rows over …
struct conditional;
struct amount : group<"an amount", sor<conditional, rounded>> {};
struct needles : group<"needles", expression> {};
struct any_value : group<"a value", expression> {};
struct condition : group<"a condition", expression> {};

// ------------------------------------------------------------------------------------------------------------ numbers

// A minus is glued to its number: in a row of a table `- 7` is a size that has none, and then a 7.
struct minus_sign : token<sign_scanner<"-", "–", "—", "−">, "-", TokenClass::sign, Voice::word, After::nothing> {};
struct dash : sign<"-", "–", "—", "−"> {};                                 // `-`: this size has none
struct size_value : sor<seq<opt<minus_sign>, number>, dash> {};
struct grade_values : seq<size_value, star<seq<comma, size_value>>> {};
struct grade : seq<number, bracketed<quiet_left_bracket, grade_values, right_bracket>> {};
struct exception : seq<declared_name, colon, size_value> {};
struct exceptions : seq<exception, star<seq<comma, exception>>> {};
struct except_grade : seq<number, seq<weak_word<"except">, ahead<sign<"(">>>, bracketed<left_bracket, exceptions, right_bracket>> {};
struct fraction : seq<part_name, yarn_count> {};                                // a yarn count: Nm 9.5/1

// -------------------------------------------------------------------------------------------------------------- names

struct name_ref : seq<name, star<seq<dot, part_name>>> {};
struct argument : seq<opt<seq<label, colon>>, nested<any_value>> {};
struct arguments : opt<seq<argument, star<seq<comma, argument>>>> {};
struct call : seq<callee, bracketed<left_bracket, arguments, right_bracket>> {};
struct parenthesis : bracketed<quiet_left_bracket, nested<expression>, right_bracket> {};

// ------------------------------------------------------------------------------------------------------------ needles

struct side : sor<word<"left">, word<"right">,
                  seq<word<"each">, word<"side">>, seq<word<"carriage">, word<"side">>, seq<word<"far">, word<"side">>> {};
struct a_side : group<"a side (left, right, each side, carriage side, far side)", side> {};
struct direction : sor<word<"left">, word<"right">, word<"inward">, word<"outward">, word<"inside">, word<"outside">> {};
struct a_direction : group<"a direction (left, right, inward, outward)", direction> {};
struct bed : sor<seq<weak_word<"main">, weak_word<"bed">>, seq<weak_word<"second">, weak_word<"bed">>,
                 seq<weak_word<"both">, weak_word<"beds">>> {};
struct a_bed : group<"a bed (main bed, second bed)", bed> {};

struct bed_selector : seq<bed> {};
struct half_selector : seq<sor<weak_word<"left">, weak_word<"right">>, weak_word<"half">> {};
struct which_of_each : sor<weak_word<"first">, weak_word<"last">> {};
struct of_each : seq<joining_word<"of">, weak_word<"each">> {};
struct each_tail : seq<of_each, nested<group<"a number of needles", postfix>>> {};
struct of_each_selector : seq<which_of_each, sor<each_tail, seq<nested<postfix>, each_tail>>> {};
struct middle_selector : seq<weak_word<"middle">, sor<each_tail, seq<nested<postfix>, opt<each_tail>>>> {};   // also middle of each 3
struct every_selector : seq<weak_word<"every">, sor<word<"other">, ordinal>> {};
struct needle_range : seq<needle, opt<seq<weak_word<"to">, needle>>> {};

// -------------------------------------------------------------------------------------------------------- the ladder

struct measured : sor<seq<sor<except_grade, grade, number>, opt<sor<unit, inch>>>,
                      seq<sor<text, of_each_selector, half_selector, bed_selector, middle_selector, every_selector,
                              needle_range, call, name_ref, parenthesis>, opt<unit>>> {};
struct count_unit : sor<weak_word<"sts">, weak_word<"rows">, weak_word<"rounds">, weak_word<"count">> {};
struct as_tail : seq<weak_word<"as">, count_unit> {};
struct postfix : seq<measured, climbing<as_tail>> {};

struct minus_op : joining_sign<"-", "–", "—", "−"> {};
struct negative : seq<minus_op, nested<struct unary>> {};
struct unary : sor<negative, postfix> {};
struct product_op : sor<joining_sign<"*", "×", "·">, joining_sign<"/", "÷">, joining_word<"mod">> {};
struct product_tail : seq<product_op, group<"an amount", unary>> {};
struct product : seq<unary, climbing<product_tail>> {};
struct sum_op : sor<joining_sign<"+">, minus_op> {};
struct sum_tail : seq<sum_op, group<"an amount", product>> {};
struct sum : seq<product, climbing<sum_tail>> {};

struct rounding_offset : seq<sor<weak_word<"plus">, weak_word<"minus">>, group<"an amount", postfix>> {};
struct rounding_target : sor<word<"even">, word<"odd">,
                             seq<word<"multiple">, word<"of">, group<"an amount", postfix>, opt<rounding_offset>>,
                             seq<word<"parity">, word<"of">, group<"an amount", postfix>>> {};
struct a_rounding_target : group<"even, odd, `multiple of` or `parity of`", rounding_target> {};
struct rounding : sor<seq<sor<word<"up">, word<"down">>, opt<seq<weak_word<"to">, a_rounding_target>>>,
                      word<"nearest">,
                      seq<word<"to">, a_rounding_target>> {};
struct rounded_tail : seq<weak_word<"rounded">, group<"how it is rounded (up, down, to even, to multiple of 4)", rounding>> {};
struct rounded : seq<sum, climbing<rounded_tail>> {};

struct placed_tail : seq<weak_word<"on">, side> {};                          // 1 on far side
struct placed : seq<rounded, opt<placed_tail>> {};
struct within_tail : seq<joining_word<"of">, nested<group<"needles", struct narrowed>>> {};
struct narrowed : seq<placed, opt<within_tail>> {};

struct comparison_op : sor<joining_sign<"<=", "≤">, joining_sign<">=", "≥">, joining_sign<"<">, joining_sign<">">,
                           seq<weak_word<"is">, joining_word<"not">>, joining_word<"is">> {};
struct comparison_tail : seq<comparison_op, group<"a value", narrowed>> {};
struct comparison : seq<narrowed, opt<comparison_tail>> {};
struct logical_not : seq<joining_word<"not">, nested<struct negation>> {};
struct negation : sor<logical_not, comparison> {};
struct and_tail : seq<joining_word<"and">, group<"a value", negation>> {};
struct except_tail : seq<joining_word<"except">, group<"needles", negation>> {};
struct conjunction : seq<negation, climbing<sor<and_tail, except_tail>>> {};
struct or_tail : seq<joining_word<"or">, group<"a condition", conjunction>> {};
struct disjunction : seq<conjunction, climbing<or_tail>> {};
struct conditional : seq<word<"if">, nested<condition>, word<"then">, nested<any_value>,
                         word<"else">, nested<any_value>> {};
struct expression : sor<conditional, disjunction> {};

// clang-format on

}  // namespace stk::grammar
