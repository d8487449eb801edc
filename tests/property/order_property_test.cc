// The order of rule files, of what stands in them, of reports and of facts changes no byte of the
// answer, but for the line numbers that name where a rule stands.

#include <algorithm>
#include <regex>
#include <set>

#include <gtest/gtest.h>

#include "cli/advice_json.h"
#include "cli/advice_text.h"
#include "engine/advice/advise.h"
#include "engine/debrief/debrief_file.h"
#include "engine/debrief/report_grammar.h"
#include "engine/debrief/sentence.h"
#include "engine/knowledge/built_in.h"
#include "engine/knowledge/load.h"
#include "tests/support/any.h"

namespace kartwright {
namespace {

/// Shuffles the lists whose order means nothing: those of rules, definitions and phrases.
void shuffle_lists(Node& node, Random& random) {
  static const std::set<std::string> kOrdered{
      "directions", "phrases",       "positions", "values", "prior",   "cautions",
      "phases",     "praise-denies", "steps",     "of",     "figures", "verdicts"};
  for (Entry& entry : node.entries) {
    if (!kOrdered.contains(entry.key))
      std::shuffle(entry.value.items.begin(), entry.value.items.end(), random);
    shuffle_lists(entry.value, random);
  }
  std::shuffle(node.entries.begin(), node.entries.end(), random);
  for (Node& item : node.items) shuffle_lists(item, random);
}

std::vector<Document> shuffled_rules(Random& random) {
  std::vector<Document> rules = built_in_rules();
  for (Document& document : rules) shuffle_lists(document.root, random);
  std::shuffle(rules.begin(), rules.end(), random);
  return rules;
}

Debrief debrief_of(const Pack& pack, std::vector<std::string> reports,
                   std::vector<std::string> facts) {
  Debrief debrief;
  debrief.track = "rubbered-in";
  Findings findings;
  for (const std::string& text : reports) {
    debrief.heard.reports.push_back(*parse_report(text, pack, {.file = "--report"}, findings));
  }
  for (const std::string& text : facts) {
    debrief.heard.facts.push_back(*parse_fact(text, pack, {.file = "--fact"}, findings));
  }
  settle_reports(debrief.heard.reports);
  return debrief;
}

std::string answer(const Pack& pack, const Debrief& debrief) {
  const Kart kart = typical_kart(pack);
  const Advice advice = advise(pack, kart, debrief, System::metric);
  const std::string json = cli::advice_json(advice, pack, false);
  const std::string text = cli::advice_text(advice, pack, {.width = 80}, true);
  static const std::regex kLine("(rules/[a-z/-]+\\.yaml):[0-9]+");
  return std::regex_replace(json + text, kLine, "$1");
}

const std::vector<std::string> kReports{
    "push@entry=2", "hop@mid=3,late", "bog@exit=1,unsure",     "twitchy=0", "vibration=2",
    "loose=0,sure", "bind=1",         "push@entry=2,sure,left"};
const std::vector<std::string> kFacts{"turn-in=throttle", "front-tyres=hotter", "hit=yes",
                                      "roll-structure=yes", "collars=loose"};

TEST(OrderProperty, RuleFilesInAnyOrderGiveTheSameBytes) {
  Random random(21);
  const Pack pack = built_in_pack();
  const std::string expected = answer(pack, debrief_of(pack, kReports, kFacts));
  for (int i = 0; i < 12; ++i) {
    const Pack other = load_pack(shuffled_rules(random));
    ASSERT_EQ(answer(other, debrief_of(other, kReports, kFacts)), expected) << "shuffle " << i;
  }
}

/// What was heard, in words that show every part of it.
std::string told(const Heard& heard) {
  std::string out;
  for (const Report& r : heard.reports) {
    out += r.symptom + "@" + std::string(name_of(r.phase)) + "=" + std::to_string(r.severity);
    out += " " + std::string(name_of(r.confidence));
    if (r.side) out += " " + std::string(name_of(*r.side));
    if (r.when) out += " " + std::string(name_of(*r.when));
    out += " from " + r.words + "; ";
  }
  for (const StatedFact& fact : heard.facts) out += fact.fact + "=" + fact.value + "; ";
  for (const NotUnderstood& left : heard.not_understood) {
    out += "? " + left.words + ":";
    for (const std::string& near : left.nearest) out += " " + near;
  }
  return out;
}

const std::vector<std::string> kSentences{
    "pushes going in, hops hard in the middle and bogs coming off",
    "it was great, a bit loose off the last corner late in the run i think",
    "washes out badly on entry but no hop any more, twitchy in lefts, brake feels mushy",
    "inside rear never comes up and the thing is tied down, faster than last run though"};

TEST(OrderProperty, WordsInAnyOrderHearTheSame) {
  Random random(23);
  const Pack pack = built_in_pack();
  for (int i = 0; i < 12; ++i) {
    const Pack other = load_pack(shuffled_rules(random));
    for (const std::string& said : kSentences) {
      ASSERT_EQ(told(hear(said, other)), told(hear(said, pack))) << said << ", shuffle " << i;
    }
  }
}

TEST(OrderProperty, ReportsAndFactsInAnyOrderGiveTheSameBytes) {
  Random random(22);
  const Pack pack = built_in_pack();
  const std::string expected = answer(pack, debrief_of(pack, kReports, kFacts));
  std::vector<std::string> reports = kReports;
  std::vector<std::string> facts = kFacts;
  for (int i = 0; i < 40; ++i) {
    std::shuffle(reports.begin(), reports.end(), random);
    std::shuffle(facts.begin(), facts.end(), random);
    ASSERT_EQ(answer(pack, debrief_of(pack, reports, facts)), expected) << "shuffle " << i;
  }
}

}  // namespace
}  // namespace kartwright
