// Steps told in order: paragraphs, whom they are for, and where the work stands after each.
//
// The narrator keeps what the reader knows: the sizes the text is for at this point, the tension, the counter, the
// side, the stitches. A fact is printed when the step calls for it (an `expect`, the end of a section, a changed count)
// and never twice running; always in the order row counter, carriage side, stitches.
#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "compiler/document/charts.hpp"
#include "compiler/document/check_table.hpp"
#include "compiler/document/counter_ahead.hpp"
#include "compiler/document/document.hpp"
#include "compiler/document/folding.hpp"
#include "compiler/document/selecting_row.hpp"
#include "compiler/document/telling.hpp"
#include "compiler/document/worked.hpp"
#include "compiler/knit/facts.hpp"

namespace stk::document {

struct Printing {  // the same for the whole document
  const knit::Facts& facts;
  const knit::EditionFacts& edition;
  knit::SizeSet printed = 0;
  std::map<std::string, YarnWord> yarns;
  std::string piece;  // the name of the only piece; empty when there are several
};

class Narrator {
 public:
  // `worked` is what was told in the pieces before, and grows.
  Narrator(const Printing& printing, Charts& charts, std::vector<Block>& blocks, Worked& worked)
      : printing_(printing),
        charts_(charts),
        blocks_(blocks),
        worked_(worked),
        scope_(printing.printed),
        block_scope_(printing.printed),
        known_(printing.facts.sizes.size()) {}

  // One piece, or the finish; headings of sections stand at `level`. `piece` is what it is called where another one refers
  // to it.
  void tell_all(const std::vector<knit::Step>& steps, int level, const std::string& piece = {});

  const std::vector<SectionEnd>& section_ends() const { return section_ends_; }   // of what was told, in its order

 private:
  struct Known {  // of one size
    std::optional<std::int64_t> row;
    std::optional<knit::Side> side;
    std::optional<std::int32_t> stitches;
    std::optional<knit::NeedleSpan> span, second_span;
    std::optional<std::int32_t> tension, second_tension;   // the second while that bed has stitches
    std::optional<knit::MachineState> now;  // after the last step told
    std::optional<knit::MachineState> before_off;   // before the piece came off the needles
  };
  struct Due {                                         // facts that must still be printed after the sentences before
    bool row = false, side = false, stitches = false;  // in any case
    bool soft_side = false;                            // if the next step asks for it
    std::string stitches_intro;
    bool unsaid_row = false, unsaid_side = false, unsaid_stitches = false;  // if they were not said last
    knit::SizeSet scope = 0;
    bool any() const { return row || side || stitches || unsaid_row || unsaid_side || unsaid_stitches || soft_side; }
  };

  void steps(const std::vector<knit::Step>& steps, knit::SizeSet scope);
  void step(const knit::Step& step, knit::SizeSet scope);
  void operation(const knit::Step& step, knit::SizeSet scope);
  bool joined_to_last(const Told& told, knit::SizeSet scope);
  void note_memory(const knit::Step& step);
  bool selecting_row(const knit::Step& step, knit::SizeSet scope);
  void note_beds(const knit::Step& step);
  void note_rows(const knit::Step& step);
  void section(const knit::Step& step, knit::SizeSet scope);
  void end_section();
  void technique(const knit::Step& step, knit::SizeSet scope);
  void said(const knit::Step& step, knit::SizeSet scope);
  void repeat(const knit::Step& step, knit::SizeSet scope);
  void fold(const Fold& part, knit::SizeSet scope);
  std::string wrapped_beside(const Fold& part, knit::SizeSet scope) const;
  void check_core(const knit::Step& repeat, knit::SizeSet scope);
  bool tell_uneven(const knit::Step& repeat, knit::SizeSet scope);
  // Told before (narrator_worked.cpp)
  Worked::Part part(Worked::Kind kind, const std::vector<knit::Step>& steps, knit::SizeSet scope) const;
  void told_once(Worked::Part part, std::size_t first_block, knit::SizeSet entered, const std::string& title);
  bool turn_told_before(Worked::Part part, std::size_t first_sentence, std::size_t first_chart, const std::string& times);
  void cast_on_once(const knit::Step& step, knit::SizeSet scope, Told& told);
  std::string place_of(const Worked::Part& known) const;
  void once_for_both_sides(const knit::Step& step, knit::SizeSet scope);
  void remark(const knit::Step& step, knit::SizeSet scope, const std::string& before = {});
  void expect(const knit::Step& step, knit::SizeSet scope);
  void needles_named(const knit::Step& step, knit::SizeSet scope);

  // Flow (narrator_flow.cpp)
  void enter(knit::SizeSet scope);
  void say(knit::SizeSet scope, std::string sentence);
  void settle();  // prints the facts that are due
  void end_paragraph();
  bool inside_fold() const { return fold_depth_ > 0; }
  std::string facts_text(const Due& due);
  std::string with_tension(std::string sentence, const knit::Step& step, knit::SizeSet scope);
  void remember(const knit::Step& step, knit::SizeSet scope);
  std::string title_of(const knit::Step& step, knit::SizeSet scope) const;
  std::string for_sizes(knit::SizeSet scope) const;

  const Printing& printing_;
  Charts& charts_;
  std::vector<Block>& blocks_;
  Worked& worked_;
  Paragraph open_;
  knit::SizeSet scope_;        // the sizes the text is for at this point
  knit::SizeSet block_scope_;  // and those of the heading it stands under
  std::vector<Known> known_;
  Due due_;
  Memory memory_;
  std::string lead_;                  // of the next paragraph
  std::set<std::string> used_names_;  // of needles, in the piece
  std::string section_;               // its title
  std::string piece_;                 // its name in words
  std::vector<SectionEnd> section_ends_;
  struct Begun {
    std::string title;
    knit::SizeSet scope = 0;
  };
  std::optional<Begun> begun_;        // the section being told, until it or its own part ends
  std::map<const knit::Step*, knit::SizeSet> before_charts_, counter_ahead_;
  const knit::Step* last_told_ = nullptr;   // the last step that makes or closes an edge, for its other side
  int level_ = 1;
  int fold_depth_ = 0;
  bool last_knit_ = false;              // the last sentence is plain rows
  bool break_ = false;                  // the next sentence begins a paragraph
  std::vector<Block> after_paragraph_;  // charts and remarks that wait for its end
};

}  // namespace stk::document
