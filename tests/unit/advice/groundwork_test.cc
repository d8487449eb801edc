// What is kept from one debrief to the next changes no answer.

#include "engine/advice/groundwork.h"

#include <algorithm>

#include <gtest/gtest.h>

#include "cli/advice_json.h"
#include "engine/advice/advise.h"
#include "engine/knowledge/built_in.h"
#include "tests/support/any.h"

namespace kartwright {
namespace {

const Pack& pack_kept() {
  static const Pack pack = built_in_pack();
  return pack;
}

/// Everything that is said of a debrief, with the working.
std::string all_said(const Advice& advice, const Pack& pack) {
  return cli::advice_json(advice, pack, false, {});
}

/// Debriefs one after another on one groundwork, each also by itself.
void expect_the_same(const Pack& pack, const Kart& kart, Random& random) {
  Groundwork ground(pack, kart);
  for (int i = 0; i < 40; ++i) {
    const Debrief debrief = any_debrief(random, pack);
    EXPECT_EQ(all_said(advise(ground, debrief, System::metric), pack),
              all_said(advise(pack, kart, debrief, System::metric), pack));
  }
}

TEST(Groundwork, ManyDebriefsOfOneKartAreAnsweredAsEachAlone) {
  Random random(17);
  for (int i = 0; i < 4; ++i) {
    const Kart kart = any_kart(random, pack_kept());
    expect_the_same(pack_kept(), kart, random);
  }
}

TEST(Groundwork, EffectsThatLookAtReportsAreOfEachCaseAlone) {
  Pack pack = built_in_pack();
  EffectRule& rule = pack.adjustments.at(0).effects.at(0);
  rule.when = {.op = Condition::Op::test, .test = ReportTest{.symptom = "hop"}};
  Random random(19);
  expect_the_same(pack, typical_kart(pack), random);
}

TEST(Groundwork, BriefAnswersLeaveTheRoomLeftOut) {
  const Kart kart = typical_kart(pack_kept());
  Groundwork ground(pack_kept(), kart);
  ASSERT_FALSE(ground.room_matters());
  const Debrief debrief{.heard = {}, .track = "green"};
  const auto rooms = [&](bool room) {
    const Advice advice = advise(ground, debrief, System::metric, {.room = room});
    return std::count_if(advice.facts.all.begin(), advice.facts.all.end(),
                         [](const Fact& fact) { return fact.id.starts_with("room:"); });
  };
  EXPECT_EQ(rooms(false), 0);
  EXPECT_EQ(static_cast<std::size_t>(rooms(true)), 2 * kart.settings.size());
}

}  // namespace
}  // namespace kartwright
