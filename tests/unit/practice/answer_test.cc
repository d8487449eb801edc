// What a trainee writes, read as an answer.

#include "engine/practice/answer.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "engine/knowledge/built_in.h"

namespace kartwright {
namespace {

using testing::HasSubstr;
using What = TraineeAnswer::What;

/// A case of the rules, ready to be answered.
class Answering : public testing::Test {
 protected:
  static const Pack& pack() {
    static const Pack pack = built_in_pack();
    return pack;
  }
  static Ear& ear() {
    static Ear ear(pack());
    return ear;
  }
  TraineeAnswer read(const std::string& text) const {
    return read_answer(text, marking_, pack().drills.level(task_.level)->offers);
  }
  /// The answer in words, or what is wrong with it.
  std::string heard(const std::string& text) const {
    const TraineeAnswer answer = read(text);
    if (answer.what == What::choice) return marking_.words_of(answer.choice);
    return answer.text + (answer.help.empty() ? "" : " | " + answer.help);
  }
  DrillTask task_ = named_task(*pack().drills.named("first-hop"), pack(), ear(), 1);
  Marking marking_{pack(), task_};
};

TEST_F(Answering, TakesAPhraseAnIdALabelOrANumberOfTheList) {
  for (const char* text :
       {"rear wider 10", "Rear Wider by 10 mm", "rear-width wider 10mm", "rear width wider 2 steps",
        "1 wider 10", "rear-width=1370mm", "rear width to 1370", "wider rear 1 cm"})
    EXPECT_EQ(heard(text), "rear wider, 1360 mm to 1370 mm") << text;
}

TEST_F(Answering, TakesAPartOfANameThatOnlyOneThingHas) {
  EXPECT_EQ(heard("hubs shorter"), "shorter hubs, medium to short");
  EXPECT_EQ(heard("caster more"), "more caster, 12 deg to 14 deg");
  EXPECT_EQ(heard("struts off"), "seat struts which way | added or removed");
  EXPECT_EQ(heard("struts removed"), "strut pair off, 1 to 0");
  EXPECT_EQ(heard("camber more-negative 0.25"), "more camber, -0.5 deg to -0.75 deg");
  EXPECT_EQ(heard("bodywork loose"), "body looser, standard to loose");
}

TEST_F(Answering, TakesLeavingAloneAndALookAtAFault) {
  for (const char* text : {"leave it", "Leave it alone", "nothing", "0"})
    EXPECT_EQ(heard(text), "leave it alone") << text;
  EXPECT_EQ(heard("check bent-axle"), "check: bent axle");
  EXPECT_EQ(heard("check bent axle"), "check: bent axle");
  EXPECT_EQ(heard("check fuel"), "check: fuel leak");
  EXPECT_EQ(heard("check the bent axle"), "check: bent axle");
}

TEST_F(Answering, ALookThatFitsSeveralFaultsNamesThemAllAndPicksNone) {
  EXPECT_EQ(read("check axle").what, What::unknown);
  EXPECT_EQ(heard("check axle"),
            "`axle` may be several | axle free to slide; bent axle - say which");
  EXPECT_EQ(heard("check brakes"),
            "`brakes` may be several | brake dragging; brake weak or grabbing - say which");
  EXPECT_EQ(heard("check frames"),
            "`frames` may be several | cracked frame; twisted frame - say which");
}

TEST_F(Answering, ALookIsNamedByOneOrManyAndByWhatIsLookedAt) {
  const std::string hub = "check: hub, wheel or bearing carrier loose";
  EXPECT_EQ(heard("check hubs"), hub);
  EXPECT_EQ(heard("check the wheels"), hub);
  EXPECT_EQ(heard("check sprocket"), "check: sprockets out of line");
  EXPECT_EQ(heard("check welds"), "check: cracked frame");
}

TEST_F(Answering, SmallWordsAndTheChassisNameNoFault) {
  for (const char* text : {"look for a fault", "check chassis", "check the", "check for not"})
    EXPECT_THAT(heard(text), testing::AnyOf(HasSubstr("no fault known here | axle free to slide; "),
                                            HasSubstr("check what")))
        << text;
}

TEST_F(Answering, TheNameOfAFaultAloneIsALookAtIt) {
  EXPECT_EQ(heard("bent axle"), "check: bent axle");
  EXPECT_EQ(heard("cracked seat"), "check: seat loose or cracked, or a strut broken");
  EXPECT_EQ(heard("the wheel is loose"), "check: hub, wheel or bearing carrier loose");
  EXPECT_EQ(read("seat").what, What::unknown);
  EXPECT_EQ(heard("axle"), "axle which way | stiffer or softer");
  EXPECT_EQ(heard("toe moved"), "check: toe moved");
  EXPECT_EQ(heard("seat struts"), "seat struts which way | added or removed");
}

TEST_F(Answering, TwoWaysAtOnceAreNoAnswer) {
  for (const char* text : {"rear wider 10 narrower", "rear narrower wider 10",
                           "rear width wider or narrower", "rear-width narrower 5 wider 5"})
    EXPECT_EQ(heard(text), "rear width both ways at once | wider or narrower") << text;
  EXPECT_EQ(heard("rear wider wider 10"), "rear wider, 1360 mm to 1370 mm");
}

TEST_F(Answering, AsksBackWhereTheSizeIsOpen) {
  const TraineeAnswer answer = read("rear wider");
  EXPECT_EQ(answer.what, What::how_far);
  EXPECT_EQ(answer.text, "5 mm, 10 mm, 15 mm");
  const TraineeAnswer sized = read_size("15", answer.choice.way, marking_);
  EXPECT_EQ(marking_.words_of(sized.choice), "rear wider, 1360 mm to 1375 mm");
  EXPECT_EQ(read_size("7", answer.choice.way, marking_).what, What::unknown);
}

TEST_F(Answering, RefusesWhatCannotBeDoneWithTheEnginesReason) {
  EXPECT_EQ(read("rear wider 30").what, What::refused);
  EXPECT_EQ(heard("rear wider 30"), "at most 15 mm at once");
  EXPECT_EQ(read("seat forward 10 mm").what, What::refused);
  EXPECT_THAT(heard("seat forward 10 mm"), HasSubstr("takes 25 min of 15"));
  EXPECT_EQ(read("ballast forward 200").what, What::refused);
}

TEST_F(Answering, AnswersATypoWithTheNearestName) {
  EXPECT_THAT(heard("caaster"), HasSubstr("did you mean `caster`?"));
  EXPECT_THAT(heard("width wider 10"), HasSubstr("front width; rear width"));
  EXPECT_THAT(heard("rear wider 12"), HasSubstr("one of 5 mm, 10 mm, 15 mm"));
  EXPECT_THAT(heard("check flux"), HasSubstr("no fault known here"));
  EXPECT_EQ(read("").what, What::unknown);
  EXPECT_EQ(read("99 wider").what, What::unknown);
  EXPECT_EQ(read("-5").what, What::unknown);
}

TEST_F(Answering, ReadsInchesOnAKartThatHasThem) {
  task_.kart.units = System::imperial;
  const Marking marking(pack(), task_);
  const TraineeAnswer open = read_answer("rear wider", marking, {});
  ASSERT_EQ(open.what, What::how_far);
  const std::string first = open.text.substr(0, open.text.find(','));
  EXPECT_THAT(first, HasSubstr("in"));
  EXPECT_EQ(read_size(first, open.choice.way, marking).what, What::choice);
}

TEST_F(Answering, InInchesTheNearestPlaceIsTakenAndSaid) {
  task_.kart.units = System::imperial;
  const Marking marking(pack(), task_);
  const TraineeAnswer quarter = read_answer("rear wider 0.25in", marking, {});
  ASSERT_EQ(quarter.what, What::choice);
  EXPECT_EQ(marking.words_of(quarter.choice), "rear wider, 53.54 in to 53.74 in");
  EXPECT_EQ(quarter.text, "`0.25in` is taken as rear wider, 53.54 in to 53.74 in");
  EXPECT_EQ(read_answer("rear wider 0.2", marking, {}).text, "");
  EXPECT_EQ(read_answer("rear wider 0.05", marking, {}).what, What::unknown);
  EXPECT_EQ(read_answer("toe out 0.04 in", marking, {}).choice.way,
            read_answer("toe out", marking, {}).choice.way);
}

TEST_F(Answering, ExplainsAnAdjustmentInTwoLines) {
  const Adjustment* adjustment = adjustment_in("rear width", marking_, {});
  ASSERT_NE(adjustment, nullptr);
  const std::vector<std::string> lines = in_two_lines(*adjustment, marking_);
  ASSERT_EQ(lines.size(), 2U);
  EXPECT_THAT(lines[0], HasSubstr("hop always means wider"));
  EXPECT_EQ(lines[1], "wider or narrower; now 1360 mm, from 1300 mm to 1400 mm, 6 min");
}

TEST_F(Answering, AtTheClassLimitTheLimitIsNamed) {
  const DrillTask task = named_task(*pack().drills.named("as-wide-as-the-class"), pack(), ear(), 1);
  const Marking marking(pack(), task);
  const TraineeAnswer answer = read_answer("rear wider 5", marking, {});
  EXPECT_EQ(answer.what, What::refused);
  EXPECT_NE(answer.text, "");
}

}  // namespace
}  // namespace kartwright
