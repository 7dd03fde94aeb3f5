// Reading a pattern and every file that it uses, depth first, each file once.
#include "compiler/names/load.hpp"

#include <algorithm>
#include <map>

#include "compiler/findings/suggest.hpp"
#include "compiler/names/broken.hpp"
#include "compiler/names/collect.hpp"
#include "compiler/names/elsewhere.hpp"
#include "compiler/syntax/parse.hpp"
#include "compiler/text/limits.hpp"

namespace stk::names {

using findings::Code;
using findings::Confidence;

class Loader {
 public:
  Loader(text::Files& files, text::Sources& sources, findings::Findings& findings)
      : files_(files), sources_(sources), findings_(findings) {}

  Program load(text::FileId main);

 private:
  LoadedFile& parse(const text::Source& source, bool by_name);
  void follow_uses(LoadedFile& file);
  void follow(LoadedFile& file, const syntax::Use& use, text::Span span);
  void require_library(const LoadedFile& used, text::Span span);
  void load_prelude(const std::string& library);
  void report_circle(const std::string& name, text::Span span);
  void report_missing(const syntax::Use& use, text::Span span, const std::string& asked, const std::string& reason);
  template <class T>
  bool any() const;

  text::Files& files_;
  text::Sources& sources_;
  findings::Findings& findings_;
  Program program_;
  std::map<std::string, LoadedFile*> loaded_;  // by the name that Files gave
  std::vector<const LoadedFile*> chain_;       // the files being read, from the main one inwards
  bool limit_reported_ = false;
};

namespace {

// The path of `use "shared-sizes.stk"`; nothing if it has an expression in braces, or was not understood.
std::optional<std::string> literal(const syntax::ExprPtr& expr) {
  const auto* text = expr ? std::get_if<syntax::Text>(&expr->node) : nullptr;
  if (!text) return std::nullopt;
  std::string whole;
  for (const syntax::TextPiece& piece : text->pieces) {
    if (piece.value) return std::nullopt;
    whole += piece.literal;
  }
  return whole;
}

}  // namespace

LoadedFile& Loader::parse(const text::Source& source, bool by_name) {
  LoadedFile& file = program_.files_.emplace_back();
  file.id = source.id();
  file.name = source.name();
  file.by_name = by_name;
  file.tree = syntax::parse(source, findings_);
  file.broken_words = broken_words(file.tree, source);
  loaded_.emplace(source.name(), &file);
  return file;
}

void Loader::follow_uses(LoadedFile& file) {
  chain_.push_back(&file);
  for (const syntax::Item& item : file.tree.items) {
    if (const auto* use = std::get_if<syntax::Use>(&item.node)) follow(file, *use, item.span);
  }
  chain_.pop_back();
}

void Loader::follow(LoadedFile& file, const syntax::Use& use, text::Span span) {
  const bool by_name = use.library.has_value();
  const std::optional<std::string> path = by_name ? use.library->text : literal(use.path);
  if (by_name) span = use.library->span;
  if (!by_name && use.path) span = use.path->span;
  if (!path) {
    file.incomplete = true;
    // An Invalid path has been reported; a text with an expression in it has not.
    if (use.path && std::holds_alternative<syntax::Text>(use.path->node)) {
      findings_.report<Code::N18>(span, "this path")
          .label("a value is put into the path here")
          .help("write the path out: the files of a pattern are the same for every size");
    }
    return;
  }

  text::FileResult answer = by_name ? files_.library(*path) : files_.neighbour(file.name, *path);
  if (const auto* problem = std::get_if<text::FileProblem>(&answer)) {
    file.incomplete = true;
    return report_missing(use, span, *path, problem->reason);
  }
  auto& read = std::get<text::FileText>(answer);
  LoadedFile* used = nullptr;
  if (const auto known = loaded_.find(read.name); known != loaded_.end()) {
    used = known->second;
    if (std::find(chain_.begin(), chain_.end(), used) != chain_.end()) return report_circle(used->name, span);
  } else {
    if (chain_.size() > text::limits::library_depth || program_.files_.size() > text::limits::library_files) {
      if (limit_reported_) return;
      limit_reported_ = true;
      findings_.report<Code::N21>(span)
          .label("this would be file {} of the pattern, {} deep", program_.files_.size(), chain_.size())
          .note("at most {} files are used, {} deep", text::limits::library_files, text::limits::library_depth)
          .help("put what is used together into one file");
      return;
    }
    used = &parse(sources_.add(std::move(read.name), std::move(read.text)), by_name);
    require_library(*used, span);
    follow_uses(*used);
  }

  const std::string alias = use.alias ? use.alias->text : "";
  const auto twice = std::find_if(file.uses.begin(), file.uses.end(), [&](const UsedFile& other) {
    return other.file == used->id || (!alias.empty() && other.alias == alias);
  });
  if (twice != file.uses.end()) {
    findings_.report<Code::N02>(span, twice->file == used->id ? *path : alias)
        .label("again here")
        .label(twice->span, "used here first")
        .help("one `use` is enough");
    return;
  }
  file.uses.push_back({used->id, alias, &use, span});
}

void Loader::require_library(const LoadedFile& used, text::Span span) {
  for (const syntax::Item& item : used.tree.items) {
    if (std::holds_alternative<syntax::Library>(item.node)) return;
    if (std::holds_alternative<syntax::Invalid>(item.node)) return;  // perhaps that was it
  }
  const auto pattern = std::find_if(used.tree.items.begin(), used.tree.items.end(), [](const syntax::Item& item) {
    return std::holds_alternative<syntax::Pattern>(item.node);
  });
  auto builder = findings_.report<Code::N20>(span, used.name);
  if (pattern != used.tree.items.end()) {
    builder.label("a pattern is used here").label(pattern->span, "the pattern");
    builder.help("move what both patterns need into a file that begins with `library NAME {{ … }}`");
  } else {
    builder.label("this file has no `library` heading");
    builder.help("begin it with `library NAME {{ … }}` after the line `stockinger 1`");
  }
}

void Loader::report_circle(const std::string& name, text::Span span) {
  std::string chain;
  bool inside = false;
  for (const LoadedFile* file : chain_) {
    inside = inside || file->name == name;
    if (inside) chain += file->name + " uses ";
  }
  auto builder = findings_.report<Code::N19>(span);
  if (chain_.back()->name == name) {
    builder.label("`{}` uses itself", name).help("take this line out");
  } else {
    builder.label("`{}` is being read already", name).note("{}{}", chain, name);
    builder.help("put what these files need of one another into a file of its own");
  }
}

void Loader::report_missing(const syntax::Use& use, text::Span span, const std::string& asked,
                            const std::string& reason) {
  if (!use.library) {
    findings_.report<Code::N18>(span, asked)
        .label("{}", reason)
        .help("a path in `use` leads from this file to a neighbour in the pattern's folder and ends in .stk");
    return;
  }
  auto builder = findings_.report<Code::N17>(span, asked);
  builder.label("{}", reason);
  if (const auto near = findings::nearest_word(asked, files_.libraries())) {
    builder.help("the nearest is `{}`", near->word);
    builder.edit(use.library->span, near->word, near->certain ? Confidence::certain : Confidence::likely);
  } else {
    builder.help("a file of your own is used by its path: use \"{}.stk\"", asked);
  }
}

template <class T>
bool Loader::any() const {
  for (const LoadedFile& file : program_.files_) {
    for (const syntax::Item& item : file.tree.items) {
      if (std::holds_alternative<T>(item.node)) return true;
    }
  }
  return false;
}

// `machine mid_gauge` and `from feet …` need no `use`. Where there is no such library, the name is unknown; that is
// said where it stands.
void Loader::load_prelude(const std::string& library) {
  text::FileResult answer = files_.library(library);
  auto* read = std::get_if<text::FileText>(&answer);
  if (!read || loaded_.contains(read->name)) return;
  parse(sources_.add(std::move(read->name), std::move(read->text)), true);
}

Program Loader::load(text::FileId main) {
  follow_uses(parse(sources_[main], false));
  if (any<syntax::Edition>()) load_prelude("machines");
  if (any<syntax::Sizes>()) load_prelude("feet");
  collect(program_, findings_);
  program_.techniques_elsewhere = techniques_elsewhere(program_, files_);
  return std::move(program_);
}

Program load(text::FileId main, text::Files& files, text::Sources& sources, findings::Findings& findings) {
  return Loader(files, sources, findings).load(main);
}

}  // namespace stk::names
