// A change made: in the kart file and in the log, or in neither.

#include "engine/records/apply.h"

#include <filesystem>
#include <fstream>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "engine/document/replace_file.h"
#include "engine/records/keeping.h"
#include "tests/support/kart_pack.h"
#include "tests/support/log_files.h"
#include "tests/support/small_rules.h"

namespace kartwright {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::SizeIs;

constexpr const char* kNow = "2026-11-14T10:40:00";

/// A kart file on the disk, and a log beside it.
class ApplyingChanges : public testing::Test {
 protected:
  Kart kart() const { return read_kart_text(bytes_of(file_), kart_pack()).kart; }

  /// Sets the rear width, m; with the log where `logged`.
  Applied set_width(double to, bool logged = true) {
    const Document document = read_document(file_);
    const Kart now = kart();
    const Setting& setting = *now.setting("rear-width");
    const RunChange change{.adjustment = "rear-width",
                           .from = print_setting(setting, setting.now, System::metric),
                           .to = print_setting(setting, to, System::metric),
                           .steps = (to - setting.now) / 0.005};
    return apply_change(document, file_with(document, setting, to), change, {}, now,
                        logged ? &log_ : nullptr, kNow);
  }

  /// Takes the last change back by the log.
  Applied undo() {
    const Document document = read_document(file_);
    const Kart now = kart();
    const WayBack back = way_back(log_, now);
    return apply_change(document, file_with(document, *back.setting, back.to), back.change,
                        back.tried, now, &log_, kNow);
  }

  LoggedRun drive(const std::string& at) {
    LoggedRun run = plain_run("blue 27", at);
    run.settings = setup_of(read_document(file_), kart());
    return keep_run(log_, run, kart());
  }

  TempFolder folder_;
  std::string file_ = folder_.write("blue27.yaml", blue_kart_file());
  Logbook log_{folder_.path() + "/day.db", kKeeping};
};

std::string refusal_of(const std::string& text, const std::string& width = "1360 mm") {
  Findings findings;
  const Kart kart = blue_kart(width);
  const auto allowed = allowed_change(text, kart, kart_pack(), {.file = "--set"}, findings);
  EXPECT_EQ(allowed.has_value(), !findings.has_errors());
  return told(findings.all());
}

TEST(AllowedChange, MayGoAsFarAsTheClassAndTheBars) {
  EXPECT_EQ(refusal_of("rear-width=1390mm"), "");
  EXPECT_THAT(refusal_of("rear-width=1395mm"), HasSubstr("class"));
  EXPECT_THAT(refusal_of("rear-width=1295mm"), HasSubstr("N010"));
  EXPECT_THAT(refusal_of("rear-width=1360mm"), HasSubstr("stands there already"));
  EXPECT_THAT(refusal_of("rear-width=136cm"), HasSubstr("stands there already"));
  EXPECT_THAT(refusal_of("axle=hard"), HasSubstr("not in the box"));
  EXPECT_EQ(refusal_of("axle=soft"), "");
  EXPECT_THAT(refusal_of("axle=softest"), HasSubstr("softest"));
  EXPECT_THAT(refusal_of("axel=soft"), HasSubstr("did you mean `axle`"));
  for (const char* const text : {"", "rear-width", "rear-width=", "=1370mm", "rear-width=1370",
                                 "rear-width=1370 kg", "rear-width=nan mm"}) {
    EXPECT_NE(refusal_of(text), "") << text;
  }
}

TEST(AllowedChange, FartherThanWiseIsSaid) {
  Findings findings;
  const Kart kart = blue_kart();
  EXPECT_FALSE(allowed_change("rear-width=1365mm", kart, kart_pack(), {}, findings)->far);
  EXPECT_TRUE(allowed_change("rear-width=1370mm", kart, kart_pack(), {}, findings)->far);
}

TEST_F(ApplyingChanges, StandsInTheFileAndOpensTheNextRun) {
  drive("2026-11-14T10:30:00");
  const Applied applied = set_width(1.37);
  EXPECT_EQ(bytes_of(file_), blue_kart_file("1370 mm"));
  EXPECT_EQ(bytes_of(applied.kept), blue_kart_file());
  const LoggedRun ready = log_.made_ready("blue 27").value();
  EXPECT_EQ(ready.id, applied.run->id);
  EXPECT_EQ(ready.at, kNow);
  EXPECT_EQ(ready.setting("rear-width"), "1370 mm");
  ASSERT_THAT(ready.changes, SizeIs(1));
  const LoggedRun driven = drive("2026-11-14T10:50:00");
  EXPECT_EQ(driven.id, ready.id);
  EXPECT_THAT(driven.changes, SizeIs(1));
}

TEST_F(ApplyingChanges, TwoChangesGoIntoOneRun) {
  set_width(1.37);
  set_width(1.38);
  EXPECT_EQ(log_.count_runs(""), 1U);
  EXPECT_THAT(log_.made_ready("blue 27")->changes, SizeIs(2));
}

TEST_F(ApplyingChanges, UndoGoesBackStepByStep) {
  drive("2026-11-14T10:30:00");
  set_width(1.37);
  set_width(1.38);
  undo();
  EXPECT_EQ(bytes_of(file_), blue_kart_file("1370 mm"));
  undo();
  EXPECT_EQ(bytes_of(file_), blue_kart_file());
  EXPECT_THAT(told(found_by([&] { undo(); })), HasSubstr("no change of this kart"));
}

TEST_F(ApplyingChanges, UndoOfADrivenRunIsTheCrewsVerdict) {
  drive("2026-11-14T10:30:00");
  set_width(1.37);
  const LoggedRun tried = drive("2026-11-14T10:50:00");
  undo();
  const LoggedRun judged = log_.run(tried.id).value();
  ASSERT_THAT(judged.verdicts, SizeIs(1));
  EXPECT_EQ(judged.verdicts[0].verdict, ClockVerdict::revert);
  EXPECT_EQ(judged.verdicts[0].by, "crew");
  EXPECT_EQ(judged.laps.size(), tried.laps.size());
  const LoggedRun ready = log_.made_ready("blue 27").value();
  ASSERT_THAT(ready.changes, SizeIs(1));
  EXPECT_EQ(ready.changes[0].origin, Origin::undo);
  EXPECT_EQ(ready.changes[0].to, "1360 mm");
}

TEST_F(ApplyingChanges, UndoOfAKartThatStandsElsewhereIsRefused) {
  drive("2026-11-14T10:30:00");
  set_width(1.37);
  folder_.write("blue27.yaml", blue_kart_file("1380 mm"));
  EXPECT_THAT(told(found_by([&] { undo(); })), HasSubstr("no longer has `rear-width` at 1370 mm"));
  folder_.write("blue27.yaml", blue_kart_file("137 cm"));
  undo();
  EXPECT_EQ(kart().setting("rear-width")->now, 1.36);
}

TEST_F(ApplyingChanges, WithoutALogTheWayBackIsTheNewestCopy) {
  const auto back = [&] { return way_back(read_document(file_), kart(), kart_pack()); };
  EXPECT_THAT(told(found_by(back)), HasSubstr("no copy"));
  set_width(1.37, false);
  set_width(1.38, false);
  const Kart now = kart();
  const WayBack found = way_back(read_document(file_), now, kart_pack());
  EXPECT_EQ(found.change.to, "1370 mm");
  EXPECT_EQ(found.change.origin, Origin::undo);
  EXPECT_NEAR(found.to, 1.37, 1e-12);
  folder_.write("blue27.yaml", blue_kart_file("1370 mm"));
  EXPECT_THAT(told(found_by(back)), HasSubstr("already"));
  std::string two = blue_kart_file("1380 mm");
  folder_.write("blue27.yaml", two.replace(two.find("toe: 1 mm"), 9, "toe: 2 mm"));
  EXPECT_THAT(told(found_by(back)), HasSubstr("2 settings differ"));
}

TEST_F(ApplyingChanges, AFileChangedMeanwhileIsLeftAloneAndTheLogToo) {
  const Document document = read_document(file_);
  const Kart now = kart();
  const Setting& setting = *now.setting("rear-width");
  const std::string text = file_with(document, setting, 1.37);
  const std::string meanwhile = blue_kart_file("1350 mm");
  folder_.write("blue27.yaml", meanwhile);
  EXPECT_THROW(apply_change(document, text, {.adjustment = "rear-width", .from = "1", .to = "2"},
                            {}, now, &log_, kNow),
               FileError);
  EXPECT_EQ(bytes_of(file_), meanwhile);
  EXPECT_EQ(log_.count_runs(""), 0U);
}

TEST_F(ApplyingChanges, ALogThatCannotTakeItLeavesTheFileAsItWas) {
  drive("2026-11-14T10:30:00");
  Logbook other(log_.path(), kWriting, 10);
  Logbook impatient(log_.path(), kWriting, 10);
  const Logbook::Writing held(other);
  const Document document = read_document(file_);
  const Kart now = kart();
  const std::string text = file_with(document, *now.setting("rear-width"), 1.37);
  const auto found = found_by([&] {
    apply_change(document, text, {.adjustment = "rear-width", .from = "1", .to = "2"}, {}, now,
                 &impatient, kNow);
  });
  ASSERT_THAT(found, SizeIs(1));
  EXPECT_EQ(found[0].code, Code::log_busy);
  EXPECT_EQ(bytes_of(file_), blue_kart_file());
}

TEST_F(ApplyingChanges, AFullDiskChangesNeither) {
  drive("2026-11-14T10:30:00");
  for (const std::size_t room : {std::size_t{0}, std::size_t{64}, std::size_t{4096}}) {
    const FullDisk full(room);
    EXPECT_ANY_THROW(set_width(1.37)) << room;
    EXPECT_EQ(bytes_of(file_), blue_kart_file());
  }
  EXPECT_EQ(log_.count_runs(""), 1U);
  EXPECT_FALSE(log_.made_ready("blue 27"));
  set_width(1.37);
  EXPECT_EQ(bytes_of(file_), blue_kart_file("1370 mm"));
}

TEST_F(ApplyingChanges, ASettingThatIsNoPlainValueIsNotWritten) {
  const std::string text = "kart: blue 27\nsettings:\n  rear-width: >\n    1360 mm\n";
  const Kart now = read_kart_text(text, kart_pack()).kart;
  ASSERT_NE(now.setting("rear-width"), nullptr);
  EXPECT_THAT(told(found_by([&] {
                file_with(parse_document("kart.yaml", text), *now.setting("rear-width"), 1.37);
              })),
              HasSubstr("cannot be changed in this file"));
}

}  // namespace
}  // namespace kartwright
