// What is told later of a run that the log holds.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "engine/records/keeping.h"
#include "tests/support/kart_pack.h"
#include "tests/support/log_files.h"
#include "tests/support/small_rules.h"

namespace kartwright {
namespace {

using testing::HasSubstr;
using testing::IsEmpty;
using testing::SizeIs;

class AddingToRuns : public testing::Test {
 protected:
  std::int64_t a_bare_run() { return log_.put({.kart = "blue 27", .at = "2026-11-14T10:00:00"}); }
  LoggedRun kept(std::int64_t id) const { return log_.run(id).value(); }

  TempFolder folder_;
  Logbook log_{folder_.path() + "/day.db", kKeeping};
};

TEST_F(AddingToRuns, WhatWasNotKnownIsFilledIn) {
  const LoggedRun more = whole_run();
  const LoggedRun run = add_to_run(log_, a_bare_run(), more);
  EXPECT_EQ(run.session, more.session);
  EXPECT_EQ(run.track, more.track);
  EXPECT_EQ(run.air, more.air);
  EXPECT_EQ(run.road, more.road);
  EXPECT_EQ(run.tyres, more.tyres);
  EXPECT_EQ(run.tyre_laps, more.tyre_laps);
  EXPECT_EQ(run.driver, more.driver);
  EXPECT_EQ(run.load, more.load);
  EXPECT_TRUE(run.driven);
  EXPECT_TRUE(run.complete);
  EXPECT_EQ(run.said, more.said);
  EXPECT_EQ(run.laps, more.laps);
  EXPECT_EQ(run.at, "2026-11-14T10:00:00");  // a run stays where it stands
}

TEST_F(AddingToRuns, WhatIsGivenIsInTheLog) {
  const LoggedRun run = add_to_run(log_, a_bare_run(), whole_run());
  EXPECT_EQ(in_words(kept(run.id)), in_words(run));
}

TEST_F(AddingToRuns, WhatIsNotGivenStaysAsItWas) {
  LoggedRun before = whole_run();
  before.id = log_.put(before);
  const LoggedRun run = add_to_run(log_, before.id, {.kart = "blue 27", .at = "2026-11-14"});
  EXPECT_EQ(in_words(run), in_words(kept(before.id)));
  EXPECT_EQ(run.session, before.session);
  EXPECT_EQ(run.tyre_laps, before.tyre_laps);
  EXPECT_EQ(run.said, before.said);
  EXPECT_EQ(run.laps, before.laps);
  EXPECT_TRUE(run.complete);
}

TEST_F(AddingToRuns, WordsFactsAndNotesArePutBehindTheOthers) {
  const std::int64_t id = a_bare_run();
  add_to_run(log_, id, {.kart = {}, .at = {}, .said = "it pushes", .notes = {{"mind the kerb"}}});
  const LoggedRun run = add_to_run(log_, id,
                                   {.kart = {},
                                    .at = {},
                                    .said = "and hops",
                                    .facts = {{"hit", "yes"}},
                                    .notes = {{"dry by noon"}}});
  EXPECT_EQ(run.said, "it pushes; and hops");
  ASSERT_THAT(run.notes, SizeIs(2));
  EXPECT_EQ(run.notes[0].text, "mind the kerb");
  EXPECT_EQ(run.notes[1].text, "dry by noon");
  EXPECT_THAT(run.facts, SizeIs(1));
}

TEST_F(AddingToRuns, ARunThatWasMadeReadyIsDriven) {
  const std::int64_t id =
      log_.put({.kart = "blue 27", .at = "2026-11-14T10:00:00", .driven = false});
  EXPECT_TRUE(add_to_run(log_, id, {}).driven);
  EXPECT_TRUE(kept(id).driven);
}

TEST_F(AddingToRuns, LapsOnTopOfLapsAreRefusedAndNothingIsChanged) {
  const std::int64_t id = log_.put(plain_run("blue 27", "2026-11-14T10:00:00"));
  const std::string before = in_words(kept(id));
  LoggedRun more = plain_run("blue 27", "2026-11-14T10:00:00");
  more.session = "heat 3";
  const auto found = found_by([&] { add_to_run(log_, id, more); });
  ASSERT_THAT(found, SizeIs(1));
  EXPECT_EQ(found[0].code, Code::bad_record);
  EXPECT_EQ(found[0].file, log_.path());
  EXPECT_THAT(found[0].message, HasSubstr("has its laps already"));
  EXPECT_EQ(in_words(kept(id)), before);
}

TEST(SetupWrittenAlike, OnlyWhereItStandsWhereItStood) {
  std::vector<RunSetting> now{
      {"axle", "medium"}, {"rear-width", "136 cm"}, {"seat-hops", "two"}, {"toe", "2 mm"}};
  write_alike(
      {{"axle", "medium"}, {"rear-width", "1360 mm"}, {"seat-hops", "2"}, {"toe", "0.1 cm"}}, now,
      blue_kart());
  EXPECT_EQ(now[1].value, "1360 mm");  // the same place, in other words
  EXPECT_EQ(now[2].value, "two");      // which this kart has not
  EXPECT_EQ(now[3].value, "2 mm");     // moved
}

TEST(SetupWrittenAlike, AgainstWordsThatNobodyCanReadAsItIs) {
  std::vector<RunSetting> now{{"rear-width", "136 cm"}};
  write_alike({{"rear-width", "wide"}}, now, blue_kart());
  EXPECT_EQ(now[0].value, "136 cm");
  now = {{"rear-width", "wide"}};
  write_alike({{"rear-width", "1360 mm"}}, now, blue_kart());
  EXPECT_EQ(now[0].value, "wide");
}

}  // namespace
}  // namespace kartwright
