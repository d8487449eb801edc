#include "engine/knowledge/pack.h"

#include <algorithm>
#include <array>

namespace kartwright {

namespace {

template <typename T>
const T* with_id(const std::vector<T>& all, std::string_view id) {
  const auto found = std::find_if(all.begin(), all.end(), [&](const T& t) { return t.id == id; });
  return found == all.end() ? nullptr : &*found;
}

std::string groups(int n) { return std::to_string(n) + (n == 1 ? " group" : " groups"); }

}  // namespace

const std::string& Symptom::question_about(Phase phase) const {
  const auto found = question_at.find(phase);
  return found == question_at.end() ? question : found->second;
}

std::string Provenance::text() const {
  std::string out = practice ? "common practice" : "";
  if (groups_for + groups_against > 0) {
    out += (out.empty() ? "" : "; ") + ("published: " + groups(groups_for) + " for, ") +
           std::to_string(groups_against) + " against";
  }
  if (!note.empty()) out += (out.empty() ? "" : "; ") + note;
  return out;
}

double Hearing::confidence_sd(Confidence confidence) const {
  switch (confidence) {
    case Confidence::sure:
      return sure;
    case Confidence::unsure:
      return unsure;
    case Confidence::fair:
      break;
  }
  return fair;
}

std::string_view name_of(PropertyKind kind) {
  static constexpr std::array<std::string_view, 4> kNames{
      "opposite-moves", "left-and-right", "inches-and-millimetres", "worse-reports"};
  return kNames.at(static_cast<std::size_t>(kind));
}

bool is_of_symptoms(PropertyKind kind) {
  return kind == PropertyKind::left_and_right || kind == PropertyKind::worse_reports;
}

bool Property::claimed_of(std::string_view id) const {
  const bool named = std::find(only.begin(), only.end(), id) != only.end();
  return (only.empty() || named) && with_id(exceptions, id) == nullptr;
}

std::vector<std::string_view> wordings_of(const Phrase& phrase) {
  std::vector<std::string_view> all;
  for (std::string_view rest = phrase.wordings; !rest.empty();) {
    const std::string_view line = rest.substr(0, rest.find('\n'));
    all.push_back(line);
    rest.remove_prefix(std::min(line.size() + 1, rest.size()));
  }
  return all;
}

std::vector<std::string> words_in(std::string_view run) {
  std::vector<std::string> words;
  while (!run.empty()) {
    const std::size_t end = std::min(run.find_first_of(" \n"), run.size());
    if (end > 0) words.emplace_back(run.substr(0, end));
    run.remove_prefix(std::min(end + 1, run.size()));
  }
  return words;
}

std::string_view name_of(ReportsFit fit) {
  static constexpr std::array<std::string_view, 3> kNames{"any", "agree", "conflict"};
  return kNames.at(static_cast<std::size_t>(fit));
}

const DrillLevel* Drills::level(std::string_view id) const { return with_id(levels, id); }
const DrillCase* Drills::named(std::string_view id) const { return with_id(cases, id); }
const DrillWords* Drills::said_of(std::string_view id) const { return with_id(words, id); }

const Symptom* Pack::symptom(std::string_view id) const { return with_id(symptoms, id); }
const Adjustment* Pack::adjustment(std::string_view id) const { return with_id(adjustments, id); }
const Fault* Pack::fault(std::string_view id) const { return with_id(faults, id); }
const FactDef* Pack::fact(std::string_view id) const { return with_id(facts, id); }
const TrackState* Pack::track(std::string_view id) const { return with_id(tracks, id); }
const MeasureDef* Pack::measure(std::string_view id) const { return with_id(measures, id); }
const MeasureDef* Pack::dimension(std::string_view id) const { return with_id(dimensions, id); }
const Caution* Pack::caution(std::string_view id) const { return with_id(cautions, id); }
const Gauge* Pack::gauge(std::string_view id) const { return with_id(gauges, id); }

}  // namespace kartwright
