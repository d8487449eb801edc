#include "engine/debrief/spelling.h"

#include <gtest/gtest.h>

#include "tests/support/pit.h"
#include "tests/support/small_words.h"

namespace kartwright {
namespace {

const std::vector<std::string> kOrdinary{"bush chat", "mile"};

std::string meant(const std::string& word) {
  const Vocabulary vocabulary(small_words().phrases);
  return Spelling(vocabulary, kOrdinary).meant_by(word);
}

TEST(Spelling, OneSlipIsPutRight) {
  EXPECT_EQ(meant("chattr"), "chatter");    // too few
  EXPECT_EQ(meant("chaatter"), "chatter");  // too many
  EXPECT_EQ(meant("chatten"), "chatter");   // another
  EXPECT_EQ(meant("chattre"), "chatter");   // swapped
  EXPECT_EQ(meant("hcatter"), "chatter");   // swapped at the front
}

TEST(Spelling, TwoSlipsOnlyInALongWord) {
  EXPECT_EQ(meant("chatterign"), "chattering");
  EXPECT_EQ(meant("chaterign"), "chattering");
  EXPECT_EQ(meant("chaetr"), "chaetr");
}

TEST(Spelling, AShortWordIsPutRightOnlyWhereLettersAreSwappedOrDoubled) {
  EXPECT_EQ(meant("puhs"), "push");
  EXPECT_EQ(meant("hopp"), "hop");
  EXPECT_EQ(meant("pish"), "pish");
  EXPECT_EQ(meant("hpo"), "hpo");
}

TEST(Spelling, TheFirstLetterIsTrusted) {
  EXPECT_EQ(meant("night"), "night");
  EXPECT_EQ(meant("moose"), "moose");
}

TEST(Spelling, ADrawnOutLetterIsOne) {
  EXPECT_EQ(meant("looooose"), "loose");
  EXPECT_EQ(meant("tiiight"), "tight");
}

TEST(Spelling, OrdinaryWordsAndNumbersAreLeftAlone) {
  EXPECT_EQ(meant("chat"), "chat");
  EXPECT_EQ(meant("pu5h"), "pu5h");
  EXPECT_EQ(meant(""), "");
}

TEST(Spelling, KeepsWhereTheWordStood) {
  std::vector<Token> tokens = tokens_of("it is losose");
  const Vocabulary vocabulary(small_words().phrases);
  Spelling(vocabulary, kOrdinary).mend(tokens);
  EXPECT_EQ(tokens[2].text, "loose");
  EXPECT_EQ(tokens[2].at.from, 6U);
  EXPECT_EQ(tokens[2].at.to, 12U);
}

TEST(Spelling, NoWordOfTheRulesIsTakenForAnother) {
  const Vocabulary vocabulary(rules().phrases, rules().word_classes, rules().light_words);
  Spelling spelling(vocabulary, rules().ordinary_words);
  const auto words = vocabulary.all_words();
  EXPECT_GT(words.size(), 2'000U);
  for (const std::string& word : words) EXPECT_EQ(spelling.meant_by(word), word);
}

}  // namespace
}  // namespace kartwright
