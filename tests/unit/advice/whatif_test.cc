// A change on paper, and the loads behind a change that is advised.

#include "engine/advice/whatif.h"

#include <cmath>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/support/kart_pack.h"
#include "tests/support/pit.h"

namespace kartwright {
namespace {

using testing::Contains;
using testing::HasSubstr;
using testing::StartsWith;

WhatIf made(const Kart& kart, const std::string& track, const std::vector<std::string>& texts) {
  Findings findings;
  std::vector<PaperChange> changes;
  for (const std::string& text : texts)
    changes.push_back(parse_paper_change(text, kart, rules(), {.file = "--set"}, findings).value());
  return whatif(kart, rules(), track, changes, System::metric).value();
}

double change_of(const PaperClass& one, double Figures::*figure) {
  return one.after.figures.*figure - one.before.figures.*figure;
}

TEST(OnPaper, AWiderRearTakesLoadOffTheOutsideRearAndLetsTheInsideGoLater) {
  const Kart kart = typical_kart(rules());
  const WhatIf what = made(kart, "green", {"rear-width=1380mm"});
  const PaperClass& one = what.paper.classes.at(0);
  EXPECT_LT(change_of(one, &Figures::outside_rear), -1.0);
  EXPECT_GT(change_of(one, &Figures::inside_rear), 1.0);
  EXPECT_GT(*one.after.figures.release, *one.before.figures.release);
  EXPECT_LT(one.after.line.angle, one.before.line.angle);
  EXPECT_GT(one.after.line.sideways, one.before.line.sideways);
  EXPECT_EQ(what.reported.at(0).loads, LoadsSay::the_same);
  EXPECT_THAT(what.reported.at(0).made, HasSubstr("rear width wider by 20 mm"));
}

TEST(OnPaper, AHigherMassTipsAsANarrowerTrackWould) {
  const Kart kart = typical_kart(rules());
  const WhatIf what = made(kart, "green", {"mass-height=300mm"});
  EXPECT_NEAR(what.equivalent_track.value(), 1.16 * 0.26 / 0.30, 1e-12);
  const PaperClass& higher = what.paper.classes.at(0);
  KnownKart narrow = known_kart(kart, rules()).value();
  narrow.kart.rear_track *= 0.26 / 0.30;
  narrow.kart.front_track *= 0.26 / 0.30;
  EXPECT_NEAR(higher.after.figures.static_stability, static_stability(narrow.kart), 1e-12);
}

TEST(OnPaper, ABarThatLoadsTheRearWhereCrewsReportLessGripIsATest) {
  const Kart kart = typical_kart(rules());
  const WhatIf what = made(kart, "green", {"front-bar=in"});
  EXPECT_EQ(what.reported.at(0).loads, LoadsSay::the_opposite);
  EXPECT_THAT(what.reported.at(0).text, HasSubstr("crews report less"));
}

TEST(OnPaper, AnAxleGradeMovesNoLoadAndStaysARuleOfThumb) {
  const Kart kart = typical_kart(rules());
  const WhatIf what = made(kart, "green", {"axle=hard"});
  EXPECT_DOUBLE_EQ(change_of(what.paper.classes.at(0), &Figures::outside_rear), 0.0);
  EXPECT_FALSE(what.reported.at(0).loads_claim);
  EXPECT_FALSE(what.reported.at(0).moves.empty());
}

TEST(OnPaper, OnAnUnknownTrackTheLowestAndTheHighestGripAreShown) {
  const Kart kart = typical_kart(rules());
  const WhatIf what = made(kart, "unknown", {"caster=14deg"});
  ASSERT_EQ(what.paper.classes.size(), 2U);
  EXPECT_LT(what.paper.classes[0].corner.lateral, what.paper.classes[1].corner.lateral);
  EXPECT_EQ(what.paper.classes[1].track, "rubbered-in");
}

TEST(OnPaper, LoadsOfEveryPhaseSumToTheWeight) {
  const Kart kart = typical_kart(rules());
  const WhatIf what = made(kart, "rubbered-in", {"seat-fore-aft=10mm", "rear-width=1340mm"});
  for (const PaperClass& one : what.paper.classes) {
    for (const Cornering& at : one.after.phases)
      EXPECT_NEAR(at.loads.total(), 165.0 * kGravity, 1e-9);
  }
}

TEST(Sweeps, FollowEveryPlaceOnTopOfWhatIsSet) {
  const Kart kart = typical_kart(rules());
  Findings findings;
  const WrittenAt at{.file = "--sweep"};
  const auto places = parse_sweep("rear-width=1340mm..1380mm", kart, rules(), at, findings);
  const auto set = parse_paper_change("mass-height=300mm", kart, rules(), at, findings).value();
  const std::vector<Sweep> sweeps = sweep(kart, rules(), "green", {set}, places);
  ASSERT_EQ(sweeps.size(), 1U);
  ASSERT_EQ(sweeps[0].rows.size(), places.size());
  for (std::size_t i = 1; i < places.size(); ++i)
    EXPECT_LT(sweeps[0].rows[i].figures.outside_rear, sweeps[0].rows[i - 1].figures.outside_rear);
  const WhatIf last = made(kart, "green", {"mass-height=300mm", "rear-width=1380mm"});
  EXPECT_DOUBLE_EQ(sweeps[0].rows.back().figures.outside_rear,
                   last.paper.classes[0].after.figures.outside_rear);
}

// --- in advise

std::string loads_of(const Change& change) {
  for (const Because& because : change.because) {
    if (because.kind == "chassis") return because.text;
  }
  return "";
}

TEST(LoadsBehindAdvice, AWiderRearForHopHasItsFigure) {
  const Pit pit{.track = "rubbered-in", .reports = {"hop@mid=2"}, .minutes = 60};
  const Advice advice = pit.answer();
  const Change* wider = ranked(advice, "rear-width", "wider");
  ASSERT_NE(wider, nullptr);
  EXPECT_EQ(wider->loads, LoadsSay::the_same);
  EXPECT_THAT(loads_of(*wider), HasSubstr("less on the outside rear"));
  const Change* hubs = ranked(advice, "rear-hubs", "shorter");
  ASSERT_NE(hubs, nullptr);
  EXPECT_EQ(loads_of(*hubs), "");
}

TEST(LoadsBehindAdvice, AHighMassOnRubberReadsAsARearThatGripsTooMuch) {
  Pit pit{.track = "rubbered-in", .reports = {"push@entry=1"}};
  const double before = belief(pit.answer(), "rear-grip.mid");
  pit.kart.dimensions["mass-height"] = 0.36;
  const Advice high = pit.answer();
  EXPECT_GT(belief(high, "rear-grip.mid"), before + 0.05);
  EXPECT_GT(high.loads->figures.hop, 0.1);
}

TEST(LoadsBehindAdvice, AnInsideRearThatKeepsItsLoadReadsAsOneThatDrags) {
  Pit pit{.track = "rubbered-in", .reports = {"push@mid=1"}};
  const double before = belief(pit.answer(), "unloading");
  pit.kart.dimensions["mass-height"] = 0.22;
  EXPECT_LT(belief(pit.answer(), "unloading"), before - 0.05);
}

TEST(LoadsBehindAdvice, TwoThingsCalledTooMuchRearGripAreKeptApart) {
  const Pit hops{.track = "rubbered-in", .reports = {"hop@mid=3"}};
  EXPECT_THAT(hops.answer().text, HasSubstr("outside rear that takes too much"));
  const Pit drags{.track = "rubbered-in",
                  .reports = {"bind@mid=2", "bog@exit=2", "inside-rear-never-lifts=2"}};
  EXPECT_THAT(drags.answer().text, HasSubstr("inside rear that is not let go"));
}

TEST(LoadsBehindAdvice, TheSizeToMeasureFirstIsOneThatWasAssumed) {
  const Pit pit{.track = "rubbered-in", .reports = {"hop@mid=2", "push@entry=2"}};
  const Advice advice = advise(rules(), pit.kart,
                               [] {
                                 Debrief debrief;
                                 debrief.track = "rubbered-in";
                                 debrief.heard.reports = {{.symptom = "hop", .phase = Phase::mid}};
                                 return debrief;
                               }(),
                               System::metric, {.measure_next = true});
  ASSERT_TRUE(advice.measure_next.has_value());
  EXPECT_THAT(advice.loads->known.assumed, Contains(advice.measure_next->id));
  EXPECT_GE(advice.measure_next->points, 1.0);
}

}  // namespace
}  // namespace kartwright
