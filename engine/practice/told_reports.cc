#include "engine/practice/told_reports.h"

#include <algorithm>
#include <tuple>

namespace kartwright {
namespace {

/// One saying of a list of the rules, or nothing where there is none.
std::string saying(const std::string& id, const Pack& pack, DrillDice& dice) {
  const DrillWords* const words = pack.drills.said_of(id);
  return words == nullptr ? std::string() : dice.one_of(words->says);
}

void fill_in(std::string& text, std::string_view place, const std::string& by) {
  const std::size_t at = text.find(place);
  if (at != std::string::npos) text.replace(at, place.size(), by);
}

std::string without_double_blanks(const std::string& text) {
  std::string out;
  for (const char c : text) {
    if (c != ' ' || (!out.empty() && out.back() != ' ')) out += c;
  }
  while (!out.empty() && out.back() == ' ') out.pop_back();
  return out;
}

std::string sentence_of(const Report& report, const Pack& pack, DrillDice& dice) {
  std::string text = saying("symptom " + report.symptom, pack, dice);
  if (text.empty()) return text;
  fill_in(text, "{how}", saying("severity " + std::to_string(report.severity), pack, dice));
  fill_in(text, "{where}", saying("phase " + std::string(name_of(report.phase)), pack, dice));
  text = without_double_blanks(text);
  if (text.front() >= 'a' && text.front() <= 'z')
    text.front() = static_cast<char>(text.front() - 32);
  return text + ".";
}

std::vector<std::tuple<std::string, Phase, int>> in_short(const std::vector<Report>& reports) {
  std::vector<std::tuple<std::string, Phase, int>> out;
  for (const Report& each : reports) out.emplace_back(each.symptom, each.phase, each.severity);
  std::sort(out.begin(), out.end());
  return out;
}

}  // namespace

bool heard_as(const Heard& heard, const std::vector<Report>& reports) {
  const bool plain = std::all_of(heard.reports.begin(), heard.reports.end(), [](const Report& r) {
    return r.confidence == Confidence::fair && !r.side && !r.when;
  });
  return plain && heard.not_understood.empty() && heard.facts.empty() && heard.praise.empty() &&
         in_short(heard.reports) == in_short(reports);
}

std::optional<std::string> in_driver_words(const std::vector<Report>& reports, const Pack& pack,
                                           Ear& ear, DrillDice& dice) {
  std::string all;
  for (const Report& report : reports) {
    const std::string sentence = sentence_of(report, pack, dice);
    if (sentence.empty()) return std::nullopt;
    all += (all.empty() ? "" : " ") + sentence;
  }
  if (!heard_as(ear.hear(all), reports)) return std::nullopt;
  return all;
}

}  // namespace kartwright
