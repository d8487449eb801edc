// read_measured.h - what the crew has measured on the kart, and the facts that stand for it.

#pragma once

#include "engine/kart/reading.h"

namespace kartwright {

/// A quantity within the limits of a definition, where there is one. Nothing where it cannot be
/// read or no kart has it; both are told.
std::optional<Quantity> read_plausible(KartReading& reading, const Node& node, Kind kind,
                                       const MeasureDef* limits);

struct MeasuredParts {
  std::map<std::string, double, std::less<>> measures;  ///< by id, SI
  std::optional<CornerLoads> corner_weights;            ///< kg
};

/// Measures by id, SI. Four `corner-weights` give the shares and the differences of a pair that are
/// not given themselves: front and left share, cross share (right front and left rear) of the
/// whole, and the distance between the two wheels of an end. Reports what no kart weighs or
/// measures.
MeasuredParts read_measured(KartReading& reading, const Node* section);

/// The crew's own target bands by measure id, SI. An end left out is the pack's.
std::map<std::string, std::pair<double, double>> read_bands(KartReading& reading,
                                                            const Node* section);

/// Dimensions by the pack's ids, SI.
std::map<std::string, double, std::less<>> read_dimensions(KartReading& reading,
                                                           const Node* section);

/// Facts that stand for this kart, by fact id.
std::map<std::string, std::string> read_facts(KartReading& reading, const Node* section);

}  // namespace kartwright
