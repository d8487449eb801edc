// What came of an answer, in the sentences that the trainee reads.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "engine/knowledge/built_in.h"
#include "engine/practice/answer.h"
#include "engine/practice/outcome.h"

namespace kartwright {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;

constexpr DrillChoice::Kind kCheckKind = DrillChoice::Kind::check;

const Pack& pack_in_words() {
  static const Pack pack = built_in_pack();
  return pack;
}

class OutcomeInWords : public testing::Test {
 protected:
  OutcomeInWords() : OutcomeInWords("first-hop") {}
  explicit OutcomeInWords(const std::string& id)
      : ear_(pack_in_words()),
        task_(named_task(*pack_in_words().drills.named(id), pack_in_words(), ear_, 1)),
        marking_(pack_in_words(), task_) {}

  std::vector<std::string> told_after(const DrillOutcome& outcome) const {
    return told(outcome, marking_.best(), marking_);
  }

  Ear ear_;
  DrillTask task_;
  Marking marking_;
};

class BrokenKartInWords : public OutcomeInWords {
 protected:
  BrokenKartInWords() : OutcomeInWords("tight-loose-tight") {}
};

TEST_F(OutcomeInWords, AComplaintIsNewGoneAsBeforeOrHeldAgainstBefore) {
  const DrillOutcome outcome{
      .felt = {{.symptom = "hop", .phase = Phase::mid, .before = 2, .after = 0},
               {.symptom = "push", .phase = Phase::entry, .before = 0, .after = 1},
               {.symptom = "loose", .phase = Phase::exit, .before = 3, .after = 3},
               {.symptom = "slide", .phase = Phase::any, .before = 1, .after = 2}},
      .error_before = 4.0,
      .error_after = 3.0};
  const std::vector<std::string> lines = told_after(outcome);
  const auto label = [](const char* id) { return pack_in_words().symptom(id)->label; };
  const auto where = [](const char* phase) {
    return " " + pack_in_words().drills.said_of(phase)->says.front();
  };
  EXPECT_THAT(lines, ElementsAre(label("hop") + where("phase mid") + ": gone",
                                 "new: " + label("push") + where("phase entry") + ", slight",
                                 label("loose") + where("phase exit") + ": as before, severe",
                                 label("slide") + ": clear, slight before",
                                 "Truly taken out of this kart's handling error: 25 %."));
}

TEST_F(OutcomeInWords, ASymptomThatThePackDoesNotKnowIsCalledByItsName) {
  EXPECT_EQ(told_after({.felt = {{.symptom = "shudder", .before = 1, .after = 0}}}).front(),
            "shudder: gone");
}

TEST_F(OutcomeInWords, TheHandlingErrorFellStayedOrGrew) {
  const auto last = [&](double before, double after) {
    return told_after({.error_before = before, .error_after = after}).back();
  };
  EXPECT_EQ(last(2.0, 1.0), "Truly taken out of this kart's handling error: 50 %.");
  EXPECT_EQ(last(2.0, 2.001), "The handling error of this kart is what it was.");
  EXPECT_EQ(last(2.0, 3.0), "The handling error of this kart truly grew by 50 %.");
  EXPECT_EQ(last(0.1, 3.0), "There was hardly any handling error to take out.");
}

TEST_F(OutcomeInWords, ACheckTellsWhatWasLookedAtAndFoundAndNothingOfTheHandling) {
  const DrillChoice look = read_answer("check bent axle", marking_, {}).choice;
  ASSERT_EQ(look.kind, kCheckKind);
  const Fault& axle = *pack_in_words().fault("bent-axle");
  EXPECT_THAT(told({.found = false}, look, marking_),
              ElementsAre("You looked (" + axle.check + "): nothing found."));
  EXPECT_THAT(told({.found = true}, look, marking_),
              ElementsAre("You looked (" + axle.check + ") and found it: " + axle.label + ". " +
                          axle.fix + "."));
}

TEST_F(OutcomeInWords, WhereNothingMustBeLookedAtNothingIsSaidOfIt) {
  EXPECT_THAT(told_after({.error_before = 2.0, .error_after = 1.0}), testing::SizeIs(1));
}

TEST_F(OutcomeInWords, AGoodCallThatWentWellNeedsNoWordOfLuck) {
  const DrillOutcome well{.error_before = 2.0, .error_after = 1.0};
  const DrillOutcome badly{.error_before = 2.0, .error_after = 3.0};
  EXPECT_EQ(luck_of(well, marking_.best(), marking_), "");
  EXPECT_THAT(luck_of(badly, marking_.best(), marking_), HasSubstr("came off badly this time"));
}

TEST_F(OutcomeInWords, APoorCallThatWentWellIsNotToBeCountedOn) {
  const DrillChoice narrower = read_answer("rear narrower 10", marking_, {}).choice;
  ASSERT_LT(marking_.mark_of(narrower), 50.0);
  EXPECT_THAT(luck_of({.error_before = 2.0, .error_after = 1.0}, narrower, marking_),
              HasSubstr("Do not count on it"));
  EXPECT_EQ(luck_of({.error_before = 2.0, .error_after = 1.7}, narrower, marking_), "");
  EXPECT_EQ(luck_of({.error_before = 2.0, .error_after = 3.0}, narrower, marking_), "");
}

TEST_F(OutcomeInWords, WithHardlyAnyErrorOrNoChangeThereIsNoLuck) {
  EXPECT_EQ(luck_of({.error_before = 0.1, .error_after = 3.0}, marking_.best(), marking_), "");
  EXPECT_EQ(luck_of({.error_before = 2.0, .error_after = 3.0}, {}, marking_), "");
}

TEST_F(BrokenKartInWords, WhoeverGoesOutHearsOfTheFaultOrThatNobodyCouldKnow) {
  const std::size_t fault = marking_.stopping().at(0);
  const DrillChoice narrower = read_answer("rear narrower 10", marking_, {}).choice;
  EXPECT_EQ(told({.out_with = {fault}}, narrower, marking_).front(),
            "The fault was still there, and the kart went out with it: " +
                pack_in_words().faults[fault].label + ".");
  EXPECT_EQ(told({}, narrower, marking_).front(),
            "Nothing broke this time. Nobody could know that without a look.");
}

TEST_F(BrokenKartInWords, LookingFirstWasRightThoughItWasSound) {
  ASSERT_EQ(marking_.best().kind, kCheckKind);
  EXPECT_EQ(luck_of({.found = false}, marking_.best(), marking_),
            "It was sound this time. Looking first was right all the same.");
  EXPECT_EQ(luck_of({.found = true}, marking_.best(), marking_), "");
}

}  // namespace
}  // namespace kartwright
