// Runs and karts as a crew names them.

#include "engine/records/lookup.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/support/kart_pack.h"
#include "tests/support/log_files.h"
#include "tests/support/small_rules.h"

namespace kartwright {
namespace {

using testing::HasSubstr;
using testing::Not;

TEST(Lookup, ARunByItsNumber) {
  const TempFolder folder;
  const Logbook log(log_of_runs(folder.path() + "/day.db", 2), kReading);
  EXPECT_EQ(run_numbered(log, "2").id, 2);
  EXPECT_EQ(run_numbered(log, " 1").id, 1);
  EXPECT_EQ(in_words(run_numbered(log, "1")), in_words(whole_run()));
}

TEST(Lookup, ANumberThatIsNoRun) {
  const TempFolder folder;
  const Logbook log(log_of_runs(folder.path() + "/day.db", 2), kReading);
  for (const char* const number : {"3", "0", "-1", "", " ", "1.0", "one", "1 2", "+1", "0x1",
                                   "99999999999999999999999999", "9223372036854775807"}) {
    const auto found = found_by([&] { run_numbered(log, number); });
    ASSERT_EQ(found.size(), 1U) << number;
    EXPECT_EQ(found[0].code, Code::no_such_run);
  }
}

TEST(Lookup, TheOnlyKartNeedsNoName) {
  const TempFolder folder;
  Logbook log(folder.path() + "/day.db", kKeeping);
  const auto found = [&](const std::string& name) {
    return told(found_by([&] { kart_in_log(name, log); }));
  };
  EXPECT_THAT(found(""), HasSubstr("the log is empty"));
  log.put(plain_run("a", "2026-11-14T10:00:00"));
  EXPECT_EQ(kart_in_log("", log), "a");
  EXPECT_EQ(kart_in_log("a", log), "a");
  EXPECT_THAT(found("b"), HasSubstr("no kart `b`"));
  log.put(plain_run("b", "2026-11-14T10:00:00"));
  EXPECT_THAT(found(""), HasSubstr("several karts"));
  EXPECT_THAT(found(""), HasSubstr("a, b"));
  EXPECT_THAT(found(""), HasSubstr("say which with --kart"));
  EXPECT_THAT(found("c"), Not(HasSubstr("--kart")));
  EXPECT_EQ(kart_in_log("b", log), "b");
}

}  // namespace
}  // namespace kartwright
