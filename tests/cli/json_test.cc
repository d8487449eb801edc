// The JSON of an answer: the keys and types that other programs rely on, for every scenario.

#include <cmath>
#include <map>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "tests/cli/kartwright.h"
#include "tests/support/scenario_files.h"

namespace kartwright {
namespace {

using Json = nlohmann::json;
using testing::AnyOf;
using testing::HasSubstr;
using testing::Not;

Json answer(const std::string& debrief, const Words& more = {}) {
  Words words{"advise", "--debrief", debrief, "--format", "json"};
  words.insert(words.end(), more.begin(), more.end());
  const Ended ended = run_kartwright(words);
  EXPECT_EQ(ended.exit, 0);
  EXPECT_EQ(ended.err, "");
  EXPECT_EQ(lines_of(ended.out).size(), 1U) << "one object, one line";
  return Json::parse(ended.out);
}

/// Every key of `keys` in an object, and no null among them but those that end in `?`.
void expect_keys(const Json& object, const std::vector<std::string>& keys,
                 const std::string& what) {
  ASSERT_TRUE(object.is_object()) << what;
  for (std::string key : keys) {
    const bool may_be_null = key.back() == '?';
    if (may_be_null) key.pop_back();
    EXPECT_TRUE(object.contains(key)) << what << " has no `" << key << "`";
    EXPECT_TRUE(may_be_null || !object.value(key, Json()).is_null()) << what << " " << key;
  }
}

void expect_vector(const Json& numbers, std::size_t size, const std::string& what) {
  ASSERT_TRUE(numbers.is_array()) << what;
  EXPECT_EQ(numbers.size(), size) << what;
  for (const Json& each : numbers) EXPECT_TRUE(each.is_number()) << what;
}

void expect_matrix(const Json& rows, std::size_t height, std::size_t width,
                   const std::string& what) {
  ASSERT_TRUE(rows.is_array()) << what;
  EXPECT_EQ(rows.size(), height) << what;
  for (const Json& row : rows) expect_vector(row, width, what);
}

class Contract : public testing::TestWithParam<std::string> {
 protected:
  const Json json_ = answer(GetParam());
};

TEST_P(Contract, HasItsSections) {
  expect_keys(json_,
              {"schema", "kart", "track", "heard", "reading", "checks", "changes", "bundles",
               "not_now", "ask", "working"},
              "the answer");
  EXPECT_EQ(json_.at("schema"), "kartwright/advice/1");
  expect_keys(json_.at("heard"), {"reports", "not_understood"}, "heard");
  for (const Json& each : json_.at("heard").at("reports"))
    expect_keys(each, {"symptom", "phase", "severity", "confidence"}, "a report");
  for (const Json& each : json_.at("heard").at("not_understood"))
    expect_keys(each, {"words", "nearest"}, "words not understood");
  expect_keys(json_.at("reading"), {"headline", "text", "coherent", "chi2", "dof", "odd_one_out?"},
              "reading");
  const std::string headline = json_.at("reading").at("headline");
  EXPECT_THAT(headline,
              AnyOf("change", "leave-alone", "wait-for-track", "stop-and-fix", "ask-again"));
}

TEST_P(Contract, HasItsChecks) {
  for (const Json& each : json_.at("checks")) {
    expect_keys(each, {"fault", "probability", "minutes", "loss", "stop", "because"}, "a check");
    double sum = 0.0;
    for (const Json& because : each.at("because")) {
      expect_keys(because, {"rule", "decibans"}, "a check's reason");
      sum += because.at("decibans").get<double>();
    }
    EXPECT_NEAR(each.at("probability").get<double>(), 1.0 / (1.0 + std::pow(10.0, -sum / 10.0)),
                1e-12)
        << each.at("fault");
  }
}

TEST_P(Contract, HasItsChangesAndTheirPartsSumToTheScore) {
  std::size_t rank = 0;
  for (const Json& each : json_.at("changes")) {
    expect_keys(each,
                {"rank", "adjustment", "direction", "from", "to", "steps", "relief", "room_cost",
                 "minutes", "score", "parts", "room_left", "contested", "because", "watch",
                 "back_out", "against", "cautions"},
                "a change");
    EXPECT_EQ(each.at("rank"), ++rank);
    const Json& parts = each.at("parts");
    expect_keys(parts, {"effect", "room", "effort", "last_notch"}, "parts");
    double sum = 0.0;
    for (const Json& part : parts) sum += part.get<double>();
    EXPECT_NEAR(sum, each.at("score").get<double>(), 1e-9);
    EXPECT_NE(each.at("steps").get<double>(), 0.0);
    EXPECT_GT(each.at("relief").get<double>(), 0.0);
    EXPECT_FALSE(each.at("because").empty());
    for (const Json& because : each.at("because")) {
      expect_keys(because, {"kind", "id", "text"}, "a reason");
      EXPECT_THAT(because.at("kind").get<std::string>(), AnyOf("rule", "chassis", "record"));
    }
    EXPECT_NE(each.at("watch"), "");
    EXPECT_NE(each.at("back_out"), "");
    EXPECT_FALSE(each.at("cautions").empty());
  }
}

TEST_P(Contract, HasItsRefusalsAndBundles) {
  EXPECT_FALSE(json_.at("not_now").empty());
  for (const Json& each : json_.at("not_now")) {
    expect_keys(each, {"adjustment", "direction", "to", "text", "reason"}, "a refusal");
    EXPECT_THAT(each.at("reason").get<std::string>(),
                AnyOf("end-stop", "class-limit", "no-part", "no-time", "makes-worse",
                      "not-on-this-kart", "effect-unknown", "tried-and-reverted"));
  }
  for (const Json& each : json_.at("bundles")) {
    expect_keys(each, {"moves", "relief", "minutes"}, "a bundle");
    for (const Json& move : each.at("moves"))
      expect_keys(move, {"adjustment", "from", "to", "steps"}, "a move of a bundle");
  }
  for (const Json& each : json_.at("ask")) {
    expect_keys(each, {"symptom?", "phase?", "question", "worth"}, "a question");
    EXPECT_NE(each.at("symptom").is_null(), !each.contains("fact")) << each;
  }
}

TEST_P(Contract, EveryDirectionOfEveryAdjustmentIsRankedOrRefused) {
  std::map<std::pair<std::string, std::string>, int> told;
  for (const char* list : {"changes", "not_now"}) {
    for (const Json& each : json_.at(list)) ++told[{each.at("adjustment"), each.at("direction")}];
  }
  EXPECT_EQ(told.size(), 2 * json_.at("working").at("effects").size());
  for (const auto& [move, times] : told) EXPECT_EQ(times, 1) << move.first << " " << move.second;
}

TEST_P(Contract, HasItsWorkingInTheRightShapes) {
  const Json& working = json_.at("working");
  expect_keys(working,
              {"axes", "weights", "prior", "facts", "readings", "posterior", "shares", "effects",
               "options", "questions", "minutes_left", "effort_rate", "loss_none", "forecast"},
              "the working");
  const std::size_t axes = working.at("axes").size(), readings = working.at("readings").size();
  EXPECT_EQ(axes, 8U);
  expect_vector(working.at("weights"), axes, "weights");
  for (const char* belief : {"prior", "posterior"}) {
    expect_vector(working.at(belief).at("mean"), axes, belief);
    expect_matrix(working.at(belief).at("covariance"), axes, axes, belief);
  }
  expect_matrix(working.at("shares"), axes, readings, "shares");
  for (const Json& each : working.at("readings")) {
    expect_keys(each, {"rule", "source", "row", "value", "sd"}, "a reading");
    EXPECT_THAT(each.at("source").get<std::string>(),
                testing::MatchesRegex("rules/.*\\.yaml:[0-9]+"));
    expect_vector(each.at("row"), axes, "row");
  }
  for (const Json& each : working.at("facts"))
    expect_keys(each, {"fact", "rule", "premises"}, "a fact");
  for (const Json& each : working.at("effects")) {
    expect_keys(each, {"adjustment", "per_step", "covariance", "rules", "records"}, "an effect");
    expect_vector(each.at("per_step"), axes, "per_step");
    expect_matrix(each.at("covariance"), axes, axes, "covariance");
  }
  for (const Json& each : working.at("options"))
    expect_keys(each, {"adjustment", "from", "to", "u", "minutes", "last_notch", "legal"},
                "an option");
  for (const Json& each : working.at("questions"))
    expect_keys(each, {"symptom", "phase", "row", "sd", "two_sided"}, "a question");
  for (const Json& each : working.at("forecast")) {
    expect_keys(each, {"stage", "shift", "weight"}, "a stage");
    expect_vector(each.at("shift"), axes, "shift");
  }
}

TEST_P(Contract, BriefLeavesTheWorkingOutAndNothingElse) {
  Json left = json_;
  left.erase("working");
  left.erase("ask");
  left.erase("draws");
  left.erase("on_paper");
  EXPECT_EQ(answer(GetParam(), {"--brief"}), left);
}

TEST_P(Contract, InchesRankAsMillimetresDo) {
  const Json metric = answer(GetParam(), {"--units", "metric"});
  const Json imperial = answer(GetParam(), {"--units", "imperial"});
  const Json &m = metric.at("changes"), &i = imperial.at("changes");
  ASSERT_EQ(m.size(), i.size());
  for (std::size_t k = 0; k < m.size(); ++k) {
    for (const char* key : {"adjustment", "direction", "steps", "score"})
      EXPECT_EQ(m.at(k).at(key), i.at(k).at(key)) << key;
    EXPECT_THAT(i.at(k).at("to").get<std::string>(), Not(HasSubstr(" mm")));
    EXPECT_THAT(m.at(k).at("to").get<std::string>(), Not(testing::EndsWith(" in")));
  }
}

INSTANTIATE_TEST_SUITE_P(All, Contract, testing::ValuesIn(scenarios_to_run()),
                         [](const testing::TestParamInfo<std::string>& file) {
                           std::string name = scenario_name(file.param);
                           for (char& c : name) c = c == '/' || c == '-' ? '_' : c;
                           return name;
                         });

TEST(Units, ImperialPrintsInchesInTheTextAsWell) {
  const Words words{"advise", "--debrief", demo_debrief(), "--units", "imperial"};
  const std::string page = run_kartwright(words).out;
  EXPECT_THAT(page, HasSubstr(" in "));
  EXPECT_THAT(page, Not(HasSubstr("1360")));
}

TEST(Units, AKartInInchesIsAnsweredInInches) {
  const std::string heat = KARTWRIGHT_SOURCE_DIR "/scenarios/harbour/practice-1-unknown-track.yaml";
  EXPECT_THAT(answer(heat).at("changes").at(0).at("to").get<std::string>(),
              testing::EndsWith(" in"));
  EXPECT_THAT(answer(heat, {"--units", "metric"}).at("changes").at(0).at("to").get<std::string>(),
              testing::EndsWith(" mm"));
}

TEST(Json, WhatWasSaidComesBackWithItsQuotes) {
  const Ended ended = run_kartwright({"advise", "--track", "cold", "--said",
                                      "it \"hops\" \\ in the middle, the wotsit\n flonks",
                                      "--format", "json", "--brief"});
  const Json json = Json::parse(ended.out);
  EXPECT_EQ(json.at("heard").at("reports").at(0).at("symptom"), "hop");
  EXPECT_FALSE(json.at("heard").at("not_understood").empty());
}

}  // namespace
}  // namespace kartwright
