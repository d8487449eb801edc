// The symptoms of rule files: how they read on the axes, and how they are told from one another.

#include <algorithm>

#include "engine/knowledge/section_reader.h"

namespace kartwright {
namespace {

SymptomReading read_symptom_reading(const Node& node, const Section& section) {
  Fields fields(section.document, node, section.findings, "a symptom's reading");
  SymptomReading reading;
  read_rule(fields, section, reading);
  if (const Node* row = fields.required("row")) reading.row = read_row(*row, section);
  reading.value = fields.number("value");
  const std::string unsaid = fields.text_or("unsaid", "mean");
  reading.unsaid = phase_named(unsaid);
  if (unsaid != "mean" && !(reading.unsaid && *reading.unsaid < Phase::straight)) {
    section.refuse(node, Code::bad_rule, "`unsaid` is mean, entry, mid or exit");
  }
  fields.finish();
  return reading;
}

/// A text for each phase at which the question is asked by itself.
std::map<Phase, std::string> read_question_at(Fields& symptom, const Section& section) {
  std::map<Phase, std::string> questions;
  const Node* node = symptom.optional("question-at");
  if (node == nullptr) return questions;
  Fields fields(section.document, *node, section.findings, "the questions at the phases");
  for (const Phase phase : {Phase::entry, Phase::mid, Phase::exit, Phase::straight}) {
    std::string text = fields.text_or(name_of(phase), "");
    if (!text.empty()) questions.emplace(phase, std::move(text));
  }
  fields.finish();
  return questions;
}

Neighbour read_neighbour(const Node& node, const Section& section) {
  Fields fields(section.document, node, section.findings, "a neighbour");
  Neighbour neighbour{.symptom = fields.text("symptom"), .tell = fields.text("tell"), .source = {}};
  neighbour.source = section.source(node);
  fields.finish();
  if (neighbour.symptom.empty()) return neighbour;
  check_names(node.find("symptom"), "a symptom", {neighbour.symptom}, section.names.symptoms,
              section);
  return neighbour;
}

std::vector<Neighbour> read_neighbours(Fields& fields, const std::string& id,
                                       const Section& section) {
  std::vector<Neighbour> out;
  const Node* list = fields.optional("neighbours");
  if (list == nullptr) return out;
  for (const Node& item : list_items(*list, "neighbours", section)) {
    Neighbour next = read_neighbour(item, section);
    const bool twice = std::any_of(out.begin(), out.end(), [&](const Neighbour& each) {
      return each.symptom == next.symptom;
    });
    if (next.symptom.empty()) continue;  // said already
    if (next.symptom == id) {
      section.refuse(item, Code::bad_rule, "`" + id + "` is named as its own neighbour");
    } else if (twice) {
      section.refuse(item, Code::bad_rule, "`" + next.symptom + "` is named as a neighbour twice");
    }
    out.push_back(std::move(next));
  }
  return out;
}

const Neighbour* neighbour_of(const Symptom& symptom, std::string_view id) {
  for (const Neighbour& each : symptom.neighbours) {
    if (each.symptom == id) return &each;
  }
  return nullptr;
}

}  // namespace

void read_symptom(const Node& node, const Section& section, Pack& pack) {
  Fields fields(section.document, node, section.findings, "a symptom");
  Symptom symptom;
  symptom.id = fields.text("symptom");
  symptom.label = fields.text("label");
  symptom.plain = fields.text("plain");
  symptom.neighbours = read_neighbours(fields, symptom.id, section);
  symptom.question = fields.text_or("question", "");
  symptom.question_at = read_question_at(fields, section);
  symptom.against = fields.text_or("against", "");
  if (!symptom.against.empty()) {
    check_names(node.find("against"), "a symptom", {symptom.against}, section.names.symptoms,
                section);
  }
  symptom.source = section.source(node);
  for (const std::string& name : fields.texts_or_none("phases")) {
    const std::optional<Phase> phase = phase_named(name);
    if (phase) symptom.phases.push_back(*phase);
    if (!phase) section.refuse(node, Code::bad_rule, "`" + name + "` is not a phase");
  }
  if (const Node* reading = fields.optional("reading")) {
    symptom.reading = read_symptom_reading(*reading, section);
  }
  fields.finish();
  pack.symptoms.push_back(std::move(symptom));
}

void check_neighbours(const std::vector<Symptom>& symptoms, Findings& findings) {
  for (const Symptom& one : symptoms) {
    for (const Symptom& other : symptoms) {
      const Neighbour* named = neighbour_of(one, other.id);
      if (named == nullptr || neighbour_of(other, one.id) != nullptr) continue;
      findings.add({.code = Code::bad_rule,
                    .file = named->source.file,
                    .span = {.line = named->source.line, .column = 1},
                    .message = "`" + one.id + "` names `" + other.id +
                               "` as its neighbour, but not the other way round",
                    .help = "say at `" + other.id + "` how it is told from `" + one.id + "`"});
    }
  }
}

}  // namespace kartwright
