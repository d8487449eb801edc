// The rule files of drills: what is read, and what is refused.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "engine/knowledge/load.h"
#include "tests/support/small_rules.h"

namespace kartwright {
namespace {

using testing::HasSubstr;

const std::string kLevel =
    "drill-levels:\n"
    "  - {level: first, label: first things, place: 1, teaches: to look, complaints: {from: 1, to: "
    "2},\n"
    "     reports: conflict, tracks: [cold], moved: 2, used-up: yes, headline: change,\n"
    "     offers: [rear-width]}\n";
const std::string kCase =
    "drill-cases:\n"
    "  - {case: one, level: first, title: a cold one, because: it is cold, track: cold, said: it "
    "pushes,\n"
    "     settings: {rear-width: 1350 mm, axle: soft}, limits: {rear-width: {at-most: 1360 mm}}}\n";

/// The first thing wrong with a crew's own file.
std::string wrong_with(const std::string& own) {
  const auto found = found_by([&] { static_cast<void>(small_pack_with(own)); });
  return found.empty() ? "nothing" : found.front().message + " | " + found.front().help;
}

std::string with(std::string text, const std::string& piece, const std::string& by) {
  const std::size_t at = text.find(piece);
  EXPECT_NE(at, std::string::npos) << piece;
  return text.replace(at, piece.size(), by);
}

TEST(DrillRules, ALevelAndACaseAreReadAsTheyAreWritten) {
  const Pack pack = small_pack_with(kLevel + kCase);
  const DrillLevel* level = pack.drills.level("first");
  ASSERT_NE(level, nullptr);
  EXPECT_EQ(level->least, 1);
  EXPECT_EQ(level->most, 2);
  EXPECT_EQ(level->reports, ReportsFit::conflict);
  EXPECT_TRUE(level->used_up);
  EXPECT_FALSE(level->broken);
  const DrillCase* drill = pack.drills.named("one");
  ASSERT_NE(drill, nullptr);
  ASSERT_EQ(drill->settings.size(), 2U);
  EXPECT_DOUBLE_EQ(*drill->settings[0].value, 1.35);
  EXPECT_EQ(drill->settings[1].position, "soft");
  EXPECT_DOUBLE_EQ(*drill->limits.at(0).at_most, 1.36);
}

TEST(DrillRules, WordsAndEndsAreRead) {
  const Pack pack = small_pack_with(
      "drill-words:\n  - {symptom: push, says: ['it pushes {where}']}\n"
      "  - {phase: mid, says: [in the middle]}\n"
      "drill-ends:\n  - {end: front, label: the front, axes: [front-grip, response], because: "
      "so}\n");
  ASSERT_NE(pack.drills.said_of("symptom push"), nullptr);
  ASSERT_NE(pack.drills.said_of("phase mid"), nullptr);
  EXPECT_EQ(pack.drills.ends.at(0).axes.size(), 2U);
}

TEST(DrillRules, MisspeltNamesAreAnsweredWithTheNearest) {
  EXPECT_THAT(wrong_with(with(kLevel, "[cold]", "[colt]")), HasSubstr("cold"));
  EXPECT_THAT(wrong_with(with(kLevel, "[rear-width]", "[rear-with]")), HasSubstr("rear-width"));
  EXPECT_THAT(wrong_with(with(kLevel, "headline: change", "headline: chagne")),
              HasSubstr("change"));
  EXPECT_THAT(wrong_with(with(kLevel, "conflict", "conflicts")), HasSubstr("conflict"));
  EXPECT_THAT(wrong_with(kLevel + with(kCase, "level: first", "level: frist")), HasSubstr("first"));
  EXPECT_THAT(wrong_with(kLevel + with(kCase, "axle: soft", "axle: sfot")), HasSubstr("soft"));
  EXPECT_THAT(wrong_with(kLevel + with(kCase, "{rear-width: 1350", "{rear-wdith: 1350")),
              HasSubstr("rear-width"));
  EXPECT_THAT(wrong_with("drill-words:\n  - {symptom: pussh, says: [x]}\n"), HasSubstr("push"));
  EXPECT_THAT(wrong_with("drill-ends:\n  - {end: front, label: x, axes: [front-gripp], because: "
                         "y}\n"),
              HasSubstr("front-grip"));
}

TEST(DrillRules, UnknownKeysAndWhatCannotBeAreRefused) {
  EXPECT_THAT(wrong_with(with(kLevel, "moved: 2", "moves: 2")), HasSubstr("moves"));
  EXPECT_THAT(wrong_with(with(kLevel, "moved: 2", "moved: 2.5")), HasSubstr("moved"));
  EXPECT_THAT(wrong_with(with(kLevel, "from: 1", "from: 0")), HasSubstr("from"));
  EXPECT_THAT(wrong_with(with(kLevel, "tracks: [cold], ", "")), HasSubstr("without tracks"));
  EXPECT_THAT(wrong_with("drill-words:\n  - {symptom: push}\n"), HasSubstr("say nothing"));
  EXPECT_THAT(wrong_with(kLevel + kLevel.substr(kLevel.find("  -"))), HasSubstr("used twice"));
  EXPECT_THAT(wrong_with(kLevel + with(kCase, "1360 mm", "1360 kg")), HasSubstr("mass"));
}

TEST(DrillRules, ACrewsOwnCaseTakesThePlaceOfOneWithItsId) {
  const std::vector<Document> base{parse_document("base.yaml", kLevel + kCase)};
  std::vector<Document> all = small_rules();
  all.push_back(base.front());
  const std::vector<Document> own{parse_document("own.yaml", with(kCase, "a cold one", "ours"))};
  const Pack pack = load_pack(all, own);
  EXPECT_EQ(pack.drills.named("one")->title, "ours");
  EXPECT_EQ(pack.drills.cases.size(), 1U);
}

}  // namespace
}  // namespace kartwright
