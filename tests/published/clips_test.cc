// Our chaining against CLIPS 6.30 (the package `clips` of the distribution; Basic Programming
// Guide, 17 March 2015: 5.4.5 for `not`, 5.4.10.1 for salience): the rules that come with the
// program on every scenario, and rule sets made up from seeds. Every conclusion must be the same.
//
// Where CLIPS is not installed these are skipped, unless KARTWRIGHT_CLIPS is `required`.

#include "tests/support/clips.h"

#include <algorithm>
#include <cstdlib>
#include <string>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "engine/debrief/debrief_file.h"
#include "engine/inference/derive.h"
#include "tests/support/any.h"
#include "tests/support/ground_rules.h"
#include "tests/support/kart_pack.h"
#include "tests/support/pit.h"
#include "tests/support/rules_as_clauses.h"
#include "tests/support/scenario_files.h"

namespace kartwright {
namespace {

bool clips_is_required() {
  const char* const wish = std::getenv("KARTWRIGHT_CLIPS");
  return wish != nullptr && std::string(wish) == "required";
}

class BesideClips : public testing::Test {
 protected:
  void SetUp() override {
    if (!clips_program().empty()) return;
    if (clips_is_required()) FAIL() << "clips is not installed, and KARTWRIGHT_CLIPS requires it";
    GTEST_SKIP() << "clips is not installed: `sh tests/packages.sh test`";
  }
};

// --- the rules that come with the program
// ---------------------------------------------------------

/// A scenario's kart and what was said.
struct Told {
  std::string name;
  Kart kart;
  Debrief debrief;
};

Told read_told(const std::string& path) {
  Findings findings;
  DebriefFile file = read_debrief(read_document(path), rules(), findings);
  Told told{scenario_name(path), typical_kart(rules()), std::move(file.debrief)};
  if (!file.kart_path.empty()) {
    told.kart = read_kart(read_document(file.kart_path), rules(), findings);
  } else if (file.kart) {
    told.kart = std::move(*file.kart);
  }
  EXPECT_EQ(kartwright::told(findings.all()), "");
  return told;
}

Situation settled(const Told& told) {
  const std::vector<Report>& reports = told.debrief.heard.reports;
  return {.pack = rules(),
          .kart = told.kart,
          .reports = reports,
          .facts = settle_facts(rules(), told.kart, reports,
                                given_facts(rules(), told.kart, told.debrief))};
}

std::vector<std::string> texts_of(const Facts& facts) {
  std::vector<std::string> out;
  for (const Fact& fact : facts.all) out.push_back(fact.text());
  std::sort(out.begin(), out.end());
  return out;
}

/// How often something happened that makes the cases worth comparing.
struct Happened {
  int derived = 0, fired = 0, silent = 0;
};

void expect_same(const Told& told, const RulesAsClauses& clauses, const std::vector<Atom>& atoms,
                 Happened& happened) {
  const Situation situation = settled(told);
  EXPECT_EQ(texts_of(situation.facts), clauses.facts_among(atoms)) << told.name;
  for (std::size_t i = 0; i < clauses.rules().size(); ++i) {
    const RuleRef& rule = clauses.rules()[i];
    const bool theirs = std::binary_search(atoms.begin(), atoms.end(), clauses.fired(i));
    const bool ours = holds(*rule.when, situation);
    EXPECT_EQ(ours, theirs) << told.name << ": " << rule.rule->id;
    ++(ours ? happened.fired : happened.silent);
  }
  for (const Fact& fact : situation.facts.all) happened.derived += fact.premises.empty() ? 0 : 1;
}

/// Asks CLIPS about every case in one process, and compares.
Happened expect_same(const std::vector<Told>& all) {
  RulesAsClauses clauses(rules());
  std::vector<std::vector<Atom>> cases;
  for (const Told& told : all) {
    const Situation unsettled{
        .pack = rules(), .kart = told.kart, .reports = told.debrief.heard.reports};
    cases.push_back(clauses.given(given_facts(rules(), told.kart, told.debrief), unsettled));
  }
  const auto answers = asked_of_clips({{clauses.program(), cases}});
  Happened happened;
  for (std::size_t i = 0; i < all.size(); ++i) {
    expect_same(all[i], clauses, answers[0][i], happened);
  }
  return happened;
}

TEST_F(BesideClips, EveryRuleThatComesWithTheProgramHoldsWhereItHoldsThere) {
  std::vector<Told> all;
  for (const std::string& path : scenario_files()) all.push_back(read_told(path));
  ASSERT_GE(all.size(), 30U);
  const Happened happened = expect_same(all);
  EXPECT_GT(happened.derived, 0);
  EXPECT_GT(happened.fired, 500);
  EXPECT_GT(happened.silent, 500);
}

TEST_F(BesideClips, TheSameRulesHoldOnKartsAndDebriefsFromASeed) {
  Random random(71);
  std::vector<Told> all;
  for (int i = 0; i < 150; ++i) {
    const std::string name = "case " + std::to_string(i);
    all.push_back({name, any_kart(random, rules()), any_debrief(random, rules())});
  }
  const Happened happened = expect_same(all);
  EXPECT_GT(happened.derived, 10);
  EXPECT_GT(happened.fired, 2000);
  EXPECT_GT(happened.silent, 2000);
}

// --- rules from seeds
// -----------------------------------------------------------------------------

/// The atoms that hold by our chaining, ascending.
std::vector<Atom> chained(const Program& program, const std::vector<Atom>& given) {
  const Model model = forward_chain(program, std::get<Layers>(stratify(program)), given);
  std::vector<Atom> out;
  for (Atom atom = 0; atom < program.atoms; ++atom) {
    if (model.holds[static_cast<std::size_t>(atom)]) out.push_back(atom);
  }
  return out;
}

std::vector<ClipsRules> made_up(int from, int to) {
  std::vector<ClipsRules> sets;
  for (int seed = from; seed < to; ++seed) {
    const int rules = 10 + seed * 7 % 150;
    const int facts = 2 + seed * 5 % 60;
    GroundRules set = ground_rules(rules, facts, static_cast<std::uint64_t>(seed));
    sets.push_back({std::move(set.program), {std::move(set.given)}});
  }
  return sets;
}

class MadeUpRules : public BesideClips, public testing::WithParamInterface<int> {};

TEST_P(MadeUpRules, ConcludeTheSameHundredTimes) {
  const std::vector<ClipsRules> sets = made_up(GetParam(), GetParam() + 100);
  const auto answers = asked_of_clips(sets);
  std::size_t concluded = 0;
  for (std::size_t i = 0; i < sets.size(); ++i) {
    const std::vector<Atom>& given = sets[i].cases.front();
    EXPECT_EQ(chained(sets[i].program, given), answers[i].front())
        << "set " << GetParam() + static_cast<int>(i);
    concluded += answers[i].front().size() - given.size();
  }
  EXPECT_GT(concluded, 2000U);
}

INSTANTIATE_TEST_SUITE_P(ThreeHundredSeeds, MadeUpRules, testing::Values(1, 101, 201));

// The rules above say little unless their denials matter: without them more would be concluded.
TEST(MadeUpRulesAlone, AreHeldBackByTheirDenials) {
  int held_back = 0;
  for (ClipsRules& set : made_up(1, 301)) {
    const std::vector<Atom>& given = set.cases.front();
    const std::size_t with = chained(set.program, given).size();
    for (Clause& clause : set.program.clauses) clause.without.clear();
    held_back += chained(set.program, given).size() > with ? 1 : 0;
  }
  EXPECT_GT(held_back, 200);
}

}  // namespace
}  // namespace kartwright
