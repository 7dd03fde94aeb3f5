// The parts of a source file: pattern, library, sizes, editions, machines, charts, techniques, pieces and the finishing.
#pragma once

#include "grammar/recover.hpp"

namespace stk::grammar {

// clang-format off

// A part whose inside is lines: its head may lack `{` or be broken, its lines may be.
template <class Line, class Bad = bad_statement>
struct with_lines : sor<lines_of<left_brace, Line, Bad>, lines_of<missing_open, Line, Bad>,
                        seq<bad_header, lines_of<left_brace, Line, Bad>>> {};

struct field : seq<field_word, text_needed, star<seq<comma, text_needed>>, line_over> {};
struct a_field : group<"a line such as `version \"1.0\"`", field> {};
struct pattern : seq<word<"pattern">, text_needed, with_lines<a_field>> {};
struct library : seq<word<"library">, declared_name, with_lines<a_field>> {};
struct use : seq<word<"use">, group<"a library's name or a file in quotation marks", sor<text, name>>, opt<as_name>, line_over> {};

// -------------------------------------------------------------------------------------------------------------- sizes

struct size_columns : seq<size_name, plus<size_name>, line_over> {};
struct one_column : seq<size_name, line_over> {};
struct header_row : sor<size_columns, one_column> {};
struct cell : sor<text, size_value> {};
struct row_source : seq<comma, text_needed> {};
struct table_row : seq<declared_name, plus<group<"a value", cell>>, opt<sor<unit, inch>>, opt<row_source>, line_over> {};
struct worked_row : seq<declared_name, joining_sign<"=">, sor<seq<any_value, opt<row_source>, line_over>, rest_of_line>> {};
struct from_row : seq<word<"from">, group<"the name of a table", name>, group<"the name of a measure", name>,
                      star<seq<comma, name>>, line_over> {};
struct size_line : sor<from_row, header_row, worked_row, group<"a measure and its values", table_row>> {};
struct sizes : seq<word<"sizes">, with_lines<size_line>> {};
struct measures : seq<word<"measures">, declared_name, with_lines<size_line>> {};

// ------------------------------------------------------------------------------------------------ editions, machines

struct machine_ref : seq<word<"machine">, group<"the name of a machine", name>,
                         opt<seq<word<"with">, word<"second">, word<"bed">>>, line_over> {};
struct label_mass : seq<weak_word<"to">, amount> {};                                   // 420 m to 100 g
struct of_balls : seq<sor<weak_word<"balls">, weak_word<"ball">>, weak_word<"of">> {};
struct ball_size : seq<of_balls, amount> {};                                           // balls of 50 g
struct balls_stated : seq<of_balls, amount> {};                                        // 2 balls of 50 g
struct yarn_margin : seq<weak_word<"margin">, amount> {};
struct yarn_property : sor<ball_size, yarn_margin, fraction, seq<any_value, opt<sor<label_mass, balls_stated>>>> {};
struct yarn : seq<word<"yarn">, declared_name, text_needed, star<seq<comma, yarn_property>>, line_over> {};
struct gauge_values : seq<amount, comma, amount, word<"to">, amount> {};
struct gauge_tension : seq<comma, word<"at">, group<"a tension such as MT - 2", tension>> {};
struct gauge : seq<word<"gauge">, sor<gauge_values, seq<declared_name, gauge_values>>, opt<gauge_tension>, line_over> {};
struct edition_line : group<"`machine`, `yarn` or `gauge`", sor<machine_ref, yarn, gauge>> {};
struct edition : seq<word<"edition">, declared_name, with_lines<edition_line>> {};

struct machine_value : group<"a value", sor<text, rounded>> {};
struct machine_range : seq<weak_word<"to">, machine_value> {};
struct machine_step : seq<weak_word<"step">, machine_value> {};
struct machine_field : seq<field_word, opt<seq<machine_value, star<sor<seq<comma, machine_value>, machine_range, machine_step>>>>, line_over> {};
struct machine_line : group<"a line such as `needles 150`", machine_field> {};
struct machine_class : seq<word<"machine">, declared_name, with_lines<machine_line>> {};

// ------------------------------------------------------------------------------------------------ values of a pattern

struct setting_step : seq<word<"step">, amount> {};
struct setting : seq<word<"setting">, declared_name, equals, amount, comma, word<"from">, amount, word<"to">, amount,
                     opt<setting_step>, comma, text_needed, line_over> {};
struct ease_range : seq<name, amount, word<"to">, amount> {};
struct ease : seq<word<"ease">, ease_range, star<seq<comma, ease_range>>, line_over> {};
struct floats : seq<word<"floats">, word<"at">, word<"most">, amount, line_over> {};
struct finished : seq<word<"finished">, name, equals, sor<seq<any_value, line_over>, rest_of_line>> {};

struct knit_or_purl : sor<word<"knit">, word<"purl">> {};
struct seen_from : seq<comma, word<"seen">, word<"from">, knit_or_purl, word<"side">> {};
struct key_mark : seq<mark, name> {};
struct key_line : seq<plus<key_mark>, line_over> {};
struct chart_line : seq<chart_row, line_over> {};
struct a_chart_line : group<"a row such as `[x..x]` or a mark and its yarn", sor<chart_line, key_line>> {};
struct chart : seq<word<"chart">, declared_name, opt<seen_from>, with_lines<a_chart_line>> {};

// -------------------------------------------------------------------------------------------- techniques and pieces

struct kind : seq<group<"a kind such as sts, rows or needles", part_name>, star<seq<word<"or">, part_name>>> {};
struct fallback : seq<equals, any_value> {};
struct parameter : seq<sor<label, declared_name>, colon, kind, opt<fallback>> {};
struct parameters : bracketed<left_bracket, opt<seq<parameter, star<seq<comma, parameter>>>>, right_bracket> {};
struct contract : seq<sor<word<"needs">, word<"leaves">>, facts, opt<seq<comma, text_needed>>, line_over> {};
struct says : seq<word<"says">, text_needed, line_over> {};
struct technique_line : group<"a step", sor<contract, says, statement>> {};
struct technique : seq<word<"technique">, callee, parameters, with_lines<technique_line>> {};

struct make : seq<comma, word<"make">, amount> {};
struct second_mirrored : seq<comma, word<"second">, word<"mirrored">> {};
struct piece : seq<word<"piece">, declared_name, star<sor<make, second_mirrored>>, with_block> {};
struct finish : seq<word<"finish">, with_block> {};

// ---------------------------------------------------------------------------------------------------------- the file

struct with_braces : seq<sor<pattern, library, sizes, measures, edition, machine_class, chart, technique, piece, finish>,
                         opt<line_end>> {};
struct item : group<"a part of the pattern (sizes, edition, let, piece, finish)",
                    sor<let, use, setting, ease, floats, finished, with_braces>> {};

// Steps outside every piece, and the brace that comes to be left over with them.
struct misplaced_step : group<"a part of the pattern (sizes, edition, let, piece, finish)", statement> {};
struct misplaced : seq<plus<seq<not_ahead<sor<begins_part, word<"let">>>, misplaced_step>>, opt<silent_sign<"}">>, opt<line_end>> {};
struct stray_brace : seq<plus<silent_sign<"}">>, opt<line_end>> {};
struct bad_item : seq<bad_statement> {};

struct version_number : seq<number> {};
struct version : seq<word<"stockinger">, sor<seq<version_number, line_over>, rest_of_line>> {};
struct missing_version : pegtl::success {};
struct file : seq<leading, fresh, sor<version, missing_version>,
                  star<seq<not_ahead<file_end>, fresh, sor<merge_line, item, stray_brace, misplaced, bad_item>>>> {};

// clang-format on

}  // namespace stk::grammar
