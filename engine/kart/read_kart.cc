#include <cmath>

#include <fmt/format.h>

#include "engine/kart/kart.h"
#include "engine/kart/read_carried.h"
#include "engine/kart/read_measured.h"
#include "engine/kart/read_settings.h"
#include "engine/kart/travel.h"

namespace kartwright {

namespace {

std::optional<double> read_minimum_weight(KartReading& reading, Fields& fields) {
  const Node* const node = fields.optional("minimum-weight");
  if (node == nullptr) return {};
  const auto weight =
      read_plausible(reading, *node, Kind::mass, reading.pack.dimension("minimum-weight"));
  return weight ? std::optional(weight->si) : std::nullopt;
}

/// Fills in the class and hands back its limits.
const Node* read_class(KartReading& reading, const Node* node, Kart& kart) {
  if (node == nullptr) return nullptr;
  Fields fields(reading.document, *node, reading.findings, "`class`");
  kart.class_name = fields.text_or("name", "");
  kart.minimum_weight = read_minimum_weight(reading, fields);
  const Node* const limits = fields.optional("limits");
  fields.finish();
  return limits;
}

/// Two parts of a setting may differ; the whole then has no one value.
std::string parts_that_disagree(const Kart& kart, const Setting& whole, System system) {
  std::string told;
  for (const auto& [id, part] : kart.settings) {
    if (part.adjustment->part_of != whole.adjustment->id) continue;
    if (same_value(part.now, whole.now, whole.travel.step)) continue;
    told += fmt::format("{}`{}` at {}", told.empty() ? "" : " and ", id,
                        print_setting(part, part.now, system));
  }
  return told;
}

void check_agreement(KartReading& reading, const Kart& kart, const Node* settings) {
  if (settings == nullptr) return;
  for (const Entry& entry : settings->entries) {
    const Setting* const whole = kart.setting(entry.key);
    const std::string parts =
        whole == nullptr ? "" : parts_that_disagree(kart, *whole, reading.units());
    if (parts.empty()) continue;
    reading.warning(entry.value.span, Code::settings_disagree,
                    fmt::format("`{}` at {} contradicts {}", entry.key,
                                print_setting(*whole, whole->now, reading.units()), parts),
                    fmt::format("where the ends differ, leave `{}` out", entry.key));
  }
}

/// The scales and a mass that is written beside them.
void check_mass(KartReading& reading, const Kart& kart, const Node* dimensions) {
  constexpr double kApart = 0.03;  // of the mass: a helmet, a tank of fuel
  const auto mass = kart.dimensions.find("mass-with-driver");
  if (mass == kart.dimensions.end() || !kart.corner_weights) return;
  const double weighed = kart.corner_weights->total();
  if (std::abs(weighed - mass->second) <= kApart * weighed) return;
  const auto print = [&](double kg) { return print_quantity(kg, Kind::mass, reading.units()); };
  reading.warning(given(dimensions, mass->first)->span, Code::settings_disagree,
                  fmt::format("`mass-with-driver` is {}, and the four scales sum to {}",
                              print(mass->second), print(weighed)),
                  "the scales are taken; leave one of them out");
}

/// An empty file has no place of its own, so its first line is named.
Kart read_nothing(KartReading& reading, const Node& node) {
  const Span span = node.span.line > 0 ? node.span : Span{1, 1};
  reading.error(span, Code::wrong_shape, "a kart file must be a map of keys and values",
                "`start --example` writes one to begin with");
  return {};
}

}  // namespace

Kart read_kart(const Document& document, const Node& node, const Pack& pack, Findings& findings) {
  KartReading reading{document, pack, findings};
  if (node.type == Node::Type::null) return read_nothing(reading, node);
  Fields fields(document, node, findings, "a kart file");
  Kart kart;
  kart.name = fields.text_or("kart", "");
  if (kart.name.empty()) kart.name = "a kart without a name";
  const Node* const limits = read_class(reading, fields.optional("class"), kart);
  const SettingSections sections{.settings = fields.optional("settings"),
                                 .ranges = fields.optional("ranges"),
                                 .limits = limits,
                                 .parts = fields.optional("parts"),
                                 .minutes = fields.optional("minutes")};
  kart.settings = read_settings(reading, sections);
  check_agreement(reading, kart, sections.settings);
  MeasuredParts measured = read_measured(reading, fields.optional("measured"));
  kart.measures = std::move(measured.measures);
  kart.corner_weights = measured.corner_weights;
  kart.bands = read_bands(reading, fields.optional("bands"));
  const Node* const dimensions = fields.optional("dimensions");
  kart.dimensions = read_dimensions(reading, dimensions);
  check_mass(reading, kart, dimensions);
  kart.facts = read_facts(reading, fields.optional("facts"));
  CarriedParts carried = read_carried(reading, fields.optional("carried"));
  kart.carried = std::move(carried.masses);
  kart.seat_sideways = std::move(carried.seat_sideways);
  fields.finish();
  kart.units = reading.units();
  return kart;
}

Kart read_kart(const Document& document, const Pack& pack, Findings& findings) {
  return read_kart(document, document.root, pack, findings);
}

}  // namespace kartwright
