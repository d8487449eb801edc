// The manual and the completions of shells: they name what the program takes, and shells take them.

#include "tests/cli/papers.h"

#include <filesystem>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/support/temp_folder.h"

namespace kartwright {
namespace {

using testing::AllOf;
using testing::HasSubstr;
using testing::Not;

namespace fs = std::filesystem;

bool is_installed(const std::string& program) {
  return run({.argv = {"/bin/sh", "-c", "command -v " + program}}).exit == 0;
}

/// What a shell makes of a script, with the path of a paper as its first argument.
Ended in_shell(const Words& shell, const std::string& script, const std::string& name) {
  Words argv = shell;
  argv.insert(argv.end(), {script, path_of_paper(name)});
  argv.insert(argv.begin(), "/usr/bin/env");
  return run({.argv = argv, .env = {{"LC_ALL", "C.UTF-8"}}});
}

/// The answers of bash to a line, each in a line.
std::string bash_answers(const std::string& line, const std::string& breaks = " =:") {
  const TempFolder folder;
  const std::string script =
      folder.write("ask.bash",
                   "source \"$1\"\nCOMP_LINE=$2 COMP_POINT=${#2} COMP_WORDBREAKS=$3\n_kartwright\n"
                   "printf '%s\\n' \"${COMPREPLY[@]}\"\n");
  return run({.argv = {"/usr/bin/env", "bash", script, path_of_paper("bash/kartwright"), line,
                       breaks}})
      .out;
}

std::string fish_answers(const std::string& line) {
  return in_shell({"fish", "-N", "-c"}, "source $argv[1]; complete -C '" + line + "'",
                  "fish/kartwright.fish")
      .out;
}

OptionNames options_in_bash() {
  OptionNames names;
  std::vector<std::string> commands = commands_of_help();
  commands.emplace_back("");
  for (const std::string& command : commands) {
    const std::string line = "kartwright " + command + (command.empty() ? "-" : " -");
    for (const std::string& name : lines_of(bash_answers(line))) names[command].insert(name);
  }
  return names;
}

TEST(Papers, HelpManualAndCompletionsNameTheSameOptions) {
  const OptionNames help = options_in_help();
  ASSERT_EQ(help.size(), commands_of_help().size() + 1);
  EXPECT_TRUE(help.at("advise").contains("--why-not"));
  EXPECT_TRUE(help.at("log").contains("-q"));
  EXPECT_EQ(options_in_the_manual(), help);
  EXPECT_EQ(options_in_bash(), help);
  EXPECT_EQ(options_in_fish(), help);
  EXPECT_EQ(options_in_zsh(), help);
}

TEST(Papers, EveryOptionThatIsNamedIsTaken) {
  for (const auto& [command, names] : options_in_help()) {
    if (command.empty()) continue;
    const std::set<std::string> valued = options_with_values(command);
    Words words{command};
    for (const std::string& name : names) {
      if (name == "--help" || !name.starts_with("--")) continue;
      words.push_back(valued.contains(name) ? name + "=1" : name);
    }
    const Ended ended = run_kartwright(words);
    EXPECT_THAT(ended.err, AllOf(Not(HasSubstr("is not an option")), Not(HasSubstr("no value")),
                                 Not(HasSubstr("no check is named"))))
        << command;
  }
}

TEST(Papers, AnOptionThatIsNotNamedIsRefused) {
  for (const std::string& command : commands_of_help()) {
    const Ended ended = run_kartwright({command, "--colour=1"});
    EXPECT_EQ(ended.exit, 2) << command;
    EXPECT_THAT(ended.err, testing::AnyOf(HasSubstr("`--colour` is not an option"),
                                          HasSubstr("`--colour` is given, but no check")))
        << command;
  }
}

TEST(Papers, EveryCommandHasAPageWithAnExample) {
  for (const std::string& command : commands_of_help()) {
    const std::string page = paper("man/man1/kartwright-" + command + ".1");
    EXPECT_FALSE(examples_of_manual(page).empty()) << command;
    EXPECT_THAT(page, Not(HasSubstr(".SH DESCRIPTION\n.SH"))) << command;
    EXPECT_THAT(paper("man/man1/kartwright.1"), HasSubstr("kartwright\\-" + command));
  }
}

TEST(Papers, TheManualTellsWhatTheProgramReadsAndHowItEnds) {
  const std::string page = without_roff(paper("man/man1/kartwright.1"));
  for (const char* const told : {".B 2\n", ".B 65\n", ".B 66\n", ".B 70\n", ".B 73\n", ".B 74\n",
                                 ".B 130\n", "NO_COLOR", "COLUMNS", "XDG_STATE_HOME", "LC_ALL"})
    EXPECT_THAT(page, HasSubstr(told));
}

TEST(Papers, TheManualIsSoundRoff) {
  if (!is_installed("mandoc")) GTEST_SKIP() << "mandoc is not installed";
  std::size_t pages = 0;
  for (const auto& entry : fs::directory_iterator(path_of_paper("man/man1"))) {
    const Ended ended =
        run({.argv = {"/usr/bin/env", "mandoc", "-T", "lint", "-W", "warning", entry.path()}});
    // Outside of a repository nobody knows the day.
    if (ended.out.find("missing date") == std::string::npos) {
      EXPECT_EQ(ended.out, "");
    }
    ++pages;
  }
  EXPECT_EQ(pages, commands_of_help().size() + 1);
}

TEST(Papers, BashCompletesCommandsOptionsValuesAndFiles) {
  const std::string source = KARTWRIGHT_SOURCE_DIR;
  EXPECT_EQ(bash_answers("kartwright ex"), "explain\n");
  EXPECT_EQ(bash_answers("kartwright advise --tr"), "--track\n");
  EXPECT_EQ(bash_answers("kartwright advise --track rub"), "rubbered-in\n");
  EXPECT_EQ(bash_answers("kartwright drill --units "), "metric\nimperial\n");
  EXPECT_EQ(bash_answers("kartwright log im"), "import\n");
  EXPECT_EQ(bash_answers("kartwright rules ch"), "check\n");
  EXPECT_EQ(bash_answers("kartwright explain rear-wid"), "rear-width\n");
  EXPECT_EQ(bash_answers("kartwright advise --why --together "), "2\n3\n");
  EXPECT_EQ(bash_answers("kartwright advise --kart " + source + "/READ"), source + "/README.md\n");
  EXPECT_EQ(bash_answers("kartwright log import " + source + "/READ"), source + "/README.md\n");
  EXPECT_EQ(bash_answers("kartwright rules check --rules " + source + "/rul"), source + "/rules\n");
}

TEST(Papers, BashTakesAValueApartAtTheSignsThatPartItsWords) {
  EXPECT_EQ(bash_answers("kartwright drill --format=j"), "json\n");
  EXPECT_EQ(bash_answers("kartwright drill --format=j", " "), "--format=json\n");
  EXPECT_EQ(bash_answers("kartwright advise --why-not rear-width:n"), "narrower\n");
  EXPECT_EQ(bash_answers("kartwright advise --why-not rear-width:n", " "), "rear-width:narrower\n");
  EXPECT_EQ(bash_answers("kartwright advise --fact hit=y"), "yes\n");
}

TEST(Papers, FishCompletesCommandsOptionsValuesAndFiles) {
  if (!is_installed("fish")) GTEST_SKIP() << "fish is not installed";
  EXPECT_THAT(fish_answers("kartwright expl"), HasSubstr("explain\t"));
  EXPECT_THAT(fish_answers("kartwright advise --tr"), HasSubstr("--track\t"));
  EXPECT_THAT(fish_answers("kartwright advise --track rub"), HasSubstr("rubbered-in"));
  EXPECT_THAT(fish_answers("kartwright drill --format=j"), HasSubstr("--format=json"));
  EXPECT_THAT(fish_answers("kartwright rules ch"), HasSubstr("check"));
  EXPECT_THAT(fish_answers("kartwright explain rear-wid"), HasSubstr("rear-width"));
  EXPECT_THAT(fish_answers("kartwright advise --kart " KARTWRIGHT_SOURCE_DIR "/READ"),
              HasSubstr("README.md"));
  EXPECT_EQ(fish_answers("kartwright advise --minutes "), "");
}

/// zsh at a terminal of its own: what stands on the line after a tab.
constexpr const char* kAskZsh = R"(zmodload zsh/zpty
export TERM=dumb
zpty -b shell zsh -f -i
zpty -w shell "PS1='ready> '; fpath=(${1:h} \$fpath); autoload -Uz compinit; compinit -u -D"
zpty -w shell "kartwright() { }; stty columns 200"
zpty -r shell chunk '*ready> *ready> *ready> *'
shift
for line; do
  zpty -w -n shell "$line"$'\t'
  zpty -r shell chunk "*$line*"
  sleep 0.5
  while zpty -r -t shell more; do chunk+=$more; done
  print -r -- "$chunk"
  zpty -w -n shell $'\C-u'
done
)";

TEST(Papers, ZshCompletesCommandsOptionsValuesAndFiles) {
  if (!is_installed("zsh")) GTEST_SKIP() << "zsh is not installed";
  EXPECT_EQ(in_shell({"zsh", "-n"}, path_of_paper("zsh/_kartwright"), "zsh/_kartwright").exit, 0);
  const TempFolder folder;
  const std::string script = folder.write("ask.zsh", kAskZsh);
  const Ended ended =
      run({.argv = {"/usr/bin/env", "timeout", "40", "zsh", "-f", script,
                    path_of_paper("zsh/_kartwright"), "kartwright expl",
                    "kartwright advise --track rub", "kartwright drill --format=j",
                    "kartwright advise --why-not rear-width:na", "kartwright log im",
                    "kartwright advise --kart " KARTWRIGHT_SOURCE_DIR "/READ"}});
  for (const char* const completed :
       {"kartwright explain ", "--track rubbered-in ", "--format=json ", "rear-width:narrower ",
        "log import ", "/README.md "})
    EXPECT_THAT(ended.out, HasSubstr(completed)) << ended.err;
}

}  // namespace
}  // namespace kartwright
