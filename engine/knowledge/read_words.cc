// The vocabulary sections of rule files.

#include <algorithm>

#include <fmt/format.h>

#include "engine/knowledge/section_reader.h"

namespace kartwright {
namespace {

const std::vector<std::string>& means_names() {
  static const std::vector<std::string> kNames{
      "symptom", "phase", "side", "when",   "severity", "confidence", "negation",
      "praise",  "fact",  "laps", "manner", "aside",    "place",      "filler"};
  return kNames;
}

/// True where `id` is something this kind of phrase can mean.
bool id_fits(Phrase::Means means, const std::string& id, const Names& names) {
  const auto in = [](const std::vector<std::string>& known, const std::string& name) {
    return std::find(known.begin(), known.end(), name) != known.end();
  };
  const auto fact_is = [&](const std::string& fact, const std::string& value) {
    const auto found = names.fact_values.find(fact);
    return found != names.fact_values.end() &&
           std::find(found->second.begin(), found->second.end(), value) != found->second.end();
  };
  const std::size_t equals = id.find('=');
  switch (means) {
    case Phrase::Means::symptom:
      return in(names.symptoms, id);
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
    case Phrase::Means::place:
      return id.empty() || id == "corner" || id == "some-corner";
    case Phrase::Means::manner:
      return equals != std::string::npos && in(names.symptoms, id.substr(0, equals)) &&
             in(names.symptoms, id.substr(equals + 1));
    case Phrase::Means::filler:
      return id.empty() || id == "simile" || id == "other-talk";
    case Phrase::Means::negation:
      return id.empty() || id == "after";
    case Phrase::Means::praise:
    case Phrase::Means::aside:
      return id.empty();
  }
  return false;
}

bool has_capital(const std::string& phrase) {
  return std::any_of(phrase.begin(), phrase.end(), [](char c) { return c >= 'A' && c <= 'Z'; });
}

/// What a phrase implies beside its meaning.
void read_implied(Fields& fields, const Section& section, Phrase& group) {
  if (const Node* phase = fields.optional("phase")) {
    group.phase = phase_named(phase->text);
    if (!group.phase) {
      section.refuse(*phase, Code::unknown_name, "`" + phase->text + "` is not a phase",
                     suggestion(phase->text, {"entry", "mid", "exit", "straight"}));
    }
  }
  if (const Node* severity = fields.optional("severity")) {
    const std::vector<std::string> known{"0", "1", "2", "3"};
    if (known_name(section.document, *severity, section.findings, "a severity", known)) {
      group.severity = severity->text[0] - '0';
    }
  }
  group.solid = read_flag(fields, "solid", section);
}

/// `<front>` in a phrase must be a class of the pack.
void check_classes(const Node& phrases, const std::vector<std::string>& words,
                   const Section& section) {
  for (const std::string& word : words) {
    if (!word.starts_with('<')) continue;
    const std::string id = word.substr(1, word.ends_with('>') ? word.size() - 2 : word.npos);
    check_names(&phrases, "a word class", {id}, section.names.word_classes, section);
  }
}

}  // namespace

void read_word_classes(const Node& list, const Section& section, Pack& pack) {
  for (const Node& item : list_items(list, "word-classes", section)) {
    Fields fields(section.document, item, section.findings, "a word class");
    WordClass made{fields.text("class"), {}};
    for (const std::string& words : fields.texts_or_none("words")) {
      made.words.push_back(words_in(words));
    }
    fields.finish();
    if (made.words.empty()) section.refuse(item, Code::bad_rule, "`words` needs at least one");
    pack.word_classes.push_back(std::move(made));
  }
}

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
      const std::vector<std::string> words = words_in(phrase);
      check_classes(*item.find("phrases"), words, section);
      if (words.empty()) continue;
      group.wordings +=
          fmt::format("{}{}", group.wordings.empty() ? "" : "\n", fmt::join(words, " "));
    }
    if (!group.wordings.empty()) pack.phrases.push_back(std::move(group));
  }
}

}  // namespace kartwright
