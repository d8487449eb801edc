// The masses to move, against every way to place them all; and what the scales should then read,
// against moments.

#include <algorithm>
#include <cmath>
#include <tuple>

#include <gtest/gtest.h>

#include "engine/chassis/balance.h"
#include "tests/support/any.h"
#include "tests/support/throws.h"

namespace kartwright {
namespace {

const int kGarages = throws_of_the_dice(1000);

struct Garage {
  Unbalanced kart;
  std::vector<Movable> movables;
};

Movable any_movable(Random& random) {
  Movable out;
  out.mass = any_between(random, 1.0, 12.0);
  const int mounts = whole(random, 1, 4);
  for (int i = 0; i < mounts; ++i)
    out.mounts.push_back({"", any_between(random, -0.3, 0.8), any_between(random, -0.4, 0.4),
                          any_between(random, 0.0, 0.4)});
  out.at = any_below(random, out.mounts.size());
  out.minutes = whole(random, 1, 4) * 5.0;
  return out;
}

Band any_band(Random& random, double middle) {
  const double from = middle + any_between(random, -0.02, 0.02);
  return {from, from + any_between(random, 0.004, 0.030)};
}

Garage any_garage(Random& random) {
  Garage out;
  out.kart.on = {any_between(random, 30.0, 40.0), any_between(random, 30.0, 40.0),
                 any_between(random, 42.0, 52.0), any_between(random, 42.0, 52.0)};
  out.kart.wheelbase = any_between(random, 1.03, 1.06);
  out.kart.front_track = any_between(random, 1.06, 1.16);
  out.kart.rear_track = any_between(random, 1.14, 1.20);
  out.kart.front = any_band(random, 0.43);
  out.kart.left = any_band(random, 0.50);
  const int count = whole(random, 1, 4);
  for (int i = 0; i < count; ++i) out.movables.push_back(any_movable(random));
  return out;
}

/// Kilogram metres about the rear axle and about the line under the middle of the kart.
struct Moment {
  double forward, left;
};

Moment moment_of(const Unbalanced& kart, const CornerLoads& on) {
  return {(on.left_front + on.right_front) * kart.wheelbase,
          (on.left_front - on.right_front) * kart.front_track / 2.0 +
              (on.left_rear - on.right_rear) * kart.rear_track / 2.0};
}

double warp_of(const CornerLoads& on) {
  return on.left_front - on.right_front - on.left_rear + on.right_rear;
}

/// Where every movable stands.
using Places = std::vector<std::size_t>;

std::vector<MassMove> moves_to(const Garage& garage, const Places& places) {
  std::vector<MassMove> out;
  for (std::size_t i = 0; i < places.size(); ++i) {
    if (places[i] != garage.movables[i].at) out.push_back({i, places[i]});
  }
  return out;
}

TEST(BalanceProperty, TheReadingsAfterMovesBalanceTheMoments) {
  Random random(111);
  for (int i = 0; i < throws_of_the_dice(2000); ++i) {
    const Garage garage = any_garage(random);
    Moment moment = moment_of(garage.kart, garage.kart.on);
    Places places;
    for (const Movable& movable : garage.movables) {
      places.push_back(any_below(random, movable.mounts.size()));
      const Mount& from = movable.mounts[movable.at];
      const Mount& to = movable.mounts[places.back()];
      moment.forward += movable.mass * (to.forward - from.forward);
      moment.left += movable.mass * (to.left - from.left);
    }
    const CornerLoads after = after_moves(garage.kart, garage.movables, moves_to(garage, places));
    const Moment read = moment_of(garage.kart, after);
    ASSERT_NEAR(after.total(), garage.kart.on.total(), 1e-9) << "garage " << i;
    ASSERT_NEAR(read.forward, moment.forward, 1e-9) << "garage " << i;
    ASSERT_NEAR(read.left, moment.left, 1e-9) << "garage " << i;
    ASSERT_NEAR(warp_of(after), warp_of(garage.kart.on), 1e-9) << "garage " << i;
  }
}

/// What counts in a cure, in the order in which it counts.
using Merit = std::tuple<double, std::size_t, double, double>;

double beyond(double share, const Band& band) {
  return share < band.from ? band.from - share : std::max(share - band.to, 0.0);
}

double off_middle(double share, const Band& band) {
  return std::abs(share - 0.5 * band.from - 0.5 * band.to);
}

/// Shares by moments, the warp as it was.
Merit merit_of(const Garage& garage, const Places& places) {
  const Unbalanced& kart = garage.kart;
  Moment moment = moment_of(kart, kart.on);
  double minutes = 0.0;
  for (const MassMove& move : moves_to(garage, places)) {
    const Movable& movable = garage.movables[move.movable];
    const Mount& from = movable.mounts[movable.at];
    moment.forward += movable.mass * (movable.mounts[move.mount].forward - from.forward);
    moment.left += movable.mass * (movable.mounts[move.mount].left - from.left);
    minutes += movable.minutes;
  }
  const double total = kart.on.total();
  const double front = moment.forward / kart.wheelbase / total;
  const double warp = warp_of(kart.on);
  const double roll = (4.0 * moment.left - warp * (kart.front_track - kart.rear_track)) /
                      (kart.front_track + kart.rear_track);
  const double left = (1.0 + roll / total) / 2.0;
  const double missed = beyond(front, kart.front) + beyond(left, kart.left);
  return {missed < 1e-12 ? 0.0 : missed, moves_to(garage, places).size(), minutes,
          off_middle(front, kart.front) + off_middle(left, kart.left)};
}

/// All placings with moves, no more than so many, that miss less than leaving it does.
std::vector<Merit> all_merits(const Garage& garage, std::size_t most_moves) {
  Places stay;
  for (const Movable& movable : garage.movables) stay.push_back(movable.at);
  const double now = std::get<0>(merit_of(garage, stay));
  std::vector<Merit> out;
  Places places(garage.movables.size(), 0);
  for (std::size_t i = 0; i < places.size();) {
    const Merit merit = merit_of(garage, places);
    const std::size_t moves = std::get<1>(merit);
    if (moves > 0 && moves <= most_moves && std::get<0>(merit) < now) out.push_back(merit);
    for (i = 0; i < places.size() && ++places[i] == garage.movables[i].mounts.size(); ++i)
      places[i] = 0;
  }
  std::sort(out.begin(), out.end());
  return out;
}

/// Those that a crew is shown: all that reach both bands, else the nearest alone.
std::vector<Merit> shown(std::vector<Merit> merits) {
  const auto reaches = [](const Merit& merit) { return std::get<0>(merit) == 0.0; };
  if (merits.empty()) return merits;
  const auto end = reaches(merits.front()) ? std::find_if_not(merits.begin(), merits.end(), reaches)
                                           : merits.begin() + 1;
  merits.erase(end, merits.end());
  return merits;
}

Places places_of(const Garage& garage, const Cure& cure) {
  Places out;
  for (const Movable& movable : garage.movables) out.push_back(movable.at);
  for (const MassMove& move : cure.moves) out[move.movable] = move.mount;
  return out;
}

void expect_merit(const Merit& ours, const Merit& best) {
  ASSERT_NEAR(std::get<0>(ours), std::get<0>(best), 1e-12);
  ASSERT_EQ(std::get<1>(ours), std::get<1>(best));
  ASSERT_EQ(std::get<2>(ours), std::get<2>(best));
  ASSERT_NEAR(std::get<3>(ours), std::get<3>(best), 1e-12);
}

TEST(BalanceProperty, EveryCureIsFoundInTheOrderOfItsMerit) {
  Random random(112);
  int reached = 0, nearest = 0, none = 0;
  for (int i = 0; i < kGarages; ++i) {
    const Garage garage = any_garage(random);
    const int most_moves = whole(random, 1, 4);
    const std::vector<Merit> best = shown(all_merits(garage, static_cast<std::size_t>(most_moves)));
    const std::vector<Cure> found = cures(garage.kart, garage.movables, most_moves, 1000);
    ASSERT_EQ(found.size(), best.size()) << "garage " << i;
    for (std::size_t j = 0; j < found.size(); ++j) {
      ASSERT_NEAR(found[j].outside, std::get<0>(best[j]), 1e-12) << "garage " << i;
      ASSERT_EQ(found[j].minutes, std::get<2>(best[j])) << "garage " << i;
      expect_merit(merit_of(garage, places_of(garage, found[j])), best[j]);
      if (HasFatalFailure()) FAIL() << "garage " << i << ", cure " << j;
    }
    ++(best.empty() ? none : std::get<0>(best.front()) == 0.0 ? reached : nearest);
  }
  EXPECT_GT(std::min({reached, nearest, none}), kGarages / 50) << reached << nearest << none;
}

}  // namespace
}  // namespace kartwright
