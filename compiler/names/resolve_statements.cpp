// Blocks, steps and calls of techniques: strictly from top to bottom.
#include <algorithm>

#include "compiler/findings/suggest.hpp"
#include "compiler/names/resolver.hpp"

namespace stk::names {

using findings::Code;

void Resolver::block(const syntax::Block& block) {
  scope_.open(&block);
  for (const syntax::Statement& found : block.statements) statement(found);
  close_scope();
}

void Resolver::statement(const syntax::Statement& statement) {
  if (std::holds_alternative<syntax::Invalid>(statement.node)) broken_ = true;
  if (const auto* let = std::get_if<syntax::Let>(&statement.node)) {
    let_of_a_block(*let);
  } else if (const auto* section = std::get_if<syntax::Section>(&statement.node)) {
    expression(section->title);
  } else if (const auto* only = std::get_if<syntax::OnlyFor>(&statement.node)) {
    only_for(*only);
  } else if (const auto* either = std::get_if<syntax::If>(&statement.node)) {
    choice(*either);
  } else if (const auto* nested = std::get_if<syntax::Nested>(&statement.node)) {
    block(nested->body);
  } else if (const auto* again = std::get_if<syntax::Repeat>(&statement.node)) {
    repeat(*again);
  } else if (const auto* say = std::get_if<syntax::Say>(&statement.node)) {
    expression(say->text);
    block(say->body);
  } else if (const auto* note = std::get_if<syntax::Note>(&statement.node)) {
    expression(note->text);
  } else if (const auto* expect = std::get_if<syntax::Expect>(&statement.node)) {
    for (const syntax::Fact& found : expect->facts) fact(found);
  } else if (const auto* called = std::get_if<syntax::Work>(&statement.node)) {
    work(*called);
  } else if (const auto* found = std::get_if<syntax::Step>(&statement.node)) {
    step(*found);
  }
}

void Resolver::let_of_a_block(const syntax::Let& let) {
  if (let.has_parameters) {
    parameters_of_a_formula(let);
  } else {
    expression(let.value);  // before the name is known: `let n = n + 1` means the n above, and hides it
  }
  hides(let.name);
  scope_.declare({Local::Kind::let, let.name.text, let.name.span, nullptr, &let});
}

void Resolver::only_for(const syntax::OnlyFor& only) {
  for (const syntax::Name& found : only.names) use_size(found);
  block(only.body);
}

void Resolver::choice(const syntax::If& choice) {
  expression(choice.condition);
  block(choice.then);
  if (choice.otherwise) statement(*choice.otherwise);
}

void Resolver::repeat(const syntax::Repeat& repeat) {
  expression(repeat.times);
  scope_.open(nullptr);
  if (repeat.turn) {
    hides(*repeat.turn);
    scope_.declare({Local::Kind::turn, repeat.turn->text, repeat.turn->span, nullptr, nullptr});
  }
  block(repeat.body);
  (void)scope_.close();  // a turn may be named for the reader's sake
}

void Resolver::fact(const syntax::Fact& fact) {
  expression(fact.amount);
  expression(fact.needles);
}

void Resolver::step(const syntax::Step& step) {
  expression(step.amount);
  expression(step.second_amount);
  expression(step.needles);
  for (const syntax::NamedSelection& named : step.named) expression(named.needles);
  for (const auto* edges : {&step.edges, &step.edges_to}) {
    for (const syntax::EdgeRef& edge : *edges) this->edge(edge);
  }
  if (step.tension) expression(step.tension->offset);
  for (const syntax::Clause& found : step.clauses) clause(found);
  switch (step.kind) {
    case syntax::StepKind::knit_chart:
      for (const syntax::Name& found : step.names) use_chart(found);
      break;
    case syntax::StepKind::thread:
    case syntax::StepKind::cut:
    case syntax::StepKind::rest_yarn:
    case syntax::StepKind::knit:
      for (const syntax::Name& found : step.names) use_yarn(found);
      break;
    case syntax::StepKind::thread_through:  // a cord is a piece
      for (const syntax::Name& found : step.names) {
        if (!use(Space::piece, found.text, found.span)) use_yarn(found);
      }
      break;
    default:  // `gather all as toe` gives a name
      break;
  }
}

// Edges are looked up on the machine's record; here only a parameter that stands for one is known.
void Resolver::edge(const syntax::EdgeRef& edge) {
  expression(edge.part);
  if (edge.parts.empty()) return;
  const syntax::Name& first = edge.parts.front();
  if (Local* local = scope_.find(first.text); local && local->kind == Local::Kind::parameter) local->use(first.span);
}

void Resolver::clause(const syntax::Clause& clause) {
  expression(clause.amount);
  expression(clause.second_amount);
  expression(clause.needles);
  for (const syntax::EdgeRef& found : clause.edges) edge(found);
  const bool sews = clause.kind == syntax::Clause::Kind::with && clause.name && clause.name->text != "tail";
  if ((sews || clause.kind == syntax::Clause::Kind::end_needles) && clause.name) use_yarn(*clause.name);
}

void Resolver::work(const syntax::Work& work) {
  const syntax::Name& callee = work.call.callee;
  const Declaration* found = use(Space::technique, callee.text, callee.span);
  if (found) return arguments_of_work(work.call, **std::get_if<const syntax::Technique*>(&found->what), found->span);

  for (const syntax::Argument& given : work.call.arguments) {
    // What a name stands for cannot be known here: only what surely is one is looked into.
    if (given.value && !std::holds_alternative<syntax::NameRef>(given.value->node)) expression(given.value);
  }
  if (const auto library = program_.techniques_elsewhere.find(callee.text);
      library != program_.techniques_elsewhere.end()) {
    if (quiet_about(callee.text)) return;
    findings_.report<Code::N06>(callee.span, callee.text)
        .label("the library `{}` has it, and is not used here", library->second)
        .help("write `use {}` above the sizes", library->second);
    return;
  }
  unknown<Code::N06>(callee, program_.names_seen(file_->id, Space::technique),
                     "a technique of the library needs a `use` line at the head of the file");
}

void Resolver::arguments_of_work(const syntax::Call& call, const syntax::Technique& technique, text::Span declared) {
  std::vector<const syntax::Argument*> given(technique.parameters.size(), nullptr);
  const std::string& technique_name = technique.name.text;
  bool misfit = false;
  for (std::size_t i = 0; i < call.arguments.size(); ++i) {
    const syntax::Argument& found = call.arguments[i];
    const text::Span span = found.value ? found.value->span : call.callee.span;
    std::size_t place = i;
    if (found.label) {
      const auto parameter = std::find_if(technique.parameters.begin(), technique.parameters.end(),
                                          [&](const auto& p) { return p.name.text == found.label->text; });
      place = static_cast<std::size_t>(parameter - technique.parameters.begin());
    }
    if (place >= technique.parameters.size() && found.label) {
      misfit = true;
      std::vector<std::string> labels;
      for (const syntax::Parameter& parameter : technique.parameters) labels.push_back(parameter.name.text);
      report_unknown_argument(*found.label, technique_name, labels, declared);
      if (found.value && !std::holds_alternative<syntax::NameRef>(found.value->node)) expression(found.value);
      continue;
    }
    if (!found.label && i > 0) {
      misfit = true;
      auto builder = findings_.report<Code::N10>(span, technique_name);
      builder.label("which argument this is, is not said").label(declared, "its arguments stand here");
      if (i < technique.parameters.size()) {
        const std::string& label = technique.parameters[i].name.text;
        builder.help("only the first argument may stand alone: `{}: …`", label);
        builder.edit({span.begin, span.begin, span.file}, label + ": ", findings::Confidence::likely);
      } else {
        builder.help("take out what is too much");
      }
      expression(found.value);
      continue;
    }
    if (place >= technique.parameters.size()) {
      misfit = true;
      findings_.report<Code::N10>(span, technique_name)
          .label("it takes no argument")
          .label(declared, "declared here")
          .help("write `{}()`", technique_name);
      expression(found.value);
      continue;
    }
    if (given[place]) {
      misfit = true;
      findings_.report<Code::N09>(span, technique_name, technique.parameters[place].name.text)
          .label("again here")
          .label(given[place]->value ? given[place]->value->span : call.callee.span, "the first")
          .help("keep one of them");
    }
    given[place] = &found;
    if (found.value) argument(*found.value, technique.parameters[place]);
  }
  if (misfit) return;  // what is missing may be what was misspelt
  for (std::size_t i = 0; i < given.size(); ++i) {
    const syntax::Parameter& parameter = technique.parameters[i];
    if (given[i] || parameter.fallback) continue;
    findings_.report<Code::N08>(call.callee.span, technique_name, parameter.name.text)
        .label("`{}` is missing", parameter.name.text)
        .label(parameter.name.span, "asked for here")
        .help("add `{}: …` between the brackets", parameter.name.text);
  }
}

void Resolver::report_unknown_argument(const syntax::Name& label, std::string_view callee,
                                       const std::vector<std::string>& known, text::Span declared) {
  auto builder = findings_.report<Code::N07>(label.span, callee, label.text);
  builder.label("no such argument").label(declared, "its arguments stand here");
  if (const auto near = findings::nearest_word(label.text, known)) {
    builder.help("the nearest is `{}`", near->word);
    builder.edit(label.span, near->word, near->certain ? findings::Confidence::certain : findings::Confidence::likely);
  }
}

// What an argument may be, its parameter says: an edge is looked up on the machine's record, a yarn among the yarns,
// and of a choice only its words or another choice will do.
void Resolver::argument(const syntax::Expr& value, const syntax::Parameter& parameter) {
  const auto* ref = std::get_if<syntax::NameRef>(&value.node);
  if (!ref || ref->parts.size() != 1) {
    const bool is_edge = parameter.kinds.size() == 1 && parameter.kinds.front().text == "edge";
    if (!(ref && is_edge)) expression(value);
    return;
  }
  const syntax::Name& word = ref->parts.front();
  if (parameter.kinds.size() > 1) return choice_word(word, parameter);
  const std::string_view kind = parameter.kinds.empty() ? "" : std::string_view(parameter.kinds.front().text);
  if (kind == "yarn") return use_yarn(word);
  if (kind == "edge") {
    if (Local* local = scope_.find(word.text)) local->use(word.span);
    return;
  }
  if (kind == "tension" && word.text == "MT") return;
  expression(value);
}

}  // namespace stk::names
