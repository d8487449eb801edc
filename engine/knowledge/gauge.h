// gauge.h - a check that is measured, not felt: what to measure, what is worked out from it, and
// what each outcome means. Plain data of a rule pack; the arithmetic is in chassis/gauges.h.

#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "engine/knowledge/rule.h"
#include "engine/quantity/quantity.h"

namespace kartwright {

/// The arithmetic that a figure may ask for.
enum class Formula {
  itself,
  difference,
  half,
  times,
  toe_angle,
  mean_rise,
  front_over_rear_rise,
  left_over_right_rise,
  side_difference,
  least_rise,
  most_rise,
  rise_behind,
  chain_links,
  chain_distance,
  odd
};
/// `itself`, `toe-angle` and so on, as rule files name them.
std::string_view name_of(Formula formula);
std::optional<Formula> formula_named(std::string_view name);
/// True where it takes amounts of four tyres each.
bool is_of_tyres(Formula formula);
/// How many inputs it takes, in the order that chassis/gauges.h says.
std::size_t inputs_of(Formula formula);

/// One amount that the crew reads off and hands in, as `--tight 20mm`.
struct GaugeReading {
  std::string id;  ///< the option without its dashes
  std::string label;
  Kind kind = Kind::length;
  double from = 0, to = 0;  ///< plausible range, SI
  std::string example;      ///< as somebody would write it
  bool optional = false;
  bool each_tyre = false;      ///< four amounts: left and right front, left and right rear
  std::string dimension = {};  ///< of the kart, which stands in where the reading is not given
  double times = 1.0;          ///< ... so many times
  bool operator==(const GaugeReading&) const = default;
};

/// One word of a few that the crew hands in, as `--drive clutch`.
struct GaugeChoice {
  std::string id;
  std::string label;
  struct Value {
    std::string id;
    std::string label;
    std::optional<double> amount = {};  ///< SI: what a formula takes for it, as a chain's pitch
    bool operator==(const Value&) const = default;
  };
  std::vector<Value> values = {};
  std::string example = {};
  bool operator==(const GaugeChoice&) const = default;
};

/// What is worked out. Inputs are readings, choices with amounts, earlier figures, or `setting:toe`
/// for the kart file's setting; where one is not known, neither is the figure. A figure with the
/// id of a reading stands in for it where it is not given.
struct GaugeFigure {
  std::string id;
  std::string label;
  Kind kind = Kind::length;
  Formula formula = Formula::itself;
  std::vector<std::string> of;
  double by = 1.0;                          ///< of Formula::times
  std::vector<std::string> only_with = {};  ///< readings of which one must be given; empty: none
  bool change = false;                      ///< shown with its sign
  bool inner = false;                       ///< for verdicts alone: not shown
  std::optional<double> shown_to = {};      ///< shown to the nearest of it, SI
  std::string measure = {};                 ///< whose band in a kart file replaces the limits here
  std::optional<double> from, to;           ///< what can be, SI; beyond is a slip of the hand
  std::string impossible = {};              ///< what is said of that
  bool operator==(const GaugeFigure&) const = default;
};

/// On which side of a crew's own band a verdict stands.
enum class BandSide { under, within, over };
std::string_view name_of(BandSide side);

/// What one outcome means. Its `because` is the meaning in plain words. It holds where its choices
/// were given and, of a figure, where `from` <= value < `to` (an open end has none). Its texts may
/// hold `{tyre}`, the tyres it speaks of, and `{size}`, the figure without its sign.
struct GaugeVerdict : Rule {
  std::string of;                                         ///< figure; empty: of the choices alone
  std::map<std::string, std::vector<std::string>> where;  ///< choice to its values
  std::optional<double> from, to;                         ///< SI
  BandSide side = BandSide::within;
  bool ok = false;
  bool stops = false;  ///< the kart is not run: it comes before the others
  bool alone = false;  ///< where it holds, those written after it are left out
  bool quiet = false;  ///< where it holds, nothing is said
  std::string says;    ///< the verdict in a few words
  std::string to_do;
  std::vector<std::pair<std::string, std::string>> states;  ///< facts for advice
  std::vector<std::string> cautions;
  bool operator==(const GaugeVerdict&) const = default;
};

struct Gauge {
  std::string id;  ///< the word behind `check`
  std::string label;
  std::string plain;               ///< what it finds out, for a novice
  std::vector<std::string> steps;  ///< how it is measured
  std::vector<GaugeReading> readings;
  std::vector<GaugeChoice> choices;
  std::vector<std::string> one_of;  ///< readings of which at least one is needed
  std::vector<GaugeFigure> figures;
  std::vector<GaugeVerdict> verdicts;  ///< as written: who stops leads, then who is not ok
  std::vector<std::string> cautions;
  Source source;

  const GaugeReading* reading(std::string_view name) const;
  const GaugeChoice* choice(std::string_view name) const;
  const GaugeFigure* figure(std::string_view name) const;
  bool operator==(const Gauge&) const = default;
};

}  // namespace kartwright
