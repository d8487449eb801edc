// The line that names a file's schema to an editor: found beside the program, wherever it stands,
// and there through every edit in place.

#include "cli/schema_folder.h"

#include <filesystem>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/cli/pit_box.h"
#include "tests/support/temp_folder.h"

namespace kartwright::cli {
namespace {

using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;
using testing::StartsWith;

constexpr const char* kLead = "# yaml-language-server: $schema=";

/// What behind the sign of the first line is read by an editor.
std::string schema_of(const std::string& text) {
  EXPECT_THAT(text, StartsWith(kLead));
  const std::string line = text.substr(0, text.find('\n'));
  return line.substr(std::min(line.size(), std::string(kLead).size()));
}

TEST(SchemaFolder, AnInstallIsFoundBeforeABuild) {
  const TempFolder folder;
  EXPECT_EQ(schema_folder_beside(folder.path() + "/bin"), std::nullopt);
  folder.write("bin/share/kartwright/schemas/kart.schema.json", "{}");
  EXPECT_EQ(schema_folder_beside(folder.path() + "/bin"),
            folder.path() + "/bin/share/kartwright/schemas");
  folder.write("share/kartwright/schemas/kart.schema.json", "{}");
  EXPECT_EQ(schema_folder_beside(folder.path() + "/bin"),
            folder.path() + "/share/kartwright/schemas");
}

TEST(SchemaFolder, NoSchemaNoLine) {
  const TempFolder folder;
  folder.write("kart.schema.json", "{}");
  EXPECT_EQ(schema_line(folder.path(), "kart"), kLead + folder.path() + "/kart.schema.json\n");
  EXPECT_THAT(schema_line(folder.path(), "boat"), IsEmpty());
}

TEST(SchemaFolder, APathWithBlanksIsAUri) {
  const TempFolder folder;
  folder.write("pit box 100%/kart.schema.json", "{}");
  EXPECT_EQ(schema_line(folder.path() + "/pit box 100%", "kart"),
            kLead + ("file://" + folder.path()) + "/pit%20box%20100%25/kart.schema.json\n");
}

TEST(SchemaFolder, TheProgramNamesTheSchemaThatTheBuildPutBesideIt) {
  for (const Words& words : {Words{"start"}, Words{"start", "--example"}}) {
    const std::string schema = schema_of(run_kartwright(words).out);
    EXPECT_THAT(schema, HasSubstr("/share/kartwright/schemas/kart.schema.json"));
    EXPECT_EQ(file_text(schema), file_text(KARTWRIGHT_SOURCE_DIR "/cli/schemas/kart.schema.json"));
  }
}

TEST(SchemaFolder, AnInstalledProgramNamesTheInstalledOneAndALoneOneNone) {
  const TempFolder place;
  std::filesystem::create_directories(place.path() + "/bin");
  const std::string program = place.path() + "/bin/kartwright";
  std::filesystem::copy_file(binary(), program);
  const auto start = [&] {
    Command command = kartwright({"start"});
    command.argv.front() = program;
    return run(command).out;
  };
  EXPECT_THAT(start(), Not(HasSubstr("yaml-language-server")));
  place.write("share/kartwright/schemas/kart.schema.json", "{}");
  EXPECT_EQ(schema_of(start()), place.path() + "/share/kartwright/schemas/kart.schema.json");
}

TEST(SchemaFolder, TheLineStaysThroughApplyAndUndo) {
  const PitBox box(run_kartwright({"start", "--example"}).out);
  const std::string schema = schema_of(file_text(box.kart()));
  ASSERT_EQ(box.add({"--track", "green"}).exit, 0);
  ASSERT_EQ(box.apply({"--change", "rear-width=1370mm"}).exit, 0);
  const std::string after = file_text(box.kart());
  EXPECT_THAT(after, HasSubstr("rear-width: 1370 mm"));
  EXPECT_EQ(schema_of(after), schema);
}

}  // namespace
}  // namespace kartwright::cli
