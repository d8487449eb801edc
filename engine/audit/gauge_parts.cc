#include "engine/audit/gauge_parts.h"

#include <array>
#include <optional>

#include <fmt/format.h>

namespace kartwright {
namespace {

using enum FieldKind;

std::string in_full(const std::optional<double>& si) { return si ? fmt::format("{}", *si) : ""; }

std::string all_of(const std::vector<std::string>& items) {
  return fmt::format("{}", fmt::join(items, ", "));
}

void add_reading(const GaugeReading& reading, PackPart& part) {
  const std::string name = "--" + reading.id;
  part.fields.push_back({name, texts, reading.label});
  part.fields.push_back({name + " example", texts, reading.example});
  part.fields.push_back(
      {name + " plausible", numbers,
       fmt::format("kind {}: {} to {}", static_cast<int>(reading.kind), reading.from, reading.to)});
  part.fields.push_back({name + " taken", condition,
                         fmt::format("{}, {}", reading.optional ? "optional" : "needed",
                                     reading.each_tyre ? "four" : "one")});
  if (reading.dimension.empty()) return;
  part.fields.push_back(
      {name + " stand-in", numbers, fmt::format("{} times {}", reading.times, reading.dimension)});
}

void add_choice(const GaugeChoice& choice, PackPart& part) {
  const std::string name = "--" + choice.id;
  part.fields.push_back({name, texts, choice.label});
  for (const GaugeChoice::Value& value : choice.values) {
    part.fields.push_back({name + " " + value.id, texts, value.label});
    if (value.amount)
      part.fields.push_back({name + " " + value.id + " length", numbers, in_full(value.amount)});
  }
}

void add_figure(const GaugeFigure& figure, PackPart& part) {
  const std::string& name = figure.id;
  part.fields.push_back({name, texts, figure.label});
  part.fields.push_back({name + " worked out", numbers,
                         fmt::format("kind {}: {} of {} by {}{}", static_cast<int>(figure.kind),
                                     name_of(figure.formula), all_of(figure.of), figure.by,
                                     figure.change ? ", signed" : "")});
  part.fields.push_back(
      {name + " shown", condition,
       fmt::format("{} {}", figure.inner ? "no" : "yes", in_full(figure.shown_to))});
  part.fields.push_back({name + " measure", condition, figure.measure});
  part.fields.push_back({name + " only with", condition, all_of(figure.only_with)});
  part.fields.push_back({name + " possible", numbers,
                         fmt::format("{} to {}", in_full(figure.from), in_full(figure.to))});
  part.fields.push_back({name + " impossible", texts, figure.impossible});
}

PackPart part_of_gauge(const Gauge& gauge) {
  PackPart part{"gauge",
                gauge.id,
                gauge.source,
                {{"label", texts, gauge.label},
                 {"plain", texts, gauge.plain},
                 {"steps", texts, fmt::format("{}", fmt::join(gauge.steps, " "))},
                 {"one of", condition, all_of(gauge.one_of)},
                 {"cautions", texts, all_of(gauge.cautions)}}};
  for (const GaugeReading& reading : gauge.readings) add_reading(reading, part);
  for (const GaugeChoice& choice : gauge.choices) add_choice(choice, part);
  for (const GaugeFigure& figure : gauge.figures) add_figure(figure, part);
  return part;
}

std::string words_of(const GaugeVerdict& verdict) {
  std::string out;
  for (const auto& [choice, values] : verdict.where) {
    out += fmt::format("{}{}: {}", out.empty() ? "" : "; ", choice, fmt::join(values, " or "));
  }
  return out;
}

/// What a verdict does to the others.
std::string place_of(const GaugeVerdict& verdict) {
  return fmt::format("{}{}{}", verdict.stops ? "stops " : "", verdict.alone ? "alone " : "",
                     verdict.quiet ? "quiet" : "");
}

PackPart part_of_verdict(const GaugeVerdict& verdict, const Gauge& gauge) {
  static constexpr std::array<std::string_view, 3> kStatus{"experimental", "test", "stable"};
  std::string states;
  for (const auto& [fact, value] : verdict.states) {
    states += fmt::format("{}{}={}", states.empty() ? "" : ", ", fact, value);
  }
  return {"verdict rule",
          verdict.id,
          verdict.source,
          {{"of", texts, gauge.id},
           {"figure", condition, verdict.of},
           {"where", condition, words_of(verdict)},
           {"from", numbers, in_full(verdict.from)},
           {"to", numbers, in_full(verdict.to)},
           {"side", condition, std::string(name_of(verdict.side))},
           {"ok", condition, verdict.ok ? "yes" : "no"},
           {"place", condition, place_of(verdict)},
           {"states", condition, states},
           {"says", texts, verdict.says},
           {"do", texts, verdict.to_do},
           {"cautions", texts, all_of(verdict.cautions)},
           {"because", texts, verdict.because},
           {"provenance", texts, verdict.provenance.text()},
           {"status", status, std::string(kStatus.at(static_cast<std::size_t>(verdict.status)))}}};
}

}  // namespace

std::vector<PackPart> gauge_parts(const Pack& pack) {
  std::vector<PackPart> parts;
  for (const Gauge& gauge : pack.gauges) {
    parts.push_back(part_of_gauge(gauge));
    for (const GaugeVerdict& verdict : gauge.verdicts) {
      parts.push_back(part_of_verdict(verdict, gauge));
    }
  }
  return parts;
}

}  // namespace kartwright
