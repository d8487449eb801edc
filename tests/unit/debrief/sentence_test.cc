#include "engine/debrief/sentence.h"

#include <random>

#include <gtest/gtest.h>

#include "engine/document/utf8.h"
#include "tests/support/small_words.h"

namespace kartwright {
namespace {

using Lines = std::vector<std::string>;

Lines reports(std::string_view said) { return shown(hear(said, small_words()).reports); }

Lines left(std::string_view said) {
  Lines left;
  for (const NotUnderstood& one : hear(said, small_words()).not_understood)
    left.push_back(one.words);
  return left;
}

Lines denied_by_praise(std::string_view said) {
  Lines denied;
  for (const Report& report : hear(said, small_words()).reports) {
    if (report.from_praise) denied.push_back(shown(report));
  }
  return denied;
}

TEST(Sentence, NothingSaidIsNothingHeard) {
  const Heard heard = hear("", small_words());
  EXPECT_TRUE(heard.reports.empty());
  EXPECT_TRUE(heard.not_understood.empty());
}

TEST(Sentence, ReportsInTheOrderSaid) {
  EXPECT_EQ(reports("hops badly in the middle, pushes going in. Loose"),
            (Lines{"hop@mid=3", "push@entry=2", "loose@any=2"}));
}

TEST(Sentence, EverySymptomOfASegmentAtEveryPhase) {
  EXPECT_EQ(reports("push hop going in mid"),
            (Lines{"push@entry=2", "push@mid=2", "hop@entry=2", "hop@mid=2"}));
}

TEST(Sentence, AnAddedPhaseMakesOneMoreReport) {
  EXPECT_EQ(reports("tight in the middle and tight off"), (Lines{"push@mid=2", "push@exit=2"}));
  EXPECT_EQ(reports("pushes going in and off"), (Lines{"push@entry=2", "push@exit=2"}));
  EXPECT_EQ(reports("pushes badly going in and a bit mid"), (Lines{"push@entry=3", "push@mid=1"}));
  EXPECT_EQ(reports("pushes badly going in and mid"), (Lines{"push@entry=3", "push@mid=3"}));
}

TEST(Sentence, AnImpliedPhaseGivesWayToOneSaid) {
  EXPECT_EQ(reports("wheelspin"), Lines{"loose@exit=2"});
  EXPECT_EQ(reports("wheelspin in the middle"), Lines{"loose@mid=2"});
  EXPECT_EQ(reports("wheelspin and in the middle"), (Lines{"loose@exit=2", "loose@mid=2"}));
}

TEST(Sentence, AnImpliedSeverityGivesWayToOneSaid) {
  EXPECT_EQ(reports("plows"), Lines{"push@any=3"});
  EXPECT_EQ(reports("plows a bit"), Lines{"push@any=1"});
}

TEST(Sentence, ShoutingRaisesByOneUpToThree) {
  EXPECT_EQ(reports("it HOPS"), Lines{"hop@any=3"});
  EXPECT_EQ(reports("it hops a bit!!"), Lines{"hop@any=2"});
  EXPECT_EQ(reports("it HOPS badly!!"), Lines{"hop@any=3"});
  EXPECT_EQ(reports("IT HOPS"), Lines{"hop@any=2"});
  EXPECT_EQ(reports("it doesn't HOP!!"), Lines{"hop@any=0"});
}

TEST(Sentence, DenialsAreReportsOfZero) {
  EXPECT_EQ(reports("doesn't hop any more"), Lines{"hop@any=0"});
  EXPECT_EQ(reports("pushes everywhere except in the middle"), (Lines{"push@any=2", "push@mid=0"}));
  EXPECT_EQ(reports("pushes going in, not in the middle or off"),
            (Lines{"push@entry=2", "push@mid=0", "push@exit=0"}));
}

TEST(Sentence, OfTheSameReportTheSevererIsKeptInTheFirstPlace) {
  EXPECT_EQ(reports("hops a bit mid, loose. Hops badly mid"), (Lines{"hop@mid=3", "loose@any=2"}));
  EXPECT_EQ(reports("no hop. Hops"), Lines{"hop@any=2"});
  EXPECT_EQ(reports("Hops. No hop"), Lines{"hop@any=2"});
}

TEST(Sentence, ComplaintsOfBothSidesAreOfNeitherAlone) {
  EXPECT_EQ(reports("hops in lefts"), Lines{"hop@any=2,left"});
  EXPECT_EQ(reports("hops in lefts. hops in rights"), Lines{"hop@any=2"});
}

TEST(Sentence, SideTimeAndDoubt) {
  EXPECT_EQ(reports("i think it pulls left late in the run"),
            Lines{"pulls@any=2,left,late,unsure"});
  EXPECT_EQ(reports("drifts to the left"), Lines{"pulls@any=2,left"});
  EXPECT_EQ(reports("i think it hops, definitely loose"),
            (Lines{"hop@any=2,unsure", "loose@any=2,sure"}));
}

TEST(Sentence, QuotesTheClauseAsSaid) {
  const Heard heard = hear("  It\u2019s fine; WASHES  out, going in\t.", small_words());
  ASSERT_EQ(heard.reports.size(), 1u);
  EXPECT_EQ(heard.reports[0].words, "WASHES  out, going in");
}

TEST(Sentence, FactsAndLapsAreStated) {
  const Heard heard = hear("i turn in on the brake, faster now and faster", small_words());
  ASSERT_EQ(heard.facts.size(), 2u);
  EXPECT_EQ(heard.facts[0].fact, "turn-in");
  EXPECT_EQ(heard.facts[0].value, "brake");
  EXPECT_EQ(heard.facts[1].fact, "laps");
  EXPECT_EQ(heard.facts[1].value, "faster");
  EXPECT_EQ(heard.facts[1].words, "faster now");
}

TEST(Sentence, DeniedFactsAreNotUnderstood) {
  EXPECT_EQ(left("doesn't hit the kerb"), Lines{"doesn't hit the kerb"});
  EXPECT_TRUE(hear("doesn't hit the kerb", small_words()).facts.empty());
}

TEST(Sentence, PraiseDeniesWhatNobodyComplainedOf) {
  EXPECT_EQ(denied_by_praise("it was great, no complaints"),
            (Lines{"push@any=0", "loose@any=0", "hop@any=0"}));
  EXPECT_EQ(denied_by_praise("hops mid, fine everywhere else"),
            (Lines{"push@any=0", "loose@any=0"}));
  EXPECT_EQ(denied_by_praise("no push, great"), (Lines{"loose@any=0", "hop@any=0"}));
  EXPECT_EQ(hear("It was Great going in, hops", small_words()).praise,
            Lines{"It was Great going in"});
}

TEST(Sentence, PraiseKeepsItsPhaseFromTheComplaint) {
  EXPECT_EQ(reports("great going in and mid, hops"), Lines{"hop@any=2"});
}

TEST(Sentence, RefusedPraiseIsHeardOnlyBesideAComplaint) {
  EXPECT_EQ(left("it was not great"), Lines{"not great"});
  EXPECT_EQ(left("not great, it pushes"), Lines{});
  EXPECT_EQ(left("not great. It pushes"), Lines{});
  EXPECT_TRUE(denied_by_praise("not great").empty());
}

TEST(Sentence, WhatIsUnknownComesBackWithTheNearest) {
  const Heard heard = hear("it chamtrs in the hairpin", small_words());
  EXPECT_TRUE(heard.reports.empty());
  ASSERT_EQ(heard.not_understood.size(), 1u);
  EXPECT_EQ(heard.not_understood[0].words, "chamtrs");
  EXPECT_EQ(heard.not_understood[0].nearest, Lines{"chatters"});
}

TEST(Sentence, RemarksWithoutASymptomComeBack) {
  EXPECT_EQ(left("a bit in the middle"), Lines{"a bit in the middle"});
  EXPECT_EQ(left("good everywhere except going in"), Lines{"going in"});
  EXPECT_EQ(left("in lefts"), Lines{"in lefts"});
}

TEST(Sentence, LeftoversComeInTheOrderSaid) {
  EXPECT_EQ(left("gears grind. not great. a bit off. box whines"),
            (Lines{"gears grind", "not great", "a bit off", "box whines"}));
}

TEST(Sentence, PlacesGiveNoPhase) {
  EXPECT_EQ(reports("turn 3 and 7 it hops"), Lines{"hop@any=2"});
  EXPECT_EQ(left("turn 3 and 7 it hops"), Lines{});
}

/// Any bytes, any order of known words: nothing is thrown, and what comes out is fit to print.
void expect_printable(const Heard& heard) {
  for (const Report& report : heard.reports) {
    EXPECT_FALSE(first_invalid_utf8(report.words).has_value());
    EXPECT_GE(report.severity, 0);
    EXPECT_LE(report.severity, 3);
  }
  for (const NotUnderstood& left : heard.not_understood) {
    EXPECT_FALSE(first_invalid_utf8(left.words).has_value());
    EXPECT_EQ(left.words.find('\x1B'), std::string::npos);
    EXPECT_FALSE(left.words.empty());
  }
}

TEST(Sentence, AnyBytesAreSurvived) {
  std::mt19937 random(7);
  for (int round = 0; round < 300; ++round) {
    std::string said;
    for (int i = 0; i < 200; ++i) said += static_cast<char>(random() % 256);
    expect_printable(hear(said, small_words()));
  }
}

TEST(Sentence, AnyOrderOfKnownWordsIsSurvived) {
  std::mt19937 random(11);
  const Lines joints{" ", " ", " ", ", ", " and ", " or ", ". ", " but ", " except ", "? ", "!! "};
  const auto& phrases = small_words().phrases;
  for (int round = 0; round < 500; ++round) {
    std::string said;
    for (int i = 0; i < 30; ++i) {
      said += phrases[random() % phrases.size()].wordings + ' ';
      said += joints[random() % joints.size()];
    }
    expect_printable(hear(said, small_words()));
  }
}

TEST(Sentence, ALongDebriefIsReadToItsEnd) {
  std::string said;
  while (said.size() < 10000) said += "it pushes going in and off, gears grind; ";
  const Heard heard = hear(said + "hops mid", small_words());
  EXPECT_EQ(shown(heard.reports), (Lines{"push@entry=2", "push@exit=2", "hop@mid=2"}));
  EXPECT_EQ(heard.not_understood.size(), 244u);
}

}  // namespace
}  // namespace kartwright
