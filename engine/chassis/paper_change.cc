#include "engine/chassis/paper_change.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "engine/kart/travel.h"

namespace kartwright {

namespace {

constexpr int kStepsOfADimension = 10;

void refuse(Findings& findings, const WrittenAt& at, Code code, std::string message,
            std::string help) {
  findings.add({.code = code,
                .file = at.file,
                .span = at.span,
                .message = std::move(message),
                .help = std::move(help),
                .source = at.source});
}

/// What may stand on the left of `=`: settings of this kart, dimensions, and the front share.
std::vector<std::string> known_names(const Kart& kart, const Pack& pack) {
  std::vector<std::string> names;
  for (const auto& [id, setting] : kart.settings) names.push_back(id);
  for (const MeasureDef& dimension : pack.dimensions) {
    if (dimension.assumed) names.push_back(dimension.id);
  }
  for (const MeasureDef& measure : pack.measures) {
    if (measure.assumed) names.push_back(measure.id);
  }
  return names;
}

const MeasureDef* definition_of(const Pack& pack, std::string_view id) {
  const MeasureDef* const found = pack.dimension(id);
  const MeasureDef* const one = found != nullptr ? found : pack.measure(id);
  return one != nullptr && one->assumed ? one : nullptr;
}

/// Where it stands now: the crew's figure, else the assumed one.
double now_of(const Kart& kart, const MeasureDef& definition) {
  const auto dimension = kart.dimensions.find(definition.id);
  if (dimension != kart.dimensions.end()) return dimension->second;
  const auto measure = kart.measures.find(definition.id);
  return measure != kart.measures.end() ? measure->second : *definition.assumed;
}

/// The ends within which some kart could be: the usual range, and as much again on both sides.
Range plausible(const Adjustment& adjustment) {
  const double width = adjustment.to - adjustment.from;
  return {adjustment.from - width, adjustment.to + width, adjustment.step};
}

std::string between(double from, double to, Kind kind, System system) {
  return fmt::format("between {} and {}", print_quantity(from, kind, system),
                     print_quantity(to, kind, system));
}

std::optional<double> read_position(std::string_view text, const Setting& setting,
                                    const WrittenAt& at, Findings& findings) {
  const std::optional<double> place = place_named(setting.travel, text);
  if (place) return place;
  std::string names;
  for (const std::string& name : setting.travel.names) names += (names.empty() ? "" : ", ") + name;
  refuse(findings, at, Code::setting_out_of_range,
         fmt::format("`{}` has no position `{}` on this kart", setting.adjustment->id, text),
         "one of " + names);
  return {};
}

std::optional<double> read_within(std::string_view text, std::string_view id, Kind kind,
                                  const Range& range, const WrittenAt& at, Findings& findings) {
  const ParsedQuantity parsed = parse_quantity(text, kind);
  if (const auto* const wrong = std::get_if<QuantityError>(&parsed)) {
    refuse(findings, at, Code::bad_quantity, wrong->what, wrong->expected);
    return {};
  }
  const auto& value = std::get<Quantity>(parsed);
  const double slack = 1e-9 * std::max(std::abs(range.from), std::abs(range.to));
  if (value.si >= range.from - slack && value.si <= range.to + slack) return value.si;
  const System system = value.written.value_or(System::metric);
  refuse(findings, at, Code::implausible,
         fmt::format("no kart has `{}` at {}", id, print_quantity(value.si, kind, system)),
         between(range.from, range.to, kind, system));
  return {};
}

std::string warning_of(const Setting& setting, double to) {
  const Travel& travel = setting.travel;
  const double slack = 1e-6 * travel.step;
  const bool beyond = to < travel.places.front() - slack || to > travel.places.back() + slack;
  if (!class_allows(setting, to)) return "beyond what the class allows";
  return beyond ? "beyond the range of this kart" : "";
}

std::optional<double> read_value(std::string_view text, const PaperChange& change,
                                 const WrittenAt& at, Findings& findings) {
  if (change.setting == nullptr) {
    const MeasureDef& definition = *change.definition;
    return read_within(text, change.id, definition.kind, {definition.from, definition.to}, at,
                       findings);
  }
  const Adjustment& adjustment = *change.setting->adjustment;
  if (adjustment.listed()) return read_position(text, *change.setting, at, findings);
  const auto value =
      read_within(text, change.id, adjustment.kind, plausible(adjustment), at, findings);
  if (!value) return {};
  const double place = nearest_place(change.setting->travel, *value);
  return same_value(place, *value, adjustment.step) ? place : *value;
}

/// The name and what stands behind the `=`, or nothing, which is told.
std::optional<std::pair<PaperChange, std::string_view>> read_name(std::string_view text,
                                                                  const Kart& kart,
                                                                  const Pack& pack,
                                                                  const WrittenAt& at,
                                                                  Findings& findings) {
  const std::size_t equals = text.find('=');
  PaperChange change;
  change.id = text.substr(0, equals);
  change.setting = kart.setting(change.id);
  if (change.setting == nullptr) change.definition = definition_of(pack, change.id);
  if (change.setting == nullptr && change.definition == nullptr) {
    const bool absent = pack.adjustment(change.id) != nullptr;
    refuse(findings, at, Code::unknown_name,
           absent ? fmt::format("this kart has no `{}`", change.id)
                  : fmt::format("`{}` is no setting and no size of a kart", change.id),
           suggestion(change.id, known_names(kart, pack)));
    return {};
  }
  if (equals == std::string_view::npos) {
    refuse(findings, at, Code::wrong_shape, fmt::format("`{}` needs a value", change.id),
           fmt::format("such as `{}=...`", change.id));
    return {};
  }
  change.from = change.setting != nullptr ? change.setting->now : now_of(kart, *change.definition);
  return std::pair(std::move(change), text.substr(equals + 1));
}

PaperChange at_value(PaperChange change, double to) {
  change.to = to;
  if (change.setting != nullptr) change.warning = warning_of(*change.setting, to);
  return change;
}

/// From one to the other, both with; upward or downward.
std::vector<double> steps_between(const PaperChange& change, double from, double to) {
  double step = (to - from) / kStepsOfADimension;
  if (change.setting != nullptr) step = change.setting->travel.step;
  std::vector<double> values;
  if (step == 0.0) return {from};
  const double count = std::min(std::abs((to - from) / step), double{kMostPlaces});
  for (int i = 0; i <= static_cast<int>(count + 1e-6); ++i)
    values.push_back(from + std::copysign(step, to - from) * i);
  return values;
}

}  // namespace

Kind PaperChange::kind() const {
  return setting != nullptr ? setting->adjustment->kind : definition->kind;
}

std::optional<PaperChange> parse_paper_change(std::string_view text, const Kart& kart,
                                              const Pack& pack, const WrittenAt& at,
                                              Findings& findings) {
  auto named = read_name(text, kart, pack, at, findings);
  if (!named) return {};
  const auto to = read_value(named->second, named->first, at, findings);
  return to ? std::optional(at_value(std::move(named->first), *to)) : std::nullopt;
}

std::vector<PaperChange> parse_sweep(std::string_view text, const Kart& kart, const Pack& pack,
                                     const WrittenAt& at, Findings& findings) {
  auto named = read_name(text, kart, pack, at, findings);
  if (!named) return {};
  const auto& [change, values] = *named;
  const std::size_t dots = values.find("..");
  if (dots == std::string_view::npos) {
    refuse(findings, at, Code::wrong_shape, "a sweep goes from one value to another",
           "such as `rear-width=1320mm..1400mm`");
    return {};
  }
  const auto from = read_value(values.substr(0, dots), change, at, findings);
  const auto to = read_value(values.substr(dots + 2), change, at, findings);
  std::vector<PaperChange> sweep;
  if (!from || !to) return sweep;
  for (const double value : steps_between(change, *from, *to))
    sweep.push_back(at_value(change, value));
  return sweep;
}

bool moves_loads(const PaperChange& change) {
  return change.setting == nullptr || moves_loads(std::string_view(change.id));
}

KnownKart changed(const KnownKart& known, const Kart& kart, const Pack& pack,
                  const std::vector<PaperChange>& changes) {
  // Sizes first: a moved seat moves the mass that the sizes give it.
  Kart measured = kart;
  bool any = false;
  for (const PaperChange& change : changes) {
    if (change.setting != nullptr) continue;
    any = true;
    const bool dimension = pack.dimension(change.id) != nullptr;
    (dimension ? measured.dimensions : measured.measures)[change.id] = change.to;
    if (change.id == "mass-with-driver") measured.corner_weights.reset();
  }
  KnownKart out = any ? known_kart(measured, pack).value_or(known) : known;
  for (const PaperChange& change : changes) {
    if (change.setting != nullptr && moves_loads(change))
      change_setting(out, *change.setting, change.to);
  }
  return out;
}

std::string print_value(const PaperChange& change, double value, System system) {
  return change.setting != nullptr ? print_setting(*change.setting, value, system)
                                   : print_quantity(value, change.definition->kind, system);
}

}  // namespace kartwright
