#include "compiler/grade/value.hpp"

#include "compiler/values/format.hpp"

namespace stk::grade {
namespace {

template <class... F>
struct Overloaded : F... {
  using F::operator()...;
};
template <class... F>
Overloaded(F...) -> Overloaded<F...>;

}  // namespace

std::string describe(const Value& value) {
  return std::visit(Overloaded{[](const Poison&) { return std::string("nothing"); },
                               [](const Absent&) { return std::string("no value"); },
                               [](const values::Quantity& q) { return values::describe(q.dimension); },
                               [](bool) { return std::string("a yes or no"); },
                               [](const std::string&) { return std::string("a text"); },
                               [](const Word& w) { return "the word `" + w.text + "`"; },
                               [](const NeedlesId&) { return std::string("needles"); }},
                    value);
}

std::string text_of(const Value& value) {
  return std::visit(Overloaded{[](const Poison&) { return std::string("?"); }, [](const Absent&) { return std::string("-"); },
                               [](const values::Quantity& q) { return values::quantity_text(q); },
                               [](bool b) { return std::string(b ? "yes" : "no"); },
                               [](const std::string& s) { return s; }, [](const Word& w) { return w.text; },
                               [](const NeedlesId&) { return std::string("needles"); }},
                    value);
}

}  // namespace stk::grade
