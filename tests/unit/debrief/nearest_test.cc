#include "engine/debrief/nearest.h"

#include <gtest/gtest.h>

#include "tests/support/small_words.h"

namespace kartwright {
namespace {

using Means = Phrase::Means;
using Words = std::vector<std::string>;

std::vector<Phrase> phrases() {
  return {
      phrase_of("push*", Means::symptom, "push"), phrase_of("wash* out", Means::symptom, "push"),
      phrase_of("plush", Means::praise),          phrase_of("posh", Means::filler),
      phrase_of("lush", Means::praise),           phrase_of("rush", Means::symptom, "loose")};
}

TEST(Nearest, NamesAMisspeltPhraseInTheFormMeant) {
  EXPECT_EQ(Nearest(phrases()).to("pushng", {"pushng"}).front(), "pushing");
  EXPECT_EQ(Nearest(phrases()).to("washs out", {"washs"}), Words{"wash out"});
}

TEST(Nearest, AtMostThreeAndNoPhraseTwice) {
  EXPECT_EQ(Nearest(phrases()).to("ush", {"ush"}), (Words{"lush", "push", "rush"}));
  EXPECT_EQ(Nearest(phrases()).to("pushe", {"pushe"}), Words{"push"});
  EXPECT_EQ(Nearest(phrases()).to("pluush", {"pluush"}).size(), 3u);
}

TEST(Nearest, WithinAThirdOfTheLettersAndOneInAnyCase) {
  const std::vector<Phrase> known{phrase_of("hop", Means::symptom, "hop"),
                                  phrase_of("chatters", Means::symptom, "hop")};
  EXPECT_EQ(Nearest(known).to("hp", {"hp"}), Words{"hop"});
  EXPECT_EQ(Nearest(known).to("hq", {"hq"}), Words{});
  EXPECT_EQ(Nearest(known).to("chaters", {"chaters"}), Words{"chatters"});
  EXPECT_EQ(Nearest(known).to("shudders", {"shudders"}), Words{});
  EXPECT_EQ(Nearest(known).to("h", {"h"}), Words{});
}

TEST(Nearest, GivesUpAfterTwoHundredTexts) {
  Nearest nearest(phrases());
  for (int i = 0; i < 200; ++i) nearest.to("x" + std::to_string(i), {});
  EXPECT_EQ(nearest.to("pushng", {}), Words{});
  EXPECT_EQ(nearest.to("x0", {}), Words{});
}

TEST(Nearest, FillerIsNoSuggestion) { EXPECT_EQ(Nearest(phrases()).to("pozh", {"pozh"}), Words{}); }

TEST(Nearest, LongTextsAndOtherAlphabetsFindNothing) {
  EXPECT_EQ(Nearest(phrases()).to(std::string(5000, 'p'), {}), Words{});
  EXPECT_EQ(Nearest(phrases()).to("\u30AB\u30FC\u30C8", {"\xFF\xFE\xFF"}), Words{});
}

}  // namespace
}  // namespace kartwright
