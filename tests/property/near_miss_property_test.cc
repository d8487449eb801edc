// Why a rule does not fire, tested by making it true: exactly what is named is changed, and nothing
// else.

#include <algorithm>
#include <map>

#include <gtest/gtest.h>

#include "engine/inference/derive.h"
#include "engine/inference/firing.h"
#include "engine/inference/near_miss.h"
#include "tests/support/any.h"
#include "tests/support/pit.h"
#include "tests/support/throws.h"

namespace kartwright {
namespace {

struct Entered {
  Kart kart;
  Debrief debrief;
};

Entered any_case(Random& random) {
  Entered out{any_kart(random, rules()), any_debrief(random, rules())};
  for (const MeasureDef& measure : rules().measures) {
    if (one_in(random, 3)) {
      out.kart.measures[measure.id] = any_between(random, measure.from, measure.to);
    }
  }
  return out;
}

Situation situation_of(const Entered& entered) {
  const std::vector<Report>& reports = entered.debrief.heard.reports;
  return {.pack = rules(),
          .kart = entered.kart,
          .reports = reports,
          .facts = settle_facts(rules(), entered.kart, reports,
                                given_facts(rules(), entered.kart, entered.debrief))};
}

// The changes, made on a case as a crew would make them, without the engine's own help.

void change(const FactChange& wanted, Entered& entered) {
  if (wanted.fact == "track") {
    entered.debrief.track = wanted.to ? *wanted.to : "unknown";
    return;
  }
  auto& stated = entered.debrief.heard.facts;
  stated.erase(std::remove_if(stated.begin(), stated.end(),
                              [&](const StatedFact& fact) { return fact.fact == wanted.fact; }),
               stated.end());
  if (wanted.to) {
    stated.push_back({wanted.fact, *wanted.to, ""});
  } else {
    entered.kart.facts.erase(wanted.fact);
  }
}

void change(const ReportChange& wanted, Entered& entered) {
  auto& reports = entered.debrief.heard.reports;
  for (auto it = reports.begin(); it != reports.end(); ++it) {
    if (it->symptom != wanted.symptom || it->phase != wanted.phase) continue;
    if (!wanted.severity) {
      reports.erase(it);
    } else {
      it->severity = *wanted.severity;
    }
    return;
  }
  Report report;
  report.symptom = wanted.symptom;
  report.phase = wanted.phase;
  report.severity = wanted.severity.value();
  reports.push_back(report);
}

void change(const SettingChange& wanted, Entered& entered) {
  auto found = entered.kart.settings.find(wanted.adjustment);
  if (found == entered.kart.settings.end()) {
    Setting fresh = fitted_setting(*rules().adjustment(wanted.adjustment));
    found = entered.kart.settings.emplace(wanted.adjustment, fresh).first;
  }
  const auto& places = found->second.travel.places;
  EXPECT_EQ(std::count(places.begin(), places.end(), wanted.to), 1) << wanted.adjustment;
  found->second.now = wanted.to;
}

void change(const MeasureChange& wanted, Entered& entered) {
  entered.kart.measures[wanted.measure] = wanted.to;
}

void change(const BandChange& wanted, Entered& entered) {
  entered.kart.bands[wanted.measure] = std::pair(wanted.from, wanted.to);
}

/// Whether a rule fires once the lacks are mended, all but one of them.
bool fires_with(const RuleRef& rule, Entered entered, const std::vector<Lack>& lacks,
                std::size_t left_out) {
  for (std::size_t i = 0; i < lacks.size(); ++i) {
    if (i == left_out) continue;
    std::visit([&](const auto& one) { change(one, entered); }, lacks[i].change);
  }
  return fires(rule, situation_of(entered));
}

constexpr std::size_t kNone = 1000;

std::string told(const Alternative& alternative) {
  std::string out;
  for (const Lack& lack : alternative.lacks) {
    out += "\n  " + in_words(lack, rules(), System::metric);
  }
  return out;
}

void expect_makes_it_true(const RuleRef& rule, const Entered& entered,
                          const Alternative& alternative) {
  const std::vector<Lack>& lacks = alternative.lacks;
  ASSERT_FALSE(lacks.empty()) << rule.rule->id;
  EXPECT_TRUE(fires_with(rule, entered, lacks, kNone)) << rule.rule->id << told(alternative);
  for (std::size_t i = 0; i < lacks.size(); ++i) {
    EXPECT_FALSE(fires_with(rule, entered, lacks, i)) << rule.rule->id << told(alternative) << "\n"
                                                      << i << " is not needed";
  }
}

/// Only the length of a travel can stand in the way of every change.
bool for_want_of_travel(const RuleRef& rule) { return rule.rule->id == "wet-camber-to-zero"; }

TEST(NearMissProperty, MadeExactlyAsNamedItFires) {
  Random random(53);
  const std::vector<RuleRef> all = every_rule(rules());
  std::map<RuleKind, int> kinds;
  int pairs = 0, several = 0, never = 0;
  while (pairs < 400 && !::testing::Test::HasFailure()) {
    const Entered entered = any_case(random);
    const RuleRef& rule = any_of(random, all);
    const Situation situation = situation_of(entered);
    const NearMiss miss = why_not(rule, situation);
    EXPECT_EQ(miss.fires, fires(rule, situation)) << rule.rule->id;
    if (miss.fires) {
      EXPECT_TRUE(miss.alternatives.empty()) << rule.rule->id;
      continue;
    }
    ++pairs;
    if (miss.alternatives.empty()) {
      EXPECT_TRUE(for_want_of_travel(rule)) << rule.rule->id;
      ++never;
      continue;
    }
    ++kinds[rule.kind];
    if (miss.alternatives.front().lacks.size() > 1) ++several;
    for (const Alternative& alternative : miss.alternatives) {
      expect_makes_it_true(rule, entered, alternative);
    }
  }
  // The pairs are no use if one change always does.
  EXPECT_GT(several, 10);
  EXPECT_LT(never, 8);
  EXPECT_GE(kinds.size(), 4U);
}

TEST(NearMissProperty, AlternativesComeWithTheFewestChangesAndThenTheNearestFirst) {
  Random random(54);
  const std::vector<RuleRef> all = every_rule(rules());
  for (int i = 0; i < throws_of_the_dice(200); ++i) {
    const Entered entered = any_case(random);
    const NearMiss miss = why_not(any_of(random, all), situation_of(entered));
    for (std::size_t a = 1; a < miss.alternatives.size(); ++a) {
      const Alternative& before = miss.alternatives[a - 1];
      const Alternative& after = miss.alternatives[a];
      ASSERT_LE(before.lacks.size(), after.lacks.size());
      if (before.lacks.size() == after.lacks.size()) {
        ASSERT_LE(before.distance(), after.distance());
      }
    }
  }
}

}  // namespace
}  // namespace kartwright
