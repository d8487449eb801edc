// Every scenario under scenarios/: does the answer hold what a crew chief says it must?

#include <algorithm>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "engine/advice/advise.h"
#include "tests/scenarios/verdict.h"
#include "tests/support/kart_pack.h"
#include "tests/support/pit.h"
#include "tests/support/scenario_files.h"

namespace kartwright {
namespace {

using testing::Contains;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;
using testing::SizeIs;

Scenario load(const std::string& path) {
  Findings findings;
  Scenario scenario = read_scenario(read_document(path), rules(), findings);
  EXPECT_EQ(told(findings.all()), "");
  return scenario;
}

Advice answer(const Scenario& scenario) {
  return advise(rules(), scenario.kart, scenario.debrief, scenario.kart.units);
}

std::string lines(const std::vector<std::string>& all) {
  std::string text;
  for (const std::string& each : all) text += "  " + each + "\n";
  return text;
}

class Scenarios : public testing::TestWithParam<std::string> {};

TEST_P(Scenarios, TheAnswerHoldsWhatItMust) {
  const Scenario scenario = load(GetParam());
  const Advice advice = answer(scenario);
  const std::vector<std::string> missing = not_met(scenario.expect, advice, rules());
  EXPECT_THAT(missing, IsEmpty()) << scenario.path << ": " << scenario.title << "\nbecause "
                                  << scenario.because << "\n"
                                  << lines(missing) << "it said: " << advice.text;
}

TEST_P(Scenarios, SaysThatItIsInvented) {
  const std::string first = read_document(GetParam()).line(1);
  EXPECT_THAT(first, testing::StartsWith("# Invented"));
}

std::string test_name(const testing::TestParamInfo<std::string>& file) {
  std::string name = scenario_name(file.param);
  std::replace_if(
      name.begin(), name.end(), [](char c) { return c == '/' || c == '-'; }, '_');
  return name;
}

INSTANTIATE_TEST_SUITE_P(All, Scenarios, testing::ValuesIn(scenario_files()), test_name);

std::vector<Scenario> all_scenarios() {
  std::vector<Scenario> all;
  for (const std::string& path : scenario_files()) all.push_back(load(path));
  return all;
}

TEST(ScenarioSet, HasADozenAndEveryTrackThatMatters) {
  const std::vector<std::string> gaps = gaps_in(all_scenarios());
  EXPECT_THAT(gaps, IsEmpty()) << lines(gaps);
}

TEST(ScenarioSet, ElevenAreTooFew) {
  std::vector<Scenario> few = all_scenarios();
  ASSERT_GE(few.size(), 12U);
  few.resize(11);
  EXPECT_THAT(gaps_in(few), Contains(HasSubstr("11 scenarios")));
}

TEST(ScenarioSet, AMissingTrackStateIsNoticed) {
  for (const std::string track : {"cold", "green", "rubbered-in", "wet"}) {
    std::vector<Scenario> rest = all_scenarios();
    std::erase_if(rest, [&](const Scenario& each) { return each.debrief.track == track; });
    EXPECT_THAT(gaps_in(rest), Contains(HasSubstr(track)));
  }
}

// The judge itself: a wrong expectation must not pass.

constexpr const char* kHop = R"(title: hop on rubber
because: it is too much rear grip
track: rubbered-in
reports: [hop@mid=2]
expect:
)";

struct Read {
  Scenario scenario;
  std::vector<Diagnostic> found;
};

Read read_text(const std::string& expect) {
  Findings findings;
  Scenario scenario = read_scenario(parse_document("hop.yaml", kHop + expect), rules(), findings);
  return {std::move(scenario), findings.all()};
}

class WrongExpectation : public testing::TestWithParam<const char*> {};

TEST_P(WrongExpectation, IsNotMet) {
  const auto [scenario, found] = read_text(GetParam());
  ASSERT_EQ(told(found), "");
  EXPECT_THAT(not_met(scenario.expect, answer(scenario), rules()), SizeIs(1));
}

INSTANTIATE_TEST_SUITE_P(
    Each, WrongExpectation,
    testing::Values(
        "  headline: leave-alone", "  first: {adjustment: rear-width, direction: narrower}",
        "  first: [{adjustment: toe, direction: in}, {adjustment: toe, direction: out}]",
        "  not-first: {adjustment: rear-width, direction: wider}",
        "  ranked: [{adjustment: rear-width, direction: narrower}]",
        "  not-ranked: [{adjustment: rear-width, direction: wider}]",
        "  refused: [{adjustment: axle, direction: softer, reason: no-part}]",
        "  refused: [{adjustment: rear-width, direction: wider, reason: no-time}]",
        "  first-check: bent-axle", "  checks: [bent-axle]", "  axes: {rear-grip.mid: low}",
        "  axes: {rear-grip.mid: fair}", "  axes: {rear-grip.mid: not-high}", "  heard: []",
        "  heard: [hop@mid=3]", "  heard: [hop@mid=2, push@entry=2]", "  not-understood: 1",
        "  facts: {raised-mass: yes}", "  look-over: yes"));

TEST(RightExpectation, IsMet) {
  const auto [scenario, found] = read_text(R"(  headline: change
  first: {adjustment: rear-width, direction: wider}
  not-first: {adjustment: toe, direction: out}
  ranked: [{adjustment: rear-hubs, direction: shorter}]
  not-ranked: [{adjustment: rear-width, direction: narrower}]
  refused: [{adjustment: axle, direction: softer, reason: no-time}]
  no-checks: [bent-axle]
  axes: {rear-grip.mid: high, response: fair}
  heard: [hop@mid=2]
  not-understood: 0
  facts: {track: rubbered-in}
  look-over: no
)");
  ASSERT_EQ(told(found), "");
  EXPECT_THAT(not_met(scenario.expect, answer(scenario), rules()), IsEmpty());
}

class Misspelt : public testing::TestWithParam<const char*> {};

TEST_P(Misspelt, IsAnError) {
  const auto [scenario, found] = read_text(GetParam());
  EXPECT_THAT(found, Not(IsEmpty()));
}

INSTANTIATE_TEST_SUITE_P(
    Each, Misspelt,
    testing::Values("  frist: {adjustment: rear-width, direction: wider}", "  headline: chang",
                    "  first: {adjustment: rear-widht, direction: wider}",
                    "  first: {adjustment: rear-width, direction: wide}",
                    "  first: {adjustment: rear-width}",
                    "  first: {adjustment: rear-width, direction: wider, by: 10 mm}",
                    "  refused: [{adjustment: rear-width, direction: wider, reason: no-tim}]",
                    "  refused: [{adjustment: rear-width, direction: wider}]",
                    "  checks: [bent-axel]", "  no-checks: [bent-axel]", "  first-check: bent",
                    "  axes: {rear-grip.middle: high}", "  axes: {rear-grip.mid: hi}",
                    "  heard: [hopp@mid]", "  not-understood: one", "  facts: {raised: yes}",
                    "  facts: {raised-mass: maybe}", "  look-over: perhaps", "  {}"));

TEST(Scenario, WithoutItsReasonIsAnError) {
  Findings findings;
  read_scenario(parse_document("bare.yaml", "track: cold\n"), rules(), findings);
  EXPECT_THAT(told(findings.all()),
              testing::AllOf(HasSubstr("title"), HasSubstr("because"), HasSubstr("expect")));
}

}  // namespace
}  // namespace kartwright
