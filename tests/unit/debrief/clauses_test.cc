#include "engine/debrief/clauses.h"

#include <gtest/gtest.h>

#include "tests/support/small_words.h"

namespace kartwright {
namespace {

std::vector<SpokenClause> cut(std::string_view said) {
  return clauses_of(tokens_of(said), Vocabulary(small_words().phrases));
}

/// "[a][b] [c] | [d]": pieces, segments, clauses. Unknown words stand bare.
std::string line(std::string_view said) {
  std::string text;
  for (const SpokenClause& clause : cut(said)) {
    if (!text.empty()) text += " |";
    for (const Segment& segment : clause.segments) {
      if (!text.empty()) text += ' ';
      for (const Piece& piece : segment.pieces) {
        text += piece.phrase == nullptr ? piece.text : '[' + piece.text + ']';
      }
    }
  }
  return text;
}

TEST(Clauses, HardBreaksPartClauses) {
  EXPECT_EQ(line("loose. tight; hops\npush! slide? bad"),
            "[loose] | [tight] | [hops] | [push] | [slide] | [bad]");
  EXPECT_EQ(line("loose but tight though hops except push"), "[loose] | [tight] | [hops] | [push]");
  EXPECT_EQ(line("loose other than mid"), "[loose] | [mid]");
  EXPECT_EQ(line(".,;"), "");
}

TEST(Clauses, SoftBreaksPartSegments) {
  EXPECT_EQ(line("loose, tight and hops then push plus slide also bad"),
            "[loose] [tight] [hops] [push] [slide] [bad]");
}

TEST(Clauses, SegmentsKnowHowTheyHang) {
  const auto segments = cut("loose, tight and hops, or push then bad").front().segments;
  ASSERT_EQ(segments.size(), 5u);
  EXPECT_EQ(segments[1].join, Join::none);
  EXPECT_TRUE(segments[1].comma);
  EXPECT_EQ(segments[2].join, Join::along);
  EXPECT_FALSE(segments[2].comma);
  EXPECT_EQ(segments[3].join, Join::either);
  EXPECT_TRUE(segments[3].comma);
  EXPECT_EQ(segments[4].join, Join::further);
}

TEST(Clauses, KnowHowTheyOpenAndEnd) {
  const auto clauses = cut("push? hops!! loose! fine except mid");
  ASSERT_EQ(clauses.size(), 5u);
  EXPECT_TRUE(clauses[0].asked);
  EXPECT_TRUE(clauses[1].loud);
  EXPECT_FALSE(clauses[2].loud);
  EXPECT_FALSE(clauses[3].exception);
  EXPECT_TRUE(clauses[4].exception);
}

TEST(Clauses, AlsoBehindADenialPartsNothing) {
  EXPECT_EQ(line("it doesn't also push"), "[it][doesn't][push]");
}

TEST(Clauses, NumbersBehindAPlaceBelongToIt) {
  const auto at = [](std::string_view said) {
    return quote(said, cut(said).front().segments.front().pieces.front().at);
  };
  EXPECT_EQ(at("turn 3, 4 and 7 hops"), "turn 3, 4 and 7");
  EXPECT_EQ(at("turn three and four hops"), "turn three and four");
  EXPECT_EQ(at("turn four and 7 hops"), "turn four and 7");
  EXPECT_EQ(at("turn and 7"), "turn");
  EXPECT_EQ(at("turn 3 and hops"), "turn 3");
}

TEST(Clauses, TurnsOfSymptomAndPhaseAreCutIntoPairs) {
  EXPECT_EQ(line("push going in a bit loose coming off"),
            "[push][going in] [a bit][loose][coming off]");
  EXPECT_EQ(line("going in push a lot in the middle hops"),
            "[going in][push][a lot] [in the middle][hops]");
  EXPECT_EQ(line("loose off push mid"), "[loose off] [push][mid]");
  EXPECT_EQ(line("push hops going in mid"), "[push][hops][going in][mid]");
}

TEST(Clauses, APhraseMayNameASide) {
  const auto side = [](std::string_view said) {
    return cut(said).front().segments.front().pieces.front().side;
  };
  EXPECT_EQ(side("drifts to the left"), Side::left);
  EXPECT_EQ(side("something is not right"), std::nullopt);
}

TEST(Clauses, APhraseMaySpellItsPhase) {
  EXPECT_TRUE(cut("loose off").front().segments.front().pieces.front().spells_phase);
  EXPECT_FALSE(cut("wheelspin").front().segments.front().pieces.front().spells_phase);
}

}  // namespace
}  // namespace kartwright
