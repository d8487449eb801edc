// The way back of a change, and what the run made ready knows of the kart.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "engine/records/apply.h"
#include "engine/records/keeping.h"
#include "tests/support/kart_pack.h"
#include "tests/support/log_files.h"
#include "tests/support/small_rules.h"

namespace kartwright {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::SizeIs;

class TakingBack : public testing::Test {
 protected:
  /// A run of the log with changes of the rear width, the last to where the kart stands.
  LoggedRun put(const std::string& at, std::vector<RunChange> changes, bool driven = true) {
    LoggedRun run = plain_run("blue 27", at);
    run.driven = driven;
    run.changes = std::move(changes);
    run.id = log_.put(run);
    return run;
  }
  static RunChange width(const std::string& from, const std::string& to, double steps,
                         Origin origin = Origin::own_idea) {
    return {.adjustment = "rear-width", .from = from, .to = to, .steps = steps, .origin = origin};
  }
  WayBack back(const std::string& stands = "1360 mm") {
    kart_ = blue_kart(stands);
    return way_back(log_, kart_);
  }
  std::string refused(const std::string& stands = "1360 mm") {
    return told(found_by([&] { back(stands); }));
  }

  TempFolder folder_;
  Logbook log_{folder_.path() + "/day.db", kKeeping};
  Kart kart_;
};

TEST_F(TakingBack, TurnsTheLastChangeRound) {
  const LoggedRun run = put("2026-11-14T10:00:00", {width("1350 mm", "1360 mm", 2.0)});
  const WayBack found = back();
  EXPECT_EQ(found.change.from, "1360 mm");
  EXPECT_EQ(found.change.to, "1350 mm");
  EXPECT_EQ(found.change.steps, -2.0);
  EXPECT_EQ(found.change.origin, Origin::undo);
  EXPECT_EQ(found.change.why, "takes back the change of " + name_of(run));
  EXPECT_EQ(found.setting, kart_.setting("rear-width"));
  EXPECT_NEAR(found.to, 1.350, 1e-12);
  ASSERT_TRUE(found.tried);
  EXPECT_EQ(found.tried->id, run.id);
}

TEST_F(TakingBack, OfARunThatWasNotDrivenJudgesNothing) {
  put("2026-11-14T10:00:00", {width("1350 mm", "1360 mm", 2.0)}, false);
  EXPECT_FALSE(back().tried);
}

TEST_F(TakingBack, GoesOverWhatWasTakenBackAlready) {
  put("2026-11-14T10:00:00", {width("1350 mm", "1360 mm", 2.0)});
  put("2026-11-14T11:00:00", {width("1360 mm", "1370 mm", 2.0), width("1370 mm", "1380 mm", 2.0)});
  put("2026-11-14T12:00:00", {width("1380 mm", "1370 mm", -2.0, Origin::undo),
                              width("1370 mm", "1360 mm", -2.0, Origin::undo)});
  EXPECT_EQ(back().change.to, "1350 mm");
  put("2026-11-14T13:00:00", {width("1360 mm", "1355 mm", -1.0, Origin::undo)});
  EXPECT_THAT(refused(), HasSubstr("no change of this kart"));
}

TEST_F(TakingBack, IsRefusedWhereThePlacesCannotBeRead) {
  put("2026-11-14T10:00:00", {width("wide", "1360 mm", 2.0)});
  EXPECT_THAT(refused(), HasSubstr("no longer has `rear-width` at 1360 mm"));
  put("2026-11-14T11:00:00", {width("1350 mm", "wider", 2.0)});
  EXPECT_THAT(refused(), HasSubstr("no longer has `rear-width` at wider"));
  put("2026-11-14T12:00:00",
      {{.adjustment = "seat-hops", .from = "one", .to = "two", .steps = 1.0}});
  EXPECT_THAT(refused(), HasSubstr("no longer has `seat-hops`"));
}

TEST_F(TakingBack, IsRefusedWhereTheKartStandsAStepOff) {
  put("2026-11-14T10:00:00", {width("1350 mm", "1360 mm", 2.0)});
  EXPECT_THAT(refused("1365 mm"), HasSubstr("no longer has `rear-width` at 1360 mm"));
  EXPECT_EQ(back("136 cm").change.to, "1350 mm");
}

TEST_F(TakingBack, AndAChangeMadeReadyKnowTheSetupOfTheRunBefore) {
  LoggedRun before = plain_run("blue 27", "2026-11-14T10:00:00");
  before.settings = {{"axle", "soft"}, {"rear-width", "1360 mm"}, {"toe", "1 mm"}};
  log_.put(before);
  const std::string path = folder_.write("blue27.yaml", blue_kart_file("136 cm"));
  const Document file = read_document(path);
  const Kart kart = read_kart_text(bytes_of(path), kart_pack()).kart;
  const Setting& toe = *kart.setting("toe");
  const RunChange change{.adjustment = "toe", .from = "1 mm", .to = "2 mm", .steps = 1.0};
  const Applied applied = apply_change(file, file_with(file, toe, 0.002), change, {}, kart, &log_,
                                       "2026-11-14T10:40:00");
  const LoggedRun ready = log_.run(applied.run->id).value();
  EXPECT_THAT(ready.settings,
              ElementsAre(RunSetting{"axle", "medium"}, RunSetting{"rear-width", "1360 mm"},
                          RunSetting{"toe", "2 mm"}))
      << "the width stands where it stood, and is written so";
  ASSERT_THAT(ready.changes, SizeIs(2));
  EXPECT_EQ(ready.changes[0].adjustment, "axle") << "which nobody told of";
  EXPECT_EQ(ready.changes[0].origin, Origin::found);
  EXPECT_EQ(ready.changes[1].adjustment, "toe");
  EXPECT_FALSE(ready.driven);
}

/// What is refused of a change, with the help.
std::string refused_change(const std::string& text) {
  Findings findings;
  const Kart kart = blue_kart();
  const auto allowed = allowed_change(text, kart, kart_pack(), {.file = "--set"}, findings);
  EXPECT_FALSE(allowed);
  EXPECT_THAT(findings.all(), SizeIs(1));
  return findings.all().empty() ? "" : findings.all()[0].message + "; " + findings.all()[0].help;
}

TEST(RefusedChanges, ComeWithHowFarTheClassLetsTheSettingGo) {
  EXPECT_THAT(refused_change("rear-width=1395mm"),
              HasSubstr("on this kart, as its class allows, it goes from 1300 mm to 1390 mm"));
  EXPECT_THAT(refused_change("axle=hard"), HasSubstr("`hard` is not in the box"));
}

TEST(FarChanges, AreThoseBeyondWhatIsWiseAtOnceEitherWay) {
  const auto far = [](const std::string& text) {
    Findings findings;
    const Kart kart = blue_kart();
    return allowed_change(text, kart, kart_pack(), {}, findings).value().far;
  };
  EXPECT_FALSE(far("rear-width=1355mm"));
  EXPECT_TRUE(far("rear-width=1350mm"));
  EXPECT_FALSE(far("rear-width=1365mm"));
}

}  // namespace
}  // namespace kartwright
