// The house: who may look at whom, what may do input or output, and the size of things.

#include <algorithm>
#include <array>
#include <filesystem>
#include <fstream>
#include <map>
#include <optional>
#include <regex>
#include <set>
#include <sstream>

#include <gtest/gtest.h>

#include "engine/document/utf8.h"

namespace kartwright {
namespace {

namespace fs = std::filesystem;

const fs::path kRoot = KARTWRIGHT_SOURCE_DIR;

/// The rooms of the engine, lowest first. A room uses those before it.
constexpr std::array<std::string_view, 13> kRooms{
    "quantity",  "document", "knowledge", "kart",   "debrief", "algebra", "chassis",
    "inference", "decision", "records",   "advice", "audit",   "practice"};

std::vector<std::string> lines_of(std::istream& text) {
  std::vector<std::string> lines;
  for (std::string line; std::getline(text, line);) lines.push_back(line);
  return lines;
}

std::vector<std::string> lines_of(const fs::path& file) {
  std::ifstream text(file);
  return lines_of(text);
}

/// Files below some folders of the root, relative to it, with one of the extensions.
std::vector<fs::path> files(const std::vector<std::string>& folders,
                            const std::set<std::string>& extensions) {
  std::vector<fs::path> found;
  for (const std::string& folder : folders) {
    if (!fs::exists(kRoot / folder)) continue;
    for (const auto& entry : fs::recursive_directory_iterator(kRoot / folder)) {
      const bool wanted = extensions.empty() || extensions.contains(entry.path().extension());
      if (entry.is_regular_file() && wanted) found.push_back(fs::relative(entry.path(), kRoot));
    }
  }
  std::sort(found.begin(), found.end());
  return found;
}

/// Place of a room in the order, or nothing where it is no room.
std::optional<std::size_t> rank(std::string_view room) {
  const auto* const found = std::find(kRooms.begin(), kRooms.end(), room);
  if (found == kRooms.end()) return std::nullopt;
  return static_cast<std::size_t>(found - kRooms.begin());
}

/// The room of a path: `engine/ROOM/...`.
std::string room_of(const fs::path& path) {
  auto part = path.begin();
  if (part == path.end() || *part != "engine" || ++part == path.end()) return {};
  return part->string();
}

/// What a file includes.
std::vector<std::string> includes(const std::vector<std::string>& lines) {
  static const std::regex include("^\\s*#\\s*include\\s*[<\"]([^>\"]+)[>\"].*");
  std::vector<std::string> found;
  for (const std::string& line : lines) {
    std::smatch match;
    if (std::regex_match(line, match, include)) found.push_back(match[1]);
  }
  return found;
}

/// Why a file of the engine may not include this, or empty.
std::string forbidden(const fs::path& file, const std::string& included) {
  static const std::set<std::string> input_output{
      "iostream", "fstream",    "cstdio",        "stdio.h",  "filesystem", "ostream",
      "istream",  "syncstream", "fmt/ostream.h", "fmt/os.h", "unistd.h",   "sys/stat.h"};
  const std::string room = room_of(file);
  const bool silent =
      room == "algebra" || room == "chassis" || room == "inference" || room == "decision";
  if (silent && input_output.contains(included)) return room + " does input or output";
  if (included.starts_with("cli/")) return "the engine looks at the program";
  if (included.starts_with("tests/")) return "the engine looks at its tests";
  if (!included.starts_with("engine/")) return {};
  const std::string other = room_of(included);
  if (!rank(other)) return other + " is no room";
  if (*rank(other) > *rank(room)) return room + " looks down at " + other;
  return {};
}

TEST(House, EveryFolderOfTheEngineIsARoom) {
  for (const auto& entry : fs::directory_iterator(kRoot / "engine")) {
    EXPECT_TRUE(entry.is_directory()) << entry.path();
    EXPECT_TRUE(rank(entry.path().filename().string())) << entry.path();
  }
}

TEST(House, NoRoomLooksDownAndReasoningDoesNoInputOrOutput) {
  const std::vector<fs::path> sources = files({"engine"}, {".h", ".cc"});
  ASSERT_GT(sources.size(), 50U);
  for (const fs::path& file : sources) {
    for (const std::string& included : includes(lines_of(kRoot / file))) {
      EXPECT_EQ(forbidden(file, included), "") << file << " includes " << included;
    }
  }
}

TEST(House, AnIncludeThatMayNotBeWouldBeSeen) {
  std::istringstream text(
      "#include <fstream>\n  #  include \"cli/page.h\"\n#include \"engine/advice/advise.h\"  // x\n"
      "// #include <cstdio>\n#include \"engine/kart/kart.h\"\n");
  const std::vector<std::string> found = includes(lines_of(text));
  ASSERT_EQ(found, (std::vector<std::string>{"fstream", "cli/page.h", "engine/advice/advise.h",
                                             "engine/kart/kart.h"}));
  const fs::path decision = "engine/decision/rank.cc";
  for (std::size_t i = 0; i < 3; ++i) EXPECT_NE(forbidden(decision, found[i]), "") << found[i];
  EXPECT_EQ(forbidden(decision, found[3]), "");
  EXPECT_EQ(forbidden("engine/document/reader.cc", "fstream"), "");
  EXPECT_EQ(forbidden("engine/knowledge/freeze/freeze.cc", "engine/document/frozen.h"), "");
  EXPECT_NE(forbidden("engine/knowledge/freeze/freeze.cc", "engine/kart/kart.h"), "");
  EXPECT_NE(forbidden("engine/kart/kart.cc", "engine/cellar/wine.h"), "");
}

TEST(House, NoSourceLineIsLongerThanAHundredColumns) {
  for (const fs::path& file : files({"engine", "cli", "tests"}, {".h", ".cc", ".sh"})) {
    int number = 0;
    for (const std::string& line : lines_of(kRoot / file)) {
      ++number;
      EXPECT_LE(characters(line), 100U) << file << ':' << number;
    }
  }
}

TEST(House, NoSourceOrTestIsLongerThanSixHundredLines) {
  for (const fs::path& file : files({"engine", "cli", "tests"}, {".h", ".cc"})) {
    EXPECT_LE(lines_of(kRoot / file).size(), 600U) << file;
  }
}

TEST(House, EveryHeaderIsGuardedAndOpensWithWhatItIsFor) {
  for (const fs::path& file : files({"engine", "cli", "tests"}, {".h"})) {
    const std::vector<std::string> lines = lines_of(kRoot / file);
    ASSERT_FALSE(lines.empty()) << file;
    EXPECT_TRUE(lines[0].starts_with("// " + file.filename().string() + " - ")) << file;
    EXPECT_EQ(std::count(lines.begin(), lines.end(), "#pragma once"), 1) << file;
  }
}

/// The types that a file defines for all to see, with the namespace before them.
std::vector<std::string> types_of(const std::vector<std::string>& lines) {
  static const std::regex space("^namespace ([\\w:]*) ?\\{$");
  static const std::regex type(
      "^(?:struct|class|enum class|using) (\\w+)(?: final)?(?: :.*)?(?: \\{.*| = .*)?$");
  std::vector<std::string> found;
  std::string names;
  bool own = false;
  for (const std::string& line : lines) {
    std::smatch match;
    if (std::regex_match(line, match, space)) {
      own = match[1].length() == 0;
      if (!own) names = match[1];
    } else if (line.starts_with("}  // namespace")) {
      own = false;
    } else if (!own && std::regex_match(line, match, type)) {
      found.push_back(names + "::" + match[1].str());
    }
  }
  return found;
}

/// Two types of one name would be taken for each other by the linker, without a word.
TEST(House, NoTypeIsDefinedTwice) {
  std::map<std::string, fs::path> seen;
  for (const fs::path& file : files({"engine", "cli", "tests"}, {".h", ".cc"})) {
    for (const std::string& type : types_of(lines_of(kRoot / file))) {
      const auto [first, fresh] = seen.emplace(type, file);
      EXPECT_TRUE(fresh) << type << " in " << file << " and in " << first->second;
    }
  }
  EXPECT_GT(seen.size(), 100U);
}

TEST(House, ATypeDefinedForAllWouldBeSeen) {
  std::istringstream text(
      "namespace kartwright {\nnamespace {\nstruct Own {\n}\n}  // namespace\nstruct Clause {\n"
      "struct Later;\nusing Share = double;\nenum class Kind { a };\nclass Reader final : Base "
      "{\n}\n"
      "namespace kartwright::naive {\nstruct Clause {\n");
  EXPECT_EQ(types_of(lines_of(text)),
            (std::vector<std::string>{"kartwright::Clause", "kartwright::Share", "kartwright::Kind",
                                      "kartwright::Reader", "kartwright::naive::Clause"}));
}

/// What may stand at the top beside dot-files and build folders, which are never committed.
/// Types and constants in the unnamed namespaces of a source.
std::vector<std::string> private_names_of(const std::vector<std::string>& lines) {
  static const std::regex type("^(?:struct|class|enum class) (\\w+)(?: .*)?$");
  static const std::regex constant(
      "^(?:static )?(?:constexpr|const) [^(=]* (k[A-Z]\\w*)[ {=;\\[].*");
  std::vector<std::string> names;
  bool inside = false;
  for (const std::string& line : lines) {
    if (line == "namespace {") inside = true;
    if (line == "}  // namespace") inside = false;
    std::smatch match;
    const bool names_it =
        inside && (std::regex_match(line, match, type) || std::regex_match(line, match, constant));
    if (names_it) names.push_back(match[1]);
  }
  return names;
}

/// What is compiled together: the engine, the program, or one suite of tests.
std::string compiled_with(const fs::path& file) {
  auto part = file.begin();
  return *part == "tests" ? (*part / *++part).string() : part->string();
}

// Several sources are compiled as one, and which ones changes with every file that is added.
TEST(House, NoPrivateNameIsUsedInTwoSourcesThatMayBeCompiledTogether) {
  std::map<std::pair<std::string, std::string>, fs::path> defined;
  for (const fs::path& file : files({"engine", "cli", "tests"}, {".cc"})) {
    for (const std::string& name : private_names_of(lines_of(kRoot / file))) {
      const auto [first, fresh] = defined.emplace(std::pair(compiled_with(file), name), file);
      EXPECT_TRUE(fresh || first->second == file)
          << name << " in " << file << " and in " << first->second;
    }
  }
}

TEST(House, APrivateNameWouldBeSeen) {
  std::istringstream source(
      "struct Open {\n};\nnamespace {\nstruct Own {\n};\nclass Ahead;\nenum class Kinds { a };\n"
      "constexpr std::array<int, 2> kTwo{1, 2};\nconstexpr double kHalf = 0.5;\nint f();\n"
      "}  // namespace\nconstexpr int kOpen = 1;\n");
  EXPECT_EQ(private_names_of(lines_of(source)),
            (std::vector<std::string>{"Own", "Kinds", "kTwo", "kHalf"}));
}

TEST(House, NothingElseStandsAtTheTop) {
  const std::set<std::string> known{"CMakeLists.txt", "README.md", "DEVELOPERS.md", "LICENSE",
                                    "engine",         "rules",     "cli",           "tests",
                                    "scenarios"};
  for (const auto& entry : fs::directory_iterator(kRoot)) {
    const std::string name = entry.path().filename();
    const bool passing =
        name.starts_with('.') || (entry.is_directory() && name.starts_with("build"));
    EXPECT_TRUE(passing || known.contains(name)) << name;
  }
}

TEST(House, NoTestFolderIsUnknown) {
  const std::set<std::string> known{"unit",    "published", "property", "cli",      "fuzz",
                                    "bench",   "scenarios", "support",  "debriefs", "schemas",
                                    "browser", "faults",    "mutants"};
  for (const auto& entry : fs::directory_iterator(kRoot / "tests")) {
    if (!entry.is_directory()) continue;
    EXPECT_TRUE(known.contains(entry.path().filename())) << entry.path();
  }
}

/// Suites and tests as `Suite.Name`, and `Suite` alone, that sources of tests define.
std::set<std::string> defined_tests() {
  std::set<std::string> found;
  for (const fs::path& file : files({"tests"}, {".cc"})) {
    std::ostringstream read;
    read << std::ifstream(kRoot / file).rdbuf();
    const std::string text = read.str();
    for (const std::string_view macro : {"\nTEST(", "\nTEST_F(", "\nTEST_P(", "\nRC_GTEST_PROP("}) {
      for (std::size_t at = text.find(macro); at != std::string::npos;
           at = text.find(macro, at + 1)) {
        std::istringstream names(
            text.substr(at + macro.size(), 200));  // a long name on its own line
        std::string suite, name;
        std::getline(names, suite, ',');
        std::getline(names >> std::ws, name, ')');
        found.insert(suite);
        found.insert(suite + '.' + name.substr(0, name.find(',')));
      }
    }
  }
  return found;
}

/// What a line of once.txt names, without the values that it is run for: `All/Page.IsWide/*` names
/// `Page.IsWide`, and `Page.*` names `Page`.
std::string named_once(std::string line) {
  const std::size_t dot = line.find('.');
  const std::size_t values = line.find('/', dot);
  if (values != std::string::npos) line.erase(values);
  const std::size_t before = line.rfind('/');
  if (before != std::string::npos) line.erase(0, before + 1);
  return line.ends_with(".*") ? line.substr(0, line.size() - 2) : line;
}

TEST(House, WhatIsRunOnceIsATest) {
  const std::set<std::string> tests = defined_tests();
  for (const std::string& line : lines_of(kRoot / "tests/once.txt")) {
    if (line.empty() || line.starts_with('#')) continue;
    EXPECT_TRUE(tests.contains(named_once(line))) << line;
  }
}

TEST(House, ANameThatFitsNoTestWouldBeSeen) {
  const std::set<std::string> tests = defined_tests();
  EXPECT_TRUE(tests.contains("House"));
  EXPECT_TRUE(tests.contains("House.WhatIsRunOnceIsATest"));
  EXPECT_FALSE(tests.contains("House.NoSuchTest"));
  EXPECT_EQ(named_once("All/Page.IsWide/*"), "Page.IsWide");
  EXPECT_EQ(named_once("All/Page.IsWide/rule"), "Page.IsWide");
  EXPECT_EQ(named_once("All/Page.*/1?"), "Page");
}

/// True where a line leaves work for later. Each word is in two pieces here, or this file would be
/// found.
bool unfinished(const std::string& line) {
  const auto holds = [&](std::string_view part) { return line.find(part) != std::string::npos; };
  if (!holds("DO") && !holds("ME") && !holds("XX") && !holds("holder")) return false;  // nearly all
  static const std::regex words(
      "\\b("
      "TO"
      "DO|FIX"
      "ME|XX"
      "X|place"
      "holder"
      ")\\b");
  return std::regex_search(line, words);
}

TEST(House, NothingIsLeftForLater) {
  std::vector<fs::path> all = files({"engine", "cli", "rules", "tests", "scenarios"}, {});
  for (const auto& entry : fs::directory_iterator(kRoot)) {
    if (entry.is_regular_file()) all.push_back(entry.path().filename());
  }
  for (const fs::path& file : all) {
    int number = 0;
    for (const std::string& line : lines_of(kRoot / file)) {
      ++number;
      EXPECT_FALSE(unfinished(line)) << file << ':' << number << ": " << line;
    }
  }
}

TEST(House, WorkLeftForLaterWouldBeSeen) {
  EXPECT_TRUE(unfinished(std::string("  // TO") + "DO: later"));
  EXPECT_TRUE(unfinished(std::string("FIX") + "ME"));
  EXPECT_FALSE(unfinished("the method of todos"));
}

}  // namespace
}  // namespace kartwright
