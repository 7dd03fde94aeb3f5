#include "compiler/fit/stretches.hpp"

#include <algorithm>

namespace stk::fit {
namespace {

using knit::Act;
using knit::Method;
using knit::Step;

const knit::GaugeFacts* gauge_at(const knit::EditionFacts& edition, std::int32_t tension) {
  for (const knit::GaugeFacts& gauge : edition.gauges) {
    if (gauge.tension_hundredths == tension) return &gauge;
  }
  return nullptr;
}

const knit::GaugeFacts* main_gauge(const knit::EditionFacts& edition) {
  for (const knit::GaugeFacts& gauge : edition.gauges) {
    if (gauge.fabric.empty()) return &gauge;
  }
  return nullptr;
}

constexpr std::int64_t rounds_of_an_edge = 3;   // a rib's; the note on a zigzag that shuts a tube counts as many

bool knits(Act act) {
  return act == Act::knit || act == Act::knit_to_row || act == Act::knit_chart || act == Act::tuck || act == Act::slip;
}

// Needles from the first to the last; there is no needle 0.
std::int64_t needles_across(const knit::NeedleSpan& span) {
  const std::int64_t first = span.first.number, last = span.last.number;
  if (first == 0 || last == 0) return 0;
  return last - first + (first < 0 && last > 0 ? 0 : 1);
}

class Reader {
 public:
  Reader(const knit::EditionFacts& edition, std::size_t size, PieceShape& shape)
      : edition_(edition), size_(size), shape_(shape) {}

  void read(const std::vector<Step>& steps, const text::Span* technique) {
    for (const Step& step : steps) {
      if (!knit::has(step.sizes, size_)) continue;
      if (step.kind == Step::Kind::section) {
        section_ = step.title.empty() ? std::string() : step.title[std::min(size_, step.title.size() - 1)];
        if (section_.empty()) section_ = step.name;
      }
      if (step.kind == Step::Kind::operation) {
        operation(step, technique ? *technique : step.where);
        continue;
      }
      const text::Span* const inside = step.kind == Step::Kind::technique && !technique ? &step.where : technique;
      read(step.steps, inside);
      for (const std::vector<Step>& turn : step.turns) read(turn, inside);
    }
  }

 private:
  void operation(const Step& step, const text::Span& where) {
    const Act act = step.operation.act;
    const knit::SizeRecord& record = step.records[size_];
    if (knits(act)) {
      rows(step, record, where);
    } else if (act == Act::cast_on) {
      const Method method = step.operation.method;
      const bool closed = method == Method::closed_by_latch || method == Method::closed_by_crochet;
      shape_.cast_on = TopEdge{closed ? "a cast-on closed by latch or crochet" : "the cast-on", where, !closed};
      thinned_ = false;
      rounds_above_zigzag_ = method == Method::zigzag ? 0 : -1;
    } else if (act == Act::hang_edge) {
      if (!shape_.cast_on && shape_.stretches.empty()) shape_.hung_at_first = true;
      if (!shape_.splits.empty()) shape_.cast_on_hung_late = true;
    } else if (act == Act::bind_off && record.after.stitches == 0) {
      shape_.bind_off =
          TopEdge{step.operation.loose ? "the loose bind-off" : "the bind-off", where, step.operation.loose, false};
    } else if (act == Act::move && step.operation.empties == knit::Empties::out_of_work && record.emptied > 0) {
      thinned_ = true;
    } else if (act == Act::knit_by_hand ||
               ((act == Act::scrap_off || act == Act::take_off) && record.after.stitches > 0)) {
      split();
    }
  }

  void rows(const Step& step, const knit::SizeRecord& record, const text::Span& where) {
    if (record.idle) return;
    if (record.before.held > 0 || record.after.held > 0) {
      split();
      short_rows(record.amount);
      return;
    }
    const bool in_rounds = step.operation.method == Method::full;
    const std::int64_t counted = step.operation.act == Act::knit || step.operation.act == Act::knit_to_row
                                     ? record.amount
                                     : record.after.row_counter - record.before.row_counter;
    if (counted <= 0) return;
    if (!in_rounds) rounds_above_zigzag_ = -1;
    if (rounds_above_zigzag_ >= 0) rounds_above_zigzag_ += counted;
    shape_.begins_closed = shape_.begins_closed || rounds_above_zigzag_ > rounds_of_an_edge;
    Stretch stretch;
    stretch.section = section_;
    stretch.where = where;
    stretch.rows = counted;
    stretch.tube = in_rounds;
    stretch.thinned = thinned_;
    stretch.stitches = record.after.stitches;
    const bool two_beds = record.after.second_bed > 0;
    bool ladders = false;
    if (!two_beds && !thinned_) {
      const std::int64_t across = needles_across(record.after.span);
      // Needles left out since the cast-on; an eyelet's empty needle is in work and has its loop after the row.
      ladders = across > stretch.stitches;
      stretch.stitches = std::max(across, stretch.stitches);
    }
    const bool true_rib = two_beds && !in_rounds;
    stretch.fabric = step.operation.act == Act::knit_chart ? Fabric::stranded
                     : true_rib || ladders                 ? Fabric::rib
                                                           : Fabric::plain;
    const knit::GaugeFacts* gauge = gauge_at(edition_, record.after.tension_hundredths);
    if (!gauge && !true_rib) gauge = main_gauge(edition_);
    if (true_rib && gauge && gauge->fabric.empty()) gauge = nullptr;
    if (gauge) {
      stretch.sts_per_mm = gauge->stitches.value;
      stretch.rows_per_mm = gauge->rows.value;
    }
    add(std::move(stretch));
  }

  // Rows like those before make one stretch with them, so long as the place in the source is told by the first.
  void add(Stretch stretch) {
    if (!shape_.stretches.empty() && !divided_) {
      Stretch& last = shape_.stretches.back();
      if (last.section == stretch.section && last.fabric == stretch.fabric && last.stitches == stretch.stitches &&
          last.tube == stretch.tube && last.thinned == stretch.thinned && last.sts_per_mm == stretch.sts_per_mm &&
          last.rows_per_mm == stretch.rows_per_mm) {
        last.rows += stretch.rows;
        return;
      }
    }
    divided_ = false;
    shape_.stretches.push_back(std::move(stretch));
  }

  void short_rows(std::int64_t rows) {
    auto& all = shape_.short_rows;
    if (all.empty() || all.back().section != section_ || all.back().before != shape_.stretches.size()) {
      all.push_back({section_, 0, shape_.stretches.size()});
    }
    all.back().rows += rows;
  }

  void split() {
    if (shape_.splits.empty() || shape_.splits.back() != shape_.stretches.size() || !divided_) {
      shape_.splits.push_back(shape_.stretches.size());
    }
    divided_ = true;
  }

  const knit::EditionFacts& edition_;
  std::size_t size_;
  PieceShape& shape_;
  std::string section_;
  std::int64_t rounds_above_zigzag_ = -1;   // while nothing else has been knitted there
  bool thinned_ = false, divided_ = false;
};

}  // namespace

PieceShape shape_of(const knit::EditionFacts& edition, const knit::PieceFacts& piece, std::size_t size) {
  PieceShape shape;
  Reader(edition, size, shape).read(piece.first, nullptr);
  return shape;
}

}  // namespace stk::fit
