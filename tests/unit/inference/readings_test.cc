// What the debrief, the track and the kart say about the axes, row by row, as the trade has it.

#include "engine/inference/readings.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/support/pit.h"
#include "tests/support/small_case.h"

namespace kartwright {
namespace {

using testing::IsEmpty;
using testing::SizeIs;

using Row = std::map<std::string, double>;

/// A row by the names of its axes, without those it does not touch.
Row named(const Reading& reading) {
  Row row;
  for (std::size_t i = 0; i < rules().axes.size(); ++i) {
    const double factor = reading.row[static_cast<Eigen::Index>(i)];
    if (factor != 0.0) row[rules().axes[i].id] = factor;
  }
  return row;
}

void expect_row(const Reading& reading, const Row& expected) {
  const Row row = named(reading);
  ASSERT_THAT(row, SizeIs(expected.size())) << reading.rule;
  for (const auto& [axis, factor] : expected) {
    ASSERT_TRUE(row.contains(axis)) << axis;
    EXPECT_NEAR(row.at(axis), factor, 1e-15) << axis;
  }
}

std::vector<Reading> readings(const SmallCase& entered) { return take_readings(entered.settled()); }

/// The one reading of one report on a track nobody named.
Reading only_reading(const std::string& report, const std::vector<std::string>& facts = {}) {
  const SmallCase entered(rules(), {report}, facts);
  const std::vector<Reading> taken = readings(entered);
  EXPECT_THAT(taken, SizeIs(1)) << report;
  return taken.empty() ? Reading{.rule = "none", .source = {}} : taken.front();
}

const Row kPushEntry{{"front-grip.entry", 1}, {"rear-grip.entry", -1}};
const Row kMeanPush{{"front-grip.entry", 1 / 3.0}, {"front-grip.mid", 1 / 3.0},
                    {"front-grip.exit", 1 / 3.0},  {"rear-grip.entry", -1 / 3.0},
                    {"rear-grip.mid", -1 / 3.0},   {"rear-grip.exit", -1 / 3.0}};

// --- the table of symptoms ----------------------------------------------------------------------

struct SpokenOf {
  std::string report;
  Row row;
  double value;
  double sd = 0.7;
};

class SymptomTable : public testing::TestWithParam<SpokenOf> {};

TEST_P(SymptomTable, ReadsAsTheTradeHasIt) {
  const Reading reading = only_reading(GetParam().report);
  expect_row(reading, GetParam().row);
  EXPECT_NEAR(reading.value, GetParam().value, 1e-12);
  EXPECT_NEAR(reading.sd, GetParam().sd, 1e-12);
  EXPECT_TRUE(reading.complaint);
  EXPECT_EQ(reading.report, 0);
}

const Row kUnloading{{"unloading", 1}};

INSTANTIATE_TEST_SUITE_P(
    AtAPhase, SymptomTable,
    testing::Values(SpokenOf{"push@entry=2", kPushEntry, -2},
                    SpokenOf{"push@mid=1", {{"front-grip.mid", 1}, {"rear-grip.mid", -1}}, -1},
                    SpokenOf{"push@exit=3", {{"front-grip.exit", 1}, {"rear-grip.exit", -1}}, -3},
                    SpokenOf{"loose@exit=2", {{"front-grip.exit", 1}, {"rear-grip.exit", -1}}, 2},
                    SpokenOf{"snap@mid=2", {{"front-grip.mid", 1}, {"rear-grip.mid", -1}}, 2.4},
                    SpokenOf{
                        "slide@entry=2", {{"front-grip.entry", 0.5}, {"rear-grip.entry", 0.5}}, -2},
                    SpokenOf{"hop@mid=2", {{"rear-grip.mid", 1}, {"unloading", 0.4}}, 2.8},
                    SpokenOf{"hop@entry=1", {{"rear-grip.entry", 1}, {"unloading", 0.4}}, 1.4},
                    SpokenOf{"bog@exit=2", {{"rear-grip.exit", 0.7}, {"unloading", -0.5}}, 2},
                    SpokenOf{"bind@mid=2", {{"rear-grip.mid", 0.3}, {"unloading", -1}}, 2},
                    SpokenOf{"twitchy@entry=2", {{"response", 1}, {"front-grip.entry", 0.4}}, 2},
                    SpokenOf{"lazy@entry=2", {{"response", 1}, {"front-grip.entry", 0.3}}, -2},
                    SpokenOf{"two-wheels@mid=2", {{"rear-grip.mid", 0.7}, {"unloading", 0.5}}, 2},
                    SpokenOf{"inside-rear-never-lifts@mid=2", kUnloading, -1.5},
                    SpokenOf{"inside-rear-drops-early@mid=2", kUnloading, -0.8},
                    SpokenOf{"inside-rear-stays-up@mid=2", kUnloading, 1.2}));

INSTANTIATE_TEST_SUITE_P(
    WithNoPhaseSaid, SymptomTable,
    testing::Values(SpokenOf{"push=2", kMeanPush, -2, 1.05},
                    SpokenOf{"loose=2", kMeanPush, 2, 1.05},
                    SpokenOf{"hop=2", {{"rear-grip.mid", 1}, {"unloading", 0.4}}, 2.8, 1.05},
                    SpokenOf{"snap=2", {{"front-grip.mid", 1}, {"rear-grip.mid", -1}}, 2.4, 1.05},
                    SpokenOf{
                        "slide=2", {{"front-grip.mid", 0.5}, {"rear-grip.mid", 0.5}}, -2, 1.05},
                    SpokenOf{"bog=2", {{"rear-grip.exit", 0.7}, {"unloading", -0.5}}, 2},
                    SpokenOf{"twitchy=2", {{"response", 1}, {"front-grip.entry", 0.4}}, 2}));

TEST(EverySymptom, HasOneReadingIfItReadsOnAxes) {
  for (const Symptom& symptom : rules().symptoms) {
    const SmallCase entered(rules(), {symptom.id + "=2"});
    EXPECT_THAT(readings(entered), SizeIs(symptom.reading ? 1 : 0)) << symptom.id;
  }
}

TEST(FaultSymptoms, ReadOnNoAxis) {
  for (const char* id : {"pulls", "wanders", "vibration", "chain-noise", "drags", "brake-grabs",
                         "heavy-wheel", "clunk", "sudden-change"}) {
    EXPECT_THAT(readings(SmallCase(rules(), {std::string(id) + "=3"})), IsEmpty()) << id;
  }
}

TEST(SymptomRow, IsWhatAReportAtThatPhaseReads) {
  for (const Symptom& symptom : rules().symptoms) {
    for (const Phase phase : {Phase::entry, Phase::mid, Phase::exit, Phase::straight, Phase::any}) {
      SmallCase entered(rules());
      entered.debrief.heard.reports = {{.symptom = symptom.id, .phase = phase}};
      const std::vector<Reading> taken = readings(entered);
      const auto row = symptom_row(symptom, phase, rules());
      ASSERT_EQ(row.has_value(), !taken.empty()) << symptom.id << " " << name_of(phase);
      if (row) {
        EXPECT_EQ(*row, taken.front().row) << symptom.id;
      }
    }
  }
}

TEST(SymptomRow, DependsOnThePhaseWhereItNamesAnEnd) {
  for (const char* id : {"push", "loose", "snap", "slide", "hop"}) {
    EXPECT_TRUE(reads_by_phase(*rules().symptom(id), rules())) << id;
  }
  for (const char* id : {"bog", "bind", "twitchy", "inside-rear-never-lifts", "vibration"}) {
    EXPECT_FALSE(reads_by_phase(*rules().symptom(id), rules())) << id;
  }
}

// --- how it was said ----------------------------------------------------------------------------

TEST(Sureness, SetsTheSpread) {
  EXPECT_EQ(only_reading("push@entry=2,sure").sd, 0.4);
  EXPECT_EQ(only_reading("push@entry=2,fair").sd, 0.7);
  EXPECT_EQ(only_reading("push@entry=2,unsure").sd, 1.2);
}

TEST(Denial, ReadsNothingWithItsOwnSpread) {
  const Reading reading = only_reading("push@entry=0");
  expect_row(reading, kPushEntry);
  EXPECT_EQ(reading.value, 0.0);
  EXPECT_EQ(reading.sd, 0.5);
  EXPECT_FALSE(reading.complaint);
}

TEST(Praise, DeniesTheMeanOfThePhasesWithItsOwnSpread) {
  SmallCase entered(rules());
  for (const char* symptom : {"push", "hop"}) {
    entered.debrief.heard.reports.push_back(
        {.symptom = symptom, .phase = Phase::any, .severity = 0, .from_praise = true});
  }
  const std::vector<Reading> taken = readings(entered);
  ASSERT_THAT(taken, SizeIs(2));
  expect_row(taken[0], {{"rear-grip.entry", 1 / 3.0},
                        {"rear-grip.mid", 1 / 3.0},
                        {"rear-grip.exit", 1 / 3.0},
                        {"unloading", 0.4}});
  expect_row(taken[1], kMeanPush);
  for (const Reading& reading : taken) {
    EXPECT_EQ(reading.value, 0.0);
    EXPECT_EQ(reading.sd, 0.7);
    EXPECT_FALSE(reading.complaint);
  }
}

TEST(Straight, HasNoGripAxisToReadOn) {
  SmallCase entered(rules());
  for (const char* symptom : {"push", "loose", "hop"}) {
    entered.debrief.heard.reports.push_back({.symptom = symptom, .phase = Phase::straight});
  }
  EXPECT_THAT(readings(entered), IsEmpty());
}

TEST(FasterLaps, SpreadComplaintsThreeTimesAndNothingElse) {
  EXPECT_NEAR(only_reading("push@entry=2", {"laps=faster"}).sd, 2.1, 1e-12);
  EXPECT_NEAR(only_reading("push=2", {"laps=faster"}).sd, 3.15, 1e-12) << "vague as well";
  EXPECT_EQ(only_reading("push@entry=0", {"laps=faster"}).sd, 0.5) << "a denial is no complaint";
  EXPECT_EQ(only_reading("push@entry=2", {"laps=slower"}).sd, 0.7);
  const std::vector<Reading> track =
      readings(SmallCase(rules(), {}, {"laps=faster"}, "rubbered-in"));
  ASSERT_FALSE(track.empty());
  for (const Reading& reading : track) EXPECT_LT(reading.sd, 1.0) << reading.rule;
}

// --- the track and the kart ---------------------------------------------------------------------

const Row kMeanFront{
    {"front-grip.entry", 1 / 3.0}, {"front-grip.mid", 1 / 3.0}, {"front-grip.exit", 1 / 3.0}};
const Row kMeanRear{
    {"rear-grip.entry", 1 / 3.0}, {"rear-grip.mid", 1 / 3.0}, {"rear-grip.exit", 1 / 3.0}};

struct Surface {
  std::string track;
  std::vector<SpokenOf> reads;  ///< `report` is the axis they are told apart by
};

class TrackTable : public testing::TestWithParam<Surface> {};

TEST_P(TrackTable, ReadsAsTheTradeHasIt) {
  SmallCase entered(rules(), {}, {}, GetParam().track);
  // In the middle of its range, so that the width says nothing.
  entered.kart.settings.at("rear-width").now = 1.350;
  const std::vector<Reading> taken = readings(entered);
  ASSERT_THAT(taken, SizeIs(GetParam().reads.size()));
  for (const SpokenOf& expected : GetParam().reads) {
    const auto found = std::find_if(taken.begin(), taken.end(), [&](const Reading& reading) {
      return named(reading).contains(expected.report);
    });
    ASSERT_NE(found, taken.end()) << expected.report;
    expect_row(*found, expected.row);
    EXPECT_EQ(found->value, expected.value) << expected.report;
    EXPECT_EQ(found->sd, expected.sd) << expected.report;
    EXPECT_EQ(found->report, -1);
    EXPECT_FALSE(found->complaint);
  }
}

Surface surface(std::string track, std::array<double, 2> rear, std::array<double, 2> front,
                std::optional<std::array<double, 2>> unloading) {
  Surface out{std::move(track),
              {{"rear-grip.mid", kMeanRear, rear[0], rear[1]},
               {"front-grip.mid", kMeanFront, front[0], front[1]}}};
  if (unloading) out.reads.push_back({"unloading", kUnloading, (*unloading)[0], (*unloading)[1]});
  return out;
}

INSTANTIATE_TEST_SUITE_P(Tracks, TrackTable,
                         testing::Values(surface("cold", {-0.7, 0.8}, {-0.5, 0.8}, {{-0.3, 0.8}}),
                                         surface("green", {-0.5, 0.8}, {-0.3, 0.8}, {{-0.2, 0.8}}),
                                         surface("rubbered-in", {0.7, 0.7}, {0.3, 0.8},
                                                 std::nullopt),
                                         surface("greasy", {-0.3, 0.9}, {-0.3, 0.9}, std::nullopt),
                                         surface("wet", {-1.0, 0.7}, {-1.0, 0.7}, {{-0.8, 0.6}})));

TEST(UnknownTrack, SaysNothing) { EXPECT_THAT(readings(SmallCase(rules())), IsEmpty()); }

/// What the kart's own state adds on a track: everything but the track's readings.
std::vector<Reading> of_the_kart(const SmallCase& entered) {
  std::vector<Reading> taken = readings(entered);
  std::erase_if(taken, [](const Reading& reading) {
    return reading.source->file.find("setup/") == std::string::npos;
  });
  return taken;
}

TEST(RearWidthNearAnEnd, ReadsOnTheTracksWhereItMatters) {
  const auto reads_at = [](const char* track, double width) {
    SmallCase entered(rules(), {}, {}, track);
    entered.kart.settings.at("rear-width").now = width;
    const std::vector<Reading> taken = of_the_kart(entered);
    return taken.empty() ? 0.0 : taken.front().value;
  };
  EXPECT_EQ(reads_at("rubbered-in", 1.310), 4.0);
  EXPECT_EQ(reads_at("rubbered-in", 1.315), 0.0);
  EXPECT_EQ(reads_at("rubbered-in", 1.400), 0.0);
  EXPECT_EQ(reads_at("cold", 1.390), -4.0);
  EXPECT_EQ(reads_at("green", 1.400), -4.0);
  EXPECT_EQ(reads_at("cold", 1.300), 0.0);
}

TEST(RearWidthNearAnEnd, DoesNotPullBackAKartThatIsFarOffAlready) {
  const auto grip_at = [](double width) {
    SmallCase hops(rules(), {"hop@mid=3"}, {}, "rubbered-in");
    hops.kart.settings.at("rear-width").now = width;
    const auto belief = update(make_prior(rules()), take_readings(hops.settled()));
    const auto axis = std::find_if(rules().axes.begin(), rules().axes.end(),
                                   [](const Axis& a) { return a.id == "rear-grip.mid"; });
    return belief.mean[axis - rules().axes.begin()];
  };
  EXPECT_GT(grip_at(1.310), grip_at(1.360)) << "a narrow rear on rubber holds more, not less";
}

TEST(RaisedMass, ReadsOnRubberOnly) {
  SmallCase rubber(rules(), {}, {"roll-structure=yes"}, "rubbered-in");
  ASSERT_THAT(of_the_kart(rubber), SizeIs(1));
  EXPECT_EQ(of_the_kart(rubber).front().value, 4.0);
  expect_row(of_the_kart(rubber).front(), {{"rear-grip.mid", 1}});
  EXPECT_THAT(of_the_kart(SmallCase(rules(), {}, {"roll-structure=yes"}, "cold")), IsEmpty());
}

// --- measured -----------------------------------------------------------------------------------

TEST(FrontShare, CountsEachTwoPointsBeyondTheBandOnBothSides) {
  const auto values = [](double share) {
    SmallCase entered(rules());
    entered.kart.measures["front-share"] = share;
    std::map<std::string, double> out;
    for (const Reading& reading : readings(entered)) out[std::string(reading.rule)] = reading.value;
    return out;
  };
  const std::string front = "front-share-carries-front-grip";
  const std::string rear = "front-share-takes-from-rear-grip";
  EXPECT_NEAR(values(0.45).at(front), 0.6, 1e-12);
  EXPECT_NEAR(values(0.45).at(rear), -0.5, 1e-12);
  EXPECT_NEAR(values(0.44).at(front), 0.3, 1e-12) << "half of two points is half of it";
  EXPECT_NEAR(values(0.38).at(front), -0.9, 1e-12) << "three points under";
  EXPECT_NEAR(values(0.38).at(rear), 0.75, 1e-12);
  EXPECT_THAT(values(0.42), IsEmpty());
  EXPECT_THAT(values(0.43), IsEmpty()) << "the edge of the band is inside it";
}

// --- order --------------------------------------------------------------------------------------

TEST(Readings, ComeInTheSameOrderHoweverTheReportsWereEntered) {
  const std::vector<std::string> said{"push@exit=1", "push@entry=2", "hop@mid=2", "bind@mid=0",
                                      "loose@mid=1"};
  std::vector<std::size_t> order(said.size());
  std::iota(order.begin(), order.end(), 0U);
  std::vector<std::string> first;
  do {
    std::vector<std::string> shuffled;
    for (const std::size_t i : order) shuffled.push_back(said[i]);
    const SmallCase entered(rules(), shuffled, {}, "cold");
    std::vector<std::string> told;
    for (const Reading& reading : readings(entered)) {
      told.push_back(std::string(reading.rule) + " " + reading.text);
      if (reading.report < 0) continue;
      const Report& from = entered.debrief.heard.reports[static_cast<std::size_t>(reading.report)];
      EXPECT_NE(reading.rule.find(from.symptom), std::string::npos) << reading.rule;
    }
    if (first.empty()) first = told;
    ASSERT_EQ(told, first);
  } while (std::next_permutation(order.begin(), order.end()));
  EXPECT_THAT(first, SizeIs(8));
}

}  // namespace
}  // namespace kartwright
