// The page of an adjustment: nothing left out, and every claim borne out by the numbers.

#include <algorithm>
#include <cmath>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "engine/advice/cause.h"
#include "engine/advice/explain.h"
#include "tests/support/pit.h"

namespace kartwright {
namespace {

using testing::AllOf;
using testing::HasSubstr;
using testing::Not;

const ExplainedPart* part_of(const Explanation& page, std::string_view heading) {
  for (const ExplainedPart& part : page.sections) {
    if (part.heading == heading) return &part;
  }
  return nullptr;
}

std::string text_of(std::string_view id, std::string_view heading) {
  const Explanation page = *explain(id, rules());
  const ExplainedPart* part = part_of(page, heading);
  EXPECT_NE(part, nullptr) << id << ": " << heading;
  std::string out;
  if (part == nullptr) return out;
  for (const std::string& each : part->paragraphs) out += each + "\n";
  return out;
}

EffectTable table_on_page(std::string_view id) {
  const Explanation page = *explain(id, rules());
  return part_of(page, "what it does")->table.value();
}

TEST(AdjustmentPage, SaysEverythingANoviceAsksInTheOrderHeAsksIt) {
  for (const Adjustment& adjustment : rules().adjustments) {
    const Explanation page = *explain(adjustment.id, rules());
    std::vector<std::string> headings;
    for (const ExplainedPart& part : page.sections) {
      headings.push_back(part.heading);
      ASSERT_FALSE(part.paragraphs.empty()) << adjustment.id << part.heading;
      for (const std::string& each : part.paragraphs) EXPECT_NE(each, "") << part.heading;
    }
    EXPECT_THAT(headings,
                testing::ElementsAre("what it is", "measured", "what it does", "why it works",
                                     "when it turns round", "when it is more or less than that",
                                     "what limits it", "how contested it is", "watch for",
                                     "cures and feeds", "in numbers", "care"))
        << adjustment.id;
  }
}

TEST(AdjustmentPage, LosesNothingThatTheRulesSay) {
  for (const Adjustment& a : rules().adjustments) {
    const Explanation explained = *explain(a.id, rules());
    std::string page;
    for (const ExplainedPart& part : explained.sections) {
      for (const std::string& each : part.paragraphs) page += each + "\n";
    }
    for (const std::string& text : {a.plain, a.measured, a.explain, a.limits, a.watch[0],
                                    a.watch[1], a.back_out[0], a.back_out[1]})
      EXPECT_THAT(page, HasSubstr(text));
    for (const EffectRule& rule : a.effects)
      EXPECT_THAT(page, AllOf(HasSubstr("[" + rule.id + "]"), HasSubstr(rule.because),
                              HasSubstr(rule.provenance.note)));
    for (const std::string& id : a.cautions)
      EXPECT_THAT(page, HasSubstr(rules().caution(id)->text));
  }
}

/// -1, 0 or 1; words for nothing or for both ways are 0.
int sign_of_words(const std::string& words) {
  return words.ends_with("more") ? 1 : words.ends_with("less") ? -1 : 0;
}

/// The rules' own number, found once more.
double in_rules(const Adjustment& adjustment, std::size_t axis) {
  for (const EffectRule& rule : adjustment.effects) {
    if (rule.when.op != Condition::Op::always) continue;
    for (const Cell& cell : rule.cells) {
      if (cell.axis == axis) return cell.mean;
    }
  }
  return 0.0;
}

TEST(AdjustmentPage, EveryCellOfTheTableHasTheSignOfItsRule) {
  int marked = 0;
  for (const Adjustment& adjustment : rules().adjustments) {
    const EffectTable table = table_on_page(adjustment.id);
    EXPECT_EQ(table.columns, (std::vector<std::string>{"going in", "in the middle", "coming off"}));
    std::size_t axis = 0;
    for (const EffectTable::Row& row : table.rows) {
      for (std::size_t i = 0; i < row.cells.size(); ++i, ++axis) {
        const double mean = in_rules(adjustment, axis);
        EXPECT_EQ(sign_of_words(row.cells[i]), mean == 0.0  ? 0
                                               : mean < 0.0 ? -1
                                                            : 1)
            << adjustment.id << ": " << rules().axes[axis].id;
        EXPECT_EQ(row.notches[i].value_or(0.0), mean);
        EXPECT_THAT(rules().axes[axis].label, testing::StartsWith(row.label));
        marked += mean != 0.0 ? 1 : 0;
      }
    }
    EXPECT_EQ(axis, rules().axes.size()) << adjustment.id;
  }
  EXPECT_GT(marked, 60);
}

TEST(AdjustmentPage, ListsARuleAsTurningItRoundIffASignFlips) {
  for (const Adjustment& adjustment : rules().adjustments) {
    const std::string turns = text_of(adjustment.id, "when it turns round");
    const std::string sizes = text_of(adjustment.id, "when it is more or less than that");
    bool any = false;
    for (const EffectChange& change : effect_changes(adjustment)) {
      const std::string id = "[" + change.rule->id + "]";
      EXPECT_EQ(turns.find(id) != std::string::npos, change.turns()) << id;
      EXPECT_EQ(sizes.find(id) != std::string::npos, !change.turns()) << id;
      any = any || change.turns();
    }
    if (!any) {
      EXPECT_THAT(turns, AllOf(HasSubstr("known"), HasSubstr("turns it round")));
    }
  }
}

TEST(AdjustmentPage, CountsTheGroupsOfEveryRule) {
  for (const Adjustment& adjustment : rules().adjustments) {
    const std::string contested = text_of(adjustment.id, "how contested it is");
    for (const EffectRule& rule : adjustment.effects) {
      EXPECT_THAT(contested, HasSubstr("[" + rule.id + "]"));
      if (rule.provenance.groups_for > 1) {
        EXPECT_THAT(contested,
                    HasSubstr(std::to_string(rule.provenance.groups_for) + " published groups"));
      }
    }
    const bool any = std::any_of(adjustment.effects.begin(), adjustment.effects.end(),
                                 [](const EffectRule& rule) { return rule.contested; });
    EXPECT_EQ(contested.find("contested: ") != std::string::npos, any) << adjustment.id;
  }
}

TEST(AdjustmentPage, RearWidthHasItsEndsAndItsStandSharers) {
  EXPECT_THAT(text_of("rear-width", "what limits it"),
              AllOf(HasSubstr("class limit"), HasSubstr("axle"), HasSubstr("1300 mm to 1400 mm"),
                    HasSubstr("at most 15 mm at once"), HasSubstr("rear hubs, axle")));
  EXPECT_THAT(text_of("rear-width", "what it does"),
              AllOf(HasSubstr("rear grip in the middle, 0.9 of a notch less"),
                    HasSubstr("rear narrower: the reverse")));
  EXPECT_THAT(text_of("rear-width", "when it turns round"), HasSubstr("no condition is known"));
  EXPECT_THAT(text_of("rear-width", "cures and feeds"),
              AllOf(HasSubstr("rear wider: a cure for push in the middle (0.9)"),
                    HasSubstr("hop in the middle (0.7)"),
                    HasSubstr("rear wider: feeds loose in the middle (0.9)")));
}

TEST(AdjustmentPage, CasterIsSaidToJackOntoTheOutsideRearOnRubber) {
  EXPECT_THAT(
      text_of("caster", "when it turns round"),
      AllOf(HasSubstr("when track:rubbered-in"),
            HasSubstr("rear grip in the middle from less (-0.2) to more (+0.3)"),
            HasSubstr("lands on the outside rear"), Not(HasSubstr("wet-caster-to-the-top"))));
  EXPECT_THAT(text_of("caster", "how contested it is"),
              HasSubstr("no published group says so, 1 the other way"));
}

TEST(AdjustmentPage, PressuresNameNoWayUntilTheTyresAreKnown) {
  EXPECT_THAT(text_of("pressures", "what it does"), HasSubstr("nobody can say which way"));
  EXPECT_THAT(text_of("pressures", "when it turns round"),
              AllOf(HasSubstr("tyres:cold"), HasSubstr("tyres:hot")));
  EXPECT_THAT(text_of("pressures", "cures and feeds"), HasSubstr("no symptom"));
  EXPECT_THAT(text_of("pressures", "what limits it"),
              HasSubstr("never moved together with front tyre pressures, rear tyre pressures"));
}

TEST(AdjustmentPage, FrontWidthReversesForADriverWhoTurnsInOnTheThrottle) {
  EXPECT_THAT(text_of("front-width", "when it turns round"),
              AllOf(HasSubstr("turn-in:throttle"), HasSubstr("front-tyres:colder"),
                    Not(HasSubstr("front-tyres:hotter"))));
  EXPECT_THAT(text_of("front-width", "how contested it is"),
              AllOf(HasSubstr("5 published groups say so, 3 the other way"),
                    HasSubstr("contested: treat it as a test worth logging")));
}

}  // namespace
}  // namespace kartwright
