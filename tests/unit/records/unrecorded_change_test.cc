// A change that stands in the kart file and not in the log, and how it is written down.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "engine/document/replace_file.h"
#include "engine/records/apply.h"
#include "engine/records/keeping.h"
#include "tests/support/kart_pack.h"
#include "tests/support/log_files.h"
#include "tests/support/small_rules.h"

namespace kartwright {
namespace {

using testing::SizeIs;

constexpr const char* kWhenWrittenDown = "2026-11-14T10:40:00";
const std::string kAt1360 = blue_kart_file();
const std::string kAt1370 = blue_kart_file("1370 mm");

class UnrecordedChange : public testing::Test {
 protected:
  Document file() const { return read_document(file_); }
  Kart kart() const { return read_kart_text(bytes_of(file_), kart_pack()).kart; }

  /// Another kart file, with the one before it beside it.
  void write(const std::string& before, const std::string& after, const std::string& suffix) {
    folder_.write("blue27.yaml", before);
    replace_file(file_, before, after, suffix);
  }
  std::optional<MadeChange> made(bool undone = false) const {
    return made_since_copy(file(), kart(), kart_pack(), undone);
  }
  bool is_unrecorded_here(const std::string& adjustment = "rear-width") const {
    return is_unrecorded(log_, kart(), {.adjustment = adjustment, .from = {}, .to = {}});
  }
  LoggedRun put(const std::string& at, const std::string& width, bool driven = true) {
    LoggedRun run = plain_run("blue 27", at);
    run.driven = driven;
    run.settings = setup_of(parse_document("kart.yaml", blue_kart_file(width)), kart());
    run.id = log_.put(run);
    return run;
  }

  TempFolder folder_;
  std::string file_ = folder_.write("blue27.yaml", kAt1360);
  Logbook log_{folder_.path() + "/day.db", kKeeping};
};

TEST_F(UnrecordedChange, IsWhatTheKartFileHasSinceItsCopy) {
  EXPECT_FALSE(made());
  write(kAt1360, kAt1370, "before-change");
  const std::optional<MadeChange> found = made();
  ASSERT_TRUE(found);
  EXPECT_EQ(found->change.adjustment, "rear-width");
  EXPECT_EQ(found->change.from, "1360 mm");
  EXPECT_EQ(found->change.to, "1370 mm");
  EXPECT_EQ(found->change.steps, 2.0);
  EXPECT_EQ(found->before.text, kAt1360);
  EXPECT_FALSE(made(true));
}

TEST_F(UnrecordedChange, OfAnUndoHasACopyOfItsOwn) {
  write(kAt1370, kAt1360, "before-undo");
  EXPECT_FALSE(made());
  ASSERT_TRUE(made(true));
  EXPECT_EQ(made(true)->change.steps, -2.0);
}

TEST_F(UnrecordedChange, IsOfOneSettingAlone) {
  write(kAt1360, kAt1360, "before-change");
  EXPECT_FALSE(made());
  std::string both = kAt1370;
  both.replace(both.find("axle: medium"), 12, "axle: soft");
  write(kAt1360, both, "before-change");
  EXPECT_FALSE(made());
}

TEST_F(UnrecordedChange, IsOneWhereTheLastSetupOfTheLogIsAnother) {
  folder_.write("blue27.yaml", kAt1370);
  EXPECT_TRUE(is_unrecorded_here());
  put("2026-11-14T10:00:00", "1360 mm");
  EXPECT_TRUE(is_unrecorded_here());
  EXPECT_FALSE(is_unrecorded_here("axle"));
  EXPECT_TRUE(is_unrecorded_here("front-width"));
  put("2026-11-14T10:10:00", "137 cm");
  EXPECT_FALSE(is_unrecorded_here());
  put("2026-11-14T10:20:00", "wide");
  EXPECT_TRUE(is_unrecorded_here());
}

TEST_F(UnrecordedChange, OfTheRunMadeReadyCountsBeforeThatOfTheLastDriven) {
  folder_.write("blue27.yaml", kAt1370);
  put("2026-11-14T10:10:00", "1360 mm");
  put("2026-11-14T10:20:00", "1370 mm", false);
  EXPECT_FALSE(is_unrecorded_here());
}

TEST_F(UnrecordedChange, IsWrittenDownOnce) {
  put("2026-11-14T10:00:00", "1360 mm");
  write(kAt1360, kAt1370, "before-change");
  const Applied applied = record_change(*made(), {}, kart(), log_, kWhenWrittenDown);
  EXPECT_EQ(applied.kept, "");
  EXPECT_EQ(bytes_of(file_), kAt1370);
  const LoggedRun ready = log_.made_ready("blue 27").value();
  EXPECT_EQ(ready.id, applied.run->id);
  EXPECT_EQ(ready.at, kWhenWrittenDown);
  EXPECT_EQ(ready.setting("rear-width"), "1370 mm");
  ASSERT_THAT(ready.changes, SizeIs(1));
  EXPECT_EQ(ready.changes[0].from, "1360 mm");
  EXPECT_FALSE(is_unrecorded_here());
}

TEST_F(UnrecordedChange, OfAnUndoJudgesTheRunThatWasDriven) {
  write(kAt1370, kAt1360, "before-undo");
  const LoggedRun tried = put("2026-11-14T10:00:00", "1370 mm");
  record_change(*made(true), log_.run(tried.id), kart(), log_, kWhenWrittenDown);
  ASSERT_THAT(log_.run(tried.id)->verdicts, SizeIs(1));
  EXPECT_EQ(log_.run(tried.id)->verdicts[0].by, "crew");
  ASSERT_THAT(log_.made_ready("blue 27")->changes, SizeIs(1));
}

}  // namespace
}  // namespace kartwright
