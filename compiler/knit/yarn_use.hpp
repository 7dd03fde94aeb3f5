// What became of the yarns of one size: where each loop was formed and at which tension, how far yarns floated, what
// sewed. Lengths come later (yarns.cpp): the machine counts loops and knows no gauge.
#pragma once

#include <cstdint>
#include <vector>

#include "compiler/knit/facts.hpp"
#include "runtime/fabric.hpp"

namespace stk::knit {

class YarnUse {
 public:
  struct Loops {
    std::uint32_t piece = 0;
    std::int32_t tension_hundredths = 0;  // 0 too while both beds knit: a rib's loop is told by no gauge
    std::vector<std::int64_t> of_yarn;    // by the order of the edition's yarns
  };
  struct Passed {  // stitches that a yarn floated past in rows of two colours
    std::uint32_t piece = 0;
    std::size_t yarn = 0;
    std::int64_t stitches = 0;
  };
  struct Sewn {
    std::uint32_t piece = 0;  // whose edge it is: so many times it is sewn
    std::size_t yarn = 0;
    std::int64_t micrometres = 0;
  };

  // Around a step at the machine: the loops of each yarn before it, and what it added.
  static std::vector<std::int64_t> look(const runtime::Fabric& fabric, const std::vector<runtime::YarnId>& yarns);
  void knitted(std::uint32_t piece, std::int32_t tension_hundredths, Act act, const std::vector<std::int64_t>& before,
               const std::vector<std::int64_t>& after);
  void sewn(std::uint32_t piece, std::size_t yarn, std::int64_t micrometres) {
    sewn_.push_back({piece, yarn, micrometres});
  }

  const std::vector<Loops>& loops() const { return loops_; }
  const std::vector<Passed>& passed() const { return passed_; }
  const std::vector<Sewn>& seams() const { return sewn_; }

 private:
  std::vector<Loops> loops_;
  std::vector<Passed> passed_;
  std::vector<Sewn> sewn_;
};

}  // namespace stk::knit
