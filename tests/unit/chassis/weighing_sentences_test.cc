// What is said of a weighing, case by case: too much or too little, twist or side, sure or not.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "engine/chassis/weighing_words.h"

namespace kartwright {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;
using testing::StartsWith;

constexpr System kMetric = System::metric;

JudgedFigure share_figure(double value, double sd = 0.001) {
  JudgedFigure figure;
  figure.figure = {value, sd};
  figure.from = 0.41;
  figure.to = 0.43;
  figure.ok = value >= 0.41 && value <= 0.43;
  figure.sure = true;
  return figure;
}

JudgedFigure pair_figure(double value, bool ok = true) {
  JudgedFigure figure;
  figure.kind = Kind::mass;
  figure.figure = {value, 0.1};
  figure.to = 2.0;
  figure.ok = ok;
  figure.sure = true;
  return figure;
}

/// Everything in its band and nothing twisted, of scales that cannot be told from frame and floor.
WeighingAnswer level_answer() {
  WeighingAnswer answer;
  answer.figures = {share_figure(0.42), share_figure(0.42), share_figure(0.42), pair_figure(0.0),
                    pair_figure(0.0)};
  answer.warp = {{{"frame", "floor", "scales"}, {0.0, 0.2}}};
  return answer;
}

MovePlan plan_by_seat(bool reaches) {
  MovePlan plan;
  plan.steps = {{"seat-fore-aft", "seat forward", "0 mm", "10 mm", 80.0},
                {"lead", "lead", "floor", "seat", 5.0}};
  plan.reaches = reaches;
  return plan;
}

TEST(JudgedShare, IsUnderOverOrInItsBandAndSaysWhereTheScalesCannotBeSure) {
  EXPECT_EQ(judged_text(share_figure(0.42), kMetric), "in the band");
  EXPECT_EQ(judged_text(share_figure(0.40), kMetric), "under by 1 %");
  EXPECT_EQ(judged_text(share_figure(0.45), kMetric), "over by 2 %");
  JudgedFigure edge = share_figure(0.41);
  edge.sure = false;
  EXPECT_EQ(judged_text(edge, kMetric), "in the band, at its edge for these scales");
  JudgedFigure out = share_figure(0.40);
  out.sure = false;
  EXPECT_EQ(judged_text(out, kMetric), "under by 1 %, less than these scales can be sure of");
}

TEST(JudgedPair, NamesTheHeavierSideWhereItCanBeSeen) {
  EXPECT_EQ(judged_text(pair_figure(0.1), kMetric), "no difference that these scales can see");
  EXPECT_EQ(judged_text(pair_figure(1.0), kMetric), "left heavier, in the band");
  EXPECT_EQ(judged_text(pair_figure(-3.0, false), kMetric), "right heavier, over by 1 kg");
}

TEST(WeighingModes, NameTheHeavierEndTheHeavierSideAndTheDiagonals) {
  WeighingAnswer answer;
  answer.modes = {.total = 168.0, .pitch = -24.0, .roll = 2.0, .warp = 1.0};
  const auto front_light = modes_in_words(answer);
  ASSERT_EQ(front_light.size(), 4U);
  EXPECT_THAT(front_light[0], StartsWith("total 168 kg"));
  EXPECT_THAT(front_light[1], StartsWith("pitch: the rear carries 24 kg more"));
  EXPECT_THAT(front_light[2], StartsWith("roll: the left side carries 2 kg more"));
  EXPECT_THAT(front_light[3], StartsWith("warp: left front and right rear carry 1 kg more"));
  answer.modes = {.total = 168.0, .pitch = 4.0, .roll = -2.0, .warp = -1.0};
  const auto front_heavy = modes_in_words(answer);
  EXPECT_THAT(front_heavy[1], StartsWith("pitch: the front carries 4 kg more"));
  EXPECT_THAT(front_heavy[2], StartsWith("roll: the right side carries"));
  EXPECT_THAT(front_heavy[3], StartsWith("warp: right front and left rear carry 1 kg more"));
  answer.modes.warp = 0.0;
  EXPECT_THAT(modes_in_words(answer)[3], StartsWith("warp: both diagonals carry the same"));
}

TEST(WeighingTwist, SaysHowThePairsLean) {
  const auto lean = [](double front, double rear) {
    WeighingAnswer answer = level_answer();
    answer.figures[3] = pair_figure(front);
    answer.figures[4] = pair_figure(rear);
    return twist_in_words(answer).at(1);
  };
  EXPECT_EQ(lean(0.0, 0.0), "neither pair leans by more than these scales' error");
  EXPECT_THAT(lean(1.0, 0.0), StartsWith("only the front pair leans, to the left"));
  EXPECT_THAT(lean(0.0, -1.0), StartsWith("only the rear pair leans, to the right"));
  EXPECT_THAT(lean(1.0, 1.0), StartsWith("both pairs lean to the left: weight to one side"));
  EXPECT_THAT(lean(-1.0, -1.0), StartsWith("both pairs lean to the right: weight to one side"));
  EXPECT_THAT(lean(1.0, -1.0), StartsWith("the front leans to the left and the rear to the right"));
}

TEST(WeighingTwist, NamesTheHeavyDiagonalAndWhoMayMendIt) {
  WeighingAnswer answer = level_answer();
  EXPECT_THAT(twist_in_words(answer),
              ElementsAre(HasSubstr("no twist that these scales can see"), testing::_));
  answer.warp[0].warp = {2.0, 0.2};
  EXPECT_THAT(twist_in_words(answer),
              ElementsAre(StartsWith("left front and right rear carry "), testing::_,
                          HasSubstr("a frame that is bent is for a qualified eye")));
  answer.warp[0].warp = {-2.0, 0.2};
  EXPECT_THAT(twist_in_words(answer)[0], StartsWith("right front and left rear carry "));
}

TEST(WeighingTwist, ToldApartEachPartHasItsLine) {
  WeighingAnswer answer = level_answer();
  answer.warp = {{{"frame"}, {2.0, 0.2}}, {{"floor"}, {0.1, 0.2}}, {{"scales"}, {1.0, 0.2}}};
  const auto lines = twist_in_words(answer);
  EXPECT_THAT(lines, testing::Contains(StartsWith("frame: warp 2 ")));
  EXPECT_THAT(lines, testing::Contains(HasSubstr("nothing that these scales can see")));
  EXPECT_THAT(left_open(answer),
              ElementsAre(HasSubstr("pressures or ride heights"), HasSubstr("scales of one axle")));
}

TEST(WeighingTwist, WhatIsNotToldApartIsLeftOpen) {
  EXPECT_THAT(left_open(level_answer()),
              ElementsAre("frame, floor and scales from each other", testing::_));
}

TEST(NextWeighing, IsAskedForWhereThereIsSomethingToTellApart) {
  WeighingAnswer answer = level_answer();
  EXPECT_THAT(next_weighings(answer), IsEmpty());
  answer.warp[0].warp = {2.0, 0.2};
  EXPECT_THAT(next_weighings(answer), ElementsAre(HasSubstr("--swapped"), HasSubstr("--turned")));
  answer.given.swapped = CornerLoads{};
  EXPECT_THAT(next_weighings(answer), ElementsAre(HasSubstr("--turned")));
  answer.given.turned = CornerLoads{};
  EXPECT_THAT(next_weighings(answer), IsEmpty());
}

TEST(NextWeighing, IsAskedForByAPairOrACrossOutOfItsBandToo) {
  for (const std::size_t figure : {2U, 3U, 4U}) {
    WeighingAnswer answer = level_answer();
    answer.figures.at(figure).ok = false;
    EXPECT_FALSE(next_weighings(answer).empty()) << figure;
  }
}

TEST(WeighingMoves, SayWhatThePlansReach) {
  WeighingAnswer answer = level_answer();
  EXPECT_THAT(moves_in_words(answer, true, 3), HasSubstr("nothing to move"));
  answer.figures[1] = share_figure(0.45);
  EXPECT_THAT(moves_in_words(answer, false, 3), HasSubstr("names nothing that can be moved"));
  EXPECT_EQ(moves_in_words(answer, true, 1),
            "nothing comes nearer to the bands, of one move at a time");
  EXPECT_EQ(moves_in_words(answer, true, 3), "nothing comes nearer to the bands, of up to 3 moves");
  answer.plans = {plan_by_seat(true)};
  EXPECT_EQ(moves_in_words(answer, true, 3), "reaches both bands, fewest moves first:");
  answer.plans = {plan_by_seat(false)};
  EXPECT_EQ(moves_in_words(answer, true, 3),
            "no move reaches the bands, of up to 3 moves; the nearest:");
}

TEST(WeighingHeadline, OfALevelKartSaysThatItIs) {
  const std::string text = weighing_headline(level_answer());
  EXPECT_THAT(text, StartsWith("Front and left share are in their bands."));
  EXPECT_THAT(text, HasSubstr("No twist that these scales can see."));
}

TEST(WeighingHeadline, NamesEachShareThatIsOutAndTheMoveForIt) {
  WeighingAnswer answer = level_answer();
  answer.figures[0] = share_figure(0.40);
  answer.figures[1] = share_figure(0.45);
  answer.figures[1].sure = false;
  EXPECT_THAT(weighing_headline(answer),
              testing::AllOf(StartsWith("Too little on the front: "),
                             HasSubstr(", wanted 41 % to 43 %. Too much on the left: "),
                             HasSubstr("wanted 41 % to 43 %, by less than these scales can be"),
                             HasSubstr(" No move of seat or ballast here comes nearer.")));
  answer.plans = {plan_by_seat(true)};
  EXPECT_THAT(weighing_headline(answer),
              HasSubstr(" This reaches it: seat forward, 0 mm → 10 mm; lead, floor → seat."));
  answer.plans = {plan_by_seat(false)};
  EXPECT_THAT(weighing_headline(answer), HasSubstr(" No move reaches it; nearest: seat forward"));
}

TEST(WeighingHeadline, WhatIsWantedIsSaidByTheEndsThatItHas) {
  WeighingAnswer answer = level_answer();
  answer.figures[0] = share_figure(0.45);
  answer.figures[0].from.reset();
  EXPECT_THAT(weighing_headline(answer), HasSubstr("Too much on the front: 45 ± 0.1 %, wanted at "
                                                   "most 43 %."));
  answer.figures[0] = share_figure(0.40);
  answer.figures[0].to.reset();
  EXPECT_THAT(weighing_headline(answer), HasSubstr("wanted at least 41 %."));
}

TEST(WeighingHeadline, NamesThePairAndTheCrossThatAreOut) {
  WeighingAnswer answer = level_answer();
  answer.figures[3] = pair_figure(3.0, false);
  answer.figures[4] = pair_figure(-4.0, false);
  answer.figures[4].sure = false;
  answer.figures[2] = share_figure(0.45);
  EXPECT_THAT(weighing_headline(answer),
              testing::AllOf(HasSubstr(" The front pair is 3 ± 0.1 kg apart, at most 2 kg."),
                             HasSubstr(" The rear pair is 4 ± 0.1 kg apart, at most 2 kg, by less "
                                       "than these scales can be sure of."),
                             HasSubstr(" Cross weight is 45 ± 0.1 %, wanted 41 % to 43 %.")));
}

TEST(WeighingHeadline, SaysOfATwistWhatIsKnown) {
  WeighingAnswer answer = level_answer();
  answer.warp[0].warp = {2.0, 0.2};
  EXPECT_THAT(weighing_headline(answer),
              HasSubstr(" A twist is read; frame, floor and scales are not told apart yet."));
  answer.warp = {{{"frame"}, {2.0, 0.2}}, {{"floor"}, {0.0, 0.2}}};
  EXPECT_THAT(weighing_headline(answer),
              HasSubstr(" The twist is the kart's own: frame, pressures or ride heights."));
}

TEST(WeighingHeadline, WeighingsThatDisagreeAreNotBelievedAndTheClassWeightComesFirst) {
  WeighingAnswer answer = level_answer();
  answer.verdicts = {{"minimum-weight", false, true, "under the class weight"},
                     {"front-share", false, true, "not told here"},
                     {"swapped-weighs-the-same", true, true, "the same"}};
  EXPECT_FALSE(weighings_disagree(answer));
  EXPECT_THAT(weighing_headline(answer), StartsWith("Careful: under the class weight. Front"));
  answer.verdicts[2].ok = false;
  EXPECT_TRUE(weighings_disagree(answer));
  EXPECT_THAT(weighing_headline(answer),
              testing::AllOf(HasSubstr("No share, twist or move is told from them."),
                             Not(HasSubstr("not told here"))));
}

}  // namespace
}  // namespace kartwright
