#include "engine/chassis/balance.h"

#include <algorithm>
#include <cmath>
#include <tuple>

#include "engine/chassis/scales.h"

namespace kartwright {

namespace {

constexpr double kReached = 1e-12;

double outside(double value, const Band& band) {
  return std::max({band.from - value, value - band.to, 0.0});
}

double from_middle(double value, const Band& band) {
  return std::abs(value - (band.from + band.to) / 2.0);
}

/// Tries all moves of the movables from `next` on, on top of `moves`.
class BalanceSearch {
 public:
  BalanceSearch(const Unbalanced& kart, const std::vector<Movable>& movables)
      : kart_(kart), movables_(movables) {}

  std::vector<Cure> all(int most_moves) {
    extend(0, most_moves);
    return std::move(found_);
  }

 private:
  void extend(std::size_t next, int left) {
    if (left == 0) return;
    for (std::size_t i = next; i < movables_.size(); ++i) {
      for (std::size_t mount = 0; mount < movables_[i].mounts.size(); ++mount) {
        if (mount == movables_[i].at) continue;
        moves_.push_back({i, mount});
        found_.push_back(cure());
        extend(i + 1, left - 1);
        moves_.pop_back();
      }
    }
  }

  Cure cure() const {
    Cure out;
    out.moves = moves_;
    out.predicted = after_moves(kart_, movables_, moves_);
    for (const MassMove& move : moves_) {
      const Movable& movable = movables_[move.movable];
      const double up = movable.mounts[move.mount].up - movable.mounts[movable.at].up;
      out.higher += movable.mass * up / kart_.on.total();
      out.minutes += movable.minutes;
    }
    const Shares shares = shares_of(out.predicted, 0.0);
    out.outside = outside(shares.front.value, kart_.front) + outside(shares.left.value, kart_.left);
    if (out.outside < kReached) out.outside = 0.0;
    return out;
  }

  const Unbalanced& kart_;
  const std::vector<Movable>& movables_;
  std::vector<MassMove> moves_;
  std::vector<Cure> found_;
};

}  // namespace

CornerLoads after_moves(const Unbalanced& kart, const std::vector<Movable>& movables,
                        const std::vector<MassMove>& moves) {
  Modes modes = modes_of(kart.on);
  // The warp staying, what one axle takes more the other takes too.
  const double track = (kart.front_track + kart.rear_track) / 2.0;
  for (const MassMove& move : moves) {
    const Movable& movable = movables[move.movable];
    const Mount& from = movable.mounts[movable.at];
    const Mount& to = movable.mounts[move.mount];
    modes.pitch += 2.0 * movable.mass * (to.forward - from.forward) / kart.wheelbase;
    modes.roll += 2.0 * movable.mass * (to.left - from.left) / track;
  }
  return loads_of(modes);
}

std::vector<Cure> cures(const Unbalanced& kart, const std::vector<Movable>& movables,
                        int most_moves, std::size_t how_many) {
  std::vector<Cure> found = BalanceSearch(kart, movables).all(most_moves);
  const Shares now = shares_of(kart.on, 0.0);
  const double missing = outside(now.front.value, kart.front) + outside(now.left.value, kart.left);
  std::erase_if(found, [&](const Cure& cure) { return cure.outside >= missing; });
  const auto order = [&](const Cure& cure) {
    const Shares shares = shares_of(cure.predicted, 0.0);
    return std::tuple(
        cure.outside, cure.moves.size(), cure.minutes,
        from_middle(shares.front.value, kart.front) + from_middle(shares.left.value, kart.left));
  };
  std::stable_sort(found.begin(), found.end(),
                   [&](const Cure& a, const Cure& b) { return order(a) < order(b); });
  if (!found.empty() && found.front().outside > 0.0) found.resize(1);
  std::erase_if(
      found, [&](const Cure& cure) { return found.front().outside == 0.0 && cure.outside > 0.0; });
  found.resize(std::min(found.size(), how_many));
  return found;
}

}  // namespace kartwright
