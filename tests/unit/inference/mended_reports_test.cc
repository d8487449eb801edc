// The nearest reports that meet all that is asked of one symptom: raised, lowered, added or away.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "engine/inference/mend.h"
#include "tests/support/pit.h"
#include "tests/support/small_case.h"

namespace kartwright {
namespace {

using testing::ElementsAre;
using testing::SizeIs;

class MendedReport : public testing::Test {
 protected:
  void want(Ask ask, bool wanted = true) {
    asked_.push_back({.ask = std::move(ask), .wanted = wanted});
  }
  Lacks mended() {
    const Situation situation = entered_.settled();
    for (Requirement& one : asked_) one.met = is_met(one, situation);
    return mend(asked_, situation);
  }
  Lack lack() { return mended().value().at(0); }
  void said(const std::vector<std::string>& reports) {
    entered_.debrief = SmallCase(rules(), reports).debrief;
  }
  /// "hop@mid 2" for each change, "gone" in place of the severity; with what is off.
  std::vector<std::string> changes() {
    std::vector<std::string> out;
    const Lacks lacks = mended();
    EXPECT_TRUE(lacks);
    for (const Lack& lack : lacks.value_or(std::vector<Lack>{})) {
      const auto& change = std::get<ReportChange>(lack.change);
      out.push_back(change.symptom + "@" + std::string(name_of(change.phase)) + " " +
                    (change.severity ? std::to_string(*change.severity) : "gone"));
    }
    return out;
  }

  SmallCase entered_{rules()};
  Requirements asked_;
};

TEST_F(MendedReport, IsRaisedToWhatIsAsked) {
  said({"hop@mid=1"});
  want(ReportTest{"hop", Phase::mid, 3});
  EXPECT_THAT(changes(), ElementsAre("hop@mid 3"));
  EXPECT_EQ(lack().distance, 2.0);
  EXPECT_EQ(lack().off_by, 2.0);
  EXPECT_THAT(lack().reports, SizeIs(1));
  said({});
  EXPECT_THAT(changes(), ElementsAre("hop@mid 3"));
  EXPECT_EQ(lack().distance, 3.5) << "to speak of it at all is half a grade more";
  EXPECT_EQ(lack().off_by, std::nullopt);
}

TEST_F(MendedReport, OfNoPhaseIsRaisedWhereItIsNearest) {
  said({"hop@mid=1", "hop@exit=2"});
  want(ReportTest{"hop", {}, 3});
  EXPECT_THAT(changes(), ElementsAre("hop@exit 3"));
  said({});
  EXPECT_THAT(changes(), ElementsAre("hop@entry 3")) << "where it can be felt first";
}

TEST_F(MendedReport, IsLoweredOnlyWhereItIsTooMuch) {
  said({"hop@entry=1", "hop@mid=2", "hop@exit=3"});
  want(ReportTest{"hop", {}, 2}, false);
  EXPECT_THAT(changes(), ElementsAre("hop@mid 1", "hop@exit 1"));
  asked_.clear();
  want(ReportTest{"hop", Phase::exit, 2}, false);
  EXPECT_THAT(changes(), ElementsAre("hop@exit 1"));
  asked_.clear();
  want(ReportTest{"hop", {}, 1}, false);
  EXPECT_THAT(changes(), ElementsAre("hop@entry gone", "hop@mid gone", "hop@exit gone"));
}

TEST_F(MendedReport, ThatMustNotBeDeniedIsLeftUnsaidAndComplaintsOfItStay) {
  said({"hop@mid=0", "hop@exit=2"});
  want(ReportTest{"hop", {}, 0}, false);
  EXPECT_THAT(changes(), ElementsAre("hop@mid gone"));
  EXPECT_EQ(lack().distance, 0.5);
}

TEST_F(MendedReport, IsDeniedWhereThatIsAsked) {
  said({"hop@mid=2"});
  want(ReportTest{"hop", Phase::mid, 0});
  EXPECT_THAT(changes(), ElementsAre("hop@mid 0"));
  EXPECT_EQ(lack().distance, 2.0);
}

TEST_F(MendedReport, IsHeardOnceAtItsWorstInEachPhase) {
  entered_.debrief.heard.reports = {{.symptom = "hop", .phase = Phase::mid, .severity = 3},
                                    {.symptom = "hop", .phase = Phase::mid, .severity = 1},
                                    {.symptom = "push", .phase = Phase::mid, .severity = 1}};
  want(ReportTest{"hop", Phase::mid, 2}, false);
  EXPECT_EQ(lack().off_by, 2.0);
  EXPECT_THAT(lack().reports, SizeIs(2));
}

TEST_F(MendedReport, MeetsWhatIsWantedAndWhatIsNot) {
  said({"hop@mid=3"});
  want(ReportTest{"hop", Phase::mid, 3}, false);
  want(ReportTest{"hop", Phase::exit, 1});
  EXPECT_THAT(changes(), ElementsAre("hop@mid 2", "hop@exit 1"));
  want(ReportTest{"hop", {}, 1}, false);
  EXPECT_FALSE(mended());
}

TEST_F(MendedReport, OfASymptomThatMustReadIsAComplaintWhereItReads) {
  said({"push@straight=2"});
  want(ReadTest{"push"});
  EXPECT_THAT(changes(), ElementsAre("push@entry 1"));
  EXPECT_FALSE(asked_[0].met) << "it reads nothing on the straight";
  said({"hop@mid=2"});
  EXPECT_THAT(changes(), ElementsAre("push@entry 1")) << "another symptom's reading is no help";
}

}  // namespace
}  // namespace kartwright
