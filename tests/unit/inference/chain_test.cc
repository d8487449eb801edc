// Forward chaining over rules written as `head if this, that, not other`.

#include "engine/inference/chain.h"

#include <algorithm>
#include <chrono>
#include <map>
#include <set>
#include <sstream>
#include <string>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <pthread.h>

#include "tests/support/any.h"

namespace kartwright {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;
using testing::UnorderedElementsAre;

/// Rules by their words: "hop if rubber, narrow, not wide".
class Rulebook {
 public:
  explicit Rulebook(const std::vector<std::string>& rules) {
    for (const std::string& rule : rules) add(rule);
  }

  Atom atom(const std::string& name) {
    const auto [found, fresh] = atoms_.emplace(name, program_.atoms);
    if (fresh) {
      ++program_.atoms;
      names_.push_back(name);
    }
    return found->second;
  }

  const Program& program() const { return program_; }

  Model model(const std::vector<std::string>& given) {
    std::vector<Atom> atoms;
    for (const std::string& name : given) atoms.push_back(atom(name));
    return forward_chain(program_, std::get<Layers>(stratify(program_)), atoms);
  }

  std::set<std::string> holding(const std::vector<std::string>& given) {
    const Model found = model(given);
    std::set<std::string> names;
    for (std::size_t i = 0; i < names_.size(); ++i) {
      if (found.holds[i]) names.insert(names_[i]);
    }
    return names;
  }

  std::vector<std::string> cycle() {
    std::vector<std::string> names;
    const auto layers = stratify(program_);
    if (const auto* found = std::get_if<NegationCycle>(&layers)) {
      for (const Atom each : *found) names.push_back(names_[static_cast<std::size_t>(each)]);
    }
    return names;
  }

 private:
  void add(const std::string& rule) {
    std::istringstream words(rule);
    std::string word;
    words >> word;
    Clause clause{.head = atom(word)};
    words >> word;  // "if"
    bool absent = false;
    while (words >> word) {
      if (word.back() == ',') word.pop_back();
      if (word == "not") {
        absent = true;
        continue;
      }
      (absent ? clause.without : clause.needs).push_back(atom(word));
      absent = false;
    }
    program_.clauses.push_back(clause);
  }

  Program program_;
  std::map<std::string, Atom> atoms_;
  std::vector<std::string> names_;
};

TEST(Chain, NeedsEveryPremiseOfAJoin) {
  Rulebook rules({"over-bite if rubber, narrow-rear"});
  EXPECT_THAT(rules.holding({"rubber"}), ElementsAre("rubber"));
  EXPECT_THAT(rules.holding({"narrow-rear"}), ElementsAre("narrow-rear"));
  EXPECT_THAT(rules.holding({"rubber", "narrow-rear"}),
              UnorderedElementsAre("rubber", "narrow-rear", "over-bite"));
}

TEST(Chain, GoesOnFromWhatItConcluded) {
  Rulebook rules({"c if b", "d if c, a", "b if a"});
  EXPECT_THAT(rules.holding({"a"}), UnorderedElementsAre("a", "b", "c", "d"));
}

TEST(Chain, HasNothingFromNothing) {
  Rulebook rules({"a if b", "b if a"});
  EXPECT_THAT(rules.holding({}), IsEmpty()) << "two facts may not hold each other up";
}

TEST(Chain, TakesARuleWithoutPremisesAsAFact) {
  Rulebook rules({"a if", "b if a"});
  EXPECT_THAT(rules.holding({}), UnorderedElementsAre("a", "b"));
}

TEST(Negation, IsThatTheFactDoesNotHold) {
  Rulebook rules({"raise-caster if push, not wet"});
  EXPECT_THAT(rules.holding({"push"}), UnorderedElementsAre("push", "raise-caster"));
  EXPECT_THAT(rules.holding({"push", "wet"}), UnorderedElementsAre("push", "wet"));
}

TEST(Negation, IsAskedOnlyOnceTheFactIsSettled) {
  // `settled` would fire at once if the rules were read from top to bottom.
  Rulebook rules({"settled if a, not late", "late if middle", "middle if a"});
  EXPECT_THAT(rules.holding({"a"}), UnorderedElementsAre("a", "middle", "late"));
}

TEST(Negation, OfANegationTakesThreeLayers) {
  Rulebook rules({"c if not b", "b if not a", "a if given"});
  EXPECT_EQ(std::get<Layers>(stratify(rules.program())).size(), 3U);
  EXPECT_THAT(rules.holding({"given"}), UnorderedElementsAre("given", "a", "c"));
  EXPECT_THAT(rules.holding({}), UnorderedElementsAre("b"));
}

TEST(NegationCycle, IsRefusedAndShown) {
  Rulebook rules({"a if not b", "b if c", "c if a", "unrelated if not a"});
  EXPECT_THAT(rules.cycle(), ElementsAre("b", "a", "c", "b"));
}

TEST(NegationCycle, OfOneFactWithItselfIsTheShortest) {
  Rulebook rules({"q if p", "p if q, not p"});
  EXPECT_THAT(rules.cycle(), ElementsAre("p", "p"));
}

TEST(NegationCycle, IsNotSeenWhereNoNegationLiesOnTheCycle) {
  Rulebook rules({"a if b", "b if a", "c if not a", "a if start"});
  EXPECT_THAT(rules.cycle(), IsEmpty());
  EXPECT_THAT(rules.holding({}), ElementsAre("c"));
  EXPECT_THAT(rules.holding({"start"}), UnorderedElementsAre("start", "a", "b"));
}

TEST(Maker, IsTheRuleThatConcludedTheFact) {
  Rulebook rules({"b if a", "c if b", "d if missing"});
  const Model model = rules.model({"a"});
  const auto maker = [&](const char* name) {
    return model.maker[static_cast<std::size_t>(rules.atom(name))];
  };
  EXPECT_EQ(maker("b"), 0);
  EXPECT_EQ(maker("c"), 1);
  EXPECT_EQ(maker("d"), -1) << "does not hold";
  EXPECT_EQ(maker("a"), -1) << "was given";
}

TEST(Maker, OfAGivenFactIsNobodyEvenWhereARuleConcludesItToo) {
  Rulebook rules({"a if b"});
  EXPECT_EQ(rules.model({"a", "b"}).maker[static_cast<std::size_t>(rules.atom("a"))], -1);
}

TEST(Maker, IsTheLowestRuleOfTheFirstRoundThatConcludesIt) {
  Rulebook later({"far if middle", "near if start", "middle if start", "near if given-too"});
  const Model model = later.model({"start", "given-too"});
  EXPECT_EQ(model.maker[static_cast<std::size_t>(later.atom("near"))], 1);
  Rulebook sooner({"near if middle", "middle if start", "near if start"});
  EXPECT_EQ(sooner.model({"start"}).maker[static_cast<std::size_t>(sooner.atom("near"))], 2)
      << "a rule of the first round comes before a lower one of the second";
}

TEST(Maker, IsTheLowestOfTwoThatFireInALaterRound) {
  // `q` comes first and wakes the higher of the two rules first.
  Rulebook rules({"x if p", "x if q", "q if a", "p if a"});
  EXPECT_EQ(rules.model({"a"}).maker[static_cast<std::size_t>(rules.atom("x"))], 0);
}

// --- any rule set -------------------------------------------------------------------------------

int any_below(Random& random, int end) {
  return static_cast<int>(random() % static_cast<std::uint64_t>(end));
}

/// Negations only look at facts of a lower third, so that every one of these can be layered.
Program any_program(Random& random) {
  constexpr int kAtoms = 30;
  Program program{.atoms = kAtoms, .clauses = {}};
  for (int i = 0; i < 40; ++i) {
    Clause clause{.head = any_below(random, kAtoms)};
    const int third = clause.head / 10;
    for (int n = any_below(random, 3); n >= 0; --n) {
      clause.needs.push_back(any_below(random, 10 * (third + 1)));
    }
    if (third > 0 && any_below(random, 2) == 0) {
      clause.without.push_back(any_below(random, 10 * third));
    }
    program.clauses.push_back(clause);
  }
  return program;
}

/// The perfect model by hand: each third swept again and again until nothing changes.
std::vector<bool> swept(const Program& program, const std::vector<Atom>& given) {
  std::vector<bool> holds(static_cast<std::size_t>(program.atoms), false);
  const auto at = [&](Atom atom) { return holds[static_cast<std::size_t>(atom)]; };
  for (const Atom atom : given) holds[static_cast<std::size_t>(atom)] = true;
  for (int third = 0; third < 3; ++third) {
    for (bool changed = true; changed;) {
      changed = false;
      for (const Clause& clause : program.clauses) {
        const bool fires = clause.head / 10 == third && !at(clause.head) &&
                           std::all_of(clause.needs.begin(), clause.needs.end(), at) &&
                           std::none_of(clause.without.begin(), clause.without.end(), at);
        if (!fires) continue;
        holds[static_cast<std::size_t>(clause.head)] = changed = true;
      }
    }
  }
  return holds;
}

std::vector<Atom> some_atoms(Random& random) {
  std::vector<Atom> atoms;
  for (int i = 0; i < 6; ++i) atoms.push_back(any_below(random, 30));
  return atoms;
}

TEST(Chain, OfAnyRulesIsThePerfectModelInWhateverOrderTheyStand) {
  Random random(41);
  std::size_t concluded = 0;
  for (int round = 0; round < 500; ++round) {
    Program program = any_program(random);
    std::vector<Atom> given = some_atoms(random);
    const std::vector<bool> expected = swept(program, given);
    for (int order = 0; order < 3; ++order) {
      const Model model = forward_chain(program, std::get<Layers>(stratify(program)), given);
      ASSERT_EQ(model.holds, expected) << "round " << round << ", order " << order;
      concluded += static_cast<std::size_t>(
          std::count_if(model.maker.begin(), model.maker.end(), [](int m) { return m >= 0; }));
      std::shuffle(program.clauses.begin(), program.clauses.end(), random);
      std::shuffle(given.begin(), given.end(), random);
    }
  }
  EXPECT_GT(concluded, 1500U) << "too few conclusions to say anything";
}

TEST(Maker, OfAnyRulesFiredOnPremisesThatHold) {
  Random random(42);
  for (int round = 0; round < 300; ++round) {
    const Program program = any_program(random);
    const std::vector<Atom> given = some_atoms(random);
    const Model model = forward_chain(program, std::get<Layers>(stratify(program)), given);
    const auto holds = [&](Atom atom) { return model.holds[static_cast<std::size_t>(atom)]; };
    for (Atom atom = 0; atom < program.atoms; ++atom) {
      const int maker = model.maker[static_cast<std::size_t>(atom)];
      const bool was_given = std::count(given.begin(), given.end(), atom) > 0;
      ASSERT_EQ(maker >= 0, holds(atom) && !was_given);
      if (maker < 0) continue;
      const Clause& clause = program.clauses[static_cast<std::size_t>(maker)];
      EXPECT_EQ(clause.head, atom);
      EXPECT_TRUE(std::all_of(clause.needs.begin(), clause.needs.end(), holds));
      EXPECT_TRUE(std::none_of(clause.without.begin(), clause.without.end(), holds));
    }
  }
}

// --- size ---------------------------------------------------------------------------------------

constexpr int kLong = 100'000;

/// Each rule waits for the next one down the file. `negated` turns every second into a denial.
Program long_chain(int length, bool negated) {
  Program program{.atoms = length + 1, .clauses = {}};
  for (int i = length - 1; i >= 0; --i) {
    Clause clause{.head = i + 1};
    (negated ? clause.without : clause.needs).push_back(i);
    program.clauses.push_back(clause);
  }
  return program;
}

struct LongRun {
  Program program;
  Model model = {};
  double seconds = 0.0;
};

void* run_long(void* argument) {
  auto& run = *static_cast<LongRun*>(argument);
  const auto start = std::chrono::steady_clock::now();
  run.model = forward_chain(run.program, std::get<Layers>(stratify(run.program)), {0});
  run.seconds = std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
  return nullptr;
}

/// On a stack too small for a call per rule.
LongRun on_a_small_stack(Program program) {
  LongRun run{.program = std::move(program)};
  pthread_attr_t attributes;
  pthread_attr_init(&attributes);
  pthread_attr_setstacksize(&attributes, 256UL * 1024);
  pthread_t thread{};
  EXPECT_EQ(pthread_create(&thread, &attributes, run_long, &run), 0);
  pthread_join(thread, nullptr);
  pthread_attr_destroy(&attributes);
  return run;
}

TEST(LongChain, OfAHundredThousandRulesIsFastAndDoesNotRecurse) {
  const LongRun run = on_a_small_stack(long_chain(kLong, false));
  EXPECT_EQ(std::count(run.model.holds.begin(), run.model.holds.end(), true), kLong + 1);
  EXPECT_LT(run.seconds, 10.0);
}

TEST(LongChain, OfAHundredThousandDenialsIsAsManyLayersAndStillFast) {
  const LongRun run = on_a_small_stack(long_chain(kLong, true));
  EXPECT_EQ(std::get<Layers>(stratify(run.program)).size(), static_cast<std::size_t>(kLong) + 1);
  EXPECT_EQ(std::count(run.model.holds.begin(), run.model.holds.end(), true), kLong / 2 + 1)
      << "every second fact holds";
  EXPECT_LT(run.seconds, 10.0);
}

}  // namespace
}  // namespace kartwright
