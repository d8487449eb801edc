#include "engine/debrief/verb_forms.h"

#include <gtest/gtest.h>

namespace kartwright {
namespace {

using Forms = std::vector<std::string>;

TEST(VerbForms, PlainEndings) {
  EXPECT_EQ(verb_forms("bounce"), (Forms{"bounce", "bounces", "bounced", "bouncing"}));
  EXPECT_EQ(verb_forms("understeer"),
            (Forms{"understeer", "understeers", "understeered", "understeering"}));
  EXPECT_EQ(verb_forms("push"), (Forms{"push", "pushes", "pushed", "pushing"}));
  EXPECT_EQ(verb_forms("slide"), (Forms{"slide", "slides", "slided", "sliding"}));
}

TEST(VerbForms, OneShortVowelDoublesTheConsonant) {
  EXPECT_EQ(verb_forms("hop"), (Forms{"hop", "hops", "hopped", "hopping"}));
  EXPECT_EQ(verb_forms("snap"), (Forms{"snap", "snaps", "snapped", "snapping"}));
  EXPECT_EQ(verb_forms("skip")[2], "skipped");
  EXPECT_EQ(verb_forms("bog")[3], "bogging");
}

TEST(VerbForms, TwoVowelsOrMoreThanOneSyllableDoNot) {
  EXPECT_EQ(verb_forms("steer")[2], "steered");
  EXPECT_EQ(verb_forms("wander")[3], "wandering");
  EXPECT_EQ(verb_forms("bind")[3], "binding");
}

TEST(VerbForms, NeverDoublesWXY) {
  EXPECT_EQ(verb_forms("plow"), (Forms{"plow", "plows", "plowed", "plowing"}));
  EXPECT_EQ(verb_forms("fix")[2], "fixed");
  EXPECT_EQ(verb_forms("play")[3], "playing");
}

TEST(VerbForms, TurnsYAndIe) {
  EXPECT_EQ(verb_forms("carry"), (Forms{"carry", "carries", "carried", "carrying"}));
  EXPECT_EQ(verb_forms("die"), (Forms{"die", "dies", "died", "dying"}));
  EXPECT_EQ(verb_forms("free"), (Forms{"free", "frees", "freed", "freeing"}));
}

TEST(VerbForms, NothingOfNothing) { EXPECT_TRUE(verb_forms("").empty()); }

}  // namespace
}  // namespace kartwright
