#include "engine/advice/explain_gauge.h"

#include <algorithm>

#include <fmt/format.h>

#include "engine/advice/gauge_readings.h"
#include "engine/advice/gauge_words.h"

namespace kartwright {
namespace {

/// Before the name of a check, since `toe` is an adjustment as well.
constexpr std::string_view kCheck = "check-";

bool takes(const Gauge& gauge, std::string_view measure) {
  return std::any_of(gauge.figures.begin(), gauge.figures.end(),
                     [&](const GaugeFigure& figure) { return figure.measure == measure; });
}

bool says_verdict(const Gauge& gauge, std::string_view verdict) {
  return std::any_of(gauge.verdicts.begin(), gauge.verdicts.end(),
                     [&](const GaugeVerdict& each) { return each.id == verdict; });
}

std::string outcome_text(const GaugeVerdict& verdict, const Gauge& gauge) {
  std::string out = fmt::format("{}: {}; {}. Do: {}", holds_where(verdict, gauge, System::metric),
                                verdict_text(verdict.says, "one tyre"),
                                verdict_text(verdict.because, "that tyre"),
                                verdict_text(verdict.to_do, "that tyre"));
  for (const auto& [fact, value] : verdict.states) {
    out += fmt::format(" (--fact {}={})", fact, value);
  }
  return fmt::format("{} [{}; {}]", out, verdict.id, verdict.provenance.text());
}

}  // namespace

const Gauge* gauge_named(std::string_view id, const Pack& pack) {
  if (id.starts_with(kCheck)) return pack.gauge(id.substr(kCheck.size()));
  if (const Gauge* gauge = pack.gauge(id)) return gauge;
  for (const Gauge& gauge : pack.gauges) {
    if (!id.empty() && (takes(gauge, id) || says_verdict(gauge, id))) return &gauge;
  }
  return nullptr;
}

std::string range_text(std::optional<double> from, std::optional<double> to, Kind kind,
                       System system) {
  const auto print = [&](double si) { return print_quantity(si, kind, system); };
  if (from && to) return fmt::format("from {} to under {}", print(*from), print(*to));
  if (from) return "from " + print(*from);
  return to ? "under " + print(*to) : "";
}

std::string holds_where(const GaugeVerdict& verdict, const Gauge& gauge, System system) {
  std::string out;
  const auto add = [&](const std::string& text) { out += (out.empty() ? "" : ", ") + text; };
  if (const GaugeFigure* figure = gauge.figure(verdict.of)) {
    const std::string range = range_text(verdict.from, verdict.to, figure->kind, system);
    add(figure->label + (range.empty() ? "" : " ") + range);
  }
  for (const auto& [choice, values] : verdict.where) {
    add(fmt::format("{} {}", choice, fmt::join(values, " or ")));
  }
  return out.empty() ? "else" : out;
}

std::vector<std::string> options_text(const Gauge& gauge, System system) {
  std::vector<std::string> out;
  for (const GaugeReading& reading : gauge.readings) {
    out.push_back(fmt::format("--{} {}: {}, {}{}", reading.id, reading.example, reading.label,
                              plausible_text(reading, system),
                              reading.optional ? "; may be left out" : ""));
  }
  for (const GaugeChoice& choice : gauge.choices) {
    std::vector<std::string> values;
    for (const GaugeChoice::Value& value : choice.values) {
      values.push_back(fmt::format("{} ({})", value.id, value.label));
    }
    out.push_back(fmt::format("--{}: {}: {}", choice.id, choice.label, fmt::join(values, ", ")));
  }
  return out;
}

std::string example_of(const Gauge& gauge) {
  std::string out = "kartwright check " + gauge.id;
  const auto add = [&](const GaugeReading& reading) {
    std::string value = reading.example;
    value.erase(std::remove(value.begin(), value.end(), ' '), value.end());
    out += fmt::format(" --{} {}", reading.id, value);
  };
  for (const GaugeReading& reading : gauge.readings) {
    const bool first = !gauge.one_of.empty() && reading.id == gauge.one_of.front();
    if (!reading.optional || first) add(reading);
  }
  for (const GaugeChoice& choice : gauge.choices) {
    out += fmt::format(" --{} {}", choice.id, choice.values.front().id);
  }
  return out;
}

Explanation explain_gauge(const Gauge& gauge, const Pack& pack) {
  Explanation out{"check", std::string(kCheck) + gauge.id, gauge.label, {}};
  out.sections.push_back({"what it finds out", {gauge.plain}});
  out.sections.push_back({"how to measure", gauge.steps});
  std::vector<std::string> options = options_text(gauge, System::metric);
  options.insert(options.begin(), example_of(gauge));
  out.sections.push_back({"hand in", std::move(options)});
  std::vector<std::string> outcomes;
  for (const GaugeVerdict& verdict : gauge.verdicts) {
    if (!verdict.quiet) outcomes.push_back(outcome_text(verdict, gauge));
  }
  out.sections.push_back({"outcomes", std::move(outcomes)});
  std::vector<std::string> care;
  for (const std::string& id : gauge.cautions) care.push_back(pack.caution(id)->text);
  if (!care.empty()) out.sections.push_back({"care", std::move(care)});
  return out;
}

}  // namespace kartwright
