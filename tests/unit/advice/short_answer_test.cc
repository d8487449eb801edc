// Short answers to one question, in the words that people put around them.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "engine/advice/answer_reader.h"
#include "tests/support/pit.h"
#include "tests/support/small_words.h"

namespace kartwright {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;
using AnswerIs = Understood::Kind;

Asking asked_about(const std::string& id, Phase phase = Phase::any) {
  const Symptom* symptom = rules().symptom(id);
  return asking_of(
      {.symptom = symptom, .fact = symptom == nullptr ? rules().fact(id) : nullptr, .phase = phase},
      rules());
}

Understood reply(const std::string& text, const Asking& asking) {
  static AnswerReader reader(rules());
  return reader.read(text, asking);
}

std::vector<std::string> reports_of(const std::string& text, const Asking& asking) {
  return shown(reply(text, asking).heard.reports);
}

TEST(ShortAnswer, MayCarryItsPhaseItsSideItsTimeAndItsCertainty) {
  const Asking hop = asked_about("hop", Phase::mid);
  EXPECT_THAT(reports_of("yes, late in the run", hop), ElementsAre("hop@mid=2,late"));
  EXPECT_THAT(reports_of("in right turns", hop), ElementsAre("hop@mid=2,right"));
  EXPECT_THAT(reports_of("going in", hop), ElementsAre("hop@entry=2"));
  EXPECT_THAT(reports_of("yes, definitely", hop), ElementsAre("hop@mid=2,sure"));
}

TEST(ShortAnswer, OfANumberWithStopsAndDashesIsThatNumber) {
  const Asking hop = asked_about("hop", Phase::mid);
  EXPECT_THAT(reports_of("3!", hop), ElementsAre("hop@mid=3"));
  EXPECT_THAT(reports_of("2 2", hop), ElementsAre("hop@mid=2"));
  EXPECT_EQ(reply("-3", hop).kind, AnswerIs::nothing);
  EXPECT_EQ(reply("4", hop).kind, AnswerIs::nothing);
  EXPECT_EQ(reply("-", hop).kind, AnswerIs::nothing);
  EXPECT_EQ(reply("!", hop).kind, AnswerIs::nothing);
}

TEST(ShortAnswer, ThatDeniesIsADenialWhateverItsAmount) {
  const Asking hop = asked_about("hop", Phase::mid);
  EXPECT_THAT(reports_of("never", hop), ElementsAre("hop@mid=0"));
}

TEST(ShortAnswer, OfSomebodyWhoIsPoliteAndDoesNotKnowIsNoAnswer) {
  const Asking hop = asked_about("hop", Phase::mid);
  for (const char* text : {"um, well, dunno.", "honestly, no idea, mate", "sorry, can't say"})
    EXPECT_EQ(reply(text, hop).kind, AnswerIs::skip) << text;
}

TEST(ShortAnswer, NotThatWithoutMoreIsNoDenial) {
  const Asking hop = asked_about("hop", Phase::mid);
  EXPECT_THAT(reports_of("not that I felt", hop), ElementsAre("hop@mid=0"));
  EXPECT_EQ(reply("not that flurb", hop).kind, AnswerIs::nothing);
}

TEST(ShortAnswer, ToTwoEndsMayNameTheOtherOneAndHowMuch) {
  const Asking push = asked_about("push", Phase::exit);
  EXPECT_THAT(reports_of("loose 3", push), ElementsAre("loose@exit=3"));
  EXPECT_THAT(reports_of("l0", push), ElementsAre("loose@exit=0"));
  EXPECT_EQ(reply("a lot", push).kind, AnswerIs::which);
  EXPECT_EQ(reply("yes 3", push).kind, AnswerIs::which);
  EXPECT_THAT(reports_of("0", push), ElementsAre("push@exit=0"));
}

TEST(ShortAnswer, ASentenceAboutSomethingElseLeavesTheYes) {
  const Asking hop = asked_about("hop", Phase::mid);
  const auto reports = reports_of("yes, and it pushes going in", hop);
  EXPECT_THAT(reports, testing::UnorderedElementsAre("hop@mid=2", "push@entry=2"));
  EXPECT_THAT(reports_of("no, it hops coming off", hop), ElementsAre("hop@exit=2"));
}

TEST(ShortAnswer, ToAFactIsItsValueInAnyForm) {
  const Asking turn_in = asked_about("turn-in");
  const auto facts = [&](const std::string& text) {
    std::vector<std::string> out;
    for (const StatedFact& fact : reply(text, turn_in).heard.facts)
      out.push_back(fact.fact + "=" + fact.value);
    return out;
  };
  EXPECT_THAT(facts("BRAKE."), ElementsAre("turn-in=brake"));
  EXPECT_THAT(facts("with the brake mostly"), ElementsAre("turn-in=brake"));
  EXPECT_THAT(facts("neither brake nor throttle"), IsEmpty());
}

TEST(ShortAnswer, ToAFactMisspeltIsAnsweredWithTheNearestValue) {
  const Understood read = reply("throtle", asked_about("turn-in"));
  ASSERT_EQ(read.heard.facts.size(), 1U);
  EXPECT_EQ(read.heard.facts[0].value, "throttle");
  const Understood other = reply("zzzzzzzz", asked_about("turn-in"));
  ASSERT_EQ(other.kind, AnswerIs::nothing);
  ASSERT_FALSE(other.heard.not_understood.empty());
  EXPECT_EQ(other.heard.not_understood.front().words, "zzzzzzzz");
}

TEST(OpenQuestion, IsAnsweredByASentence) {
  EXPECT_THAT(reports_of("it pushes going in", open_question()), ElementsAre("push@entry=2"));
  EXPECT_EQ(reply("flurb zzzz", open_question()).kind, AnswerIs::nothing);
  EXPECT_THAT(reply("flurb zzzz", open_question()).heard.not_understood, testing::SizeIs(1));
}

}  // namespace
}  // namespace kartwright
