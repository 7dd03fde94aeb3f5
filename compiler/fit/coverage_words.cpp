#include <fmt/format.h>

#include "compiler/fit/usual.hpp"
#include "compiler/fit/verdicts.hpp"
#include "compiler/fit/words.hpp"

namespace stk::fit {
namespace {

std::string share(std::int64_t part, std::int64_t all) {
  const Maybe ratio = over(Rational(100 * part), Rational(all));
  return ratio ? values::decimal(*ratio, 1) + " %" : "-";
}

std::string of_one_sex(const char* who, const Shares& shares) {
  std::string text = fmt::format("{}: {} of {} ({}) have a size that fits.", who, thousands(shares.fitted),
                                 thousands(shares.people), share(shares.fitted, shares.people));
  std::vector<std::string> others;
  if (shares.no_length > 0) others.push_back(fmt::format("for {} no size has the length", thousands(shares.no_length)));
  if (shares.no_girth > 0) {
    others.push_back(fmt::format("for {} no size is right around the ball", thousands(shares.no_girth)));
  }
  if (shares.not_together > 0) {
    others.push_back(
        fmt::format("for {} one size is right in length and another one around", thousands(shares.not_together)));
  }
  if (!others.empty()) text += " Of the others, " + listed(others) + ".";
  return text;
}

}  // namespace

std::vector<std::string> coverage_words(const knit::Facts& facts, const EditionFit& fit) {
  (void)facts;
  const Coverage& coverage = fit.coverage;
  std::vector<std::string> said;
  if (coverage.boxes.empty() || coverage.women.people + coverage.men.people == 0) return said;
  std::string how =
      "A size is taken to fit a foot if the finished sock, held against that foot, lies within the ease declared both "
      "around the ball and in length; any size will do, whatever it is called.";
  const Range around = usual_ease_around(Fabric::plain);
  const std::string girths = range_words(around.from, around.to);
  const std::string lengths = range_words(usual_length_from, usual_length_to);
  if (!coverage.girth_declared && !coverage.length_declared) {
    how += fmt::format(" The pattern declares none: {} around and {} in length were taken.", girths, lengths);
  } else if (!coverage.girth_declared) {
    how += fmt::format(" None is declared around: {} was taken.", girths);
  } else if (!coverage.length_declared) {
    how += fmt::format(" None is declared in length: {} was taken.", lengths);
  }
  said.push_back(how);
  said.push_back(of_one_sex("Women", coverage.women));
  said.push_back(of_one_sex("Men", coverage.men));
  for (const bool women : {true, false}) {
    std::vector<std::string> list;
    for (const Gap& gap : coverage.gaps) {
      if (gap.women != women) continue;
      list.push_back(fmt::format("{} to {} cm long and {} to {} cm around ({} {})", gap.length / 10,
                                 gap.length / 10 + 1, gap.girth / 10, gap.girth / 10 + 1, thousands(gap.people),
                                 gap.people == 1 ? "person" : "people"));
    }
    if (!list.empty()) {
      said.push_back(fmt::format("Most {} without a size have feet {}.", women ? "women" : "men", listed(list, "or")));
    }
  }
  said.push_back(fmt::format(
      "The people are {} women and {} men of a 2012 survey of US Army personnel (NATICK/TR-15/007), counted "
      "in cells of 5 mm by 5 mm; all of a cell count as having the feet of its middle.",
      thousands(coverage.women.people), thousands(coverage.men.people)));
  said.push_back(
      "Not among them: children, older people, those unfit for service, and nearly everybody with swollen or altered "
      "feet. Soldiers are younger and fitter than those who buy socks, and other countries have other feet. The share "
      "of your own wearers may well be smaller.");
  return said;
}

}  // namespace stk::fit
