#include "engine/debrief/vocabulary.h"

#include <gtest/gtest.h>

#include "tests/support/small_words.h"

namespace kartwright {
namespace {

using Means = Phrase::Means;

/// "id/words" of the phrase at the start of what was said, or "none".
std::string begins(std::string_view said, const std::vector<Phrase>& phrases) {
  const Vocabulary vocabulary(phrases);
  const std::vector<Token> tokens = tokens_of(said);
  const Vocabulary::Match match = vocabulary.longest(tokens);
  if (match.phrase == nullptr) return "none";
  return match.phrase->id + '/' + std::to_string(match.words);
}

TEST(Vocabulary, LongestPhraseWins) {
  const std::vector<Phrase> phrases{phrase_of("tight", Means::symptom, "push"),
                                    phrase_of("tight going in", Means::symptom, "push-in")};
  EXPECT_EQ(begins("tight going in and off", phrases), "push-in/3");
  EXPECT_EQ(begins("tight going out", phrases), "push/1");
  EXPECT_EQ(begins("going in", phrases), "none");
  EXPECT_EQ(begins("", phrases), "none");
}

TEST(Vocabulary, EveryWordingOfAPhraseMeansTheSame) {
  const std::vector<Phrase> phrases{
      phrase_of("tight\nwash* out\ntwo-wheels", Means::symptom, "push"),
      phrase_of("loose", Means::symptom, "loose")};
  EXPECT_EQ(begins("tight", phrases), "push/1");
  EXPECT_EQ(begins("washes out", phrases), "push/2");
  EXPECT_EQ(begins("two wheels", phrases), "push/2");
  EXPECT_EQ(begins("loose", phrases), "loose/1");
  EXPECT_EQ(begins("tight washes", phrases), "push/1");
}

TEST(Vocabulary, StarStandsForVerbEndings) {
  const std::vector<Phrase> phrases{phrase_of("wash* out", Means::symptom, "push"),
                                    phrase_of("it hop*", Means::symptom, "hop")};
  EXPECT_EQ(begins("washes out", phrases), "push/2");
  EXPECT_EQ(begins("washing out", phrases), "push/2");
  EXPECT_EQ(begins("it hopped", phrases), "hop/2");
  EXPECT_EQ(begins("it hopper", phrases), "none");
}

TEST(Vocabulary, ApostrophesMayBeLeftOutButNotOfWell) {
  const std::vector<Phrase> phrases{phrase_of("won't turn", Means::symptom, "push"),
                                    phrase_of("we'll", Means::filler, "filler")};
  EXPECT_EQ(begins("wont turn", phrases), "push/2");
  EXPECT_EQ(begins("won\u2019t turn", phrases), "push/2");
  EXPECT_EQ(begins("well", phrases), "none");
}

TEST(Vocabulary, AnApostropheSMayStandForIs) {
  const std::vector<Phrase> phrases{phrase_of("rear hop", Means::symptom, "hop")};
  EXPECT_EQ(begins("rear hop's back", phrases), "hop/2");
  EXPECT_EQ(begins("rear's hop's back", phrases), "hop/2");
}

TEST(Vocabulary, HyphenatedPhrasesMeetTheWordsAsCut) {
  const std::vector<Phrase> phrases{phrase_of("two-wheels", Means::symptom, "two-wheels"),
                                    phrase_of("mid-slide*", Means::symptom, "slide")};
  EXPECT_EQ(begins("two-wheels", phrases), "two-wheels/2");
  EXPECT_EQ(begins("two wheels", phrases), "two-wheels/2");
  EXPECT_EQ(begins("mid slides", phrases), "slide/2");
}

TEST(Vocabulary, PhrasesDoNotReachOverBreaks) {
  const std::vector<Phrase> phrases{phrase_of("going in", Means::phase, "entry")};
  EXPECT_EQ(begins("going, in", phrases), "none");
}

TEST(Vocabulary, OfTwoAsLongTheFirstMeaningThenTheLesserIdWins) {
  const std::vector<Phrase> phrases{phrase_of("free", Means::praise),
                                    phrase_of("free", Means::symptom, "loose"),
                                    phrase_of("free", Means::symptom, "bind")};
  EXPECT_EQ(begins("free", phrases), "bind/1");
}

}  // namespace
}  // namespace kartwright
