// Every command that the README and the manual tell somebody to type is typed here.

#include <filesystem>

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
  Ended type(const std::string& command) const {
    const std::string script = "cd \"$1\" && PATH=\"$1/build:$PATH\" && " + command;
    return run({.argv = {"/bin/sh", "-c", script, "sh", folder_.path()},
                .env = {{"LC_ALL", "C.UTF-8"}, {"XDG_STATE_HOME", at("state")}}});
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

/// The commands of the README: lines of its blocks of commands, and those behind `$`.
std::vector<std::string> commands_of_readme() {
  std::vector<std::string> commands;
  bool goes_on = false;
  for (const std::string& line : lines_of(file_text(std::string(kSource) + "/README.md"))) {
    const bool told = line.starts_with("build/kartwright ") || line.starts_with("cp scenarios/");
    if (goes_on) {
      commands.back() += "\n" + line;
    } else if (told) {
      commands.push_back(line);
    } else if (line.starts_with("$ kartwright ")) {
      commands.push_back(line.substr(2));
    }
    goes_on = (goes_on || told) && line.ends_with("\\");
  }
  return commands;
}

TEST(ToldCommands, ThoseOfTheReadmeWorkOneAfterTheOther) {
  if (watched()) GTEST_SKIP() << "each is a process; the build as it ships runs them all";
  const Bench bench;
  const std::vector<std::string> commands = commands_of_readme();
  ASSERT_GT(commands.size(), 30U);
  for (const std::string& command : commands) {
    const Ended ended = bench.type(command);
    EXPECT_EQ(ended.exit, 0) << command << "\n" << ended.err;
    EXPECT_FALSE(ended.out.empty() && command.find('>') == std::string::npos &&
                 !command.starts_with("cp "))
        << command;
  }
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
