// What a crew's own drills may have wrong, each told once at its place; and what may be left out.

#include <gtest/gtest.h>

#include "tests/support/kart_pack.h"
#include "tests/support/marked_input.h"

namespace kartwright {
namespace {

class WrongDrill : public testing::TestWithParam<MarkedInput> {};

TEST_P(WrongDrill, IsToldOnceAtItsPlace) {
  const WrongInput wrong = GetParam().wrong();
  expect_the_one_finding(wrong, found_in_own(wrong.text));
}

std::string drill_level(const std::string& line, const std::string& left_out = {}) {
  return list_of_one(
      "drill-levels",
      {"level: first", "label: first things", "place: 1", "teaches: to look", "complaints: 1",
       "tracks: [cold]", "headline: change", "offers: [rear-width]"},
      line, left_out);
}

/// A case of a level that is there.
std::string drill_case(const std::string& line) {
  return drill_level("level: first") +
         list_of_one("drill-cases",
                     {"case: one", "level: first", "title: a cold one", "because: it is cold",
                      "track: cold", "said: it pushes"},
                     line);
}

std::string drill_end(const std::string& line) {
  return list_of_one("drill-ends",
                     {"end: front", "label: the front", "axes: [front-grip]", "because: it steers"},
                     line);
}

const MarkedInput kWrongDrills[] = {
    {"levels_not_a_list", "drill-levels: ^{level: x}", Code::wrong_shape,
     "`drill-levels` must be a list"},
    {"level_not_a_map", "drill-levels: [^first]", Code::wrong_shape, "a level must be a map"},
    {"no_complaints", drill_level("^level: first", "complaints"), Code::missing_key,
     "needs `complaints`"},
    {"five_complaints", drill_level("complaints: ^5"), Code::bad_rule,
     "`complaints` cannot be that", "a whole number from 1 to 4"},
    {"complaints_backwards", drill_level("complaints: {from: 3, to: ^2}"), Code::bad_rule,
     "`to` cannot be that", "a whole number from 3 to 4"},
    {"complaints_misspelt", drill_level("complaints: {from: 1, ^too: 2}"), Code::unknown_key,
     "`too`", "`to`"},
    {"place_of_none", drill_level("place: ^0"), Code::bad_rule, "`place` cannot be that",
     "from 1 to 99"},
    {"place_between", drill_level("place: ^1.5"), Code::bad_rule, "`place` cannot be that", ""},
    {"much_moved", drill_level("moved: ^11"), Code::bad_rule, "`moved` cannot be that",
     "from 0 to 10"},
    {"reports_fit", drill_level("reports: ^agre"), Code::unknown_name,
     "`agre` is not a way that reports go together", "`agree`"},
    {"broken_perhaps", drill_level("broken: ^perhaps"), Code::bad_rule, "`broken` is yes or no"},
    {"used_up_perhaps", drill_level("used-up: ^perhaps"), Code::bad_rule, "`used-up` is yes or no"},
    {"laps_misspelt", drill_level("laps: ^fastr"), Code::unknown_name,
     "`fastr` is not a word of the clock", "`faster`"},
    {"no_headline", drill_level("^level: first", "headline"), Code::bad_rule,
     "a level without tracks, offers or a headline", "name at least one of each"},
    {"no_offers", drill_level("^level: first", "offers"), Code::bad_rule, "without tracks, offers"},
    {"no_tracks", drill_level("^level: first", "tracks"), Code::bad_rule, "without tracks, offers"},
    {"track_of_case", drill_case("track: ^colt"), Code::unknown_name, "`colt` is not a track state",
     "`cold`"},
    {"level_of_case", drill_case("level: ^frist"), Code::unknown_name, "`frist` is not a level",
     "`first`"},
    {"laps_of_case", drill_case("laps: ^slow"), Code::unknown_name,
     "`slow` is not a word of the clock", "`slower`"},
    {"settings_not_a_map", drill_case("settings: ^[axle]"), Code::wrong_shape,
     "`settings` must be a map", "{rear-width: 1400 mm}"},
    {"setting_misspelt", drill_case("settings: {^rear-wdith: 1350 mm}"), Code::unknown_name,
     "`rear-wdith` is not an adjustment", "`rear-width`"},
    {"position_misspelt", drill_case("settings: {axle: ^sfot}"), Code::unknown_name,
     "`sfot` is not a position", "`soft`"},
    {"setting_no_amount", drill_case("settings: {rear-width: ^wide}"), Code::bad_quantity, "wide"},
    {"limits_not_a_map", drill_case("limits: ^7"), Code::wrong_shape, "`limits` must be a map"},
    {"limit_not_a_map", drill_case("limits: {rear-width: ^7}"), Code::wrong_shape,
     "a limit must be a map"},
    {"limit_misspelt", drill_case("limits: {rear-width: {^at-mots: 1360 mm}}"), Code::unknown_key,
     "`at-mots`", "`at-most`"},
    {"limit_of_mass", drill_case("limits: {rear-width: {at-least: ^3 kg}}"), Code::bad_quantity,
     "3 kg"},
    {"limit_position", drill_case("limits: {axle: {allowed: ^[soft, hrad]}}"), Code::unknown_name,
     "`hrad` is not a position", "`hard`"},
    {"facts_not_a_map", drill_case("facts: ^[turn-in]"), Code::wrong_shape, "`facts` must be a map",
     "{hit: yes}"},
    {"fact_misspelt", drill_case("facts: {^turn-im: brake}"), Code::unknown_name,
     "`turn-im` is not a fact", "`turn-in`"},
    {"fact_value", drill_case("facts: {turn-in: ^brak}"), Code::unknown_name,
     "`brak` is not a value of it", "`brake`"},
    {"minutes_below_none", drill_case("minutes: ^-1"), Code::implausible,
     "`minutes` cannot be negative"},
    {"hours_below_none", drill_case("hours: ^-0.5"), Code::implausible,
     "`hours` cannot be negative"},
    {"words_of_nothing", "drill-words: [^{says: [x]}]", Code::bad_rule,
     "words that say nothing, or of nothing", "`symptom`, `phase` or `severity`"},
    {"words_of_a_phase", "drill-words: [{phase: ^apex, says: [x]}]", Code::unknown_name,
     "`apex` is not a phase", ""},
    {"words_of_severity", "drill-words: [{severity: ^4, says: [x]}]", Code::unknown_name,
     "`4` is not a severity", ""},
    {"end_in_the_middle", drill_end("end: ^middle"), Code::unknown_name,
     "`middle` is not an end of the kart", ""},
    {"end_of_no_axis", drill_end("axes: ^[front-girp]"), Code::unknown_name,
     "`front-girp` is not an axis", "`front-grip`"},
};

INSTANTIATE_TEST_SUITE_P(Each, WrongDrill, testing::ValuesIn(kWrongDrills),
                         [](const auto& each) { return case_name(each); });

TEST(OwnDrill, MayAskForOneNumberOfComplaintsThatAgree) {
  const Pack pack = small_pack_with(drill_level("complaints: 3\n    reports: agree"));
  const DrillLevel& level = *pack.drills.level("first");
  EXPECT_EQ(level.least, 3);
  EXPECT_EQ(level.most, 3);
  EXPECT_EQ(level.reports, ReportsFit::agree);
}

TEST(OwnDrill, ThatSaysNoMoreLeavesTheRestOpen) {
  const Pack pack = small_pack_with(drill_case("case: one"));
  const DrillLevel& level = *pack.drills.level("first");
  EXPECT_EQ(level.reports, ReportsFit::any);
  EXPECT_EQ(level.moved, 0);
  EXPECT_FALSE(level.broken);
  EXPECT_EQ(level.laps, "");
  const DrillCase& drill = *pack.drills.named("one");
  EXPECT_TRUE(drill.settings.empty());
  EXPECT_TRUE(drill.limits.empty());
  EXPECT_TRUE(drill.facts.empty());
  EXPECT_EQ(drill.minutes, 15.0);
  EXPECT_EQ(drill.hours, 3.0);
}

TEST(OwnDrill, HasItsClockItsFactsAndItsLimits) {
  const Pack pack = small_pack_with(
      drill_case("laps: slower\n    facts: {turn-in: brake}\n    minutes: 0\n    hours: 1.5\n"
                 "    limits: {axle: {allowed: [soft, medium]}, rear-width: {at-least: 1340 mm}}"));
  const DrillCase& drill = *pack.drills.named("one");
  EXPECT_EQ(drill.laps, "slower");
  ASSERT_EQ(drill.facts.size(), 1U);
  EXPECT_EQ(drill.facts[0], std::pair(std::string("turn-in"), std::string("brake")));
  EXPECT_EQ(drill.minutes, 0.0);
  EXPECT_EQ(drill.hours, 1.5);
  ASSERT_EQ(drill.limits.size(), 2U);
  EXPECT_EQ(drill.limits[0].allowed, (std::vector<std::string>{"soft", "medium"}));
  EXPECT_DOUBLE_EQ(*drill.limits[1].at_least, 1.34);
  EXPECT_FALSE(drill.limits[1].at_most);
}

}  // namespace
}  // namespace kartwright
