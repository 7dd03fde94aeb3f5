// Blocks and the statements in them.
#include "compiler/syntax/build_ast.hpp"

namespace stk::syntax {

Block AstBuilder::block(Id owner) {
  const Id inside = kind(owner) == Kind::lines ? owner : child(owner, Kind::lines);
  if (inside != Tree::none) return lines(inside);
  return Block{{node(owner).end, node(owner).end, file_}, {}};  // nested too deep: it was passed over
}

Block AstBuilder::lines(Id id) {
  Block made;
  made.span = span(id);
  for (const Id at : children(id)) {
    switch (kind(at)) {
      case Kind::noted:
      case Kind::missing_open:
      case Kind::missing_brace:
      case Kind::merge_marker:
      case Kind::contract:  // of a technique, which takes them itself
      case Kind::says:
        break;
      default:
        made.statements.push_back(statement(at));
    }
  }
  return made;
}

Let AstBuilder::let(Id id) {
  Let made;
  for (const Id at : children(id)) {
    switch (kind(at)) {
      case Kind::declared_name:
        made.name = name(at);
        break;
      case Kind::let_parameters: {
        const Ids parts = children(at);
        made.has_parameters = true;
        made.name = name(parts.front());
        made.parameters = names(parts, Kind::declared_name);
        break;
      }
      default:
        made.value = expr(at);
    }
  }
  return made;
}

If AstBuilder::if_statement(Id id) {
  If made;
  made.condition = expr(children(id).front());
  made.then = block(id);
  if (const Id otherwise = child(id, Kind::otherwise); otherwise != Tree::none) {
    auto branch = std::make_unique<Statement>();
    branch->span = span(otherwise);
    if (const Id next = child(otherwise, Kind::if_statement); next != Tree::none) {
      branch->span = span(next);
      branch->node = if_statement(next);
    } else {
      branch->node = Nested{block(otherwise)};
    }
    made.otherwise = std::move(branch);
  }
  return made;
}

Statement AstBuilder::statement(Id id) {
  Statement made;
  made.span = span(id);
  const Ids parts = children(id);
  switch (kind(id)) {
    case Kind::let:
      made.node = let(id);
      break;
    case Kind::section: {
      Section section;
      for (const Id at : parts) {
        if (kind(at) == Kind::declared_name) section.name = name(at);
        if (kind(at) == Kind::text) section.title = expr(at);
      }
      made.node = std::move(section);
      break;
    }
    case Kind::only_for:
      made.node = OnlyFor{names(parts, Kind::name), block(id)};
      break;
    case Kind::if_statement:
      made.node = if_statement(id);
      break;
    case Kind::repeat: {
      Repeat repeat;
      repeat.times = expr(parts.front());
      if (const Id as = child(id, Kind::as_name); as != Tree::none) repeat.turn = name(children(as).front());
      repeat.body = block(id);
      made.node = std::move(repeat);
      break;
    }
    case Kind::say:
      made.node = Say{expr(parts.front()), block(id)};
      break;
    case Kind::note:
    case Kind::caution:
      made.node = Note{kind(id) == Kind::caution, expr(parts.front())};
      break;
    case Kind::expect:
      made.node = Expect{facts(parts)};
      break;
    case Kind::work: {
      Work work{call(parts.front()), std::nullopt};
      if (const Id as = child(id, Kind::as_name); as != Tree::none) work.as = name(children(as).front());
      made.node = std::move(work);
      break;
    }
    case Kind::step:
      made.node = step(id);
      break;
    default:
      made.node = Invalid{};
  }
  return made;
}

}  // namespace stk::syntax
