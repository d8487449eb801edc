// What drivers say, labelled by hand, heard with the rules that come with the program.

#include <string>
#include <string_view>

#include <gtest/gtest.h>

#include "tests/support/pit.h"
#include "tests/support/small_words.h"

namespace kartwright {
namespace {

/// Reports, then facts, then "praise" if there was any, then "?" before what was not understood.
std::string heard(std::string_view said) {
  const Heard heard = heard_by_rules(said);
  std::string text;
  const auto add = [&](const std::string& item) { text += (text.empty() ? "" : " ") + item; };
  for (const std::string& report : shown(heard.reports)) add(report);
  for (const StatedFact& fact : heard.facts) add(fact.fact + ':' + fact.value);
  if (!heard.praise.empty()) add("praise");
  for (const NotUnderstood& left : heard.not_understood) add("?" + left.words);
  return text;
}

struct Labelled {
  std::string_view said;
  std::string_view means;
};

void expect_heard(std::initializer_list<Labelled> sentences) {
  for (const Labelled& sentence : sentences) {
    EXPECT_EQ(heard(sentence.said), sentence.means) << sentence.said;
  }
}

TEST(Sentences, OneComplaintAtAPhase) {
  expect_heard({
      {"pushes going in", "push@entry=2"},
      {"it's tight in the center", "push@mid=2"},
      {"front washes out on exit", "push@exit=2"},
      {"loose off the corner", "loose@exit=2"},
      {"the rear steps out on entry", "loose@entry=2"},
      {"hops in the middle", "hop@mid=2"},
      {"it bounces mid corner", "hop@mid=2"},
      {"bogs coming off", "bog@exit=2"},
      {"snaps loose on exit", "snap@exit=2"},
      {"twitchy going in", "twitchy@entry=2"},
      {"skates everywhere", "slide@any=2"},
  });
}

TEST(Sentences, NoPhaseSaid) {
  expect_heard({
      {"it just won't turn", "push@any=2"},
      {"it plows", "push@any=2"},
      {"kart is tied down", "bind@any=2"},
      {"the wheel feels lazy", "lazy@any=2"},
      {"gets up on two wheels", "two-wheels@any=2"},
      {"the inside rear never lifts", "inside-rear-never-lifts@any=2"},
  });
}

TEST(Sentences, WhatSpeaksToFaults) {
  expect_heard({
      {"pulls to the left", "pulls@any=2,left"},
      {"it wanders down the straight", "wanders@straight=2"},
      {"there's a vibration", "vibration@any=2"},
      {"the brakes grab", "brake-grabs@any=2"},
      {"something clunks", "clunk@any=2"},
      {"the steering is heavy", "heavy-wheel@any=2"},
  });
}

TEST(Sentences, HowMuch) {
  expect_heard({
      {"pushes a little going in", "push@entry=1"},
      {"a bit of a push mid corner", "push@mid=1"},
      {"hops really bad in the middle", "hop@mid=3"},
      {"really loose off", "loose@exit=3"},
      {"slight push going in, hops hard in the middle", "push@entry=1 hop@mid=3"},
      {"it HOPS in the middle", "hop@mid=3"},
      {"it hops in the middle!!", "hop@mid=3"},
      {"not too tight", "push@any=1"},
      {"pushes badly going in, a bit in the middle", "push@entry=3 push@mid=1"},
  });
}

TEST(Sentences, HowSure) {
  expect_heard({
      {"I think it pushes going in", "push@entry=2,unsure"},
      {"it definitely hops in the middle", "hop@mid=2,sure"},
      {"maybe a little loose off", "loose@exit=1,unsure"},
      {"not sure if it's push or bind", "push@any=2,unsure bind@any=2,unsure"},
  });
}

TEST(Sentences, SeveralComplaints) {
  expect_heard({
      {"pushes going in, hops hard in the middle", "push@entry=2 hop@mid=3"},
      {"pushes and hops in the middle", "push@mid=2 hop@mid=2"},
      {"tight in the middle and tight off", "push@mid=2 push@exit=2"},
      {"pushes going in and off", "push@entry=2 push@exit=2"},
      {"loose going in tight coming off", "loose@entry=2 push@exit=2"},
      {"going in, it pushes. In the middle, it hops.", "push@entry=2 hop@mid=2"},
      {"It pushes. Mostly going in.", "push@entry=2"},
      {"pushes on entry then snaps loose on exit", "push@entry=2 snap@exit=2"},
      {"tight in loose off", "push@entry=2 loose@exit=2"},
  });
}

TEST(Sentences, Denials) {
  expect_heard({
      {"no push or hop", "push@any=0 hop@any=0"},
      {"not loose, not tight", "loose@any=0 push@any=0"},
      {"doesn't hop any more", "hop@any=0"},
      {"the hop is gone", "hop@any=0"},
      {"no hop in the middle but it pushes off", "hop@mid=0 push@exit=2"},
      {"doesn't push, hops in the middle", "push@any=0 hop@mid=2"},
      {"pushes everywhere except in the middle", "push@any=2 push@mid=0"},
      {"pushes going in, but not in the middle", "push@entry=2 push@mid=0"},
      {"never hopped once", "hop@any=0"},
      {"it's not pushing as much as before", "push@any=1"},
      {"Push on entry: severe. Hop mid: none.", "push@entry=3 hop@mid=0"},
      {"it doesnt push anymore, now its loose", "push@any=0 loose@any=2"},
  });
}

TEST(Sentences, SidesTimesAndPlaces) {
  expect_heard({
      {"loose in lefts only", "loose@any=2,left"},
      {"pushes going in on right handers", "push@entry=2,right"},
      {"pushes late in the run", "push@any=2,late"},
      {"hops early in the run, in the middle", "hop@mid=2,early"},
      {"hops in turn 3 and 7", "hop@any=2"},
      {"loose off in the hairpin", "loose@exit=2"},
  });
}

TEST(Sentences, FactsAndTheClock) {
  expect_heard({
      {"I turn in on the brake and it pushes", "push@any=2 turn-in:brake"},
      {"laps were faster but it's loose off", "loose@exit=2 laps:faster"},
      {"took a hit in turn one, now it pulls right", "pulls@any=2,right hit:yes"},
  });
}

TEST(Sentences, Praise) {
  expect_heard({
      {"it was great, no complaints", "praise"},
      {"kart is perfect", "praise"},
      {"pushes going in, fine everywhere else", "push@entry=2 praise"},
      {"great going in, hops in the middle", "hop@mid=2 praise"},
      {"good except it pushes in the middle", "push@mid=2 praise"},
      {"not great, it pushes going in", "push@entry=2"},
  });
}

TEST(Sentences, NeverForcedIntoASymptom) {
  expect_heard({
      {"the frobnicator squiggles", "?frobnicator squiggles"},
      {"pushes going in and the sandwich was dry", "push@entry=2 ?the sandwich was dry"},
      {"a bit in the middle", "?a bit in the middle"},
      {"not the track", "?not the track"},
      {"not great", "?not great"},
  });
}

TEST(Sentences, PlainTyposAreReadAsMeant) {
  expect_heard({
      {"it psuhes going in", "push@entry=2"},
      {"ovesteer comming off", "loose@exit=2"},
      {"undersering on entery", "push@entry=2"},
      {"stil loosse off", "loose@exit=2"},
      {"it hopps in the midle", "hop@mid=2"},
  });
}

TEST(Sentences, AWordIsNeverTakenForAnother) {
  expect_heard({
      {"my drink again", "?drink"},
      {"the lights", "?lights"},
      {"blind", "?blind"},
      {"slice", "?slice"},
  });
}

TEST(Sentences, APraisedKartIsDeniedEveryComplaintOfTheList) {
  const Heard heard = heard_by_rules("it was great");
  EXPECT_EQ(heard.reports.size(), rules().hearing.praise_denies.size());
  for (const Report& report : heard.reports) EXPECT_TRUE(report.from_praise && report.denied());
}

TEST(SmallWordsAlone, ComeBackAsNotUnderstood) {
  const Heard heard = heard_by_rules("um yeah, so like");
  ASSERT_EQ(heard.not_understood.size(), 1U);
  EXPECT_EQ(heard.not_understood.front().words, "um yeah, so like");
  EXPECT_TRUE(heard_by_rules("  ").not_understood.empty());
}

TEST(ALooseSteering, IsNoLooseKart) {
  const Heard heard = heard_by_rules("the steering came loose");
  EXPECT_TRUE(heard.reports.empty());
  ASSERT_EQ(heard.facts.size(), 1U);
  EXPECT_EQ(heard.facts.front().fact, "steering");
}

}  // namespace
}  // namespace kartwright
