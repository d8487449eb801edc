// Which version the program says it is.

#include <chrono>
#include <filesystem>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/cli/kartwright.h"
#include "tests/cli/pit_box.h"

namespace kartwright {
namespace {

using testing::HasSubstr;
using testing::MatchesRegex;

/// Sources somewhere, and what is written of them at build time.
class Sources {
 public:
  Ended shell(const std::string& script) const {
    return run({.argv = {"/bin/sh", "-c", "cd \"$1\" && " + script, "sh", folder_.path()},
                .env = {{"GIT_CONFIG_GLOBAL", "/dev/null"},
                        {"GIT_CONFIG_SYSTEM", "/dev/null"},
                        {"GIT_AUTHOR_NAME", "a"},
                        {"GIT_AUTHOR_EMAIL", "a@localhost"},
                        {"GIT_COMMITTER_NAME", "a"},
                        {"GIT_COMMITTER_EMAIL", "a@localhost"},
                        {"GIT_CEILING_DIRECTORIES", "/"}}});
  }

  std::string written() const {
    const Ended ended = shell(
        "cmake -DSOURCE_DIR=\"$1/sources\" -DVERSION=4.5.6 -DOUTPUT=\"$1/version.cc\" "
        "-P " KARTWRIGHT_SOURCE_DIR "/cli/version.cmake");
    EXPECT_EQ(ended.exit, 0) << ended.err;
    return file_text(output());
  }

  std::string output() const { return folder_.path() + "/version.cc"; }

 private:
  TempFolder folder_;
};

TEST(Version, IsOneLineThatNamesTheProgram) {
  const Ended ended = run_kartwright({"--version"});
  EXPECT_EQ(ended.exit, 0);
  EXPECT_THAT(ended.out, MatchesRegex("kartwright [0-9]+\\.[0-9]+\\.[0-9]+( \\([^()\n]+\\))?\n"));
}

TEST(Version, OfAnArchiveWithoutARepositoryIsThatOfTheProject) {
  const Sources sources;
  sources.shell("mkdir sources");
  EXPECT_THAT(sources.written(), HasSubstr("kVersion = \"4.5.6\""));
  EXPECT_THAT(sources.written(), HasSubstr("kSources = \"\""));
}

TEST(Version, NamesTheTagAndSaysWhatIsNotCommitted) {
  const Sources sources;
  const Ended made = sources.shell(
      "git init -q sources && cd sources && echo a > a && git add a && "
      "git commit -q -m one");
  if (made.exit == 127) GTEST_SKIP() << "git is not installed";
  ASSERT_EQ(made.exit, 0) << made.err;
  EXPECT_THAT(sources.written(), testing::ContainsRegex("kSources = \"[0-9a-f]+\""));
  sources.shell("cd sources && git tag v4.5.6");
  EXPECT_THAT(sources.written(), HasSubstr("kSources = \"v4.5.6\""));
  sources.shell("cd sources && echo b > a");
  EXPECT_THAT(sources.written(), HasSubstr("kSources = \"v4.5.6-dirty\""));
}

// Else every build would link the program anew.
TEST(Version, IsWrittenOnlyWhereItIsAnotherOne) {
  const Sources sources;
  sources.shell("mkdir sources");
  sources.written();
  const auto long_ago = std::filesystem::file_time_type::clock::now() - std::chrono::hours(1);
  std::filesystem::last_write_time(sources.output(), long_ago);
  sources.written();
  EXPECT_EQ(std::filesystem::last_write_time(sources.output()), long_ago);
}

}  // namespace
}  // namespace kartwright
