#include "compiler/names/elsewhere.hpp"

#include "compiler/findings/findings.hpp"
#include "compiler/syntax/parse.hpp"

namespace stk::names {

namespace {

template <class Found>
void each_work(const syntax::Block& block, const Found& found);

template <class Found>
void each_work(const syntax::Statement& statement, const Found& found) {
  if (const auto* work = std::get_if<syntax::Work>(&statement.node)) found(work->call.callee.text);
  if (const auto* only = std::get_if<syntax::OnlyFor>(&statement.node)) each_work(only->body, found);
  if (const auto* nested = std::get_if<syntax::Nested>(&statement.node)) each_work(nested->body, found);
  if (const auto* repeat = std::get_if<syntax::Repeat>(&statement.node)) each_work(repeat->body, found);
  if (const auto* say = std::get_if<syntax::Say>(&statement.node)) each_work(say->body, found);
  if (const auto* choice = std::get_if<syntax::If>(&statement.node)) {
    each_work(choice->then, found);
    if (choice->otherwise) each_work(*choice->otherwise, found);
  }
}

template <class Found>
void each_work(const syntax::Block& block, const Found& found) {
  for (const syntax::Statement& statement : block.statements) each_work(statement, found);
}

std::set<std::string> unknown_techniques(const Program& program) {
  std::set<std::string> unknown;
  for (const LoadedFile& file : program.files()) {
    const auto check = [&](const std::string& name) {
      if (!program.find(file.id, Space::technique, name)) unknown.insert(name);
    };
    for (const syntax::Item& item : file.tree.items) {
      if (const auto* technique = std::get_if<syntax::Technique>(&item.node)) each_work(technique->body, check);
      if (const auto* piece = std::get_if<syntax::Piece>(&item.node)) each_work(piece->body, check);
      if (const auto* finish = std::get_if<syntax::Finish>(&item.node)) each_work(finish->body, check);
    }
  }
  return unknown;
}

}  // namespace

std::map<std::string, std::string, std::less<>> techniques_elsewhere(const Program& program, text::Files& files) {
  std::map<std::string, std::string, std::less<>> elsewhere;
  const std::set<std::string> unknown = unknown_techniques(program);
  if (unknown.empty()) return elsewhere;
  for (const std::string& library : files.libraries()) {
    text::FileResult answer = files.library(library);
    auto* read = std::get_if<text::FileText>(&answer);
    if (!read) continue;
    // Only looked through: a mistake in a library that nobody uses is not this pattern's.
    const text::Source source({}, std::move(read->name), std::move(read->text));
    findings::Findings unsaid;
    const syntax::File tree = syntax::parse(source, unsaid);
    for (const syntax::Item& item : tree.items) {
      const auto* technique = std::get_if<syntax::Technique>(&item.node);
      if (technique && unknown.contains(technique->name.text)) elsewhere.emplace(technique->name.text, library);
    }
  }
  return elsewhere;
}

}  // namespace stk::names
