// apply: a change into the kart file and into the log.

#include <filesystem>
#include <thread>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>
#include <unistd.h>

#include "tests/cli/pit_box.h"

namespace kartwright {
namespace {

namespace fs = std::filesystem;
using Json = nlohmann::json;
using testing::AllOf;
using testing::HasSubstr;
using testing::Not;
using testing::SizeIs;

/// The kart file of a pit box with another rear width.
std::string kart_at(const std::string& width) {
  return with_exchanged(pit_box_kart(), "rear-width: 1360 mm", "rear-width: " + width);
}

/// Without a log.
Ended apply_alone(const PitBox& box, Words more) {
  more.insert(more.begin(), {"apply", "--kart", box.kart()});
  return run_kartwright(more);
}

std::size_t files_in(const PitBox& box) {
  return static_cast<std::size_t>(
      std::distance(fs::directory_iterator(box.folder().path()), fs::directory_iterator{}));
}

TEST(Apply, ByRankOfTheLastAdvice) {
  const PitBox box;
  box.add({"--at", "2024-11-14 10:30"});
  box.advise();
  const Ended ended = box.apply({"--change", "1", "--asked-by", "chief", "--why", "it pushes"});
  EXPECT_EQ(ended.exit, 0) << ended.err;
  EXPECT_THAT(ended.out, AllOf(HasSubstr("CHANGED"), HasSubstr("blue27.yaml, line "),
                               HasSubstr("run 2 is made ready"), HasSubstr("CARE")));
  EXPECT_NE(file_text(box.kart()), pit_box_kart());
  EXPECT_EQ(file_text(box.kart() + ".before-change"), pit_box_kart());
  const Json run = Json::parse(box.with_log({"log", "show", "2", "--format", "json"}).out);
  const Json change = run.at("changes").at(0);
  EXPECT_EQ(run.at("driven"), false);
  EXPECT_EQ(change.at("origin"), "advice");
  EXPECT_EQ(change.at("rank"), 1);
  EXPECT_EQ(change.at("asked-by"), "chief");
  EXPECT_EQ(change.at("why"), "it pushes");
  EXPECT_GT(change.at("relief"), 0.0);
  EXPECT_THAT(change.at("advice").get<std::string>(), HasSubstr("kartwright/advice/1"));
  // The kart no longer stands where that advice was given.
  const std::string changed = file_text(box.kart());
  const Ended again = box.apply({"--change", "1"});
  EXPECT_NE(again.exit, 0);
  EXPECT_EQ(file_text(box.kart()), changed);
}

TEST(Apply, ARankThatIsNoneIsRefused) {
  const PitBox box;
  box.add({});
  EXPECT_THAT(box.apply({"--change", "1"}).err, HasSubstr("remembers no advice"));
  box.advise();
  for (const char* const rank : {"0", "99", "-1", "1.5", "one", "", "1e300", "nan"}) {
    const Ended ended = box.apply({"--change", rank});
    EXPECT_NE(ended.exit, 0) << rank;
    EXPECT_NE(ended.exit, 70) << rank;
    EXPECT_EQ(ended.out, "");
  }
  EXPECT_EQ(file_text(box.kart()), pit_box_kart());
}

TEST(Apply, OnlyTheValueIsWritten) {
  std::string text = pit_box_kart() + "# the end";
  for (std::size_t at = 0; (at = text.find('\n', at)) != std::string::npos; at += 2)
    text.replace(at, 1, "\r\n");
  text =
      with_exchanged(text, "rear-width: 1360 mm", "rear-width:  \"1360 mm\"   # 'by' the tape é");
  const PitBox box(text);
  EXPECT_EQ(box.apply({"--set", "rear-width=1370mm"}).exit, 0);
  EXPECT_EQ(file_text(box.kart()), with_exchanged(text, "\"1360 mm\"", "1370 mm"));
  EXPECT_EQ(box.apply({"--set", "axle=soft"}).exit, 0);
  EXPECT_EQ(file_text(box.kart()), with_exchanged(with_exchanged(text, "\"1360 mm\"", "1370 mm"),
                                                  "axle: medium", "axle: soft"));
}

TEST(Apply, InchesStayInches) {
  const PitBox box(kart_at("53 1/2 in  # tape"));
  EXPECT_EQ(box.apply({"--set", "rear-width=54in"}).exit, 0);
  EXPECT_EQ(file_text(box.kart()), kart_at("54 in  # tape"));
  box.add({});
  EXPECT_EQ(box.with_log({"log", "verify"}).exit, 0);
  EXPECT_EQ(box.apply({"--undo"}).exit, 0);
  EXPECT_EQ(file_text(box.kart()), kart_at("53 1/2 in  # tape"));
  box.add({});
  EXPECT_EQ(box.with_log({"log", "verify"}).exit, 0);
}

TEST(Apply, WhatMayNotBeIsRefusedAndNothingIsWritten) {
  const PitBox box(
      with_exchanged(pit_box_kart(), "axle: [soft, medium, hard]", "axle: [soft, medium]"));
  const std::string before = file_text(box.kart());
  box.add({});
  const std::string log = file_text(box.log());
  for (const auto& [change, words] : std::vector<std::pair<std::string, std::string>>{
           {"rear-width=1401mm", "class"},
           {"rear-width=9m", ""},
           {"axle=hard", "not in the box"},
           {"axle=hardest", "hardest"},
           {"rear-widht=1370mm", "did you mean `rear-width`?"},
           {"rear-width=1360mm", "stands there already"},
           {"rear-width=1370", ""},
           {"rear-width", ""},
           {"wheelbase=1050mm", ""}}) {
    const Ended ended = box.apply({"--set", change});
    EXPECT_TRUE(ended.exit == 2 || ended.exit == 65) << change << ended.exit;
    EXPECT_THAT(ended.err, AllOf(HasSubstr("--set:1:1: error["), HasSubstr(words))) << change;
    EXPECT_EQ(ended.out, "");
  }
  for (const Words& words :
       {Words{}, {"--undo", "--set", "axle=soft"}, {"--set", ""}, {"--undo", "--change", "1"}})
    EXPECT_EQ(box.apply(words).exit, 2);
  EXPECT_EQ(file_text(box.kart()), before);
  EXPECT_EQ(file_text(box.log()), log);
  EXPECT_EQ(files_in(box), 2U);
}

TEST(Apply, UndoWithALogGoesBackChangeByChange) {
  const PitBox box;
  box.add({"--at", "2024-11-14 10:30"});
  box.apply({"--set", "rear-width=1370mm", "--at", "2024-11-14 10:40"});
  box.add({"--at", "2024-11-14 10:50"});
  box.apply({"--set", "axle=soft", "--at", "2024-11-14 11:00"});
  EXPECT_EQ(box.apply({"--undo"}).exit, 0);
  EXPECT_EQ(file_text(box.kart()), kart_at("1370 mm"));
  EXPECT_EQ(box.apply({"--undo"}).exit, 0);
  EXPECT_EQ(file_text(box.kart()), pit_box_kart());
  const Ended third = box.apply({"--undo"});
  EXPECT_EQ(third.exit, 2);
  EXPECT_THAT(third.err, HasSubstr("no change of this kart that could be taken back"));
  EXPECT_THAT(box.with_log({"log", "show", "2"}).out, HasSubstr("revert by the crew"));
  EXPECT_EQ(box.with_log({"log", "verify"}).exit, 0);
}

const Words kSlow{"--laps", "33.90 31.46 31.41 31.44 31.39 31.43 31.40 31.42"};
const Words kFast{"--laps", "33.75 31.25 31.21 31.24 31.19 31.22 31.20 31.23"};
const Words kSlowAgain{"--laps", "33.82 31.43 31.38 31.42 31.37 31.41 31.40 31.39"};

/// The typical kart, which an advice on a hop would have wider.
PitBox typical_pit_box() { return PitBox(run_kartwright({"start", "--example"}).out); }

/// A wider rear and the way back, everything told of within a second but the last run.
void there_and_back_at_once(const PitBox& box) {
  const Words at_once{"--track", "rubbered-in", "--at", "2024-11-14 10:30:00"};
  box.add(at_once, kSlow);
  box.apply({"--set", "rear-width=1375mm", "--at", "2024-11-14 10:30:00"});
  box.add(at_once, kFast);
  box.apply({"--undo", "--at", "2024-11-14 10:30:00"});
  box.add({"--track", "rubbered-in", "--at", "2024-11-14 10:30:01"}, kSlowAgain);
}

TEST(Apply, RunsToldOfAtOnceStandInTheirOrder) {
  const PitBox box = typical_pit_box();
  there_and_back_at_once(box);
  const Json runs = Json::parse(box.with_log({"log", "list", "--format", "json"}).out).at("runs");
  ASSERT_THAT(runs, SizeIs(3));
  for (std::size_t i = 0; i < 3; ++i) {
    EXPECT_EQ(runs.at(i).at("id"), i + 1);
    EXPECT_EQ(runs.at(i).at("at"), "2024-11-14T10:30:0" + std::to_string(i));
  }
}

/// What an advice on a hop says of rear widths that were tried.
std::string tried_for_a_hop(const PitBox& box) {
  const Ended ended = box.with_log({"advise", "--kart", box.kart(), "--track", "rubbered-in",
                                    "--said", "hops hard in the middle", "--format", "json"});
  EXPECT_EQ(ended.exit, 0) << ended.err;
  std::string tried;
  bool wider = false;
  const Json advice = Json::parse(ended.out);
  for (const Json& change : advice.at("changes")) {
    if (change.at("adjustment") != "rear-width") continue;
    wider = true;
    tried += change.value("tried", "");
  }
  EXPECT_TRUE(wider);
  return tried;
}

TEST(Apply, WhatTheClockKeepsOrTheCrewSetsAgainWasNotTakenBack) {
  const PitBox clock = typical_pit_box();
  there_and_back_at_once(clock);
  EXPECT_THAT(tried_for_a_hop(clock), HasSubstr("tried in run 2"));
  EXPECT_EQ(clock.with_log({"compare", "--runs", "1,2,3", "--save"}).exit, 0);
  EXPECT_EQ(tried_for_a_hop(clock), "");
  const PitBox crew = typical_pit_box();
  there_and_back_at_once(crew);
  EXPECT_EQ(crew.apply({"--set", "rear-width=1375mm"}).exit, 0);
  EXPECT_EQ(tried_for_a_hop(crew), "");
}

TEST(Apply, UndoWithoutALogGoesBackOnce) {
  const PitBox box;
  EXPECT_THAT(apply_alone(box, {"--undo"}).err, HasSubstr("no copy of the kart file"));
  const Ended first = apply_alone(box, {"--set", "rear-width=1370mm"});
  EXPECT_EQ(first.exit, 0);
  EXPECT_THAT(first.out, HasSubstr("no --log was given"));
  EXPECT_EQ(apply_alone(box, {"--undo"}).exit, 0);
  EXPECT_EQ(file_text(box.kart()), pit_box_kart());
}

TEST(Apply, ADryRunWritesNothing) {
  const PitBox box;
  box.add({});
  box.advise();
  const std::string log = file_text(box.log());
  for (const Words& words : {Words{"--set", "rear-width=1370mm"}, {"--change", "1"}}) {
    Words dry = words;
    dry.emplace_back("--dry-run");
    const Ended ended = box.apply(dry);
    EXPECT_EQ(ended.exit, 0) << ended.err;
    EXPECT_THAT(ended.out, AllOf(HasSubstr("WOULD BE"), Not(HasSubstr("made ready"))));
  }
  EXPECT_EQ(file_text(box.kart()), pit_box_kart());
  EXPECT_EQ(file_text(box.log()), log);
  EXPECT_EQ(files_in(box), 2U);
  const PitBox bare;
  EXPECT_NE(bare.apply({"--set", "rear-width=1370mm", "--dry-run"}).exit, 70);
  EXPECT_EQ(files_in(bare), 1U);
}

TEST(Apply, SaysTheSameInJson) {
  const PitBox box;
  box.add({});
  const Json json = Json::parse(box.apply({"--set", "rear-width=1370mm", "--format", "json"}).out);
  EXPECT_EQ(json.at("schema"), "kartwright/apply/1");
  EXPECT_EQ(json.at("adjustment"), "rear-width");
  EXPECT_EQ(json.at("from"), "1360 mm");
  EXPECT_EQ(json.at("to"), "1370 mm");
  EXPECT_EQ(json.at("origin"), "own-idea");
  EXPECT_EQ(json.at("dry_run"), false);
  EXPECT_EQ(json.at("run"), 2);
  ASSERT_THAT(json.at("lines"), SizeIs(1));
  EXPECT_EQ(json.at("lines")[0].at("after"), "  rear-width: 1370 mm");
  EXPECT_EQ(file_text(json.at("kept").get<std::string>()), pit_box_kart());
}

TEST(Apply, FitsIntoSixtyColumns) {
  const PitBox box;
  box.add({});
  const Ended ended = run_kartwright({"apply", "--kart", box.kart(), "--log", box.log(), "--set",
                                      "rear-width=1390mm", "--why", std::string(150, 'w')},
                                     {{"COLUMNS", "60"}});
  EXPECT_EQ(ended.exit, 0);
  for (const std::string& line : lines_of(ended.out)) EXPECT_LE(width_of(line), 60U) << line;
}

TEST(Apply, WhatIsNoFileCannotBeReplaced) {
  const PitBox box;
  const Ended piped =
      run({.argv = {"/bin/sh", "-c", R"(cat "$1" | "$0" apply --kart /dev/stdin --set axle=soft)",
                    binary(), box.kart()}});
  EXPECT_EQ(piped.exit, 73) << piped.err;
  EXPECT_THAT(piped.err, HasSubstr("nothing was changed"));
  EXPECT_EQ(box.apply({"--set", "axle=soft", "--kart", "-"}).exit, 2);
  EXPECT_EQ(run_kartwright({"apply", "--kart", "/no/such", "--set", "axle=soft"}).exit, 66);
}

TEST(Apply, AFileThatMayOnlyBeReadIsLeftAlone) {
  if (geteuid() == 0) GTEST_SKIP() << "the superuser may write into every file";
  const PitBox box;
  fs::permissions(box.kart(), fs::perms::owner_read);
  const Ended ended = box.apply({"--set", "axle=soft"});
  EXPECT_EQ(ended.exit, 73);
  EXPECT_EQ(file_text(box.kart()), pit_box_kart());
}

TEST(Apply, ALinkIsFollowedAndStays) {
  const PitBox box;
  const std::string link = box.folder().path() + "/link.yaml";
  fs::create_symlink(box.kart(), link);
  EXPECT_EQ(run_kartwright({"apply", "--kart", link, "--set", "rear-width=1370mm"}).exit, 0);
  EXPECT_TRUE(fs::is_symlink(link));
  EXPECT_EQ(file_text(box.kart()), kart_at("1370 mm"));
}

TEST(Apply, OfSeveralAtOnceNoneIsLost) {
  const PitBox box;
  box.add({});
  const std::vector<std::pair<std::string, std::string>> changes{
      {"rear-width: 1360 mm", "rear-width: 1370 mm"},
      {"axle: medium", "axle: soft"},
      {"front-bar: out", "front-bar: in"},
      {"toe: 1 mm", "toe: 2 mm"}};
  std::vector<std::thread> crew;
  std::vector<int> exits(changes.size(), -1);
  for (std::size_t i = 0; i < changes.size(); ++i) {
    crew.emplace_back([&, i] {
      std::string set = changes[i].second;
      set.replace(set.find(": "), 2, "=");
      exits[i] = box.apply({"--set", set}).exit;
    });
  }
  for (std::thread& each : crew) each.join();
  const std::string text = file_text(box.kart());
  std::string expected = pit_box_kart();
  for (std::size_t i = 0; i < changes.size(); ++i) {
    EXPECT_TRUE(exits[i] == 0 || exits[i] == 74) << exits[i];
    if (exits[i] == 0) expected = with_exchanged(expected, changes[i].first, changes[i].second);
  }
  EXPECT_EQ(text, expected);
  EXPECT_EQ(box.with_log({"log", "verify"}).exit, 0);
}

}  // namespace
}  // namespace kartwright
