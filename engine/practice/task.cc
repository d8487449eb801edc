#include "engine/practice/task.h"

#include <algorithm>
#include <filesystem>

#include "engine/debrief/debrief_file.h"
#include "engine/kart/travel.h"

namespace kartwright {
namespace {

Diagnostic wrong_case(const DrillCase& drill, std::string message) {
  return {.code = Code::bad_rule,
          .file = drill.source.file,
          .span = {.line = drill.source.line, .column = 1},
          .message = "the case `" + drill.id + "` " + std::move(message)};
}

/// Where a case has a setting, on the travel of the kart; nothing where it cannot stand there.
std::optional<double> place_in(const Setting& setting, const DrillSetting& wanted) {
  if (!setting.travel.names.empty()) return place_named(setting.travel, wanted.position);
  if (!wanted.value) return std::nullopt;
  const double place = nearest_place(setting.travel, *wanted.value);
  if (!same_value(place, *wanted.value, setting.travel.step)) return std::nullopt;
  return place;
}

Setting* setting_in(Kart& kart, const std::string& adjustment) {
  const auto found = kart.settings.find(adjustment);
  return found == kart.settings.end() ? nullptr : &found->second;
}

std::string text_at(const Document& document, std::string_view key) {
  const Node* const node = document.root.find(key);
  return node != nullptr ? node->text : std::string();
}

/// The kart of a debrief file: in it, beside it, or the typical one.
Kart kart_of(DebriefFile& file, const Pack& pack, Findings& findings) {
  if (file.kart) return std::move(*file.kart);
  if (file.kart_path.empty()) return practice_kart(pack);
  const Document document = read_document(file.kart_path);
  return read_kart(document, pack, findings);
}

}  // namespace

Kart practice_kart(const Pack& pack) {
  Kart kart = typical_kart(pack);
  kart.name = "practice kart";
  kart.typical = false;
  return kart;
}

void put_settings(const DrillCase& drill, Kart& kart, Findings& findings) {
  for (const DrillSetting& wanted : drill.settings) {
    Setting* const setting = setting_in(kart, wanted.adjustment);
    const auto place = setting != nullptr ? place_in(*setting, wanted) : std::nullopt;
    if (place) setting->now = *place;
    if (!place)
      findings.add(wrong_case(drill, "puts `" + wanted.adjustment + "` where it cannot stand"));
  }
  for (const DrillLimit& limit : drill.limits) {
    Setting* const setting = setting_in(kart, limit.adjustment);
    if (setting != nullptr)
      setting->limit = {
          .at_least = limit.at_least, .at_most = limit.at_most, .allowed = limit.allowed};
    if (setting == nullptr || !class_allows(*setting, setting->now))
      findings.add(wrong_case(drill, "limits `" + limit.adjustment + "` to where it is not"));
  }
}

DrillTask named_task(const DrillCase& drill, const Pack& pack, Ear& ear, std::uint64_t seed) {
  DrillTask task{.id = drill.id,
                 .level = drill.level,
                 .title = drill.title,
                 .because = drill.because,
                 .seed = seed,
                 .kart = practice_kart(pack),
                 .said = drill.said};
  Findings findings;
  put_settings(drill, task.kart, findings);
  findings.throw_if_errors();
  task.debrief.track = drill.track;
  task.debrief.minutes = drill.minutes;
  task.debrief.hours = drill.hours;
  for (const auto& [fact, value] : drill.facts)
    task.debrief.heard.facts.push_back({.fact = fact, .value = value});
  if (!drill.laps.empty())
    task.debrief.heard.facts.push_back({.fact = "laps", .value = drill.laps});
  add_heard(task.debrief, ear.hear(drill.said));
  return task;
}

DrillTask task_from_file(const std::string& path, const Pack& pack, std::uint64_t seed) {
  const Document document = read_document(path);
  Findings findings;
  DebriefFile file = read_debrief(document, pack, findings);
  DrillTask task{.id = path,
                 .title = text_at(document, "title"),
                 .because = text_at(document, "because"),
                 .seed = seed,
                 .kart = kart_of(file, pack, findings),
                 .debrief = std::move(file.debrief),
                 .said = text_at(document, "said")};
  findings.throw_if_errors();
  return task;
}

}  // namespace kartwright
