// Praise, with the rules that come with the program: what a happy driver denies, and what not.

#include <gtest/gtest.h>

#include "engine/debrief/sentence.h"
#include "engine/knowledge/built_in.h"
#include "tests/support/small_words.h"

namespace kartwright {
namespace {

using Lines = std::vector<std::string>;

/// What was denied by praise alone, "push@mid=0" each.
Lines denied(std::string_view said) {
  static const Pack rules = built_in_pack();
  Lines lines;
  for (const Report& report : hear(said, rules).reports) {
    if (report.from_praise) lines.push_back(shown(report));
  }
  return lines;
}

TEST(Praise, OfTheKartDeniesEveryComplaintOnce) {
  EXPECT_EQ(denied("it was great, no complaints"),
            (Lines{"push@any=0", "loose@any=0", "slide@any=0", "hop@any=0", "bind@any=0",
                   "twitchy@any=0"}));
}

TEST(Praise, OfOnePartSpeaksOfThatPartAlone) {
  EXPECT_EQ(denied("pushes going in, fine in the middle"),
            (Lines{"loose@mid=0", "slide@mid=0", "hop@mid=0"}));
  EXPECT_EQ(denied("great going in and off"),
            (Lines{"push@entry=0", "push@exit=0", "loose@entry=0", "loose@exit=0", "slide@entry=0",
                   "slide@exit=0", "hop@entry=0", "hop@exit=0"}));
}

TEST(Praise, OfTheRestLeavesTheComplaintItsPart) {
  const Lines rest{"loose@mid=0", "loose@exit=0", "slide@mid=0", "slide@exit=0",
                   "hop@mid=0",   "hop@exit=0",   "bind@any=0",  "twitchy@any=0"};
  EXPECT_EQ(denied("pushes going in, otherwise it was great"), rest);
  EXPECT_EQ(denied("pushes going in, fine everywhere else"), rest);
}

TEST(Praise, WithAComplaintOfNoPartIsOfTheWholeCorner) {
  EXPECT_EQ(denied("it pushes, otherwise great"),
            (Lines{"loose@any=0", "slide@any=0", "hop@any=0", "bind@any=0", "twitchy@any=0"}));
}

TEST(Praise, OfTheStraightSaysNothingOfTheCorner) {
  EXPECT_EQ(denied("fine down the straight, pushes going in"), Lines{});
}

TEST(Praise, IsNotHeardWhereItIsRefused) { EXPECT_EQ(denied("not great going in"), Lines{}); }

}  // namespace
}  // namespace kartwright
