#include "engine/debrief/debrief_text.h"

#include <map>

#include <fmt/format.h>

namespace kartwright {
namespace {

std::string in_quotes(std::string_view text) {
  std::string out = "\"";
  for (const char c : text) {
    if (c == '"' || c == '\\') out += '\\';
    out += c;
  }
  return out + "\"";
}

/// Sentences that are heard one by one.
std::string words_of(const Heard& heard) {
  std::string said;
  for (const NotUnderstood& left : heard.not_understood)
    said += (said.empty() ? "" : ". ") + left.words;
  return said;
}

/// What praise denies weighs less than a denial, so it is marked.
std::string report_item(const Report& report) {
  if (!report.from_praise) return in_quotes(report_text(report));
  return fmt::format("{{symptom: {}, phase: {}, severity: 0, praise: true}}", report.symptom,
                     name_of(report.phase));
}

/// The last that was said of each.
std::map<std::string, std::string> values_of(const std::vector<StatedFact>& facts) {
  std::map<std::string, std::string> values;
  for (const StatedFact& fact : facts) values[fact.fact] = fact.value;
  return values;
}

}  // namespace

std::string report_text(const Report& report) {
  std::string text = report.symptom;
  if (report.phase != Phase::any) text += "@" + std::string(name_of(report.phase));
  text += "=" + std::to_string(report.severity);
  if (report.side) text += "," + std::string(name_of(*report.side));
  if (report.when) text += "," + std::string(name_of(*report.when));
  if (report.confidence != Confidence::fair) text += "," + std::string(name_of(report.confidence));
  return text;
}

std::string debrief_text(const Debrief& debrief, const DebriefHead& head) {
  std::string out;
  if (!head.title.empty()) out += "title: " + in_quotes(head.title) + "\n";
  if (!head.kart_path.empty()) out += "kart: " + in_quotes(head.kart_path) + "\n";
  out += "track: " + debrief.track + "\n";
  out += fmt::format("minutes: {}\nhours: {}\n", debrief.minutes, debrief.hours);
  std::string reports;
  for (const Report& report : debrief.heard.reports) reports += "  - " + report_item(report) + "\n";
  if (!reports.empty()) out += "reports:\n" + reports;
  if (!debrief.heard.facts.empty()) out += "facts:\n";
  for (const auto& [fact, value] : values_of(debrief.heard.facts))
    out += "  " + fact + ": " + in_quotes(value) + "\n";
  const std::string said = words_of(debrief.heard);
  if (!said.empty()) out += "said: " + in_quotes(said) + "\n";
  return out;
}

}  // namespace kartwright
