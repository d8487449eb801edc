#include "tests/support/ground_rules.h"

#include <algorithm>
#include <set>

#include "tests/support/any.h"

namespace kartwright {
namespace {

constexpr int kLevels = 3;  // every symbol comes at three levels, each an atom

class Generator {
 public:
  Generator(int rules, int facts, std::uint64_t seed)
      : random_(seed), symbols_(std::max(10, facts * 13 / 10)) {
    out_.program.atoms = symbols_ * kLevels;
    see(facts);
    const int first = rules * 5 / 10;
    const int second = rules * 3 / 10;
    const std::vector<Atom> one = layer(first, [&](Clause& clause) {
      clause.needs = {seen(), seen()};
      clause.without = {any_symbol()};
    });
    const std::vector<Atom> two = layer(second, [&](Clause& clause) {
      clause.needs = {any_of(random_, one), seen()};
      clause.without = {one_in(random_, 2) ? any_of(random_, one) : any_symbol()};
    });
    layer(rules - first - second, [&](Clause& clause) {
      clause.needs = {any_of(random_, two), any_of(random_, one)};
      clause.without = {any_of(random_, one_in(random_, 2) ? two : one)};
    });
    std::shuffle(out_.program.clauses.begin(), out_.program.clauses.end(), random_);
  }

  GroundRules take() { return std::move(out_); }

 private:
  Atom any_symbol() { return static_cast<Atom>(any_below(random_, at_most(symbols_ * kLevels))); }
  Atom seen() { return any_of(random_, out_.given); }
  static std::size_t at_most(int count) { return static_cast<std::size_t>(count); }

  void see(int facts) {
    std::set<Atom> chosen;
    while (chosen.size() < at_most(facts)) chosen.insert(any_symbol());
    out_.given.assign(chosen.begin(), chosen.end());
  }

  /// Adds rules whose heads are fresh atoms, each head shared by a rule or two. Gives the heads.
  template <typename Fill>
  std::vector<Atom> layer(int rules, Fill fill) {
    const int names = std::max(1, rules * 2 / 3);
    std::set<Atom> heads;
    for (int i = 0; i < rules; ++i) {
      const int level = static_cast<int>(any_below(random_, kLevels));
      Clause clause{.head = out_.program.atoms + i % names * kLevels + level};
      fill(clause);
      heads.insert(clause.head);
      out_.program.clauses.push_back(std::move(clause));
    }
    out_.program.atoms += names * kLevels;
    return {heads.begin(), heads.end()};
  }

  Random random_;
  int symbols_;
  GroundRules out_;
};

}  // namespace

GroundRules ground_rules(int rules, int facts, std::uint64_t seed) {
  return Generator(rules, facts, seed).take();
}

}  // namespace kartwright
