// Every corpus and every former find, replayed; and the fuzzers' own means, so that none of them
// can go blind unseen.

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>

#include <gtest/gtest.h>

#include "engine/advice/advise.h"
#include "tests/fuzz/mutate.h"
#include "tests/fuzz/oracle.h"

namespace kartwright::fuzz {
namespace {

namespace fs = std::filesystem;

const fs::path kHere = fs::path(KARTWRIGHT_SOURCE_DIR) / "tests" / "fuzz";

std::vector<fs::path> files_in(const fs::path& folder) {
  std::vector<fs::path> found;
  if (!fs::exists(folder)) return found;
  for (const auto& entry : fs::directory_iterator(folder)) found.push_back(entry.path());
  std::sort(found.begin(), found.end());
  return found;
}

std::vector<fs::path> files_of(const char* kind, std::string_view target) {
  return files_in(kHere / kind / target);
}

std::string bytes_in(const fs::path& file) {
  std::ifstream in(file, std::ios::binary);
  std::ostringstream bytes;
  bytes << in.rdbuf();
  return bytes.str();
}

class Replay : public testing::TestWithParam<Target> {};

TEST_P(Replay, TheCorpusIsTakenOrRefusedAsItsFilesAreNamed) {
  const std::vector<fs::path> files = files_of("corpus", GetParam().name);
  EXPECT_GT(files.size(), 5U);
  for (const fs::path& file : files) {
    SCOPED_TRACE(file);
    const bool refused = file.filename().string().starts_with("refused-");
    const bool words = GetParam().name == "debrief" && file.extension() == ".txt";
    const Fate wanted = refused || words ? Fate::refused : Fate::taken;
    EXPECT_NO_THROW(EXPECT_EQ(GetParam().run(bytes_in(file)), wanted));
  }
}

TEST_P(Replay, WhatWasFoundOnceIsNotFoundAgain) {
  for (const fs::path& file : files_of("finds", GetParam().name)) {
    SCOPED_TRACE(file);
    EXPECT_NO_THROW(GetParam().run(bytes_in(file)));
  }
}

// Nothing unless KARTWRIGHT_GROWN names the corpora that fuzzing has grown: to see what they reach.
TEST_P(Replay, WhatGrewBreaksNoPromise) {
  const char* const grown = std::getenv("KARTWRIGHT_GROWN");
  if (grown == nullptr) return;
  for (const fs::path& file : files_in(fs::path(grown) / GetParam().name)) {
    SCOPED_TRACE(file);
    EXPECT_NO_THROW(GetParam().run(bytes_in(file)));
  }
}

TEST_P(Replay, TheCorpusWithWordsAndLinesChangedBreaksNoPromise) {
  for (const fs::path& file : files_of("corpus", GetParam().name)) {
    for (const std::uint32_t seed : {1U, 2U, 3U}) {
      const std::string bytes = mutated(bytes_in(file), GetParam().name, seed);
      SCOPED_TRACE(file.string() + ", seed " + std::to_string(seed));
      EXPECT_NO_THROW(GetParam().run(bytes));
    }
  }
}

INSTANTIATE_TEST_SUITE_P(Every, Replay, testing::ValuesIn(targets()),
                         [](const auto& each) { return std::string(each.param.name); });

TEST(FuzzFolders, EveryFolderIsOfATarget) {
  for (const char* const kind : {"corpus", "finds"}) {
    for (const auto& folder : fs::directory_iterator(kHere / kind)) {
      const std::string name = folder.path().filename();
      EXPECT_TRUE(std::any_of(targets().begin(), targets().end(), [&](const Target& each) {
        return each.name == name;
      })) << folder.path();
    }
  }
}

TEST(FuzzOracle, AFindingOutsideItsTextIsSeen) {
  const Diagnostic inside{.code = Code::wrong_shape,
                          .file = "kart.yaml",
                          .span = {.line = 2, .column = 4},
                          .message = "a list"};
  EXPECT_NO_THROW(check_refusal({inside}, "kart: a\nb: c\n", "kart.yaml"));
  Diagnostic outside = inside;
  outside.span.column = 6;
  EXPECT_THROW(check_refusal({outside}, "kart: a\nb: c\n", "kart.yaml"), Broken);
  outside.span = {.line = 4, .column = 1};
  EXPECT_THROW(check_refusal({outside}, "kart: a\nb: c\n", "kart.yaml"), Broken);
  outside.span = {};
  EXPECT_THROW(check_refusal({outside}, "kart: a\nb: c\n", "kart.yaml"), Broken);
  EXPECT_THROW(check_refusal({inside}, "kart: a\nb: c\n", "other.yaml"), Broken);
  EXPECT_THROW(check_refusal({}, "kart: a\n", "kart.yaml"), Broken);
}

TEST(FuzzOracle, WordsThatSteerTheTerminalAreSeen) {
  EXPECT_NO_THROW(check_words("“pushes” – ½ notch\n", "words"));
  EXPECT_THROW(check_words("\x1b[31mred", "words"), Broken);
  EXPECT_THROW(check_words("\xff", "words"), Broken);
  EXPECT_THROW(check_words("\u202e", "words"), Broken);
}

Advice some_advice() {
  const Kart& kart = usual_kart_of_rules();
  Debrief debrief;
  debrief.track = "green";
  debrief.heard.reports.push_back({.symptom = "push", .phase = Phase::entry});
  return advise(shipped_rules(), kart, debrief, kart.units, {.draws = 10});
}

TEST(FuzzOracle, AnAdviceThatIsNotFiniteOrDoesNotSumIsSeen) {
  const Advice good = some_advice();
  ASSERT_GT(good.changes.size(), 1U);
  EXPECT_NO_THROW(check_advice(good));
  Advice bad = good;
  bad.belief.mean(0) = NAN;
  EXPECT_THROW(check_advice(bad), Broken);
  bad = good;
  bad.belief.mean(0) += 0.1;
  EXPECT_THROW(check_advice(bad), Broken) << "the shares no longer sum to what they moved";
  bad = good;
  bad.draws->nothing += 0.1;
  EXPECT_THROW(check_advice(bad), Broken);
  bad = good;
  std::swap(bad.changes.front(), bad.changes.back());
  EXPECT_THROW(check_advice(bad), Broken) << "a worse change leads";
}

TEST(FuzzMutation, IsTheSameForTheSameSeedAndKeepsNothingForAll) {
  const std::string text = "kart: harbour 9\nsettings: {rear-width: 1360 mm}\n";
  int changed = 0;
  for (std::uint32_t seed = 0; seed < 50; ++seed) {
    const std::string once = mutated(text, "kart", seed);
    EXPECT_EQ(once, mutated(text, "kart", seed));
    changed += once != text ? 1 : 0;
  }
  EXPECT_GT(changed, 40);
  EXPECT_NO_THROW(mutated("", "line", 7));
}

TEST(FuzzMutation, KnowsTheWordsOfTheRules) {
  const auto knows = [](std::string_view target, const char* word) {
    const std::vector<std::string>& words = words_for(target);
    return std::find(words.begin(), words.end(), word) != words.end();
  };
  EXPECT_TRUE(knows("kart", "rear-width"));
  EXPECT_TRUE(knows("debrief", "push"));
  EXPECT_TRUE(knows("rules", "because"));
  EXPECT_TRUE(knows("log", "verdict"));
  EXPECT_TRUE(knows("laps", "group"));
}

}  // namespace
}  // namespace kartwright::fuzz
