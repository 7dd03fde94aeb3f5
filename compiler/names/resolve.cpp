// The declarations of every file, and at the end what was never used.
#include "compiler/names/resolve.hpp"

#include "compiler/findings/suggest.hpp"
#include "compiler/names/resolver.hpp"
#include "compiler/syntax/parse.hpp"
#include "compiler/values/yarn_count.hpp"

namespace stk::names {

using findings::Code;

void Resolver::resolve() {
  for (const LoadedFile& loaded : program_.files()) file(loaded);
  report_circles(program_, uses_, findings_);
  report_rows_by_gauge();
  for (const Declaration& declaration : program_.declarations()) {
    check_spelling(declaration.name, declaration.span, used_at_[&declaration]);
  }
  report_unused();
}

void Resolver::file(const LoadedFile& file) {
  file_ = &file;
  for (const syntax::Item& found : file.tree.items) item(found);
}

void Resolver::item(const syntax::Item& item) {
  if (item.broken) broken_ = true;
  if (const auto* pattern = std::get_if<syntax::Pattern>(&item.node)) {
    expression(pattern->title);
    for (const syntax::Field& field : pattern->fields) {
      for (const syntax::ExprPtr& text : field.texts) expression(text);
    }
  } else if (const auto* found = std::get_if<syntax::Edition>(&item.node)) {
    edition(*found);
  } else if (const auto* setting = std::get_if<syntax::Setting>(&item.node)) {
    current_ = program_.find(file_->id, Space::value, setting->name.text);
    for (const auto* part : {&setting->value, &setting->from, &setting->to, &setting->step, &setting->text}) {
      expression(*part);
    }
    current_ = nullptr;
  } else if (const auto* table = std::get_if<syntax::Sizes>(&item.node)) {
    sizes(*table);
  } else if (const auto* ease = std::get_if<syntax::Ease>(&item.node)) {
    for (const syntax::EaseRange& range : ease->ranges) {
      expression(range.from);
      expression(range.to);
    }
  } else if (const auto* floats = std::get_if<syntax::Floats>(&item.node)) {
    expression(floats->limit);
  } else if (const auto* finished = std::get_if<syntax::Finished>(&item.node)) {
    expression(finished->value);
  } else if (const auto* let = std::get_if<syntax::Let>(&item.node)) {
    let_of_the_pattern(*let);
  } else if (const auto* drawn = std::get_if<syntax::Chart>(&item.node)) {
    chart(*drawn);
  } else if (const auto* worked = std::get_if<syntax::Technique>(&item.node)) {
    technique(*worked);
  } else if (const auto* piece = std::get_if<syntax::Piece>(&item.node)) {
    expression(piece->make);
    block(piece->body);
  } else if (const auto* finish = std::get_if<syntax::Finish>(&item.node)) {
    block(finish->body);
  } else if (const auto* machine = std::get_if<syntax::MachineClass>(&item.node)) {
    for (const syntax::MachineField& field : machine->fields) {
      for (const syntax::ExprPtr& value : field.values) expression(value);
    }
  }
}

void Resolver::let_of_the_pattern(const syntax::Let& let) {
  current_ = program_.find(file_->id, Space::value, let.name.text);
  if (let.has_parameters) {
    parameters_of_a_formula(let);
  } else {
    expression(let.value);
  }
  current_ = nullptr;
}

void Resolver::sizes(const syntax::Sizes& sizes) {
  for (const syntax::TableRow& row : sizes.rows) {
    if (!row.formula) continue;
    current_ = program_.find(file_->id, Space::value, row.name.text);
    expression(*row.formula);
    current_ = nullptr;
  }
}

// A body is the same in every edition; what depends on a gauge is of the sock.
void Resolver::report_rows_by_gauge() {
  if (asks_gauge_.empty()) return;
  for (const Declaration& declaration : program_.declarations()) {
    const auto* measure = std::get_if<const Measure*>(&declaration.what);
    if (!measure || !(*measure)->formula) continue;
    std::vector<const Declaration*> open{&declaration};
    std::set<const Declaration*> seen{&declaration};
    while (!open.empty()) {
      const Declaration* const next = open.back();
      open.pop_back();
      if (const auto asks = asks_gauge_.find(next); asks != asks_gauge_.end()) {
        findings_.report<Code::G10>(declaration.span, declaration.name)
            .label("this is of the body")
            .label(asks->second, "the gauge is asked for here")
            .help("work it out with `let`, below the table");
        break;
      }
      const auto uses = uses_.find(next);
      if (uses == uses_.end()) continue;
      for (const auto& [used, span] : uses->second) {
        if (used->space == Space::value && seen.insert(used).second) open.push_back(used);
      }
    }
  }
}

void Resolver::edition(const syntax::Edition& edition) {
  for (const syntax::MachineRef& machine : edition.machines) {
    if (use(Space::machine, machine.name.text, machine.name.span)) continue;
    unknown<Code::N12>(machine.name, program_.names_seen(file_->id, Space::machine),
                       "the library's classes are fine_gauge, standard_gauge, mid_gauge and bulky_gauge");
  }
  for (const syntax::Yarn& found : edition.yarns) yarn(found);
  for (const syntax::Gauge& gauge : edition.gauges) {
    expression(gauge.stitches);
    expression(gauge.rows);
    expression(gauge.over);
    if (gauge.tension) expression(gauge.tension->offset);
  }
}

void Resolver::yarn(const syntax::Yarn& yarn) {
  expression(yarn.description);
  for (const syntax::ExprPtr& property : yarn.properties) {
    const auto* count = property ? std::get_if<syntax::Fraction>(&property->node) : nullptr;
    if (!count || values::find_count_system(count->system.text)) {
      expression(property);
      continue;
    }
    std::vector<std::string> known;
    for (const values::CountSystemEntry& entry : values::count_systems()) known.emplace_back(entry.spelling);
    unknown<Code::N27>(count->system, known, "the systems are tex, dtex, denier, Nm, Ne, worsted, linen and run");
  }
  for (const syntax::YarnLabel& label : yarn.labels) {
    expression(label.length);
    expression(label.mass);
  }
  for (const syntax::YarnStock& stock : yarn.stock) {
    if (stock.balls) expression(stock.balls);
    expression(stock.size);
  }
  if (yarn.margin) expression(yarn.margin);
}

void Resolver::chart(const syntax::Chart& chart) {
  for (const syntax::Mark& mark : chart.key) use_yarn(mark.yarn);
}

// One word is a kind of value; several are a choice among these words.
void Resolver::kind_of(const syntax::Parameter& parameter) {
  static const std::vector<std::string> kinds{"needles", "sts",    "rows", "rounds", "count",
                                              "length",  "text",   "edge", "yarn"};
  if (parameter.kinds.size() != 1) return;
  const syntax::Name& kind = parameter.kinds.front();
  if (std::find(kinds.begin(), kinds.end(), kind.text) != kinds.end()) return;
  auto builder = findings_.report<Code::N01>(kind.span, kind.text);
  builder.label("no kind of value is called this");
  if (const auto near = findings::nearest_word(kind.text, kinds)) builder.help("`{}` is near", near->word);
  builder.help("the kinds are needles, sts, rows, rounds, count, length, text, edge and yarn; a choice has two words or "
               "more: `by_hand or by_carriage`");
}

void Resolver::technique(const syntax::Technique& technique) {
  current_ = program_.find(file_->id, Space::technique, technique.name.text);
  scope_.open(&technique.body);
  for (const syntax::Parameter& parameter : technique.parameters) {
    if (const Local* first = scope_.find(parameter.name.text)) {
      findings_.report<Code::N02>(parameter.name.span, parameter.name.text)
          .label("again here")
          .label(first->span, "declared here first")
          .help("give one of them another name");
      continue;
    }
    if (syntax::is_reserved(parameter.name.text)) {   // a label may be such a word, and then nothing could ask for it
      findings_.report<Code::S18>(parameter.name.span, parameter.name.text)
          .label("a name was expected here")
          .help("add something to the word: `{}_1`, `my_{}`", parameter.name.text, parameter.name.text);
      continue;
    }
    scope_.declare({Local::Kind::parameter, parameter.name.text, parameter.name.span, &parameter, nullptr});
  }
  for (const syntax::Parameter& parameter : technique.parameters) kind_of(parameter);
  for (const syntax::Parameter& parameter : technique.parameters) {
    if (parameter.fallback) argument(*parameter.fallback, parameter);
  }
  // What the contract and the sentence say may use the lets at the head of the body, so they are walked after it, while
  // the body's names still stand.
  for (const syntax::Statement& found : technique.body.statements) statement(found);
  for (const syntax::Contract& contract : technique.contracts) {
    for (const syntax::Fact& found : contract.facts) fact(found);
    expression(contract.message);
  }
  expression(technique.says);
  close_scope();
  current_ = nullptr;
}

// Only a pattern with a piece is whole enough to say that something in it is never used; a library's names are for
// others.
void Resolver::report_unused() {
  if (program_.pieces.empty() || broken_) return;
  const LoadedFile& main = program_.main();
  for (const Declaration& declaration : program_.declarations()) {
    const bool counts = std::holds_alternative<const syntax::Let*>(declaration.what) ||
                        std::holds_alternative<const syntax::Setting*>(declaration.what) ||
                        declaration.space == Space::technique || declaration.space == Space::chart;
    if (!counts || !(declaration.file() == main.id) || used_.contains(&declaration)) continue;
    if (program_.find(main.id, declaration.space, declaration.name) != &declaration) continue;  // a second one: N02
    findings_.report<Code::N03>(declaration.span, declaration.name)
        .label("nothing asks for this")
        .help("take it out, or use it where it was meant to be used");
  }
  for (const UsedFile& used : main.uses) {
    if (used_files_.contains(used.file.value) || gives_to_all(used.file)) continue;
    findings_.report<Code::N03>(used.span, used.written->library ? used.written->library->text : "this file")
        .label("nothing of it is used")
        .help("take the line out");
  }
}

// Sizes, editions and ease reach the pattern without being named.
bool Resolver::gives_to_all(text::FileId id) const {
  const LoadedFile* file = program_.file(id);
  if (!file || !file->uses.empty()) return true;
  for (const syntax::Item& item : file->tree.items) {
    if (!std::holds_alternative<syntax::Library>(item.node) && !std::holds_alternative<syntax::Let>(item.node) &&
        !std::holds_alternative<syntax::Technique>(item.node) && !std::holds_alternative<syntax::Chart>(item.node)) {
      return true;
    }
  }
  return false;
}

void Resolver::close_scope() {
  const std::vector<Local> locals = scope_.close();
  for (const Local& local : locals) check_spelling(local.name, local.span, local.uses);
  if (broken_ || file_->id.value != program_.main().id.value) return;
  for (const Local& local : locals) {
    if (local.used || local.kind == Local::Kind::turn || used_early_.contains(local.let)) continue;
    findings_.report<Code::N03>(local.span, local.name)
        .label("nothing asks for this")
        .help("take it out, or use it where it was meant to be used");
  }
}

// Names are written in small letters. The edits go over the declaration and every use in its file.
void Resolver::check_spelling(std::string_view name, text::Span span, const std::vector<text::Span>& uses) {
  std::string small(name);
  for (char& c : small) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
    if (c == '-' || c == '.') c = '_';  // a point leads into a file used as something
  }
  if (small == name) return;
  auto builder = findings_.report<Code::N15>(span, name);
  builder.label("names have small letters, digits and `_`").help("write `{}` here and wherever it is used", small);
  // An argument's label and a word in a line that was not understood are uses too, and not known here.
  const bool certain = !broken_ && program_.find(span.file, Space::value, name) != nullptr;
  builder.edit(span, small, certain ? findings::Confidence::certain : findings::Confidence::likely);
  for (const text::Span& use : uses) {
    if (use.file == span.file)
      builder.edit(use, small, certain ? findings::Confidence::certain : findings::Confidence::likely);
  }
}

void resolve(const Program& program, findings::Findings& findings) {
  Resolver(program, findings).resolve();
}

}  // namespace stk::names
