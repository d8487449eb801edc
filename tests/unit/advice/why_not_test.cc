// Why a change leads or loses, in figures that sum.

#include "engine/advice/why_not.h"

#include <algorithm>
#include <numeric>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/support/any.h"
#include "tests/support/pit.h"

namespace kartwright {
namespace {

using testing::AnyOf;
using testing::Contains;
using testing::HasSubstr;

const Adjustment& lever(const char* id) { return *rules().adjustment(id); }

WhyChange asked(const Pit& pit, const Advice& advice, const char* adjustment,
                std::size_t direction) {
  return why_not(lever(adjustment), direction, advice, rules(), pit.kart);
}

Pit hopping() {
  return {.track = "rubbered-in", .reports = {"push@entry=2", "hop@mid=2"}, .minutes = 60};
}

void expect_sums(const WhyChange& why, const Advice& advice) {
  const double added =
      std::accumulate(why.axes.begin(), why.axes.end(), 0.0,
                      [](double sum, const AxisAccount& axis) { return sum + axis.added(); });
  EXPECT_NEAR(added, why.loss_added, 1e-9) << why.phrase;
  if (!why.best) return;
  const Parts& parts = why.places[*why.best].candidate.parts;
  if (advice.loss_none > 1e-12) {
    EXPECT_NEAR(parts.effect, -100.0 * why.loss_added / advice.loss_none, 1e-9) << why.phrase;
  }
  if (!why.against) return;
  const std::size_t other = why.stands == std::size_t{1} ? 1 : 0;
  EXPECT_NEAR(why.against->difference.score(),
              parts.score() - advice.changes[other].candidate.parts.score(), 1e-9);
}

TEST(WhyNotAChange, SumsAxisByAxisToWhatIsLostOrWonWithTheDoubtCountedIn) {
  Random random(3);
  int refused = 0, worse = 0;
  for (int i = 0; i < 60; ++i) {
    const Kart kart = any_kart(random, rules());
    const Debrief debrief = any_debrief(random, rules());
    const Advice advice = advise(rules(), kart, debrief, System::metric, {.questions = false});
    for (const Adjustment& adjustment : rules().adjustments) {
      for (const std::size_t direction : {std::size_t{0}, std::size_t{1}}) {
        const WhyChange why = why_not(adjustment, direction, advice, rules(), kart);
        expect_sums(why, advice);
        ASSERT_EQ(why.stands.has_value(), why.refusal == Refusal::none);
        ASSERT_FALSE(why.text.empty());
        if (!why.stands && why.best) ++refused;
        if (why.worst()) ++worse;
      }
    }
  }
  EXPECT_GT(refused, 100);
  EXPECT_GT(worse, 100);
}

TEST(WhyNotAChange, IsTheSamePlaceAndScoreThatTheRankingOffers) {
  const Pit pit = hopping();
  const Advice advice = pit.answer();
  for (std::size_t i = 0; i < advice.changes.size(); ++i) {
    const Change& change = advice.changes[i];
    const WhyChange why =
        why_not(change.adjustment(), change.candidate.option.direction, advice, rules(), pit.kart);
    ASSERT_EQ(why.stands, i + 1);
    const JudgedPlace& best = why.places.at(why.best.value());
    EXPECT_EQ(best.to, change.to);
    EXPECT_DOUBLE_EQ(best.candidate.parts.score(), change.candidate.parts.score());
    EXPECT_EQ(best.why, "");
  }
}

TEST(WhyNotAChange, OfTheFirstSaysByHowMuchItLeads) {
  const Pit pit = hopping();
  const Advice advice = pit.answer();
  const WhyChange why = asked(pit, advice, "rear-width", 0);
  EXPECT_EQ(why.stands, std::size_t{1});
  ASSERT_TRUE(why.against);
  EXPECT_GT(why.against->difference.score(), 0.0);
  EXPECT_THAT(why.text.front(), HasSubstr("stands 1 of"));
  EXPECT_THAT(why.text.front(), HasSubstr("ahead of"));
}

TEST(WhyNotAChange, ThatMakesItWorseNamesTheAxis) {
  const Pit pit = hopping();
  const Advice advice = pit.answer();
  const WhyChange why = asked(pit, advice, "rear-width", 1);
  EXPECT_FALSE(why.stands);
  EXPECT_EQ(why.refusal, Refusal::makes_worse);
  ASSERT_TRUE(why.worst());
  EXPECT_EQ(rules().axes[why.worst()->axis].id, "rear-grip.mid");
  EXPECT_GT(why.loss_added, 0.0);
  ASSERT_TRUE(why.against);
  EXPECT_LT(why.against->difference.score(), 0.0);
  EXPECT_THAT(why.text, Contains(HasSubstr("it worsens")));
  EXPECT_THAT(why.text, Contains(HasSubstr("behind")));
}

TEST(WhyNotAChange, ThatTheClassForbidsIsJudgedAsIfItWereAllowed) {
  Pit pit = hopping();
  Setting& width = pit.kart.settings.at("rear-width");
  width.limit.at_most = width.now;
  const Advice advice = pit.answer();
  const WhyChange why = asked(pit, advice, "rear-width", 0);
  EXPECT_EQ(why.refusal, Refusal::class_limit);
  const JudgedPlace& best = why.places.at(why.best.value());
  EXPECT_THAT(best.why, HasSubstr("class does not allow"));
  EXPECT_GT(best.candidate.parts.score(), 10.0);
  EXPECT_LT(why.loss_added, 0.0);
  EXPECT_THAT(why.text, Contains(HasSubstr("would score")));
}

TEST(WhyNotAChange, SaysOfEachPlaceWhyItIsRefused) {
  Pit pit = hopping();
  pit.kart.settings.at("rear-width").limit.at_most = 1.365;
  const Advice advice = pit.answer();
  const WhyChange why = asked(pit, advice, "rear-width", 0);
  EXPECT_EQ(why.places.at(0).why, "");
  EXPECT_EQ(why.places.at(1).why, "the class does not allow 1370 mm");
}

TEST(WhyNotAChange, OfWhatTheKartHasNotIsOneSentence) {
  Pit pit = hopping();
  pit.kart.settings.erase("rear-width");
  const Advice advice = pit.answer();
  const WhyChange why = asked(pit, advice, "rear-width", 0);
  EXPECT_EQ(why.refusal, Refusal::not_on_this_kart);
  EXPECT_FALSE(why.best);
  EXPECT_EQ(why.text.size(), 1U);
}

TEST(WhyNotAChange, ThatOnlyQuietsTheComplaintIsToldSo) {
  const Pit pit{.track = "rubbered-in", .reports = {"hop@mid=2"}, .facts = {"laps=faster"}};
  const Advice advice = pit.answer();
  for (const Change& change : advice.changes) {
    const WhyChange why =
        why_not(change.adjustment(), change.candidate.option.direction, advice, rules(), pit.kart);
    const Candidate& judged = why.places.at(why.best.value()).candidate;
    EXPECT_EQ(judged.held_back(), change.candidate.held_back());
  }
}

// --- what was asked -----------------------------------------------------------------------------

std::optional<AskedWhyNot> parsed(const char* text, Findings& findings) {
  return parse_why_not(text, rules(), {.file = "--why-not", .source = text}, findings);
}

TEST(WhyNotAsked, IsAnAdjustmentInOneDirectionOrInBoth) {
  Findings findings;
  const auto one = parsed("rear-width:narrower", findings);
  ASSERT_TRUE(one && std::holds_alternative<AskedChange>(*one));
  EXPECT_EQ(std::get<AskedChange>(*one).adjustment->id, "rear-width");
  EXPECT_EQ(std::get<AskedChange>(*one).directions, (std::vector<std::size_t>{1}));
  const auto both = parsed("rear-width", findings);
  ASSERT_TRUE(both && std::holds_alternative<AskedChange>(*both));
  EXPECT_EQ(std::get<AskedChange>(*both).directions, (std::vector<std::size_t>{0, 1}));
  EXPECT_TRUE(findings.all().empty());
}

TEST(WhyNotAsked, IsARuleByItsId) {
  Findings findings;
  const auto rule = parsed("wet-narrow-digs-in", findings);
  ASSERT_TRUE(rule && std::holds_alternative<RuleRef>(*rule));
  EXPECT_EQ(std::get<RuleRef>(*rule).rule->id, "wet-narrow-digs-in");
}

TEST(WhyNotAsked, AnswersASlipWithTheNearestName) {
  Findings findings;
  EXPECT_FALSE(parsed("rear-widht:narrower", findings));
  EXPECT_FALSE(parsed("rear-width:narower", findings));
  EXPECT_FALSE(parsed("wet-narow-digs-in", findings));
  ASSERT_EQ(findings.all().size(), 3U);
  EXPECT_THAT(findings.all()[0].help, HasSubstr("rear-width:narrower"));
  EXPECT_THAT(findings.all()[1].help, HasSubstr("narrower"));
  EXPECT_THAT(findings.all()[2].help, HasSubstr("wet-narrow-digs-in"));
  for (const Diagnostic& found : findings.all()) EXPECT_EQ(found.code, Code::unknown_name);
}

TEST(WhyNotAsked, IsTheChangeWhereARuleHasTheSameName) {
  Pack pack = rules();
  pack.derives.front().id = "toe";
  Findings findings;
  const auto asked_for = parse_why_not("toe", pack, {.file = "--why-not"}, findings);
  ASSERT_TRUE(asked_for);
  EXPECT_TRUE(std::holds_alternative<AskedChange>(*asked_for));
}

}  // namespace
}  // namespace kartwright
