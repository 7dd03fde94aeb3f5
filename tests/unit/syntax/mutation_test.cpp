// 20,000 mutants of the sources (4,000 in a sanitized build, which is some twenty times slower): whatever is broken,
// parsing returns, the tree fits the text, and no two findings stand at one place.
#include <catch2/catch.hpp>
#include <cstdint>
#include <set>

#include "tests/unit/syntax/support.hpp"
#include "tests/unit/syntax/tree_checks.hpp"

using namespace stk;

namespace {

// A generator of our own (xorshift, Marsaglia 2003), so that the mutants are the same on every machine.
class Random {
 public:
  std::size_t below(std::size_t n) {
    state_ ^= state_ << 13;
    state_ ^= state_ >> 7;
    state_ ^= state_ << 17;
    return static_cast<std::size_t>(state_ % n);
  }

 private:
  std::uint64_t state_ = 88172645463325252ULL;
};

#ifdef __SANITIZE_ADDRESS__
constexpr std::size_t mutants = 4000;
#else
constexpr std::size_t mutants = 20000;
#endif

constexpr std::string_view scraps[] = {"{",
                                       "}",
                                       "(",
                                       ")",
                                       "\"",
                                       ",",
                                       "\n",
                                       "=",
                                       "-",
                                       "[",
                                       "]",
                                       "#",
                                       "let ",
                                       " to ",
                                       "3",
                                       "×",
                                       "“",
                                       "\\",
                                       "piece a {\n",
                                       "<<<<<<< x\n",
                                       "=======\n",
                                       ">>>>>>> y\n",
                                       "\xF0\x9F\xA7\xA6",
                                       "\t",
                                       ".",
                                       ":"};

std::string mutate(std::string text, Random& random) {
  for (std::size_t changes = 1 + random.below(3); changes > 0 && !text.empty(); --changes) {
    const std::size_t at = random.below(text.size());
    const std::size_t length = std::min(text.size() - at, 1 + random.below(random.below(4) == 0 ? 60 : 4));
    switch (random.below(4)) {
      case 0:
        text.erase(at, length);
        break;
      case 1:
        text.insert(at, scraps[random.below(std::size(scraps))]);
        break;
      case 2:
        text.insert(random.below(text.size()), text.substr(at, length));
        break;
      default:
        text.replace(at, length, scraps[random.below(std::size(scraps))]);
    }
  }
  return text;
}

}  // namespace

TEST_CASE("mutants of the sources are read, and each mistake is reported once") {
  std::vector<std::string> sources;
  for (const auto& path : test::sources()) {
    if (path.string().find("tests/sources") != std::string::npos) sources.push_back(test::read(path));
  }
  REQUIRE(sources.size() >= 10);
  Random random;
  std::size_t broken = 0, findings = 0;
  for (std::size_t i = 0; i < mutants; ++i) {
    std::string mutant = mutate(sources[random.below(sources.size())], random);
    const syntax::Tree tree = syntax::parse_tree(mutant);
    const std::string problem = test::tree_problem(tree);
    if (!problem.empty()) {
      INFO(mutant);
      FAIL(problem);
    }
    const test::Parsed parsed(mutant);
    std::set<std::uint32_t> places;
    for (const findings::Finding& f : parsed.findings.all()) {
      if (!places.insert(f.primary.begin).second) {
        INFO(mutant);
        FAIL("two findings at " << f.primary.begin << ": " << f.title);
      }
    }
    broken += parsed.findings.all().empty() ? 0 : 1;
    findings += parsed.findings.all().size();
  }
  CHECK(broken > mutants * 6 / 10);  // most mutants are broken ...
  CHECK(findings < 3 * broken);      // ... and one to three changes give few findings
}
