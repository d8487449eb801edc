#include "engine/kart/read_measured.h"

#include <algorithm>
#include <array>
#include <cmath>

#include <fmt/format.h>

namespace kartwright {

namespace {

constexpr std::string_view kCornerWeights = "corner-weights";
constexpr std::string_view kMass = "mass-with-driver";
constexpr std::string_view kCornerWeight = "corner-weight";  // the dimension that limits each

/// Reports a value beyond the limits; true where it lies within.
bool check_plausible(KartReading& reading, Span span, const MeasureDef& limits,
                     const Quantity& value) {
  const bool inside = value.si >= limits.from && value.si <= limits.to;
  const double slack = 1e-9 * std::max(std::abs(limits.from), std::abs(limits.to));
  if (inside || std::abs(value.si - std::clamp(value.si, limits.from, limits.to)) <= slack)
    return true;
  const System system = value.written.value_or(System::metric);
  reading.error(span, Code::implausible,
                fmt::format("no kart has `{}` at {}", limits.id, as_written(value, limits.kind)),
                fmt::format("between {} and {}", print_quantity(limits.from, limits.kind, system),
                            print_quantity(limits.to, limits.kind, system)));
  return false;
}

std::optional<CornerLoads> read_corners(KartReading& reading, const Node& node) {
  Fields fields(reading.document, node, reading.findings, "`corner-weights`");
  const MeasureDef* const usual = reading.pack.dimension(kCornerWeight);
  bool complete = true;
  const auto take = [&](std::string_view key) {
    const Node* const value = fields.required(key);
    const auto weight =
        value == nullptr ? std::nullopt : read_plausible(reading, *value, Kind::mass, usual);
    complete = complete && weight.has_value();
    return weight ? weight->si : 0.0;
  };
  const CornerLoads corners{take("left-front"), take("right-front"), take("left-rear"),
                            take("right-rear")};
  fields.finish();
  if (!complete) return {};
  const MeasureDef* const aboard = reading.pack.dimension(kMass);
  if (aboard != nullptr && (corners.total() < aboard->from || corners.total() > aboard->to)) {
    const auto mass = [&](double kg) { return print_quantity(kg, Kind::mass, reading.units()); };
    reading.error(
        node.span, Code::implausible,
        fmt::format("the four sum to {}, which kart and driver do not weigh",
                    mass(corners.total())),
        fmt::format("between {} and {}, the driver aboard", mass(aboard->from), mass(aboard->to)));
    return {};
  }
  return corners;
}

struct Derived {
  std::string_view measure;
  Kind kind;
  double value;
};

/// Shares are of the whole; a pair's difference has no sign.
std::array<Derived, 5> derived_from(const CornerLoads& on) {
  const double front = on.left_front + on.right_front;
  const double total = on.total();
  return {Derived{"front-share", Kind::ratio, front / total},
          Derived{"left-share", Kind::ratio, (on.left_front + on.left_rear) / total},
          Derived{"cross-share", Kind::ratio, (on.right_front + on.left_rear) / total},
          Derived{"front-pair-difference", Kind::mass, std::abs(on.left_front - on.right_front)},
          Derived{"rear-pair-difference", Kind::mass, std::abs(on.left_rear - on.right_rear)}};
}

/// Only measures that the pack knows, in the kind that it has them.
void add_derived(KartReading& reading, const Node& node, const CornerLoads& corners,
                 std::map<std::string, double, std::less<>>& measures) {
  for (const Derived& derived : derived_from(corners)) {
    const MeasureDef* const measure = reading.pack.measure(derived.measure);
    if (measure == nullptr || measure->kind != derived.kind) continue;
    if (!measures.emplace(measure->id, derived.value).second) continue;
    check_plausible(reading, node.span, *measure, {derived.value});
  }
}

std::pair<double, double> read_band(KartReading& reading, const MeasureDef& measure,
                                    const Node& node) {
  Fields fields(reading.document, node, reading.findings,
                fmt::format("the band of `{}`", measure.id));
  const auto take = [&](std::string_view key, double otherwise) {
    const Node* const end = fields.optional(key);
    const auto value =
        end == nullptr ? std::nullopt : read_plausible(reading, *end, measure.kind, &measure);
    return value ? value->si : otherwise;
  };
  const double from = take("from", measure.band_from.value_or(measure.from));
  const double to = take("to", measure.band_to.value_or(measure.to));
  fields.finish();
  if (from >= to) {
    reading.error(
        node.span, Code::implausible,
        fmt::format("the band of `{}` starts at or beyond its end", measure.id),
        fmt::format("it goes from {} to {}", print_quantity(from, measure.kind, System::metric),
                    print_quantity(to, measure.kind, System::metric)));
  }
  return {from, to};
}

}  // namespace

std::optional<Quantity> read_plausible(KartReading& reading, const Node& node, Kind kind,
                                       const MeasureDef* limits) {
  const std::optional<Quantity> value = reading.quantity(node, kind);
  if (!value || limits == nullptr) return value;
  return check_plausible(reading, node.span, *limits, *value) ? value : std::nullopt;
}

MeasuredParts read_measured(KartReading& reading, const Node* section) {
  std::vector<std::string> known = ids_of(reading.pack.measures);
  known.emplace_back(kCornerWeights);
  MeasuredParts out;
  for (const Entry* entry : named_entries(reading, section, "measured", "a measure", known)) {
    const MeasureDef* const measure = reading.pack.measure(entry->key);
    if (measure == nullptr) continue;  // the corner weights
    const auto value = read_plausible(reading, entry->value, measure->kind, measure);
    if (value) out.measures.emplace(entry->key, value->si);
  }
  const Node* const corners = given(section, kCornerWeights);
  if (corners != nullptr) out.corner_weights = read_corners(reading, *corners);
  if (out.corner_weights) add_derived(reading, *corners, *out.corner_weights, out.measures);
  return out;
}

std::map<std::string, std::pair<double, double>> read_bands(KartReading& reading,
                                                            const Node* section) {
  std::map<std::string, std::pair<double, double>> bands;
  const std::vector<std::string> known = ids_of(reading.pack.measures);
  for (const Entry* entry : named_entries(reading, section, "bands", "a measure", known)) {
    bands.emplace(entry->key, read_band(reading, *reading.pack.measure(entry->key), entry->value));
  }
  return bands;
}

std::map<std::string, double, std::less<>> read_dimensions(KartReading& reading,
                                                           const Node* section) {
  std::map<std::string, double, std::less<>> dimensions;
  const std::vector<std::string> known = ids_of(reading.pack.dimensions);
  for (const Entry* entry : named_entries(reading, section, "dimensions", "a dimension", known)) {
    const MeasureDef* const limits = reading.pack.dimension(entry->key);
    const auto value = read_plausible(reading, entry->value, limits->kind, limits);
    if (value) dimensions.emplace(entry->key, value->si);
  }
  return dimensions;
}

std::map<std::string, std::string> read_facts(KartReading& reading, const Node* section) {
  std::map<std::string, std::string> facts;
  const std::vector<std::string> known = ids_of(reading.pack.facts);
  for (const Entry* entry : named_entries(reading, section, "facts", "a fact", known)) {
    const FactDef& fact = *reading.pack.fact(entry->key);
    if (!fact.entered) {
      reading.error(entry->span, Code::bad_fact,
                    fmt::format("`{}` follows from other facts and cannot be stated", fact.id));
      continue;
    }
    const std::string value =
        scalar_text(reading.document, entry->value, reading.findings, fact.id);
    const bool read = entry->value.type == Node::Type::scalar &&
                      known_name(reading.document, entry->value, reading.findings,
                                 fmt::format("a value of `{}`", fact.id), fact.values);
    if (read) facts.emplace(fact.id, value);
  }
  return facts;
}

}  // namespace kartwright
