// A file exchanged in one step: the new one, the old one kept, and what stands where it fails.

#include "engine/document/replace_file.h"

#include <filesystem>
#include <fstream>
#include <optional>
#include <set>
#include <sstream>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/support/temp_folder.h"

namespace kartwright {
namespace {

namespace fs = std::filesystem;
using testing::ElementsAre;

std::string content(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

std::set<std::string> names_in(const TempFolder& folder) {
  std::set<std::string> names;
  for (const auto& entry : fs::directory_iterator(folder.path()))
    names.insert(entry.path().filename().string());
  return names;
}

std::optional<FileError::What> fault_of(const std::string& path, const std::string& before) {
  try {
    replace_file(path, before, "new", "old");
  } catch (const FileError& error) {
    return error.kind();
  }
  return {};
}

TEST(ReplaceFile, KeepsTheOldOneBesideTheNewAndNothingElse) {
  const TempFolder folder;
  const std::string path = folder.write("kart.yaml", "old");
  EXPECT_EQ(replace_file(path, "old", "new", "old"), path + ".old");
  EXPECT_EQ(content(path), "new");
  EXPECT_EQ(content(path + ".old"), "old");
  EXPECT_THAT(names_in(folder), ElementsAre("kart.yaml", "kart.yaml.old"));
}

TEST(ReplaceFile, NeverWritesOverAnEarlierCopy) {
  const TempFolder folder;
  const std::string path = folder.write("kart.yaml", "one");
  replace_file(path, "one", "two", "old");
  EXPECT_EQ(replace_file(path, "two", "three", "old"), path + ".old-2");
  EXPECT_EQ(content(path + ".old"), "one");
  EXPECT_EQ(content(path + ".old-2"), "two");
  EXPECT_EQ(content(path), "three");
}

TEST(ReplaceFile, TakesOverPermissionsAndFollowsALink) {
  const TempFolder folder;
  const std::string path = folder.write("garage/kart.yaml", "old");
  const fs::perms mine = fs::perms::owner_read | fs::perms::owner_write | fs::perms::group_read;
  fs::permissions(path, mine);
  const std::string link = folder.path() + "/link.yaml";
  fs::create_symlink(path, link);
  replace_file(link, "old", "new", "old");
  EXPECT_TRUE(fs::is_symlink(link));
  EXPECT_EQ(content(path), "new");
  EXPECT_EQ(fs::status(path).permissions(), mine);
}

TEST(ReplaceFile, LeavesAFileThatSomebodyElseChanged) {
  const TempFolder folder;
  const std::string path = folder.write("kart.yaml", "changed meanwhile");
  EXPECT_EQ(fault_of(path, "as it was read"), FileError::What::not_written);
  EXPECT_EQ(content(path), "changed meanwhile");
  EXPECT_THAT(names_in(folder), ElementsAre("kart.yaml"));
}

TEST(ReplaceFile, RefusesWhatIsNoFile) {
  const TempFolder folder;
  EXPECT_EQ(fault_of(folder.path() + "/none.yaml", ""), FileError::What::cannot_create);
  EXPECT_EQ(fault_of(folder.path(), ""), FileError::What::cannot_create);
  EXPECT_THAT(names_in(folder), testing::IsEmpty());
}

// A name that leaves no room for a longer one beside it.
TEST(ReplaceFile, LeavesAFileThatNothingCanStandBeside) {
  const TempFolder folder;
  const std::string name = std::string(250, 'k') + ".yaml";
  const std::string path = folder.write(name, "old");
  EXPECT_EQ(fault_of(path, "old"), FileError::What::cannot_create);
  EXPECT_EQ(content(path), "old");
  EXPECT_THAT(names_in(folder), ElementsAre(name));
}

// What was there before stays the crew's: only the one name is the program's own.
TEST(ReplaceFile, ClearsAwayWhatAWriterLeftThatWasEnded) {
  const TempFolder folder;
  const std::string path = folder.write("kart.yaml", "old");
  folder.write("kart.yaml.being-written", "half of a");
  folder.write("kart.yaml.being", "of the crew");
  EXPECT_EQ(replace_file(path, "old", "new", "old"), path + ".old");
  EXPECT_EQ(content(path), "new");
  EXPECT_THAT(names_in(folder), ElementsAre("kart.yaml", "kart.yaml.being", "kart.yaml.old"));
}

// A copy has its name only when it is whole, so half of one is no older state of the kart.
TEST(ReplaceFile, ClearsAwayHalfOfAnOldOne) {
  const TempFolder folder;
  const std::string path = folder.write("kart.yaml", "old");
  folder.write("kart.yaml.old.being-written", "ol");
  EXPECT_EQ(replace_file(path, "old", "new", "old"), path + ".old");
  EXPECT_EQ(content(path + ".old"), "old");
  EXPECT_THAT(names_in(folder), ElementsAre("kart.yaml", "kart.yaml.old"));
}

TEST(ReplaceFile, TakesTheNewestOldOneWhereItHoldsTheSame) {
  const TempFolder folder;
  const std::string path = folder.write("kart.yaml", "old");
  folder.write("kart.yaml.old", "older");
  folder.write("kart.yaml.old-2", "old");
  EXPECT_EQ(replace_file(path, "old", "new", "old"), path + ".old-2");
  EXPECT_THAT(names_in(folder), ElementsAre("kart.yaml", "kart.yaml.old", "kart.yaml.old-2"));
}

TEST(ReplaceFile, IsNotDoneWhereTheNewOneOrTheOldOneCannotBeWritten) {
  for (const std::string name : {"kart.yaml.being-written", "kart.yaml.old.being-written"}) {
    const TempFolder folder;
    const std::string path = folder.write("kart.yaml", "old");
    fs::create_directories(folder.path() + "/" + name);
    EXPECT_EQ(fault_of(path, "old"), FileError::What::cannot_create) << name;
    EXPECT_EQ(content(path), "old");
    EXPECT_THAT(names_in(folder), ElementsAre("kart.yaml", name));
  }
}

TEST(PutFile, MakesAFileForItsOwnerAloneAndReplacesItWithoutACopy) {
  const TempFolder folder;
  const std::string path = folder.path() + "/half.yaml";
  put_file(path, "one");
  put_file(path, "two");
  EXPECT_EQ(content(path), "two");
  EXPECT_EQ(fs::status(path).permissions(), fs::perms::owner_read | fs::perms::owner_write);
  EXPECT_THAT(names_in(folder), ElementsAre("half.yaml"));
  EXPECT_THROW(put_file(folder.path() + "/none/half.yaml", "one"), FileError);
}

}  // namespace
}  // namespace kartwright
