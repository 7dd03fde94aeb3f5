// The parts of a file: pattern, sizes, editions, charts, techniques, pieces.
#include "compiler/syntax/build_ast.hpp"

namespace stk::syntax {

File AstBuilder::file() {
  File made;
  for (const Id at : children(tree_.root())) {
    switch (kind(at)) {
      case Kind::version:
        if (const Id number = child(at, Kind::version_number); number != Tree::none) made.version = name(number);
        break;
      case Kind::noted:
      case Kind::missing_version:
      case Kind::stray_brace:
      case Kind::merge_marker:
        break;
      default:
        made.items.push_back(item(at));
    }
  }
  return made;
}

Item AstBuilder::item(Id id) {
  Item made;
  made.span = span(id);
  made.broken = broken(id);
  const Ids parts = children(id);
  const auto first = [&](Kind wanted) {
    const Id found = child(id, wanted);
    return found == Tree::none ? nullptr : expr(found);
  };
  switch (kind(id)) {
    case Kind::pattern:
      made.node = Pattern{first(Kind::text), fields(id)};
      break;
    case Kind::library:
      made.node = Library{name(parts.front()), fields(id)};
      break;
    case Kind::use:
      made.node = use(id);
      break;
    case Kind::sizes:
      made.node = sizes(id);
      break;
    case Kind::measures:
      made.node = measures(id);
      break;
    case Kind::edition:
      made.node = edition(id);
      break;
    case Kind::machine_class:
      made.node = machine_class(id);
      break;
    case Kind::setting:
      made.node = setting(id);
      break;
    case Kind::ease:
      made.node = ease(id);
      break;
    case Kind::floats:
      made.node = Floats{expr(parts.front())};
      break;
    case Kind::finished:
      made.node = Finished{name(parts.front()), expr(parts.back())};
      break;
    case Kind::let:
      made.node = let(id);
      break;
    case Kind::chart:
      made.node = chart(id);
      break;
    case Kind::technique:
      made.node = technique(id);
      break;
    case Kind::piece:
      made.node = piece(id);
      break;
    case Kind::finish:
      made.node = Finish{block(id)};
      break;
    default:
      made.node = Invalid{};
      made.broken = true;
  }
  return made;
}

std::vector<Field> AstBuilder::fields(Id owner) {
  std::vector<Field> made;
  const Id inside = child(owner, Kind::lines);
  if (inside == Tree::none) return made;
  for (const Id at : children(inside)) {
    if (kind(at) != Kind::field) continue;
    Field field;
    for (const Id part : children(at)) {
      if (kind(part) == Kind::field_word) field.name = name(part);
      if (kind(part) == Kind::text) field.texts.push_back(expr(part));
    }
    made.push_back(std::move(field));
  }
  return made;
}

Use AstBuilder::use(Id id) {
  Use made;
  for (const Id at : children(id)) {
    if (kind(at) == Kind::name) made.library = name(at);
    if (kind(at) == Kind::as_name) made.alias = name(children(at).front());
    if (kind(at) == Kind::text) made.path = expr(at);
  }
  return made;
}

TableRow AstBuilder::table_row(Id id) {
  TableRow made;
  for (const Id at : children(id)) {
    switch (kind(at)) {
      case Kind::declared_name:
        made.name = name(at);
        break;
      case Kind::text:
        made.cells.emplace_back(text_value(at));
        made.cell_spans.push_back(span(at));
        break;
      case Kind::size_value:
        made.cells.emplace_back(size_value(at));
        made.cell_spans.push_back(span(at));
        break;
      case Kind::unit:
      case Kind::inch:
        made.unit = name(at);
        break;
      case Kind::row_source:
        made.source = expr(children(at).front());
        break;
      default:
        break;
    }
  }
  return made;
}

TableRow AstBuilder::worked_row(Id id) {
  TableRow made;
  for (const Id at : children(id)) {
    if (kind(at) == Kind::declared_name) {
      made.name = name(at);
    } else if (kind(at) == Kind::row_source) {
      made.source = expr(children(at).front());
    } else {
      made.formula = expr(at);
    }
  }
  return made;
}

Sizes AstBuilder::sizes(Id id) {
  Sizes made;
  const Id inside = child(id, Kind::lines);
  if (inside == Tree::none) return made;
  for (const Id at : children(inside)) {
    if (kind(at) == Kind::header_row) {
      made.columns = names(children(at), Kind::size_name);
    } else if (kind(at) == Kind::table_row) {
      made.rows.push_back(table_row(at));
    } else if (kind(at) == Kind::worked_row) {
      made.rows.push_back(worked_row(at));
    } else if (kind(at) == Kind::from_row) {
      FromRow row;
      row.columns = names(children(at), Kind::name);
      row.table = row.columns.front();
      row.columns.erase(row.columns.begin());
      row.span = span(at);
      made.from.push_back(std::move(row));
    }
  }
  return made;
}

Measures AstBuilder::measures(Id id) {
  Sizes table = sizes(id);
  return {name(children(id).front()), std::move(table.columns), std::move(table.rows)};
}

Yarn AstBuilder::yarn(Id id) {
  Yarn made;
  for (const Id at : children(id)) {
    if (kind(at) == Kind::declared_name) {
      made.name = name(at);
    } else if (kind(at) == Kind::text && made.description == nullptr) {
      made.description = expr(at);
    } else if (kind(at) == Kind::yarn_margin) {
      made.margin = expr(children(at).front());
    } else if (kind(at) == Kind::ball_size) {
      made.stock.push_back({nullptr, expr(children(at).front()), span(at)});
    } else if (kind(at) == Kind::balls_stated || kind(at) == Kind::label_mass) {
      // What stands before it was read as a value by itself: it is the length of the label, or how many balls.
      ExprPtr before = std::move(made.properties.back());
      made.properties.pop_back();
      const Span whole = text::cover(before->span, span(at));
      ExprPtr size = expr(children(at).front());
      if (kind(at) == Kind::label_mass) {
        made.labels.push_back({std::move(before), std::move(size), whole});
      } else {
        made.stock.push_back({std::move(before), std::move(size), whole});
      }
    } else {
      made.properties.push_back(expr(at));
    }
  }
  return made;
}

Gauge AstBuilder::gauge(Id id) {
  Gauge made;
  made.span = span(id);
  for (const Id at : children(id)) {
    if (kind(at) == Kind::declared_name) {
      made.fabric = name(at);
    } else if (kind(at) == Kind::tension) {
      made.tension = tension(at);
    } else if (made.stitches == nullptr) {
      made.stitches = expr(at);
    } else if (made.rows == nullptr) {
      made.rows = expr(at);
    } else {
      made.over = expr(at);
    }
  }
  return made;
}

Edition AstBuilder::edition(Id id) {
  Edition made;
  made.name = name(children(id).front());
  const Id inside = child(id, Kind::lines);
  if (inside == Tree::none) return made;
  for (const Id at : children(inside)) {
    if (kind(at) == Kind::yarn) made.yarns.push_back(yarn(at));
    if (kind(at) == Kind::gauge) made.gauges.push_back(gauge(at));
    if (kind(at) == Kind::machine_ref) {
      const Id machine = children(at).front();
      std::string_view rest = text(at).substr(tree_.nodes[machine].end - tree_.nodes[at].begin);  // may be blanks only
      rest.remove_prefix(std::min(rest.find_first_not_of(" \t"), rest.size()));
      made.machines.push_back({name(machine), rest.substr(0, 4) == "with"});  // with second bed
    }
  }
  return made;
}

MachineClass AstBuilder::machine_class(Id id) {
  MachineClass made;
  made.name = name(children(id).front());
  const Id inside = child(id, Kind::lines);
  if (inside == Tree::none) return made;
  for (const Id at : children(inside)) {
    if (kind(at) != Kind::machine_field) continue;
    MachineField field;
    field.span = span(at);
    for (const Id part : children(at)) {
      if (kind(part) == Kind::field_word) {
        field.name = name(part);
      } else {
        field.values.push_back(expr(part));
      }
    }
    made.fields.push_back(std::move(field));
  }
  return made;
}

Setting AstBuilder::setting(Id id) {
  Setting made;
  const Ids parts = children(id);
  made.name = name(parts[0]);
  made.value = expr(parts[1]);
  made.from = expr(parts[2]);
  made.to = expr(parts[3]);
  if (kind(parts[4]) == Kind::setting_step) made.step = expr(children(parts[4]).front());
  made.text = expr(parts.back());
  return made;
}

Ease AstBuilder::ease(Id id) {
  Ease made;
  for (const Id at : children(id)) {
    const Ids parts = children(at);
    made.ranges.push_back({name(parts[0]), expr(parts[1]), expr(parts[2]), span(at)});
  }
  return made;
}

Chart AstBuilder::chart(Id id) {
  Chart made;
  made.name = name(children(id).front());
  if (const Id seen = child(id, Kind::seen_from); seen != Tree::none) {
    const Id side = child(seen, Kind::knit_or_purl);
    made.seen_from = name(side);
  }
  const Id inside = child(id, Kind::lines);
  if (inside == Tree::none) return made;
  for (const Id at : children(inside)) {
    if (kind(at) == Kind::key_line) {
      for (const Id key : children(at)) {
        const Ids pair = children(key);
        made.key.push_back({text(pair.front()).front(), name(pair.back()), span(pair.front())});
      }
    } else if (kind(at) == Kind::chart_line) {
      ChartRow row;
      row.span = span(children(at).front());
      for (const char c : text(children(at).front())) {
        if (c != '[' && c != ']' && c != ' ' && c != '\t') row.marks += c;
      }
      made.rows.push_back(std::move(row));
    }
  }
  return made;
}

Parameter AstBuilder::parameter(Id id) {
  Parameter made;
  for (const Id at : children(id)) {
    if (kind(at) == Kind::kind) {
      made.kinds = names(children(at), Kind::part_name);
    } else if (kind(at) == Kind::fallback) {
      made.fallback = expr(children(at).front());
    } else {
      made.name = name(at);
    }
  }
  return made;
}

Technique AstBuilder::technique(Id id) {
  Technique made;
  for (const Id at : children(id)) {
    if (kind(at) == Kind::callee) made.name = name(at);
    if (kind(at) == Kind::parameter) made.parameters.push_back(parameter(at));
  }
  made.body = block(id);
  const Id inside = child(id, Kind::lines);
  if (inside == Tree::none) return made;
  for (const Id at : children(inside)) {
    if (kind(at) == Kind::contract) {
      Contract contract;
      contract.span = span(at);
      contract.leaves = first_word(at) == "leaves";
      contract.facts = facts(children(at));
      if (const Id message = child(at, Kind::text); message != Tree::none) contract.message = expr(message);
      made.contracts.push_back(std::move(contract));
    } else if (kind(at) == Kind::says) {
      made.says = expr(children(at).front());
    }
  }
  return made;
}

Piece AstBuilder::piece(Id id) {
  Piece made;
  for (const Id at : children(id)) {
    if (kind(at) == Kind::declared_name) made.name = name(at);
    if (kind(at) == Kind::make) made.make = expr(children(at).front());
    if (kind(at) == Kind::second_mirrored) made.second_mirrored = true;
  }
  made.body = block(id);
  return made;
}

}  // namespace stk::syntax
