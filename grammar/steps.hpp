// What a piece, a technique and the finishing are made of: machine steps with their clauses, facts, and the statements that
// hold them. A step begins with its verb; then come what it works on, how, and after commas what must hold.
#pragma once

#include "grammar/values.hpp"

namespace stk::grammar {

// clang-format off

// -------------------------------------------------------------------------------------------------------------- edges

struct left_or_right : sor<word<"left">, word<"right">> {};
struct edge : seq<name, star<seq<dot, part_name>>> {};                       // sock.gusset.left
struct an_edge : group<"an edge", edge> {};
struct edge_sum : seq<an_edge, star<seq<joining_sign<"+">, an_edge>>> {};

// A part of an edge: 12 on left of sole.cast_on, right half of heel_sts. What is sewn, grafted or hung may be one.
struct stitches_on_side : seq<nested<postfix>, weak_word<"on">, left_or_right> {};
struct part_said : seq<sor<half_selector, stitches_on_side>, joining_word<"of">> {};
struct edge_part : seq<ahead<part_said>, part_said, group<"an edge", edge>> {};
struct edge_or_part : sor<edge_part, an_edge> {};
struct sewn_edges : seq<edge_or_part, star<seq<joining_sign<"+">, edge_or_part>>> {};
struct edges_to : seq<word<"to">, sewn_edges> {};

struct tension_offset : seq<sum_op, group<"an amount", product>> {};
struct tension : seq<word<"MT">, opt<tension_offset>> {};

// ------------------------------------------------------------------------------------------------------------ clauses

struct method : sor<                                                         // ways to do it that stand alone
    word<"e-wrap">, seq<word<"closed">, word<"by">, sor<word<"latch">, word<"crochet">>>,
    seq<word<"open">, word<"on">, word<"waste">>,
    seq<word<"every">, word<"other">, word<"with">, word<"weave">>, word<"zigzag">,
    seq<word<"by">, sor<word<"hand">, word<"latch">, seq<word<"loops">, word<"between">>>>,
    word<"loose">, word<"mattress">, word<"flat">, word<"folded">, word<"reversed">, word<"centred">,
    seq<word<"on">, sor<word<"cord">, word<"holder">>>, seq<word<"if">, word<"any">>> {};
struct carriage_clause : seq<word<"carriage">, left_or_right> {};
struct placed_clause : seq<word<"placed">, sor<word<"centre">, seq<opt<word<"from">>, needles>>> {};
struct ending_clause : seq<word<"ending">, tile> {};
struct second_bed_clause : seq<word<"second">, word<"bed">, tile> {};
struct empties_clause : seq<word<"empties">, sor<seq<word<"out">, word<"of">, word<"work">>, seq<word<"in">, word<"work">>,
                                                 seq<word<"filled">, word<"from">, a_direction>>> {};
struct inset_amount : sor<number, seq<name_ref>, parenthesis> {};
struct clause_word : sor<word<"carriage">, word<"placed">, word<"ending">, word<"second">, word<"empties">, word<"filled">,
                         word<"tail">, word<"onto">, word<"upper">, word<"repeat">, word<"end">, word<"open">, word<"closed">,
                         word<"joining">> {};
struct clause_over : sor<comma, line_end, right_brace, file_end> {};
struct no_clause_word : not_ahead<sor<clause_word, seq<name, clause_over>>> {};   // so that a misspelt word is no amount
struct inset_clause : seq<no_clause_word, inset_amount, weak_word<"in">> {};                 // 2 in: full-fashioned
struct filled_clause : sor<seq<word<"filled">, word<"from">, a_direction>, word<"eyelet">> {};
struct tail_clause : seq<word<"tail">, amount> {};
struct onto_clause : seq<word<"onto">, sor<seq<side, not_ahead<word<"half">>>, needles>> {};
struct every_rows_clause : seq<no_clause_word, amount, weak_word<"for">, word<"every">, amount> {};
struct from_clause : seq<word<"from">, sor<seq<word<"the">, word<"open">, word<"side">>, seq<word<"the">, word<"fold">>, a_side>> {};
struct open_side_clause : seq<word<"open">, word<"side">, left_or_right> {};
struct upper_on_clause : seq<word<"upper">, word<"on">, sor<word<"holder">, needles>> {};
struct with_clause : seq<word<"with">, name> {};
struct repeat_from_clause : seq<word<"repeat">, sor<seq<word<"from">, needles>, word<"centred">>> {};
struct end_needles_clause : seq<word<"end">, word<"needles">, name> {};
struct as_clause : seq<word<"as">, declared_name> {};
struct joining_clause : seq<word<"joining">, left_or_right, word<"to">, edge_sum> {};
struct rows_clause : seq<no_clause_word, amount, opt<seq<weak_word<"of">, word<"waste">>>> {};
struct clause : sor<carriage_clause, placed_clause, ending_clause, second_bed_clause, empties_clause, open_side_clause,
                    joining_clause, method, filled_clause, tail_clause, onto_clause, from_clause, upper_on_clause, with_clause,
                    repeat_from_clause, end_needles_clause, as_clause, inset_clause, every_rows_clause, rows_clause> {};
struct clauses : star<seq<comma, group<"a clause such as `carriage right`", clause>>> {};

// -------------------------------------------------------------------------------------------------------------- steps

struct out_of_work : seq<word<"out">, word<"of">, word<"work">> {};
struct into_work : seq<word<"into">, word<"work">> {};
struct on_edge : seq<word<"on">, an_edge> {};
struct named_selection : seq<needles, word<"as">, declared_name> {};
struct named_list : seq<named_selection, star<seq<comma, named_selection>>> {};
struct with_yarn : seq<word<"with">, group<"a yarn", name>> {};
struct as_name : seq<word<"as">, declared_name> {};

struct step_cast_on       : seq<verb_of<"cast", "on">, needles> {};
struct step_knit_to_row   : seq<verb_of<"knit">, word<"to">, word<"row">, amount> {};
struct step_knit_chart    : seq<verb_of<"knit">, word<"chart">, group<"the name of a chart", name>> {};
struct step_knit          : seq<verb_of<"knit">, amount, opt<seq<word<"over">, needles>>, opt<with_yarn>> {};
struct thread_edges       : seq<an_edge, star<seq<comma, edge, ahead<clause_over>>>> {};
struct step_thread_through: seq<verb_of<"thread">, group<"a yarn", name>, word<"through">, thread_edges> {};
struct step_thread        : seq<verb_of<"thread">, group<"a yarn", name>, opt<seq<word<"and">, group<"a yarn", name>>>> {};
struct step_cut           : seq<verb_of<"cut">, group<"a yarn", name>> {};
struct step_rest_yarn     : seq<verb_of<"rest">, group<"a yarn", name>> {};
struct step_tension       : seq<verb_of<"tension">, group<"a tension such as MT - 2", sor<tension, rounded>>, opt<seq<word<"on">, a_bed>>> {};
struct step_counter       : seq<verb_of<"counter">, amount> {};
struct step_hang_comb     : seq<verb_of<"hang", "comb">, opt<on_edge>> {};
struct step_hang_weights  : seq<verb_of<"hang", "weights">, opt<on_edge>> {};
struct step_remove_comb   : seq<verb_of<"remove", "comb">> {};
struct step_hold          : seq<verb_of<"hold">, needles> {};
struct step_release       : seq<verb_of<"release">, needles> {};
struct step_wrap          : seq<verb_of<"wrap">, needles> {};
struct step_bring_into_work : seq<verb_of<"bring">, needles, into_work> {};
struct step_put_out_of_work : seq<verb_of<"put">, needles, out_of_work> {};
struct step_set_needles   : seq<verb_of<"set", "needles">, tile, word<"across">, needles> {};
struct step_move_to_bed   : seq<word<"to">, a_bed> {};
struct step_move_by       : seq<a_direction, word<"by">, amount> {};
struct step_move          : seq<verb_of<"move">, needles, sor<step_move_to_bed, step_move_by>> {};
struct step_lift          : seq<verb_of<"lift">, needles> {};
struct step_increase      : seq<verb_of<"increase">, amount, word<"on">, a_side> {};
struct step_decrease      : seq<verb_of<"decrease">, amount, word<"on">, a_side> {};
struct step_fill          : seq<verb_of<"fill", "empties">, word<"from">, a_direction> {};
struct step_cross         : seq<verb_of<"cross">, amount, word<"over">, amount, word<"at">, needles> {};
struct step_tuck          : seq<verb_of<"tuck">, needles, word<"for">, amount> {};
struct step_slip          : seq<verb_of<"slip">, needles, word<"for">, amount> {};
struct of_needles         : seq<word<"of">, needles> {};
struct step_mark_row      : seq<verb_of<"mark", "row">, opt<of_needles>, as_name> {};
struct step_hang_edge     : seq<verb_of<"hang">, edge_or_part, word<"on">, needles> {};
struct step_pick_up       : seq<verb_of<"pick", "up">, amount, word<"along">, edge_sum> {};
struct step_open          : seq<verb_of<"open">, an_edge> {};
struct step_latch_up      : seq<verb_of<"latch", "up">, needles> {};
struct step_scrap_off     : seq<verb_of<"scrap", "off">, named_list> {};
struct step_take_off      : seq<verb_of<"take", "off">, named_list> {};
struct step_bind_off      : seq<verb_of<"bind", "off">, needles> {};
struct step_gather        : seq<verb_of<"gather">, needles, opt<as_name>> {};
struct pitch_word         : sor<word<"full">, word<"half">> {};
struct step_pitch         : seq<verb_of<"pitch">, pitch_word> {};
struct carriage_way       : sor<seq<word<"both">, word<"ways">>, seq<word<"to">, left_or_right, word<"only">>> {};
struct step_carriage_knits: seq<verb_of<"carriage", "knits">, carriage_way> {};
struct step_graft         : seq<verb_of<"graft">, sewn_edges, edges_to> {};
struct step_seam          : seq<verb_of<"seam">, sewn_edges, edges_to> {};
struct step_close_corners : seq<verb_of<"close", "corners">, word<"of">, an_edge> {};
struct step_weave_in_ends : seq<verb_of<"weave", "in", "ends">> {};

struct line_over : sor<line_end, ahead<right_brace>, file_end> {};
struct step_kind : sor<step_cast_on, step_knit_to_row, step_knit_chart, step_knit, step_thread_through, step_thread, step_cut,
    step_rest_yarn, step_tension, step_counter, step_hang_comb, step_hang_weights, step_remove_comb, step_hold, step_release,
    step_wrap, step_bring_into_work, step_put_out_of_work, step_set_needles, step_move, step_lift, step_increase,
    step_decrease, step_fill, step_cross, step_tuck, step_slip, step_mark_row, step_hang_edge, step_pick_up, step_open,
    step_latch_up, step_scrap_off, step_take_off, step_bind_off, step_gather, step_pitch, step_carriage_knits, step_graft, step_seam,
    step_close_corners, step_weave_in_ends> {};
struct step : seq<step_kind, clauses, line_over> {};

// -------------------------------------------------------------------------------------------------------------- facts

struct fact_carriage_side : seq<word<"carriage">, left_or_right> {};
struct fact_carriage_beside : seq<word<"carriage">, word<"beside">, needles> {};
struct fact_nothing_held : seq<word<"nothing">, word<"held">> {};
struct fact_row : seq<word<"row">, amount> {};
struct fact_edge_rows : seq<left_or_right, word<"edge">, amount> {};
struct fact_state : sor<seq<weak_word<"in">, word<"work">>, weak_word<"held">, weak_word<"empty">, weak_word<"knitted">,
                        seq<weak_word<"side">, word<"by">, word<"side">>> {};
struct fact_bed : seq<weak_word<"on">, bed> {};
struct fact_value : seq<expression, opt<fact_state>, opt<fact_bed>> {};
struct fact : sor<fact_carriage_side, fact_carriage_beside, fact_nothing_held, fact_row, fact_edge_rows, fact_value> {};
struct a_fact : group<"a fact such as `20 sts` or `carriage right`", fact> {};
struct facts : seq<a_fact, star<seq<comma, not_ahead<text>, a_fact>>> {};

// -------------------------------------------------------------------------------------------------------- statements

template <class Rule>
struct deeper;                 // recover.hpp: one block deeper
struct with_block;             // recover.hpp: the block behind a statement's head, whatever is wrong with it
struct rest_of_line;

struct text_needed : group<"a text in quotation marks", text> {};
struct let_parameters : seq<callee, bracketed<left_bracket, opt<seq<declared_name, star<seq<comma, declared_name>>>>, right_bracket>> {};
struct let : seq<word<"let">, sor<let_parameters, declared_name>, equals, sor<seq<any_value, line_over>, rest_of_line>> {};
struct section : seq<word<"section">, opt<declared_name>, text_needed, line_over> {};
struct only_for : seq<word<"only">, word<"for">, name, star<seq<comma, name>>, with_block> {};
struct otherwise : seq<quiet<opt<line_end>>, word<"else">, sor<struct if_statement, with_block>> {};
struct if_statement : seq<word<"if">, condition, with_block, opt<deeper<otherwise>>> {};
struct repeat : seq<word<"repeat">, amount, word<"times">, opt<as_name>, with_block> {};
struct say : seq<word<"say">, text_needed, with_block> {};
struct note : seq<word<"note">, text_needed, line_over> {};
struct caution : seq<word<"caution">, text_needed, line_over> {};
struct expect : seq<word<"expect">, facts, line_over> {};
struct work : seq<word<"work">, group<"a technique such as heel(…)", call>, opt<as_name>, line_over> {};

struct with_body : seq<sor<only_for, if_statement, repeat, say>, opt<line_end>> {};
struct statement : sor<let, section, expect, work, note, caution, with_body, step> {};
struct a_statement : group<"a step", statement> {};

// clang-format on

}  // namespace stk::grammar
