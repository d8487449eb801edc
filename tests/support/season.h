// season.h - an invented kart driven for an invented season, with the truth known: what its
// adjustments really do, where it really stands, what the track does and how well a driver tells.
//
// The kart of a season differs from the rules: each of its true effects is drawn from the rules'
// own spread. Each run, the kart stands so many notches off the pace optimum on every axis; the
// driver feels what the symptoms read on them, with an error, and says it in whole severities; the
// clock loses time with the square of the error, and scatters. Between runs the track drifts and
// the crew makes a change.

#pragma once

#include <Eigen/Dense>
#include <cstdint>
#include <functional>
#include <map>
#include <random>
#include <string>
#include <vector>

#include "engine/decision/effects.h"
#include "engine/kart/kart.h"
#include "engine/records/run.h"

namespace kartwright {

/// What is not drawn by lot.
struct SeasonPlan {
  int days = 8;
  int runs_a_day = 8;
  int laps_a_run = 9;
  std::uint64_t seed = 1;
  std::string first_day = "2026-04-04";
  std::string track = "green";           ///< all day, where no other is given:
  std::vector<std::string> tracks = {};  ///< by run of the day, the last one for the rest
  /// What these adjustments truly do, as a multiple of what the rules say; the others do what the
  /// rules say. Without any, all are drawn from the rules' spread.
  std::map<std::string, double> multiples = {};
  std::size_t most_said = 100;  ///< symptoms in a debrief, the worst of them; more: it is complete
  double base_lap = 31.0;       ///< seconds, of the kart at its pace optimum
  double loss_a_square = 0.02;  ///< seconds a lap for each weighed notch squared
  double lap_sd = 0.06;         ///< seconds
  double drift_a_lap = -0.002;  ///< seconds: the track coming in
  double start = 1.0;           ///< how far off a day starts, in spreads of the prior
  std::string outing = "run";   ///< what a session is called, before its number
  double say_sd = 0.7;          ///< notches, of what the driver feels: as `fair` is taken
  double track_sd = 0.25;       ///< notches, of every axis between two runs: as the rules take it
};

/// What a crew may do between two runs: moves the kart and gives the changes made. It may write
/// into the runs so far what it made of them.
using Crew = std::function<std::vector<RunChange>(Kart&, std::vector<Run>& so_far)>;

/// A season as it is driven.
class Season {
 public:
  /// The kart is taken as it stands. REQUIRES: the pack outlives the season.
  Season(const Pack& pack, Kart kart, SeasonPlan plan);

  /// How far each adjustment's true effect is from what the rules say, notches a step, by axis.
  const std::vector<Eigen::VectorXd>& truth() const { return truth_; }
  /// What the rules say on the season's track.
  const std::vector<Effect>& rules() const { return rules_; }
  const Kart& kart() const { return kart_; }

  /// Drives it all. The kart stands at the pace optimum but for what is drawn at the start of a
  /// day.
  std::vector<Run> drive(const Crew& crew);

 private:
  std::string track_of(int run) const;
  void draw_truth();
  Run drive_run(const std::string& at, int run);
  void move_by(const std::vector<RunChange>& changes, int before);
  std::vector<Report> debrief();
  double normal(double sd);

  const Pack& pack_;
  Kart kart_;
  SeasonPlan plan_;
  std::mt19937_64 lots_;
  std::vector<Effect> rules_;
  std::vector<Eigen::VectorXd> truth_;
  Eigen::VectorXd stands_;  ///< notches from the pace optimum, by axis
  int lap_of_day_ = 0;
};

/// A crew that moves one adjustment after the other, one step there and back.
Crew tries_everything(const Pack& pack, std::uint64_t seed);

/// The change that puts a setting elsewhere; the kart is moved.
RunChange make_change(Kart& kart, const std::string& adjustment, double to);

}  // namespace kartwright
