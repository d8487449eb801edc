// weighing.h - what the four scales say of a kart: is the weight where it should be, is the kart
// twisted or is it the floor or the scales, and which move of seat or ballast would mend it.
//
// Computed once from the kart and the readings; every text of the answer is made here.

#pragma once

#include <array>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "engine/chassis/mass_moves.h"
#include "engine/chassis/scales.h"
#include "engine/kart/kart.h"

namespace kartwright {

/// Where the resolution of the scales is known from.
enum class ResolutionFrom { crew, kart_file, assumed };

/// Readings by wheel, kg, the driver aboard.
struct Weighing {
  CornerLoads on;
  std::optional<CornerLoads> swapped = {};  ///< the scales of each axle changed over
  std::optional<CornerLoads> turned = {};   ///< the kart turned a quarter, scales with their wheels
  double resolution = 0;                    ///< kg; taken as the standard deviation of one scale
  ResolutionFrom resolution_from = ResolutionFrom::crew;
  bool from_kart_file = false;
  System written = System::metric;
};

/// A figure held against what is wanted of it. An end that is not there is open.
struct JudgedFigure {
  std::string_view id, label;  ///< of the measure, in the pack
  Kind kind = Kind::ratio;
  WithError figure;  ///< of a pair, left less right
  std::optional<double> from, to;
  bool ok = false;    ///< lies within
  bool sure = false;  ///< two standard deviations or more from the nearest end
  std::string text;   ///< "in the band", "over by 1.2 %"
};

/// One plain sentence that is so or not.
struct WeighingVerdict {
  std::string id;
  bool ok = false;
  bool sure = false;
  std::string text;
};

/// A part of the warp and what it stays with: one or several of frame, floor and scales.
struct WarpPart {
  std::vector<std::string_view> of;
  WithError warp;  ///< kg
};

struct WeighingAnswer {
  std::string kart;
  Weighing given;
  CornerLoads on;    ///< kg, the best of what was weighed
  double sigma = 0;  ///< kg, of one of those
  WithError total;
  Shares shares;
  Modes modes;
  std::vector<JudgedFigure> figures;  ///< front, left and cross share, front and rear pair
  std::vector<WarpPart> warp;
  std::string headline;
  std::vector<WeighingVerdict> verdicts;
  std::vector<std::string> modes_mean;     ///< total, pitch, roll and warp in plain words
  std::vector<std::string> twist;          ///< frame, floor or scales: what is known
  std::vector<std::string> cannot_tell;    ///< what these weighings leave open
  std::vector<std::string> next;           ///< the weighing that would tell more
  std::vector<MovePlan> plans;             ///< best first; empty where nothing is to be moved
  std::string moves_text;                  ///< what the plans reach, or why there is none
  std::vector<std::string> assumed;        ///< what nobody gave, each with its figure
  std::vector<std::string_view> cautions;  ///< texts, in the pack
  System units = System::metric;
};

/// Ids of the cautions that the scales give.
namespace weighing_cautions {
inline constexpr std::string_view kAboard = "weighing-aboard";
inline constexpr std::array<std::string_view, 3> kOfMoves{"torque-and-second-check",
                                                          "seat-and-ribs", "ballast-bolted"};
inline constexpr std::array<std::string_view, 2> kAlways{"frame-is-for-people-who-know",
                                                         "last-word"};
inline constexpr std::array<std::string_view, 3> kOfLifting{"lifted-axle", "stand-and-lift",
                                                            "last-word"};
}  // namespace weighing_cautions

/// The texts of those that the pack has.
std::vector<std::string_view> caution_texts(std::span<const std::string_view> ids,
                                            const Pack& pack);

/// REQUIRES: readings above zero, resolution above zero; the pack outlives the answer. Texts are in
/// `units`. Nothing where the pack lacks the measures or the dimensions that weighing asks for.
std::optional<WeighingAnswer> weigh(const Kart& kart, const Weighing& weighing, const Pack& pack,
                                    System units);

/// The best readings of all weighings: with one of the two tests the mean of both weighings, with
/// both the mean of the two tests. Warp of the frame alone is in the last, since the floor's turns
/// its sign with the kart and the scales' turns it with the scales.
struct BestReadings {
  CornerLoads on;
  double sigma = 0;
};
BestReadings best_readings(const Weighing& weighing);

/// The warp, as far apart as the weighings take it; the parts sum to the warp read at first.
/// Standard deviations: of one weighing 2 sigma, of a part sqrt(2) sigma.
std::vector<WarpPart> warp_parts(const Weighing& weighing);

/// "41.88 ± 0.06 %": a figure with its standard deviation, one unit behind both.
std::string print_measured(const WithError& figure, Kind kind, System units);

}  // namespace kartwright
