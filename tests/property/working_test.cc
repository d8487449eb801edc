// `advise --format json` promises that its working is enough to do every sum again. Here they are
// done again, from the text alone: the posterior, the shares, every relief, every price
// of room and every score.

#include <algorithm>
#include <cmath>
#include <map>
#include <string>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "cli/advice_json.h"
#include "tests/support/naive.h"
#include "tests/support/pit.h"

namespace kartwright {
namespace {

using Json = nlohmann::json;
using naive::Matrix;
using naive::Vector;

constexpr double kSame = 1e-9;

/// A narrow kart near its ends, with a class, few parts and one adjustment less.
Kart narrow_kart() {
  Kart kart = typical_kart(rules());
  Setting& width = kart.settings.at("rear-width");
  width.now = width.travel.places[2];
  width.limit.at_most = width.travel.places[4];
  kart.settings.at("caster").now = kart.settings.at("caster").travel.places[3];
  kart.settings.at("axle").in_the_box = {"medium"};
  kart.settings.erase("front-bar");
  kart.measures["front-share"] = 0.45;
  return kart;
}

std::vector<Pit> pits() {
  return {
      {.track = "rubbered-in", .reports = {"push@entry=2", "hop@mid=2"}},
      {.track = "cold", .reports = {"push@entry=2"}, .minutes = 5},
      {.track = "green", .reports = {"loose@exit=3,sure"}, .facts = {"turn-in=throttle"}},
      {.track = "wet", .reports = {"push@mid=3"}, .minutes = 3},
      {.track = "greasy", .reports = {"slide=2,unsure", "hop=0"}, .minutes = 60},
      {.reports = {"bog@exit=2", "bind@mid=1"}, .minutes = 40},
      {.track = "rubbered-in", .reports = {"loose@entry=2"}, .facts = {"laps=faster"}},
      {.track = "cold", .reports = {"push=2,early"}, .facts = {"front-tyres=colder"}},
      {.track = "rubbered-in",
       .reports = {"two-wheels@mid=3", "twitchy@entry=1"},
       .facts = {"roll-structure=yes"}},
      {.track = "green", .reports = {"push@mid=3,sure", "loose@mid=0,sure", "vibration=2"}},
      {.track = "rubbered-in", .reports = {"hop@mid=3"}, .minutes = 10, .kart = narrow_kart()},
      {.track = "wet", .reports = {"lazy@entry=2"}, .minutes = 25, .kart = narrow_kart()},
      {.track = "green", .reports = {"hop@mid=2"}, .kart = narrow_kart()},
      {.track = "cold", .reports = {"hop@mid=2", "push@entry=1"}, .kart = narrow_kart()},
      {.track = "green", .reports = {}},
  };
}

/// The text that a program at the other end would get, read again.
Json answer(const Pit& pit) { return Json::parse(cli::advice_json(pit.answer(), rules(), false)); }

class Working : public testing::TestWithParam<std::size_t> {
 protected:
  const Json json_ = answer(pits()[GetParam()]);
  const Json& working_ = json_.at("working");

  std::vector<naive::Reading> readings() const {
    std::vector<naive::Reading> out;
    for (const Json& each : working_.at("readings")) {
      out.push_back({each.at("row"), each.at("value"), each.at("sd")});
    }
    return out;
  }

  const Json& effect_of(const std::string& adjustment) const {
    for (const Json& each : working_.at("effects")) {
      if (each.at("adjustment") == adjustment) return each;
    }
    throw std::out_of_range(adjustment);
  }

  double loss_none() const {
    return naive::quadratic(working_.at("posterior").at("mean"), working_.at("weights"));
  }

  /// Relief of a move by u reference steps, by the formula of the contract.
  double relief(const std::string& adjustment, double u) const {
    const Json& effect = effect_of(adjustment);
    return 1.0 - naive::loss(working_.at("posterior").at("mean"), working_.at("weights"),
                             effect.at("per_step"), effect.at("covariance"), u) /
                     loss_none();
  }

  double score(const Json& option) const {
    const double rate = working_.at("effort_rate");
    return 100.0 * relief(option.at("adjustment"), option.at("u")) -
           100.0 * room_cost(option.at("adjustment"), option.at("u")) -
           rate * option.at("minutes").get<double>() - (option.at("last_notch") ? 3.0 : 0.0);
  }

  /// The price of the travel that a move spends, by the formula of the contract and every later
  /// move tried.
  double room_cost(const std::string& adjustment, double u) const {
    const double more = value(adjustment, u, false) - value(adjustment, u, true);
    return more / std::max(loss_none(), 0.45);
  }

  /// The weighed sum over stages of the least loss over one later move or none.
  double value(const std::string& moved, double u, bool free) const {
    double sum = 0.0;
    for (const Json& stage : working_.at("forecast")) {
      double least = later_loss(stage.at("shift"), moved, u, moved, 0.0);
      for (const Json& effect : working_.at("effects")) {
        const std::string id = effect.at("adjustment");
        for (const double later : later_moves(id, id == moved ? u : 0.0, free)) {
          least = std::min(least, later_loss(stage.at("shift"), moved, u, id, later));
        }
      }
      sum += stage.at("weight").get<double>() * least;
    }
    return sum;
  }

  /// Where an adjustment that has gone `u` can go later: any open place, and freely also every
  /// place of its grid within twelve steps.
  std::vector<double> later_moves(const std::string& adjustment, double u, bool free) const {
    std::vector<double> moves;
    const Json& effect = effect_of(adjustment);
    if (effect.at("rules").empty() || effect.at("grid").is_null()) return moves;
    for (const Json& option : working_.at("options")) {
      if (option.at("adjustment") == adjustment && option.at("open").get<bool>())
        moves.push_back(option.at("u").get<double>() - u);
    }
    moves.push_back(-u);
    const double grid = effect.at("grid");
    for (int k = 1; free && k * grid <= 12.0; ++k) {
      moves.push_back(k * grid);
      moves.push_back(-k * grid);
    }
    return moves;
  }

  /// The loss at a stage after a move of `u` and a later one: the spread of one adjustment grows
  /// with where it ends, so that a reversal is free.
  double later_loss(const Vector& shift, const std::string& moved, double u,
                    const std::string& later, double more) const {
    const Vector weights = working_.at("weights");
    Vector z = working_.at("posterior").at("mean");
    double spread = 0.0;
    const Json& first = effect_of(moved);
    const Json& second = effect_of(later);
    const double ends = later == moved ? u + more : u;
    for (std::size_t a = 0; a < z.size(); ++a) {
      z[a] += shift[a] + u * first.at("per_step")[a].get<double>() +
              more * second.at("per_step")[a].get<double>();
      spread += weights[a] * ends * ends * first.at("covariance")[a][a].get<double>();
      if (later != moved)
        spread += weights[a] * more * more * second.at("covariance")[a][a].get<double>();
    }
    return naive::quadratic(z, weights) + spread;
  }

  const Json& option_of(const Json& change) const {
    for (const Json& each : working_.at("options")) {
      if (each.at("adjustment") == change.at("adjustment") && each.at("to") == change.at("to"))
        return each;
    }
    throw std::out_of_range(change.dump());
  }
};

void expect_close(const Json& told, const Vector& again, const char* what) {
  ASSERT_EQ(told.size(), again.size()) << what;
  for (std::size_t i = 0; i < again.size(); ++i) {
    EXPECT_NEAR(told[i].get<double>(), again[i], kSame) << what << " at " << i;
  }
}

void expect_close(const Json& told, const Matrix& again, const char* what) {
  ASSERT_EQ(told.size(), again.size()) << what;
  for (std::size_t i = 0; i < again.size(); ++i) expect_close(told[i], again[i], what);
}

TEST_P(Working, GivesThePosteriorAgainBothWays) {
  const Json& prior = working_.at("prior");
  const Json& told = working_.at("posterior");
  const auto by_information =
      naive::information_form(prior.at("mean"), prior.at("covariance"), readings());
  expect_close(told.at("mean"), by_information.mean, "mean");
  expect_close(told.at("covariance"), by_information.covariance, "covariance");
  const auto one_by_one =
      naive::one_at_a_time(prior.at("mean"), prior.at("covariance"), readings());
  expect_close(told.at("mean"), one_by_one.mean, "mean");
  expect_close(told.at("covariance"), one_by_one.covariance, "covariance");
}

TEST_P(Working, GivesTheSharesAgain) {
  const Json& prior = working_.at("prior");
  const Matrix again = naive::shares(prior.at("mean"), prior.at("covariance"), readings());
  expect_close(working_.at("shares"), again, "share");
  for (std::size_t axis = 0; axis < again.size(); ++axis) {
    double sum = prior.at("mean")[axis];
    for (const Json& share : working_.at("shares")[axis]) sum += share.get<double>();
    EXPECT_NEAR(sum, working_.at("posterior").at("mean")[axis].get<double>(), kSame);
  }
}

TEST_P(Working, GivesTheChiSquaredAgain) {
  const Json& prior = working_.at("prior");
  const Vector mean = prior.at("mean");
  const Matrix covariance = prior.at("covariance");
  const std::vector<naive::Reading> heard = readings();
  EXPECT_EQ(json_.at("reading").at("dof"), heard.size());
  if (heard.empty()) return;
  Matrix expected(heard.size(), Vector(heard.size(), 0.0));
  Matrix surprise(heard.size(), Vector(1, 0.0));
  for (std::size_t i = 0; i < heard.size(); ++i) {
    surprise[i][0] = heard[i].value;
    for (std::size_t a = 0; a < mean.size(); ++a) {
      surprise[i][0] -= heard[i].row[a] * mean[a];
      for (std::size_t j = 0; j < heard.size(); ++j) {
        for (std::size_t b = 0; b < mean.size(); ++b) {
          expected[i][j] += 4.0 * heard[i].row[a] * covariance[a][b] * heard[j].row[b];
        }
      }
    }
    expected[i][i] += heard[i].sd * heard[i].sd;
  }
  const Matrix weighed = naive::solve(expected, surprise);
  double chi2 = 0.0;
  for (std::size_t i = 0; i < heard.size(); ++i) chi2 += surprise[i][0] * weighed[i][0];
  EXPECT_NEAR(json_.at("reading").at("chi2").get<double>(), chi2, kSame);
}

TEST_P(Working, GivesTheScoreOfLeavingItAloneAgain) {
  const std::string any = working_.at("effects").at(0).at("adjustment");
  EXPECT_NEAR(working_.at("score_of_nothing").get<double>(), -100.0 * room_cost(any, 0.0), kSame);
}

TEST_P(Working, GivesTheLossAndTheEffortRateAgain) {
  EXPECT_NEAR(working_.at("loss_none").get<double>(), loss_none(), kSame);
  const double minutes = working_.at("minutes_left");
  const double times = std::min(4.0, std::max(1.0, 15.0 / minutes));
  EXPECT_NEAR(working_.at("effort_rate").get<double>(), 0.5 * times, kSame);
}

TEST_P(Working, GivesEveryChangeAgain) {
  for (const Json& change : json_.at("changes")) {
    SCOPED_TRACE(change.at("adjustment").dump() + " to " + change.at("to").dump());
    const Json& option = option_of(change);
    const Json& parts = change.at("parts");
    const double effect = 100.0 * relief(change.at("adjustment"), change.at("steps"));
    const double effort =
        -working_.at("effort_rate").get<double>() * change.at("minutes").get<double>();
    EXPECT_TRUE(option.at("legal").get<bool>());
    EXPECT_EQ(option.at("u"), change.at("steps"));
    EXPECT_EQ(option.at("from"), change.at("from"));
    EXPECT_EQ(option.at("minutes"), change.at("minutes"));
    EXPECT_NEAR(100.0 * change.at("relief").get<double>(), effect, kSame);
    EXPECT_NEAR(parts.at("effect").get<double>(), effect, kSame);
    EXPECT_NEAR(change.at("room_cost").get<double>(),
                room_cost(change.at("adjustment"), change.at("steps")), kSame);
    EXPECT_NEAR(parts.at("room").get<double>(), -100.0 * change.at("room_cost").get<double>(),
                kSame);
    EXPECT_NEAR(parts.at("effort").get<double>(), effort, kSame);
    EXPECT_EQ(parts.at("last_notch").get<double>(), option.at("last_notch") ? -3.0 : 0.0);
    EXPECT_NEAR(change.at("score").get<double>(), score(option), kSame);
  }
}

TEST_P(Working, OffersEachWayAtItsBestLegalSetting) {
  const Json& facts = json_.at("heard").at("facts");
  const bool faster = std::any_of(facts.begin(), facts.end(), [](const Json& fact) {
    return fact.at("fact") == "laps" && fact.at("value") == "faster";
  });
  // Then the score alone does not decide.
  if (faster) return;
  std::map<std::pair<std::string, bool>, double> best;
  for (const Json& option : working_.at("options")) {
    if (!option.at("legal").get<bool>()) continue;
    const std::string adjustment = option.at("adjustment");
    const double u = option.at("u");
    if (effect_of(adjustment).at("rules").empty() || relief(adjustment, u) <= 0.0) continue;
    const auto [entry, first] = best.try_emplace({adjustment, u > 0.0}, score(option));
    if (!first) entry->second = std::max(entry->second, score(option));
  }
  for (const Json& change : json_.at("changes")) {
    const bool plus = change.at("steps") > 0.0;
    EXPECT_NEAR(best.at({change.at("adjustment"), plus}), change.at("score").get<double>(), kSame)
        << change.at("adjustment");
  }
}

INSTANTIATE_TEST_SUITE_P(Pits, Working, testing::Range(std::size_t{0}, pits().size()));

TEST(WorkingOfTheseCases, IsWorthDoingAgain) {
  std::size_t changes = 0;
  std::size_t readings = 0;
  int last_notches = 0;
  int paid = 0;
  for (const Pit& pit : pits()) {
    const Json json = answer(pit);
    changes += json.at("changes").size();
    readings += json.at("working").at("readings").size();
    for (const Json& change : json.at("changes")) {
      last_notches += change.at("parts").at("last_notch") < 0.0 ? 1 : 0;
      paid += change.at("room_cost") > 0.001 ? 1 : 0;
    }
  }
  EXPECT_GT(changes, 40U);
  EXPECT_GT(readings, 30U);
  EXPECT_GT(last_notches, 0);
  EXPECT_GT(paid, 5);
}

}  // namespace
}  // namespace kartwright
