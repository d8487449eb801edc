// --rules: a crew's own folder on top of the rules that come with the program.

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "tests/cli/kartwright.h"
#include "tests/support/temp_folder.h"

namespace kartwright {
namespace {

using Json = nlohmann::json;
using testing::HasSubstr;

constexpr const char* kSlipperyRubber = R"(readings:
  - id: rubber-gives-the-rear-too-much
    when: {track: rubbered-in}
    row: {rear-grip: 1}
    value: -2 ± 0.1
    because: on our track rubber never helped the rear
    provenance: {practice: common}
    status: stable
)";

constexpr const char* kOneMore = R"(readings:
  - id: our-seagulls-grease-the-line
    when: {track: rubbered-in}
    row: {front-grip.entry: 1}
    value: -1 ± 0.2
    because: gulls nest along the back straight
    provenance: {practice: common}
    status: experimental
)";

Json answer(const Words& more = {}) {
  Words words{"advise", "--track", "rubbered-in", "--report", "loose@exit=1", "--format", "json"};
  words.insert(words.end(), more.begin(), more.end());
  const Ended ended = run_kartwright(words);
  EXPECT_EQ(ended.exit, 0) << ended.err;
  return Json::parse(ended.out);
}

Json reading(const Json& answer, const std::string& rule) {
  for (const Json& each : answer.at("working").at("readings")) {
    if (each.at("rule") == rule) return each;
  }
  return {};
}

TEST(Rules, AFolderReplacesARuleAndTheAnswerChanges) {
  const TempFolder folder;
  const std::string file = folder.write("track/ours.yaml", kSlipperyRubber);
  const Json usual = answer(), ours = answer({"--rules", folder.path()});
  const char* rule = "rubber-gives-the-rear-too-much";
  EXPECT_EQ(reading(usual, rule).at("value"), 0.7);
  EXPECT_EQ(reading(ours, rule).at("value"), -2.0);
  EXPECT_THAT(reading(ours, rule).at("source").get<std::string>(), HasSubstr("ours.yaml:2"));
  EXPECT_EQ(ours.at("working").at("readings").size(), usual.at("working").at("readings").size());
  ASSERT_FALSE(ours.at("changes").empty());
  EXPECT_EQ(ours.at("changes").at(0).at("adjustment"), "rear-width");
  EXPECT_EQ(ours.at("changes").at(0).at("direction"), "narrower");
  for (const Json& change : usual.at("changes")) {
    EXPECT_FALSE(change.at("adjustment") == "rear-width" && change.at("direction") == "narrower");
  }
}

TEST(Rules, AFolderAddsARule) {
  const TempFolder folder;
  folder.write("gulls.yaml", kOneMore);
  const Json usual = answer(), ours = answer({"--rules", folder.path()});
  EXPECT_TRUE(reading(usual, "our-seagulls-grease-the-line").is_null());
  EXPECT_FALSE(reading(ours, "our-seagulls-grease-the-line").is_null());
  EXPECT_LT(ours.at("working").at("posterior").at("mean").at(0).get<double>(),
            usual.at("working").at("posterior").at("mean").at(0).get<double>());
  const Ended told =
      run_kartwright({"explain", "our-seagulls-grease-the-line", "--rules", folder.path()});
  EXPECT_THAT(told.out, HasSubstr("gulls nest"));
}

TEST(Rules, AnEmptyFolderChangesNothing) {
  const TempFolder folder;
  EXPECT_EQ(answer({"--rules", folder.path()}), answer());
}

TEST(Rules, AMistakeInTheFolderIsSixtyFiveWithItsPlace) {
  const TempFolder folder;
  std::string broken = kOneMore;
  broken.replace(broken.find("front-grip.entry"), 16, "front-grip.enrty");
  const std::string file = folder.write("gulls.yaml", broken);
  const Ended ended = run_kartwright({"advise", "--track", "cold", "--rules", folder.path()});
  EXPECT_EQ(ended.exit, 65);
  EXPECT_EQ(ended.out, "");
  EXPECT_THAT(ended.err, HasSubstr(file + ":4:"));
  EXPECT_THAT(ended.err, HasSubstr("front-grip.entry"));
}

TEST(Rules, AnIdUsedTwiceInTheFolderIsAMistake) {
  const TempFolder folder;
  folder.write("a.yaml", kOneMore);
  folder.write("b.yaml", kOneMore);
  const Ended ended = run_kartwright({"advise", "--track", "cold", "--rules", folder.path()});
  EXPECT_EQ(ended.exit, 65);
  EXPECT_THAT(ended.err, HasSubstr("our-seagulls-grease-the-line"));
}

}  // namespace
}  // namespace kartwright
