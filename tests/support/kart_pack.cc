#include "tests/support/kart_pack.h"

#include <fmt/format.h>

namespace kartwright {

namespace {

double si(std::string_view text, Kind kind) {
  return std::get<Quantity>(parse_quantity(text, kind)).si;
}

Adjustment listed(std::string id, std::vector<std::string> positions, std::string typical) {
  Adjustment adjustment;
  adjustment.id = id;
  adjustment.label = std::move(id);
  adjustment.measured = "as it stands, kart on the ground";
  adjustment.directions = {"more", "less"};
  adjustment.positions = std::move(positions);
  adjustment.most_at_once = 1;
  adjustment.minutes = 5;
  adjustment.typical = std::move(typical);
  return adjustment;
}

Adjustment ranged(std::string id, Kind kind, std::string_view from, std::string_view to,
                  std::string_view step, std::string typical) {
  Adjustment adjustment = listed(std::move(id), {}, std::move(typical));
  adjustment.measured = "overall, kart on the ground";
  adjustment.kind = kind;
  adjustment.from = si(from, kind);
  adjustment.to = si(to, kind);
  adjustment.step = si(step, kind);
  adjustment.reference_step = adjustment.step;
  adjustment.most_at_once = adjustment.step;
  adjustment.minutes = 6;
  return adjustment;
}

Adjustment pressure(std::string id, std::vector<std::string> same) {
  Adjustment adjustment =
      ranged(std::move(id), Kind::pressure, "0.55 bar", "0.95 bar", "0.05 bar", "0.75 bar");
  adjustment.same_setting_as = std::move(same);
  return adjustment;
}

MeasureDef measure(std::string id, Kind kind, std::string_view from, std::string_view to) {
  MeasureDef measure;
  measure.id = std::move(id);
  measure.kind = kind;
  measure.from = si(from, kind);
  measure.to = si(to, kind);
  return measure;
}

FactDef fact(std::string id, std::vector<std::string> values, bool entered) {
  FactDef fact;
  fact.id = std::move(id);
  fact.values = std::move(values);
  fact.entered = entered;
  return fact;
}

Pack made() {
  Pack pack;
  Adjustment axle = listed("axle", {"soft", "medium", "hard"}, "medium");
  axle.parts = true;
  pack.adjustments = {
      axle,
      listed("front-bar", {"out", "in"}, "out"),
      pressure("front-pressures", {"pressures", "rear-pressures"}),
      pressure("pressures", {"front-pressures", "rear-pressures"}),
      pressure("rear-pressures", {"pressures", "front-pressures"}),
      ranged("rear-width", Kind::length, "1300 mm", "1400 mm", "5 mm", "1360 mm"),
      ranged("toe", Kind::length, "-4 mm", "6 mm", "1 mm", "1 mm"),
  };
  for (Adjustment& adjustment : pack.adjustments) {
    if (adjustment.id.ends_with("-pressures")) adjustment.part_of = "pressures";
    if (adjustment.id == "rear-width") adjustment.typical_limit = si("1400 mm", Kind::length);
  }
  pack.dimensions = {
      measure("corner-weight", Kind::mass, "2 kg", "150 kg"),
      measure("mass-with-driver", Kind::mass, "50 kg", "300 kg"),
      measure("minimum-weight", Kind::mass, "40 kg", "300 kg"),
      measure("wheelbase", Kind::length, "0.9 m", "1.2 m"),
  };
  pack.measures = {
      measure("cross-share", Kind::ratio, "40 %", "60 %"),
      measure("front-pair-difference", Kind::mass, "0 kg", "30 kg"),
      measure("front-share", Kind::ratio, "30 %", "60 %"),
      measure("left-share", Kind::ratio, "35 %", "65 %"),
      measure("rear-pair-difference", Kind::mass, "0 kg", "30 kg"),
  };
  pack.measures[2].band_from = 0.41;
  pack.measures[2].band_to = 0.43;
  pack.facts = {fact("raised-mass", {"yes", "no"}, false),
                fact("roll-structure", {"yes", "no"}, true),
                fact("turn-in", {"brake", "throttle"}, true)};
  return pack;
}

}  // namespace

const Pack& kart_pack() {
  static const Pack pack = made();
  return pack;
}

ReadKart read_kart_text(const std::string& text, const Pack& pack) {
  const Document document = parse_document("kart.yaml", text);
  Findings findings;
  ReadKart read{read_kart(document, pack, findings), {}};
  read.found = findings.all();
  return read;
}

ReadKart read_kart_text(const std::string& text) { return read_kart_text(text, kart_pack()); }

std::string told(const std::vector<Diagnostic>& found) {
  std::string text;
  for (const Diagnostic& each : found) {
    text += fmt::format("{}:{}:{}: {}: {} ({})\n", each.file, each.span.line, each.span.column,
                        code_name(each.code), each.message, each.help);
  }
  return text;
}

}  // namespace kartwright
