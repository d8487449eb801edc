// The log in advice: what it changes, what it says, and that without one nothing changes.

#include "engine/advice/learned.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "cli/advice_json.h"
#include "engine/advice/advise.h"
#include "engine/knowledge/built_in.h"

namespace kartwright {
namespace {

using testing::HasSubstr;

struct LoggedPit {
  Pack pack = built_in_pack();
  Kart kart = typical_kart(pack);
  Debrief debrief;

  LoggedPit() {
    debrief.track = "green";
    debrief.heard.reports = {{.symptom = "hop", .phase = Phase::mid, .severity = 2}};
  }

  Advice ask(const History* history) const {
    return advise(pack, kart, debrief, System::metric, {.draws = 200}, history);
  }

  /// A day on which a wider rear made the hop so many steps of severity less, over and over.
  std::vector<kartwright::Run> day(int before, int after, int times) const {
    std::vector<kartwright::Run> runs;
    for (int i = 0; i < 2 * times; ++i) {
      kartwright::Run run{
          .id = i + 1, .kart = kart.name, .at = later("2026-11-14T09:00:00", 900 * i)};
      run.track = "green";
      run.complete = true;
      run.reports = {
          {.symptom = "hop", .phase = Phase::mid, .severity = i % 2 == 0 ? before : after}};
      if (i > 0)
        run.changes = {
            {.adjustment = "rear-width", .from = "a", .to = "b", .steps = i % 2 == 0 ? -1.0 : 1.0}};
      runs.push_back(run);
    }
    return runs;
  }
};

const Change* find(const Advice& advice, const std::string& id, std::size_t direction) {
  for (const Change& change : advice.changes) {
    if (change.adjustment().id == id && change.candidate.option.direction == direction)
      return &change;
  }
  return nullptr;
}

TEST(AdviceWithALog, AnEmptyLogChangesNotAByte) {
  const LoggedPit pit;
  const History empty = learn({}, pit.pack, pit.kart);
  EXPECT_EQ(cli::advice_json(pit.ask(&empty), pit.pack, false, {}),
            cli::advice_json(pit.ask(nullptr), pit.pack, false, {}));
}

TEST(AdviceWithALog, StartsFromWhatTheKartHasTaughtAndNamesTheRuns) {
  const LoggedPit pit;
  const History history = learn(pit.day(3, 1, 4), pit.pack, pit.kart);
  const Advice with = pit.ask(&history);
  const Advice without = pit.ask(nullptr);
  const auto j =
      static_cast<std::size_t>(pit.pack.adjustment("rear-width") - pit.pack.adjustments.data());
  EXPECT_GT(with.effects[j].records, 0);
  EXPECT_EQ(without.effects[j].records, 0);
  EXPECT_LT(with.effects[j].covariance.trace(), without.effects[j].covariance.trace());
  const Change* const wider = find(with, "rear-width", 0);
  ASSERT_NE(wider, nullptr);
  bool told = false;
  for (const Because& because : wider->because) {
    if (because.kind != "record") continue;
    told = true;
    EXPECT_EQ(because.id, "rear-width");
    EXPECT_THAT(because.text, HasSubstr("run 8"));
  }
  EXPECT_TRUE(told);
}

TEST(AdviceWithALog, AnswersQuestionsAndDrawsFromTheSameEffects) {
  const LoggedPit pit;
  const History history = learn(pit.day(3, 1, 4), pit.pack, pit.kart);
  const Advice with = pit.ask(&history);
  const Experience experience = experience_of(history, pit.ask(nullptr).effects);
  for (std::size_t j = 0; j < with.effects.size(); ++j) {
    const Effect expected = with_experience(pit.ask(nullptr).effects[j], experience[j]);
    EXPECT_TRUE(with.effects[j].per_step.isApprox(expected.per_step, 1e-12)) << j;
  }
}

TEST(AdviceWithALog, SaysWhatWasTriedOnSuchATrackAndTakenBack) {
  const LoggedPit pit;
  auto runs = pit.day(3, 2, 1);
  runs[1].verdicts = {{.adjustment = "rear-width", .verdict = ClockVerdict::revert, .by = "crew"}};
  const History history = learn(runs, pit.pack, pit.kart);
  const Advice there = pit.ask(&history);
  ASSERT_NE(find(there, "rear-width", 0), nullptr);
  EXPECT_THAT(find(there, "rear-width", 0)->tried, HasSubstr("run 2"));
  LoggedPit rubbered;
  rubbered.debrief.track = "rubbered-in";
  const Advice elsewhere = rubbered.ask(&history);
  ASSERT_NE(find(elsewhere, "rear-width", 0), nullptr);
  EXPECT_EQ(find(elsewhere, "rear-width", 0)->tried, "");
}

TEST(Learned, ASignThatTheLogContradictsIsSaid) {
  const LoggedPit pit;
  // A wider rear that makes the hop worse, again and again, on four days.
  auto runs = pit.day(0, 3, 6);
  for (int day = 1; day < 4; ++day) {
    for (auto run : pit.day(0, 3, 6)) {
      run.at.replace(8, 2, std::to_string(14 + day));
      runs.push_back(run);
    }
  }
  const History history = learn(runs, pit.pack, pit.kart);
  const Learned learned = learned_from(history, pit.pack, pit.kart, "green");
  ASSERT_EQ(learned.adjustments.size(), 1U);
  const LearnedAdjustment& width = learned.adjustments.front();
  EXPECT_EQ(width.runs, 44);
  ASSERT_FALSE(width.contradicted.empty());
  for (const std::size_t axis : width.contradicted) {
    const auto i = static_cast<Eigen::Index>(axis);
    EXPECT_LT(width.rule[i] * width.learned[i], 0.0);
    EXPECT_GT(std::abs(width.learned[i]), 1.9 * width.sd[i]);
  }
}

TEST(Learned, FewRunsAreTooFewToSay) {
  const LoggedPit pit;
  const Learned learned =
      learned_from(learn(pit.day(2, 1, 1), pit.pack, pit.kart), pit.pack, pit.kart, "green");
  ASSERT_EQ(learned.adjustments.size(), 1U);
  EXPECT_EQ(learned.adjustments.front().agreement, Agreement::too_few);
}

TEST(Learned, NothingWasMovedMeansNothingIsLearned) {
  const LoggedPit pit;
  auto runs = pit.day(2, 1, 2);
  for (auto& run : runs) run.changes.clear();
  EXPECT_TRUE(learned_from(learn(runs, pit.pack, pit.kart), pit.pack, pit.kart, "green")
                  .adjustments.empty());
}

}  // namespace
}  // namespace kartwright
