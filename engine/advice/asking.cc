#include "engine/advice/asking.h"

#include <algorithm>
#include <set>

#include "engine/knowledge/engine_facts.h"

namespace kartwright {
namespace {

std::string first_word(const std::string& label) { return label.substr(0, label.find(' ')); }

/// Both ends by the first letters that tell them apart and are no other key.
std::vector<Choice> ends(const Symptom& one, const Symptom& other) {
  const std::string a = first_word(one.label), b = first_word(other.label);
  const std::set<std::string> taken{"b", "d", "n"};
  std::size_t length = 1;
  const auto clash = [&] {
    const std::string x = a.substr(0, length), y = b.substr(0, length);
    return x == y || taken.contains(x) || taken.contains(y);
  };
  while (length < std::max(a.size(), b.size()) && clash()) ++length;
  return {
      {a.substr(0, length), a, one.id}, {b.substr(0, length), b, other.id}, {"n", "neither", ""}};
}

std::vector<Choice> numbered(const std::vector<std::string>& values,
                             const std::vector<std::string>& labels) {
  std::vector<Choice> choices;
  for (std::size_t i = 0; i < values.size(); ++i)
    choices.push_back({std::to_string(i + 1), labels[i], values[i]});
  return choices;
}

Asking about_track(const Question& question, const Pack& pack) {
  std::vector<std::string> ids, labels;
  for (const std::string& value : question.fact->values) {
    const TrackState* state = pack.track(value);
    if (state == nullptr) continue;
    ids.push_back(state->id);
    labels.push_back(state->label);
  }
  return {.about = Asking::About::track,
          .question = question,
          .text = question.text(),
          .choices = numbered(ids, labels)};
}

}  // namespace

const Symptom* Asking::other_end(const Pack& pack) const {
  const bool pair = question.symptom != nullptr && !question.symptom->against.empty();
  return pair ? pack.symptom(question.symptom->against) : nullptr;
}

Asking asking_of(const Question& question, const Pack& pack) {
  if (question.fact != nullptr && question.fact->id == engine_facts::kTrack)
    return about_track(question, pack);
  if (question.fact != nullptr) {
    return {.about = Asking::About::fact,
            .question = question,
            .text = question.text(),
            .choices = numbered(question.fact->values, question.fact->values)};
  }
  Asking asking{.question = question, .text = question.symptom->question_about(question.phase)};
  if (const Symptom* other = asking.other_end(pack)) {
    asking.about = Asking::About::both_ends;
    asking.choices = ends(*question.symptom, *other);
  } else {
    asking.choices = {{"y", "yes", question.symptom->id}, {"n", "no", ""}};
  }
  return asking;
}

Asking open_question() {
  return {.about = Asking::About::words,
          .text = "in the driver's own words: what does the kart do that it should not?"};
}

}  // namespace kartwright
