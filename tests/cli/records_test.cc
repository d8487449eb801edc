// A crew with its log: learned, advice that starts from it, compare over its runs, and a run that
// is added to.

#include <fstream>
#include <sstream>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "tests/cli/kartwright.h"
#include "tests/support/temp_folder.h"

namespace kartwright {
namespace {

using Json = nlohmann::json;
using testing::AllOf;
using testing::HasSubstr;
using testing::Not;

const std::string kHarbour = std::string(KARTWRIGHT_SOURCE_DIR) + "/scenarios/harbour/";

/// The invented weekend in a log of its own, with a kart file to change.
class Weekend {
 public:
  Weekend() {
    std::ifstream file(kHarbour + "harbour-27-sunday.yaml");
    std::ostringstream text;
    text << file.rdbuf();
    kart_ = folder_.write("blue27.yaml", text.str());
    log_ = folder_.path() + "/weekend.db";
    EXPECT_EQ(run_kartwright({"log", "import", kHarbour + "weekend.json", "--log", log_}).exit, 0);
  }

  const std::string& kart() const { return kart_; }
  const TempFolder& folder() const { return folder_; }

  Ended with(Words words, const Environment& env = {}) const {
    words.insert(words.end(), {"--log", log_});
    return run_kartwright(words, env);
  }
  Ended with_kart(Words words, const Environment& env = {}) const {
    words.insert(words.end(), {"--kart", kart_});
    return with(words, env);
  }

 private:
  TempFolder folder_;
  std::string kart_, log_;
};

const Words kHops{"advise", "--track", "rubbered-in", "--said", "hops hard in the middle"};

TEST(Learned, TellsEachAdjustmentBesideTheRules) {
  const Weekend weekend;
  const Ended text = weekend.with_kart({"learned", "--calibration"});
  EXPECT_EQ(text.exit, 0);
  EXPECT_EQ(text.err, "");
  EXPECT_THAT(text.out, AllOf(HasSubstr("rear wider"), HasSubstr("by the rules"),
                              HasSubstr("PROMISED"), HasSubstr("changes by advice")));
  const Json json = Json::parse(weekend.with_kart({"learned", "--format", "json"}).out);
  EXPECT_EQ(json.at("schema"), "kartwright/learned/1");
  const std::size_t axes = json.at("axes").size();
  for (const Json& each : json.at("adjustments")) {
    for (const char* const key : {"rule", "learned", "sd"}) EXPECT_EQ(each.at(key).size(), axes);
    EXPECT_GT(each.at("runs").get<int>(), 0);
    EXPECT_TRUE(each.at("agrees").is_boolean());
  }
  EXPECT_FALSE(json.contains("calibration"));
}

TEST(Learned, NamesTheKartsOfALogWhereNoneIsMeant) {
  const Weekend weekend;
  const Ended other = weekend.with({"learned", "--kart", "red 5"});
  EXPECT_EQ(other.exit, 65);
  EXPECT_THAT(other.err, AllOf(HasSubstr("N009"), HasSubstr("harbour 27")));
  EXPECT_EQ(run_kartwright({"learned"}).exit, 2);
}

TEST(Advise, WithALogNamesTheRunsAndWhatWasTakenBack) {
  const Weekend weekend;
  const Ended with = weekend.with_kart(kHops);
  EXPECT_EQ(with.exit, 0) << with.err;
  EXPECT_THAT(with.out, AllOf(HasSubstr("log: "), HasSubstr("with the log"), HasSubstr("run 43"),
                              HasSubstr("and taken back")));
  Words plain = kHops;
  plain.insert(plain.end(), {"--kart", weekend.kart()});
  EXPECT_THAT(run_kartwright(plain).out, Not(HasSubstr("log: ")));
}

TEST(Advise, WithALogAndNoWordsTakesTheLastDebrief) {
  const Weekend weekend;
  const Ended ended = weekend.with_kart({"advise"});
  EXPECT_THAT(ended.out,
              AllOf(HasSubstr("the debrief is that of run 44"), HasSubstr("track rubbered in")));
  // On a kart that stands otherwise, that is said.
  const Ended other =
      weekend.with({"advise", "--kart", kHarbour + "harbour-27.yaml"}, {{"COLUMNS", "10000"}});
  EXPECT_THAT(other.out, HasSubstr("the kart file is not as the kart was driven then"));
}

TEST(Advise, WithoutALogThatIsThereSaysSo) {
  const TempFolder folder;
  const Ended ended = run_kartwright({"advise", "--kart", kHarbour + "harbour-27.yaml", "--log",
                                      folder.path() + "/none.db", "--said", "hops"});
  EXPECT_EQ(ended.exit, 66);
  EXPECT_THAT(ended.err, HasSubstr("no log"));
}

TEST(Records, ACrewGoesRoundWithItsLog) {
  const Weekend weekend;
  weekend.with_kart(kHops);
  const Ended applied = weekend.with_kart({"apply", "--change", "1"});
  EXPECT_EQ(applied.exit, 0) << applied.err;
  EXPECT_THAT(applied.out, HasSubstr("run 45 is made ready"));
  const Ended added = weekend.with_kart(
      {"log", "add", "--track", "rubbered-in", "--laps", "33.1, 30.79, 30.81, 30.77, 30.84"});
  EXPECT_EQ(added.exit, 0) << added.err;
  EXPECT_THAT(added.out, HasSubstr("advised, rank 1"));
  const Ended more = weekend.with({"log", "add", "--to", "45", "--said", "no hop now"});
  EXPECT_EQ(more.exit, 0) << more.err;
  EXPECT_THAT(more.out, AllOf(HasSubstr("no hop"), HasSubstr("5 laps, 4 count")));
  EXPECT_THAT(weekend.with({"log", "add", "--to", "45", "--laps", "31.0 31.1"}).err,
              HasSubstr("has its laps already"));
  const Ended kept = weekend.with({"compare", "--runs", "44,45", "--save"});
  EXPECT_THAT(kept.out, HasSubstr("not settled"));
  EXPECT_THAT(kept.err, HasSubstr("kept with run 45"));
  EXPECT_THAT(weekend.with({"log", "show", "45"}).out, HasSubstr("not-settled by the clock"));
  EXPECT_EQ(weekend.with({"log", "verify"}).exit, 0);
}

TEST(Compare, CountsARunOnceHoweverOftenItIsNamed) {
  const Weekend weekend;
  const std::string once = weekend.with({"compare", "--runs", "41,42,43"}).out;
  EXPECT_EQ(weekend.with({"compare", "--runs", "41,42,43,42,42"}).out, once);
  EXPECT_THAT(once, HasSubstr("run 42"));
}

TEST(Compare, DoesNotMixKartsNorTracks) {
  const Weekend weekend;
  const std::string other = weekend.folder().write("red5.yaml", "kart: red 5\n");
  weekend.with({"log", "add", "--kart", other, "--track", "green", "--laps", "31.0 31.1 31.0"});
  const Ended mixed = weekend.with({"compare", "--runs", "44,45"});
  EXPECT_EQ(mixed.exit, 65);
  EXPECT_THAT(mixed.err, AllOf(HasSubstr("red 5"), HasSubstr("one kart")));
  EXPECT_THAT(weekend.with({"compare", "--runs", "3,4"}).out,
              AllOf(HasSubstr("(cold)"), HasSubstr("(green)")));
}

TEST(LogAdd, WarnsOfARunToComeAndRefusesARunOfNothing) {
  const Weekend weekend;
  const Ended ahead =
      weekend.with_kart({"log", "add", "--laps", "31.2", "--at", "2999-01-01 10:00"});
  EXPECT_EQ(ahead.exit, 0);
  EXPECT_THAT(ahead.err, HasSubstr("still to come"));
  EXPECT_THAT(weekend.with_kart({"log", "add"}).err, HasSubstr("nothing to log"));
  EXPECT_THAT(weekend.with_kart({"log", "add", "--laps", "31.1 3.12 31.3"}).err,
              HasSubstr("is no lap of a kart"));
}

}  // namespace
}  // namespace kartwright
