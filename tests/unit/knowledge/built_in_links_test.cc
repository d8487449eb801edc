// The rules that come with the program agree with one another: what one names, another defines.

#include <algorithm>
#include <cmath>
#include <set>

#include <gtest/gtest.h>

#include "engine/chassis/weighing.h"
#include "tests/support/pack_walk.h"
#include "tests/support/pit.h"

namespace kartwright {
namespace {

/// What conditions ask for, by kind.
struct AskedAbout {
  std::set<std::string> facts, symptoms, adjustments, measures;

  void add(const Condition& condition) {
    each_test(condition, [this](const kartwright::Test& test) {
      if (const auto* fact = std::get_if<FactTest>(&test)) facts.insert(fact->fact);
      if (const auto* report = std::get_if<ReportTest>(&test)) symptoms.insert(report->symptom);
      if (const auto* at = std::get_if<SettingTest>(&test)) adjustments.insert(at->adjustment);
      if (const auto* measure = std::get_if<MeasureTest>(&test)) measures.insert(measure->measure);
    });
  }
};

AskedAbout asked() {
  AskedAbout all;
  for (const auto& [rule, when] : all_rules(rules())) {
    if (when != nullptr) all.add(*when);
  }
  for (const FactDef& fact : rules().facts) {
    for (const FactDef::Prior& prior : fact.priors) all.add(prior.when);
  }
  return all;
}

TEST(BuiltInLinks, EveryConditionNamesWhatThereIs) {
  const AskedAbout all = asked();
  for (const std::string& id : all.facts) {
    if (!id.starts_with("room:")) {
      EXPECT_NE(rules().fact(id), nullptr) << id;
    }
  }
  for (const std::string& id : all.symptoms) EXPECT_NE(rules().symptom(id), nullptr) << id;
  for (const std::string& id : all.adjustments) EXPECT_NE(rules().adjustment(id), nullptr) << id;
  for (const std::string& id : all.measures) EXPECT_NE(rules().measure(id), nullptr) << id;
}

TEST(BuiltInLinks, EverySymptomHasANeighbourAndIsToldApartFromBothSides) {
  for (const Symptom& symptom : rules().symptoms) {
    EXPECT_FALSE(symptom.neighbours.empty()) << symptom.id;
    for (const Neighbour& each : symptom.neighbours) {
      const Symptom* const other = rules().symptom(each.symptom);
      ASSERT_NE(other, nullptr) << each.symptom;
      EXPECT_TRUE(std::any_of(other->neighbours.begin(), other->neighbours.end(),
                              [&](const Neighbour& back) { return back.symptom == symptom.id; }))
          << symptom.id << " and " << other->id;
    }
  }
}

TEST(BuiltInLinks, EveryConditionAsksForValuesItsFactCanHave) {
  for (const auto& [rule, when] : all_rules(rules())) {
    if (when == nullptr) continue;
    each_test(*when, [&, id = rule->id](const kartwright::Test& test) {
      const auto* const fact = std::get_if<FactTest>(&test);
      if (fact == nullptr || fact->fact.starts_with("room:")) return;
      const std::vector<std::string>& known = rules().fact(fact->fact)->values;
      EXPECT_FALSE(fact->values.empty()) << id;
      for (const std::string& value : fact->values) {
        EXPECT_EQ(std::count(known.begin(), known.end(), value), 1)
            << id << ": " << fact->fact << "=" << value;
      }
    });
  }
}

TEST(BuiltInLinks, EveryFactThatCanBeStatedIsAskedForSomewhere) {
  const AskedAbout all = asked();
  const std::set<std::string> of_the_engine{"laps", "track-was"};  // it reads these two itself
  for (const FactDef& fact : rules().facts) {
    EXPECT_TRUE(all.facts.contains(fact.id) || of_the_engine.contains(fact.id)) << fact.id;
    EXPECT_NE(fact.label, "") << fact.id;
  }
}

TEST(BuiltInLinks, EveryMeasureIsAskedForOrShowsTheScales) {
  AskedAbout all = asked();
  for (const ReadingRule& rule : rules().readings) all.measures.insert(rule.per_measure);
  const std::set<std::string> of_the_scales{"left-share", "cross-share", "rear-pair-difference"};
  for (const MeasureDef& measure : rules().measures) {
    EXPECT_TRUE(all.measures.contains(measure.id) || of_the_scales.contains(measure.id))
        << measure.id;
    EXPECT_LT(measure.from, measure.to) << measure.id;
    if (measure.band_from) {
      EXPECT_GE(*measure.band_from, measure.from) << measure.id;
    }
    if (measure.band_to) {
      EXPECT_LE(*measure.band_to, measure.to) << measure.id;
    }
  }
}

TEST(BuiltInLinks, EveryAxisIsMovedBySomeAdjustmentForSure) {
  for (std::size_t axis = 0; axis < rules().axes.size(); ++axis) {
    int movers = 0;
    for (const Adjustment& adjustment : rules().adjustments) {
      for (const EffectRule& effect : adjustment.effects) {
        movers += static_cast<int>(std::count_if(
            effect.cells.begin(), effect.cells.end(),
            [&](const Cell& cell) { return cell.axis == axis && std::abs(cell.mean) > cell.sd; }));
      }
    }
    EXPECT_GE(movers, 1) << rules().axes[axis].id;
  }
}

TEST(BuiltInLinks, EveryAdjustmentMovesSomethingAndNamesEachEffectsCellsOnce) {
  for (const Adjustment& adjustment : rules().adjustments) {
    EXPECT_FALSE(adjustment.effects.empty()) << adjustment.id;
    for (const EffectRule& effect : adjustment.effects) {
      EXPECT_FALSE(effect.cells.empty()) << effect.id;
      for (const Cell& cell : effect.cells) EXPECT_GT(cell.sd, 0.0) << effect.id;
    }
  }
}

TEST(BuiltInLinks, EverySymptomIsReadByAnAxisOrSpeaksToAFault) {
  AskedAbout of_faults;
  for (const Fault& fault : rules().faults) {
    for (const EvidenceRule& rule : fault.evidence) of_faults.add(rule.when);
  }
  for (const Symptom& symptom : rules().symptoms) {
    EXPECT_TRUE(symptom.reading || of_faults.symptoms.contains(symptom.id)) << symptom.id;
    if (symptom.reading) {
      EXPECT_FALSE(symptom.reading->row.empty()) << symptom.id;
    }
  }
}

TEST(BuiltInLinks, EverySymptomCanBeAskedFor) {
  for (const Symptom& symptom : rules().symptoms) EXPECT_NE(symptom.question, "") << symptom.id;
  EXPECT_EQ(rules().symptom("push")->against, "loose");
  EXPECT_EQ(rules().symptom("twitchy")->against, "lazy");
}

TEST(BuiltInLinks, EverySymptomHasWordsForIt) {
  for (const Symptom& symptom : rules().symptoms) {
    EXPECT_TRUE(std::any_of(rules().phrases.begin(), rules().phrases.end(),
                            [&](const Phrase& phrase) {
                              return phrase.means == Phrase::Means::symptom &&
                                     phrase.id == symptom.id;
                            }))
        << symptom.id;
  }
}

TEST(BuiltInLinks, EveryCautionExistsAndIsGivenBySomething) {
  std::set<std::string> given;
  for (const Adjustment& each : rules().adjustments) {
    EXPECT_FALSE(each.cautions.empty()) << each.id;
    given.insert(each.cautions.begin(), each.cautions.end());
  }
  for (const Fault& each : rules().faults) given.insert(each.cautions.begin(), each.cautions.end());
  for (const Gauge& each : rules().gauges) {
    EXPECT_FALSE(each.cautions.empty()) << each.id;
    given.insert(each.cautions.begin(), each.cautions.end());
    for (const GaugeVerdict& verdict : each.verdicts)
      given.insert(verdict.cautions.begin(), verdict.cautions.end());
  }
  given.emplace(weighing_cautions::kAboard);
  given.insert(weighing_cautions::kOfMoves.begin(), weighing_cautions::kOfMoves.end());
  given.insert(weighing_cautions::kAlways.begin(), weighing_cautions::kAlways.end());
  given.insert(weighing_cautions::kOfLifting.begin(), weighing_cautions::kOfLifting.end());
  for (const std::string& id : given) EXPECT_NE(rules().caution(id), nullptr) << id;
  for (const Caution& caution : rules().cautions) {
    EXPECT_TRUE(given.contains(caution.id)) << caution.id;
  }
  EXPECT_NE(rules().look_over, "");
}

TEST(BuiltInLinks, NamesBetweenAdjustmentsGoBothWays) {
  const auto names = [](const std::vector<std::string>& ids, const std::string& id) {
    return std::find(ids.begin(), ids.end(), id) != ids.end();
  };
  for (const Adjustment& each : rules().adjustments) {
    for (const std::string& id : each.shares_stand_with) {
      ASSERT_NE(rules().adjustment(id), nullptr) << id;
      EXPECT_TRUE(names(rules().adjustment(id)->shares_stand_with, each.id))
          << each.id << ' ' << id;
    }
    for (const std::string& id : each.same_setting_as) {
      ASSERT_NE(rules().adjustment(id), nullptr) << id;
    }
    if (!each.part_of.empty()) {
      EXPECT_NE(rules().adjustment(each.part_of), nullptr) << each.id;
    }
  }
}

TEST(BuiltInLinks, EveryFaultCanBeClearedByItsCheck) {
  for (const Fault& fault : rules().faults) {
    const auto is = [&](bool against) {
      return std::any_of(fault.evidence.begin(), fault.evidence.end(), [&](const EvidenceRule& r) {
        return against ? r.decibans < 0.0 : r.decibans > 0.0;
      });
    };
    EXPECT_TRUE(is(true)) << fault.id;
    EXPECT_TRUE(is(false)) << fault.id;
    EXPECT_LT(fault.prior, 0.0) << fault.id;  // rarer than not
    EXPECT_FALSE(fault.check.empty() || fault.fix.empty()) << fault.id;
  }
}

TEST(BuiltInLinks, TheTrackFactHasTheTracksForValues) {
  std::vector<std::string> values = rules().fact("track")->values;
  std::sort(values.begin(), values.end());
  std::vector<std::string> tracks;
  for (const TrackState& track : rules().tracks) {
    tracks.push_back(track.id);
    if (!track.ahead.empty()) {
      EXPECT_NE(rules().track(track.ahead), nullptr) << track.id;
    }
  }
  EXPECT_EQ(values, tracks);
  EXPECT_TRUE(rules().track("wet")->wet);
  EXPECT_FALSE(rules().track("green")->wet);
}

TEST(BuiltInLinks, PriorsOfAFactSumToOneAndTheLastAlwaysHolds) {
  for (const FactDef& fact : rules().facts) {
    for (const FactDef::Prior& prior : fact.priors) {
      ASSERT_EQ(prior.weights.size(), fact.values.size()) << fact.id;
      double sum = 0.0;
      for (const double weight : prior.weights) sum += weight;
      EXPECT_NEAR(sum, 1.0, 1e-12) << fact.id;
    }
    if (!fact.priors.empty()) {
      EXPECT_EQ(fact.priors.back().when.op, Condition::Op::always);
    }
  }
}

}  // namespace
}  // namespace kartwright
