// The sentences of a weighing, from figures made by hand.

#include "engine/chassis/weighing_words.h"

#include <gtest/gtest.h>

namespace kartwright {
namespace {

JudgedFigure share_of(double value, bool ok, bool sure = true) {
  return {.id = {},
          .label = {},
          .kind = Kind::ratio,
          .figure = {value, 0.001},
          .from = 0.41,
          .to = 0.43,
          .ok = ok,
          .sure = sure,
          .text = {}};
}

JudgedFigure judged_pair(double value, bool ok, bool sure = true, double sd = 0.1) {
  return {.id = {},
          .label = {},
          .kind = Kind::mass,
          .figure = {value, sd},
          .from = {},
          .to = 1.0,
          .ok = ok,
          .sure = sure,
          .text = {}};
}

/// A weighing with everything in its band and no twist to be seen.
WeighingAnswer even_kart() {
  WeighingAnswer answer;
  answer.figures = {share_of(0.42, true), share_of(0.42, true), share_of(0.42, true),
                    judged_pair(0.0, true), judged_pair(0.0, true)};
  answer.warp = {{{"frame", "floor", "scales"}, {0.0, 0.2}}};
  return answer;
}

WeighingAnswer with_pairs(double front, double rear) {
  WeighingAnswer answer = even_kart();
  answer.figures[3] = judged_pair(front, true);
  answer.figures[4] = judged_pair(rear, true);
  return answer;
}

std::string lean(double front, double rear) {
  return twist_in_words(with_pairs(front, rear)).at(1);
}

TEST(WeighedFigure, CanBeSeenFromTwoStandardDeviationsOn) {
  EXPECT_TRUE(can_be_seen({2.0, 1.0}));
  EXPECT_TRUE(can_be_seen({-2.0, 1.0}));
  EXPECT_FALSE(can_be_seen({1.99, 1.0}));
}

TEST(WeighedFigure, IsUnderOrOverTheNearestEndBySoMuch) {
  const System units = System::metric;
  EXPECT_EQ(judged_text(share_of(0.42, true), units), "in the band");
  EXPECT_EQ(judged_text(share_of(0.411, true, false), units),
            "in the band, at its edge for these scales");
  EXPECT_EQ(judged_text(share_of(0.40, false), units), "under by 1 %");
  EXPECT_EQ(judged_text(share_of(0.45, false), units), "over by 2 %");
  EXPECT_EQ(judged_text(share_of(0.45, false, false), units),
            "over by 2 %, less than these scales can be sure of");
}

TEST(WeighedFigure, OfAPairHasASideAndASizeWhicheverWayItLeans) {
  const System units = System::metric;
  EXPECT_EQ(judged_text(judged_pair(0.1, true), units), "no difference that these scales can see");
  EXPECT_EQ(judged_text(judged_pair(0.5, true), units), "left heavier, in the band");
  EXPECT_EQ(judged_text(judged_pair(3.0, false), units), "left heavier, over by 2 kg");
  EXPECT_EQ(judged_text(judged_pair(-3.0, false), units), "right heavier, over by 2 kg");
}

TEST(Leaning, OfThePairsTellsASideFromATwist) {
  EXPECT_EQ(lean(0.1, -0.1), "neither pair leans by more than these scales' error");
  EXPECT_EQ(lean(1.0, 2.0), "both pairs lean to the left: weight to one side, seat or ballast");
  EXPECT_EQ(lean(-1.0, -2.0), "both pairs lean to the right: weight to one side, seat or ballast");
  EXPECT_EQ(lean(-1.0, 2.0),
            "the front leans to the right and the rear to the left: a twist, no mass does that");
  EXPECT_EQ(lean(-1.0, 0.1),
            "only the front pair leans, to the right: weight to one side and twist in one");
  EXPECT_EQ(lean(0.1, 1.0),
            "only the rear pair leans, to the left: weight to one side and twist in one");
}

TEST(Modes, AreToldByWhereMoreIs) {
  WeighingAnswer answer = even_kart();
  answer.modes = {.total = 160.0, .pitch = -26.0, .roll = -2.0, .warp = 3.0};
  const std::vector<std::string> words = modes_in_words(answer);
  EXPECT_EQ(words.at(0), "total 160 kg: kart and driver");
  EXPECT_EQ(words.at(1).find("pitch: the rear carries 26 kg more"), 0U) << words[1];
  EXPECT_EQ(words.at(2).find("roll: the right side carries 2 kg more"), 0U) << words[2];
  EXPECT_EQ(words.at(3).find("warp: left front and right rear carry 3 kg more"), 0U) << words[3];
  answer.modes = {.total = 160.0, .pitch = 2.0, .roll = 2.0, .warp = -3.0};
  const std::vector<std::string> other = modes_in_words(answer);
  EXPECT_EQ(other.at(1).find("pitch: the front carries 2 kg more"), 0U) << other[1];
  EXPECT_EQ(other.at(2).find("roll: the left side carries 2 kg more"), 0U) << other[2];
  EXPECT_EQ(other.at(3).find("warp: right front and left rear carry 3 kg more"), 0U) << other[3];
  answer.modes.warp = 0.0;
  EXPECT_EQ(modes_in_words(answer).at(3).find("warp: both diagonals carry the same;"), 0U);
}

TEST(Twist, NamesTheDiagonalAndWhoHasIt) {
  WeighingAnswer answer = even_kart();
  EXPECT_EQ(twist_in_words(answer).size(), 2U);
  EXPECT_EQ(twist_in_words(answer)[0].find("no twist that these scales can see"), 0U);
  answer.warp = {{{"frame", "floor", "scales"}, {3.0, 0.2}}};
  std::vector<std::string> words = twist_in_words(answer);
  ASSERT_EQ(words.size(), 3U);
  EXPECT_EQ(words[0],
            "left front and right rear carry 3 ± 0.2 kg more than the other diagonal, from frame, "
            "floor and scales");
  EXPECT_EQ(words[2].find("moving seat or ballast does not change it"), 0U);
  answer.warp = {{{"frame"}, {-3.0, 0.2}}, {{"floor"}, {0.1, 0.2}}, {{"scales"}, {1.0, 0.2}}};
  words = twist_in_words(answer);
  ASSERT_EQ(words.size(), 6U);
  EXPECT_EQ(words[0].find("right front and left rear carry 3 ± 0.2 kg more"), 0U) << words[0];
  EXPECT_EQ(words[3], "floor: warp 0.1 ± 0.2 kg, nothing that these scales can see");
  EXPECT_EQ(words[4], "scales: warp 1 ± 0.2 kg");
}

TEST(LeftOpen, IsWhatTheWeighingsHaveNotTakenApart) {
  WeighingAnswer answer = even_kart();
  ASSERT_EQ(left_open(answer).size(), 2U);
  EXPECT_EQ(left_open(answer)[0], "frame, floor and scales from each other");
  answer.warp = {{{"frame"}, {0.0, 0.2}}, {{"floor"}, {0.0, 0.2}}};
  ASSERT_EQ(left_open(answer).size(), 2U);
  EXPECT_EQ(left_open(answer)[0].find("a twisted frame from pressures"), 0U);
}

TEST(NextWeighings, AreTheTestsNotMadeWhereThereIsSomethingToTell) {
  WeighingAnswer answer = even_kart();
  EXPECT_TRUE(next_weighings(answer).empty());
  answer.figures[4].ok = false;
  ASSERT_EQ(next_weighings(answer).size(), 2U);
  EXPECT_NE(next_weighings(answer)[0].find("--swapped"), std::string::npos);
  EXPECT_NE(next_weighings(answer)[1].find("--turned"), std::string::npos);
  answer.given.swapped = CornerLoads{};
  ASSERT_EQ(next_weighings(answer).size(), 1U);
  EXPECT_NE(next_weighings(answer)[0].find("--turned"), std::string::npos);
  answer.given.turned = CornerLoads{};
  EXPECT_TRUE(next_weighings(answer).empty());
  for (const std::size_t figure : {2U, 3U, 4U}) {
    WeighingAnswer out = even_kart();
    out.figures[figure].ok = false;
    EXPECT_FALSE(next_weighings(out).empty()) << figure;
  }
  WeighingAnswer warped = even_kart();
  warped.warp = {{{"frame"}, {1.0, 0.2}}};
  EXPECT_FALSE(next_weighings(warped).empty());
}

TEST(MovesInWords, SayWhatThePlansReach) {
  WeighingAnswer answer = even_kart();
  EXPECT_EQ(moves_in_words(answer, true, 3),
            "front and left share are in their bands: nothing to move");
  answer.figures[0].ok = false;
  EXPECT_EQ(moves_in_words(answer, false, 3).find("the kart file names nothing"), 0U);
  EXPECT_EQ(moves_in_words(answer, true, 1),
            "nothing comes nearer to the bands, of one move at a time");
  EXPECT_EQ(moves_in_words(answer, true, 2), "nothing comes nearer to the bands, of up to 2 moves");
  answer.plans.emplace_back();
  EXPECT_EQ(moves_in_words(answer, true, 3),
            "no move reaches the bands, of up to 3 moves; the nearest:");
  answer.plans[0].reaches = true;
  EXPECT_EQ(moves_in_words(answer, true, 3), "reaches both bands, fewest moves first:");
}

TEST(Headline, TellsSharesMovesPairsAndTwistInThatOrder) {
  WeighingAnswer answer = even_kart();
  EXPECT_EQ(weighing_headline(answer),
            "Front and left share are in their bands. No twist that these scales can see.");
  answer.figures[0] = share_of(0.40, false);
  answer.figures[1] = share_of(0.45, false, false);
  answer.figures[2] = share_of(0.45, false);
  answer.figures[3] = judged_pair(-3.0, false, false);
  answer.warp = {{{"frame", "floor"}, {3.0, 0.2}}};
  EXPECT_EQ(weighing_headline(answer),
            "Too little on the front: 40 ± 0.1 %, wanted 41 % to 43 %. Too much on the left: "
            "45 ± 0.1 %, wanted 41 % to 43 %, by less than these scales can be sure of. No move of "
            "seat or ballast here comes nearer. The front pair is 3 ± 0.1 kg apart, at most 1 kg, "
            "by less than these scales can be sure of. Cross weight is 45 ± 0.1 %, wanted 41 % to "
            "43 %. A twist is read; frame and floor are not told apart yet.");
  answer.plans = {{.steps = {{"seat", "seat forward", "0 mm", "10 mm", 80.0}},
                   .predicted = {},
                   .shares = {},
                   .reaches = false}};
  EXPECT_NE(
      weighing_headline(answer).find(" No move reaches it; nearest: seat forward, 0 mm → 10 mm."),
      std::string::npos);
  answer.plans[0].reaches = true;
  EXPECT_NE(weighing_headline(answer).find(" This reaches it: seat forward"), std::string::npos);
}

TEST(Headline, OfWeighingsThatDisagreeTellsNoMoreThanThat) {
  WeighingAnswer answer = even_kart();
  answer.verdicts = {{.id = "swapped-weighs-the-same", .ok = true, .text = "as scales are"},
                     {.id = "twist", .ok = false, .text = "twisted"}};
  EXPECT_FALSE(weighings_disagree(answer));
  EXPECT_EQ(weighing_headline(answer).find("Careful"), std::string::npos);
  answer.verdicts[0] = {.id = "swapped-weighs-the-same", .ok = false, .text = "it differs"};
  EXPECT_TRUE(weighings_disagree(answer));
  EXPECT_EQ(weighing_headline(answer),
            "Careful: it differs. No share, twist or move is told from them.");
}

TEST(Headline, SaysOnceTheFrameIsAloneThatTheTwistIsTheKartsOwn) {
  WeighingAnswer answer = even_kart();
  answer.warp = {{{"frame"}, {3.0, 0.2}}};
  EXPECT_EQ(weighing_headline(answer),
            "Front and left share are in their bands. The twist is the kart's own: frame, "
            "pressures or ride heights.");
}

}  // namespace
}  // namespace kartwright
