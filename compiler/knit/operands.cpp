// What the verbs share: needles or a count of them, rows or rounds, clauses, yarns and edges.
#include <algorithm>

#include "compiler/findings/suggest.hpp"
#include "compiler/grade/operators.hpp"
#include "compiler/knit/knitter.hpp"
#include "compiler/knit/verbs.hpp"
#include "compiler/values/format.hpp"

namespace stk::knit {

using findings::Code;
using grade::has_size;
using grade::size_bit;

bool Knitter::means_needles(const syntax::Expr& expr, const grade::Frame& frame) {
  return std::visit(
      [&](const auto& node) -> bool {
        using T = std::decay_t<decltype(node)>;
        if constexpr (std::is_same_v<T, syntax::NameRef>) {
          if (node.parts.size() != 1) return false;
          const std::string& name = node.parts.front().text;
          if (const grade::Binding* binding = frame.find(name)) return binding->value.needles().has_value();
          if (program_.find(frame.file, names::Space::value, name)) return false;
          return name == "all" || name == "empties" || name == "held";
        } else {
          return std::is_same_v<T, syntax::BedSelector> || std::is_same_v<T, syntax::HalfSelector> || std::is_same_v<T, syntax::MiddleSelector> ||
                 std::is_same_v<T, syntax::OnSideSelector> || std::is_same_v<T, syntax::OfEachSelector> || std::is_same_v<T, syntax::EverySelector> ||
                 std::is_same_v<T, syntax::NeedleRange> || std::is_same_v<T, syntax::OfSelector> || std::is_same_v<T, syntax::ExceptSelector> ||
                 std::is_same_v<T, syntax::UnionSelector>;
        }
      },
      expr.node);
}

std::optional<Knitter::Needles> Knitter::needles(const syntax::Expr& expr, Place& place, Among among, const syntax::Step* step, bool if_any) {
  if (step && !means_needles(expr, *place.frame)) {
    // `cast on 36`, `hang … on half needles`: a count, about the centre unless `placed` says from which needle.
    Counts counts = evaluator_.whole(expr, values::dimensions::sts, *place.frame, place.active);
    SizeSet good = 0;
    for (std::size_t i = 0; i < sizes_; ++i)
      if (has_size(place.active, i) && counts[i]) good |= size_bit(i);
    lose(place.active & ~good);
    place.active = good;
    if (!good) return std::nullopt;
    grade::NeedlesId id = selections_.centred(counts, good);
    if (const syntax::Clause* placed = clause(*step, syntax::Clause::Kind::placed); placed && placed->needles) {
      if (const auto* range = std::get_if<syntax::NeedleRange>(&placed->needles->node)) {
        Chosen moved = selections_[id];
        for (std::size_t i = 0; i < sizes_; ++i) {
          if (!has_size(good, i)) continue;
          const int from = needle_index(benches_[i].spec(), range->from);
          if (from < 0) {
            findings_.report<Code::C05>(placed->span).label("the bed has needles L{} to R{}", benches_[i].spec().needles / 2, (benches_[i].spec().needles + 1) / 2)
                .at(edition_, good);
            lose(good);
            return std::nullopt;
          }
          moved.needles[i][0] = runtime::NeedleSet::range(from, from + static_cast<int>(std::min<std::int64_t>(*counts[i], runtime::needle_limit)) - 1);
          moved.shape.needles[i] = benches_[i].span(moved.needles[i][0]);
        }
        id = selections_.keep(std::move(moved));
      }
    }
    return Needles{id, true};
  }
  SizeSet good = place.active;
  const auto id = selections_.choose(expr, *place.frame, among, good, if_any);
  lose(place.active & ~good);
  place.active = good;
  if (!id) return std::nullopt;
  return Needles{*id, false};
}

Knitter::Counts Knitter::passes(const syntax::Expr& expr, Place& place, bool& rounds) {
  grade::Graded value = evaluator_.evaluate(expr, *place.frame, place.active);
  rounds = false;
  for (std::size_t i = 0; i < sizes_; ++i)
    if (const values::Quantity* q = value.quantity(i); q && q->dimension == values::dimensions::rounds) rounds = true;
  return evaluator_.whole(expr, rounds ? values::dimensions::rounds : values::dimensions::rows, *place.frame, place.active);
}

const syntax::Clause* Knitter::clause(const syntax::Step& step, syntax::Clause::Kind kind, std::string_view word) const {
  for (const syntax::Clause& c : step.clauses)
    if (c.kind == kind && (word.empty() || c.word == word)) return &c;
  return nullptr;
}

bool Knitter::clauses_fit(const syntax::Step& step, std::initializer_list<std::string_view> words,
                          std::initializer_list<syntax::Clause::Kind> kinds) {
  bool fit = true;
  for (const syntax::Clause& c : step.clauses) {
    const bool known = c.kind == syntax::Clause::Kind::method ? std::find(words.begin(), words.end(), c.word) != words.end()
                                                              : std::find(kinds.begin(), kinds.end(), c.kind) != kinds.end();
    if (known) continue;
    fit = false;
    auto builder = findings_.report<Code::C39>(c.span, verb_text(step));
    builder.label("it says nothing about this step");
    if (words.size()) {
      std::string list;
      for (std::string_view w : words) list += (list.empty() ? "" : ", ") + words_of(w);
      builder.help("how it may be done: {}", list);
    }
  }
  return fit;
}

std::string Knitter::verb_text(const syntax::Step& step) const { return verb_of(step.kind); }

std::optional<std::size_t> Knitter::yarn_called(std::string_view name) const {
  for (std::size_t y = 0; y < setup_.yarns.size(); ++y)
    if (setup_.yarns[y].name == name) return y;
  return std::nullopt;
}

std::optional<std::size_t> Knitter::yarn(const syntax::Name& name) {
  // A parameter of a technique stands for the yarn it was given.
  if (const grade::Binding* binding = frame_ ? frame_->find(name.text) : nullptr)
    for (std::size_t i = 0; i < binding->value.size(); ++i)
      if (const auto* word = std::get_if<grade::Word>(&binding->value[i])) {
        syntax::Name given = name;
        given.text = word->text;
        if (given.text != name.text) return yarn(given);
      }
  const auto found = yarn_called(name.text);
  if (!found && program_.find(name.span.file, names::Space::yarn, name.text)) {   // else names/ reported it
    std::vector<std::string> known;
    for (const SetupYarn& y : setup_.yarns) known.push_back(y.name);
    auto builder = findings_.report<Code::Y22>(name.span, name.text);
    builder.label("the edition {} has no yarn of this name", setup_.name);
    if (const auto near = findings::nearest_word(name.text, known)) builder.help("`{}` is the nearest", near->word);
    else builder.help("`yarn {} \"…\"` in the edition declares it", name.text);
  }
  return found;
}

// The parts of an edge's name; a parameter of a technique at its head stands for the edge it was given.
std::vector<std::string> Knitter::path_of(const syntax::EdgeRef& ref) const {
  std::vector<std::string> path;
  for (const syntax::Name& part : ref.parts) path.push_back(part.text);
  const grade::Binding* binding = frame_ && !path.empty() ? frame_->find(path.front()) : nullptr;
  if (!binding) return path;
  for (std::size_t i = 0; i < binding->value.size(); ++i)
    if (const auto* word = std::get_if<grade::Word>(&binding->value[i])) {
      std::vector<std::string> given;
      for (std::size_t begin = 0; begin <= word->text.size();) {
        const std::size_t dot = std::min(word->text.find('.', begin), word->text.size());
        given.push_back(word->text.substr(begin, dot - begin));
        begin = dot + 1;
      }
      given.insert(given.end(), path.begin() + 1, path.end());
      return given;
    }
  return path;
}

std::string Knitter::edge_name(const syntax::EdgeRef& ref) const {
  std::string name;
  for (const std::string& part : path_of(ref)) name += (name.empty() ? "" : ".") + part;
  return name;
}

std::optional<Part> Knitter::edge(const syntax::EdgeRef& ref, std::size_t size, SizeSet& missing) const {
  Part part = benches_[size].find(path_of(ref));
  if (part.found()) return part;
  missing |= size_bit(size);
  return std::nullopt;
}

void Knitter::report_missing_edge(const syntax::EdgeRef& ref, SizeSet missing) {
  if (!missing) return;
  // A size that was left in an earlier piece lacks edges for a reason that was told.
  lose(missing);
  for (std::size_t i = 0; i < sizes_; ++i)
    if (benches_[i].lost_before) missing &= ~size_bit(i);
  if (!missing) return;
  const auto first = static_cast<std::size_t>(std::countr_zero(missing));
  const std::string name = edge_name(ref);
  const text::Span mend = sites_[sites_.tag(ref.span, *calls_)].mend;   // inside a library the call is what can be mended
  auto builder = findings_.report<Code::E25>(mend, name);
  const std::vector<std::string> path = path_of(ref);
  const bool not_cast_on = path.size() > 1 && path.back() == "cast_on" && [&] {   // the section is there, and goes on from stitches
    std::vector<std::string> side = path;
    side.back() = "left";
    return !benches_[first].find(side).edges.empty();
  }();
  builder.label("{}", not_cast_on ? "nothing was cast on here: it goes on from stitches" : "nothing of this name has come off the machine by now").at(edition_, missing);
  if (!(mend == ref.span)) builder.label(ref.span, "wanted at this step of the library");
  if (not_cast_on) builder.help("`cast_on` is the edge of what was cast on; a section that goes on from stitches has `left` and `right`");
  else if (const auto near = findings::nearest_word(name, benches_[first].known_parts())) builder.help("`{}` is the nearest", near->word);
  else builder.help("`scrap off … as NAME` names an edge; every piece and section has `left` and `right`, and `cast_on` if it was cast on");
}

std::optional<runtime::Side> Knitter::side_of(const syntax::Clause* c) const {
  if (!c || !c->side) return std::nullopt;
  if (*c->side == syntax::Side::left) return runtime::Side::left;
  if (*c->side == syntax::Side::right) return runtime::Side::right;
  return std::nullopt;
}

}  // namespace stk::knit
