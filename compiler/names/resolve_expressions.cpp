// Expressions, and looking names up.
#include <algorithm>

#include "compiler/findings/suggest.hpp"
#include "compiler/names/resolver.hpp"

namespace stk::names {

using findings::Code;
using findings::Confidence;

namespace {

template <class... F>
struct Overloaded : F... {
  using F::operator()...;
};
template <class... F>
Overloaded(F...) -> Overloaded<F...>;

const syntax::NameRef* single_name(const syntax::ExprPtr& expr) {
  const auto* ref = expr ? std::get_if<syntax::NameRef>(&expr->node) : nullptr;
  return ref && ref->parts.size() == 1 ? ref : nullptr;
}

std::string joined(const syntax::NameRef& ref) {
  std::string whole;
  for (const syntax::Name& part : ref.parts) whole += (whole.empty() ? "" : ".") + part.text;
  return whole;
}

}  // namespace

void Resolver::expression(const syntax::ExprPtr& expr) {
  if (expr) expression(*expr);
}

void Resolver::expression(const syntax::Expr& expr) {
  std::visit(Overloaded{
                 [&](const syntax::Invalid&) { broken_ = true; }, [&](const syntax::NameRef& ref) { name(expr, ref); },
                 [&](const syntax::Call& found) { call(expr, found); },
                 [&](const syntax::ExceptGrade& grade) { exceptions(grade); },
                 [&](const syntax::WithUnit& with) { expression(with.operand); },
                 [&](const syntax::As& as) { expression(as.operand); },
                 [&](const syntax::Text& text) {
                   for (const syntax::TextPiece& piece : text.pieces) expression(piece.value);
                 },
                 [&](const syntax::Unary& unary) { expression(unary.operand); },
                 [&](const syntax::Binary& binary) {
                   if (compares_choice(binary)) return;
                   expression(binary.left);
                   expression(binary.right);
                 },
                 [&](const syntax::Rounded& rounded) {
                   expression(rounded.operand);
                   expression(rounded.modulus);
                   expression(rounded.offset);
                 },
                 [&](const syntax::Conditional& conditional) {
                   expression(conditional.condition);
                   expression(conditional.consequent);
                   expression(conditional.alternative);
                 },
                 [&](const syntax::MiddleSelector& middle) { expression(middle.count); },
                 [&](const syntax::OnSideSelector& side) { expression(side.count); },
                 [&](const syntax::OfEachSelector& each) {
                   expression(each.count);
                   expression(each.group);
                 },
                 [&](const syntax::OfSelector& of) {
                   expression(of.selection);
                   expression(of.within);
                 },
                 [&](const syntax::ExceptSelector& except) {
                   expression(except.from);
                   expression(except.without);
                 },
                 [&](const syntax::UnionSelector& both) {
                   expression(both.left);
                   expression(both.right);
                 },
                 [&](const auto&) {},  // numbers, grades, counts, beds, halves, needles: no names in them
             },
             expr.node);
}

void Resolver::name(const syntax::Expr& expr, const syntax::NameRef& ref) {
  if (ref.parts.empty()) return;
  const syntax::Name& first = ref.parts.front();
  if (ref.parts.size() > 1) {
    const std::string whole = joined(ref);
    if (use(Space::value, whole, expr.span)) return;
    return unknown<Code::N01>({whole, expr.span}, {},
                              "a name with a point in it means one of a file used as something");
  }
  if (Local* local = scope_.find(first.text)) {
    local->use(first.span);
    return;
  }
  if (use(Space::value, first.text, first.span) || is_builtin_selection(first.text)) return;
  if (const syntax::Let* later = scope_.later(first.text)) {
    mark_used(first.text);
    findings_.report<Code::N16>(first.span, first.text)
        .label("not known yet")
        .label(later->name.span, "it is said only here")
        .help("inside a piece or technique a `let` is known from its line on: move it up");
    used_early_.insert(later);
    return;
  }
  if (first.text == "MT") {
    findings_.report<Code::N01>(first.span, first.text)
        .label("the main tension is no value")
        .help("a tension stands in `tension MT - 2` and behind a gauge; a number may be named: `let firmer = 2`, and then "
              "`tension MT - firmer`");
    return;
  }
  std::vector<std::string> known = scope_.names();
  for (std::string& seen : program_.names_seen(file_->id, Space::value)) known.push_back(std::move(seen));
  for (const char* built_in : {"all", "empties", "held"}) known.emplace_back(built_in);
  unknown<Code::N01>(first, std::move(known), "a name is declared with `let`, as a row of the sizes or as a setting");
}

void Resolver::call(const syntax::Expr& expr, const syntax::Call& call) {
  const syntax::Name& callee = call.callee;
  Local* local = scope_.find(callee.text);
  if (local && local->let) {
    local->use(callee.span);
    return formula_call(expr, call, *local->let);
  }
  if (const Declaration* found = use(Space::value, callee.text, callee.span)) {
    if (const auto* let = std::get_if<const syntax::Let*>(&found->what)) return formula_call(expr, call, **let);
  }
  if (const BuiltinEntry* entry = find_builtin(callee.text)) return builtin_call(expr, call, *entry);

  for (const syntax::Argument& given : call.arguments) expression(given.value);
  std::vector<std::string> known;
  for (const BuiltinEntry& entry : builtins()) known.emplace_back(entry.name);
  for (std::string& seen : program_.names_seen(file_->id, Space::value)) known.push_back(std::move(seen));
  unknown<Code::N01>(callee, std::move(known), "a formula is declared with `let NAME(…) = …`");
}

void Resolver::builtin_call(const syntax::Expr& expr, const syntax::Call& call, const BuiltinEntry& entry) {
  if (call.arguments.size() < entry.least || call.arguments.size() > entry.most) {
    auto builder = findings_.report<Code::N10>(expr.span, entry.name);
    builder.label("{} given", call.arguments.size());
    if (entry.least == entry.most) {
      builder.help("`{}` takes {}", entry.name, entry.least);
    } else if (entry.most == any_number) {
      builder.help("`{}` takes {} or more", entry.name, entry.least);
    } else {
      builder.help("`{}` takes {} or {}", entry.name, entry.least, entry.most);
    }
  }
  if (entry.takes_fabric && current_) asks_gauge_.emplace(current_, expr.span);
  for (std::size_t i = 0; i < call.arguments.size(); ++i) {
    const syntax::Argument& given = call.arguments[i];
    bool is_fabric = entry.takes_fabric && i == 1;
    if (given.label) {
      const auto label = std::find(entry.labels.begin(), entry.labels.end(), given.label->text);
      if (label == entry.labels.end()) {
        report_unknown_argument(*given.label, entry.name, {entry.labels.begin(), entry.labels.end()}, call.callee.span);
      }
      is_fabric = entry.takes_fabric && given.label->text == "fabric";
    }
    const syntax::NameRef* fabric = is_fabric ? single_name(given.value) : nullptr;
    if (fabric) {
      use_fabric(fabric->parts.front());
    } else {
      expression(given.value);
    }
  }
}

void Resolver::formula_call(const syntax::Expr& expr, const syntax::Call& call, const syntax::Let& let) {
  for (const syntax::Argument& given : call.arguments) {
    expression(given.value);
    if (!given.label) continue;
    std::vector<std::string> known;
    for (const syntax::Name& parameter : let.parameters) known.push_back(parameter.text);
    if (std::find(known.begin(), known.end(), given.label->text) == known.end()) {
      report_unknown_argument(*given.label, let.name.text, known, let.name.span);
    }
  }
  if (call.arguments.size() == let.parameters.size() && let.has_parameters) return;
  auto builder = findings_.report<Code::N10>(expr.span, let.name.text);
  builder.label("{} given", call.arguments.size()).label(let.name.span, "declared here");
  if (let.has_parameters) {
    builder.help("`{}` takes {}", let.name.text, let.parameters.size());
  } else {
    builder.help("`{0}` is a value: write `{0}` alone, and `*` to multiply", let.name.text);
  }
}

void Resolver::parameters_of_a_formula(const syntax::Let& let) {
  scope_.open(nullptr);
  for (const syntax::Name& parameter : let.parameters) {
    if (const Local* first = scope_.find(parameter.text); first && first->kind == Local::Kind::parameter) {
      findings_.report<Code::N02>(parameter.span, parameter.text)
          .label("again here")
          .label(first->span, "declared here first")
          .help("give one of them another name");
      continue;
    }
    scope_.declare({Local::Kind::parameter, parameter.text, parameter.span, nullptr, nullptr});
  }
  expression(let.value);
  close_scope();
}

// `wrap is by_hand`: the word belongs to the parameter's choices and is no name of its own.
bool Resolver::compares_choice(const syntax::Binary& binary) {
  using Op = syntax::Binary::Op;
  if (binary.op != Op::is && binary.op != Op::is_not) return false;
  for (const auto& [asked, word] : {std::pair(&binary.left, &binary.right), std::pair(&binary.right, &binary.left)}) {
    const syntax::Parameter* parameter = choice_parameter(*asked);
    const syntax::NameRef* ref = single_name(*word);
    if (!parameter || !ref) continue;
    expression(*asked);
    choice_word(ref->parts.front(), *parameter);
    return true;
  }
  return false;
}

const syntax::Parameter* Resolver::choice_parameter(const syntax::ExprPtr& expr) {
  const syntax::NameRef* ref = single_name(expr);
  const Local* local = ref ? scope_.find(ref->parts.front().text) : nullptr;
  return local && local->parameter && local->parameter->kinds.size() > 1 ? local->parameter : nullptr;
}

void Resolver::choice_word(const syntax::Name& word, const syntax::Parameter& parameter) {
  std::vector<std::string> words;
  for (const syntax::Name& kind : parameter.kinds) words.push_back(kind.text);
  if (std::find(words.begin(), words.end(), word.text) != words.end()) return;
  if (Local* local = scope_.find(word.text)) {  // a choice handed on: wrap: wrap
    local->use(word.span);
    return;
  }
  std::string list = words.front();
  for (std::size_t i = 1; i < words.size(); ++i) list += (i + 1 == words.size() ? " or " : ", ") + words[i];
  auto builder = findings_.report<Code::N23>(word.span, word.text, parameter.name.text);
  builder.label("not one of the choices").label(parameter.name.span, "{}", list).help("the choices are {}", list);
  if (const auto near = findings::nearest_word(word.text, words)) {
    builder.edit(word.span, near->word, near->certain ? Confidence::certain : Confidence::likely);
  }
}

void Resolver::exceptions(const syntax::ExceptGrade& grade) {
  std::map<std::string_view, text::Span> seen;
  for (const auto& [size, value] : grade.exceptions) {
    use_size(size);
    const auto [first, fresh] = seen.emplace(size.text, size.span);
    if (fresh) continue;
    findings_.report<Code::G02>(size.span, size.text)
        .label("again here")
        .label(first->second, "the first")
        .help("keep one value for each size");
  }
}

// ---------------------------------------------------------------------------------------------------------- looking up

const Declaration* Resolver::use(Space space, std::string_view name, text::Span span) {
  const Declaration* found = program_.find(file_->id, space, name);
  if (!found) return nullptr;
  used_.insert(found);
  used_at_[found].push_back(span);
  if (!(found->file() == file_->id)) used_files_.insert(found->file().value);
  if (current_) uses_[current_].emplace_back(found, span);
  return found;
}

void Resolver::use_yarn(const syntax::Name& name) {
  if (Local* local = scope_.find(name.text)) {
    local->use(name.span);
    return;
  }
  if (use(Space::yarn, name.text, name.span)) return;
  // A library is written without knowing the pattern's yarns; that one is missing is said where the step is knitted.
  if (file_->by_name || program_.editions.empty()) return;
  unknown<Code::N11>(name, program_.names_seen(file_->id, Space::yarn),
                     "an edition declares it: yarn NAME \"what it is\"");
}

void Resolver::use_chart(const syntax::Name& name) {
  if (use(Space::chart, name.text, name.span)) return;
  unknown<Code::N13>(name, program_.names_seen(file_->id, Space::chart),
                     "a chart is drawn with `chart NAME … {{ … }}`");
}

void Resolver::use_fabric(const syntax::Name& name) {
  if (Local* local = scope_.find(name.text)) {
    local->use(name.span);
    return;
  }
  if (use(Space::fabric, name.text, name.span) || file_->by_name || program_.editions.empty()) return;
  unknown<Code::N22>(name, program_.names_seen(file_->id, Space::fabric),
                     "a second fabric's gauge is named in the edition: gauge NAME 24 sts, 38 rows to 10 cm");
}

void Resolver::use_size(const syntax::Name& name) {
  if (use(Space::size, name.text, name.span) || use(Space::edition, name.text, name.span) || file_->by_name) return;
  std::vector<std::string> known = program_.names_seen(file_->id, Space::size);
  for (std::string& edition : program_.names_seen(file_->id, Space::edition)) known.push_back(std::move(edition));
  unknown<Code::N05>(name, std::move(known), "sizes stand in the first line of the sizes table");
}

// Words of a line that was not understood may have declared the name, and so may a file that could not be read.
bool Resolver::quiet_about(std::string_view name) {
  if (file_->incomplete || file_->broken_words.contains(name)) return true;
  for (const UsedFile& used : file_->uses) {
    const LoadedFile* other = program_.file(used.file);
    if (other && other->broken_words.contains(name)) return true;
  }
  return !reported_.emplace(file_->id.value, name).second;
}

void Resolver::mark_used(std::string_view name) {
  if (Local* local = scope_.find(name)) local->used = true;
  for (const Space space : {Space::value, Space::technique, Space::chart}) {
    if (const Declaration* found = program_.find(file_->id, space, name)) {
      used_.insert(found);
      used_files_.insert(found->file().value);
    }
  }
}

template <Code C>
void Resolver::unknown(const syntax::Name& name, std::vector<std::string> known, std::string_view help) {
  if (quiet_about(name.text)) return;
  auto builder = findings_.report<C>(name.span, name.text);
  builder.label("not known here");
  const auto qualified = std::find_if(known.begin(), known.end(), [end = "." + name.text](const std::string& other) {
    return other.size() > end.size() && other.compare(other.size() - end.size(), end.size(), end) == 0;
  });
  if (qualified != known.end()) {
    builder.help("a file used as something is named first: `{}`", *qualified);
    builder.edit(name.span, *qualified, Confidence::likely);
    mark_used(*qualified);
  } else if (const auto near = findings::nearest_word(name.text, known)) {
    builder.help("the nearest is `{}`", near->word);
    builder.edit(name.span, near->word, near->certain ? Confidence::certain : Confidence::likely);
    mark_used(near->word);
  } else {
    builder.help("{}", help);
  }
}

template void Resolver::unknown<Code::N06>(const syntax::Name&, std::vector<std::string>, std::string_view);
template void Resolver::unknown<Code::N12>(const syntax::Name&, std::vector<std::string>, std::string_view);
template void Resolver::unknown<Code::N27>(const syntax::Name&, std::vector<std::string>, std::string_view);

// A parameter may share its name with a let of the pattern, for its label says what it is; a let that does so confuses.
void Resolver::hides(const syntax::Name& name) {
  const Local* local = scope_.find(name.text);
  const Declaration* outer = local ? nullptr : program_.find(file_->id, Space::value, name.text);
  if (!local && !outer && !is_builtin_selection(name.text)) return;
  auto builder = findings_.report<Code::N14>(name.span, name.text);
  builder.label("this one is meant from here on");
  if (local || outer) {
    builder.label(local ? local->span : outer->span, "this one can no longer be reached");
  } else {
    builder.note("`{}` alone means a set of needles", name.text);
  }
  builder.help("give one of them another name");
}

}  // namespace stk::names
