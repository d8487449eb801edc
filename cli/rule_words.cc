#include "cli/rule_words.h"

#include <algorithm>

#include "cli/option_values.h"
#include "engine/advice/explain.h"
#include "engine/knowledge/engine_facts.h"
#include "engine/knowledge/every_rule.h"

namespace kartwright::cli {
namespace {

std::vector<std::string> ids_in(const auto& parts) {
  std::vector<std::string> ids;
  for (const auto& part : parts) ids.push_back(part.id);
  return ids;
}

std::vector<std::string> tracks_or_unknown(const Pack& pack) {
  std::vector<std::string> tracks = ids_in(pack.tracks);
  tracks.emplace_back("unknown");
  return tracks;
}

std::vector<std::string> tracks_of_the_day(const Pack& pack) {
  std::vector<std::string> tracks;
  for (const DayStage& stage : pack.day) {
    if (std::ranges::find(tracks, stage.track) == tracks.end()) tracks.push_back(stage.track);
  }
  return tracks;
}

/// `id=value` of every fact whose values are words.
std::vector<std::string> stated_facts(const Pack& pack) {
  std::vector<std::string> facts;
  for (const FactDef& fact : pack.facts) {
    if (!fact.entered) continue;
    for (const std::string& word : fact.values) facts.push_back(fact.id + "=" + word);
  }
  return facts;
}

std::vector<std::string> changes(const Pack& pack) {
  std::vector<std::string> changes;
  for (const Adjustment& adjustment : pack.adjustments) {
    for (const auto& direction : adjustment.directions)
      changes.push_back(adjustment.id + ":" + direction);
  }
  for (const RuleRef& rule : every_rule(pack)) changes.push_back(rule.rule->id);
  return changes;
}

std::vector<std::string> topics(const Pack& pack) {
  std::vector<std::string> topics;
  for (const auto& [kind, ids] : explainable(pack))
    topics.insert(topics.end(), ids.begin(), ids.end());
  return topics;
}

}  // namespace

std::vector<std::string> rule_words(std::string_view of, const Pack& pack) {
  if (of == value::kState) return ids_in(pack.tracks);
  if (of == value::kTrack) return tracks_or_unknown(pack);
  if (of == value::kDay) return tracks_of_the_day(pack);
  if (of == value::kLaps) return pack.fact(engine_facts::kLaps)->values;
  if (of == value::kLevel) return ids_in(pack.drills.levels);
  if (of == value::kCase) return ids_in(pack.drills.cases);
  if (of == value::kCheck) return ids_in(pack.gauges);
  if (of == value::kTopic) return topics(pack);
  if (of == value::kSymptom) return ids_in(pack.symptoms);
  if (of == value::kFact) return stated_facts(pack);
  if (of == value::kChange) return changes(pack);
  return {};
}

}  // namespace kartwright::cli
