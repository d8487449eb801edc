// What a rule lacks, in words, case by case.

#include <gtest/gtest.h>

#include "engine/inference/near_miss.h"
#include "tests/support/pit.h"

namespace kartwright {
namespace {

std::string lacking(const Lack& lack) { return in_words(lack, rules(), System::metric); }

Lack lack_of(Ask ask, CaseChange change, bool wanted = true) {
  Lack lack;
  lack.asked.ask = std::move(ask);
  lack.asked.wanted = wanted;
  lack.change = std::move(change);
  return lack;
}

using Beyond = MeasureTest::Side;

TEST(LackInWords, OfAFactThatIsSoByTheReportsAlone) {
  Lack lack = lack_of(FactTest{"only-late", {"yes"}}, FactChange{"only-late", "yes"});
  lack.values = {"yes"};
  EXPECT_EQ(lacking(lack), "only-late is so by the reports alone, must be stated as yes");
  lack.change = FactChange{"only-late", std::nullopt};
  EXPECT_EQ(lacking(lack), "only-late is so by the reports alone, must be stated");
}

TEST(LackInWords, OfAFactNamesTheRuleThatConcludesItAndTheOneInItsPlace) {
  Lack lack = lack_of(FactTest{"hit", {"yes", "no"}}, FactChange{"hit", "yes"});
  EXPECT_EQ(lacking(lack), "hit: nobody said, needs yes or no");
  lack.asked.through = {"outer", "inner"};
  EXPECT_EQ(lacking(lack), "hit: nobody said, needs yes or no; then inner concludes it");
  lack.asked.silences = "other";
  EXPECT_EQ(lacking(lack),
            "hit: nobody said, needs yes or no; then inner concludes it; other has "
            "taken its place");
  lack.asked.wanted = false;
  lack.asked.silences.clear();
  lack.values = {"no"};
  EXPECT_EQ(lacking(lack), "hit is no, must not be yes or no; inner concludes it");
}

TEST(LackInWords, OfRoomIsThatTheKartHasNoSuchSetting) {
  Lack lack = lack_of(FactTest{"room:axle:stiffer", {"none"}}, SettingChange{"axle", 1.0});
  EXPECT_EQ(lacking(lack), "this kart has no axle, needs one");
  lack.seen = 1.0;
  lack.values = {"some"};
  EXPECT_EQ(lacking(lack), "room:axle:stiffer is some, needs none");
}

TEST(LackInWords, OfAReportSaysWhereItWasMadeInstead) {
  Lack lack = lack_of(ReportTest{"hop", Phase::mid, 1}, ReportChange{"hop", Phase::mid, 1});
  EXPECT_EQ(lacking(lack), "report hop@mid is not there, needs to be there");
  lack.reports = {{.symptom = "hop", .phase = Phase::any},
                  {.symptom = "hop", .phase = Phase::exit}};
  EXPECT_EQ(lacking(lack),
            "report hop@mid is not there (reported at no phase or exit), needs to be there");
  lack.asked.ask = ReportTest{"hop", std::nullopt, 1};
  lack.change = ReportChange{"hop", Phase::any, 1};
  lack.reports.clear();
  EXPECT_EQ(lacking(lack), "report hop is not there, needs to be there");
}

TEST(LackInWords, OfAReportSaysHowSevereItIs) {
  Lack lack = lack_of(ReportTest{"hop", Phase::mid, 2}, ReportChange{"hop", Phase::mid, 2});
  lack.reports = {{.symptom = "hop", .phase = Phase::mid, .severity = 0}};
  EXPECT_EQ(lacking(lack), "report hop@mid is denied, needs severity 2 or more");
  lack.reports[0].severity = 1;
  lack.off_by = 1.0;
  EXPECT_EQ(lacking(lack), "report hop@mid is severity 1, needs severity 2 or more (off by 1)");
}

TEST(LackInWords, OfAReportThatMustNotBe) {
  Lack lack = lack_of(ReportTest{"hop", Phase::mid, 0}, ReportChange{"hop", Phase::mid, {}}, false);
  lack.reports = {{.symptom = "hop", .phase = Phase::mid, .severity = 0}};
  EXPECT_EQ(lacking(lack), "report hop@mid is denied, must not be");
  lack.asked.ask = ReportTest{"hop", Phase::mid, 1};
  EXPECT_EQ(lacking(lack), "report hop@mid is reported, must not be");
  lack.asked.ask = ReportTest{"hop", Phase::mid, 2};
  lack.reports[0].severity = 2;
  EXPECT_EQ(lacking(lack), "report hop@mid is severity 2, must be below 2");
  lack.asked.ask = ReportTest{"hop", Phase::mid, 0};
  lack.asked.wanted = true;
  EXPECT_EQ(lacking(lack), "report hop@mid is severity 2, needs to be denied");
}

TEST(LackInWords, OfASymptomFeltWhereItReadsNothing) {
  Lack lack = lack_of(ReadTest{"push"}, ReportChange{"push", Phase::entry, 2});
  EXPECT_EQ(lacking(lack), "report push is not there, needs to be");
  lack.reports = {{.symptom = "push", .phase = Phase::straight}};
  EXPECT_EQ(lacking(lack), "report push@straight reads nothing there, needs entry");
  lack.change = ReportChange{"push", Phase::any, 2};
  EXPECT_EQ(lacking(lack), "report push@straight reads nothing there, needs another phase or none");
}

TEST(LackInWords, OfASettingSaysHowFarFromItsEndItIsWantedOrNot) {
  Lack lack =
      lack_of(SettingTest{"rear-width", {}, 0.010, "wider"}, SettingChange{"rear-width", 0});
  EXPECT_EQ(lacking(lack), "this kart has no rear-width, needs one");
  lack.seen = 1.395;
  lack.asked.wanted = false;
  lack.off_by = 0.005;
  EXPECT_EQ(lacking(lack),
            "rear-width 1395 mm is 5 mm from its wider end, needs more than 10 mm "
            "(off by 5 mm)");
  lack.off_by.reset();
  EXPECT_EQ(lacking(lack), "rear-width 1395 mm is 10 mm from its wider end, needs more than 10 mm");
}

TEST(LackInWords, OfAMeasurementNamesItsSideAndItsLimit) {
  Lack lack =
      lack_of(MeasureTest{"front-share", Beyond::below, 0.41}, MeasureChange{"front-share", 0.40});
  lack.limit = 0.41;
  EXPECT_EQ(lacking(lack), "measurement front-share was not taken, needs below 41 %");
  lack.seen = 0.42;
  lack.off_by = 0.01;
  EXPECT_EQ(lacking(lack), "measurement front-share 42 %, needs below 41 % (off by 1 %)");
  lack.off_by.reset();
  lack.asked.wanted = false;
  EXPECT_EQ(lacking(lack), "measurement front-share 42 %, needs no less than 41 %");
  lack.asked.ask = MeasureTest{"front-share", Beyond::above, 0.41};
  EXPECT_EQ(lacking(lack), "measurement front-share 42 %, needs no more than 41 %");
}

TEST(LackInWords, OfAMeasurementWithoutALimitAsksForOne) {
  Lack lack = lack_of(MeasureTest{"tyre-laps", Beyond::below, {}}, BandChange{"tyre-laps", 0, 10});
  EXPECT_EQ(lacking(lack),
            "measurement tyre-laps has no limit on this kart, needs one that it is below");
  lack.seen = 800.0;
  lack.asked.ask = MeasureTest{"tyre-laps", Beyond::above, {}};
  EXPECT_EQ(lacking(lack),
            "measurement tyre-laps 800 has no limit on this kart, needs one that it is above");
}

TEST(LackInWords, OfAMeasureThatThePackDoesNotHaveIsABareNumber) {
  Lack lack = lack_of(MeasureTest{"lean", Beyond::above, 3.0}, MeasureChange{"lean", 4.0});
  lack.limit = 3.0;
  lack.seen = 2.0;
  EXPECT_EQ(lacking(lack), "measurement lean 2, needs above 3");
}

}  // namespace
}  // namespace kartwright
