// What differs between two rule packs, as a page and as JSON.

#include <sstream>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "cli/difference_json.h"
#include "cli/difference_text.h"

namespace kartwright::cli {
namespace {

using testing::HasSubstr;
using testing::Not;

/// One rule changed, one added; one scenario answered otherwise, one that cannot be read.
PackDifference some_difference() {
  PackDifference out{.before = "built-in", .after = "our/rules", .rules = {}, .scenarios = {}};
  out.rules.push_back(
      {.kind = "effect rule",
       .id = "wider-sheds-side-bite",
       .of = "rear-width",
       .before = Source{"rules/adjustments/rear-width.yaml", 26},
       .after = Source{"our/rules/rear-width.yaml", 26},
       .fields = {{"rear-grip.mid", FieldKind::numbers, "-0.9 ± 0.2", "-0.45 ± 0.2"},
                  {"when", FieldKind::condition, "", "track:wet"}}});
  out.rules.push_back({.happened = Happened::added, .kind = "caution", .id = "gloves"});
  out.scenarios.asked = 40;
  out.scenarios.differing.push_back(
      {.scenario = "scenarios/heat-2.yaml",
       .title = "it hops",
       .headline_before = Headline::change,
       .headline_after = Headline::leave_alone,
       .first_before = LeadingChange{"rear-width", "wider", "rear wider", "1360 mm", "1375 mm"},
       .first_after = std::nullopt,
       .first_differs = true,
       .ranks = {{"rear-width", "wider", 1, 0}, {"toe", "out", 2, 1}},
       .scores = {{"toe", "out", 12.34, 9.04}},
       .checks_came = {"bent-axle"},
       .checks_went = {"soft-tyre"}});
  out.scenarios.unread.push_back({"scenarios/odd.yaml",
                                  {{.code = Code::unknown_name,
                                    .file = "scenarios/odd.yaml",
                                    .span = {.line = 3, .column = 5},
                                    .message = "`wobble` is not a symptom"}},
                                  {}});
  return out;
}

std::string text_of(const PackDifference& difference, std::size_t width) {
  return difference_text(difference, {.width = width, .unicode = true, .colour = false});
}

TEST(DifferencePage, SaysWhatChangedFromWhatToWhat) {
  EXPECT_EQ(text_of(some_difference(), 80),
            R"(PACKS      built-in -> our/rules

RULES      1 changed, 1 added, 0 removed

           changed: effect rule wider-sheds-side-bite of rear-width
             our/rules/rear-width.yaml:26
             rear-grip.mid: -0.9 ± 0.2 -> -0.45 ± 0.2
             when: nothing -> track:wet

           added: caution gloves

SCENARIOS  1 of 40 answered otherwise

           scenarios/heat-2.yaml
             it hops
             headline: change -> leave-alone
             first: rear wider, 1360 mm to 1375 mm -> no change offered
             rank
               rear-width wider  1 -> not offered
               toe out           2 -> 1
             score, points
               toe out    12.3 ->    9.0  (-3.3)
             checks that came: bent-axle
             checks that went: soft-tyre

NOT ASKED  1 scenario that cannot be read

           scenarios/odd.yaml
             under built-in
               scenarios/odd.yaml:3:5: D013: `wobble` is not a symptom
)");
}

TEST(DifferencePage, OnePackIsSaidInTwoLines) {
  PackDifference none{.before = "built-in", .after = "built-in", .rules = {}, .scenarios = {}};
  none.scenarios.asked = 40;
  const std::string text = text_of(none, 80);
  EXPECT_THAT(text, HasSubstr("RULES      nothing differs"));
  EXPECT_THAT(text, HasSubstr("SCENARIOS  none of 40 answered otherwise"));
}

TEST(DifferencePage, FitsANarrowTerminal) {
  for (const std::size_t width : {30U, 40U, 60U, 120U}) {
    std::istringstream text(text_of(some_difference(), width));
    for (std::string line; std::getline(text, line);) {
      EXPECT_LE(columns(line), width) << line;
    }
  }
}

TEST(DifferencePage, ALongTextStandsOverWhatItBecame) {
  PackDifference difference = some_difference();
  const std::string words(90, 'w');
  difference.rules[0].fields = {{"because", FieldKind::texts, words + " old", words + " new"}};
  const std::string text = text_of(difference, 160);
  EXPECT_THAT(text, HasSubstr("before: w"));
  EXPECT_THAT(text, HasSubstr("after: w"));
}

TEST(DifferencePage, AFileNameCannotReachTheTerminal) {
  PackDifference difference = some_difference();
  difference.after = "our\x1b[31mrules";
  difference.scenarios.differing[0].title = "\x1b]0;x\x07";
  EXPECT_THAT(text_of(difference, 80), Not(HasSubstr("\x1b")));
  EXPECT_THAT(difference_json(difference), Not(HasSubstr("\x1b")));
}

TEST(DifferenceJson, CarriesAllOfIt) {
  const std::string text = difference_json(some_difference());
  EXPECT_TRUE(text.ends_with("\n"));
  const auto json = nlohmann::json::parse(text);
  EXPECT_EQ(json["schema"], "kartwright/rules-diff/1");
  EXPECT_EQ(json["before"], "built-in");
  EXPECT_EQ(json["after"], "our/rules");
  EXPECT_EQ(json["asked"], 40);
  const auto& rule = json["rules"][0];
  EXPECT_EQ(rule["happened"], "changed");
  EXPECT_EQ(rule["id"], "wider-sheds-side-bite");
  EXPECT_EQ(rule["of"], "rear-width");
  EXPECT_EQ(rule["source"]["after"], "our/rules/rear-width.yaml:26");
  EXPECT_EQ(rule["fields"][0]["what"], "numbers");
  EXPECT_EQ(rule["fields"][0]["before"], "-0.9 ± 0.2");
  EXPECT_TRUE(json["rules"][1]["source"]["before"].is_null());
  const auto& scenario = json["scenarios"][0];
  EXPECT_EQ(scenario["headline"]["after"], "leave-alone");
  EXPECT_EQ(scenario["first"]["before"]["to"], "1375 mm");
  EXPECT_TRUE(scenario["first"]["after"].is_null());
  EXPECT_TRUE(scenario["ranks"][0]["after"].is_null());
  EXPECT_EQ(scenario["ranks"][1]["after"], 1);
  EXPECT_EQ(scenario["scores"][0]["before"], 12.34);
  EXPECT_EQ(scenario["checks"]["came"][0], "bent-axle");
  EXPECT_EQ(json["unread"][0]["before"][0]["code"], "D013");
  EXPECT_TRUE(json["unread"][0]["after"].empty());
}

TEST(DifferenceJson, OnePackHasEmptyLists) {
  const auto json = nlohmann::json::parse(difference_json({"a", "b", {}, {}}));
  EXPECT_TRUE(json["rules"].is_array() && json["rules"].empty());
  EXPECT_TRUE(json["scenarios"].is_array() && json["scenarios"].empty());
  EXPECT_TRUE(json["unread"].is_array() && json["unread"].empty());
}

}  // namespace
}  // namespace kartwright::cli
