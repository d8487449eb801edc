// chain.h - roller chain: its length for two sprockets and a distance, and the distance for a
// length.

#pragma once

#include <optional>

namespace kartwright {

/// Pitches of chain around two sprockets: 2C + (n + N)/2 + (N - n)^2 / (4 pi^2 C), the standard
/// approximation. `distance` is between the shafts, in pitches. REQUIRES: distance > 0.
double chain_pitches(double small_teeth, double large_teeth, double distance);

/// Distance in pitches between the shafts that a chain of so many pitches needs: the formula above,
/// solved for C. Nothing where it is too short: the sprockets would meet before it goes round.
std::optional<double> chain_distance(double small_teeth, double large_teeth, double pitches);

/// The chain's links, an even number, that is nearest to what is needed; a chain with an odd number
/// needs an offset link.
int nearest_even_links(double pitches);

/// Over the tips of the teeth, in pitches: 0.6 + cot(pi / N).
double sprocket_diameter(int teeth);

}  // namespace kartwright
