// What the lists of a crew's own rule file may have wrong, each told once at its place: the day,
// the learning, measures and sizes, facts, the meanings of phrases.

#include <gtest/gtest.h>

#include "tests/support/kart_pack.h"
#include "tests/support/marked_input.h"

namespace kartwright {
namespace {

class WrongList : public testing::TestWithParam<MarkedInput> {};

TEST_P(WrongList, IsToldOnceAtItsPlace) {
  const WrongInput wrong = GetParam().wrong();
  expect_the_one_finding(wrong, found_in_own(wrong.text));
}

std::string day_stage(const std::string& line) {
  return list_of_one("day", {"stage: noon", "label: noon", "track: cold"}, line);
}

std::string size_of_own(const std::string& line) {
  return list_of_one(
      "dimensions",
      {"dimension: own", "label: own", "kind: length", "plausible: {from: 10 mm, to: 90 mm}"},
      line);
}

std::string phrase_of_own(const std::string& means, const std::string& id) {
  return "words: [^{means: " + means + (id.empty() ? "" : ", id: " + id) + ", phrases: [x]}]";
}

const MarkedInput kWrongLists[] = {
    {"learning_of_none",
     "learning: ^{unmentioned: 1, drift: 0, track-moved: 1, tyres-changed: 1, slow-lap: 5 %}",
     Code::bad_rule, "spreads are above zero"},
    {"learning_without_slow_lap",
     "learning: ^{unmentioned: 1, drift: 1, track-moved: 1, tyres-changed: 1}", Code::missing_key,
     "needs `slow-lap`"},
    {"slow_lap_in_seconds",
     "learning: {unmentioned: 1, drift: 1, track-moved: 1, tyres-changed: 1, slow-lap: ^5 mm}",
     Code::bad_quantity, "5 mm"},
    {"stage_of_no_track", day_stage("track: ^colt"), Code::unknown_name,
     "`colt` is not a track state", "`cold`"},
    {"stage_beyond", day_stage("^stage: noon\n    towards: 1.5"), Code::bad_rule,
     "`towards` lies between 0 and 1"},
    {"stage_behind", day_stage("^stage: noon\n    towards: -0.1"), Code::bad_rule,
     "`towards` lies between 0 and 1"},
    {"stage_of_rubber", day_stage("rubber: ^some"), Code::bad_rule, "`rubber` is yes or no"},
    {"size_backwards", size_of_own("plausible: ^{from: 9 mm, to: 9 mm}"), Code::bad_rule,
     "`plausible` begins at or beyond its end"},
    {"likely_outside", size_of_own("likely: ^{from: 5 mm, to: 20 mm}"), Code::bad_rule,
     "`likely` is a range within `plausible`"},
    {"likely_beyond", size_of_own("likely: ^{from: 20 mm, to: 95 mm}"), Code::bad_rule,
     "`likely` is a range within `plausible`"},
    {"likely_backwards", size_of_own("likely: ^{from: 20 mm, to: 20 mm}"), Code::bad_rule,
     "`likely` is a range within `plausible`"},
    {"assumed_below", size_of_own("^dimension: own\n    assumed: 5 mm\n    known-from: x"),
     Code::bad_rule, "`assumed` lies outside `plausible`"},
    {"assumed_above", size_of_own("^dimension: own\n    assumed: 95 mm\n    known-from: x"),
     Code::bad_rule, "`assumed` lies outside `plausible`"},
    {"assumed_from_nowhere", size_of_own("^dimension: own\n    assumed: 50 mm"), Code::missing_key,
     "needs `known-from`"},
    {"size_of_no_kind", size_of_own("^kind: lenght\n    band: {from: 1 mm}"), Code::unknown_name,
     "`lenght` is not a kind of number", "length"},
    {"fact_values_missing",
     "facts: [{fact: x, label: x, values: [a], prior: [^{when: {track: cold}}]}]",
     Code::missing_key, "needs `values`"},
    {"side_of_nowhere", phrase_of_own("side", "middle"), Code::unknown_name,
     "`middle` is nothing that a side can mean"},
    {"when_of_never", phrase_of_own("when", "never"), Code::unknown_name,
     "`never` is nothing that a when can mean"},
    {"confidence_of_none", phrase_of_own("confidence", "certain"), Code::unknown_name,
     "`certain` is nothing that a confidence can mean"},
    {"laps_of_no_word", phrase_of_own("laps", "quick"), Code::unknown_name,
     "`quick` is nothing that a laps can mean"},
    {"fact_of_no_name", phrase_of_own("fact", "turn-im=brake"), Code::unknown_name,
     "`turn-im=brake` is nothing that a fact can mean"},
    {"place_elsewhere", phrase_of_own("place", "paddock"), Code::unknown_name,
     "`paddock` is nothing that a place can mean"},
    {"manner_of_one", phrase_of_own("manner", "push"), Code::unknown_name,
     "`push` is nothing that a manner can mean"},
    {"manner_to_unknown", phrase_of_own("manner", "push=psuh"), Code::unknown_name,
     "`push=psuh` is nothing that a manner can mean"},
    {"manner_from_unknown", phrase_of_own("manner", "psuh=push"), Code::unknown_name,
     "`psuh=push` is nothing that a manner can mean"},
    {"negation_before", phrase_of_own("negation", "before"), Code::unknown_name,
     "`before` is nothing that a negation can mean"},
    {"praise_with_meaning", phrase_of_own("praise", "push"), Code::unknown_name,
     "`push` is nothing that a praise can mean"},
    {"aside_with_meaning", phrase_of_own("aside", "push"), Code::unknown_name,
     "`push` is nothing that a aside can mean"},
    {"meaning_missing", "words: [^{phrases: [x]}]", Code::missing_key, "needs `means`"},
    {"class_unknown", "words: [{means: filler, phrases: ^[<frnt> end]}]", Code::unknown_name,
     "`frnt` is not a word class"},
    {"class_unclosed", "words: [{means: filler, phrases: ^[<frnt end]}]", Code::unknown_name,
     "`frnt` is not a word class"},
    {"class_of_nothing", "word-classes: [^{class: nose}]", Code::bad_rule,
     "`words` needs at least one"},
    {"solid_perhaps", "words: [{means: filler, phrases: [x], solid: ^perhaps}]", Code::bad_rule,
     "`solid` is yes or no"},
};

INSTANTIATE_TEST_SUITE_P(Each, WrongList, testing::ValuesIn(kWrongLists),
                         [](const auto& each) { return case_name(each); });

TEST(OwnWords, OfEveryMeaningAreTaken) {
  const std::pair<const char*, const char*> good[] = {
      {"symptom", "push"},   {"phase", "exit"},      {"side", "left"},
      {"when", "late"},      {"severity", "1"},      {"severity", "2"},
      {"severity", "3"},     {"confidence", "sure"}, {"negation", ""},
      {"negation", "after"}, {"praise", ""},         {"fact", "turn-in=throttle"},
      {"laps", "faster"},    {"aside", ""},          {"manner", "push=vibration"},
      {"place", ""},         {"place", "corner"},    {"place", "some-corner"},
      {"filler", ""},        {"filler", "simile"},   {"filler", "other-talk"}};
  for (const auto& [means, id] : good) {
    std::string text = phrase_of_own(means, id);
    std::erase(text, '^');
    EXPECT_TRUE(found_in_own(text).empty()) << means << " " << id << told(found_in_own(text));
  }
}

TEST(OwnSize, MayHaveABandWithOneEndAndAFigureThatIsAssumed) {
  const Pack pack = small_pack_with(
      size_of_own("band: {to: 60 mm}\n    likely: {from: 10 mm, to: 90 mm}\n    assumed: 90 mm\n"
                  "    known-from: a tape"));
  const MeasureDef& size = *pack.dimension("own");
  EXPECT_FALSE(size.band_from);
  EXPECT_DOUBLE_EQ(*size.band_to, 0.06);
  EXPECT_DOUBLE_EQ(*size.likely_from, 0.01);
  EXPECT_DOUBLE_EQ(*size.assumed, 0.09);
  EXPECT_EQ(size.known_from, "a tape");
}

TEST(OwnDay, HasItsStagesAsTheyAreWritten) {
  const Pack pack = small_pack_with(day_stage("towards: 0.5\n    rubber: yes"));
  ASSERT_FALSE(pack.day.empty());
  EXPECT_EQ(pack.day.back().id, "noon");
  EXPECT_EQ(pack.day.back().towards, 0.5);
  EXPECT_TRUE(pack.day.back().rubber);
}

}  // namespace
}  // namespace kartwright
