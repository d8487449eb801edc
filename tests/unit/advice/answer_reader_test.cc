// Answers by a key, a word or a sentence, as a driver gives them through a helmet.

#include "engine/advice/answer_reader.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "engine/debrief/debrief_text.h"
#include "tests/support/pit.h"

namespace kartwright {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;

using Says = Understood::Kind;

Asking about(const std::string& id, Phase phase = Phase::any) {
  const Symptom* symptom = rules().symptom(id);
  return asking_of(
      {.symptom = symptom, .fact = symptom == nullptr ? rules().fact(id) : nullptr, .phase = phase},
      rules());
}

Understood read_answer(const std::string& text, const Asking& asking) {
  return AnswerReader(rules()).read(text, asking);
}

/// Reports and facts as they would be written out, or what kind of an answer it is.
std::vector<std::string> read_as(const std::string& text, const Asking& asking) {
  static constexpr std::array kKinds{"answer", "skip", "back", "done", "help", "nothing", "which"};
  const Understood read = read_answer(text, asking);
  if (read.kind != Says::answer) return {kKinds.at(static_cast<std::size_t>(read.kind))};
  std::vector<std::string> all;
  for (const Report& report : read.heard.reports) all.push_back(report_text(report));
  for (const StatedFact& fact : read.heard.facts) all.push_back(fact.fact + "=" + fact.value);
  if (!read.track.empty()) all.push_back("track=" + read.track);
  for (const NotUnderstood& left : read.heard.not_understood) all.push_back("?" + left.words);
  return all;
}

struct Spoken {
  const char* text;
  std::vector<std::string> as;
};

TEST(Answer, ToASymptomIsYesOrNoOrHowMuch) {
  const Asking hop = about("hop", Phase::mid);
  for (const auto& [text, as] : std::vector<Spoken>{{"y", {"hop@mid=2"}},
                                                    {"Yes.", {"hop@mid=2"}},
                                                    {"yeah, badly", {"hop@mid=3"}},
                                                    {"y3", {"hop@mid=3"}},
                                                    {"y 1", {"hop@mid=1"}},
                                                    {"1", {"hop@mid=1"}},
                                                    {"3", {"hop@mid=3"}},
                                                    {"0", {"hop@mid=0"}},
                                                    {"a bit", {"hop@mid=1"}},
                                                    {"yes a bit", {"hop@mid=1"}},
                                                    {"  a lot ", {"hop@mid=3"}},
                                                    {"yes, in left turns", {"hop@mid=2,left"}},
                                                    {"coming off", {"hop@exit=2"}},
                                                    {"n", {"hop@mid=0"}},
                                                    {"nope", {"hop@mid=0"}},
                                                    {"no, not at all", {"hop@mid=0"}},
                                                    {"not really", {"hop@mid=0"}},
                                                    {"fine", {"hop@mid=0"}},
                                                    {"it's fine", {"hop@mid=0"}}}) {
    EXPECT_EQ(read_as(text, hop), as) << text;
  }
}

TEST(Answer, ThatIsNoneIsNeverHeardAsSomething) {
  const Asking hop = about("hop", Phase::mid);
  for (const char* text : {"exit", "-1", "3 2", "one lap yes one lap no", "yes and no"})
    EXPECT_EQ(read_as(text, hop).front(), "nothing") << text;
}

TEST(Answer, OfSomebodyWhoDoesNotKnowCountsForNothing) {
  const Asking hop = about("hop", Phase::mid);
  for (const char* text : {"maybe", "no idea", "no idea mate", "No idea, sorry", "don't remember",
                           "I don't remember", "not really sure"})
    EXPECT_EQ(read_as(text, hop).front(), "skip") << text;
}

TEST(Answer, OfSomebodyWhoNoticedNothingIsANo) {
  const Asking hop = about("hop", Phase::mid);
  for (const char* text : {"not that I noticed", "not that I know", "Not that I know of, mate"})
    EXPECT_THAT(read_as(text, hop), ElementsAre("hop@mid=0")) << text;
}

TEST(Answer, OfSomebodyWhoWantsOutEndsTheQuestions) {
  for (const char* text : {"quit", "q", "Q", "stop", "Quit."})
    EXPECT_THAT(read_as(text, about("hop", Phase::mid)), ElementsAre("done")) << text;
}

TEST(Answer, ToAQuestionOfTwoEndsIsOneOfThemOrNeither) {
  const Asking push = about("push", Phase::exit);
  for (const auto& [text, as] : std::vector<Spoken>{{"p", {"push@exit=2"}},
                                                    {"l", {"loose@exit=2"}},
                                                    {"P3", {"push@exit=3"}},
                                                    {"l 1", {"loose@exit=1"}},
                                                    {"push", {"push@exit=2"}},
                                                    {"loose, a bit", {"loose@exit=1"}},
                                                    {"it pushes badly", {"push@exit=3"}},
                                                    {"the rear steps out", {"loose@exit=2"}},
                                                    {"no front grip", {"push@exit=2"}},
                                                    {"n", {"push@exit=0"}},
                                                    {"neither", {"push@exit=0"}},
                                                    {"no", {"push@exit=0"}},
                                                    {"no push", {"push@exit=0"}},
                                                    {"fine", {"push@exit=0"}},
                                                    {"no, it's loose", {"loose@exit=2"}},
                                                    {"no it pushes", {"push@exit=2"}},
                                                    {"yes", {"which"}},
                                                    {"yes, badly", {"which"}},
                                                    {"2", {"which"}}}) {
    EXPECT_EQ(read_as(text, push), as) << text;
  }
  EXPECT_THAT(read_as("t", about("twitchy")), ElementsAre("twitchy=2"));
  EXPECT_THAT(read_as("lazy", about("twitchy")), ElementsAre("lazy=2"));
}

TEST(Answer, ToAPlainFactIsANumberOrAWord) {
  const Asking turn_in = about("turn-in");
  for (const auto& [text, as] :
       std::vector<Spoken>{{"1", {"turn-in=brake"}},
                           {"2", {"turn-in=throttle"}},
                           {"Throttle", {"turn-in=throttle"}},
                           {"t", {"turn-in=throttle"}},
                           {"br", {"turn-in=brake"}},
                           {"on the throttle", {"turn-in=throttle"}},
                           {"brake, and it hops coming off", {"hop@exit=2", "turn-in=brake"}},
                           {"3", {"nothing"}},
                           {"yes", {"nothing"}},
                           {"not on the brake", {"nothing"}},
                           {"brake or throttle", {"nothing"}}}) {
    EXPECT_EQ(read_as(text, turn_in), as) << text;
  }
}

TEST(Answer, OnTheTrackIsOneOfItsStates) {
  const Asking track = about("track");
  for (const auto& [text, as] : std::vector<Spoken>{{"3", {"track=rubbered-in"}},
                                                    {"rubbered in", {"track=rubbered-in"}},
                                                    {"it is hot and greasy", {"track=greasy"}},
                                                    {"wet", {"track=wet"}},
                                                    {"damp", {"track=wet"}},
                                                    {"g", {"nothing"}}}) {
    EXPECT_EQ(read_as(text, track), as) << text;
  }
  const Understood typo = read_answer("rubered in", track);
  EXPECT_TRUE(typo.track == "rubbered-in" ||
              typo.heard.not_understood.at(0).nearest == std::vector<std::string>{"rubbered in"});
}

TEST(Answer, CanBeThatItIsNotKnownOrThatAnotherQuestionIsWanted) {
  const Asking hop = about("hop", Phase::mid);
  for (const char* text : {"?", "don't know", "Dunno", "not sure", "skip"})
    EXPECT_EQ(read_answer(text, hop).kind, Says::skip) << text;
  for (const char* text : {"b", "back", " BACK "})
    EXPECT_EQ(read_answer(text, about("turn-in")).kind, Says::back) << text;
  for (const char* text : {"d", "done", "stop."})
    EXPECT_EQ(read_answer(text, open_question()).kind, Says::done) << text;
  for (const char* text : {"", "   ", "help"})
    EXPECT_EQ(read_answer(text, hop).kind, Says::help) << text;
}

TEST(Answer, KeepsNoWordsWhereItWasAKeyAndTheWordsWhereItWasASentence) {
  const Asking hop = about("hop", Phase::mid);
  EXPECT_EQ(read_answer("y3", hop).heard.reports.at(0).words, "");
  EXPECT_EQ(read_answer("it hops like mad", hop).heard.reports.at(0).words, "it hops like mad");
}

TEST(Answer, TakesThePhaseOfTheQuestionUnlessItSaysAnother) {
  const Asking hop = about("hop", Phase::entry);
  EXPECT_THAT(read_as("it hops a bit", hop), ElementsAre("hop@entry=1"));
  EXPECT_THAT(read_as("it hops in the middle", hop), ElementsAre("hop@mid=2"));
  EXPECT_THAT(read_as("it hops everywhere", hop), ElementsAre("hop=2"));
}

TEST(Answer, GivesBackWhatItDoesNotUnderstand) {
  const Asking hop = about("hop", Phase::mid);
  EXPECT_THAT(read_as("flurb", hop), ElementsAre("nothing"));
  EXPECT_EQ(read_answer("flurb", hop).heard.not_understood.at(0).words, "flurb");
  EXPECT_THAT(read_as("yes, like a flurb", hop),
              ElementsAre("hop@mid=2", testing::StartsWith("?")));
  EXPECT_THAT(read_answer("yes, not really", hop).heard.reports, IsEmpty());
  for (const std::string& bytes : {std::string("\0\xff\n", 3), std::string(5000, 'p')})
    EXPECT_EQ(read_answer(bytes, hop).kind, Says::nothing);
}

}  // namespace
}  // namespace kartwright
