// explain: everything it lists, and every rule that an answer names, can be explained.

#include <algorithm>
#include <set>
#include <sstream>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "engine/document/code_pages.h"
#include "engine/document/codes.h"
#include "tests/cli/kartwright.h"
#include "tests/support/scenario_files.h"

namespace kartwright {
namespace {

using Json = nlohmann::json;
using testing::AllOf;
using testing::HasSubstr;
using testing::Not;

Json explained(const std::string& id) {
  const Ended ended = run_kartwright({"explain", id, "--format", "json"});
  EXPECT_EQ(ended.exit, 0) << id;
  EXPECT_EQ(ended.err, "") << id;
  return Json::parse(ended.out);
}

Json listed() {
  const Ended ended = run_kartwright({"explain", "--format", "json"});
  EXPECT_EQ(ended.exit, 0);
  return Json::parse(ended.out).at("kinds");
}

TEST(Explain, ListsEveryKindOfThing) {
  const Json kinds = listed();
  for (const char* kind : {"symptoms", "adjustments", "faults", "track", "facts", "rules"}) {
    ASSERT_TRUE(kinds.contains(kind)) << kind;
    EXPECT_FALSE(kinds.at(kind).empty()) << kind;
  }
  EXPECT_THAT(kinds.at("adjustments").get<std::vector<std::string>>(),
              testing::Contains("rear-width"));
}

TEST(Explain, ListsTheSameOnThePage) {
  const std::string page = run_kartwright({"explain"}, {{"COLUMNS", "10000"}}).out;
  const Json kinds = listed();
  for (const auto& [kind, ids] : kinds.items()) {
    if (kind == "rules") continue;
    for (const Json& id : ids) EXPECT_THAT(page, HasSubstr(id.get<std::string>()));
  }
}

TEST(Explain, AnswersForEverythingItLists) {
  const Json kinds = listed();
  int asked = 0;
  for (const auto& [kind, ids] : kinds.items()) {
    for (const Json& id : ids) {
      if (watched() && ++asked % 10 != 0) continue;  // a process each
      const Json answer = explained(id);
      EXPECT_EQ(answer.at("schema"), "kartwright/explain/1");
      EXPECT_EQ(answer.at("id"), id);
      EXPECT_NE(answer.at("title"), "");
      ASSERT_FALSE(answer.at("sections").empty()) << id;
      for (const Json& section : answer.at("sections")) {
        ASSERT_FALSE(section.at("paragraphs").empty()) << id << section.at("heading");
        for (const Json& paragraph : section.at("paragraphs"))
          EXPECT_NE(paragraph, "") << id << section.at("heading");
      }
    }
  }
}

/// Every rule that the answers to all scenarios name.
std::set<std::string> rules_in_answers() {
  std::set<std::string> rules;
  for (const std::string& debrief : scenario_files()) {
    const Json json =
        Json::parse(run_kartwright({"advise", "--debrief", debrief, "--format", "json"}).out);
    const Json& working = json.at("working");
    for (const Json& reading : working.at("readings")) rules.insert(reading.at("rule"));
    for (const Json& effect : working.at("effects")) {
      for (const Json& rule : effect.at("rules")) rules.insert(rule);
    }
    for (const Json& check : json.at("checks")) {
      for (const Json& because : check.at("because")) {
        if (because.at("rule") != "prior") rules.insert(because.at("rule"));
      }
    }
    for (const Json& change : json.at("changes")) {
      for (const Json& because : change.at("because")) {
        if (because.at("kind") == "rule") rules.insert(because.at("id"));
      }
    }
  }
  return rules;
}

TEST(Explain, AnswersForEveryRuleThatAnAnswerNames) {
  const std::set<std::string> rules = rules_in_answers();
  EXPECT_GT(rules.size(), 40U);
  int asked = 0;
  for (const std::string& rule : rules) {
    if (watched() && ++asked % 10 != 0) continue;  // a process each
    const Json answer = explained(rule);
    EXPECT_EQ(answer.at("kind"), "rule") << rule;
    EXPECT_THAT(answer.dump(), AllOf(HasSubstr("because"), HasSubstr(".yaml:"))) << rule;
  }
}

TEST(Explain, KeepsToTheWidth) {
  for (const char* id : {"hop", "rear-width", "bent-axle", "wet", "turn-in"}) {
    for (const std::size_t columns : {60U, 100U}) {
      const Ended ended = run_kartwright({"explain", id}, {{"COLUMNS", std::to_string(columns)}});
      for (const std::string& line : lines_of(ended.out))
        EXPECT_LE(width_of(line), columns) << line;
    }
    EXPECT_TRUE(is_ascii(run_kartwright({"explain", id}, {{"LC_ALL", "C"}}).out)) << id;
  }
}

/// The page breaks lines where it likes.
std::string without_blanks(std::string_view text) {
  std::string out;
  for (const char c : text) {
    if (c != ' ' && c != '\n') out += c;
  }
  return out;
}

TEST(Explain, EveryChangeAndEverySymptomFitsAPhoneAndAnAsciiTerminal) {
  const Json kinds = listed();
  int asked = 0;
  for (const char* kind : {"adjustments", "symptoms"}) {
    for (const Json& each : kinds.at(kind)) {
      if (watched() && ++asked % 10 != 0) continue;  // two processes each
      for (const std::size_t columns : {40U, 60U}) {
        const Ended ended = run_kartwright({"explain", each.get<std::string>()},
                                           {{"COLUMNS", std::to_string(columns)}, {"LC_ALL", "C"}});
        EXPECT_EQ(ended.exit, 0) << each;
        EXPECT_TRUE(is_ascii(ended.out)) << each;
        for (const std::string& line : lines_of(ended.out))
          EXPECT_LE(width_of(line), columns) << each << ": " << line;
      }
    }
  }
}

TEST(Explain, ATableStandsUnderItsColumnsOrAsALineForEachRow) {
  const std::string wide = run_kartwright({"explain", "rear-width"}, {{"COLUMNS", "60"}}).out;
  EXPECT_THAT(wide, HasSubstr("rear grip   much less  much less      much less"));
  EXPECT_THAT(wide, HasSubstr("going in   in the middle  coming off"));
  const std::string narrow = run_kartwright({"explain", "rear-width"}, {{"COLUMNS", "40"}}).out;
  EXPECT_THAT(without_blanks(narrow),
              HasSubstr("reargrip:goinginmuchless,inthemiddlemuchless,comingoffmuchless"));
  EXPECT_THAT(narrow, Not(HasSubstr("going in   in the middle")));
}

TEST(Explain, GivesTheTableWithItsNotchesAsJson) {
  const Json page = explained("rear-width");
  const auto found = std::find_if(page.at("sections").begin(), page.at("sections").end(),
                                  [](const Json& part) { return part.contains("table"); });
  ASSERT_NE(found, page.at("sections").end());
  EXPECT_EQ(found->at("heading"), "what it does");
  const Json& table = found->at("table");
  EXPECT_EQ(table.at("caption"), "rear wider, each 10 mm");
  EXPECT_EQ(table.at("columns"), Json({"going in", "in the middle", "coming off"}));
  for (const Json& row : table.at("rows")) {
    EXPECT_EQ(row.at("cells").size(), row.at("notches").size());
    if (row.at("label") == "rear grip") {
      EXPECT_EQ(row.at("notches"), Json({-0.5, -0.9, -0.6}));
    }
    if (row.at("label") == "front grip") {
      EXPECT_EQ(row.at("notches"), Json({nullptr, nullptr, nullptr}));
    }
  }
}

TEST(Explain, GivesThePhrasesAsTheyAreSaid) {
  const std::string page = run_kartwright({"explain", "hop"}, {{"COLUMNS", "10000"}}).out;
  EXPECT_THAT(page, HasSubstr("pogo stick"));
  EXPECT_THAT(page, Not(HasSubstr("pogo, stick")));
}

TEST(Explain, KnowsTheRulesOfTheCrew) {
  const Ended ended = run_kartwright({"explain", "ours", "--rules", "/nowhere/at/all"});
  EXPECT_EQ(ended.exit, 66);
}

TEST(Explain, EveryMessageByItsCode) {
  for (const CodeText& each : kCodes) {
    const Ended ended = run_kartwright({"explain", std::string(each.name)});
    EXPECT_EQ(ended.exit, 0) << each.name;
    EXPECT_THAT(without_blanks(ended.out), testing::HasSubstr(without_blanks(each.meaning)));
    EXPECT_THAT(without_blanks(ended.out), testing::HasSubstr(without_blanks(each.mend)));
  }
}

/// The lines of an example, as the page must show them.
std::vector<std::string> indented(std::string_view example) {
  std::vector<std::string> lines = lines_of(std::string(example) + "\n");
  for (std::string& line : lines) line.insert(0, 13, ' ');
  return lines;
}

TEST(Explain, KeepsTheLinesOfAnExampleHoweverNarrowThePage) {
  for (const CodeText& each : kCodes) {
    const CodePage* const page = page_of(each.code);
    ASSERT_NE(page, nullptr) << each.name;
    const Ended ended = run_kartwright({"explain", std::string(each.name)}, {{"COLUMNS", "40"}});
    const std::vector<std::string> shown = lines_of(ended.out);
    const std::string words = without_blanks(ended.out);
    for (const std::string_view text : {page->what, page->why})
      EXPECT_THAT(words, HasSubstr(without_blanks(text)));
    for (const std::string_view example : {page->avoid, page->prefer}) {
      EXPECT_THAT(words, HasSubstr(without_blanks(example)));
      if (page->shown == Shown::apart) continue;
      for (const std::string& line : indented(example))
        EXPECT_THAT(shown, testing::Contains(line)) << each.name;
    }
  }
}

TEST(Explain, GivesThePageOfAMessageAsParts) {
  const Json page = explained("K003");
  std::vector<std::string> headings;
  for (const Json& part : page.at("sections")) headings.push_back(part.at("heading"));
  EXPECT_THAT(headings, testing::ElementsAre("what", "why", "avoid", "prefer", "do"));
  EXPECT_EQ(page.at("sections").at(2).at("stands"), "in a kart file");
  EXPECT_EQ(page.at("sections").at(2).at("paragraphs").at(0),
            std::string(page_of(Code::over_class_limit)->avoid));
  EXPECT_FALSE(page.at("sections").at(1).contains("stands"));
}

/// The example typed: its words, without the program's own name.
Ended typed(std::string_view example) {
  Words words;
  std::istringstream stream{std::string(example)};
  for (std::string word; stream >> word;) words.push_back(word);
  EXPECT_EQ(words.at(0), "kartwright");
  words.erase(words.begin());
  return run_kartwright(words);
}

TEST(Explain, AnExampleOfOptionsGivesItsCodeAndTheBetterOneNone) {
  int examples = 0;
  for (const CodeText& each : kCodes) {
    const CodePage* const page = page_of(each.code);
    if (page == nullptr || page->shown != Shown::command_line) continue;
    ++examples;
    const Ended avoid = typed(page->avoid), prefer = typed(page->prefer);
    EXPECT_THAT(avoid.err, HasSubstr("[" + std::string(each.name) + "]"));
    EXPECT_NE(avoid.exit, 0);
    EXPECT_EQ(prefer.err, "");
    EXPECT_EQ(prefer.exit, 0);
  }
  EXPECT_GE(examples, 1);
}

TEST(Explain, ANameIsKnownInCapitalsAndInSeveralWords) {
  const std::string out = run_kartwright({"explain", "rear-width"}).out;
  EXPECT_EQ(run_kartwright({"explain", "Rear", "Width"}).out, out);
  EXPECT_EQ(run_kartwright({"explain", "rear_width"}).out, out);
}

}  // namespace
}  // namespace kartwright
