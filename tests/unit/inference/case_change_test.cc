// One thing changed on a case, and nothing else.

#include "engine/inference/case_change.h"

#include <utility>

#include <gtest/gtest.h>

#include "tests/support/pit.h"

namespace kartwright {
namespace {

EnteredCase typical_case() { return {.kart = typical_kart(rules()), .debrief = {}}; }

TEST(ChangedReport, IsPraiseNoLongerOnceItComplains) {
  for (const int severity : {0, 1, 2}) {
    EnteredCase entered = typical_case();
    entered.debrief.heard.reports = {
        {.symptom = "push", .phase = Phase::mid, .severity = 0, .from_praise = true}};
    make(ReportChange{"push", Phase::mid, severity}, rules(), entered);
    ASSERT_EQ(entered.debrief.heard.reports.size(), 1U);
    EXPECT_EQ(entered.debrief.heard.reports[0].severity, severity);
    EXPECT_EQ(entered.debrief.heard.reports[0].from_praise, severity == 0);
  }
}

TEST(ChangedReport, StandsOnceAndLeavesThoseOfOtherPhasesAlone) {
  EnteredCase entered = typical_case();
  entered.debrief.heard.reports = {{.symptom = "push", .phase = Phase::mid, .severity = 1},
                                   {.symptom = "push", .phase = Phase::entry, .severity = 3},
                                   {.symptom = "push", .phase = Phase::mid, .severity = 2},
                                   {.symptom = "hop", .phase = Phase::mid, .severity = 2}};
  make(ReportChange{"push", Phase::mid, 3}, rules(), entered);
  ASSERT_EQ(entered.debrief.heard.reports.size(), 3U);
  EXPECT_EQ(entered.debrief.heard.reports[0].phase, Phase::entry);
  EXPECT_EQ(entered.debrief.heard.reports[1].symptom, "hop");
  EXPECT_EQ(entered.debrief.heard.reports[2].severity, 3);
  make(ReportChange{"push", Phase::mid, {}}, rules(), entered);
  EXPECT_EQ(entered.debrief.heard.reports.size(), 2U);
}

TEST(ChangedReport, OfWhatNobodySaidIsSaid) {
  EnteredCase entered = typical_case();
  make(ReportChange{"hop", Phase::exit, 1}, rules(), entered);
  ASSERT_EQ(entered.debrief.heard.reports.size(), 1U);
  EXPECT_EQ(entered.debrief.heard.reports[0].symptom, "hop");
  EXPECT_EQ(entered.debrief.heard.reports[0].phase, Phase::exit);
}

TEST(ChangedSetting, IsFittedWhereTheKartHasNone) {
  EnteredCase entered = typical_case();
  const double usual = entered.kart.settings.at("rear-width").now;
  entered.kart.settings.erase("rear-width");
  make(SettingChange{"rear-width", usual}, rules(), entered);
  const Setting& fitted = entered.kart.settings.at("rear-width");
  EXPECT_EQ(fitted.now, usual);
  EXPECT_EQ(fitted.adjustment, rules().adjustment("rear-width"));
  EXPECT_FALSE(fitted.travel.places.empty());
}

TEST(ChangedMeasurements, AreThoseOfTheKart) {
  EnteredCase entered = typical_case();
  make(MeasureChange{"front-share", 0.44}, rules(), entered);
  make(BandChange{"front-share", 0.41, 0.45}, rules(), entered);
  EXPECT_EQ(entered.kart.measures.at("front-share"), 0.44);
  EXPECT_EQ(entered.kart.bands.at("front-share"), std::pair(0.41, 0.45));
}

}  // namespace
}  // namespace kartwright
