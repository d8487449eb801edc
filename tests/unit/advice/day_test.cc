// The plan of a day on karts of the trade: the start that keeps room, the stops, where travel runs
// out, and days that go otherwise.

#include "engine/advice/day.h"

#include <algorithm>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "engine/debrief/report_grammar.h"
#include "engine/kart/change_setting.h"
#include "tests/support/pit.h"

namespace kartwright {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;
using testing::Not;

/// The typical kart with its rear as wide as the class allows.
Kart at_the_class_limit() {
  Kart kart = typical_kart(rules());
  Setting& rear = kart.settings.at("rear-width");
  rear.now = 1.38;
  rear.limit.at_most = 1.38;
  return kart;
}

Day planned(const Kart& kart, const std::string& track = "cold",
            const std::vector<std::string>& reports = {}, const DayAsked& how = {}) {
  Debrief debrief{.heard = {}, .track = track};
  Findings findings;
  for (const std::string& text : reports) {
    debrief.heard.reports.push_back(
        parse_report(text, rules(), {.file = "a test", .source = text}, findings).value());
  }
  DayAsked asked = how;
  if (asked.stages.empty()) asked.stages = stages_from(rules(), track);
  return plan_day(rules(), kart, debrief, System::metric, asked);
}

std::vector<std::string> ids(const std::vector<StageOfDay>& stages) {
  std::vector<std::string> out;
  for (const StageOfDay& each : stages) out.push_back(each.stage->id);
  return out;
}

StageOfDay stage(const std::string& id, double hours = 1.0) {
  const auto found = std::find_if(rules().day.begin(), rules().day.end(),
                                  [&](const DayStage& each) { return each.id == id; });
  return {&*found, hours};
}

/// "rear wider 1375 mm to 1380 mm" of every move of a stop.
std::vector<std::string> moves(const DayStop& stop) {
  std::vector<std::string> out;
  for (const DayMove& move : stop.moves)
    out.push_back(move.phrase() + " " + move.from + " to " + move.to);
  return out;
}

TEST(StagesOfTheDay, GoOnFromTheStateOfTheTrack) {
  EXPECT_THAT(ids(stages_from(rules(), "cold")),
              ElementsAre("cold", "green", "rubbering-in", "rubbered-in", "late"));
  EXPECT_THAT(ids(stages_from(rules(), "rubbered-in")), ElementsAre("rubbered-in", "late"));
  EXPECT_THAT(stages_from(rules(), "wet"), IsEmpty());
}

TEST(StagesOfTheDay, LeadOnWhereTheTrackDoes) {
  std::size_t broken = 0;
  EXPECT_TRUE(leads_on(rules(), {stage("cold"), stage("rubbered-in"), stage("late")}, broken));
  EXPECT_TRUE(leads_on(rules(), {stage("green"), stage("green")}, broken));
  EXPECT_FALSE(leads_on(rules(), {stage("green"), stage("rubbering-in"), stage("green")}, broken));
  EXPECT_EQ(broken, 2U);
}

TEST(DayOfAKart, BeginsNarrowOnAColdTrackAndGoesWiderAsTheRubberComes) {
  const Day day = planned(typical_kart(rules()));
  ASSERT_EQ(day.stops.size(), 5U);
  EXPECT_THAT(moves(day.stops[0]), ElementsAre("rear narrower 1360 mm to 1355 mm"));
  EXPECT_THAT(moves(day.stops[1]), IsEmpty());
  EXPECT_THAT(moves(day.stops[2]), ElementsAre("rear wider 1355 mm to 1365 mm"));
  EXPECT_EQ(day.short_of_best, 0.0);
  EXPECT_GT(day.points_saved, 0.0);
}

TEST(DayOfAKart, LeavesLessThanTheUntouchedKartOverTheDay) {
  const Day day = planned(typical_kart(rules()));
  double untouched = 0.0, left = 0.0;
  for (const DayStop& stop : day.stops) {
    untouched += stop.untouched;
    left += stop.left;
  }
  const auto stops = static_cast<double>(day.stops.size());
  EXPECT_NEAR(untouched / stops, 1.0, 1e-9);  // what it is measured by
  EXPECT_NEAR(left / stops, day.left, 1e-9);
  EXPECT_LT(day.left, 0.5);
}

TEST(DayOfAKart, AtTheClassLimitIsHandedOnToTheHubsAndTheStruts) {
  const Day day = planned(at_the_class_limit());
  EXPECT_THAT(moves(day.stops[2]),
              ElementsAre("rear wider 1375 mm to 1380 mm", "shorter hubs medium to short"));
  EXPECT_THAT(moves(day.stops[3]), ElementsAre("strut pair off 1 to 0"));
  const auto rear = std::find_if(day.runs_out.begin(), day.runs_out.end(), [](const RunsOut& each) {
    return each.adjustment->id == "rear-width";
  });
  ASSERT_NE(rear, day.runs_out.end());
  EXPECT_EQ(rear->reason, Refusal::class_limit);
  EXPECT_EQ(rear->at, "1380 mm");
  EXPECT_EQ(rear->stage->id, "rubbered-in");
  ASSERT_TRUE(rear->takes_over.has_value());
  EXPECT_EQ(rear->takes_over->phrase(), "strut pair off");
  EXPECT_TRUE(rear->by_plan);
}

// Set for the cold track alone it would go narrower by 10 mm, and pay for it when the rubber comes.
TEST(DayOfAKart, KeepsRoomThatAStartForTheMorningAloneWouldSpend) {
  const Day day = planned(at_the_class_limit());
  ASSERT_TRUE(day.gain_of_looking_ahead.has_value());
  EXPECT_GT(*day.gain_of_looking_ahead, 5.0);
  EXPECT_THAT(day.start_looking_at_now, Not(IsEmpty()));
}

TEST(DayOfAKart, SharesTheStandBetweenTheHubsAndTheWidth) {
  const Day day = planned(at_the_class_limit());
  const DayStop& stop = day.stops[2];
  ASSERT_EQ(stop.moves.size(), 2U);
  EXPECT_EQ(stop.moves[0].minutes, 6.0);
  EXPECT_EQ(stop.moves[1].minutes, 8.0);  // ten by themselves
  EXPECT_EQ(stop.minutes, 14.0);
}

TEST(DayOfAKart, FitsEveryStopIntoItsBreakAndItsChanges) {
  for (const double minutes : {5.0, 9.0, 15.0, 40.0}) {
    for (const std::size_t changes : {std::size_t{1}, std::size_t{3}}) {
      const Day day =
          planned(at_the_class_limit(), "cold", {}, {.minutes = minutes, .changes = changes});
      for (std::size_t k = 1; k < day.stops.size(); ++k) {
        EXPECT_LE(day.stops[k].minutes, minutes);
        EXPECT_LE(day.stops[k].moves.size(), changes);
      }
      EXPECT_LE(day.movers.size(), day.most_levers);
    }
  }
}

TEST(DayOfAKart, WithAComplaintMendsItInTheMorning) {
  const Day day = planned(typical_kart(rules()), "green", {"loose@exit=3"});
  ASSERT_THAT(day.stops[0].moves, Not(IsEmpty()));
  EXPECT_LT(day.stops[0].left, 0.5 * day.stops[0].untouched);
}

TEST(DayOfAKart, WhereRubberNeverComesKeepsTheMorning) {
  const Day day = planned(at_the_class_limit());
  ASSERT_EQ(day.replies.size(), 2U);
  EXPECT_TRUE(day.replies[0].early);
  EXPECT_FALSE(day.replies[1].early);
  for (const DayStop& stop : day.replies[1].stops) {
    EXPECT_FALSE(stop.stage->rubber);
    EXPECT_THAT(moves(stop), IsEmpty());
  }
  ASSERT_EQ(day.replies[0].stops.size(), 4U);
  EXPECT_EQ(day.replies[0].stops[0].stage->id, "rubbering-in");
  EXPECT_THAT(moves(day.replies[0].stops[0]),
              ElementsAre("rear wider 1375 mm to 1380 mm", "shorter hubs medium to short"));
  EXPECT_GE(day.replies[0].regret, 0.0);
}

TEST(DayOfAKart, ThatStartsOnRubberHasNoOtherDay) {
  EXPECT_THAT(planned(typical_kart(rules()), "rubbered-in").replies, IsEmpty());
}

TEST(DayOfAKart, WeighsAStageByItsHours) {
  const Kart kart = at_the_class_limit();
  DayAsked morning{.stages = {stage("cold", 8.0), stage("rubbered-in", 0.5)}};
  DayAsked evening{.stages = {stage("cold", 0.5), stage("rubbered-in", 8.0)}};
  const auto rear_at_start = [](const Day& day) {
    return day.stops[0].moves.empty() ? std::string("as it stands") : day.stops[0].moves[0].to;
  };
  EXPECT_NE(rear_at_start(planned(kart, "cold", {}, morning)),
            rear_at_start(planned(kart, "cold", {}, evening)));
}

TEST(DayOfAKart, WithNothingToMoveIsLeftAlone) {
  Kart kart = typical_kart(rules());
  kart.settings.clear();
  const Day day = planned(kart);
  EXPECT_THAT(day.movers, IsEmpty());
  EXPECT_NEAR(day.left, 1.0, 1e-9);
  EXPECT_THAT(day.cautions, IsEmpty());
}

TEST(DayOfAKart, ThatWasSearchedForTooShortlySaysHowFarItMayBeOff) {
  const Day day = planned(at_the_class_limit(), "cold", {}, {.most_work = 1000});
  EXPECT_GT(day.short_of_best, 0.0);
  const Day whole = planned(at_the_class_limit());
  EXPECT_LE(day.points_saved, whole.points_saved + 1e-9);
}

TEST(DayOfAKart, ThatMayBeBrokenIsLookedAtBeforeItIsPlannedFor) {
  Debrief debrief{.heard = {}, .track = "green"};
  debrief.heard.facts = {{.fact = "axle-spun", .value = "wobbles"}};
  const Day day = plan_day(rules(), typical_kart(rules()), debrief, System::metric,
                           {.stages = stages_from(rules(), "green")});
  ASSERT_THAT(day.stops_the_kart, Not(IsEmpty()));
  EXPECT_EQ(day.stops_the_kart.front().fault->id, "bent-axle");
  EXPECT_THAT(day.before_all, Not(IsEmpty()));
  EXPECT_THAT(day.cautions, testing::Contains(rules().caution("do-not-run")->text));
  EXPECT_THAT(planned(typical_kart(rules())).before_all, IsEmpty());
}

TEST(DayOfAKart, PrintsTheCautionsOfEveryMove) {
  const Day day = planned(at_the_class_limit());
  for (const Adjustment* mover : day.movers) {
    for (const std::string& id : mover->cautions)
      EXPECT_THAT(day.cautions, testing::Contains(rules().caution(id)->text));
  }
}

}  // namespace
}  // namespace kartwright
