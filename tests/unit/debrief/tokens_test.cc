#include "engine/debrief/tokens.h"

#include <gtest/gtest.h>

namespace kartwright {
namespace {

/// Words and numbers as they are, commas as ",", stops as ".".
std::string token_line(std::string_view said) {
  std::string text;
  for (const Token& token : tokens_of(said)) {
    const bool comma = token.kind == Token::Kind::comma, stop = token.kind == Token::Kind::stop;
    text += (text.empty() ? "" : " ") + (comma ? "," : stop ? "." : token.text);
  }
  return text;
}

TEST(Tokens, LowerCaseWithApostrophesInside) {
  EXPECT_EQ(token_line("It WON'T turn"), "it won't turn");
  EXPECT_EQ(token_line("it won\u2019t 'turn'"), "it won't turn");
  EXPECT_EQ(token_line("the drivers' kart"), "the drivers kart");
}

TEST(Tokens, HyphensAndSlashesPartWords) {
  EXPECT_EQ(token_line("two-wheels mid-corner push/loose"), "two wheels mid corner push loose");
  EXPECT_EQ(token_line("push - mid"), "push , mid");
  EXPECT_EQ(token_line("push -- mid"), "push , mid");
  EXPECT_EQ(token_line("push \u2014 mid"), "push , mid");
}

TEST(Tokens, APointInANumberEndsNothing) {
  EXPECT_EQ(token_line("0.75 bar. Hops"), "0.75 bar . hops");
  EXPECT_EQ(token_line("turn 3."), "turn 3 .");
  EXPECT_EQ(tokens_of("turn 3")[1].kind, Token::Kind::number);
}

TEST(Tokens, OtherAlphabetsStayInsideWords) {
  EXPECT_EQ(token_line("k\u00FCrve \u30AB"), "k\u00FCrve \u30AB");
}

TEST(Tokens, BreaksAndTheirMarks) {
  EXPECT_EQ(token_line("a, b; c! d? e\nf (g) h: i & j"), "a , b . c . d . e . f , g , h , i and j");
  EXPECT_EQ(tokens_of("hops!!")[1].text, "!!");
}

TEST(Tokens, KnowWhereTheyStood) {
  const std::string said = "  Hops \u2014 won\u2019t  turn";
  std::vector<std::string> quoted;
  for (const Token& token : tokens_of(said)) quoted.push_back(quote(said, token.at));
  EXPECT_EQ(quoted, (std::vector<std::string>{"Hops", "\u2014", "won\u2019t", "turn"}));
}

TEST(Tokens, CapitalsCountOnlyBesideSmallLetters) {
  EXPECT_TRUE(tokens_of("it HOPS")[1].capitals);
  EXPECT_FALSE(tokens_of("it Hops")[1].capitals);
  EXPECT_FALSE(tokens_of("IT HOPS")[1].capitals);
  EXPECT_FALSE(tokens_of("it hops in T4 I say")[4].capitals);
}

TEST(Tokens, QuotesAreFitToPrint) {
  const std::string said = " \tbad\x1B[2J\xFF \n";
  EXPECT_EQ(quote(said, {0, said.size()}), "bad [2J\uFFFD");
  EXPECT_EQ(quote(" \n ", {0, 3}), "");
}

TEST(Tokens, CoverHoldsBoth) {
  const Stretch both = cover({4, 6}, {1, 2});
  EXPECT_EQ(both.from, 1u);
  EXPECT_EQ(both.to, 6u);
}

}  // namespace
}  // namespace kartwright
