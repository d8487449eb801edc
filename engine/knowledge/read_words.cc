// The vocabulary sections of rule files.

#include <algorithm>

#include "engine/knowledge/section_reader.h"

namespace kartwright {
namespace {

const std::vector<std::string>& means_names() {
  static const std::vector<std::string> kNames{"symptom",  "phase",      "side",     "when",
                                               "severity", "confidence", "negation", "praise",
                                               "fact",     "laps",       "place",    "filler"};
  return kNames;
}

/// True where `id` is something this kind of phrase can mean.
bool id_fits(Phrase::Means means, const std::string& id, const Names& names) {
  const auto in = [&](const std::vector<std::string>& known) {
    return std::find(known.begin(), known.end(), id) != known.end();
  };
  const auto fact_is = [&](const std::string& fact, const std::string& value) {
    const auto found = names.fact_values.find(fact);
    return found != names.fact_values.end() &&
           std::find(found->second.begin(), found->second.end(), value) != found->second.end();
  };
  const std::size_t equals = id.find('=');
  switch (means) {
    case Phrase::Means::symptom:
      return in(names.symptoms);
    case Phrase::Means::phase:
      return phase_named(id).has_value();
    case Phrase::Means::side:
      return side_named(id).has_value();
    case Phrase::Means::when:
      return when_named(id).has_value();
    case Phrase::Means::severity:
      return id == "1" || id == "2" || id == "3";
    case Phrase::Means::confidence:
      return confidence_named(id).has_value();
    case Phrase::Means::fact:
      return equals != std::string::npos && fact_is(id.substr(0, equals), id.substr(equals + 1));
    case Phrase::Means::laps:
      return fact_is("laps", id);
    case Phrase::Means::negation:
    case Phrase::Means::praise:
    case Phrase::Means::place:
    case Phrase::Means::filler:
      return id.empty();
  }
  return false;
}

bool has_capital(const std::string& phrase) {
  return std::any_of(phrase.begin(), phrase.end(), [](char c) { return c >= 'A' && c <= 'Z'; });
}

/// What a symptom's phrase implies beside the symptom.
void read_implied(Fields& fields, const Section& section, Phrase& group) {
  if (const Node* phase = fields.optional("phase")) {
    group.phase = phase_named(phase->text);
    if (!group.phase) {
      section.refuse(*phase, Code::unknown_name, "`" + phase->text + "` is not a phase",
                     suggestion(phase->text, {"entry", "mid", "exit", "straight"}));
    }
  }
  if (const Node* severity = fields.optional("severity")) {
    const std::vector<std::string> known{"1", "2", "3"};
    if (known_name(section.document, *severity, section.findings, "a severity", known)) {
      group.severity = severity->text[0] - '0';
    }
  }
}

std::vector<std::string> words_of(std::string_view phrase) {
  std::vector<std::string> words;
  while (!phrase.empty()) {
    const std::size_t end = std::min(phrase.find(' '), phrase.size());
    if (end > 0) words.emplace_back(phrase.substr(0, end));
    phrase.remove_prefix(std::min(end + 1, phrase.size()));
  }
  return words;
}

}  // namespace

void read_words(const Node& list, const Section& section, Pack& pack) {
  for (const Node& item : list_items(list, "words", section)) {
    Fields fields(section.document, item, section.findings, "a group of phrases");
    Phrase group;
    const Node* means = fields.required("means");
    group.id = fields.text_or("id", "");
    const std::vector<std::string> phrases = fields.texts_or_none("phrases");
    read_implied(fields, section, group);
    fields.finish();
    if (means == nullptr) continue;
    if (!known_name(section.document, *means, section.findings, "a meaning", means_names()))
      continue;
    const auto found = std::find(means_names().begin(), means_names().end(), means->text);
    group.means = static_cast<Phrase::Means>(found - means_names().begin());
    if (!id_fits(group.means, group.id, section.names)) {
      section.refuse(item, Code::unknown_name,
                     "`" + group.id + "` is nothing that a " + means->text + " can mean");
    }
    if (phrases.empty()) section.refuse(item, Code::bad_rule, "`phrases` needs at least one");
    for (const std::string& phrase : phrases) {
      if (has_capital(phrase)) {
        section.refuse(*item.find("phrases"), Code::bad_rule,
                       "`" + phrase + "` has a capital letter", "phrases are in lower case");
      }
      group.words = words_of(phrase);
      if (!group.words.empty()) pack.phrases.push_back(group);
    }
  }
}

}  // namespace kartwright
