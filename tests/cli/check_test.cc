// check: a measurement in, a verdict out, as a page and as JSON.

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "tests/cli/kartwright.h"

namespace kartwright {
namespace {

using Json = nlohmann::json;
using testing::AllOf;
using testing::HasSubstr;
using testing::Not;
using testing::StartsWith;

const Words kBentAxle{"check", "chain", "--tight", "25mm", "--loose", "39mm", "--drive", "clutch"};

Words with_more(Words words, const Words& more) {
  words.insert(words.end(), more.begin(), more.end());
  return words;
}

TEST(Check, TheFirstLinesAreTheAnswer) {
  const Ended ended = run_kartwright(kBentAxle);
  EXPECT_EQ(ended.exit, 0);
  EXPECT_EQ(ended.err, "");
  EXPECT_THAT(ended.out, StartsWith("VERDICT    loose, tight, loose round the axle"));
  EXPECT_THAT(ended.out, AllOf(HasSubstr("--fact axle-spun=tight-loose"),
                               HasSubstr("odds of bent axle 160 times up"), Not(HasSubstr(" dB"))));
}

TEST(Check, FitsANarrowAsciiPage) {
  const Ended ended = run_kartwright(kBentAxle, {{"COLUMNS", "60"}, {"LC_ALL", "C"}});
  EXPECT_TRUE(is_ascii(ended.out));
  for (const std::string& line : lines_of(ended.out)) EXPECT_LE(width_of(line), 60U) << line;
}

TEST(Check, TheJsonHasTheSame) {
  const Ended ended = run_kartwright(with_more(kBentAxle, {"--format", "json"}));
  ASSERT_EQ(ended.exit, 0);
  const Json json = Json::parse(ended.out);
  EXPECT_EQ(json.at("schema"), "kartwright/check/1");
  EXPECT_EQ(json.at("check"), "chain");
  EXPECT_NEAR(json.at("measured").at("tight").get<double>(), 0.025, 1e-12);
  EXPECT_EQ(json.at("verdict").at("id"), "chain-tight-loose-tight");
  EXPECT_EQ(json.at("verdict").at("ok"), false);
  EXPECT_FALSE(json.at("means").get<std::string>().empty());
  EXPECT_FALSE(json.at("do").get<std::string>().empty());
  EXPECT_FALSE(json.at("cautions").empty());
  const Json wanted{{"fault", "bent-axle"},
                    {"decibans", 22.0},
                    {"fact", "axle-spun"},
                    {"value", "tight-loose"},
                    {"rule", "chain-tight-loose-tight-says-bent"}};
  EXPECT_THAT(json.at("evidence"), testing::Contains(wanted));
}

// The facts it hands over are facts that advise takes, and they stop the kart.
TEST(Check, AdviseTakesWhatItHandsOver) {
  const Json check = Json::parse(run_kartwright(with_more(kBentAxle, {"--format", "json"})).out);
  Words words{"advise", "--report", "vibration=2", "--format", "json"};
  for (const Json& fact : check.at("facts")) {
    words.insert(words.end(), {"--fact", fact.get<std::string>()});
  }
  const Ended advised = run_kartwright(words);
  ASSERT_EQ(advised.exit, 0) << advised.err;
  EXPECT_EQ(Json::parse(advised.out).at("reading").at("headline"), "stop-and-fix");
}

TEST(Check, WithoutAMeasurementItSaysHowToMeasure) {
  const Ended how = run_kartwright({"check", "run-out"});
  EXPECT_EQ(how.exit, 0);
  EXPECT_THAT(how.out, AllOf(HasSubstr("HOW"), HasSubstr("dial gauge"), HasSubstr("--reading"),
                             HasSubstr("CARE")));
  const Ended all = run_kartwright({"check"});
  EXPECT_EQ(all.exit, 0);
  EXPECT_THAT(all.out, AllOf(HasSubstr("check chain --tight"), HasSubstr("check toe --front")));
}

TEST(Check, SpeaksInTheUnitsThatAreAskedFor) {
  const Ended ended = run_kartwright({"check", "chain", "--tight", "1 in", "--drive", "clutch"});
  EXPECT_THAT(lines_of(ended.out).at(0), HasSubstr("1 in"));
  const Ended metric = run_kartwright(
      {"check", "chain", "--tight", "1 in", "--drive", "clutch", "--units", "metric"});
  EXPECT_THAT(lines_of(metric.out).at(0), HasSubstr("25.4 mm"));
}

TEST(Check, ASmallLengthInInchesKeepsItsThousandths) {
  const auto first = [](const Words& words) { return lines_of(run_kartwright(words).out).at(0); };
  EXPECT_THAT(first({"check", "run-out", "--reading", "0.012in"}),
              AllOf(HasSubstr("run-out 0.012 in"), HasSubstr("under 0.0098 in")));
  EXPECT_THAT(first({"check", "bearings", "--play", "0.008in"}), HasSubstr("0.008 in"));
}

TEST(Check, ATyreThatLostAirIsNamedInTheFirstLine) {
  const Ended ended =
      run_kartwright({"check", "pressures", "--cold", "0.75bar,0.75bar,0.70bar,0.70bar", "--hot",
                      "0.95bar,0.70bar,0.92bar,0.91bar"});
  EXPECT_THAT(ended.out, StartsWith("VERDICT    a leak or a slow puncture: the right front"));
  EXPECT_THAT(ended.out, AllOf(HasSubstr("--fact gauge=low"), Not(HasSubstr("gauge=even"))));
}

struct Refused {
  Words words;
  int exit;
  const char *what, *help;
};

TEST(Check, RefusesWithTheNearestThingItKnows) {
  const Refused all[] = {
      {{"check", "chian", "--tight", "20mm"}, 2, "`chian` is not a check", "`chain`"},
      {{"check", "chain", "toe", "--tight", "25mm"}, 2, "`chain` and `toe`", "one check is asked"},
      {{"check", "chain", "lenght", "--links", "110"}, 2, "is not a check", "`chain-length`"},
      {{"check", "--tight", "20mm"}, 2, "no check is named", "`check chain`"},
      {{"check", "chain", "--tight"}, 2, "`--tight` has no value", ""},
      {{"check", "chain", "--tight", "--loose", "30mm"}, 2, "`--tight` has no value", ""},
      {{"check", "chain", "--tight=20mm", "--formt", "json", "--drive", "clutch"},
       2,
       "`--formt`",
       "`--format`"},
      {{"check", "chain", "--tight", "-3mm", "--drive", "clutch"},
       2,
       "-3mm",
       "between 0 mm and 75 mm"},
  };
  for (const Refused& each : all) {
    const Ended ended = run_kartwright(each.words);
    EXPECT_EQ(ended.exit, each.exit) << each.what;
    EXPECT_EQ(ended.out, "");
    EXPECT_THAT(ended.err, AllOf(HasSubstr(each.what), HasSubstr(each.help)));
  }
}

TEST(Check, ExplainKnowsIt) {
  EXPECT_THAT(run_kartwright({"explain", "chain-travel"}).out,
              AllOf(StartsWith("CHECK"), HasSubstr("three quarters of an inch")));
}

}  // namespace
}  // namespace kartwright
