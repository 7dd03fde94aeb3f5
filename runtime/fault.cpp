#include "runtime/fault.hpp"

#include <array>
#include <cstddef>

namespace stk::runtime {
namespace {

struct Entry {
  std::string_view name;
  bool note;
};

constexpr Entry entries[] = {
#define FAULT(name) {#name, false},
#define NOTE(name) {#name, true},
#include "runtime/faults.def"
};

}  // namespace

std::string_view fault_name(FaultKind kind) { return entries[static_cast<std::size_t>(kind)].name; }
bool is_note(FaultKind kind) { return entries[static_cast<std::size_t>(kind)].note; }
int fault_kinds() { return static_cast<int>(std::size(entries)); }

}  // namespace stk::runtime
