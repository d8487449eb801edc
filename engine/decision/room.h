// room.h - what it costs to spend travel today that the track will want tomorrow.
//
// The price of a move is how much worse the best later answer to each stage of the forecast is for
// the ends of travel: V(S) - V_free(S), over the handling error of leaving the kart alone. It is
// never negative.

#pragma once

#include <Eigen/Core>
#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "engine/decision/effects.h"
#include "engine/decision/forecast.h"
#include "engine/decision/options.h"

namespace kartwright {

/// Prices moves of one kart on one day.
class Room {
 public:
  /// `mean` in notches and `weights` per axis; `ways` two for each adjustment, as all_ways gives
  /// them, and `effects` one, in the same order. Both must outlive it. A later move goes to any
  /// place that the class and the box allow: by then there is time, and more than one move to make
  /// it in.
  Room(const Eigen::VectorXd& mean, const Eigen::VectorXd& weights,
       const std::vector<Stage>& stages, const std::vector<Way>& ways,
       const std::vector<Effect>& effects);

  /// (V(S) - V_free(S)) / max(J(none), 0.45) after moving adjustment number `adjustment` by `steps`
  /// reference steps: a share of the handling error. V is the sum over stages of the stage's weight
  /// times the least loss over one later move or none; V_free the same with twelve reference steps
  /// of travel either way. 0 without a forecast.
  double cost(std::size_t adjustment, double steps) const;

  /// The same of doing nothing now: the travel that is missing already.
  double cost_of_nothing() const { return levers_.empty() ? 0.0 : cost(0, 0.0); }

  /// Where the stages to come, by their weights, would best have the adjustment, all else as it is:
  /// reference steps from now, one of its places. Nothing without a forecast or a known effect.
  std::optional<double> wanted(std::size_t adjustment) const;

 private:
  /// One adjustment as a later move sees it.
  struct Lever {
    std::size_t first = 0, last = 0;  ///< its places, in places_
    double grid = 1.0;                ///< reference steps between places
    double push = 0.0;                ///< b' W b
    double doubt = 0.0;               ///< tr(W Lambda)
    double reach = 0.0;  ///< no move gains more than reach times the square of the slope
  };
  /// A move already made.
  struct Made {
    std::size_t lever = 0;
    double steps = 0.0;
    Eigen::VectorXd bends;  ///< by lever: b' W b of the move, what a step of it adds to the slope
  };

  /// The least that a later move, or none, adds to the loss: within the travel there is, and with
  /// as much of it as one could want.
  struct Least {
    double within = 0.0, free = 0.0;
  };

  std::span<const double> places_of(const Lever& lever) const {
    return std::span(places_).subspan(lever.first, lever.last - lever.first);
  }
  void add_later_move(std::size_t lever, const Made& made, double slope, Least& least) const;
  double spent(std::size_t stage, const Made& made) const;

  const std::vector<Effect>& effects_;
  std::vector<double> weights_;  ///< of the stages
  std::vector<double> losses_;   ///< by stage: the loss there with nothing moved
  std::vector<Lever> levers_;
  std::vector<double> places_;  ///< by lever: reference steps from now, ascending, 0 among them
  Eigen::MatrixXd slopes_;      ///< levers by stages: b' W (m + d)
  Eigen::MatrixXd pushed_;      ///< axes by levers: W b
  double unit_ = 1.0;           ///< max(J(none), 0.45)
};

}  // namespace kartwright
