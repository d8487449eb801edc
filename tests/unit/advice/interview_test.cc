// Questions one at a time: the one most worth asking first, taken back exactly, stopped in time,
// and the same debrief in the end as if it had been written out.

#include "engine/advice/interview.h"

#include <cmath>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "cli/advice_json.h"
#include "engine/debrief/debrief_file.h"
#include "engine/debrief/debrief_text.h"
#include "tests/support/pit.h"

namespace kartwright {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;

Debrief green_debrief(const std::string& said = "pushes in the middle") {
  Debrief debrief;
  debrief.track = "green";
  if (!said.empty()) add_words(debrief, said, rules());
  return debrief;
}

/// An interview about a typical kart.
struct Asked {
  explicit Asked(Debrief begun)
      : kart(typical_kart(rules())), interview({.pack = rules(), .kart = kart}, std::move(begun)) {}
  Kart kart;
  Interview interview;
};

std::string name_of_question(const Asking& asking) {
  return std::string(asking.question.id()) + "@" + std::string(name_of(asking.question.phase));
}

std::string json_of(const Debrief& debrief, const Kart& kart) {
  const Advice advice = advise(rules(), kart, debrief, System::metric);
  return cli::advice_json(advice, rules(), false, {});
}

TEST(Interview, AsksWhatIsMostWorthAskingAndStopsUnderAPoint) {
  Asked asked(green_debrief());
  std::size_t questions = 0;
  while (asked.interview.next()) {
    const std::vector<Question>& open = asked.interview.advice().questions;
    ASSERT_EQ(name_of_question(*asked.interview.next()),
              std::string(open.front().id()) + "@" + std::string(name_of(open.front().phase)));
    EXPECT_GE(open.front().worth, Interview::kWorthAsking);
    ASSERT_TRUE(asked.interview.answer(++questions % 2 == 0 ? "no" : "1").taken ||
                asked.interview.answer("n").taken);
  }
  EXPECT_GT(questions, 4U);
  EXPECT_EQ(asked.interview.answers(), questions);
  for (const Question& open : asked.interview.advice().questions)
    EXPECT_LT(open.worth, Interview::kWorthAsking);
}

TEST(Interview, NeverAsksAgainWhatIsNotKnown) {
  Asked asked(green_debrief());
  std::vector<std::string> names;
  while (asked.interview.next()) {
    const std::string name = name_of_question(*asked.interview.next());
    ASSERT_THAT(names, Not(testing::Contains(name)));
    names.push_back(name);
    EXPECT_TRUE(asked.interview.answer("?").taken);
  }
  EXPECT_GT(names.size(), 8U);
  EXPECT_EQ(asked.interview.answers(), 0U);
  EXPECT_EQ(json_of(asked.interview.debrief(), asked.kart), json_of(green_debrief(), asked.kart));
}

TEST(Interview, TakesAnswersBackOneByOneExactly) {
  Asked asked(green_debrief());
  std::vector<std::string> debriefs, questions;
  for (const bool known : {true, false, true, true, false}) {
    debriefs.push_back(debrief_text(asked.interview.debrief(), {}));
    questions.push_back(name_of_question(*asked.interview.next()));
    const std::string key = asked.interview.next()->choices.back().key;
    ASSERT_TRUE(asked.interview.answer(known ? key : "?").taken);
  }
  for (; !debriefs.empty(); debriefs.pop_back(), questions.pop_back()) {
    EXPECT_TRUE(asked.interview.answer("back").taken);
    EXPECT_EQ(debrief_text(asked.interview.debrief(), {}), debriefs.back());
    EXPECT_EQ(name_of_question(*asked.interview.next()), questions.back());
  }
  EXPECT_FALSE(asked.interview.answer("b").taken) << "there is nothing before the first";
  EXPECT_EQ(asked.interview.answers(), 0U);
}

TEST(Interview, GivesTheAdviceThatTheSameReportsWrittenOutGive) {
  Debrief begun;
  begun.track = "green";
  Asked asked(begun);
  Debrief written = begun;
  for (int i = 0; i < 6 && asked.interview.next(); ++i) {
    const Asking asking = *asked.interview.next();
    const bool plain = asking.about == Asking::About::fact;
    if (plain)
      written.heard.facts.push_back(
          {asking.choices.at(0).value.empty() ? "" : std::string(asking.question.id()),
           asking.choices.at(0).value,
           {}});
    else
      written.heard.reports.push_back({.symptom = asking.choices.at(0).value,
                                       .phase = asking.question.phase,
                                       .severity = 1 + i % 3});
    const std::string key = asking.choices.at(0).key;
    ASSERT_TRUE(asked.interview.answer(plain ? key : key + std::to_string(1 + i % 3)).taken);
  }
  EXPECT_EQ(json_of(asked.interview.debrief(), asked.kart), json_of(written, asked.kart));
}

TEST(Interview, TellsWhatAnAnswerMovedAndWhatComesFirstNow) {
  Asked asked(green_debrief(""));
  ASSERT_EQ(name_of_question(*asked.interview.next()), "hop@mid");
  const Advice before = asked.interview.advice();
  const AnswerTaken answered = asked.interview.answer("3");
  ASSERT_THAT(answered.moved.axes, Not(IsEmpty()));
  EXPECT_EQ(answered.moved.axes.front().axis->id, "rear-grip.mid");
  EXPECT_GT(answered.moved.axes.front().to, answered.moved.axes.front().from + 0.5);
  EXPECT_EQ(answered.moved.led, what_leads(before));
  EXPECT_EQ(answered.moved.leads, what_leads(asked.interview.advice()));
  EXPECT_NE(answered.moved.leads, answered.moved.led);
}

TEST(Interview, AsksForTheTrackBeforeAllElse) {
  Debrief begun;
  add_words(begun, "pushes in the middle", rules());
  Asked asked(begun);
  ASSERT_EQ(asked.interview.next()->about, Asking::About::track);
  std::vector<std::string> states;
  for (const Choice& choice : asked.interview.next()->choices) states.push_back(choice.value);
  EXPECT_THAT(states, ElementsAre("cold", "green", "rubbered-in", "greasy", "wet"));
  EXPECT_TRUE(asked.interview.answer("rubbered").taken);
  EXPECT_EQ(asked.interview.debrief().track, "rubbered-in");
  EXPECT_EQ(asked.interview.advice().track, "rubbered-in");
  ASSERT_TRUE(asked.interview.next());
  EXPECT_NE(asked.interview.next()->about, Asking::About::track);
}

TEST(Interview, OpensWithAnOpenQuestionWhereNobodySaidAWordAndTheTrackIsNotKnown) {
  Asked asked(Debrief{});
  ASSERT_EQ(asked.interview.next()->about, Asking::About::track);
  asked.interview.answer("don't know");
  ASSERT_EQ(asked.interview.next()->about, Asking::About::words);
  asked.interview.answer("it pushes going in");
  ASSERT_EQ(asked.interview.debrief().heard.reports.size(), 1U);
  ASSERT_TRUE(asked.interview.next());
  EXPECT_NE(asked.interview.next()->about, Asking::About::words);
}

TEST(Interview, TakesAllThatASentenceSays) {
  Asked asked(green_debrief(""));
  ASSERT_EQ(name_of_question(*asked.interview.next()), "hop@mid");
  const AnswerTaken answered =
      asked.interview.answer("no, it pushes a bit going in, and it's loose coming off");
  EXPECT_TRUE(answered.taken);
  EXPECT_FALSE(answered.open);
  std::vector<std::string> reports;
  for (const Report& report : asked.interview.debrief().heard.reports)
    reports.push_back(report_text(report));
  EXPECT_THAT(reports, testing::UnorderedElementsAre("hop@mid=0", "push@entry=1", "loose@exit=2"));
}

TEST(Interview, SaysWhatWasNotUnderstoodAndAsksAgain) {
  Asked asked(green_debrief(""));
  const AnswerTaken answered = asked.interview.answer("it hopps and flurbs");
  EXPECT_TRUE(answered.taken);
  ASSERT_EQ(answered.understood.heard.not_understood.size(), 1U);
  EXPECT_THAT(answered.understood.heard.not_understood[0].words, HasSubstr("flurbs"));
  const std::string before = name_of_question(*asked.interview.next());
  const AnswerTaken nothing = asked.interview.answer("blorp zork");
  EXPECT_FALSE(nothing.taken);
  EXPECT_EQ(nothing.understood.kind, Understood::Kind::nothing);
  EXPECT_THAT(nothing.understood.heard.not_understood, Not(IsEmpty()));
  EXPECT_EQ(name_of_question(*asked.interview.next()), before);
}

TEST(Interview, CountsTheLastWordOnAPlainFact) {
  Debrief begun = green_debrief();
  begun.heard.facts.push_back({"turn-in", "brake", {}});
  Asked asked(begun);
  asked.interview.answer("he turns in on the throttle");
  std::vector<std::string> values;
  for (const StatedFact& fact : asked.interview.debrief().heard.facts) {
    if (fact.fact == "turn-in") values.push_back(fact.value);
  }
  EXPECT_EQ(values.size(), 1U);
}

}  // namespace
}  // namespace kartwright
