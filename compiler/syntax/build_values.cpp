// Values: the ladder of expressions and selectors, folded from chains of operands and tails to a binary tree.
#include <algorithm>

#include "compiler/syntax/build_ast.hpp"

namespace stk::syntax {
namespace {

// What can only be needles, so that `and` beside it joins needles.
bool only_needles(const Expr& expr) {
  if (const auto* ref = std::get_if<NameRef>(&expr.node)) {
    const std::string& first = ref->parts.front().text;
    return ref->parts.size() == 1 && (first == "all" || first == "empties" || first == "held");
  }
  return std::holds_alternative<BedSelector>(expr.node) || std::holds_alternative<HalfSelector>(expr.node) ||
         std::holds_alternative<MiddleSelector>(expr.node) || std::holds_alternative<OnSideSelector>(expr.node) ||
         std::holds_alternative<OfEachSelector>(expr.node) || std::holds_alternative<EverySelector>(expr.node) ||
         std::holds_alternative<NeedleRange>(expr.node) || std::holds_alternative<OfSelector>(expr.node) ||
         std::holds_alternative<ExceptSelector>(expr.node) || std::holds_alternative<UnionSelector>(expr.node);
}

Binary::Op binary_op(std::string_view sign) {
  using Op = Binary::Op;
  if (sign == "+") return Op::add;
  if (sign == "*" || sign == "×" || sign == "·") return Op::multiply;
  if (sign == "/" || sign == "÷") return Op::divide;
  if (sign == "mod") return Op::mod;
  if (sign == "<") return Op::less;
  if (sign == "<=" || sign == "≤") return Op::less_equal;
  if (sign == ">") return Op::greater;
  if (sign == ">=" || sign == "≥") return Op::greater_equal;
  if (sign == "is") return Op::is;
  if (sign == "is_not") return Op::is_not;
  return Op::subtract;
}

}  // namespace

ExprPtr AstBuilder::invalid(Span at) {
  return make(at, Invalid{});
}

ExprPtr AstBuilder::number(Id id) {
  return make(span(id), Number{plain_number(text(id))});
}

SizeValue AstBuilder::size_value(Id id) {
  SizeValue value;
  value.span = span(id);
  if (kind(id) == Kind::number) {  // the first value of a grade stands alone
    value.digits = plain_number(text(id));
    return value;
  }
  for (const Id at : children(id)) {
    if (kind(at) == Kind::dash) value.dash = true;
    if (kind(at) == Kind::minus_sign) value.negative = true;
    if (kind(at) == Kind::number) value.digits = plain_number(text(at));
  }
  return value;
}

ExprPtr AstBuilder::grade(Id id) {
  Grade made;
  for (const Id at : children(id)) made.values.push_back(size_value(at));
  return make(span(id), std::move(made));
}

ExprPtr AstBuilder::except_grade(Id id) {
  ExceptGrade made;
  for (const Id at : children(id)) {
    if (kind(at) == Kind::number) {
      made.others = size_value(at);
    } else if (kind(at) == Kind::exception) {
      const Ids pair = children(at);
      made.exceptions.emplace_back(name(pair.front()), size_value(pair.back()));
    }
  }
  return make(span(id), std::move(made));
}

Call AstBuilder::call(Id id) {
  Call made;
  for (const Id at : children(id)) {
    if (kind(at) == Kind::callee) {
      made.callee = name(at);
    } else if (kind(at) == Kind::argument) {
      Argument argument;
      for (const Id part : children(at)) {
        if (kind(part) == Kind::label) {
          argument.label = name(part);
        } else {
          argument.value = expr(part);
        }
      }
      made.arguments.push_back(std::move(argument));
    }
  }
  return made;
}

ExprPtr AstBuilder::call_expr(Id id) {
  return make(span(id), call(id));
}

Text AstBuilder::text_value(Id id) {
  Text made;
  for (const Id at : children(id)) {
    TextPiece piece;
    piece.span = span(at);
    if (kind(at) == Kind::text_literal) {
      const std::string_view spelled = text(at);
      for (std::size_t i = 0; i < spelled.size(); ++i) {
        if (spelled[i] == '\\' && i + 1 < spelled.size()) ++i;  // \" \\ \{ \} stand for the sign behind
        piece.literal += spelled[i];
      }
    } else if (kind(at) == Kind::text_value) {
      piece.value = expr(children(at).front());
    } else if (kind(at) == Kind::bad_text_value) {
      piece.value = invalid(span(at));
    } else {
      continue;
    }
    made.pieces.push_back(std::move(piece));
  }
  return made;
}

ExprPtr AstBuilder::text_expr(Id id) {
  return make(span(id), text_value(id));
}

// last of each 3, middle 2 of each groups; and middle 6, which is of all.
ExprPtr AstBuilder::of_each(Id id) {
  using Which = OfEachSelector::Which;
  const std::string_view word = first_word(id);
  OfEachSelector made{word == "first" ? Which::first : word == "last" ? Which::last : Which::middle, nullptr, nullptr};
  for (const Id at : children(id)) {
    if (kind(at) == Kind::each_tail) {
      made.group = expr(children(at).front());
    } else if (kind(at) != Kind::which_of_each) {
      made.count = expr(at);
    }
  }
  if (made.group == nullptr) return make(span(id), MiddleSelector{std::move(made.count)});
  return make(span(id), std::move(made));
}

ExprPtr AstBuilder::needle_range(Id id) {
  const auto needle = [this](Id at) {
    return NeedleRange::Needle{text(at).front(), plain_number(text(at).substr(1)), span(at)};
  };
  const Ids parts = children(id);
  NeedleRange made{needle(parts.front()), std::nullopt};
  if (parts.size() == 2) made.to = needle(parts.back());
  return make(span(id), std::move(made));
}

ExprPtr AstBuilder::rounded(ExprPtr operand, Id tail) {
  Rounded made;
  made.how = span(tail);
  const Id rounding = children(tail).front();
  const std::string_view how = first_word(rounding);
  if (how == "up") made.direction = Rounded::Direction::up;
  if (how == "down") made.direction = Rounded::Direction::down;
  if (const Id target = child(rounding, Kind::rounding_target); target != Tree::none) {
    const std::string_view word = first_word(target);
    made.target = word == "even"       ? Rounded::Target::even
                  : word == "odd"      ? Rounded::Target::odd
                  : word == "multiple" ? Rounded::Target::multiple
                                       : Rounded::Target::parity;
    for (const Id at : children(target)) {
      if (kind(at) == Kind::rounding_offset) {
        made.offset = expr(children(at).front());
        made.offset_negative = first_word(at) == "minus";
      } else {
        made.modulus = expr(at);
      }
    }
  }
  const Span whole = text::cover(operand->span, span(tail));
  made.operand = std::move(operand);
  return make(whole, std::move(made));
}

// One operand and one tail: `a` and `+ b`.
ExprPtr AstBuilder::tail(ExprPtr operand, Id id, Where where) {
  const Span whole = text::cover(operand->span, span(id));
  const Ids parts = children(id);
  switch (kind(id)) {
    case Kind::unit:
    case Kind::inch:
      return make(whole, WithUnit{std::move(operand), name(id)});
    case Kind::as_tail:
      return make(whole, As{std::move(operand), name(parts.front())});
    case Kind::rounded_tail:
      return rounded(std::move(operand), id);
    case Kind::placed_tail:
      return make(whole, OnSideSelector{std::move(operand), side(parts.front())});
    case Kind::within_tail:
      return make(whole, OfSelector{std::move(operand), expr(parts.front(), Where::needles)});
    case Kind::except_tail:
      return make(whole, ExceptSelector{std::move(operand), expr(parts.front(), Where::needles)});
    case Kind::and_tail:
    case Kind::or_tail: {
      ExprPtr right = expr(parts.front(), where);
      if (kind(id) == Kind::and_tail && (where == Where::needles || only_needles(*operand) || only_needles(*right))) {
        return make(whole, UnionSelector{std::move(operand), std::move(right)});
      }
      const Span word{node(id).begin, node(id).begin + (kind(id) == Kind::or_tail ? 2U : 3U), file_};
      const auto op = kind(id) == Kind::or_tail ? Binary::Op::logical_or : Binary::Op::logical_and;
      return make(whole, Binary{op, word, std::move(operand), std::move(right)});
    }
    default:  // product_tail, sum_tail, comparison_tail: the sign and the operand
      return make(whole,
                  Binary{binary_op(words(parts.front())), span(parts.front()), std::move(operand), expr(parts.back())});
  }
}

ExprPtr AstBuilder::chain(Id id, Where where) {
  const Ids parts = children(id);
  ExprPtr made = expr(parts.front(), where);
  for (std::size_t i = 1; i < parts.size(); ++i) made = tail(std::move(made), parts[i], where);
  return made;
}

ExprPtr AstBuilder::expr(Id id, Where where) {
  switch (kind(id)) {
    case Kind::number:
      return number(id);
    case Kind::grade:
      return grade(id);
    case Kind::except_grade:
      return except_grade(id);
    case Kind::text:
      return text_expr(id);
    case Kind::name_ref: {
      NameRef made;
      for (const Id at : children(id)) made.parts.push_back(name(at));
      return make(span(id), std::move(made));
    }
    case Kind::call:
      return call_expr(id);
    case Kind::parenthesis: {
      ExprPtr inside = expr(children(id).front(), where);
      inside->span = span(id);
      return inside;
    }
    case Kind::fraction: {
      const Ids parts = children(id);
      const std::string_view spelled = text(parts.back());
      const std::size_t slash = spelled.find('/');
      Fraction made{name(parts.front()), plain_number(spelled.substr(0, slash)), ""};
      if (slash != std::string_view::npos) made.ply = plain_number(spelled.substr(slash + 1));
      return make(span(id), std::move(made));
    }
    case Kind::bed_selector:
      return make(span(id), BedSelector{bed(children(id).front())});
    case Kind::half_selector:
      return make(span(id), HalfSelector{side(id)});
    case Kind::middle_selector:
    case Kind::of_each_selector:
      return of_each(id);
    case Kind::every_selector: {
      EverySelector made{nullptr};
      if (const Ids parts = children(id); !parts.empty()) {
        const std::string_view spelled = text(parts.front());
        made.ordinal = make(span(parts.front()), Number{plain_number(spelled.substr(0, spelled.size() - 2))});
      }
      return make(span(id), std::move(made));
    }
    case Kind::needle_range:
      return needle_range(id);
    case Kind::negative:
      return make(span(id), Unary{Unary::Op::minus, expr(children(id).back())});
    case Kind::logical_not:
      return make(span(id), Unary{Unary::Op::logical_not, expr(children(id).front())});
    case Kind::conditional: {
      const Ids parts = children(id);
      return make(span(id), Conditional{expr(parts[0]), expr(parts[1]), expr(parts[2])});
    }
    case Kind::measured:
    case Kind::postfix:
    case Kind::product:
    case Kind::sum:
    case Kind::rounded:
    case Kind::placed:
    case Kind::narrowed:
    case Kind::comparison:
    case Kind::conjunction:
    case Kind::disjunction:
      return chain(id, where);
    default:
      return invalid(span(id));
  }
}

}  // namespace stk::syntax
