// The normal form of any condition holds exactly where the condition does, over every case of a
// small world; what the audit calls impossible is so in each of them; and every case that it makes
// up is one on which its rules fire.

#include <algorithm>

#include <gtest/gtest.h>

#include "engine/audit/checks.h"
#include "engine/audit/judge.h"
#include "engine/audit/normal_form.h"
#include "engine/inference/chain.h"
#include "engine/inference/derive.h"
#include "tests/support/any.h"
#include "tests/support/small_audit.h"
#include "tests/support/throws.h"

namespace kartwright {
namespace {

constexpr const char* kMoreFacts =
    "  - {fact: heavy, label: x, values: [yes, no], derived: yes}\n"
    "  - {fact: light, label: x, values: [yes], derived: yes}\n";

const std::vector<std::pair<std::string, std::vector<std::string>>>& facts_of_world() {
  static const std::vector<std::pair<std::string, std::vector<std::string>>> all{
      {"hit", {"yes", "no"}},
      {"turn-in", {"brake", "throttle"}},
      {"track", {"cold", "wet"}},
      {"heavy", {"yes", "no"}},
      {"light", {"yes"}}};
  return all;
}

kartwright::Test any_test(Random& random) {
  switch (any_below(random, 8)) {
    case 0: {
      ReportTest test{.symptom = "push", .at_least = whole(random, 0, 3)};
      if (one_in(random, 2)) test.phase = one_in(random, 2) ? Phase::entry : Phase::any;
      return test;
    }
    case 1:
      return SettingTest{.adjustment = "axle", .positions = {one_in(random, 2) ? "soft" : "hard"}};
    case 2:
      return SettingTest{.adjustment = "rear-width",
                         .within = whole(random, 0, 3) * 0.01,
                         .of_end = one_in(random, 2) ? "wider" : "narrower"};
    case 3: {
      MeasureTest test{.measure = "front-share"};
      test.side = one_in(random, 2) ? MeasureTest::Side::above : MeasureTest::Side::below;
      if (one_in(random, 2)) test.limit = 0.40 + whole(random, 0, 4) * 0.01;
      return test;
    }
    default:
      break;
  }
  const auto& [fact, values] = any_of(random, facts_of_world());
  FactTest test{fact, {any_of(random, values)}};
  if (one_in(random, 4)) test.values = values;
  return test;
}

Condition any_condition(Random& random, int depth) {
  using Op = Condition::Op;
  if (depth == 0 || one_in(random, 4)) return {.op = Op::test, .test = any_test(random)};
  if (one_in(random, 4)) return {.op = Op::negated, .parts = {any_condition(random, depth - 1)}};
  Condition out{.op = one_in(random, 2) ? Op::all : Op::any};
  for (int n = whole(random, 1, 3); n > 0; --n) {
    out.parts.push_back(any_condition(random, depth - 1));
  }
  return out;
}

/// A derivation of `heavy` may ask for anything, of `light` for `heavy` too; of neither for its own
/// absence, so that every case can be settled.
Pack any_pack(Random& random) {
  Pack pack = SmallAudit{.facts = kMoreFacts}.pack();
  for (int n = whole(random, 0, 3); n > 0; --n) {
    DeriveRule rule;
    rule.id = "rule-" + std::to_string(n);
    rule.when = any_condition(random, 2);
    rule.fact = one_in(random, 2) ? "heavy" : one_in(random, 2) ? "light" : "hit";
    rule.value = rule.fact == "heavy" && one_in(random, 2) ? "no" : "yes";
    pack.derives.push_back(rule);
    if (!check_cycles(pack).empty()) pack.derives.pop_back();
  }
  return pack;
}

/// One case of the world.
struct World {
  Kart kart;
  Debrief debrief;
};

std::vector<Kart> karts(const Pack& pack) {
  const Kart typical = typical_kart(pack);
  std::vector<Kart> out;
  for (const char* axle : {"", "soft", "medium", "hard"}) {
    for (const double width : {0.0, 1.30, 1.31, 1.32, 1.36, 1.38, 1.39, 1.40}) {
      for (const double share : {0.0, 0.39, 0.405, 0.42, 0.435, 0.45}) {
        Kart kart = typical;
        if (*axle == '\0') kart.settings.erase("axle");
        if (*axle != '\0') {
          Setting& setting = kart.settings.at("axle");
          setting.now = *place_named(setting.travel, axle);
        }
        if (width == 0.0) kart.settings.erase("rear-width");
        if (width > 0.0) kart.settings.at("rear-width").now = width;
        if (share > 0.0) kart.measures["front-share"] = share;
        out.push_back(std::move(kart));
      }
    }
  }
  return out;
}

std::vector<Debrief> debriefs() {
  std::vector<Debrief> out;
  for (const char* track : {"unknown", "cold", "wet"}) {
    for (const char* hit : {"", "yes", "no"}) {
      for (const char* turn_in : {"", "brake", "throttle"}) {
        for (const int entry : {-1, 0, 1, 2, 3}) {
          for (const int any : {-1, 0, 2, 3}) {
            Debrief debrief;
            debrief.track = track;
            auto& heard = debrief.heard;
            if (*hit != '\0') heard.facts.push_back({.fact = "hit", .value = hit});
            if (*turn_in != '\0') heard.facts.push_back({.fact = "turn-in", .value = turn_in});
            if (entry >= 0)
              heard.reports.push_back(
                  {.symptom = "push", .phase = Phase::entry, .severity = entry});
            if (any >= 0) heard.reports.push_back({.symptom = "push", .severity = any});
            out.push_back(std::move(debrief));
          }
        }
      }
    }
  }
  return out;
}

bool form_holds(const NormalForm& form, const Situation& situation) {
  return std::any_of(form.begin(), form.end(), [&](const Conjunction& all) {
    return std::all_of(all.begin(), all.end(), [&](const Literal& literal) {
      return holds(literal.test, situation) == literal.wanted;
    });
  });
}

/// Both ways of looking at a condition on one case: with the facts settled, and with what was
/// stated alone.
struct Looked {
  bool settled = false, form = false;
};

Looked look(const Condition& condition, const NormalForm& form, const Pack& pack, const Kart& kart,
            const Debrief& debrief) {
  const std::vector<Report>& reports = debrief.heard.reports;
  const std::vector<Fact> given = given_facts(pack, kart, debrief);
  Situation situation{.pack = pack, .kart = kart, .reports = reports};
  situation.facts.all = given;
  const bool by_form = form_holds(form, situation);
  situation.facts = settle_facts(pack, kart, reports, given);
  return {holds(condition, situation), by_form};
}

TEST(NormalFormProperty, HoldsWhereTheConditionDoesAndWhatIsImpossibleNeverHappens) {
  Random random(53);
  const std::vector<Debrief> said = debriefs();
  int impossible = 0, certain = 0;
  for (int round = 0; round < 150; ++round) {
    const Pack pack = any_pack(random);
    const std::vector<Kart> all_karts = karts(pack);
    const Condition condition = any_condition(random, 3);
    const auto form = normal_form(condition, pack);
    if (!form) continue;
    const bool never = search(condition, pack).impossible();
    const bool always = search(denial_of(condition), pack).impossible();
    impossible += never ? 1 : 0;
    certain += always ? 1 : 0;
    for (int trial = 0; trial < 400; ++trial) {
      const Kart& kart = any_of(random, all_karts);
      const Debrief& debrief = any_of(random, said);
      const Looked looked = look(condition, *form, pack, kart, debrief);
      ASSERT_EQ(looked.form, looked.settled) << "round " << round << ", trial " << trial;
      ASSERT_FALSE(never && looked.settled) << "round " << round << ", trial " << trial;
      ASSERT_TRUE(!always || looked.settled) << "round " << round << ", trial " << trial;
    }
  }
  EXPECT_GT(impossible, 5);
  EXPECT_GT(certain, 2);
}

TEST(NormalFormProperty, EveryCaseMadeUpForAConditionIsOneThatFitsIt) {
  Random random(59);
  int shown = 0;
  for (int round = 0; round < throws_of_the_dice(400); ++round) {
    Pack pack = any_pack(random);
    EvidenceRule& rule = pack.faults.front().evidence.front();
    rule.when = any_condition(random, 3);
    const Search found = search(rule.when, pack);
    if (!found.sample) continue;
    const RuleRef ref{.rule = &rule,
                      .kind = RuleKind::evidence,
                      .when = &rule.when,
                      .fault = &pack.faults.front()};
    const auto witness = witness_of(*found.sample, {ref}, pack, "any");
    ASSERT_TRUE(witness) << "round " << round << '\n' << debrief_text(*found.sample, pack, "any");
    ++shown;
  }
  EXPECT_GT(shown, throws_of_the_dice(200));
}

// The other way round: where any case of the world fits two opposite effects, one is made up.
TEST(NormalFormProperty, OppositeEffectsThatMeetSomewhereHaveAWitness) {
  Random random(61);
  const std::vector<Debrief> said = debriefs();
  int met = 0;
  for (int round = 0; round < 150; ++round) {
    Pack pack = SmallAudit{.effects = rule_text("one", "track: wet", "moves: {grip: +1 ± 1}") +
                                      rule_text("two", "track: cold", "moves: {grip: -1 ± 1}"),
                           .facts = kMoreFacts}
                    .pack();
    auto& effects = pack.adjustments.back().effects;
    ASSERT_EQ(effects.size(), 3U);
    effects[0].when = any_condition(random, 2);
    effects[1].when = any_condition(random, 2);
    const AuditFindings found = check_opposites(pack);
    const bool told = !found.empty();
    for (const AuditFinding& each : found) EXPECT_TRUE(each.witness) << "round " << round;
    met += told ? 1 : 0;
    const std::vector<Kart> all_karts = karts(pack);
    for (int trial = 0; trial < 300 && !told; ++trial) {
      const Kart& kart = any_of(random, all_karts);
      if (kart.setting("rear-width") == nullptr) continue;
      const auto both = both_of(effects[0].when, effects[1].when);
      ASSERT_FALSE(look(both, {}, pack, kart, any_of(random, said)).settled) << "round " << round;
    }
  }
  EXPECT_GT(met, 50);
}

}  // namespace
}  // namespace kartwright
