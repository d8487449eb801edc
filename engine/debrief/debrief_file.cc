#include "engine/debrief/debrief_file.h"

#include <algorithm>
#include <filesystem>
#include <iterator>
#include <string_view>
#include <tuple>

#include "engine/debrief/report_grammar.h"
#include "engine/debrief/sentence.h"
#include "engine/document/fields.h"
#include "engine/document/utf8.h"

namespace kartwright {
namespace {

WrittenAt place_of(const Document& document, const Span& span) {
  return {.file = document.name, .span = span, .source = document.line(span.line)};
}

/// The same of a text that is read by its letters: behind the quotation mark it may stand in.
WrittenAt letters_of(const Document& document, const Span& span) {
  WrittenAt at = place_of(document, span);
  const auto before = static_cast<std::size_t>(std::max(1, span.column)) - 1;
  const std::size_t mark = characters_behind(at.source, 0, before);
  const bool quoted =
      mark < at.source.size() && (at.source[mark] == '\'' || at.source[mark] == '"');
  if (quoted) ++at.span.column;
  return at;
}

void read_track(Fields& fields, const Pack& pack, Debrief& debrief) {
  const Node* track = fields.optional("track");
  if (track == nullptr) return;
  std::vector<std::string> known{"unknown"};
  for (const TrackState& state : pack.tracks) known.push_back(state.id);
  known_name(fields.document(), *track, fields.findings(), "a track state", known);
  debrief.track = track->text;
}

/// What may stand under the keys of a report that is a map.
const std::vector<std::pair<std::string_view, std::vector<std::string>>>& words_of_keys() {
  static const std::vector<std::pair<std::string_view, std::vector<std::string>>> kWords{
      {"phase", {"entry", "mid", "exit", "straight", "any"}},
      {"severity", {"0", "1", "2", "3"}},
      {"confidence", {"sure", "fair", "unsure"}},
      {"side", {"left", "right"}},
      {"when", {"early", "late"}}};
  return kWords;
}

/// Reports words that stand under the wrong key, or several under one; false where there are any.
bool words_fit(const Document& document, const Node& item, Findings& findings) {
  const std::size_t before = findings.all().size();
  for (const auto& [key, words] : words_of_keys()) {
    const Node* const node = item.find(key);
    if (node == nullptr || node->type != Node::Type::scalar) continue;
    if (std::find(words.begin(), words.end(), node->text) != words.end()) continue;
    findings.add(document.at(node->span, Code::bad_report,
                             "`" + node->text + "` cannot stand under `" + std::string(key) + "`",
                             suggestion(node->text, words)));
  }
  const Node* const symptom = item.find("symptom");
  if (symptom != nullptr && symptom->text.find_first_of("@=,") != std::string::npos) {
    findings.add(document.at(symptom->span, Code::bad_report,
                             "`" + symptom->text + "` is not a symptom",
                             "phase, severity and the rest have keys of their own here"));
  }
  return findings.all().size() == before;
}

/// A report as the answer writes it, `{symptom: push, phase: entry, severity: 2}`, in a line.
std::string report_in_a_line(const Document& document, const Node& item, Findings& findings) {
  Fields fields(document, item, findings, "a report");
  std::string text = fields.text("symptom");
  const std::string phase = fields.text_or("phase", "any");
  if (phase != "any") text += "@" + phase;
  text += "=" + fields.text_or("severity", "2");
  for (const std::string_view key : {"confidence", "side", "when"}) {
    const std::string value = fields.text_or(key, "");
    if (!value.empty()) text += "," + value;
  }
  for (const std::string_view told : {"words", "denied", "praise", "corners"})
    fields.optional(told);
  fields.finish();
  return text;
}

/// A denial that is no more than praise, as the answer marks it.
bool is_from_praise(const Node& item, const Report& report) {
  const Node* praise = item.find("praise");
  return report.denied() && praise != nullptr && praise->text == "true";
}

void read_reports(Fields& fields, const Pack& pack, Debrief& debrief) {
  const Node* reports = fields.optional("reports");
  if (reports == nullptr) return;
  if (reports->type != Node::Type::list) {
    fields.findings().add(fields.document().at(
        reports->span, Code::wrong_shape, "`reports` must be a list", "such as `- push@entry=2`"));
  }
  for (const Node& item : reports->items) {
    const bool map = item.type == Node::Type::map;
    const std::string text =
        map ? report_in_a_line(fields.document(), item, fields.findings())
            : scalar_text(fields.document(), item, fields.findings(), "a report");
    if (!map && item.type != Node::Type::scalar) continue;
    if (map && !words_fit(fields.document(), item, fields.findings())) continue;
    const auto report =
        parse_report(text, pack, letters_of(fields.document(), item.span), fields.findings());
    if (!report) continue;
    debrief.heard.reports.push_back(*report);
    debrief.heard.reports.back().from_praise = map && is_from_praise(item, *report);
  }
}

void read_facts(Fields& fields, const Pack& pack, Debrief& debrief) {
  const Node* facts = fields.optional("facts");
  if (facts == nullptr) return;
  if (facts->type != Node::Type::map) {
    fields.findings().add(fields.document().at(
        facts->span, Code::wrong_shape, "`facts` must be a map", "such as `{turn-in: brake}`"));
  }
  for (const Entry& entry : facts->entries) {
    const auto fact = make_fact(entry.key, entry.value.text, pack,
                                place_of(fields.document(), entry.span), fields.findings());
    if (fact) debrief.heard.facts.push_back(*fact);
  }
}

void read_laps(Fields& fields, const Pack& pack, Debrief& debrief) {
  const Node* laps = fields.optional("laps");
  if (laps == nullptr) return;
  const auto fact = make_fact("laps", laps->text, pack, place_of(fields.document(), laps->span),
                              fields.findings());
  if (fact) debrief.heard.facts.push_back(*fact);
}

double read_clock(Fields& fields, std::string_view key, double usual) {
  const double value = fields.number_or(key, usual);
  if (value >= 0.0) return value;
  fields.findings().add(fields.document().at(fields.node().find(key)->span, Code::implausible,
                                             "`" + std::string(key) + "` cannot be negative"));
  return usual;
}

void read_kart_of(Fields& fields, const Pack& pack, DebriefFile& file) {
  const Node* kart = fields.optional("kart");
  if (kart == nullptr) return;
  if (kart->type == Node::Type::map) {
    file.kart = read_kart(fields.document(), *kart, pack, fields.findings());
    return;
  }
  const std::string path = scalar_text(fields.document(), *kart, fields.findings(), "kart");
  const std::filesystem::path folder = std::filesystem::path(fields.document().name).parent_path();
  file.kart_path = (folder / path).string();
}

/// Of two reports of one symptom and phase: the severer, then the surer. The rest only makes sure
/// that it is the same one in whatever order they came.
bool outweighs(const Report& a, const Report& b) {
  const auto key = [](const Report& r) {
    return std::tuple(-r.severity, r.from_praise, r.confidence, r.side, r.when,
                      std::string_view(r.words));
  };
  return key(a) < key(b);
}

}  // namespace

DebriefFile read_debrief(const Document& document, const Pack& pack, Findings& findings) {
  return read_debrief(document, document.root, {.beside = {"title", "because", "expect"}}, pack,
                      findings);
}

DebriefFile read_debrief(const Document& document, const Node& node, const DebriefFrame& frame,
                         const Pack& pack, Findings& findings) {
  Fields fields(document, node, findings, frame.what);
  DebriefFile file;
  read_track(fields, pack, file.debrief);
  read_reports(fields, pack, file.debrief);
  read_facts(fields, pack, file.debrief);
  read_laps(fields, pack, file.debrief);
  file.debrief.minutes = read_clock(fields, "minutes", file.debrief.minutes);
  file.debrief.hours = read_clock(fields, "hours", file.debrief.hours);
  const std::string said = frame.in_words ? fields.text_or("said", "") : "";
  for (const std::string_view key : frame.beside) fields.optional(key);
  read_kart_of(fields, pack, file);
  fields.finish();
  if (!said.empty())
    add_heard(file.debrief, frame.ear != nullptr ? frame.ear->hear(said) : hear(said, pack));
  settle_reports(file.debrief.heard.reports);
  return file;
}

void settle_reports(std::vector<Report>& reports) {
  std::vector<Report> settled;
  for (Report& report : reports) {
    const auto same = std::find_if(settled.begin(), settled.end(), [&](const Report& r) {
      return r.symptom == report.symptom && r.phase == report.phase;
    });
    if (same == settled.end()) {
      settled.push_back(std::move(report));
    } else if (outweighs(report, *same)) {
      *same = std::move(report);
    }
  }
  std::erase_if(settled, [&](const Report& praised) {
    return praised.from_praise && std::any_of(settled.begin(), settled.end(), [&](const Report& r) {
             return r.symptom == praised.symptom && !r.denied();
           });
  });
  reports = std::move(settled);
}

void add_words(Debrief& debrief, std::string_view said, const Pack& pack) {
  add_heard(debrief, hear(said, pack));
}

void add_heard(Debrief& debrief, Heard heard) {
  const auto append = [](auto& to, auto& from) {
    std::move(from.begin(), from.end(), std::back_inserter(to));
  };
  append(debrief.heard.reports, heard.reports);
  append(debrief.heard.facts, heard.facts);
  append(debrief.heard.not_understood, heard.not_understood);
  append(debrief.heard.praise, heard.praise);
  settle_reports(debrief.heard.reports);
}

}  // namespace kartwright
