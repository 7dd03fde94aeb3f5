// Declarations put where they can be found: first each file's own, then what it sees of the files that it uses.
#include "compiler/names/collect.hpp"

#include <optional>
#include <utility>

#include "compiler/findings/suggest.hpp"
#include "compiler/names/sizes_table.hpp"

namespace stk::names {

using findings::Code;
using findings::Confidence;

class Collector {
 public:
  Collector(Program& program, findings::Findings& findings) : program_(program), findings_(findings) {}

  void collect();

 private:
  void file(const LoadedFile& file);
  void item(const LoadedFile& file, const syntax::Item& item);
  void edition(const syntax::Edition& edition, text::Span span);
  void sizes();
  const syntax::Measures* measures(const syntax::Name& table);
  template <class T>
  void declare(Space space, const syntax::Name& name, const T* what);
  template <class T>
  void declare(Space space, std::string_view name, text::Span span, const T* what);
  void report_twice(std::string_view name, text::Span again, text::Span first);
  void see_used(const LoadedFile& file);

  Program& program_;
  findings::Findings& findings_;
  std::optional<Placed<syntax::Sizes>> sizes_;
  text::Span pattern_span_;
  std::map<std::uint16_t, std::map<Program::Key, const Declaration*>> own_;  // by file, without what it uses
};

template <class T>
void Collector::declare(Space space, const syntax::Name& name, const T* what) {
  declare(space, name.text, name.span, what);
}

template <class T>
void Collector::declare(Space space, std::string_view name, text::Span span, const T* what) {
  if (name.empty()) return;
  const Declaration& declaration = program_.declarations_.emplace_back(Declaration{space, name, span, what});
  auto& table = (space >= Space::size) ? program_.everywhere_ : own_[span.file.value];
  const auto [place, fresh] = table.emplace(Program::Key{space, name}, &declaration);
  if (fresh) return;
  // What a library brings along gives way to what the pattern says itself; yarns and fabrics belong to one edition
  // each.
  if (space == Space::machine || space == Space::measures) {
    if (place->second->file() == span.file) report_twice(name, span, place->second->span);
  } else if (space != Space::yarn && space != Space::fabric) {
    report_twice(name, span, place->second->span);
  }
}

void Collector::report_twice(std::string_view name, text::Span again, text::Span first) {
  // The rows of the sizes are declared last: they may stand above what they are the second of.
  if (again.file == first.file && again.begin < first.begin) std::swap(again, first);
  findings_.report<Code::N02>(again, name)
      .label("again here")
      .label(first, "declared here first")
      .help("give one of them another name");
}

void Collector::edition(const syntax::Edition& edition, text::Span span) {
  program_.editions.push_back({&edition, span});
  declare(Space::edition, edition.name, &edition);
  std::map<std::string_view, text::Span> yarns, fabrics;
  for (const syntax::Yarn& yarn : edition.yarns) {
    const auto [first, fresh] = yarns.emplace(yarn.name.text, yarn.name.span);
    if (!fresh) report_twice(yarn.name.text, yarn.name.span, first->second);
    declare(Space::yarn, yarn.name, &yarn);
  }
  for (const syntax::Gauge& gauge : edition.gauges) {
    const std::string_view name = gauge.fabric ? std::string_view(gauge.fabric->text) : "";
    const auto [first, fresh] = fabrics.emplace(name, gauge.span);
    if (!fresh) report_twice(name.empty() ? "gauge" : name, gauge.span, first->second);
    if (gauge.fabric) declare(Space::fabric, *gauge.fabric, &gauge);
  }
}

void Collector::item(const LoadedFile& file, const syntax::Item& item) {
  const text::Span span = item.span;
  // The pattern's own lists leave out what libraries declare for their own use.
  const bool own = !file.by_name;
  if (const auto* pattern = std::get_if<syntax::Pattern>(&item.node)) {
    if (program_.pattern && file.id == program_.main().id) return report_twice("pattern", span, pattern_span_);
    if (file.id == program_.main().id) program_.pattern = pattern, pattern_span_ = span;
  } else if (const auto* sizes = std::get_if<syntax::Sizes>(&item.node)) {
    if (sizes_) {
      findings_.report<Code::G05>(span)
          .label("again here")
          .label(sizes_->span, "given here first")
          .help("keep one table: a row of another file's measures is taken with `from`");
      return;
    }
    sizes_ = Placed<syntax::Sizes>{sizes, span};
  } else if (const auto* measures = std::get_if<syntax::Measures>(&item.node)) {
    declare(Space::measures, measures->name, measures);
    check_measures(*measures, findings_);
  } else if (const auto* found = std::get_if<syntax::Edition>(&item.node)) {
    edition(*found, span);
  } else if (const auto* machine = std::get_if<syntax::MachineClass>(&item.node)) {
    declare(Space::machine, machine->name, machine);
  } else if (const auto* setting = std::get_if<syntax::Setting>(&item.node)) {
    program_.settings.push_back({setting, span});
    declare(Space::value, setting->name, setting);
  } else if (const auto* ease = std::get_if<syntax::Ease>(&item.node)) {
    program_.eases.push_back({ease, span});
  } else if (const auto* floats = std::get_if<syntax::Floats>(&item.node)) {
    program_.floats.push_back({floats, span});
  } else if (const auto* finished = std::get_if<syntax::Finished>(&item.node)) {
    program_.finished.push_back({finished, span});
  } else if (const auto* let = std::get_if<syntax::Let>(&item.node)) {
    if (own) program_.lets.push_back({let, span});
    declare(Space::value, let->name, let);
  } else if (const auto* chart = std::get_if<syntax::Chart>(&item.node)) {
    if (own) program_.charts.push_back({chart, span});
    declare(Space::chart, chart->name, chart);
  } else if (const auto* technique = std::get_if<syntax::Technique>(&item.node)) {
    if (own) program_.techniques.push_back({technique, span});
    declare(Space::technique, technique->name, technique);
  } else if (const auto* piece = std::get_if<syntax::Piece>(&item.node)) {
    program_.pieces.push_back({piece, span});
    declare(Space::piece, piece->name, piece);
  } else if (const auto* finish = std::get_if<syntax::Finish>(&item.node)) {
    program_.finishes.push_back({finish, span});
  }
}

void Collector::file(const LoadedFile& file) {
  for (const syntax::Item& found : file.tree.items) item(file, found);
}

const syntax::Measures* Collector::measures(const syntax::Name& table) {
  const Program& program = program_;
  if (const Declaration* found = program.find(table.span.file, Space::measures, table.text)) {
    return *std::get_if<const syntax::Measures*>(&found->what);
  }
  auto builder = findings_.report<Code::N26>(table.span, table.text);
  builder.label("not known here");
  if (const auto near = findings::nearest_word(table.text, program.names_seen(table.span.file, Space::measures))) {
    builder.help("the nearest is `{}`", near->word);
    builder.edit(table.span, near->word, near->certain ? Confidence::certain : Confidence::likely);
  } else {
    builder.help("a table is declared in a library with `measures {} {{ … }}`", table.text);
  }
  return nullptr;
}

void Collector::sizes() {
  program_.sizes = one_size();
  if (!sizes_) return;
  program_.sizes = sizes_table(
      *sizes_, [this](const syntax::Name& table) { return measures(table); }, findings_);
  std::map<std::string_view, const SizeColumn*> columns;  // two of one name are G02
  for (const SizeColumn& column : program_.sizes.columns) {
    if (!columns.emplace(column.name, &column).second) continue;
    declare(Space::size, column.name, column.span, &column);
    if (const Declaration* edition = program_.find(column.span.file, Space::edition, column.name)) {
      report_twice(column.name, edition->span, column.span);
    }
  }
  for (const Measure& measure : program_.sizes.measures) declare(Space::value, measure.name, measure.span, &measure);
}

// What a file sees: its own names, then those of the files it uses, in order; an own name hides a used one.
void Collector::see_used(const LoadedFile& file) {
  auto& seen = program_.by_file_[file.id.value];
  seen = own_[file.id.value];
  for (const UsedFile& used : file.uses) {
    for (const auto& [key, declaration] : own_[used.file.value]) {
      std::string_view name = key.second;
      if (!used.alias.empty()) {
        name = program_.qualified_.emplace_back(used.alias + "." + std::string(name));
      }
      const auto [place, fresh] = seen.emplace(Program::Key{key.first, name}, declaration);
      if (fresh || place->second == declaration) continue;
      const bool own = place->second->file() == file.id;
      findings_.report<Code::N14>(own ? place->second->span : used.span, name)
          .label("{}", own ? "this one is meant from here on" : "the one of the file used before is meant")
          .label(declaration->span, "this one can no longer be reached")
          .help("give one of them another name, or use the file as something: `use NAME as OTHER`");
    }
  }
}

void Collector::collect() {
  for (const LoadedFile& loaded : program_.files_) file(loaded);
  sizes();
  for (const LoadedFile& loaded : program_.files_) see_used(loaded);
}

void collect(Program& program, findings::Findings& findings) {
  Collector(program, findings).collect();
}

}  // namespace stk::names
