// The folder of what is remembered: where the specification puts it, for its owner alone.

#include "cli/state_folder.h"

#include <cstdlib>
#include <filesystem>
#include <optional>

#include <gtest/gtest.h>
#include <sys/stat.h>

#include "engine/document/replace_file.h"
#include "tests/support/temp_folder.h"

namespace kartwright::cli {
namespace {

/// A variable of the surroundings, as it was again at the end.
class Variable {
 public:
  Variable(const char* name, const std::optional<std::string>& value) : name_(name) {
    if (const char* before = std::getenv(name)) before_ = before;
    set(value);
  }
  ~Variable() { set(before_); }
  Variable(const Variable&) = delete;
  Variable& operator=(const Variable&) = delete;

 private:
  void set(const std::optional<std::string>& value) const {
    if (value)
      setenv(name_, value->c_str(), 1);
    else
      unsetenv(name_);
  }
  const char* name_;
  std::optional<std::string> before_ = {};
};

mode_t permissions(const std::string& path) {
  struct stat status {};
  return stat(path.c_str(), &status) == 0 ? status.st_mode & 07777U : 0;
}

TEST(StateFolder, IsWhereTheSpecificationPutsIt) {
  const Variable home("HOME", "/home/chief");
  {
    const Variable state("XDG_STATE_HOME", "/var/box");
    EXPECT_EQ(state_folder(), "/var/box/kartwright");
  }
  for (const char* none : {"", "relative/box"}) {
    const Variable state("XDG_STATE_HOME", none);
    EXPECT_EQ(state_folder(), "/home/chief/.local/state/kartwright") << none;
  }
}

TEST(StateFolder, IsNoneWithoutAHome) {
  const Variable state("XDG_STATE_HOME", std::nullopt);
  for (const std::optional<std::string>& none : {std::optional<std::string>(), {"here"}}) {
    const Variable home("HOME", none);
    EXPECT_EQ(state_folder(), std::nullopt);
  }
}

TEST(StateFolder, IsMadeForItsOwnerWhenFirstWrittenTo) {
  const TempFolder temp;
  const std::string folder = temp.path() + "/a/state/kartwright";
  EXPECT_EQ(read_state(folder, "half.yaml"), std::nullopt);
  EXPECT_FALSE(std::filesystem::exists(temp.path() + "/a"));
  write_state(folder, "half.yaml", "one\n");
  EXPECT_EQ(permissions(folder), 0700U);
  EXPECT_EQ(permissions(folder + "/half.yaml"), 0600U);
  EXPECT_EQ(read_state(folder, "half.yaml"), "one\n");
}

TEST(StateFolder, HoldsTheLastTextOnlyAndNothingAfterItIsRemoved) {
  const TempFolder temp;
  write_state(temp.path(), "half.yaml", "one\n");
  write_state(temp.path(), "half.yaml", "two\n");
  EXPECT_EQ(read_state(temp.path(), "half.yaml"), "two\n");
  remove_state(temp.path(), "half.yaml");
  remove_state(temp.path(), "half.yaml");
  EXPECT_EQ(read_state(temp.path(), "half.yaml"), std::nullopt);
  EXPECT_TRUE(std::filesystem::is_empty(temp.path()));
}

TEST(StateFolder, ThatCannotBeMadeIsTold) {
  const TempFolder temp;
  const std::string file = temp.write("file", "in the way");
  EXPECT_THROW(write_state(file + "/kartwright", "half.yaml", "one"), FileError);
  EXPECT_EQ(read_state(file + "/kartwright", "half.yaml"), std::nullopt);
}

}  // namespace
}  // namespace kartwright::cli
