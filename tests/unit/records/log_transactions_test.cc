// The log under its own transactions, and files that only look like one.

#include <filesystem>
#include <memory>

#include <SQLiteCpp/SQLiteCpp.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "engine/records/log_schema.h"
#include "engine/records/logbook.h"
#include "tests/support/log_files.h"
#include "tests/support/small_rules.h"

namespace kartwright {
namespace {

using testing::HasSubstr;
using testing::IsEmpty;
using testing::SizeIs;

class LogTransactions : public testing::Test {
 protected:
  std::int64_t put(const std::string& at) { return log_->put(plain_run("blue 27", at)); }
  /// Writes a run in the place of another, at a moment that is taken: which fails.
  void put_at_a_taken_moment(std::int64_t id, const std::string& taken) {
    LoggedRun run = log_->run(id).value();
    run.at = taken;
    EXPECT_ANY_THROW(log_->put(run));
  }

  TempFolder folder_;
  const std::string path_ = folder_.path() + "/day.db";
  std::unique_ptr<Logbook> log_ = std::make_unique<Logbook>(path_, kKeeping);
};

TEST_F(LogTransactions, ARunThatCannotBeWrittenAnewIsNotLost) {
  put("2026-11-14T10:00:00");
  const std::int64_t second = put("2026-11-14T11:00:00");
  const std::string before = in_words(log_->run(second).value());
  put_at_a_taken_moment(second, "2026-11-14T10:00:00");
  ASSERT_TRUE(log_->run(second));
  EXPECT_EQ(in_words(*log_->run(second)), before);
}

TEST_F(LogTransactions, NorIsItAfterAWritingThatWasCommittedOrGivenUp) {
  put("2026-11-14T10:00:00");
  const std::int64_t second = put("2026-11-14T11:00:00");
  {
    Logbook::Writing done(*log_);
    put("2026-11-14T12:00:00");
    done.commit();
  }
  put_at_a_taken_moment(second, "2026-11-14T10:00:00");
  EXPECT_TRUE(log_->run(second));
  {
    const Logbook::Writing given_up(*log_);
    put("2026-11-14T13:00:00");
  }
  put_at_a_taken_moment(second, "2026-11-14T10:00:00");
  EXPECT_TRUE(log_->run(second));
  EXPECT_EQ(log_->count_runs(""), 3U);
}

TEST_F(LogTransactions, OneThatIsCommittedTakesNothingBackWhenItGoes) {
  auto first = std::make_unique<Logbook::Writing>(*log_);
  first->commit();
  Logbook::Writing second(*log_);
  put("2026-11-14T10:00:00");
  first.reset();
  second.commit();
  EXPECT_EQ(Logbook(path_, kReading).count_runs(""), 1U);
}

TEST_F(LogTransactions, ARunGivesTheIdItIsKeptUnder) {
  const std::int64_t first = put("2026-11-14T10:00:00");
  const std::int64_t second = put("2026-11-14T11:00:00");
  EXPECT_EQ(log_->run(first)->at, "2026-11-14T10:00:00");
  EXPECT_EQ(log_->run(second)->at, "2026-11-14T11:00:00");
  LoggedRun changed = log_->run(first).value();
  changed.driver = "K";
  EXPECT_EQ(log_->put(changed), first);
  EXPECT_EQ(log_->run(first)->driver, "K");
  EXPECT_EQ(log_->run(second)->driver, "");
}

TEST_F(LogTransactions, AnAdviceStaysWithItsChangeAndGoesWithIt) {
  LoggedRun run = whole_run();
  run.id = log_->put(run);
  run.changes[0].advice = "{\"newer\": 1}";
  log_->put(run);
  EXPECT_EQ(log_->run(run.id)->changes.at(0).advice, "{\"newer\": 1}");
  run.changes[0].advice.clear();
  run.changes.push_back({.adjustment = "axle", .from = "medium", .to = "soft", .steps = -1.0});
  log_->put(run);
  EXPECT_EQ(log_->run(run.id)->changes.at(0).advice, "{\"newer\": 1}");
  EXPECT_EQ(log_->run(run.id)->changes.at(2).advice, "");
  run.changes.clear();
  log_->put(run);
  EXPECT_THAT(log_->run(run.id)->changes, IsEmpty());
}

TEST_F(LogTransactions, WithoutTheWordsTheRestIsRead) {
  log_->put(whole_run());
  const LoggedRun run = log_->runs("", {.words = false}).at(0);
  const LoggedRun whole = whole_run();
  ASSERT_THAT(run.reports, SizeIs(2));
  EXPECT_EQ(run.reports[0].symptom, whole.reports[0].symptom);
  EXPECT_EQ(run.reports[0].severity, whole.reports[0].severity);
  EXPECT_EQ(run.reports[0].words, "");
  EXPECT_THAT(run.reports[0].corners, IsEmpty());
  EXPECT_EQ(run.reports[0].side, std::nullopt);
  EXPECT_EQ(run.facts[0].words, "");
  EXPECT_EQ(run.facts[0].value, whole.facts[0].value);
  EXPECT_EQ(run.changes[0].why, whole.changes[0].why);
  EXPECT_EQ(run.changes[0].advice, "");
  const LoggedRun with_advice = log_->runs("", {.advice = true, .words = false}).at(0);
  EXPECT_EQ(with_advice.changes[0].advice, whole.changes[0].advice);
  EXPECT_EQ(with_advice.reports[0].words, "");
}

TEST_F(LogTransactions, EachListIsReadWhereItIsAskedFor) {
  log_->put(whole_run());
  RunParts laps_alone{false, true, false, false, false, false, false};
  const LoggedRun laps = log_->runs("", laps_alone).at(0);
  EXPECT_EQ(laps.laps, whole_run().laps);
  EXPECT_TRUE(laps.settings.empty() && laps.reports.empty() && laps.facts.empty() &&
              laps.notes.empty() && laps.changes.empty() && laps.verdicts.empty());
}

TEST_F(LogTransactions, PartsOfNoRunAreDamageUnlessOneKartIsAskedFor) {
  put("2026-11-14T10:00:00");
  const std::int64_t gone = put("2026-11-14T11:00:00");
  change_by_sql(path_,
                "PRAGMA foreign_keys = OFF; DELETE FROM run WHERE id = " + std::to_string(gone));
  const auto found = found_by([&] { log_->runs(""); });
  ASSERT_THAT(found, SizeIs(1));
  EXPECT_EQ(found[0].code, Code::damaged_log);
  EXPECT_THAT(found[0].message, HasSubstr("a part of no run"));
  EXPECT_THAT(log_->runs("blue 27"), SizeIs(1)) << "the parts might be another kart's";
  EXPECT_THAT(log_->damage(), testing::Contains(HasSubstr("table lap points at a row of run")));
}

TEST_F(LogTransactions, ASeverityBeyondTheScaleIsDamage) {
  log_->put(whole_run());
  for (const char* const severity : {"4", "-1"}) {
    change_by_sql(path_, std::string("UPDATE report SET severity = ") + severity + " WHERE n = 0");
    const auto found = found_by([&] { log_->runs(""); });
    ASSERT_THAT(found, SizeIs(1)) << severity;
    EXPECT_THAT(found[0].message, HasSubstr(std::string("a severity of ") + severity));
  }
  change_by_sql(path_, "UPDATE report SET severity = 3");
  EXPECT_EQ(log_->runs("").at(0).reports.at(1).severity, 3);
  change_by_sql(path_, "UPDATE report SET severity = 0");
  EXPECT_EQ(log_->runs("").at(0).reports.at(0).severity, 0);
}

std::string code_of_file(const std::string& path, Logbook::For what) {
  const auto found = found_by([&] { Logbook(path, what); });
  return found.empty() ? "none" : std::string(code_name(found.front().code));
}

TEST_F(LogTransactions, ALogOfTheLargestPagesIsWhole) {
  put("2026-11-14T10:00:00");
  log_.reset();
  for (const char* const bytes : {"512", "8192", "32768", "65536"}) {
    change_by_sql(path_, std::string("PRAGMA page_size = ") + bytes + "; VACUUM");
    EXPECT_EQ(code_of_file(path_, kReading), "none") << bytes;
    const std::string whole = bytes_of(path_);
    folder_.write("cut.db", whole.substr(0, whole.size() - 1));
    EXPECT_EQ(code_of_file(folder_.path() + "/cut.db", kReading), "N003") << bytes;
  }
}

TEST_F(LogTransactions, AFileWithoutTablesIsALogOnlyWhereItHasNoNumberEither) {
  const auto made = [&](const std::string& name, const std::string& sql) {
    const std::string path = folder_.path() + "/" + name;
    SQLite::Database(path, SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE).exec(sql);
    return path;
  };
  const std::string bare = made("bare.db", "CREATE TABLE a (b); DROP TABLE a");
  EXPECT_EQ(code_of_file(bare, kReading), "N001");
  EXPECT_EQ(code_of_file(bare, kWriting), "N001");
  EXPECT_EQ(code_of_file(bare, kKeeping), "none");
  EXPECT_EQ(code_of_file(bare, kReading), "none") << "it is a log from then on";
  const std::string numbered = made("numbered.db", "PRAGMA user_version = 1");
  EXPECT_EQ(code_of_file(numbered, kKeeping), "N001");
}

TEST_F(LogTransactions, APathThatSqliteHasAWordForIsAFile) {
  const auto before = std::filesystem::current_path();
  std::filesystem::current_path(folder_.path());
  Logbook(":memory:", kKeeping).put(whole_run());
  const std::size_t runs = Logbook(":memory:", kReading).count_runs("");
  std::filesystem::current_path(before);
  EXPECT_EQ(runs, 1U);
  EXPECT_TRUE(std::filesystem::exists(folder_.path() + "/:memory:"));
}

TEST_F(LogTransactions, TheRunMadeReadyIsTheOneNotDriven) {
  put("2026-11-14T10:00:00");
  EXPECT_FALSE(log_->made_ready("blue 27"));
  LoggedRun ready = plain_run("blue 27", "2026-11-14T11:00:00");
  ready.driven = false;
  ready.id = log_->put(ready);
  EXPECT_EQ(log_->made_ready("blue 27")->id, ready.id);
  EXPECT_EQ(log_->last_driven("blue 27")->at, "2026-11-14T10:00:00");
  EXPECT_FALSE(log_->made_ready("red 4"));
  EXPECT_FALSE(log_->run_at("blue 27", "2026-11-14T12:00:00"));
  EXPECT_FALSE(log_->run_at("red 4", "2026-11-14T10:00:00"));
  EXPECT_EQ(log_->run_at("blue 27", "2026-11-14T11:00:00")->id, ready.id);
}

}  // namespace
}  // namespace kartwright
