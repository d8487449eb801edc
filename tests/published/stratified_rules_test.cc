// A small stratified rule set whose conclusions an independent forward chainer worked out (run for
// this project with one priority for each layer): three layers, a denial in every rule, asked at
// two corners.

#include <algorithm>
#include <map>
#include <random>
#include <set>
#include <string>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "engine/inference/chain.h"

namespace kartwright {
namespace {

using testing::UnorderedElementsAre;

/// A rule for any corner: its names become atoms at that corner.
struct CornerRule {
  std::string concludes;
  std::vector<std::string> needs, without;
};

const std::vector<CornerRule> kRules{
    {"front-lacks-load", {"late-apex-push", "light-steering"}, {"cold-track"}},
    {"no-rear-lift", {"inside-rear-low"}, {"kerb"}},
    {"jacking-too-small", {"front-lacks-load", "no-rear-lift"}, {"rear-free"}},
    {"wait-for-temperature", {"late-apex-push"}, {"front-lacks-load"}},
    {"raise-caster", {"jacking-too-small"}, {"wait-for-temperature"}}};

const std::vector<std::string> kSeen{"late-apex-push t3", "light-steering t3",
                                     "late-apex-push t7", "light-steering t7",
                                     "cold-track t7",     "inside-rear-low t3"};

/// What is concluded beyond what was seen.
std::set<std::string> concluded(const std::vector<CornerRule>& rules,
                                const std::vector<std::string>& seen) {
  std::map<std::string, Atom> atoms;
  const auto atom = [&](const std::string& name, const std::string& corner) {
    return atoms.emplace(name + corner, static_cast<Atom>(atoms.size())).first->second;
  };
  Program program;
  for (const char* corner : {" t3", " t7"}) {
    for (const CornerRule& rule : rules) {
      Clause clause{.head = atom(rule.concludes, corner)};
      for (const std::string& need : rule.needs) clause.needs.push_back(atom(need, corner));
      for (const std::string& absent : rule.without) clause.without.push_back(atom(absent, corner));
      program.clauses.push_back(clause);
    }
  }
  std::vector<Atom> given;
  for (const std::string& fact : seen) given.push_back(atom(fact, ""));
  program.atoms = static_cast<int>(atoms.size());
  const Model model = forward_chain(program, std::get<Layers>(stratify(program)), given);
  std::set<std::string> out;
  for (const auto& [name, number] : atoms) {
    if (model.maker[static_cast<std::size_t>(number)] >= 0) out.insert(name);
  }
  return out;
}

TEST(StratifiedExample, ConcludesWhatTheOtherChainerDid) {
  EXPECT_THAT(concluded(kRules, kSeen),
              UnorderedElementsAre("no-rear-lift t3", "front-lacks-load t3", "jacking-too-small t3",
                                   "raise-caster t3", "wait-for-temperature t7"));
}

// Without layers the other chainer fired too soon and concluded `wait-for-temperature t3` from a
// fact that was yet to come. No order of the rules may do that here.
TEST(StratifiedExample, ConcludesTheSameInEveryOrderOfTheRules) {
  std::vector<CornerRule> rules = kRules;
  std::vector<std::string> seen = kSeen;
  std::vector<std::size_t> order{0, 1, 2, 3, 4};
  std::mt19937_64 random(3);
  const std::set<std::string> expected = concluded(kRules, kSeen);
  do {
    for (std::size_t i = 0; i < order.size(); ++i) rules[i] = kRules[order[i]];
    std::shuffle(seen.begin(), seen.end(), random);
    ASSERT_EQ(concluded(rules, seen), expected);
  } while (std::next_permutation(order.begin(), order.end()));
}

TEST(StratifiedExample, FollowsWhatWasSeen) {
  std::vector<std::string> seen = kSeen;
  seen.emplace_back("kerb t3");
  EXPECT_FALSE(concluded(kRules, seen).contains("raise-caster t3"));
  std::erase(seen, "cold-track t7");
  EXPECT_TRUE(concluded(kRules, seen).contains("front-lacks-load t7"));
  EXPECT_FALSE(concluded(kRules, seen).contains("wait-for-temperature t7"));
}

}  // namespace
}  // namespace kartwright
