// The nearest change of one entry that meets all that is asked of it at once.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "engine/inference/mend.h"
#include "tests/support/pit.h"
#include "tests/support/small_case.h"

namespace kartwright {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;
using testing::SizeIs;

class MendedCase : public testing::Test {
 protected:
  void want(Ask ask, bool wanted = true) {
    asked_.push_back({.ask = std::move(ask), .wanted = wanted});
  }
  /// What must change; each requirement is looked at first.
  Lacks mended() {
    const Situation situation = entered_.settled();
    for (Requirement& one : asked_) one.met = is_met(one, situation);
    return mend(asked_, situation);
  }
  /// The one lack there is.
  Lack lack() {
    const Lacks lacks = mended();
    EXPECT_TRUE(lacks && lacks->size() == 1U);
    return lacks && !lacks->empty() ? lacks->front() : Lack{};
  }

  SmallCase entered_{rules()};
  Requirements asked_;
};

// --- facts --------------------------------------------------------------------------------------

class MendedFact : public MendedCase {
 protected:
  std::optional<std::string> said() { return std::get<FactChange>(lack().change).to; }
  void state(const std::string& fact, const std::string& value) {
    entered_.debrief.heard.facts.push_back({.fact = fact, .value = value});
  }
};

TEST_F(MendedFact, IsAskedForByTheFirstValueThatWillDo) {
  want(FactTest{"track", {"cold", "green"}});
  EXPECT_EQ(said(), "cold");
  EXPECT_EQ(lack().distance, 1.0) << "nobody said";
  EXPECT_THAT(lack().values, IsEmpty());
  want(FactTest{"track", {"cold"}}, false);
  EXPECT_EQ(said(), "green");
}

TEST_F(MendedFact, ThatWasStatedOtherwiseIsFartherOff) {
  state("hit", "no");
  want(FactTest{"hit", {"yes"}});
  EXPECT_EQ(said(), "yes");
  EXPECT_EQ(lack().distance, 2.0);
  EXPECT_THAT(lack().values, ElementsAre("no"));
}

TEST_F(MendedFact, ThatMustNotBeSoIsDeniedWhereItCanBe) {
  state("hit", "yes");
  want(FactTest{"hit", {"yes"}}, false);
  EXPECT_EQ(said(), "no");
  asked_.clear();
  state("axle-spun", "wobbles");
  want(FactTest{"axle-spun", {"wobbles"}}, false);
  EXPECT_EQ(said(), std::nullopt) << "it is left unsaid";
}

TEST_F(MendedFact, OfTheReportsCannotBeLeftUnsaid) {
  entered_.debrief = SmallCase(rules(), {"push@entry=2,late"}).debrief;
  want(FactTest{"only-late", {"yes"}}, false);
  EXPECT_EQ(said(), "no");
  want(FactTest{"only-late", {"no"}}, false);
  EXPECT_FALSE(mended()) << "it comes back by itself";
  entered_.debrief = SmallCase(rules(), {}, {"only-late=yes"}).debrief;
  EXPECT_EQ(said(), std::nullopt);
}

TEST_F(MendedFact, ThatIsAskedToBeTwoThingsIsNone) {
  want(FactTest{"hit", {"yes"}});
  want(FactTest{"hit", {"no"}});
  EXPECT_FALSE(mended());
}

TEST_F(MendedCase, OfWhatIsMetAlreadyIsNothing) {
  want(FactTest{"hit", {"yes"}}, false);
  EXPECT_THAT(mended().value(), IsEmpty());
}

// --- settings -----------------------------------------------------------------------------------

class MendedSetting : public MendedCase {
 protected:
  Setting& width() { return entered_.kart.settings.at("rear-width"); }
  double put_at() { return std::get<SettingChange>(lack().change).to; }
};

TEST_F(MendedSetting, GoesWhereTheClassAllowsBeforeItGoesToTheNearest) {
  width().limit.at_most = 1.370;
  width().now = 1.375;  // out of class already
  want(SettingTest{"rear-width", {}, 0.010, "wider"}, false);
  EXPECT_NEAR(put_at(), 1.355, 1e-12) << "1385 mm is nearer and not allowed";
  EXPECT_NEAR(lack().distance, 2.0, 1e-9);
  width().limit = {};
  width().now = 1.395;
  EXPECT_NEAR(put_at(), 1.385, 1e-12);
  EXPECT_NEAR(lack().distance, 1.0, 1e-9);
}

TEST_F(MendedSetting, NotesWhatStandsThereNow) {
  width().now = 1.370;
  want(SettingTest{"rear-width", {}, 0.010, "wider"});
  EXPECT_EQ(lack().seen, 1.370);
  EXPECT_NEAR(lack().off_by.value(), 0.020, 1e-12);
  EXPECT_THAT(lack().values, IsEmpty());
  asked_.clear();
  want(SettingTest{"axle", {"hard"}, {}, {}});
  EXPECT_THAT(lack().values, ElementsAre("medium"));
  EXPECT_EQ(lack().off_by, std::nullopt);
}

TEST_F(MendedSetting, IsMovedOffItsEndWhereItMustHaveRoom) {
  width().limit.at_most = 1.370;
  width().now = 1.370;
  want(FactTest{"room:rear-width:wider", {"some"}});
  EXPECT_NEAR(put_at(), 1.365, 1e-12);
  EXPECT_THAT(lack().values, ElementsAre("none"));
  EXPECT_EQ(lack().off_by, std::nullopt);
  asked_ = {};
  want(FactTest{"room:rear-width:narrower", {"none"}});
  EXPECT_NEAR(put_at(), width().travel.places.front(), 1e-12);
}

TEST_F(MendedSetting, IsFittedWhereItIsAskedFor) {
  entered_.kart.settings.erase("axle");
  want(FittedTest{"axle"});
  const Setting usual = fitted_setting(*rules().adjustment("axle"));
  EXPECT_EQ(put_at(), usual.now);
  EXPECT_EQ(lack().distance, 3.0);
  EXPECT_EQ(lack().seen, std::nullopt);
  EXPECT_EQ(subject_of(asked_[0], rules()), "setting axle");
}

// --- measurements -------------------------------------------------------------------------------

class MendedMeasure : public MendedCase {
 protected:
  static MeasureTest above(const std::string& measure, std::optional<double> limit = {}) {
    return {measure, MeasureTest::Side::above, limit};
  }
  static MeasureTest below(const std::string& measure, std::optional<double> limit = {}) {
    return {measure, MeasureTest::Side::below, limit};
  }
  double read() { return std::get<MeasureChange>(lack().change).to; }
};

TEST_F(MendedMeasure, IsJustBeyondItsLimit) {
  entered_.kart.measures["chain-travel"] = 0.010;
  want(above("chain-travel", 0.025));
  EXPECT_NEAR(read(), 0.0255, 1e-12) << "half a millimetre is what a tape tells";
  EXPECT_NEAR(lack().off_by.value(), 0.015, 1e-12);
  EXPECT_EQ(lack().limit, 0.025);
  EXPECT_EQ(lack().seen, 0.010);
  const MeasureDef& chain = *rules().measure("chain-travel");
  EXPECT_NEAR(lack().distance, 10.0 * 0.0155 / (chain.to - chain.from), 1e-9);
  asked_.clear();
  want(below("chain-travel", 0.008));
  EXPECT_NEAR(read(), 0.0075, 1e-12);
  asked_.clear();
  want(above("chain-travel", 0.008), false);
  EXPECT_NEAR(read(), 0.008, 1e-12) << "the limit itself is not above it";
}

TEST_F(MendedMeasure, ThatWasNotTakenIsOneOff) {
  want(above("front-share", 0.45));
  EXPECT_NEAR(read(), 0.451, 1e-12);
  EXPECT_EQ(lack().distance, 1.0);
  EXPECT_EQ(lack().seen, std::nullopt);
  EXPECT_EQ(lack().off_by, std::nullopt);
}

TEST_F(MendedMeasure, MeetsAllThatIsAskedAndTellsOfTheOneMissedByMost) {
  entered_.kart.measures["front-share"] = 0.40;
  want(above("front-share", 0.41));
  want(above("front-share", 0.44));
  want(below("front-share", 0.46));
  EXPECT_NEAR(read(), 0.441, 1e-12);
  EXPECT_EQ(lack().limit, 0.44);
  entered_.kart.measures["front-share"] = 0.50;
  EXPECT_NEAR(read(), 0.459, 1e-12) << "the nearest of the values that will do";
  EXPECT_EQ(lack().limit, 0.46);
}

TEST_F(MendedMeasure, WithoutABandGetsOneThatItIsJustOutOf) {
  const MeasureDef& laps = *rules().measure("tyre-laps");
  ASSERT_FALSE(laps.band_to);
  entered_.kart.measures["tyre-laps"] = 300.0;
  want(above("tyre-laps"));
  const auto band = std::get<BandChange>(lack().change);
  EXPECT_EQ(band.from, laps.from);
  EXPECT_EQ(band.to, 299.0);
  EXPECT_EQ(lack().seen, 300.0);
  EXPECT_EQ(lack().distance, 2.0);
  asked_[0].ask = below("tyre-laps");
  EXPECT_EQ(std::get<BandChange>(lack().change).from, 301.0);
  EXPECT_EQ(std::get<BandChange>(lack().change).to, laps.to);
}

TEST_F(MendedMeasure, WithoutABandAndNotTakenNeedsBoth) {
  const MeasureDef& laps = *rules().measure("tyre-laps");
  want(above("tyre-laps"));
  const Lacks lacks = mended();
  ASSERT_TRUE(lacks);
  ASSERT_THAT(*lacks, SizeIs(2));
  const double middle = (laps.from + laps.to) / 2.0;
  EXPECT_EQ(std::get<BandChange>(lacks->at(0).change).to, middle - 1.0);
  EXPECT_EQ(std::get<MeasureChange>(lacks->at(1).change).to, middle);
}

}  // namespace
}  // namespace kartwright
