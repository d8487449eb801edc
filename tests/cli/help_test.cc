// The pages behind --help, on every width, and the examples on them.

#include <algorithm>
#include <regex>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "cli/help_text.h"
#include "tests/cli/papers.h"

namespace kartwright {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;

/// The commands on a page, each in one line again.
std::vector<std::string> examples_on(const std::string& page) {
  static const std::regex broken(" *\\\\\n *");
  const std::string joined = std::regex_replace(page, broken, " ");
  std::vector<std::string> examples;
  for (const std::string& line : lines_of(joined)) {
    if (line.starts_with("  kartwright ")) examples.push_back(line.substr(2));
  }
  return examples;
}

TEST(Help, FitsEveryWidthOfATerminal) {
  std::vector<Words> pages{{"--help"}};
  for (const std::string& command : commands_of_help()) pages.push_back({command, "--help"});
  ASSERT_GT(pages.size(), 10U);
  std::vector<std::string> widths{"40"};
  if (!watched()) widths.insert(widths.end(), {"60", "80", "120"});
  for (const Words& words : pages) {
    for (const std::string& width : widths) {
      const Ended ended = run_kartwright(words, {{"COLUMNS", width}, {"LC_ALL", "C"}});
      EXPECT_EQ(ended.exit, 0);
      EXPECT_TRUE(is_ascii(ended.out)) << words.front();
      for (const std::string& line : lines_of(ended.out))
        EXPECT_LE(width_of(line), std::stoul(width)) << words.front() << ": " << line;
    }
  }
}

TEST(Help, GroupsTheCommandsByWhereTheCrewIs) {
  const std::string page = run_kartwright({"--help"}).out;
  const auto at = [&](const std::string& what) { return page.find("\n" + what); };
  std::size_t before = 0;
  for (const char* const line : {"in the pits\n", "  advise", "  log", "at the bench\n", "  weigh",
                                 "to learn\n", "  explain", "to keep\n", "  start", "options\n"}) {
    ASSERT_NE(at(line), std::string::npos) << line;
    EXPECT_GT(at(line), before) << line;
    before = at(line);
  }
}

TEST(Help, ItsExamplesStayTheSameCommandsOnANarrowPage) {
  for (const std::string& command : commands_of_help()) {
    const auto on = [&](const char* width) {
      return examples_on(run_kartwright({command, "--help"}, {{"COLUMNS", width}}).out);
    };
    EXPECT_FALSE(on("120").empty()) << command;
    EXPECT_EQ(on("40"), on("120")) << command;
  }
}

TEST(Help, TellsTheWordsOfTheRules) {
  const std::string advise = run_kartwright({"advise", "--help"}).out;
  EXPECT_THAT(advise, HasSubstr("rubbered-in"));
  EXPECT_THAT(advise, HasSubstr("faster, same or slower"));
  EXPECT_THAT(run_kartwright({"drill", "--help"}).out, HasSubstr("one-way"));
  EXPECT_THAT(run_kartwright({"check", "--help"}).out, HasSubstr("chain-length"));
}

TEST(Help, ALongCommandIsBrokenWhereTheShellLetsIt) {
  EXPECT_THAT(cli::wrap_command("kartwright weigh --lf 78.5lb --rf 80lb", 28, 4),
              ElementsAre("kartwright weigh \\", "    --lf 78.5lb --rf 80lb"));
  EXPECT_THAT(
      cli::wrap_command("kartwright advise --said \"pushes going in\"", 20, 4),
      ElementsAre("kartwright advise \\", "    --said \\", "    \"pushes going \\", "    in\""));
  EXPECT_THAT(cli::wrap_command("kartwright start > kart.yaml", 20, 4),
              ElementsAre("kartwright start \\", "    > kart.yaml"));
  EXPECT_THAT(cli::wrap_command("start /a/path/that/is/longer/than/the/page", 12, 2),
              ElementsAre("start \\", "  /a/path/that/is/longer/than/the/page"));
}

}  // namespace
}  // namespace kartwright
