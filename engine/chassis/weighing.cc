#include "engine/chassis/weighing.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <tuple>

#include <fmt/format.h>

#include "engine/chassis/weighing_words.h"

namespace kartwright {

namespace {

constexpr double kSure = 2.0;  // standard deviations

CornerLoads mean_of(const CornerLoads& a, const CornerLoads& b) {
  return {(a.left_front + b.left_front) / 2.0, (a.right_front + b.right_front) / 2.0,
          (a.left_rear + b.left_rear) / 2.0, (a.right_rear + b.right_rear) / 2.0};
}

/// The band of a measure: the crew's own, else the pack's.
void set_band(const Kart& kart, const MeasureDef& measure, JudgedFigure& figure) {
  figure.from = measure.band_from;
  figure.to = measure.band_to;
  const auto own = kart.bands.find(measure.id);
  if (own == kart.bands.end()) return;
  figure.from = own->second.first;
  figure.to = own->second.second;
}

/// A pair's difference is wanted small either way.
void judge_figure(JudgedFigure& figure) {
  const bool pair = figure.kind == Kind::mass;
  const double value = pair ? std::abs(figure.figure.value) : figure.figure.value;
  constexpr double kOpen = std::numeric_limits<double>::infinity();
  const double below = value - (pair ? -kOpen : figure.from.value_or(-kOpen));
  const double above = figure.to.value_or(kOpen) - value;
  figure.ok = below >= 0.0 && above >= 0.0;
  const double edge = std::min(std::abs(below), std::abs(above));
  figure.sure = edge >= kSure * figure.figure.sd;
}

struct WeighedFigure {
  std::string_view measure;
  WithError figure;
};

std::array<WeighedFigure, 5> weighed_figures(const Shares& shares, const Pairs& pairs) {
  return {WeighedFigure{"front-share", shares.front}, WeighedFigure{"left-share", shares.left},
          WeighedFigure{"cross-share", shares.cross},
          WeighedFigure{"front-pair-difference", pairs.front},
          WeighedFigure{"rear-pair-difference", pairs.rear}};
}

/// Empty where the pack lacks one of the measures.
std::vector<JudgedFigure> judged(const Kart& kart, const Pack& pack, const WeighingAnswer& answer) {
  std::vector<JudgedFigure> figures;
  const Pairs pairs = pairs_of(answer.on, answer.sigma);
  for (const WeighedFigure& asked : weighed_figures(answer.shares, pairs)) {
    const MeasureDef* const measure = pack.measure(asked.measure);
    if (measure == nullptr) return {};
    JudgedFigure figure{.id = measure->id,
                        .label = measure->label,
                        .kind = measure->kind,
                        .figure = asked.figure,
                        .from = {},
                        .to = {},
                        .text = {}};
    set_band(kart, *measure, figure);
    judge_figure(figure);
    figure.text = judged_text(figure, answer.units);
    figures.push_back(std::move(figure));
  }
  return figures;
}

WeighingVerdict figure_verdict(const JudgedFigure& figure, System units) {
  return {std::string(figure.id), figure.ok, figure.sure,
          fmt::format("{}: {}, {}", figure.label, print_measured(figure.figure, figure.kind, units),
                      figure.text)};
}

WeighingVerdict minimum_verdict(double minimum, const WithError& total, System units) {
  const double over = total.value - minimum;
  const std::string by = print_quantity(std::abs(over), Kind::mass, units);
  const std::string least = print_quantity(minimum, Kind::mass, units);
  const bool sure = std::abs(over) >= kSure * total.sd;
  return {"minimum-weight", over >= 0.0, sure,
          fmt::format("{} {} the class's minimum of {}{}", by, over >= 0.0 ? "over" : "under",
                      least, sure ? "" : ", nearer than these scales can tell")};
}

/// What the warp puts between the wheels of each pair is held against what is allowed of the front
/// pair.
WeighingVerdict twist_verdict(const WeighingAnswer& answer) {
  const WithError& warp = frame_part(answer).warp;
  const double limit = answer.figures[3].to.value_or(std::numeric_limits<double>::infinity());
  const double apart = std::abs(warp.value) / 2.0;
  return {"twist", apart <= limit, std::abs(limit - apart) >= kSure * warp.sd / 2.0,
          answer.twist.front()};
}

/// Weighed twice, the kart weighs the same.
void add_agreement(const std::optional<CornerLoads>& again, std::string_view name,
                   WeighingAnswer& answer) {
  if (!again) return;
  const double apart = again->total() - answer.given.on.total();
  const double sd = 2.0 * std::sqrt(2.0) * answer.given.resolution;
  constexpr double kTooFar = 3.0;
  const bool ok = std::abs(apart) <= kTooFar * sd;
  const std::string by = print_quantity(std::abs(apart), Kind::mass, answer.units);
  std::string text =
      ok ? fmt::format("the {} weighing is within {} of the first, as scales are", name, by)
         : fmt::format(
               "the {} weighing differs by {} from the first: weigh again before believing "
               "either",
               name, by);
  answer.verdicts.push_back({fmt::format("{}-weighs-the-same", name), ok, true, std::move(text)});
}

void add_verdicts(const Kart& kart, WeighingAnswer& answer) {
  if (kart.minimum_weight) {
    answer.verdicts.push_back(minimum_verdict(*kart.minimum_weight, answer.total, answer.units));
  }
  for (const JudgedFigure& figure : answer.figures) {
    answer.verdicts.push_back(figure_verdict(figure, answer.units));
  }
  answer.verdicts.push_back(twist_verdict(answer));
  add_agreement(answer.given.swapped, "swapped", answer);
  add_agreement(answer.given.turned, "turned", answer);
}

Band band_of(const JudgedFigure& figure) {
  return {figure.from.value_or(0), figure.to.value_or(1)};
}

bool shares_are_out(const WeighingAnswer& answer) {
  return !answer.figures[0].ok || !answer.figures[1].ok;
}

void add_moves(const Kart& kart, const KnownKart& known, WeighingAnswer& answer) {
  const std::vector<Movable> movables = movables_of(kart, known, answer.units);
  const Unbalanced unbalanced{.on = answer.on,
                              .wheelbase = known.kart.wheelbase,
                              .front_track = known.kart.front_track,
                              .rear_track = known.kart.rear_track,
                              .front = band_of(answer.figures[0]),
                              .left = band_of(answer.figures[1])};
  if (weighings_disagree(answer)) {
    answer.moves_text = "none is worked out of weighings that disagree";
    return;
  }
  if (shares_are_out(answer)) {
    answer.plans = move_plans(kart, unbalanced, movables, answer.sigma);
  }
  answer.moves_text = moves_in_words(answer, !movables.empty(), most_moves_tried(movables));
}

/// Of all that the physics assumed, what the moves rest on.
std::vector<std::string> assumed_here(const KnownKart& known, const Kart& kart, const Pack& pack,
                                      System units) {
  static constexpr std::array<std::string_view, 6> kOfAll{
      "wheelbase",          "seat-mass",       "default-front-width",
      "default-rear-width", "rear-tyre-width", "front-tyre-width"};
  std::vector<std::string> labels;
  if (kart.typical) labels.emplace_back("how far a typical kart's seat goes");
  for (const std::string_view id : known.assumed) {
    const bool ballast = id == "ballast-mass" && kart.setting("ballast-fore-aft") != nullptr;
    const bool used = ballast || std::find(kOfAll.begin(), kOfAll.end(), id) != kOfAll.end();
    if (used && pack.dimension(id) != nullptr)
      labels.push_back(assumed_text(*pack.dimension(id), units));
  }
  return labels;
}

std::vector<std::string_view> cautions_of(const WeighingAnswer& answer, const Pack& pack) {
  using namespace weighing_cautions;
  std::vector<std::string_view> ids{kAboard};
  if (!answer.plans.empty()) ids.insert(ids.end(), kOfMoves.begin(), kOfMoves.end());
  ids.insert(ids.end(), kAlways.begin(), kAlways.end());
  return caution_texts(ids, pack);
}

/// All that follows from the readings alone.
WeighingAnswer measured_answer(const Kart& kart, const Weighing& weighing, System units) {
  const BestReadings best = best_readings(weighing);
  return {.kart = kart.name,
          .given = weighing,
          .on = best.on,
          .sigma = best.sigma,
          .total = {best.on.total(), 2.0 * best.sigma},
          .shares = shares_of(best.on, best.sigma),
          .modes = modes_of(best.on),
          .figures = {},
          .warp = warp_parts(weighing),
          .headline = {},
          .verdicts = {},
          .modes_mean = {},
          .twist = {},
          .cannot_tell = {},
          .next = {},
          .plans = {},
          .moves_text = {},
          .assumed = {},
          .cautions = {},
          .units = units};
}

}  // namespace

std::vector<std::string_view> caution_texts(std::span<const std::string_view> ids,
                                            const Pack& pack) {
  std::vector<std::string_view> texts;
  for (const std::string_view id : ids) {
    if (const Caution* const caution = pack.caution(id)) texts.emplace_back(caution->text);
  }
  return texts;
}

BestReadings best_readings(const Weighing& weighing) {
  const auto& [first, swapped, turned] = std::tie(weighing.on, weighing.swapped, weighing.turned);
  if (!swapped && !turned) return {first, weighing.resolution};
  const double of_a_mean = weighing.resolution / std::sqrt(2.0);
  if (swapped && turned) return {mean_of(*swapped, *turned), of_a_mean};
  return {mean_of(first, swapped ? *swapped : *turned), of_a_mean};
}

std::vector<WarpPart> warp_parts(const Weighing& weighing) {
  const double once = modes_of(weighing.on).warp;
  const double part = std::sqrt(2.0) * weighing.resolution;
  std::vector<WarpPart> parts;
  double left = once;  // what has not been taken out
  std::vector<std::string_view> of{"frame"};
  const auto take_out = [&](const std::optional<CornerLoads>& again, std::string_view what) {
    if (!again) {
      of.push_back(what);
      return;
    }
    const double taken = (once - modes_of(*again).warp) / 2.0;
    left -= taken;
    parts.push_back({{what}, {taken, part}});
  };
  take_out(weighing.turned, "floor");
  take_out(weighing.swapped, "scales");
  const double sd = parts.empty() ? 2.0 * weighing.resolution : part;
  parts.insert(parts.begin(), {of, {left, sd}});
  return parts;
}

std::string print_measured(const WithError& measured, Kind kind, System units) {
  constexpr double kFinest = 1000.0;  // lengths known to millimetres are told in those
  WithError figure = measured;
  if (kind == Kind::length && units == System::metric) {
    figure.value = std::round(figure.value * kFinest) / kFinest;
    figure.sd = std::max(1.0, std::round(figure.sd * kFinest)) / kFinest;
  }
  std::string value = print_quantity(figure.value, kind, units);
  const std::size_t unit = value.find(' ');
  return value.substr(0, unit) + " ± " + print_quantity(figure.sd, kind, units);
}

std::optional<WeighingAnswer> weigh(const Kart& kart, const Weighing& weighing, const Pack& pack,
                                    System units) {
  Kart weighed = kart;
  weighed.corner_weights = weighing.on;
  const std::optional<KnownKart> known = known_kart(weighed, pack);
  if (!known) return {};
  WeighingAnswer answer = measured_answer(kart, weighing, units);
  answer.figures = judged(kart, pack, answer);
  if (answer.figures.empty()) return {};
  answer.modes_mean = modes_in_words(answer);
  answer.twist = twist_in_words(answer);
  answer.cannot_tell = left_open(answer);
  answer.next = next_weighings(answer);
  add_verdicts(kart, answer);
  add_moves(kart, *known, answer);
  answer.headline = weighing_headline(answer);
  answer.assumed = assumed_here(*known, kart, pack, units);
  answer.cautions = cautions_of(answer, pack);
  return answer;
}

}  // namespace kartwright
