// Within names/: the names of a block, from top to bottom. A name is known after its `let`, to the end of the block.
#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "compiler/syntax/ast.hpp"

namespace stk::names {

struct Local {
  enum class Kind : std::uint8_t { let, parameter, turn } kind;  // turn: `repeat 3 times as i`
  std::string_view name;
  text::Span span;
  const syntax::Parameter* parameter = nullptr;
  const syntax::Let* let = nullptr;
  std::vector<text::Span> uses{};
  bool used = false;

  void use(text::Span where) {
    uses.push_back(where);
    used = true;
  }
};

class Scope {
 public:
  void open(const syntax::Block* block) { levels_.push_back({block, {}}); }
  std::vector<Local> close() {
    std::vector<Local> locals = std::move(levels_.back().locals);
    levels_.pop_back();
    return locals;
  }
  bool empty() const { return levels_.empty(); }
  void declare(Local local) { levels_.back().locals.push_back(std::move(local)); }

  Local* find(std::string_view name) {
    for (auto level = levels_.rbegin(); level != levels_.rend(); ++level) {
      for (auto local = level->locals.rbegin(); local != level->locals.rend(); ++local) {
        if (local->name == name) return &*local;
      }
    }
    return nullptr;
  }
  // A `let` of an open block that only comes further down.
  const syntax::Let* later(std::string_view name) const {
    for (auto level = levels_.rbegin(); level != levels_.rend(); ++level) {
      if (!level->block) continue;
      for (const syntax::Statement& statement : level->block->statements) {
        const auto* let = std::get_if<syntax::Let>(&statement.node);
        if (let && let->name.text == name) return let;
      }
    }
    return nullptr;
  }
  std::vector<std::string> names() const {
    std::vector<std::string> all;
    for (const Level& level : levels_) {
      for (const Local& local : level.locals) all.emplace_back(local.name);
    }
    return all;
  }

 private:
  struct Level {
    const syntax::Block* block;
    std::vector<Local> locals;
  };
  std::vector<Level> levels_;
};

}  // namespace stk::names
