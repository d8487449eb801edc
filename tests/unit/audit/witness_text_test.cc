// A case written out as a debrief file that anybody can run.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "engine/audit/witness.h"
#include "engine/debrief/debrief_file.h"
#include "tests/support/kart_pack.h"
#include "tests/support/pit.h"

namespace kartwright {
namespace {

using testing::HasSubstr;
using testing::Not;

std::string written_out(const Sample& sample) { return debrief_text(sample, rules(), "so it is"); }

/// The text read back, without an error.
DebriefFile read_back(const Sample& sample) {
  Findings findings;
  DebriefFile file =
      read_debrief(parse_document("witness.yaml", written_out(sample)), rules(), findings);
  EXPECT_FALSE(findings.has_errors()) << told(findings.all());
  return file;
}

Stand stand_of(const char* adjustment) {
  Stand stand;
  stand.setting = typical_kart(rules()).settings.at(adjustment);
  return stand;
}

TEST(WitnessText, OfNothingIsAnUnknownTrack) {
  EXPECT_EQ(written_out({}), "# so it is\ntrack: unknown\n");
}

TEST(WitnessText, SaysTheTrackByItsKeyAndAnyOtherWordOfItAsAFact) {
  EXPECT_THAT(written_out({.facts = {{"track", "wet"}}}),
              testing::AllOf(HasSubstr("track: wet\n"), Not(HasSubstr("facts:"))));
  EXPECT_THAT(written_out({.facts = {{"track", "flooded"}}}),
              testing::AllOf(HasSubstr("track: unknown\n"), HasSubstr("  track: flooded\n")));
  EXPECT_THAT(written_out({.facts = {{"track", "wet"}, {"hit", "yes"}}}),
              HasSubstr("facts:\n  hit: yes\n"));
}

TEST(WitnessText, KeepsItsCommentOnOneLine) {
  EXPECT_THAT(debrief_text({}, rules(), "one\nfacts: {hit: yes}"),
              testing::StartsWith("# one facts: {hit: yes}\ntrack: unknown\n"));
}

TEST(WitnessText, QuotesWhatYamlWouldReadOtherwise) {
  const std::pair<const char*, const char*> facts[] = {{"plain-word", "plain-word"},
                                                       {"a.b", "a.b"},
                                                       {"null", "\"null\""},
                                                       {"9 mm", "\"9 mm\""},
                                                       {"Big", "\"Big\""},
                                                       {"say \"so\"", "\"say \\\"so\\\"\""},
                                                       {"back\\slash", "\"back\\\\slash\""},
                                                       {"a\tb", "\"a\\x09b\""},
                                                       {"a\x7F", "\"a\\x7F\""},
                                                       {"", "\"\""}};
  for (const auto& [value, text] : facts)
    EXPECT_THAT(written_out({.facts = {{"hit", value}}}),
                HasSubstr(std::string("  hit: ") + text + "\n"));
}

TEST(WitnessText, NamesThePhaseOfAReportWhereItHasOne) {
  const std::string text = written_out(
      {.reports = {{.symptom = "hop", .severity = 3}, {.symptom = "push", .phase = Phase::entry}}});
  EXPECT_THAT(text, HasSubstr("reports:\n  - \"hop=3\"\n  - \"push@entry=2\"\n"));
}

TEST(WitnessText, HoldsTheLimitsOfTheClass) {
  Stand width = stand_of("rear-width");
  width.setting->limit = {.at_least = 1.34, .at_most = 1.38};
  Stand axle = stand_of("axle");
  axle.setting->limit.allowed = {"medium", "hard"};
  Sample sample;
  sample.stands = {{"rear-width", width}, {"axle", axle}, {"caster", Stand{}}};
  const std::string text = written_out(sample);
  EXPECT_THAT(text, HasSubstr("rear-width: {at-least: 1340 mm, at-most: 1380 mm}"));
  EXPECT_THAT(text, HasSubstr("axle: {allowed: [medium, hard]}"));
  EXPECT_THAT(text, Not(HasSubstr("caster")));
  const DebriefFile file = read_back(sample);
  ASSERT_TRUE(file.kart);
  EXPECT_DOUBLE_EQ(file.kart->setting("rear-width")->limit.at_most.value(), 1.38);
  EXPECT_EQ(file.kart->setting("axle")->limit.allowed.size(), 2U);
}

TEST(WitnessText, HoldsARangeOfItsOwnAndLeavesTheUsualOneOut) {
  Stand width = stand_of("rear-width");
  Sample sample;
  sample.stands = {{"rear-width", width}};
  EXPECT_THAT(written_out(sample), Not(HasSubstr("ranges:")));
  width.range = Range{.from = 1.30, .to = 1.36, .step = 0.02};
  sample.stands = {{"rear-width", width}};
  EXPECT_THAT(written_out(sample),
              HasSubstr("  ranges:\n    rear-width: {from: 1300 mm, to: 1360 mm, step: 20 mm}"));
  const DebriefFile file = read_back(sample);
  EXPECT_EQ(file.kart->setting("rear-width")->travel.places.size(), 4U);
}

TEST(WitnessText, AKartThatIsTypicalIsLeftOut) {
  Stand width = stand_of("rear-width");
  width.typical = true;
  Sample sample;
  sample.stands = {{"rear-width", width}};
  EXPECT_THAT(written_out(sample), Not(HasSubstr("kart:")));
  sample.measures["front-share"] = {};
  EXPECT_THAT(written_out(sample), Not(HasSubstr("kart:")));
  sample.measures["front-share"].value = 0.45;
  EXPECT_THAT(written_out(sample), HasSubstr("  measured:\n    front-share: 45 %"));
  sample.measures["front-share"].band = std::pair(0.40, 0.44);
  EXPECT_THAT(written_out(sample), HasSubstr("  bands:\n    front-share: {from: 40 %, to: 44 %}"));
}

TEST(WitnessText, ThatDoesNotReadShowsNothing) {
  const Pack& pack = rules();
  EXPECT_FALSE(all_fire(parse_document("w.yaml", "trak: cold\n"), {}, pack));
  EXPECT_TRUE(all_fire(parse_document("w.yaml", "track: cold\n"), {}, pack));
  Sample impossible;
  impossible.facts["no-such-fact"] = "yes";
  EXPECT_FALSE(witness_of(impossible, {}, pack, "so it is"));
}

}  // namespace
}  // namespace kartwright
