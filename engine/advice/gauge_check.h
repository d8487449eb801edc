// gauge_check.h - a measurement held against the crew's limits: the verdicts, and how far they move
// the odds of the faults that `advise` weighs.

#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/advice/gauge_readings.h"
#include "engine/kart/kart.h"

namespace kartwright {

/// A figure that could be worked out, SI.
struct FigureFound {
  const GaugeFigure* figure = nullptr;
  double value = 0.0;
  Amounts tyres = {};  ///< of each tyre, where the formula looks for one
};

/// The outcome on one figure, or on the choices alone. The limits are what would be in order, SI:
/// the crew's band, the range of the verdict where it is ok itself, else the joined ranges of those
/// that are; an open end has none.
struct VerdictFound {
  const GaugeVerdict* verdict = nullptr;
  FigureFound found = {};  ///< none of the choices alone
  std::optional<double> from = {}, to = {};
  bool crews_band = false;
  std::vector<std::string_view> tyres = {};  ///< "left front": those it speaks of
};

/// What one evidence rule says of a fault, once a fact is stated.
struct EvidenceFound {
  std::string fault;  ///< id
  std::string rule;
  double decibans = 0.0;
  std::string fact, value;
};

/// Points into the pack, which outlives it.
struct GaugeCheck {
  const Gauge* gauge = nullptr;
  GaugeReadings given;
  std::vector<std::string> assumed = {};    ///< readings that the kart's dimensions stood in for
  std::vector<FigureFound> figures = {};    ///< in the gauge's order; stand-ins too
  std::vector<VerdictFound> verdicts = {};  ///< the leading one first, no quiet ones
  std::vector<std::pair<std::string, std::string>> facts = {};  ///< what to state to `advise`
  std::vector<EvidenceFound> evidence = {};
  /// Measures to write into the kart file instead, where that says the same: id and SI.
  std::vector<std::pair<const MeasureDef*, double>> measures = {};
  std::vector<std::string> cautions = {};  ///< texts
};

/// Judges readings. With a kart, its setting, dimensions and bands count. Throws InputError where a
/// figure cannot be, as a loosest point with less travel than the tightest. REQUIRES: the pack
/// outlives the result.
GaugeCheck check_gauge(const Gauge& gauge, const GaugeReadings& given, const Pack& pack,
                       const Kart* kart);

/// What stating a fact would add to each fault, by the fault's rules; other facts unstated.
std::vector<EvidenceFound> evidence_of(std::string_view fact, std::string_view value,
                                       const Pack& pack, const Kart& kart);

}  // namespace kartwright
