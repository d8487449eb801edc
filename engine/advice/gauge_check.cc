#include "engine/advice/gauge_check.h"

#include <algorithm>
#include <cmath>
#include <tuple>

#include <fmt/format.h>

#include "engine/inference/situation.h"

namespace kartwright {
namespace {

constexpr std::string_view kSettingOf = "setting:";

/// Everything that figures may stand on, by name.
using Known = std::map<std::string, Amounts>;

/// Of the kart, or else what the pack assumes of all.
std::optional<double> dimension_of(const std::string& id, const Pack& pack, const Kart* kart) {
  if (kart != nullptr) {
    const auto found = kart->dimensions.find(id);
    if (found != kart->dimensions.end()) return found->second;
  }
  const MeasureDef* const dimension = pack.dimension(id);
  return dimension == nullptr ? std::nullopt : dimension->assumed;
}

void add_dimensions(const Gauge& gauge, const Pack& pack, const Kart* kart, Known& known,
                    GaugeCheck& out) {
  for (const GaugeReading& reading : gauge.readings) {
    if (reading.dimension.empty() || known.contains(reading.id)) continue;
    const std::optional<double> found = dimension_of(reading.dimension, pack, kart);
    if (!found) continue;
    known.emplace(reading.id, Amounts{*found * reading.times});
    out.assumed.push_back(reading.id);
  }
}

/// The amounts of choices, and the kart's settings that figures look at.
void add_amounts(const Gauge& gauge, const GaugeReadings& given, const Kart* kart, Known& known) {
  for (const auto& [id, value] : given.choices) {
    for (const GaugeChoice::Value& each : gauge.choice(id)->values) {
      if (each.id == value && each.amount) known.emplace(id, Amounts{*each.amount});
    }
  }
  if (kart == nullptr) return;
  for (const auto& [id, setting] : kart->settings) {
    if (setting.travel.names.empty())
      known.emplace(std::string(kSettingOf) + id, Amounts{setting.now});
  }
}

bool is_wanted(const GaugeFigure& figure, const GaugeReadings& given) {
  return figure.only_with.empty() ||
         std::any_of(figure.only_with.begin(), figure.only_with.end(),
                     [&](const std::string& id) { return given.amounts.contains(id); });
}

[[noreturn]] void refuse_figure(const Gauge& gauge, const GaugeFigure& figure,
                                std::optional<double> value, System system) {
  std::string message = figure.label + " cannot be";
  if (value) message += " " + print_quantity(*value, figure.kind, system);
  const auto end = [&](double si) { return print_quantity(si, figure.kind, system); };
  if (figure.from && figure.to) {
    message += fmt::format(", only between {} and {}", end(*figure.from), end(*figure.to));
  }
  throw InputError({Diagnostic{.code = Code::implausible,
                               .file = "check " + gauge.id,
                               .message = message,
                               .help = figure.impossible}});
}

/// A figure whose inputs are all known. Throws InputError where it cannot be.
FigureFound figure_of(const Gauge& gauge, const GaugeFigure& figure,
                      const std::vector<Amounts>& inputs, System system) {
  const std::optional<double> value = work_out(figure.formula, inputs, figure.by);
  if (!value) refuse_figure(gauge, figure, value, system);
  double size = 0.0;
  for (const Amounts& each : inputs) size = std::max(size, std::abs(each.front()));
  const double slack = 1e-12 * size;
  const bool below = figure.from && *value < *figure.from - slack;
  if (below || (figure.to && *value > *figure.to + slack)) {
    refuse_figure(gauge, figure, value, system);
  }
  return {&figure, *value, by_tyre(figure.formula, inputs)};
}

void add_figures(const Gauge& gauge, Known known, GaugeCheck& out) {
  for (const GaugeFigure& figure : gauge.figures) {
    if (known.contains(figure.id) || !is_wanted(figure, out.given)) continue;
    std::vector<Amounts> inputs;
    for (const std::string& name : figure.of) {
      const auto found = known.find(name);
      if (found != known.end()) inputs.push_back(found->second);
    }
    if (inputs.size() < figure.of.size()) continue;
    FigureFound found =
        figure_of(gauge, figure, inputs, out.given.written.value_or(System::metric));
    known.emplace(figure.id, Amounts{found.value});
    out.figures.push_back(std::move(found));
  }
}

bool choices_fit(const GaugeVerdict& verdict, const GaugeReadings& given) {
  return std::all_of(verdict.where.begin(), verdict.where.end(), [&](const auto& each) {
    const auto found = given.choices.find(each.first);
    return found != given.choices.end() &&
           std::find(each.second.begin(), each.second.end(), found->second) != each.second.end();
  });
}

/// a < b, and not the same amount written in two ways.
bool less(double a, double b) { return a < b - 1e-9 * std::max(std::abs(a), std::abs(b)); }

bool within(double value, const std::optional<double>& from, const std::optional<double>& to) {
  return !(from && less(value, *from)) && !(to && !less(value, *to));
}

/// The tyres whose own figure lies where the verdict holds.
std::vector<std::string_view> tyres_within(const FigureFound& found, const GaugeVerdict& verdict) {
  std::vector<std::string_view> names;
  for (std::size_t i = 0; i < found.tyres.size(); ++i) {
    if (within(found.tyres[i], verdict.from, verdict.to)) names.push_back(tyre_at(i));
  }
  return names;
}

using Candidates = std::vector<const GaugeVerdict*>;

Candidates candidates_for(const Gauge& gauge, const std::string& figure,
                          const GaugeReadings& given) {
  Candidates out;
  for (const GaugeVerdict& verdict : gauge.verdicts) {
    if (verdict.of == figure && choices_fit(verdict, given)) out.push_back(&verdict);
  }
  return out;
}

/// By the crew's own band: the verdict on the side where the value lies, and among several the one
/// whose own range holds it, else the first.
const GaugeVerdict* by_band(const Candidates& all, const std::pair<double, double>& band,
                            double value) {
  BandSide side = BandSide::within;
  if (less(value, band.first)) side = BandSide::under;
  if (less(band.second, value)) side = BandSide::over;
  const GaugeVerdict* first = nullptr;
  for (const GaugeVerdict* verdict : all) {
    if (verdict->side != side) continue;
    if (within(value, verdict->from, verdict->to)) return verdict;
    if (first == nullptr) first = verdict;
  }
  return first;
}

/// The crew's own band of what a figure measures, or nullptr.
const std::pair<double, double>* band_of(const GaugeFigure& figure, const Kart* kart) {
  if (kart == nullptr) return nullptr;
  const auto found = kart->bands.find(figure.measure);
  return found == kart->bands.end() ? nullptr : &found->second;
}

/// The range of a verdict, widened by its neighbours that are ok.
void join_ok(const Candidates& all, VerdictFound& out) {
  for (bool wider = true; wider;) {
    wider = false;
    for (const GaugeVerdict* each : all) {
      const bool below = each->ok && each->to && out.from && *each->to == *out.from;
      const bool above = each->ok && each->from && out.to && *each->from == *out.to;
      if (below) out.from = each->from;
      if (above) out.to = each->to;
      wider = wider || below || above;
    }
  }
}

/// What would be in order, for a verdict by the rules' own ranges.
void add_limits(const Candidates& all, VerdictFound& out) {
  const auto good = std::find_if(all.begin(), all.end(), [](const auto* v) { return v->ok; });
  if (good == all.end()) return;
  const GaugeVerdict& from = out.verdict->ok ? *out.verdict : **good;
  std::tie(out.from, out.to) = std::tie(from.from, from.to);
  if (!out.verdict->ok) join_ok(all, out);
}

std::optional<VerdictFound> judge(const Candidates& all, const FigureFound& found,
                                  const Kart* kart) {
  if (const auto* band = band_of(*found.figure, kart)) {
    if (const GaugeVerdict* verdict = by_band(all, *band, found.value)) {
      return VerdictFound{verdict, found, band->first, band->second, true};
    }
  }
  for (const GaugeVerdict* verdict : all) {
    if (!within(found.value, verdict->from, verdict->to)) continue;
    VerdictFound out{.verdict = verdict, .found = found};
    add_limits(all, out);
    out.tyres = tyres_within(found, *verdict);
    return out;
  }
  return std::nullopt;
}

/// Leaves out what was written after a verdict that stands alone.
void keep_alone(std::vector<VerdictFound>& all) {
  const GaugeVerdict* last = nullptr;
  for (const VerdictFound& each : all) {
    if (each.verdict->alone && (last == nullptr || each.verdict < last)) last = each.verdict;
  }
  if (last == nullptr) return;
  std::erase_if(all, [&](const VerdictFound& each) { return each.verdict > last; });
}

/// One for each figure that has any, and one on the choices alone; the first that stops the kart
/// leads, else the first that is not in order, else the first.
void add_verdicts(const Gauge& gauge, const Kart* kart, GaugeCheck& out) {
  const Candidates of_choices = candidates_for(gauge, "", out.given);
  if (!of_choices.empty()) out.verdicts.push_back({.verdict = of_choices.front()});
  for (const FigureFound& found : out.figures) {
    const auto verdict = judge(candidates_for(gauge, found.figure->id, out.given), found, kart);
    if (verdict && !verdict->verdict->quiet) out.verdicts.push_back(*verdict);
  }
  keep_alone(out.verdicts);
  std::stable_sort(out.verdicts.begin(), out.verdicts.end(),
                   [&](const VerdictFound& a, const VerdictFound& b) {
                     if (a.verdict->stops != b.verdict->stops) return a.verdict->stops;
                     if (a.verdict->ok != b.verdict->ok) return b.verdict->ok;
                     return a.verdict < b.verdict;  // as the gauge has them
                   });
}

/// The evidence rules that speak of a case, with their faults.
std::vector<std::pair<const Fault*, const EvidenceRule*>> speaking(const Situation& situation) {
  std::vector<std::pair<const Fault*, const EvidenceRule*>> out;
  for (const Fault& fault : situation.pack.faults) {
    for (const EvidenceRule& rule : fault.evidence) {
      if (holds(rule.when, situation)) out.emplace_back(&fault, &rule);
    }
  }
  return out;
}

template <typename T>
bool holds_item(const std::vector<T>& all, const T& item) {
  return std::find(all.begin(), all.end(), item) != all.end();
}

void add_evidence(const Pack& pack, const Kart& kart, GaugeCheck& out) {
  for (const VerdictFound& found : out.verdicts) {
    for (const auto& state : found.verdict->states) {
      const bool said = std::any_of(out.facts.begin(), out.facts.end(),
                                    [&](const auto& each) { return each.first == state.first; });
      if (said) continue;  // the leading verdict has the say
      out.facts.push_back(state);
      const auto more = evidence_of(state.first, state.second, pack, kart);
      out.evidence.insert(out.evidence.end(), more.begin(), more.end());
    }
  }
}

/// The measure says the same as the facts where the same rules speak of either.
void add_measure(const VerdictFound& found, const Pack& pack, const Kart& kart, GaugeCheck& out) {
  const std::vector<Report> none;
  Kart measured = kart;
  measured.measures[found.found.figure->measure] = found.found.value;
  const auto by_measure = speaking({.pack = pack, .kart = measured, .reports = none});
  Facts facts;
  for (const auto& [id, value] : found.verdict->states)
    facts.all.push_back({id, value, "crew", {}});
  const auto by_facts =
      speaking({.pack = pack, .kart = kart, .reports = none, .facts = std::move(facts)});
  if (by_measure.empty() || by_measure != by_facts) return;
  out.measures.emplace_back(pack.measure(found.found.figure->measure), found.found.value);
}

void add_cautions(const Pack& pack, GaugeCheck& out) {
  std::vector<std::string> ids = out.gauge->cautions;
  for (const VerdictFound& found : out.verdicts) {
    for (const std::string& id : found.verdict->cautions) {
      if (!holds_item(ids, id)) ids.push_back(id);
    }
  }
  for (const std::string& id : ids) out.cautions.push_back(pack.caution(id)->text);
}

}  // namespace

std::vector<EvidenceFound> evidence_of(std::string_view fact, std::string_view value,
                                       const Pack& pack, const Kart& kart) {
  const std::vector<Report> none;
  const auto before = speaking({.pack = pack, .kart = kart, .reports = none});
  const Facts facts{{{std::string(fact), std::string(value), "crew", {}}}};
  std::vector<EvidenceFound> out;
  for (const auto& each : speaking({.pack = pack, .kart = kart, .reports = none, .facts = facts})) {
    if (holds_item(before, each)) continue;
    out.push_back({each.first->id, each.second->id, each.second->decibans, std::string(fact),
                   std::string(value)});
  }
  return out;
}

GaugeCheck check_gauge(const Gauge& gauge, const GaugeReadings& given, const Pack& pack,
                       const Kart* kart) {
  GaugeCheck out{.gauge = &gauge, .given = given};
  Known known = given.amounts;
  add_dimensions(gauge, pack, kart, known, out);
  add_amounts(gauge, given, kart, known);
  add_figures(gauge, std::move(known), out);
  add_verdicts(gauge, kart, out);
  Kart bare = kart == nullptr ? typical_kart(pack) : *kart;
  bare.measures.clear();  // the new figure speaks, not an old one
  bare.facts.clear();
  add_evidence(pack, bare, out);
  for (const VerdictFound& found : out.verdicts) {
    const bool measured = found.found.figure != nullptr && !found.found.figure->measure.empty();
    if (measured && !found.verdict->states.empty()) add_measure(found, pack, bare, out);
  }
  add_cautions(pack, out);
  return out;
}

}  // namespace kartwright
