// Every command that the README, the guide and the manual tell somebody to type is typed here, and
// what they show is what the program says.

#include <algorithm>
#include <filesystem>
#include <iterator>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/cli/papers.h"
#include "tests/cli/pit_box.h"

namespace kartwright {
namespace {

namespace fs = std::filesystem;

constexpr const char* kSource = KARTWRIGHT_SOURCE_DIR;

/// A folder that looks like the top of the project after a build, and like a crew's own.
class Bench {
 public:
  Bench() {
    fs::create_directory_symlink(fs::path(kSource) / "scenarios", at("scenarios"));
    fs::create_directories(at("build"));
    fs::create_symlink(binary(), at("build/kartwright"));
    fs::create_directories(at("our-rules"));
    for (const char* const file : {"rear-width.yaml", "rear-width.cases.yaml"})
      fs::copy(fs::path(kSource) / "rules/adjustments" / file, at("our-rules"));
    fs::copy(fs::path(kSource) / "scenarios/harbour/harbour-27-sunday.yaml", at("blue27.yaml"));
    folder_.write("answers.txt", "rear\nleave it\nquit\n");
    const std::string laps =
        ",1,33.9,1360 mm\n,2,31.42,1360 mm\n,3,31.38,1360 mm\n,4,31.40,1360 mm\n,5,31.2,1380 mm\n"
        ",6,31.22,1380 mm\n,7,31.18,1380 mm\n,8,31.41,1360 mm\n,9,31.37,1360 mm\n";
    folder_.write("laps.csv", "Kart,lap,time,group\n" + of_kart_27(laps));
    folder_.write("session.csv", "Kart,lap,time,rear width\n" + of_kart_27(laps));
  }

  /// A command as a shell runs it, with nothing to read.
  Ended type(const std::string& command, const std::string& columns = "80") const {
    const std::string script = "cd \"$1\" && PATH=\"$1/build:$PATH\" && " + command;
    return run(
        {.argv = {"/bin/sh", "-c", script, "sh", folder_.path()},
         .env = {{"COLUMNS", columns}, {"LC_ALL", "C.UTF-8"}, {"XDG_STATE_HOME", at("state")}}});
  }

  /// A log of a weekend, with advice for the kart of the folder in it.
  void keep_a_log(const std::string& name) const {
    type("kartwright log import scenarios/harbour/weekend.json --log " + name);
    type("kartwright advise --log " + name +
         " --kart blue27.yaml --track rubbered-in --said \"hops hard in the middle\"");
  }

 private:
  std::string at(const std::string& name) const { return folder_.path() + "/" + name; }

  static std::string of_kart_27(std::string laps) {
    for (std::size_t at = laps.find("\n,"); at != std::string::npos; at = laps.find("\n,", at))
      laps.replace(at, 2, "\n27,");
    return "27" + laps;
  }

  TempFolder folder_;
};

/// A command, and what is shown to come of it; nothing where it is not shown.
struct Told {
  std::string command;
  std::vector<std::string> shown = {};
};

/// The commands of a page: lines of its blocks of commands, and those behind `$` with what stands
/// below them.
std::vector<Told> told_in(const std::string& page) {
  std::vector<Told> told;
  bool goes_on = false;
  bool shows = false;
  for (const std::string& line : lines_of(file_text(std::string(kSource) + "/" + page))) {
    const bool typed = line.starts_with("build/kartwright ") || line.starts_with("cp scenarios/");
    shows = shows && line != "```";
    if (goes_on) {
      told.back().command += "\n" + line;
    } else if (typed) {
      told.push_back({line});
    } else if (line.starts_with("$ kartwright ")) {
      told.push_back({line.substr(2)});
      shows = true;
    } else if (shows) {
      told.back().shown.push_back(line);
    }
    goes_on = (goes_on || typed) && line.ends_with("\\");
  }
  return told;
}

std::vector<std::string> without_empty_lines(const std::vector<std::string>& lines) {
  std::vector<std::string> out;
  std::copy_if(lines.begin(), lines.end(), std::back_inserter(out), [](const std::string& line) {
    return line.find_first_not_of(' ') != std::string::npos;
  });
  return out;
}

/// The first line shown that the answer does not have in its place, or nothing; `...` stands for
/// any lines.
std::string not_said(const std::vector<std::string>& shown, const std::string& answer) {
  const std::vector<std::string> said = without_empty_lines(lines_of(answer));
  std::size_t at = 0;
  bool skips = false;
  for (const std::string& line : without_empty_lines(shown)) {
    if (line.find_first_not_of(" .") == std::string::npos) {
      skips = true;
      continue;
    }
    while (skips && at < said.size() && said[at] != line) ++at;
    if (at == said.size() || said[at] != line) return line;
    ++at;
    skips = false;
  }
  return {};
}

/// Two are told with a driver's answers between the lines, which tests of their own type.
bool is_a_dialogue(const std::string& command) {
  return command.find("--ask") != std::string::npos ||
         command.find("drill --case") != std::string::npos;
}

/// Pages are shown 80 or 100 columns wide; `narrow` is what the command said at 80.
void expect_shown(const Bench& bench, const Told& told, const std::string& narrow) {
  const std::string missing = not_said(told.shown, narrow);
  if (missing.empty()) return;
  EXPECT_EQ(not_said(told.shown, bench.type(told.command, "100").out), "")
      << told.command << "\nand at 80 columns: " << missing;
}

/// How many commands it told.
std::size_t type_all(const Bench& bench, const std::string& page) {
  const std::vector<Told> all = told_in(page);
  for (const Told& told : all) {
    const Ended ended = bench.type(told.command);
    EXPECT_EQ(ended.exit, 0) << told.command << "\n" << ended.err;
    EXPECT_FALSE(ended.out.empty() && told.command.find('>') == std::string::npos &&
                 !told.command.starts_with("cp "))
        << told.command;
    if (!is_a_dialogue(told.command)) expect_shown(bench, told, ended.out);
  }
  return all.size();
}

TEST(ToldCommands, ThoseOfTheReadmeWorkOneAfterTheOtherAndSayWhatIsShown) {
  EXPECT_GT(type_all(Bench(), "README.md"), 14U);
}

TEST(ToldCommands, ThoseOfTheGuideWorkOneAfterTheOtherAndSayWhatIsShown) {
  EXPECT_GT(type_all(Bench(), "cli/guide.md"), 35U);
}

TEST(ToldCommands, WhatIsShownAndNotSaidIsFound) {
  EXPECT_EQ(
      not_said({"", "VERDICT  keep", "...", "NEXT     none"}, "VERDICT  keep\na\nNEXT     none\n"),
      "");
  EXPECT_EQ(not_said({"VERDICT  keep", "NEXT     none"}, "VERDICT  keep\na\nNEXT     none\n"),
            "NEXT     none");
  EXPECT_EQ(not_said({"...", "NEXT     all"}, "VERDICT  keep\nNEXT     none\n"), "NEXT     all");
}

const std::vector<std::string>& pages_of_the_manual() {
  static const std::vector<std::string> kPages{"advise",  "check", "apply",   "log",     "weigh",
                                               "whatif",  "plan",  "compare", "learned", "drill",
                                               "explain", "start", "rules"};
  return kPages;
}

TEST(ToldCommands, EveryPageOfTheManualIsTyped) {
  EXPECT_EQ(pages_of_the_manual(), commands_of_help());
}

class ToldByTheManual : public testing::TestWithParam<std::string> {};

TEST_P(ToldByTheManual, EveryExampleWorks) {
  const Bench bench;
  const std::string page = paper("man/man1/kartwright-" + GetParam() + ".1");
  const std::vector<std::string> examples = examples_of_manual(page);
  EXPECT_FALSE(examples.empty());
  for (const char* const log : {"day.db", "season.db"}) {
    if (page.find(log) != std::string::npos) bench.keep_a_log(log);
  }
  for (const std::string& example : examples) {
    const Ended ended = bench.type(example);
    EXPECT_EQ(ended.exit, 0) << example << "\n" << ended.err;
  }
}

INSTANTIATE_TEST_SUITE_P(Pages, ToldByTheManual, testing::ValuesIn(pages_of_the_manual()),
                         [](const auto& page) { return page.param; });

}  // namespace
}  // namespace kartwright
