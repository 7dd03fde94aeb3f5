// Where the yarn goes, and from which side.
#include "compiler/knit/fault_reporter.hpp"

namespace stk::knit {

void FaultReporter::carriage_elsewhere() {
  at<Code::Y03>().label("it is needed on the {}", f_.a ? "right" : "left")
      .help("an even number of rows brings it back to the side where they began, an odd number to the other");
}

// "R5 of the second bed" while both beds carry stitches. A needle whose bed is not known has one if it carries on one alone.
std::string FaultReporter::beside_another_bed(int needle, std::optional<runtime::Bed> bed) const {
  const std::string name = needle_text(bench_, needle);
  const auto carrying = [&](runtime::Bed on) { return bench_.machine().carrying(on); };
  if (needle < 0 || carrying(runtime::Bed::main).empty() || carrying(runtime::Bed::second).empty()) return name;
  if (!bed) {
    const bool main = carrying(runtime::Bed::main).contains(needle), second = carrying(runtime::Bed::second).contains(needle);
    if (main == second) return name;
    bed = main ? runtime::Bed::main : runtime::Bed::second;
  }
  return name + (*bed == runtime::Bed::main ? " of the main bed" : " of the second bed");
}

void FaultReporter::float_too_long() {
  Builder builder = at<Code::Y01>();
  const std::string from = beside_another_bed(f_.needle, std::nullopt), to = beside_another_bed(f_.needles.first(), f_.bed);
  const std::string past = count_text(f_.a, "stitch", "stitches");
  const runtime::YarnId second = bench_.machine().second_threaded();
  if (second.given()) {   // rows of a chart: each yarn has a path of its own, from row to row
    builder.label("in row {} of the chart the {} yarn goes from {} to {}, past {}; {} at most", f_.d + 1, f_.yarn == second ? "second" : "first", from, to, past, f_.b);
    if (f_.c == 0) builder.help("a stitch of this yarn in every row, an even number of rows without it, or `cut` it and thread it anew");
    else builder.help("stitches of this yarn closer together; in some sizes only: a chart of their own, in `only for`");
  } else if (f_.c == 2) {
    builder.label("from {} to {} it crosses {}; {} at most", from, to, count_text(f_.a, "empty needle", "empty needles"), f_.b)
        .help("stitches that have drifted apart ladder: `take off` all and `hang` them side by side, or leave fewer needles empty between them");
    cause(builder, "emptied here");
    return;
  } else if (f_.c == 3 && f_.cause != runtime::no_tag) {
    builder.label("the yarn hangs at {} and is next knitted at {}, past {}; {} at most", from, to, past, f_.b)
        .help("add these loops on the side away from the yarn, `knit 1 row`, and then those on the other side");
    cause(builder, "loops added here");
    return;
  } else if (f_.c == 3) {
    builder.label("the yarn hangs at {}, and this begins at {}, past {}; {} at most", from, to, past, f_.b);
    if (f_.bed == runtime::Bed::second) builder.help("the halves of a ring are wrapped in opposite directions: the first `carriage left`, then this one `carriage right`");
    else builder.help("begin where the yarn is: the other `carriage` side");
    return;
  } else if (f_.c == 0) {
    builder.label("the yarn hangs at {} and is next knitted at {}, past {}; {} at most", from, to, past, f_.b)
        .help("one row more or less before this brings the carriage, and the yarn, to the side where the knitting begins; `rounded to even` where the rows are worked out does it for every size");
  } else {
    builder.label("from {} to {} it passes {}; {} at most", from, to, past, f_.b).help("`floats at most …` says how far a yarn may pass");
  }
  cause(builder, "held here");
}

}  // namespace stk::knit
