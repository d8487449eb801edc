// A debrief: the bytes as free words, and as a file. What was understood is written and read back.

#include <algorithm>

#include "cli/advice_json.h"
#include "cli/advice_text.h"
#include "engine/advice/advise.h"
#include "engine/debrief/debrief_file.h"
#include "engine/debrief/debrief_text.h"
#include "engine/debrief/report_grammar.h"
#include "engine/debrief/sentence.h"
#include "engine/document/utf8.h"
#include "tests/fuzz/oracle.h"

namespace kartwright::fuzz {
namespace {

constexpr const char* kDebriefFile = "debrief.yaml";

Ear& one_ear() {
  static Ear ear(shipped_rules());
  return ear;
}

/// As a debrief file is read, with that ear: a new one each time takes longer than all else.
DebriefFile read_file(const Document& document, Findings& findings) {
  const DebriefFrame frame{.beside = {"title", "because", "expect"}, .ear = &one_ear()};
  return read_debrief(document, document.root, frame, shipped_rules(), findings);
}

/// What was said is kept as it was said; whoever shows it takes out what would steer a terminal.
void check_said(std::string_view words, const std::string& what) {
  hold(!first_invalid_utf8(words), what + " is not UTF-8");
}

void check_heard(const Heard& heard) {
  const Pack& pack = shipped_rules();
  for (const Report& report : heard.reports) {
    hold(pack.symptom(report.symptom) != nullptr, "a symptom nobody knows: " + report.symptom);
    hold(report.severity >= 0 && report.severity <= 3, "a severity beyond the scale");
    check_said(report.words, "the words of a report");
    for (const std::string& corner : report.corners) check_said(corner, "a corner");
  }
  for (const StatedFact& fact : heard.facts) {
    const FactDef* const known = pack.fact(fact.fact);
    hold(known != nullptr && std::count(known->values.begin(), known->values.end(), fact.value) > 0,
         "a fact nobody knows: " + fact.fact + "=" + fact.value);
    check_said(fact.words, "the words of a fact");
  }
  for (const NotUnderstood& left : heard.not_understood)
    check_said(left.words, "words that were not understood");
  for (const std::string& praise : heard.praise) check_said(praise, "praise");
}

bool same_report(const Report& a, const Report& b) {
  const bool same = a.symptom == b.symptom && a.phase == b.phase && a.severity == b.severity &&
                    a.from_praise == b.from_praise;
  return same &&
         (a.from_praise || (a.confidence == b.confidence && a.side == b.side && a.when == b.when));
}

bool same_fact(const StatedFact& a, const StatedFact& b) {
  return a.fact == b.fact && a.value == b.value;
}

bool same_heard(const Heard& a, const Heard& b) {
  return std::equal(a.reports.begin(), a.reports.end(), b.reports.begin(), b.reports.end(),
                    same_report) &&
         std::equal(a.facts.begin(), a.facts.end(), b.facts.begin(), b.facts.end(), same_fact) &&
         a.not_understood.size() == b.not_understood.size();
}

/// The last value that was stated of each fact, by its id, as a file has them.
void keep_last_facts(std::vector<StatedFact>& facts) {
  std::reverse(facts.begin(), facts.end());
  std::stable_sort(facts.begin(), facts.end(),
                   [](const StatedFact& a, const StatedFact& b) { return a.fact < b.fact; });
  facts.erase(
      std::unique(facts.begin(), facts.end(),
                  [](const StatedFact& a, const StatedFact& b) { return a.fact == b.fact; }),
      facts.end());
}

Debrief read_back(const std::string& text) {
  Findings findings;
  try {
    const DebriefFile file = read_file(parse_document(kDebriefFile, text), findings);
    findings.throw_if_errors();
    return file.debrief;
  } catch (const InputError& error) {
    throw Broken("a debrief cannot be read back: " + error.found().front().message + "\n" + text);
  }
}

void check_written(Debrief debrief) {
  read_back(debrief_text(debrief, {}));
  debrief.heard.not_understood.clear();
  keep_last_facts(debrief.heard.facts);
  const Debrief again = read_back(debrief_text(debrief, {.title = "harbour"}));
  hold(same_heard(debrief.heard, again.heard), "a debrief reads back as another one");
  hold(again.track == debrief.track && again.minutes == debrief.minutes &&
           again.hours == debrief.hours,
       "a debrief reads back at another time");
  for (const Report& report : debrief.heard.reports) {
    Findings findings;
    const auto read = parse_report(report_text(report), shipped_rules(), {}, findings);
    hold(read && !findings.has_errors(), "a report that is no report: " + report_text(report));
  }
}

void check_sentence(std::string_view said) {
  const Heard heard = one_ear().hear(said);
  check_heard(heard);
  hold(same_heard(heard, one_ear().hear(said)), "the same words are heard in two ways");
  Debrief debrief;
  debrief.track = "green";
  add_heard(debrief, heard);
  check_written(debrief);
}

}  // namespace

Fate fuzz_debrief(std::string_view bytes) {
  const Pack& pack = shipped_rules();
  check_sentence(bytes);
  Findings findings;
  try {
    const Document document = parse_document(kDebriefFile, std::string(bytes));
    const DebriefFile file = read_file(document, findings);
    findings.throw_if_errors();
    check_found(findings.all(), document.text, kDebriefFile);
    check_heard(file.debrief.heard);
    check_written(file.debrief);
    const Kart& kart = file.kart ? *file.kart : usual_kart_of_rules();
    const Advice advice = advise(pack, kart, file.debrief, kart.units, {.draws = 20});
    check_advice(advice);
    check_words(cli::advice_text(advice, pack, {.width = 60}, true), "a page");
    check_words(cli::advice_json(advice, pack, false), "a page in JSON");
    return Fate::taken;
  } catch (const InputError& error) {
    check_refusal(error.found(), bytes, kDebriefFile);
    return Fate::refused;
  }
}

}  // namespace kartwright::fuzz
