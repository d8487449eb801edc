#include "engine/debrief/debrief_text.h"

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
  const auto add = [&](const std::string& words) { said += (said.empty() ? "" : ". ") + words; };
  for (const std::string& words : heard.praise) add(words);
  for (const NotUnderstood& left : heard.not_understood) add(left.words);
  return said;
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
  for (const Report& report : debrief.heard.reports) {
    if (!report.from_praise) reports += "  - " + in_quotes(report_text(report)) + "\n";
  }
  if (!reports.empty()) out += "reports:\n" + reports;
  if (!debrief.heard.facts.empty()) out += "facts:\n";
  for (const StatedFact& fact : debrief.heard.facts)
    out += "  " + fact.fact + ": " + in_quotes(fact.value) + "\n";
  const std::string said = words_of(debrief.heard);
  if (!said.empty()) out += "said: " + in_quotes(said) + "\n";
  return out;
}

}  // namespace kartwright
