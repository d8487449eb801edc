// What every crew chief knows, asked of the whole engine with the rules it comes with.
//
// No figure of a rule is pinned here: signs, order and half-notch readings only.

#include <algorithm>
#include <array>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/support/pit.h"

namespace kartwright {
namespace {

using testing::HasSubstr;
using testing::StartsWith;

constexpr std::array kFront{"front-grip.entry", "front-grip.mid", "front-grip.exit"};
constexpr std::array kRear{"rear-grip.entry", "rear-grip.mid", "rear-grip.exit"};

// --- push on entry: which end is it?
// --------------------------------------------------------------

class PushOnASlickTrack : public testing::TestWithParam<const char*> {};

TEST_P(PushOnASlickTrack, IsAFrontEndMatterFirst) {
  const Pit pit{.track = GetParam(), .reports = {"push@entry=2"}};
  const Advice advice = pit.answer();
  EXPECT_LE(belief(advice, "front-grip.entry"), -0.5);
  EXPECT_LT(belief(advice, "rear-grip.entry"), 0.5);
  EXPECT_THAT(advice.text, StartsWith("Too little front grip"));
  ASSERT_EQ(advice.verdict.headline, Headline::change);
  EXPECT_GT(moved_by(advice, advice.changes.front(), "front-grip.entry"), 0.0) << first_of(advice);
}

INSTANTIATE_TEST_SUITE_P(Tracks, PushOnASlickTrack, testing::Values("cold", "green"));

Pit push_and_hop_on_rubber() {
  return {.track = "rubbered-in", .reports = {"push@entry=2", "hop@mid=2"}, .minutes = 60};
}

TEST(PushWithHopOnRubber, IsTooMuchRearGripAndTheRearGoesOut) {
  const Pit pit = push_and_hop_on_rubber();
  const Advice advice = pit.answer();
  EXPECT_GE(belief(advice, "rear-grip.mid"), 0.5);
  EXPECT_GE(belief(advice, "rear-grip.entry"), 0.5);
  EXPECT_EQ(first_of(advice), "rear-width wider");
}

TEST(PushWithHopOnRubber, LeavesTheFrontEndAlone) {
  const Pit pit = push_and_hop_on_rubber();
  const Advice advice = pit.answer();
  EXPECT_GT(belief(advice, "front-grip.entry"), -1.0);
  ASSERT_FALSE(advice.changes.empty());
  for (const char* axis : kFront)
    EXPECT_EQ(moved_by(advice, advice.changes.front(), axis), 0.0) << axis;
  EXPECT_EQ(moved_by(advice, advice.changes.front(), "response"), 0.0);
}

struct Cure {
  const char* adjustment;
  const char* direction;
};

TEST(PushWithHopOnRubber, IsHelpedByEachOfItsCures) {
  const Pit pit = push_and_hop_on_rubber();
  const Advice advice = pit.answer();
  for (const Cure cure : {Cure{"rear-width", "wider"}, Cure{"caster", "less"}, Cure{"toe", "out"},
                          Cure{"front-bar", "in"}, Cure{"axle", "softer"}}) {
    const Change* const change = ranked(advice, cure.adjustment, cure.direction);
    ASSERT_NE(change, nullptr) << cure.adjustment << " " << cure.direction << ": "
                               << refusal_of(advice, cure.adjustment, cure.direction);
    EXPECT_GT(change->candidate.relief, 0.0) << cure.adjustment;
  }
}

// --- rear width
// -----------------------------------------------------------------------------------

/// The weighed effect of a move, notches squared: how far it pushes the kart about.
double strength(const Advice& advice, const Adjustment& adjustment, double steps) {
  const auto at = static_cast<std::size_t>(&adjustment - rules().adjustments.data());
  return steps * steps * advice.weights.dot(advice.effects[at].per_step.cwiseAbs2());
}

class RearWidthOnADryTrack : public testing::TestWithParam<const char*> {};

TEST_P(RearWidthOnADryTrack, IsTheStrongestAdjuster) {
  const Pit pit{.track = GetParam()};
  const Advice advice = pit.answer();
  const Adjustment& width = *rules().adjustment("rear-width");
  for (const Adjustment& other : rules().adjustments) {
    if (other.id == width.id) continue;
    EXPECT_GT(strength(advice, width, 1.0), strength(advice, other, 1.0)) << other.id;
    const auto most = [](const Adjustment& a) { return a.most_at_once / a.reference_step; };
    EXPECT_GT(strength(advice, width, most(width)), strength(advice, other, most(other)))
        << other.id;
  }
}

INSTANTIATE_TEST_SUITE_P(Dry, RearWidthOnADryTrack,
                         testing::Values("cold", "green", "rubbered-in", "greasy", "unknown"));

TEST(RearWidth, NarrowerAddsRearGripAndWiderTakesIt) {
  for (const char* track : {"cold", "green", "rubbered-in", "greasy", "wet", "unknown"}) {
    const Pit pit{.track = track};
    const Advice advice = pit.answer();
    for (const char* axis : kRear)  // a step is wider
      EXPECT_LT(per_step(advice, "rear-width", axis), 0.0) << track << " " << axis;
  }
}

TEST(RearWidth, HalfAnInchMovesTheMiddleByANotch) {
  const Pit pit{.track = "rubbered-in"};
  const Advice advice = pit.answer();
  const double half_inch = std::get<Quantity>(parse_quantity("1/2 in", Kind::length)).si /
                           rules().adjustment("rear-width")->reference_step;
  EXPECT_LE(half_inch * per_step(advice, "rear-width", "rear-grip.mid"), -0.9);
}

TEST(RearWidth, GoesOutWhenTheRubberComes) {
  const Pit pit{.track = "rubbered-in", .reports = {"hop@mid=2"}};
  EXPECT_EQ(first_of(pit.answer()), "rear-width wider");
  const Pit happy{.track = "green", .reports = {"push=0", "loose=0", "hop=0"}};
  const Advice advice = happy.answer();
  ASSERT_TRUE(advice.next.has_value());
  EXPECT_EQ(advice.next->phrase, rules().adjustment("rear-width")->phrases[0]);
}

// --- the track comes in
// ---------------------------------------------------------------------------

TEST(Track, ColdAndUnrubberedWantsGripAtBothEnds) {
  for (const char* track : {"cold", "green"}) {
    const Pit pit{.track = track};
    const Advice advice = pit.answer();
    for (const char* axis : kFront) EXPECT_LT(belief(advice, axis), 0.0) << track << " " << axis;
    for (const char* axis : kRear) EXPECT_LT(belief(advice, axis), 0.0) << track << " " << axis;
  }
}

class SameWords : public testing::TestWithParam<const char*> {};

TEST_P(SameWords, MeanMoreRearGripAsRubberBuilds) {
  const Pit cold{.track = "cold", .reports = {GetParam()}};
  const Pit green{.track = "green", .reports = {GetParam()}};
  const Pit rubbered{.track = "rubbered-in", .reports = {GetParam()}};
  const auto on_cold = cold.answer(), on_green = green.answer(), on_rubber = rubbered.answer();
  for (const char* axis : kRear) {
    EXPECT_LT(belief(on_cold, axis), belief(on_green, axis)) << axis;
    EXPECT_LT(belief(on_green, axis) + 0.1, belief(on_rubber, axis)) << axis;
  }
}

INSTANTIATE_TEST_SUITE_P(Words, SameWords,
                         testing::Values("loose@exit=2", "loose=2", "hop@mid=2", "push@entry=2"));

TEST(Track, ALooseKartOnAColdTrackGetsRearGrip) {
  const Pit pit{.track = "cold", .reports = {"loose@exit=2"}};
  EXPECT_EQ(first_of(pit.answer()), "rear-width narrower");
}

TEST(TooMuchGrip, AHopIsReadAsIt) {
  const Pit pit{.track = "rubbered-in", .reports = {"hop@mid=2"}};
  const Advice advice = pit.answer();
  EXPECT_GE(belief(advice, "rear-grip.mid"), 1.0);
  EXPECT_EQ(refusal_of(advice, "rear-width", "narrower"), "makes-worse");
}

TEST(TooMuchGrip, ARaisedMassOnRubberHasMoreOfIt) {
  const Pit low{.track = "rubbered-in", .reports = {"hop@mid=2"}};
  Pit high = low;
  high.facts = {"roll-structure=yes"};
  const Advice tall = high.answer();
  EXPECT_TRUE(tall.facts.has("raised-mass", "yes"));
  EXPECT_GT(belief(tall, "rear-grip.mid"), belief(low.answer(), "rear-grip.mid") + 0.01);
}

TEST(TooMuchGrip, ARaisedMassSaysNothingWithoutRubber) {
  const Pit low{.track = "cold"};
  Pit high = low;
  high.facts = {"roll-structure=yes"};
  EXPECT_EQ(belief(high.answer(), "rear-grip.mid"), belief(low.answer(), "rear-grip.mid"));
}

// --- what the other adjusters do
// ------------------------------------------------------------------

TEST(Seat, ForwardOrMoreUprightGivesTheFrontWhatItTakesFromTheRear) {
  const Pit pit{.track = "green"};
  const Advice advice = pit.answer();
  EXPECT_EQ(rules().adjustment("seat-fore-aft")->directions[0], "forward");
  EXPECT_EQ(rules().adjustment("seat-back")->directions[0], "more-upright");
  for (const char* seat : {"seat-fore-aft", "seat-back"}) {
    for (const char* axis : kFront) EXPECT_GT(per_step(advice, seat, axis), 0.0) << seat << axis;
    for (const char* axis : kRear) EXPECT_LT(per_step(advice, seat, axis), 0.0) << seat << axis;
  }
}

TEST(Seat, BackIsOfferedForALooseKartAndForwardRefused) {
  const Pit pit{.track = "green", .reports = {"loose=2"}, .minutes = 60};
  const Advice advice = pit.answer();
  EXPECT_EQ(refusal_of(advice, "seat-fore-aft", "back"), "offered");
  EXPECT_EQ(refusal_of(advice, "seat-fore-aft", "forward"), "makes-worse");
}

TEST(RearStiffness, StrutsAndAStifferAxleAddRearGrip) {
  const Pit pit{.track = "green"};
  const Advice advice = pit.answer();
  EXPECT_EQ(rules().adjustment("seat-struts")->directions[0], "added");
  EXPECT_EQ(rules().adjustment("axle")->directions[0], "stiffer");
  EXPECT_EQ(rules().adjustment("axle")->positions,
            (std::vector<std::string>{"soft", "medium", "hard"}));
  for (const char* each : {"seat-struts", "axle"}) {
    for (const char* axis : kRear) EXPECT_GT(per_step(advice, each, axis), 0.0) << each << axis;
  }
}

TEST(FrontBar, InQuickensTheWheel) {
  const Pit pit{.track = "green"};
  EXPECT_EQ(rules().adjustment("front-bar")->directions[0], "in");
  EXPECT_GT(per_step(pit.answer(), "front-bar", "response"), 0.0);
}

TEST(FrontBar, InMakesAKartWorseThatAlreadyTurnsInWell) {
  const Pit pit{.track = "green", .reports = {"twitchy@entry=2"}};
  EXPECT_EQ(refusal_of(pit.answer(), "front-bar", "in"), "makes-worse");
}

TEST(FrontBar, OutCalmsATwitchyKartThatHasItIn) {
  Pit pit{.track = "green", .reports = {"twitchy@entry=2"}};
  Setting& bar = pit.kart.settings.at("front-bar");
  bar.now = static_cast<double>(std::find(bar.travel.names.begin(), bar.travel.names.end(), "in") -
                                bar.travel.names.begin());
  const Advice advice = pit.answer();
  const Change* const out = ranked(advice, "front-bar", "out");
  ASSERT_NE(out, nullptr) << refusal_of(advice, "front-bar", "out");
  EXPECT_GT(out->candidate.relief, 0.0);
}

// --- weight
// ---------------------------------------------------------------------------------------

Advice with_front_share(Pit& pit, double share) {
  pit.kart.measures["front-share"] = share;
  return pit.answer();
}

TEST(FrontWeight, TooMuchIsFrontGripTakenFromTheRearAndSoLoose) {
  Pit right{.track = "green"}, heavy = right;
  const Advice good = with_front_share(right, 0.42), bad = with_front_share(heavy, 0.455);
  for (std::size_t i = 0; i < kFront.size(); ++i) {
    EXPECT_GT(belief(bad, kFront.at(i)), belief(good, kFront.at(i)) + 0.1);
    EXPECT_LT(belief(bad, kRear.at(i)), belief(good, kRear.at(i)) - 0.1);
    EXPECT_GT(belief(bad, kFront.at(i)), belief(bad, kRear.at(i)) + 0.5) << "loose";
  }
}

TEST(FrontWeight, TooLittleIsPushAndSlowToTurnIn) {
  Pit right{.track = "green"}, light = right;
  const Advice good = with_front_share(right, 0.42), bad = with_front_share(light, 0.385);
  for (std::size_t i = 0; i < kFront.size(); ++i) {
    EXPECT_LT(belief(bad, kFront.at(i)), belief(good, kFront.at(i)) - 0.1);
    EXPECT_LT(belief(bad, kFront.at(i)), belief(bad, kRear.at(i)) - 0.25) << "push";
  }
  EXPECT_LT(belief(bad, "response"), belief(good, "response") - 0.02);
}

// --- faults and the clock
// -------------------------------------------------------------------------

TEST(BentAxle, ChainTightLooseTightStopsTheKart) {
  const Pit pit{
      .track = "rubbered-in", .reports = {"hop@mid=2"}, .facts = {"axle-spun=tight-loose"}};
  const Advice advice = pit.answer();
  EXPECT_EQ(advice.verdict.headline, Headline::stop_and_fix);
  ASSERT_FALSE(advice.checks.empty());
  EXPECT_EQ(advice.checks.front().fault->id, "bent-axle");
  EXPECT_THAT(advice.text, StartsWith("STOP"));
}

TEST(BentAxle, AnAxleSpunTrueStopsNobody) {
  const Pit pit{.track = "rubbered-in", .reports = {"hop@mid=2"}, .facts = {"axle-spun=true"}};
  EXPECT_EQ(pit.answer().verdict.headline, Headline::change);
}

class FasterLapsAndLoose : public testing::TestWithParam<const char*> {};

TEST_P(FasterLapsAndLoose, NothingThatOnlyAddsGripToQuietTheDriverLeads) {
  const Pit pit{.track = GetParam(), .reports = {"loose@exit=2"}, .facts = {"laps=faster"}};
  const Advice advice = pit.answer();
  EXPECT_THAT(advice.text, HasSubstr("clock says faster"));
  if (advice.verdict.headline != Headline::change) return;
  const Change& lead = advice.changes.front();
  EXPECT_FALSE(lead.candidate.only_comfort) << first_of(advice);
  Pit silent = pit;
  silent.reports.clear();
  const Advice unasked = silent.answer();
  EXPECT_NE(ranked(unasked, lead.adjustment().id, lead.direction()), nullptr)
      << first_of(advice) << " leads, and helps nothing but the complaint";
}

INSTANTIATE_TEST_SUITE_P(Tracks, FasterLapsAndLoose,
                         testing::Values("cold", "green", "rubbered-in", "greasy", "unknown"));

TEST(FasterLaps, OnRubberTheRearIsNotTakenInToQuietTheDriver) {
  const Pit pit{.track = "rubbered-in", .reports = {"loose@exit=2"}, .facts = {"laps=faster"}};
  const Advice advice = pit.answer();
  if (advice.verdict.headline != Headline::change) return;
  for (const char* axis : kRear)
    EXPECT_LE(moved_by(advice, advice.changes.front(), axis), 0.0) << first_of(advice);
}

}  // namespace
}  // namespace kartwright
