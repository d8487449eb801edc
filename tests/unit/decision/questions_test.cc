// What to ask the driver before a move is chosen, by the rules that come with the program: what is
// worth asking, what is not asked again, and that an answer moves the choice as foretold.

#include "engine/decision/questions.h"

#include <algorithm>
#include <cmath>
#include <set>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "engine/decision/rank.h"
#include "tests/support/pit.h"
#include "tests/support/small_case.h"

namespace kartwright {
namespace {

using testing::AllOf;
using testing::Contains;
using testing::ElementsAre;
using testing::IsEmpty;
using testing::Not;

/// A case at the door of the choice.
struct Choice {
  explicit Choice(SmallCase entered) : entered(std::move(entered)) {}
  Choice(std::vector<std::string> said, std::string track, std::vector<std::string> facts = {})
      : Choice(SmallCase(rules(), std::move(said), std::move(facts), std::move(track))) {}

  Choice(const Choice&) = delete;  // the situation looks at what was entered
  Choice& operator=(const Choice&) = delete;

  std::vector<Question> ask() const {
    return questions({.situation = situation,
                      .prior = prior,
                      .belief = belief,
                      .weights = weights,
                      .ways = ways,
                      .effects = effects});
  }
  double loss() const { return loss_of_nothing({.mean = belief.mean, .weights = weights}); }

  SmallCase entered;
  Situation situation = entered.settled();
  Prior prior = make_prior(rules());
  Belief belief = update(prior, take_readings(situation));
  Eigen::VectorXd weights = weights_of_axes();
  std::vector<Way> ways = all_ways(rules(), entered.kart, 15.0);
  std::vector<Effect> effects = all_effects();

 private:
  static Eigen::VectorXd weights_of_axes() {
    Eigen::VectorXd out(static_cast<Eigen::Index>(rules().axes.size()));
    for (Eigen::Index i = 0; i < out.size(); ++i) {
      out[i] = rules().axes[static_cast<std::size_t>(i)].weight;
    }
    return out;
  }
  std::vector<Effect> all_effects() const {
    std::vector<Effect> out;
    for (const Adjustment& each : rules().adjustments) out.push_back(effect_of(each, situation));
    return out;
  }
};

/// "hop@mid", "turn-in".
std::string asked_name(const Question& question) {
  std::string name(question.id());
  if (question.phase != Phase::any) name += "@" + std::string(name_of(question.phase));
  return name;
}

std::vector<std::string> asked_names(const Choice& choice) {
  std::vector<std::string> out;
  for (const Question& each : choice.ask()) out.push_back(asked_name(each));
  return out;
}

Question the_question(const Choice& choice, const std::string& name) {
  for (const Question& each : choice.ask()) {
    if (asked_name(each) == name) return each;
  }
  ADD_FAILURE() << name << " is not asked";
  return {};
}

double worth_of(const Choice& choice, const std::string& name) {
  return the_question(choice, name).worth;
}

/// The gain of every legal move that a belief and effects give, by the loss alone.
std::vector<double> gains_by_loss(const Choice& choice) {
  const Stakes stakes{.mean = choice.belief.mean, .weights = choice.weights};
  std::vector<double> out{0.0};
  for (const SingleMove& move : legal_moves(choice.ways, choice.effects)) {
    out.push_back(loss_of_nothing(stakes) -
                  loss_of(stakes, choice.effects[move.adjustment], move.steps));
  }
  return out;
}

std::size_t best_of(const std::vector<double>& gains) {
  return static_cast<std::size_t>(std::max_element(gains.begin(), gains.end()) - gains.begin());
}

// --- what is worth asking -----------------------------------------------------------------------

TEST(AskingAfterAPush, TheHopIsWorthMostSinceItTellsARearThatHoldsFromAFrontThatGivesUp) {
  const Choice pushes({"push@entry=2"}, "rubbered-in");
  const std::vector<Question> asked = pushes.ask();
  EXPECT_EQ(asked_name(asked.front()), "hop@mid");
  EXPECT_GT(asked.front().worth, 5.0);
  EXPECT_LT(asked.front().worth, 100.0);
  EXPECT_GT(worth_of(pushes, "hop@mid"), worth_of(pushes, "bind"));
}

TEST(AskingAfterAPush, HasTheWordsOfTheRules) {
  const Choice pushes({"push@entry=2"}, "rubbered-in");
  EXPECT_EQ(the_question(pushes, "hop@mid").text(), rules().symptom("hop")->question);
  EXPECT_EQ(the_question(pushes, "turn-in").text(), rules().fact("turn-in")->question);
}

TEST(Asking, GoesFromTheMostWorthToTheLeastAndNeverBelowNothing) {
  for (const char* track : {"cold", "rubbered-in", "wet", "unknown"}) {
    const std::vector<Question> asked = Choice({"push@entry=2", "bog@exit=1"}, track).ask();
    for (std::size_t i = 0; i < asked.size(); ++i) {
      EXPECT_GE(asked[i].worth, 0.0) << asked_name(asked[i]);
      const double before = i > 0 ? asked[i - 1].worth : 1e9;
      EXPECT_GE(before + 1e-9, asked[i].worth) << asked_name(asked[i]);
    }
  }
}

TEST(Asking, OfTwoWorthTheSameTakesTheFirstByName) {
  const std::vector<std::string> names = asked_names(Choice({"push@entry=2"}, "rubbered-in"));
  const auto drops = std::find(names.begin(), names.end(), "inside-rear-drops-early");
  ASSERT_NE(drops, names.end());
  EXPECT_EQ(*(drops + 1), "inside-rear-never-lifts") << "one row, so one worth";
}

TEST(Asking, IsWorthNothingWhereThereIsNothingToTakeOut) {
  const std::vector<Question> asked = Choice({}, "unknown").ask();
  EXPECT_FALSE(asked.empty());
  for (const Question& each : asked) EXPECT_EQ(each.worth, 0.0) << asked_name(each);
}

TEST(Asking, IsWorthNothingWhereNothingMayBeMoved) {
  SmallCase stuck(rules(), {"push@entry=2"}, {}, "rubbered-in");
  stuck.kart.settings.clear();
  for (const Question& each : Choice(stuck).ask()) {
    EXPECT_EQ(each.worth, 0.0) << asked_name(each);
  }
}

TEST(Asking, TakesNoHeedOfTheOrderOfTheReports) {
  const auto shown = [](const Choice& choice) {
    std::vector<std::pair<std::string, double>> out;
    for (const Question& each : choice.ask()) out.emplace_back(asked_name(each), each.worth);
    return out;
  };
  EXPECT_EQ(shown(Choice({"push@entry=2", "hop@mid=1", "bog@exit=2"}, "green")),
            shown(Choice({"bog@exit=2", "hop@mid=1", "push@entry=2"}, "green")));
}

// --- what may be asked --------------------------------------------------------------------------

TEST(MayBeAsked, IsEveryOpenSymptomAtThePhasesWhereItReads) {
  const std::vector<std::string> names = asked_names(Choice({}, "cold"));
  for (const char* const phased : {"push", "snap", "slide", "hop"}) {
    for (const char* const phase : {"@entry", "@mid", "@exit"}) {
      EXPECT_THAT(names, Contains(std::string(phased) + phase));
    }
  }
  // Rows that are the same wherever it is felt are asked for once.
  for (const char* const once : {"bog", "bind", "twitchy", "two-wheels", "inside-rear-never-lifts",
                                 "inside-rear-drops-early", "inside-rear-stays-up"}) {
    EXPECT_THAT(names, AllOf(Contains(once), Not(Contains(std::string(once) + "@mid"))));
  }
  EXPECT_THAT(names, Not(Contains("vibration"))) << "it reads on no axis";
}

TEST(MayBeAsked, PushAndLooseAreOneQuestionWithTwoSidesAsAreTwitchyAndLazy) {
  const Choice choice({}, "cold");
  EXPECT_TRUE(the_question(choice, "push@mid").asked.two_sided);
  EXPECT_TRUE(the_question(choice, "twitchy").asked.two_sided);
  EXPECT_FALSE(the_question(choice, "hop@mid").asked.two_sided);
  EXPECT_THAT(asked_names(choice), AllOf(Not(Contains("loose@mid")), Not(Contains("loose@entry")),
                                         Not(Contains("lazy"))));
}

TEST(MayBeAsked, ReadsSoThatAboveZeroIsAComplaint) {
  const Choice choice({}, "cold");
  const Asked push = the_question(choice, "push@mid").asked;
  EXPECT_EQ(push.row[axis_index(rules(), "rear-grip.mid")], 1.0);
  EXPECT_EQ(push.row[axis_index(rules(), "front-grip.mid")], -1.0);
  const Asked hop = the_question(choice, "hop@mid").asked;
  EXPECT_EQ(hop.row[axis_index(rules(), "rear-grip.mid")], 1.0);
  EXPECT_EQ(hop.row[axis_index(rules(), "unloading")], 0.4);
  EXPECT_EQ(hop.sd, rules().hearing.fair);
}

TEST(MayBeAsked, IsHeardLessSurelyWhereTheClockSaysFaster) {
  const Choice faster({"push@entry=2"}, "rubbered-in", {"laps=faster"});
  EXPECT_NEAR(the_question(faster, "hop@mid").asked.sd,
              rules().hearing.fair * rules().hearing.faster_factor, 1e-12);
}

// --- what is not asked again --------------------------------------------------------------------

TEST(NotAskedAgain, IsWhatWasReportedOrDeniedAtThatPhase) {
  const std::vector<std::string> names = asked_names(Choice({"hop@mid=2", "slide@exit=0"}, "cold"));
  EXPECT_THAT(names, AllOf(Not(Contains("hop@mid")), Contains("hop@entry"), Contains("hop@exit")));
  EXPECT_THAT(names, AllOf(Not(Contains("slide@exit")), Contains("slide@mid")));
}

TEST(NotAskedAgain, IsWhatWasReportedWithNoPhaseAtAnyPhase) {
  EXPECT_THAT(asked_names(Choice({"hop=2"}, "cold")),
              AllOf(Not(Contains("hop@entry")), Not(Contains("hop@mid")), Not(Contains("hop@exit")),
                    Contains("slide@mid")));
}

TEST(NotAskedAgain, IsTheOtherSideOfWhatWasSaid) {
  const std::vector<std::string> loose = asked_names(Choice({"loose@entry=2"}, "cold"));
  EXPECT_THAT(loose, AllOf(Not(Contains("push@entry")), Contains("push@mid")));
  EXPECT_THAT(asked_names(Choice({"push@entry=1"}, "cold")), Not(Contains("push@entry")));
  EXPECT_THAT(asked_names(Choice({"lazy=0"}, "cold")), Not(Contains("twitchy")));
}

TEST(NotAskedAgain, IsWhatReadsTheSameWhereverItIsFelt) {
  EXPECT_THAT(asked_names(Choice({"bog@mid=2"}, "cold")), Not(Contains("bog")));
  EXPECT_THAT(asked_names(Choice({"bind@exit=0"}, "cold")), Not(Contains("bind")));
}

TEST(NotAskedAgain, IsWhatPraiseDenies) {
  SmallCase praised(rules(), {}, {}, "cold");
  for (const std::string& symptom : rules().hearing.praise_denies) {
    praised.debrief.heard.reports.push_back(
        {.symptom = symptom, .phase = Phase::any, .severity = 0, .from_praise = true});
  }
  const std::vector<std::string> names = asked_names(Choice(praised));
  for (const std::string name : {"push", "slide", "hop"}) {
    EXPECT_THAT(names, Not(Contains(name + "@mid")));
  }
  EXPECT_THAT(names, AllOf(Not(Contains("bind")), Not(Contains("twitchy")), Contains("snap@mid")));
}

TEST(NotAskedAgain, IsAFactThatWasStated) {
  EXPECT_THAT(asked_names(Choice({}, "unknown")), AllOf(Contains("track"), Contains("turn-in")));
  EXPECT_THAT(asked_names(Choice({}, "cold", {"turn-in=brake"})),
              AllOf(Not(Contains("track")), Not(Contains("turn-in")), Contains("front-tyres")));
}

TEST(NotAskedAgain, IsNotWhatWasFeltOnTheStraightOnly) {
  SmallCase straight(rules(), {}, {}, "cold");
  straight.debrief.heard.reports.push_back({.symptom = "hop", .phase = Phase::straight});
  EXPECT_THAT(asked_names(Choice(straight)), Contains("hop@mid"));
}

// --- the answer fed back ------------------------------------------------------------------------

/// The best move that a question foretells for an answer.
std::size_t foretold(const Choice& choice, const Asked& asked, double answer) {
  const std::vector<SingleMove> moves = legal_moves(choice.ways, choice.effects);
  const Gains gains = gains_of(choice.belief.mean, choice.weights, moves, choice.effects);
  const Eigen::VectorXd cross = choice.belief.covariance * asked.row;
  const double variance = asked.row.dot(cross) + asked.sd * asked.sd;
  const double surprise = answer - asked.row.dot(choice.belief.mean);
  const Eigen::VectorXd then = gains.now + gains.tilt * (cross / variance * surprise);
  std::vector<double> all{0.0};
  all.insert(all.end(), then.data(), then.data() + then.size());
  return best_of(all);
}

TEST(AnswerFedBack, MovesTheChoiceAsTheQuestionForetold) {
  const std::vector<std::string> said{"push@entry=2"};
  const Choice before(said, "rubbered-in");
  std::set<std::size_t> chosen{best_of(gains_by_loss(before))};
  for (const char* const name : {"hop@mid", "hop@exit", "slide@mid", "snap@mid", "two-wheels"}) {
    const Question question = the_question(before, name);
    for (int severity = 1; severity <= 3; ++severity) {
      const Choice after({said.front(), std::string(name) + "=" + std::to_string(severity)},
                         "rubbered-in");
      const double answer = std::abs(question.symptom->reading->value) * severity;
      const std::size_t best = best_of(gains_by_loss(after));
      EXPECT_EQ(foretold(before, question.asked, answer), best) << name << " = " << severity;
      chosen.insert(best);
    }
  }
  EXPECT_GT(chosen.size(), 2U) << "the answers are no use if they all lead to one move";
}

TEST(AnswerFedBack, IsNotAskedAgainAndTheNextQuestionFollows) {
  std::vector<std::string> said{"push@entry=2"};
  std::vector<std::string> asked;
  for (int i = 0; i < 4; ++i) {
    const std::string next = asked_name(Choice(said, "rubbered-in").ask().front());
    EXPECT_THAT(asked, Not(Contains(next)));
    asked.push_back(next);
    said.push_back(next + "=0");
  }
  EXPECT_EQ(asked.front(), "hop@mid");
}

TEST(AnswerFedBack, LeavesTheOtherQuestionsLessToSettle) {
  const Choice before({"push@entry=2"}, "rubbered-in");
  const Choice after({"push@entry=2", "hop@mid=3"}, "rubbered-in");
  EXPECT_LT(after.ask().front().worth, before.ask().front().worth);
}

// --- plain facts --------------------------------------------------------------------------------

/// A kart that has one adjustment only.
SmallCase with_only(const std::string& adjustment, std::vector<std::string> said,
                    std::vector<std::string> facts, std::string track) {
  SmallCase entered(rules(), std::move(said), std::move(facts), std::move(track));
  std::erase_if(entered.kart.settings, [&](const auto& each) { return each.first != adjustment; });
  return entered;
}

/// The worth of a fact from the gains where each of its values was stated: the expected gain of the
/// best move for each, less that of the best move for all. `weigh` gives the values their weights.
double worth_by_stating(const Choice& choice, const std::vector<std::vector<double>>& stated,
                        const std::vector<double>& weigh) {
  double knowing = 0.0;
  std::vector<double> mixed(stated.front().size(), 0.0);
  for (std::size_t v = 0; v < stated.size(); ++v) {
    knowing += weigh[v] * stated[v][best_of(stated[v])];
    for (std::size_t i = 0; i < mixed.size(); ++i) mixed[i] += weigh[v] * stated[v][i];
  }
  return 100.0 * (knowing - mixed[best_of(mixed)]) / choice.loss();
}

TEST(TurningIn, IsWorthAskingOfAKartThatPushesAndCanOnlyMoveItsFrontWidth) {
  const auto pushing = [](std::vector<std::string> facts) {
    return Choice(with_only("front-width", {"push@entry=3"}, std::move(facts), "green"));
  };
  const Choice open = pushing({});
  const std::vector<double> brake = gains_by_loss(pushing({"turn-in=brake"}));
  const std::vector<double> throttle = gains_by_loss(pushing({"turn-in=throttle"}));
  const double worth = worth_of(open, "turn-in");
  EXPECT_GT(worth, 1.0) << "wider on the brake, narrower on the throttle";
  EXPECT_NEAR(worth, worth_by_stating(open, {brake, throttle}, {0.5, 0.5}), 1e-9);
  // One move for all values together is the best move as things stand.
  const std::vector<double> now = gains_by_loss(open);
  for (std::size_t i = 0; i < now.size(); ++i) {
    EXPECT_NEAR(now[i], 0.5 * (brake[i] + throttle[i]), 1e-12);
  }
}

TEST(TurningIn, IsWorthNothingToAKartWithoutAFrontWidthToMove) {
  EXPECT_EQ(worth_of(Choice(with_only("rear-width", {"push@entry=3"}, {}, "green")), "turn-in"),
            0.0);
}

TEST(TyreTemperature, IsWorthAskingOfAKartThatSlidesAndCanOnlyMoveItsPressures) {
  const auto sliding = [](std::vector<std::string> facts) {
    return Choice(with_only("pressures", {"slide@mid=3"}, std::move(facts), "cold"));
  };
  const Choice open = sliding({});
  std::vector<std::vector<double>> stated;
  for (const char* const tyres : {"tyres=cold", "tyres=up", "tyres=hot"}) {
    stated.push_back(gains_by_loss(sliding({tyres})));
  }
  EXPECT_GT(worth_of(open, "tyres"), 0.0);
  EXPECT_NEAR(worth_of(open, "tyres"), worth_by_stating(open, stated, {0.7, 0.15, 0.15}), 1e-9)
      << "on a cold track they are cold more often than not";
}

TEST(TheTrack, IsWorthWhatItTellsOfTheKartAsWellAsOfTheMoves) {
  const std::vector<std::string> said{"push@entry=1"};
  const Choice open(said, "unknown");
  std::vector<std::vector<double>> stated;
  for (const char* const track : {"cold", "green", "rubbered-in", "greasy"}) {
    stated.push_back(gains_by_loss(Choice(said, track)));
  }
  const double worth = worth_of(open, "track");
  EXPECT_GT(worth, 1.0) << "a rear that holds on rubber is no front that gives up on a cold track";
  EXPECT_NEAR(worth, worth_by_stating(open, stated, {0.25, 0.25, 0.25, 0.25}), 1e-9);
}

TEST(OneDirection, IsListedButNoMoveWaitsForIt) {
  EXPECT_EQ(worth_of(Choice({"push@entry=2"}, "rubbered-in"), "one-direction"), 0.0);
  EXPECT_THAT(asked_names(Choice({"push@entry=2"}, "rubbered-in", {"one-direction=no"})),
              Not(Contains("one-direction")));
}

}  // namespace
}  // namespace kartwright
