// The height of the centre of mass, by an axle lifted: what is typed, and what is said of it.

#include "engine/chassis/lifted_weighing.h"

#include <cmath>

#include <gtest/gtest.h>

#include "engine/chassis/weighing_input.h"
#include "tests/support/kart_pack.h"
#include "tests/support/pit.h"

namespace kartwright {
namespace {

LiftWords lift_words(std::string lift, std::string level, std::string up, std::string mass) {
  return {.raised = "front",
          .lift = std::move(lift),
          .level = std::move(level),
          .up = std::move(up),
          .mass = std::move(mass),
          .wheelbase = "1040 mm",
          .resolution = "0.1 kg"};
}

std::vector<Diagnostic> lift_slips(const LiftWords& words) {
  Findings findings;
  read_lift(words, Kart{}, rules(), findings);
  return findings.all();
}

HeightAnswer height_of(const LiftWords& words) {
  Findings findings;
  const LiftedWeighing read = read_lift(words, Kart{}, rules(), findings);
  EXPECT_EQ(told(findings.all()), "");
  return lifted_height(Kart{}, read, rules(), System::metric);
}

TEST(LiftedWeighing, PoundsAndInchesInGiveTheSameHeight) {
  const HeightAnswer metric =
      height_of(lift_words("228.6 mm", "90.718474 kg", "95.2543977 kg", "171.45791586 kg"));
  const HeightAnswer imperial = height_of(lift_words("9 in", "200 lb", "210 lb", "378 lb"));
  EXPECT_NEAR(metric.height.value, imperial.height.value, 1e-9);
  EXPECT_NEAR(metric.height.sd, imperial.height.sd, 1e-9);
}

TEST(LiftedWeighing, TheErrorIsItsTwoPartsAndTheLargerIsNamed) {
  const HeightAnswer answer = height_of(lift_words("220 mm", "95 kg", "99 kg", "165 kg"));
  EXPECT_NEAR(answer.height.sd, std::hypot(answer.by_scales, answer.by_tape), 1e-12);
  EXPECT_GT(answer.by_scales, answer.by_tape);
  EXPECT_NE(answer.error.at(0).find("mostly the scales"), std::string::npos);
}

TEST(LiftedWeighing, ALiftOutsideItsBandIsFlaggedAndOneFarOffIsRefused) {
  EXPECT_TRUE(height_of(lift_words("220 mm", "95 kg", "99 kg", "165 kg")).verdicts.at(0).ok);
  EXPECT_FALSE(height_of(lift_words("150 mm", "95 kg", "98 kg", "165 kg")).verdicts.at(0).ok);
  EXPECT_FALSE(height_of(lift_words("300 mm", "95 kg", "100 kg", "165 kg")).verdicts.at(0).ok);
  EXPECT_EQ(lift_slips(lift_words("900 mm", "95 kg", "99 kg", "165 kg")).at(0).file, "--lift");
}

TEST(LiftedWeighing, OneScaleTakenForTheAxleIsSeen) {
  const auto found = lift_slips(lift_words("220 mm", "47 kg", "49 kg", "165 kg"));
  ASSERT_EQ(found.size(), 1U) << told(found);
  EXPECT_EQ(found[0].file, "--level");
}

TEST(LiftedWeighing, AHeightThatNoKartHasIsRefusedWithTheRange) {
  const auto found = lift_slips(lift_words("220 mm", "95 kg", "115 kg", "165 kg"));
  ASSERT_EQ(found.size(), 1U) << told(found);
  EXPECT_EQ(found[0].file, "--up");
  EXPECT_NE(found[0].help.find("between 100 mm and 600 mm"), std::string::npos) << found[0].help;
}

TEST(LiftedWeighing, AWheelbaseOfTenMetresIsRefused) {
  LiftWords words = lift_words("220 mm", "95 kg", "99 kg", "165 kg");
  words.wheelbase = "10 m";
  EXPECT_EQ(lift_slips(words).at(0).file, "--wheelbase");
}

TEST(LiftedWeighing, WhatIsMissingIsNamed) {
  const auto found = lift_slips({});
  ASSERT_EQ(found.size(), 4U) << told(found);
  EXPECT_EQ(found[0].file, "--raised");
  EXPECT_EQ(found[1].file, "--lift");
}

TEST(LiftedWeighing, SaysOfTheLiftWhatIsWrongWithItAndWarnsFirst) {
  const HeightAnswer good = height_of(lift_words("220 mm", "95 kg", "99 kg", "165 kg"));
  EXPECT_EQ(good.verdicts.at(0).text,
            "lifted 220 mm, 12.2 deg; within 200 mm to 250 mm");  // asin of 220 over 1040
  EXPECT_EQ(good.headline.find("The centre of mass is"), 0U) << good.headline;
  EXPECT_TRUE(good.verdicts.at(0).sure);
  const HeightAnswer low = height_of(lift_words("150 mm", "95 kg", "98 kg", "165 kg"));
  EXPECT_NE(low.verdicts.at(0).text.find("so low that the error grows; wanted 200 mm to 250 mm"),
            std::string::npos);
  EXPECT_EQ(low.headline.find("Careful: lifted 150 mm"), 0U) << low.headline;
  const HeightAnswer high = height_of(lift_words("300 mm", "95 kg", "100 kg", "165 kg"));
  EXPECT_NE(high.verdicts.at(0).text.find("higher than is safe: let it down; wanted"),
            std::string::npos);
}

TEST(LiftedWeighing, OfAHeightSaysWhetherKartsHaveItAndWhereTheErrorIs) {
  const HeightAnswer answer = height_of(lift_words("220 mm", "95 kg", "99 kg", "165 kg"));
  ASSERT_EQ(answer.verdicts.size(), 2U);
  EXPECT_EQ(answer.verdicts[1].text, "as karts can have it: most have 230 mm to 320 mm");
  EXPECT_TRUE(answer.verdicts[1].ok && answer.verdicts[1].sure);
  ASSERT_EQ(answer.error.size(), 3U);
  EXPECT_NE(answer.error[1].find("finer scales"), std::string::npos);
  LiftedWeighing odd = answer.given;
  odd.test.lifted = odd.test.level;  // nothing came over: a mass at the hubs
  const HeightAnswer none = lifted_height(Kart{}, odd, rules(), System::metric);
  EXPECT_EQ(none.verdicts.at(1).ok, none.height.value >= 0.1);
  odd.test.lifted = odd.test.level + 30.0;
  const HeightAnswer towering = lifted_height(Kart{}, odd, rules(), System::metric);
  EXPECT_FALSE(towering.verdicts.at(1).ok);
  EXPECT_EQ(towering.verdicts[1].text.find("no kart has that"), 0U);
  odd.test.sigma_scale = 1e-6;  // now the tape is what is not known, and to less than a millimetre
  odd.test.lifted = odd.test.level + 4.0;
  const HeightAnswer fine = lifted_height(Kart{}, odd, rules(), System::metric);
  EXPECT_EQ(fine.error.at(0).find("mostly the tape: 1 mm from scales"), 0U) << fine.error[0];
  EXPECT_NE(fine.error.at(1).find("measure the lift at both wheels"), std::string::npos);
}

TEST(LiftedWeighing, TheRearCanBeRaisedAsWell) {
  LiftWords words = lift_words("220 mm", "69 kg", "73 kg", "165 kg");
  words.raised = "rear";
  Findings findings;
  const LiftedWeighing read = read_lift(words, Kart{}, rules(), findings);
  EXPECT_EQ(told(findings.all()), "");
  EXPECT_FALSE(read.front_raised);
  const LiftedWeighing front =
      read_lift(lift_words("220 mm", "95 kg", "99 kg", "165 kg"), Kart{}, rules(), findings);
  EXPECT_EQ(read.test.radius_down, front.test.radius_up);
  EXPECT_EQ(read.test.radius_up, front.test.radius_down);
  words.level = "110 kg";  // two thirds on the front is no kart
  words.up = "114 kg";
  EXPECT_EQ(lift_slips(words).at(0).file, "--level");
}

TEST(LiftedWeighing, WhatNobodyGaveIsTheKartFilesOrAssumedAndNamed) {
  LiftWords words = lift_words("220 mm", "95 kg", "99 kg", "");
  words.wheelbase = "";
  Findings findings;
  const LiftedWeighing assumed = read_lift(words, Kart{}, rules(), findings);
  EXPECT_EQ(assumed.test.mass, 165.0);
  const auto names = [](const LiftedWeighing& read, std::string_view part) {
    return std::any_of(read.assumed.begin(), read.assumed.end(), [&](const std::string& text) {
      return text.find(part) != std::string::npos;
    });
  };
  EXPECT_TRUE(names(assumed, "wheelbase 1040 mm"));
  EXPECT_TRUE(names(assumed, "mass with the driver 165 kg"));
  Kart kart;
  kart.dimensions["wheelbase"] = 1.05;
  kart.corner_weights = CornerLoads{35.0, 35.0, 48.0, 48.0};
  const LiftedWeighing own = read_lift(words, kart, rules(), findings);
  EXPECT_EQ(own.test.wheelbase, 1.05);
  EXPECT_EQ(own.test.mass, 166.0);
  EXPECT_FALSE(names(own, "wheelbase"));
  EXPECT_FALSE(names(own, "driver"));
}

}  // namespace
}  // namespace kartwright
