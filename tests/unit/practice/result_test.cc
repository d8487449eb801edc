// A finished task as it is read out.

#include "engine/practice/result.h"

#include <set>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "engine/knowledge/built_in.h"

namespace kartwright {
namespace {

using testing::Contains;
using testing::HasSubstr;

const Pack& pack_of_results() {
  static const Pack pack = built_in_pack();
  return pack;
}

/// Every case with a name; the marking looks into the task beside it.
struct FinishedCase {
  explicit FinishedCase(const DrillCase& drill, Ear& ear)
      : task(named_task(drill, pack_of_results(), ear, 1)), marking(pack_of_results(), task) {}
  DrillTask task;
  Marking marking;
};

TEST(FinishedTask, OfEveryCaseIsReadOutWhole) {
  Ear ear(pack_of_results());
  for (const DrillCase& drill : pack_of_results().drills.cases) {
    const FinishedCase done(drill, ear);
    const DrillResult best = result_of(done.marking, KartEnd::rear, done.marking.best(), 2);
    EXPECT_EQ(best.because, drill.because) << drill.id;
    EXPECT_NE(best.reading, "") << drill.id;
    EXPECT_FALSE(best.told.empty()) << drill.id;
    EXPECT_DOUBLE_EQ(best.worth.points, best.best_worth.points) << drill.id;
    const DrillResult left = result_of(done.marking, KartEnd::rear, {}, 0);
    EXPECT_LE(left.worth.points, left.best_worth.points + 1e-9) << drill.id;
    EXPECT_EQ(left.because, best.because) << drill.id;
  }
}

TEST(FinishedTask, CarriesTheCareOfTheWorkOfTheBestAnswer) {
  Ear ear(pack_of_results());
  int with_care = 0;
  for (const DrillCase& drill : pack_of_results().drills.cases) {
    const FinishedCase done(drill, ear);
    const DrillChoice& best = done.marking.best();
    const DrillResult result = result_of(done.marking, KartEnd::front, {}, 0);
    std::vector<std::string> ids;
    if (best.kind == DrillChoice::Kind::change) ids = done.marking.adjustment_of(best).cautions;
    if (best.kind == DrillChoice::Kind::check) ids = pack_of_results().faults[best.fault].cautions;
    EXPECT_EQ(result.cautions.size(), ids.size()) << drill.id;
    for (const std::string& id : ids)
      EXPECT_THAT(result.cautions, Contains(pack_of_results().caution(id)->text)) << drill.id;
    with_care += result.cautions.empty() ? 0 : 1;
  }
  EXPECT_GT(with_care, 0);
}

TEST(FinishedTask, WithoutWordsOfItsOwnIsExplainedByTheRules) {
  Ear ear(pack_of_results());
  std::set<DrillChoice::Kind> met;
  for (const DrillCase& drill : pack_of_results().drills.cases) {
    FinishedCase done(drill, ear);
    done.task.because.clear();
    const std::string because = because_of(done.marking);
    const DrillChoice::Kind kind = done.marking.best().kind;
    met.insert(kind);
    if (kind == DrillChoice::Kind::change) {
      EXPECT_THAT(because, HasSubstr(". Watch: ")) << drill.id;
    } else if (kind == DrillChoice::Kind::check) {
      EXPECT_THAT(because, HasSubstr("; nobody tunes around it, and nobody sends the kart out"))
          << drill.id;
    } else {
      const bool right = done.marking.leaving_is_right();
      EXPECT_EQ(because, right ? pack_of_results().drills.level(drill.level)->teaches
                               : "nothing here is worth more than leaving the kart as it is")
          << drill.id;
    }
  }
  EXPECT_EQ(met.size(), 3U);
}

}  // namespace
}  // namespace kartwright
