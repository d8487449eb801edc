// Files that nobody means, and some that somebody does: each gets a valid answer, or a clear
// message with its place and the right exit code, soon and in little memory.

#include <chrono>
#include <random>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/cli/kartwright.h"
#include "tests/support/temp_folder.h"

namespace kartwright {
namespace {

std::string repeated(const std::string& text, std::size_t bytes) {
  std::string out;
  while (out.size() < bytes) out += text;
  return out;
}

std::string random_bytes(std::size_t count, int low, int high) {
  std::mt19937 random(5);
  std::string out;
  for (std::size_t i = 0; i < count; ++i) {
    out +=
        static_cast<char>(low + static_cast<int>(random() % static_cast<unsigned>(high - low + 1)));
  }
  return out;
}

/// Runs `advise` on a file and expects what every file may expect.
Ended survived(const Words& options) {
  const auto start = std::chrono::steady_clock::now();
  const Ended ended = run_kartwright(options);
  const std::chrono::duration<double> took = std::chrono::steady_clock::now() - start;
  EXPECT_LT(took.count(), watched() ? 40.0 : 2.0);
  if (!watched()) {
    EXPECT_LT(ended.peak_kib, 64 * 1024);
  }
  EXPECT_TRUE(ended.exit == 0 || ended.exit == 65 || ended.exit == 66) << ended.exit;
  EXPECT_EQ(ended.exit == 0, !ended.out.empty());
  if (ended.exit != 0) {
    EXPECT_THAT(ended.err, testing::HasSubstr(": error["));
  }
  for (const std::string& line : lines_of(ended.err)) EXPECT_LE(width_of(line), 4'200U);
  return ended;
}

/// The text is made where it is needed: every test of the suite is a process of its own, and all of
/// them would make all of the megabytes first.
struct Hostile {
  const char* name;
  std::string (*text)();
};

void PrintTo(const Hostile& hostile, std::ostream* out) { *out << hostile.name; }

class HostileFile : public testing::TestWithParam<Hostile> {};

TEST_P(HostileFile, IsNoKart) {
  const TempFolder folder;
  const std::string path = folder.write("k.yaml", GetParam().text());
  EXPECT_EQ(survived({"advise", "--kart", path}).exit, 65);
}

TEST_P(HostileFile, IsNoDebrief) {
  const TempFolder folder;
  const std::string path = folder.write("d.yaml", GetParam().text());
  EXPECT_EQ(survived({"advise", "--debrief", path}).exit, 65);
}

constexpr std::size_t kMiB = 1U << 20U;

INSTANTIATE_TEST_SUITE_P(
    Each, HostileFile,
    testing::Values(Hostile{"three_megabytes", [] { return repeated("a: 1\n", 3 * kMiB); }},
                    Hostile{"random_bytes", [] { return random_bytes(100'000, 0, 255); }},
                    Hostile{"random_letters", [] { return random_bytes(50'000, 32, 126); }},
                    Hostile{"nul", [] { return std::string("a: \0b", 5); }},
                    Hostile{"keys_twice", [] { return repeated("a: 1\n", kMiB - 10); }},
                    Hostile{"one_line", [] { return "{" + repeated("a: 1, ", kMiB - 10); }},
                    Hostile{"brackets", [] { return repeated("[", kMiB - 10); }},
                    Hostile{"brackets_on_lines", [] { return repeated("[\n", kMiB - 10); }},
                    Hostile{"braces", [] { return repeated("{", 60'000); }},
                    Hostile{"dashes", [] { return repeated("- ", 60'000); }},
                    Hostile{"questions", [] { return repeated("? ", 60'000); }},
                    Hostile{"tags", [] { return repeated("!a ", 60'000); }},
                    Hostile{"anchors", [] { return repeated("&a ", 60'000); }},
                    Hostile{"quotes", [] { return repeated("\"", 60'000); }},
                    Hostile{"commas", [] { return repeated(",", 60'000); }},
                    Hostile{"itself", [] { return std::string("a: &x [*x]\n"); }},
                    Hostile{"wide_bracket", [] { return "a: [" + repeated("b,\n", kMiB - 10); }},
                    Hostile{
                        "bad_reports",
                        [] { return "reports:\n" + repeated("  - psuh@entrz=7\n", kMiB - 20); }}),
    [](const auto& each) { return std::string(each.param.name); });

TEST(OddFile, WithoutAnythingInItIsToldSo) {
  const TempFolder folder;
  const Ended ended = survived({"advise", "--kart", folder.write("k.yaml", "")});
  EXPECT_EQ(ended.exit, 65);
  EXPECT_THAT(ended.err, testing::HasSubstr("must be a map"));
}

TEST(OddFile, WithoutASettingIsAKartAllTheSame) {
  const TempFolder folder;
  const Ended ended =
      survived({"advise", "--said", "hops mid", "--kart", folder.write("k.yaml", "kart: bare\n")});
  EXPECT_EQ(ended.exit, 0);
}

TEST(OddDebrief, OfTenThousandCharactersIsHeard) {
  for (const char* words : {"pushes going in, ", "xqzv kwzj ", "loose ", "no ", "hop! ", "!!", "é ",
                            "not loose in the front 3 and ", "like a "}) {
    const std::string said = repeated(words, 10'000).substr(0, 10'000);
    EXPECT_EQ(survived({"advise", "--said=" + said}).exit, 0) << words;
  }
}

TEST(OddDebrief, OfSixtyThousandReportsIsSettled) {
  const TempFolder folder;
  const std::string path =
      folder.write("d.yaml", "reports:\n" + repeated("  - push@entry=2\n", kMiB - 20));
  EXPECT_EQ(survived({"advise", "--debrief", path}).exit, 0);
}

}  // namespace
}  // namespace kartwright
