// The page of a symptom: how it is told from what it is taken for, and what may be behind it.

#include <algorithm>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "engine/advice/cause.h"
#include "engine/advice/explain.h"
#include "tests/support/pit.h"
#include "tests/support/small_rules.h"

namespace kartwright {
namespace {

using testing::AllOf;
using testing::HasSubstr;
using testing::Not;

std::string on_page(std::string_view id, std::string_view heading, const Pack& pack = rules()) {
  std::string out;
  const Explanation page = *explain(id, pack);
  for (const ExplainedPart& part : page.sections) {
    if (part.heading != heading) continue;
    for (const std::string& each : part.paragraphs) out += each + "\n";
  }
  return out;
}

TEST(SymptomPage, SaysWhatItIsAndIsNotWhatIsBehindItAndWhatMovesIt) {
  for (const Symptom& symptom : rules().symptoms) {
    for (const char* heading : {"what it is", "told from its neighbours", "what may be behind it",
                                "what is asked", "what moves it most", "said as"})
      EXPECT_NE(on_page(symptom.id, heading), "") << symptom.id << ": " << heading;
    EXPECT_EQ(on_page(symptom.id, "reads") != "", symptom.reading.has_value()) << symptom.id;
    EXPECT_THAT(on_page(symptom.id, "what may be behind it"), Not(HasSubstr("no rule listens")))
        << symptom.id;
  }
}

TEST(SymptomPage, NamesEveryNeighbourWithItsTell) {
  for (const Symptom& symptom : rules().symptoms) {
    for (const Neighbour& each : symptom.neighbours) {
      EXPECT_THAT(on_page(symptom.id, "told from its neighbours"),
                  AllOf(HasSubstr(rules().symptom(each.symptom)->label), HasSubstr(each.tell)));
    }
  }
}

TEST(SymptomPage, AHopIsTooMuchRearGripAndAWiderRearEasesIt) {
  EXPECT_THAT(on_page("hop", "what may be behind it"),
              AllOf(HasSubstr("too much rear grip"), HasSubstr("too much unloading")));
  EXPECT_THAT(on_page("hop", "what moves it most"),
              AllOf(HasSubstr("rear wider: 0.7 less in the middle for each 10 mm"),
                    Not(HasSubstr("rear narrower"))));
}

TEST(SymptomPage, APushIsTooLittleFrontOrTooMuchRear) {
  EXPECT_THAT(on_page("push", "what may be behind it"),
              AllOf(HasSubstr("too little front grip"), HasSubstr("too much rear grip")));
}

TEST(SymptomPage, ALooseKartIsAskedAboutTogetherWithAPush) {
  EXPECT_THAT(on_page("loose", "what is asked"), HasSubstr("in one question with push"));
}

TEST(SymptomPage, ForAVibrationNoSettingIsMoved) {
  EXPECT_THAT(on_page("vibration", "what moves it most"), HasSubstr("no setting is moved"));
  EXPECT_THAT(on_page("vibration", "what may be behind it"), HasSubstr("bent-axle"));
}

TEST(SymptomPage, WhatMovesItMostEasesIt) {
  for (const Symptom& symptom : rules().symptoms) {
    for (const SymptomMove& move : movers_of(symptom, rules())) {
      const std::string& phrase = move.adjustment->phrases.at(move.notches < 0.0 ? 0 : 1);
      const std::string& other = move.adjustment->phrases.at(move.notches < 0.0 ? 1 : 0);
      const std::string most = on_page(symptom.id, "what moves it most");
      EXPECT_THAT(most, Not(HasSubstr(other + ":"))) << symptom.id << phrase;
    }
  }
}

TEST(SymptomPage, ANeighbourThatOnlyTheCrewNamesStandsOnBothPages) {
  const Pack pack = small_pack_with(
      "symptoms: [{symptom: shudder, label: shudder, plain: it shudders, neighbours: [{symptom: "
      "vibration, tell: a shudder stops when you lift}]}]");
  for (const char* id : {"shudder", "vibration"}) {
    EXPECT_THAT(on_page(id, "told from its neighbours", pack),
                HasSubstr("a shudder stops when you lift"));
  }
  EXPECT_THAT(on_page("vibration", "told from its neighbours", pack), HasSubstr("shudder: "));
}

}  // namespace
}  // namespace kartwright
