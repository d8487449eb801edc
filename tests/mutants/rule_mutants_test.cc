// The slips themselves, and a quick part of what `sh tests/mutants.sh rules` does in full.

#include <set>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "engine/knowledge/built_in.h"
#include "engine/knowledge/every_rule.h"
#include "engine/knowledge/load.h"
#include "tests/mutants/rule_report.h"
#include "tests/support/kart_pack.h"

namespace kartwright {
namespace {

using testing::Contains;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::SizeIs;

RuleFiles own_files() { return {.rules = built_in_rules(), .cases = built_in_cases()}; }

TEST(RuleSlips, AreMadeInEveryRuleOfThePack) {
  std::set<std::string> removed, forgotten, all;
  for (const RuleMutant& mutant : rule_mutants(built_in_rules())) {
    if (mutant.slip == RuleSlip::removed) removed.insert(mutant.rule);
    if (mutant.slip == RuleSlip::forgotten) forgotten.insert(mutant.rule);
  }
  const Pack pack = built_in_pack();
  for (const RuleRef& rule : every_rule(pack)) all.insert(rule.rule->id);
  EXPECT_EQ(forgotten, all);
  for (const Gauge& gauge : pack.gauges) {
    for (const GaugeVerdict& verdict : gauge.verdicts) all.insert(verdict.id);
  }
  EXPECT_THAT(removed, testing::IsSupersetOf(all));
}

TEST(RuleSlips, HaveNamesOfTheirOwn) {
  std::set<std::string> names;
  const std::vector<RuleMutant> mutants = rule_mutants(built_in_rules());
  for (const RuleMutant& mutant : mutants) names.insert(mutant.text());
  EXPECT_THAT(names, SizeIs(mutants.size()));
}

TEST(RuleSlips, ChangeANumberAndNothingBesideIt) {
  EXPECT_EQ(scaled_text("-0.5 ± 0.2", -1.0), "0.5 ± 0.2");
  EXPECT_EQ(scaled_text("+0.3 ± 0.35", 0.5), "+0.15 ± 0.35");
  EXPECT_EQ(scaled_text("+8", -1.0), "-8");
  EXPECT_EQ(scaled_text("22 mm", 2.0), "44 mm");
  EXPECT_EQ(scaled_text("3/4 in", 0.5), "0.375 in");
  EXPECT_EQ(leading_number("wider"), 0.0);
}

std::vector<Document> hub_rule() {
  return {parse_document("hubs.yaml",
                         "effects:\n"
                         "  - {id: longer, because: x, when: {track: wet},\n"
                         "     moves: {grip: +0.5 ± 0.2, response: 0 ± 0.2}}\n")};
}

TEST(RuleSlips, AreTakenBack) {
  RuleFiles files{.rules = hub_rule(),
                  .cases = {parse_document("hubs.cases.yaml",
                                           "cases:\n"
                                           "  - {case: a, fires: [longer]}\n"
                                           "  - {case: b, fires: other, silent: [longer]}\n")}};
  const std::vector<RuleMutant> mutants = rule_mutants(files.rules);
  std::vector<std::string> made;
  for (const RuleMutant& mutant : mutants) {
    made.push_back(mutant.text());
    const MutantAtWork at_work(mutant, files);
    const Node& effects = files.rules[0].root.entries[0].value;
    const std::vector<Node>& cases = files.cases[0].root.entries[0].value.items;
    const bool gone = mutant.slip == RuleSlip::removed || mutant.slip == RuleSlip::forgotten;
    EXPECT_EQ(effects.items.size(), gone ? 0U : 1U);
    EXPECT_EQ(cases.size(), mutant.slip == RuleSlip::forgotten ? 1U : 2U);
    if (gone) continue;
    const Node& rule = effects.items[0];
    EXPECT_EQ(rule.find("when")->find("not") != nullptr, mutant.slip == RuleSlip::negated);
    const bool turned = rule.find("moves")->find("grip")->text == "-0.5 ± 0.2";
    EXPECT_EQ(turned, mutant.slip == RuleSlip::flipped);
  }
  EXPECT_THAT(made, ElementsAre("longer removed", "longer forgotten", "longer flipped at grip",
                                "longer negated", "longer halved", "longer doubled"));
  EXPECT_EQ(files.rules[0].root.entries[0].value.items.size(), 1U);
  EXPECT_EQ(files.cases[0].root.entries[0].value.items.size(), 2U);
}

TEST(RuleSlips, ThatPassUnnoticedNeedAReasonThatIsTrue) {
  const std::vector<RuleMutant> mutants = rule_mutants(hub_rule());
  std::vector<JudgedMutant> judged;
  for (const RuleMutant& mutant : mutants) judged.push_back({&mutant, Juror::nobody});
  EXPECT_THAT(
      complaints_about(judged, {}),
      ElementsAre("nothing notices it: longer removed", "nothing notices it: longer forgotten",
                  "nothing notices it: longer flipped at grip"));
  judged[0].noticed_by = Juror::claim;
  const std::vector<Justified> reasons{
      {"longer removed", "x"}, {"longer forgotten", "x"}, {"longer flipped at grip", "x"}};
  EXPECT_THAT(complaints_about(judged, reasons),
              ElementsAre("justified, but a claim notices it: longer removed"));
  EXPECT_THAT(complaints_about({}, {{"shorter removed", "x"}}),
              ElementsAre("justified, but no such mutant: shorter removed"));
  EXPECT_THAT(rule_report(judged, reasons), HasSubstr("longer flipped at grip (effect): x"));
}

/// The jury that can be asked often: no scenarios, no audit, no properties.
TEST(RuleSlips, OfASignAreNoticedByTheClaims) {
  RuleFiles files = own_files();
  const RuleJury jury({.claims = true, .last = Juror::claim});
  ASSERT_EQ(jury.first_to_notice(files), Juror::nobody);
  const std::vector<RuleMutant> mutants = rule_mutants(files.rules);
  constexpr std::size_t kEvery = 11;  // all of them would take half a minute
  std::size_t number = 0;
  for (const RuleMutant& mutant : mutants) {
    if (mutant.slip != RuleSlip::flipped || number++ % kEvery != 0) continue;
    const MutantAtWork at_work(mutant, files);
    EXPECT_NE(jury.first_to_notice(files), Juror::nobody) << mutant.text();
  }
  EXPECT_GT(number, 300U);
}

}  // namespace
}  // namespace kartwright
