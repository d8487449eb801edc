// One kart written down twice, in metric and in imperial units.

#include <algorithm>
#include <optional>

#include <fmt/format.h>

#include "engine/audit/kart_text.h"
#include "engine/audit/property_cases.h"
#include "engine/audit/property_trials.h"
#include "engine/audit/same_answer.h"
#include "engine/knowledge/every_rule.h"

namespace kartwright {
namespace {

void collect_limits(const Condition& condition, const MeasureDef& measure,
                    std::vector<double>& limits) {
  for (const Condition& part : condition.parts) collect_limits(part, measure, limits);
  if (condition.op != Condition::Op::test) return;
  const auto* test = std::get_if<MeasureTest>(&condition.test);
  if (test != nullptr && test->measure == measure.id && test->limit) limits.push_back(*test->limit);
}

/// Where a measure is worth trying: at what a kart can have at most and at least, at the edges of
/// its band, at every limit in a rule, and between those.
std::vector<double> values_to_try(const MeasureDef& measure, const Pack& pack) {
  std::vector<double> values{measure.from, measure.to};
  if (measure.band_from) values.push_back(*measure.band_from);
  if (measure.band_to) values.push_back(*measure.band_to);
  for (const RuleRef& rule : every_rule(pack)) {
    if (rule.when != nullptr) collect_limits(*rule.when, measure, values);
  }
  std::erase_if(values, [&](double v) { return v < measure.from || v > measure.to; });
  std::sort(values.begin(), values.end());
  values.erase(std::unique(values.begin(), values.end()), values.end());
  for (std::size_t i = values.size() - 1; i > 0; --i) {
    for (const double share : {0.11, 0.37, 0.83}) {
      values.push_back(values[i] + share * (values[i - 1] - values[i]));
    }
  }
  return values;
}

Kart claimed_kart(const Property& claim, const Pack& pack) {
  Kart kart = typical_kart(pack);
  std::erase_if(kart.settings, [&](const auto& each) { return !claim.claimed_of(each.first); });
  return kart;
}

/// Karts at the ends of their travel, and with each measure at each value that is worth it.
std::vector<Kart> karts_at_limits(const Kart& usual, const Pack& pack) {
  std::vector<Kart> karts{usual, usual, usual};
  for (auto& [id, setting] : karts[1].settings) setting.now = setting.travel.places.front();
  for (auto& [id, setting] : karts[2].settings) setting.now = setting.travel.places.back();
  std::size_t first = karts.size();
  for (const MeasureDef& measure : pack.measures) {
    const std::vector<double> values = values_to_try(measure, pack);
    if (karts.size() < first + values.size()) karts.resize(first + values.size(), usual);
    for (std::size_t i = 0; i < values.size(); ++i)
      karts[first + i].measures[measure.id] = values[i];
  }
  return karts;
}

/// Anywhere on its travel, at the class limit now and then, and some measures taken.
Kart kart_anywhere(Dice& dice, Kart kart, const Pack& pack) {
  for (auto& [id, setting] : kart.settings) {
    setting.now = setting.travel.places[throw_below(dice, setting.travel.places.size())];
    if (!setting.adjustment->listed() && throw_below(dice, 4) == 0) {
      setting.limit.at_most = setting.now;
    }
  }
  for (const MeasureDef& measure : pack.measures) {
    const std::vector<double> values = values_to_try(measure, pack);
    if (throw_below(dice, 2) == 0) {
      kart.measures[measure.id] = values[throw_below(dice, values.size())];
    }
  }
  return kart;
}

/// A kart as its two files are read; nothing where one is refused.
struct TwoFiles {
  std::optional<Kart> metric, imperial;
};

std::optional<Kart> read_back(const Kart& kart, const Pack& pack, System system) {
  Findings findings;
  Kart read = read_kart(parse_document("kart", kart_text(kart, pack, system)), pack, findings);
  if (findings.has_errors()) return std::nullopt;
  return read;
}

TwoFiles written_twice(const Kart& kart, const Pack& pack) {
  return {read_back(kart, pack, System::metric), read_back(kart, pack, System::imperial)};
}

/// Where the answers to the two files part; empty where they are the same.
std::string files_apart(const TwoFiles& files, const Debrief& debrief, const Pack& pack) {
  const auto& [metric, imperial] = files;
  if (!metric && !imperial) return {};
  if (!metric || !imperial) {
    return fmt::format("it is refused in {}", metric ? "inches" : "millimetres");
  }
  const std::string apart =
      where_apart(answer_in_full(pack, *metric, debrief, System::metric),
                  answer_in_full(pack, *imperial, debrief, System::metric), pack);
  return apart.empty() ? apart : apart + " in inches";
}

/// Puts back to usual, one by one, what is not needed to break the claim.
Kart with_only_what_breaks(Kart kart, const Kart& usual, const Debrief& debrief, const Pack& pack) {
  const auto whole = [&] { return files_apart(written_twice(kart, pack), debrief, pack).empty(); };
  for (auto& [id, setting] : kart.settings) {
    const Setting before = setting;
    setting = usual.settings.at(id);
    if (whole()) setting = before;
  }
  const std::map<std::string, double, std::less<>> measures = kart.measures;
  for (const auto& [id, value] : measures) {
    kart.measures.erase(id);
    if (whole()) kart.measures[id] = value;
  }
  return kart;
}

Counterexample in_words_of(const Kart& kart, const Kart& usual, const Debrief& debrief,
                           const std::string& apart, const Pack& pack) {
  std::vector<std::string> special, ids;
  for (const auto& [id, setting] : kart.settings) {
    if (setting.now == usual.settings.at(id).now && !setting.limit.at_most) continue;
    ids.push_back(id);
    special.push_back(
        fmt::format("`{}` at {}", id, print_setting(setting, setting.now, System::metric)));
  }
  for (const auto& [id, value] : kart.measures) {
    ids.push_back(id);
    special.push_back(fmt::format("`{}` at {}", id,
                                  print_quantity(value, pack.measure(id)->kind, System::metric)));
  }
  const std::string with =
      special.empty() ? "" : fmt::format(" with {}", fmt::join(special, " and "));
  return {ids.empty() ? "the typical kart" : ids.front(),
          fmt::format("{}, on a typical kart{}, {}", case_in_words(debrief), with, apart)};
}

/// Each track with one symptom after the other; nothing is reported where the pack knows none.
std::vector<Debrief> on_every_track(const Pack& pack) {
  std::vector<Debrief> cases;
  for (const std::string& track : every_track(pack)) {
    const std::size_t next = cases.size();
    cases.push_back({.heard = {}, .track = track});
    if (pack.symptoms.empty()) continue;
    cases.back().heard.reports.push_back(
        {.symptom = pack.symptoms[next * 5 % pack.symptoms.size()].id});
  }
  return cases;
}

/// The usual kart and the two at their ends (the first three) go on every track; of the others,
/// which differ in what was measured, each goes on every other track.
std::vector<Debrief> some_of(const std::vector<Debrief>& on_tracks, std::size_t kart) {
  constexpr std::size_t kAtEnds = 3;
  if (kart < kAtEnds) return on_tracks;
  std::vector<Debrief> some;
  for (std::size_t i = kart % 2; i < on_tracks.size(); i += 2) some.push_back(on_tracks[i]);
  return some;
}

/// The first of some debriefs whose answers part, with the least of the kart that does it.
std::vector<Counterexample> first_apart(const Kart& kart, const Kart& usual,
                                        const std::vector<Debrief>& debriefs, const Pack& pack) {
  const TwoFiles files = written_twice(kart, pack);
  for (const Debrief& debrief : debriefs) {
    if (files_apart(files, debrief, pack).empty()) continue;
    const Debrief said = least_of(
        debrief, 0, [&](const Debrief& less) { return !files_apart(files, less, pack).empty(); });
    const Kart least = with_only_what_breaks(kart, usual, said, pack);
    const std::string apart = files_apart(written_twice(least, pack), said, pack);
    return {in_words_of(least, usual, said, apart, pack)};
  }
  return {};
}

}  // namespace

std::vector<Counterexample> try_inches_and_millimetres(const Property& claim, const Pack& pack,
                                                       const TrialSize& size) {
  const Kart usual = claimed_kart(claim, pack);
  const std::vector<Debrief> on_tracks = on_every_track(pack);
  const std::vector<Kart> karts = karts_at_limits(usual, pack);
  for (std::size_t i = 0; i < karts.size(); ++i) {
    std::vector<Counterexample> found = first_apart(karts[i], usual, some_of(on_tracks, i), pack);
    if (!found.empty()) return found;
  }
  Dice dice(size.seed);
  std::vector<const Symptom*> symptoms;
  for (const Symptom& symptom : pack.symptoms) symptoms.push_back(&symptom);
  for (int i = 0; i < size.mixes && !symptoms.empty(); ++i) {
    const Kart kart = kart_anywhere(dice, usual, pack);
    auto found = first_apart(kart, usual, {any_mix(dice, pack, symptoms)}, pack);
    if (!found.empty()) return found;
  }
  return {};
}

}  // namespace kartwright
