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

}  // namespace
}  // namespace kartwright
