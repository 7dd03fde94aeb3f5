#include "compiler/document/folding.hpp"

#include <algorithm>
#include <optional>

namespace stk::document {

namespace {

using knit::Operation;
using knit::Selection;
using knit::SizeRecord;
using knit::SizeSet;
using knit::Step;
using Kind = Step::Kind;
using Steps = std::vector<Step>;

bool silent(const Step& step) {  // says nothing that belongs to a turn
  return is_remark(step) || step.kind == Kind::needles_named || step.kind == Kind::expect;
}

std::int64_t at(const std::vector<std::int64_t>& values, std::size_t size) {
  return size < values.size() ? values[size] : 0;
}

bool alike(const Selection& a, const Selection& b, std::size_t size, std::int64_t shrink) {
  if (a.kind != b.kind || a.where != b.where || a.bed != b.bed || a.both_beds != b.both_beds || a.name != b.name) return false;
  const std::int64_t less = a.kind == Selection::Kind::of_each ? shrink : 0;
  if (at(a.count, size) != at(b.count, size) || at(a.group, size) - less != at(b.group, size)) return false;
  return std::equal(a.parts.begin(), a.parts.end(), b.parts.begin(), b.parts.end(),
                    [&](const Selection& x, const Selection& y) { return alike(x, y, size, shrink); });
}

bool alike(const Operation& a, const Operation& b, std::size_t size, std::int64_t shrink) {
  return a.act == b.act && a.method == b.method && a.edges == b.edges && a.edges_to == b.edges_to &&
         a.yarns == b.yarns && a.empties == b.empties && a.side == b.side && a.way == b.way &&
         a.each_side == b.each_side && a.inset == b.inset && a.loose == b.loose &&
         std::equal(a.selections.begin(), a.selections.end(), b.selections.begin(), b.selections.end(),
                    [&](const Selection& x, const Selection& y) { return alike(x, y, size, shrink); });
}

// What may differ between two turns that are told as one.
struct Apart {
  bool wraps = false;  // the second may find no needle to wrap where the first does
  bool rows = false;   // they may knit another number of rows
  std::int64_t shrink = 0;   // the second counts groups of so many less
};

// Where the needles lie changes from turn to turn as the work narrows; what is done to them does not.
bool alike(const SizeRecord& a, const SizeRecord& b) {
  return a.idle == b.idle && a.amount == b.amount && a.target == b.target && a.emptied == b.emptied &&
         a.second_amount == b.second_amount && a.length == b.length &&
         a.before.tension_hundredths == b.before.tension_hundredths;
}

bool alike(const Steps& a, const Steps& b, std::size_t size, Apart apart = {});

bool alike(const Step& a, const Step& b, std::size_t size, Apart apart) {
  if (a.kind != b.kind || knit::has(a.sizes, size) != knit::has(b.sizes, size)) return false;
  if (!knit::has(a.sizes, size)) return true;
  if (a.kind == Kind::operation) {
    if (!alike(a.operation, b.operation, size, apart.shrink)) return false;
    if (apart.wraps && a.operation.act == knit::Act::wrap && b.records[size].idle) return true;
    if (apart.rows && a.operation.act == knit::Act::knit) return true;
    return alike(a.records[size], b.records[size]);
  }
  if (a.kind == Kind::repeat) {
    if (a.turns.size() != b.turns.size() || a.records[size].amount != b.records[size].amount) return false;
    for (std::size_t turn = 0; turn < a.turns.size(); ++turn) {
      if (!alike(a.turns[turn], b.turns[turn], size, apart)) return false;
    }
    return true;
  }
  return a.title == b.title && alike(a.steps, b.steps, size, apart);
}

bool alike(const Steps& a, const Steps& b, std::size_t size, Apart apart) {
  auto x = a.begin();
  auto y = b.begin();
  // What a size does not reach, and what is no part of a turn, is passed over on both sides.
  const auto skip = [&](auto& step, auto end) {
    while (step != end && (silent(*step) || !knit::has(step->sizes, size))) ++step;
  };
  while (true) {
    skip(x, a.end());
    skip(y, b.end());
    if (x == a.end() || y == b.end()) return x == a.end() && y == b.end();
    if (!alike(*x, *y, size, apart)) return false;
    ++x;
    ++y;
  }
}

// Turns first … first + period - 1 of a size, done `times` times.
struct Group {
  std::size_t first = 0, period = 1;
  std::int64_t times = 1;
  std::int64_t unwrapped = 0;  // the last so many of them
  std::int64_t last_group = 0;   // its groups have shrunk to so many
};

std::int64_t group_in(const Selection& selection, std::size_t size) {
  if (selection.kind == Selection::Kind::of_each) return at(selection.group, size);
  for (const Selection& part : selection.parts) {
    if (const std::int64_t group = group_in(part, size); group > 0) return group;
  }
  return 0;
}

// Of how many the groups are that a turn counts.
std::int64_t group_in(const Steps& steps, std::size_t size) {
  for (const Step& step : steps) {
    if (!knit::has(step.sizes, size)) continue;
    for (const Selection& selection : step.operation.selections) {
      if (const std::int64_t group = group_in(selection, size); group > 0) return group;
    }
    if (const std::int64_t group = group_in(step.steps, size); group > 0) return group;
  }
  return 0;
}

std::vector<Group> groups_of(const Step& repeat, std::size_t size) {
  const std::size_t kept =
      std::min(repeat.turns.size(), static_cast<std::size_t>(std::max<std::int64_t>(0, repeat.records[size].amount)));
  std::vector<Group> groups;
  constexpr std::size_t longest_period = 4;
  for (std::size_t turn = 0; turn < kept;) {
    // The period that covers the most turns from here; a single run of equal turns is period 1.
    Group best{turn, 1, 1, 0, 0};
    for (std::size_t period = 1; period <= longest_period && turn + 2 * period <= kept; ++period) {
      std::size_t end = turn;
      while (end + period < kept && alike(repeat.turns[end], repeat.turns[end + period], size)) ++end;
      const std::size_t times = (end - turn) / period + 1;
      if (times > 1 && times * period > static_cast<std::size_t>(best.times) * best.period) {
        best = {turn, period, static_cast<std::int64_t>(times), 0, 0};
      }
    }
    groups.push_back(best);
    turn += best.period * static_cast<std::size_t>(best.times);
  }
  if (groups.size() == 2 && groups[0].period == 1 && groups[1].period == 1 &&
      alike(repeat.turns[groups[0].first], repeat.turns[groups[1].first], size, {true, false, 0})) {
    groups = {{groups[0].first, 1, groups[0].times + groups[1].times, groups[1].times, 0}};
  }
  if (kept > 1 && groups.size() == kept) {   // no two alike: does each count one less?
    std::size_t turn = 1;
    while (turn < kept && alike(repeat.turns[turn - 1], repeat.turns[turn], size, {false, false, 1})) ++turn;
    if (turn == kept) groups = {{0, 1, static_cast<std::int64_t>(kept), 0, group_in(repeat.turns[kept - 1], size)}};
  }
  // Turns beyond those kept are like the last.
  const std::int64_t unkept = repeat.records[size].amount - static_cast<std::int64_t>(kept);
  if (!groups.empty() && unkept > 0) groups.back().times += unkept / static_cast<std::int64_t>(groups.back().period);
  return groups;
}

knit::MachineState end_of(const Steps& turn, std::size_t size) {
  for (auto step = turn.rbegin(); step != turn.rend(); ++step) {
    if (const knit::MachineState* state = last_state(*step, size)) return *state;
  }
  return {};
}

// Whether two sizes' turns can be told in one text: the same steps, whatever their numbers.
bool same_shape(const Steps& a, std::size_t size_a, const Steps& b, std::size_t size_b);

bool same_shape(const Step& a, std::size_t size_a, const Step& b, std::size_t size_b) {
  return a.kind == b.kind && a.operation.act == b.operation.act && a.where == b.where &&
         same_shape(a.steps, size_a, b.steps, size_b);
}

bool same_shape(const Steps& a, std::size_t size_a, const Steps& b, std::size_t size_b) {
  auto x = a.begin();
  auto y = b.begin();
  const auto skip = [](auto& step, auto end, std::size_t size) {
    while (step != end && (silent(*step) || !knit::has(step->sizes, size))) ++step;
  };
  while (true) {
    skip(x, a.end(), size_a);
    skip(y, b.end(), size_b);
    if (x == a.end() || y == b.end()) return x == a.end() && y == b.end();
    if (!same_shape(*x, size_a, *y, size_b)) return false;
    ++x;
    ++y;
  }
}

bool told_together(const Step& repeat, const std::vector<Group>& a, std::size_t size_a, const std::vector<Group>& b,
                   std::size_t size_b) {
  if (a.size() != b.size()) return false;
  for (std::size_t g = 0; g < a.size(); ++g) {
    if (a[g].period != b[g].period || (a[g].unwrapped == 0) != (b[g].unwrapped == 0)) return false;
    if ((a[g].last_group == 0) != (b[g].last_group == 0)) return false;
    for (std::size_t turn = 0; turn < a[g].period; ++turn) {
      if (!same_shape(repeat.turns[a[g].first + turn], size_a, repeat.turns[b[g].first + turn], size_b)) return false;
    }
  }
  return true;
}

// Puts one size's records from its own turn over the model's. The steps of a turn stand in one order in every turn, so
// they are matched by their place in the source.
void lay_over(Steps& model, const Steps& own, std::size_t size) {
  std::size_t from = 0;
  for (Step& step : model) {
    std::size_t i = from;
    while (i < own.size() && !(own[i].kind == step.kind && own[i].where == step.where)) ++i;
    const SizeSet bit = SizeSet{1} << size;
    if (i == own.size()) {  // the size's turn has no such step
      step.sizes &= ~bit;
      continue;
    }
    from = i + 1;
    step.sizes = (step.sizes & ~bit) | (own[i].sizes & bit);
    if (size < step.records.size() && size < own[i].records.size()) step.records[size] = own[i].records[size];
    if (step.kind == Kind::repeat && own[i].turns.size() > step.turns.size()) {
      step.turns.insert(step.turns.end(), own[i].turns.begin() + static_cast<std::ptrdiff_t>(step.turns.size()),
                        own[i].turns.end());
    }
    lay_over(step.steps, own[i].steps, size);
    for (std::size_t turn = 0; turn < std::min(step.turns.size(), own[i].turns.size()); ++turn) {
      lay_over(step.turns[turn], own[i].turns[turn], size);
    }
  }
}

}  // namespace

const knit::MachineState* last_state(const Step& step, std::size_t size) {
  if (!knit::has(step.sizes, size)) return nullptr;
  if (step.kind == Kind::operation) return size < step.records.size() ? &step.records[size].after : nullptr;
  const auto last_of = [size](const Steps& steps) -> const knit::MachineState* {
    for (auto child = steps.rbegin(); child != steps.rend(); ++child) {
      if (const auto* state = last_state(*child, size)) return state;
    }
    return nullptr;
  };
  if (step.kind != Kind::repeat) return last_of(step.steps);
  for (auto turn = step.turns.rbegin(); turn != step.turns.rend(); ++turn) {
    if (const auto* state = last_of(*turn)) return state;
  }
  return nullptr;
}

bool is_remark(const Step& step) {
  switch (step.kind) {
    case Kind::note:
    case Kind::caution:
      return true;
    case Kind::only_for:
    case Kind::condition:
      return !step.steps.empty() && std::all_of(step.steps.begin(), step.steps.end(), is_remark);
    default:
      return false;
  }
}

std::vector<FoldClass> fold_turns(const Step& repeat, SizeSet scope) {
  const std::size_t size_count = repeat.records.size();
  std::vector<std::vector<Group>> groups(size_count);
  std::vector<FoldClass> classes;
  std::vector<std::size_t> models;  // the first size of each class
  for (std::size_t size = 0; size < size_count; ++size) {
    if (!knit::has(scope & repeat.sizes, size)) continue;
    groups[size] = groups_of(repeat, size);
    if (groups[size].empty()) continue;  // 0 times
    const auto model = std::find_if(models.begin(), models.end(), [&](std::size_t m) {
      return told_together(repeat, groups[m], m, groups[size], size);
    });
    if (model == models.end()) {
      models.push_back(size);
      classes.push_back({SizeSet{1} << size, {}});
    } else {
      classes[static_cast<std::size_t>(model - models.begin())].sizes |= SizeSet{1} << size;
    }
  }
  for (std::size_t c = 0; c < classes.size(); ++c) {
    const std::vector<Group>& model = groups[models[c]];
    for (std::size_t g = 0; g < model.size(); ++g) {
      Fold fold;
      fold.times.resize(size_count);
      fold.unwrapped.resize(size_count);
      fold.last_group.resize(size_count);
      fold.after.resize(size_count);
      for (std::size_t turn = 0; turn < model[g].period; ++turn) {
        Steps body = repeat.turns[model[g].first + turn];
        for (std::size_t size = 0; size < size_count; ++size) {
          if (!knit::has(classes[c].sizes, size)) continue;
          lay_over(body, repeat.turns[groups[size][g].first + turn], size);
          const Group& own = groups[size][g];
          fold.times[size] = own.times;
          fold.unwrapped[size] = own.unwrapped;
          fold.last_group[size] = own.last_group;
          const std::size_t end = own.first + own.period * static_cast<std::size_t>(own.times);
          fold.after[size] =
              end > repeat.turns.size() ? repeat.records[size].after : end_of(repeat.turns[end - 1], size);
        }
        for (Step& step : body) fold.body.push_back(std::move(step));
      }
      classes[c].folds.push_back(std::move(fold));
    }
  }
  return classes;
}

UnevenRows uneven_rows(const Step& repeat, SizeSet scope) {
  UnevenRows result;
  result.rows.resize(repeat.records.size());
  const Steps* model = nullptr;
  std::size_t model_size = 0;
  for (std::size_t size = 0; size < repeat.records.size(); ++size) {
    if (!knit::has(scope & repeat.sizes, size)) continue;
    if (static_cast<std::size_t>(repeat.records[size].amount) > repeat.turns.size()) return {};  // not all were kept
    for (std::size_t turn = 0; turn < static_cast<std::size_t>(repeat.records[size].amount); ++turn) {
      const Steps& steps = repeat.turns[turn];
      if (model == nullptr) {
        model = &steps;
        model_size = size;
      }
      if (!same_shape(*model, model_size, steps, size)) return {};
      if (!alike(repeat.turns[0], steps, size, {false, true, 0})) return {};
      std::size_t knits = 0, others = 0;
      for (const Step& step : steps) {
        if (silent(step) || !knit::has(step.sizes, size)) continue;
        if (step.kind != Kind::operation) return {};
        if (step.operation.act == knit::Act::knit) {
          result.before = others == 0;
          result.rows[size].push_back(step.records[size].amount);
          ++knits;
        } else {
          ++others;
        }
      }
      const bool in_the_middle = !result.before && !steps.empty() && others > 0 &&
                                 result.rows[size].size() == turn + 1 && steps.back().operation.act != knit::Act::knit;
      if (knits != 1 || others == 0 || in_the_middle) return {};
    }
  }
  return result;
}

namespace {

void collect_remarks(const Steps& steps, const Step& repeat, std::size_t turn, SizeSet scope,
                     std::vector<TurnRemark>& found) {
  for (const Step& step : steps) {
    if (!is_remark(step)) continue;
    if (step.kind != Kind::note && step.kind != Kind::caution) {
      collect_remarks(step.steps, repeat, turn, scope & step.sizes, found);
      continue;
    }
    auto known =
        std::find_if(found.begin(), found.end(), [&](const TurnRemark& r) { return r.remark->where == step.where; });
    if (known == found.end()) {
      found.push_back({&step, 0, std::vector<std::int64_t>(repeat.records.size()), true});
      known = found.end() - 1;
      known->every_turn = turn == 0;
    }
    for (std::size_t size = 0; size < repeat.records.size(); ++size) {
      if (!knit::has(scope & step.sizes, size) || repeat.records[size].amount <= static_cast<std::int64_t>(turn))
        continue;
      known->sizes |= SizeSet{1} << size;
      if (known->turn[size] == 0) known->turn[size] = static_cast<std::int64_t>(turn) + 1;
    }
  }
}

}  // namespace

std::vector<TurnRemark> remarks_in_turns(const Step& repeat, SizeSet scope) {
  std::vector<TurnRemark> found;
  for (std::size_t turn = 0; turn < repeat.turns.size(); ++turn) {
    collect_remarks(repeat.turns[turn], repeat, turn, scope & repeat.sizes, found);
  }
  // One that is missing from a later turn belongs to its own turns.
  for (TurnRemark& remark : found) {
    for (const Steps& turn : repeat.turns) {
      std::vector<TurnRemark> here;
      collect_remarks(turn, repeat, 0, scope & repeat.sizes, here);
      remark.every_turn = remark.every_turn && std::any_of(here.begin(), here.end(), [&](const TurnRemark& r) {
                            return r.remark->where == remark.remark->where;
                          });
    }
  }
  return found;
}

}  // namespace stk::document
