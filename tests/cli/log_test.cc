// log: runs into the logbook and out of it.

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "tests/cli/pit_box.h"
#include "tests/support/log_files.h"

namespace kartwright {
namespace {

using Json = nlohmann::json;
using testing::AllOf;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;
using testing::SizeIs;

Json json_of(const Ended& ended) {
  EXPECT_EQ(ended.exit, 0) << ended.err;
  return Json::parse(ended.out, nullptr, false);
}

std::vector<std::string> flags_of_laps(const Json& run) {
  std::vector<std::string> flags;
  for (const Json& lap : run.at("laps")) flags.push_back(lap.at("flag"));
  return flags;
}

TEST(LogAdd, TakesEveryOption) {
  const PitBox box;
  const Json run = json_of(box.add({"--at",        "2024-11-14 10:30",
                                    "--session",   "heat 2",
                                    "--track",     "green",
                                    "--air",       "12,5 C",
                                    "--road",      "54F",
                                    "--driver",    "Quill",
                                    "--tyres",     "set 2",
                                    "--tyre-laps", "31",
                                    "--load",      "3 l",
                                    "--note",      "kerb at three",
                                    "--note",      "wind",
                                    "--said",      "pushes going in",
                                    "--report",    "hop@mid=1",
                                    "--fact",      "turn-in=brake",
                                    "--complete",  "--format",
                                    "json"}));
  EXPECT_EQ(run.at("schema"), "kartwright/run/1");
  EXPECT_EQ(run.at("kart"), "blue 27");
  EXPECT_EQ(run.at("at"), "2024-11-14T10:30:00");
  EXPECT_EQ(run.at("session"), "heat 2");
  EXPECT_EQ(run.at("track"), "green");
  EXPECT_EQ(run.at("air"), 12.5);
  EXPECT_NEAR(run.at("road"), 22.0 / 1.8, 1e-9);
  EXPECT_EQ(run.at("driver"), "Quill");
  EXPECT_EQ(run.at("tyres"), "set 2");
  EXPECT_EQ(run.at("tyre-laps"), 31);
  EXPECT_EQ(run.at("load"), "3 l");
  EXPECT_EQ(run.at("complete"), true);
  EXPECT_EQ(run.at("said"), "pushes going in");
  EXPECT_THAT(run.at("notes"), SizeIs(2));
  EXPECT_THAT(run.at("reports"), SizeIs(2));
  EXPECT_THAT(run.at("facts"), SizeIs(1));
  EXPECT_THAT(run.at("laps"), SizeIs(3));
  EXPECT_GT(run.at("settings").size(), 15U);
  EXPECT_EQ(box.runs(), 1U);
}

TEST(LogAdd, LapsHaveDecimalCommasAndMinutes) {
  const PitBox box;
  const Json run = json_of(box.add({"--format", "json"}, {"--laps", "31,42; 31.38  1:02,417"}));
  ASSERT_THAT(run.at("laps"), SizeIs(3));
  EXPECT_EQ(run.at("laps")[0].at("seconds"), 31.42);
  EXPECT_NEAR(run.at("laps")[2].at("seconds"), 62.417, 1e-9);
}

TEST(LogAdd, BadLapsAreAllNamedAtOnceEachAtItsColumn) {
  const PitBox box;
  const Ended ended = box.add({}, {"--laps", "31.4 abc 31.5 0 -3"});
  EXPECT_EQ(ended.exit, 2);
  EXPECT_THAT(ended.err, AllOf(HasSubstr("--laps:1:6: error[L001]: `abc`"),
                               HasSubstr("--laps:1:15: error[L001]: `0`"),
                               HasSubstr("--laps:1:17: error[L001]: `-3`")));
  EXPECT_EQ(ended.out, "");
  EXPECT_EQ(file_text(box.log()), "");
}

TEST(LogAdd, FlagsByTheRuleAndByTheCrew) {
  const PitBox box;
  const Words laps{"--laps", "34 31 31.1 33 31.2 31.1 36"};
  const Json ours = json_of(box.add({"--format", "json"}, laps));
  EXPECT_EQ(flags_of_laps(ours),
            (Words{"out", "counts", "counts", "traffic", "counts", "counts", "in"}));
  const Json crew = json_of(
      box.add({"--format", "json", "--flag", "1=counts,2=traffic", "--flag", "3=in"}, laps));
  EXPECT_EQ(flags_of_laps(crew),
            (Words{"counts", "traffic", "in", "traffic", "counts", "counts", "in"}));
  EXPECT_EQ(crew.at("laps")[0].at("by-crew"), true);
  const Ended wide = box.add({"--flag-over", "9%"}, laps);
  EXPECT_THAT(wide.out, AllOf(HasSubstr("more than 9 %"), HasSubstr("6 count")));
}

TEST(LogAdd, FlagsThatAreNoneAreRefused) {
  const PitBox box;
  for (const char* const flag : {"4=out", "0=out", "1=outt", "1", "=out", "one=out", "1.5=out"}) {
    const Ended ended = box.add({"--flag", flag});
    EXPECT_EQ(ended.exit, 2) << flag;
    EXPECT_THAT(ended.err, HasSubstr("--flag:1:1: error[")) << flag;
  }
  for (const char* const over : {"0%", "-3%", "200%", "wide"})
    EXPECT_NE(box.add({"--flag-over", over}).exit, 0) << over;
}

TEST(LogAdd, WhatCannotBeIsRefusedAndNothingIsKept) {
  const PitBox box;
  for (const Words& words : {Words{"--at", "yesterday"},
                             {"--air", "12"},
                             {"--air", "99 C"},
                             {"--road", "nan C"},
                             {"--tyre-laps", "-1"},
                             {"--tyre-laps", "2.5"},
                             {"--track", "gren"},
                             {"--fact", "x=y"},
                             {"--report", "psuh"},
                             {"--csv", "laps.csv"},
                             {"--only", "Kart=27"},
                             {"--last", "3"}}) {
    const Ended ended = box.add(words);
    EXPECT_TRUE(ended.exit == 65 || ended.exit == 2) << words[0] << words[1] << ended.exit;
    EXPECT_EQ(ended.out, "");
    EXPECT_NE(ended.err, "");
  }
  EXPECT_THAT(box.add({"--track", "gren"}).err, HasSubstr("did you mean `green`?"));
  EXPECT_EQ(file_text(box.log()), "");
  EXPECT_EQ(box.with_log({"log", "add"}).exit, 2);
  EXPECT_EQ(box.with_log({"log", "add", "--kart", "/no/such"}).exit, 66);
}

TEST(LogAdd, LapsOutOfAFile) {
  const PitBox box;
  const std::string csv = box.folder().write("laps.csv",
                                             "Kart;Lap;Seconds\n27;1;33,9\n5;1;30\n27;2;31,4\n"
                                             "27;3;31,3\n27;4;31,5\n");
  const Json run = json_of(box.add(
      {"--format", "json"}, {"--csv", csv, "--only", "Kart=27", "--column", "time=Seconds"}));
  EXPECT_EQ(flags_of_laps(run), (Words{"out", "counts", "counts", "counts"}));
}

TEST(LogAdd, AnEmptyNoteIsNone) {
  const PitBox box;
  const Json run = json_of(box.add({"--note", "", "--driver", "", "--format", "json"}));
  EXPECT_FALSE(run.contains("notes"));
}

TEST(LogActions, TyposAreAnswered) {
  const PitBox box;
  EXPECT_THAT(box.with_log({"log", "lst"}).err, HasSubstr("did you mean `list`?"));
  EXPECT_THAT(box.with_log({"log"}).err, HasSubstr("one of add, list, show"));
  EXPECT_THAT(box.with_log({"log", "show"}).err, HasSubstr("needs one word more"));
  EXPECT_THAT(box.with_log({"log", "show", "1", "2"}).err, HasSubstr("`2` is one word too many"));
  EXPECT_THAT(box.with_log({"log", "list", "--driver", "x"}).err,
              HasSubstr("`--driver` goes with `log add`"));
  EXPECT_THAT(box.add({"--sesion", "heat"}).err, HasSubstr("--session"));
  EXPECT_THAT(run_kartwright({"log", "list"}).err, HasSubstr("which log?"));
  for (const Words& words :
       {Words{"log", "lst"}, {"log"}, {"log", "show"}, {"log", "show", "1", "2"}})
    EXPECT_EQ(box.with_log(words).exit, 2);
}

TEST(LogList, HasTheLatestByTimeAndSaysHowMany) {
  const PitBox box;
  box.add({"--at", "2024-11-14 11:00", "--session", "final"});
  box.add({"--at", "2024-11-14 09:00", "--session", "first"});
  box.add({"--at", "2024-11-14 10:00", "--session", "second"}, {});
  const std::string all = box.with_log({"log", "list"}).out;
  EXPECT_LT(all.find("first"), all.find("second"));
  EXPECT_LT(all.find("second"), all.find("final"));
  EXPECT_THAT(all, HasSubstr("no laps"));
  const std::string one = box.with_log({"log", "list", "--last", "1"}).out;
  EXPECT_THAT(one, AllOf(HasSubstr("final"), Not(HasSubstr("second")), HasSubstr("1 of 3 runs")));
  EXPECT_EQ(box.with_log({"log", "list", "--kart", box.kart()}).out, all);
  EXPECT_EQ(box.with_log({"log", "list", "--kart", "blue 27"}).out, all);
  const Ended other = box.with_log({"log", "list", "--kart", "red 5"});
  EXPECT_EQ(other.out, "");
  EXPECT_THAT(other.err, HasSubstr("no kart `red 5`"));
  for (const char* const last : {"-1", "0", "few", "1.5", "99999999999999999999"})
    EXPECT_EQ(box.with_log({"log", "list", "--last", last}).exit, 2) << last;
}

TEST(LogShow, HasARunWithItsSetup) {
  const PitBox box;
  box.add({"--at", "2024-11-14 10:30", "--session", "heat 2", "--said", "pushes going in"});
  const Ended shown = box.with_log({"log", "show", "1"});
  EXPECT_EQ(shown.exit, 0);
  EXPECT_THAT(shown.out, AllOf(HasSubstr("heat 2"), HasSubstr("push"), HasSubstr("SETUP"),
                               HasSubstr("rear-width 1360 mm")));
  const Ended none = box.with_log({"log", "show", "2"});
  EXPECT_EQ(none.exit, 65);
  EXPECT_THAT(none.err, HasSubstr("error[N009]: the log has no run `2`"));
}

TEST(LogPages, FitIntoSixtyColumns) {
  const PitBox box;
  box.add({"--session", std::string(90, 's'), "--driver", std::string(90, 'd'), "--note",
           std::string(200, 'n'), "--said", "pushes going in and it hops hard in the middle"},
          {"--laps", "34 31.111 31.222 31.333 31.444 31.555 31.666 31.777 31.888 36"});
  for (const Words& words :
       {Words{"log", "list", "--log", box.log()}, {"log", "show", "1", "--log", box.log()}}) {
    const Ended ended = run_kartwright(words, {{"COLUMNS", "60"}});
    EXPECT_EQ(ended.exit, 0);
    for (const std::string& line : lines_of(ended.out)) EXPECT_LE(width_of(line), 60U) << line;
  }
}

TEST(LogAdd, AKartWithoutANameHasOneAllTheSame) {
  for (const char* const name : {"kart: \"\"", "# no name"}) {
    const PitBox box(with_exchanged(pit_box_kart(), "kart: blue 27", name));
    EXPECT_EQ(json_of(box.add({"--format", "json"})).at("kart"), "a kart without a name");
    EXPECT_EQ(box.with_log({"log", "verify"}).exit, 0);
  }
}

TEST(LogVerify, SaysThatALogIsSound) {
  const PitBox box;
  box.add({});
  const Ended ended = box.with_log({"log", "verify"});
  EXPECT_EQ(ended.exit, 0);
  EXPECT_EQ(ended.out, "the log is sound; runs in it: 1\n");
  EXPECT_EQ(json_of(box.with_log({"log", "verify", "--format", "json"})).at("runs"), 1);
}

TEST(LogVerify, FindsARunDamagedBehindItsBack) {
  for (const char* const sql :
       {"UPDATE lap SET seconds = 0 WHERE n = 1", "UPDATE lap SET number = 9 WHERE n = 1",
        "DELETE FROM lap WHERE n = 0", "UPDATE run SET at = 'noon'",
        "UPDATE lap SET flag = 'sideways'", "UPDATE kart SET name = ''",
        "UPDATE run SET driver = 'a' || char(27) || '[2J'",
        "PRAGMA foreign_keys = OFF; DELETE FROM run",
        "INSERT INTO change (run, n, adjustment, \"from\", \"to\", steps, origin) "
        "VALUES (1, 0, 'rear-width', '1350 mm', '1370 mm', 4, 'found')"}) {
    const PitBox box;
    box.add({"--at", "2024-11-14 10:30"});
    change_by_sql(box.log(), sql);
    const std::string before = file_text(box.log());
    const Ended ended = box.with_log({"log", "verify"});
    EXPECT_EQ(ended.exit, 65) << sql << ended.out;
    EXPECT_EQ(ended.out, "");
    EXPECT_THAT(ended.err, HasSubstr("error[N0")) << sql;
    EXPECT_FALSE(has_control(ended.err)) << sql;
    EXPECT_EQ(file_text(box.log()), before);
    // Whatever it is, the other ways of looking at it do not break.
    for (const Words& words : {Words{"log", "list"}, {"log", "show", "1"}, {"log", "export"}}) {
      const Ended looked = box.with_log(words);
      EXPECT_TRUE(looked.exit == 0 || looked.exit == 65) << sql << looked.err;
      EXPECT_FALSE(has_control(looked.out)) << sql;
    }
  }
}

TEST(LogVerify, AKartFileInOtherUnitsIsNoFault) {
  const PitBox box;
  box.add({"--at", "2024-11-14 10:30"});
  EXPECT_EQ(box.apply({"--set", "rear-width=1370mm", "--at", "2024-11-14 10:40"}).exit, 0);
  box.folder().write("blue27.yaml", with_exchanged(file_text(box.kart()), "rear-width: 1370 mm",
                                                   "rear-width: 137 cm"));
  const Json run = json_of(box.add({"--format", "json", "--at", "2024-11-14 10:50"}));
  EXPECT_THAT(run.at("changes"), SizeIs(1));
  EXPECT_EQ(box.with_log({"log", "verify"}).exit, 0);
}

TEST(LogSafety, NothingOfATextReachesTheTerminalRaw) {
  const std::string evil =
      "a\x1b[2J\x07"
      "b\x7F\xC2\x9B"
      "31m\xE2\x80\xAE"
      "c\r\n";
  const PitBox box(
      with_exchanged(pit_box_kart(), "kart: blue 27", "kart: \"blue\\e[2J 27\\u202e\\x07\""));
  const auto clean = [](const Ended& ended) {
    for (const std::string& text : {ended.out, ended.err}) {
      EXPECT_FALSE(has_control(text)) << text;
      EXPECT_EQ(text.find("\xE2\x80\xAE"), std::string::npos);
      EXPECT_EQ(text.find("\xC2\x9B"), std::string::npos);
    }
    return ended.exit;
  };
  EXPECT_EQ(clean(box.add({"--at", "2024-11-14 10:30", "--session", evil, "--driver", evil,
                           "--tyres", evil, "--load", evil, "--note", evil, "--said",
                           "pushes" + evil + " going in"})),
            0);
  EXPECT_EQ(clean(box.advise()), 0);
  EXPECT_EQ(clean(box.apply({"--change", "1", "--why", evil, "--asked-by", evil})), 0);
  for (const Words& words : {Words{"log", "list"},
                             {"log", "show", "1"},
                             {"log", "show", "2"},
                             {"log", "list", "--format", "json"},
                             {"log", "show", "2", "--format", "json"},
                             {"log", "export"},
                             {"log", "export", "--format", "csv"},
                             {"log", "verify"}}) {
    EXPECT_EQ(clean(box.with_log(words)), 0) << words[1];
  }
  for (const char* const format : {"json", "csv"}) {
    const std::string text = box.exported(format);
    const std::string file = box.folder().write("export", text);
    const std::string other = box.folder().path() + "/other-" + format + ".db";
    EXPECT_EQ(clean(import_into(other, file)), 0);
    EXPECT_EQ(run_kartwright({"log", "export", "--format", format, "--log", other}).out, text);
  }
  for (const Words& words : {Words{"--at", evil},
                             {"--laps", evil},
                             {"--flag", evil},
                             {"--air", evil},
                             {"--track", evil},
                             {"--fact", evil}})
    EXPECT_NE(clean(box.add(words, {})), 0) << words[0];
  EXPECT_NE(clean(box.with_log({"log", "show", evil})), 0);
  EXPECT_NE(clean(box.with_log({"log", evil})), 0);
  EXPECT_NE(clean(box.with_log({"log", "list", "--kart", evil})), 0);
  EXPECT_NE(clean(box.apply({"--set", evil})), 0);
}

}  // namespace
}  // namespace kartwright
