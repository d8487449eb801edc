// The log and the kart file when the power goes, the disk fills up, and two write at once.

#include <algorithm>
#include <array>
#include <chrono>
#include <random>
#include <set>
#include <thread>

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "tests/cli/pit_box.h"

namespace kartwright {
namespace {

using Json = nlohmann::json;
using std::chrono::microseconds;
using testing::HasSubstr;

constexpr std::array kWidths{1350, 1355, 1360, 1365, 1370};

/// A log and a kart file that are written into again and again, and what came of it.
class Endurance {
 public:
  explicit Endurance(unsigned seed) : dice_(seed) {
    states_.insert(pit_box_kart());
    for (const int width : kWidths) {
      states_.insert(with_exchanged(pit_box_kart(), "rear-width: 1360 mm",
                                    fmt::format("rear-width: {} mm", width)));
    }
  }

  /// How long a call takes that nobody ends.
  microseconds time_of_a_call() {
    const auto start = std::chrono::steady_clock::now();
    EXPECT_EQ(add({}).exit, 0);
    return std::chrono::duration_cast<microseconds>(std::chrono::steady_clock::now() - start);
  }

  /// Ends a call at a moment of its life: half of them anywhere in it, half near its end, where it
  /// writes.
  void end_one_of(microseconds call, bool applies) {
    constexpr int kFraction = 200;  // microseconds
    const auto whole = static_cast<int>(call.count());
    const bool late = std::uniform_int_distribution<int>(0, 1)(dice_) == 1;
    std::uniform_int_distribution<int> moment(late ? whole * 3 / 4 : kFraction,
                                              late ? whole * 5 / 4 : whole);
    const microseconds after(moment(dice_));
    const Ended ended = applies ? apply(after) : add(after);
    killed_ += ended.exit == 128 + 9 ? 1 : 0;
    EXPECT_TRUE(ended.exit == 0 || ended.exit == 137 || ended.exit == 2 || ended.exit == 65)
        << ended.err;
  }

  void check() {
    const Ended verified = box_.with_log({"log", "verify"});
    EXPECT_EQ(verified.exit, 0) << verified.err;
    EXPECT_TRUE(states_.contains(file_text(box_.kart()))) << file_text(box_.kart());
    const Json listed = Json::parse(
        box_.with_log({"log", "list", "--last", "all", "--format", "json"}).out, nullptr, false);
    ASSERT_TRUE(listed.is_object());
    std::set<std::pair<std::int64_t, std::string>> there;
    for (const Json& run : listed.at("runs")) there.emplace(run.at("id"), run.at("at"));
    for (const auto& [id, at] : acknowledged_)
      EXPECT_TRUE(there.contains({id, at})) << "run " << id << " at " << at;
  }

  int killed() const { return killed_; }
  std::size_t acknowledged() const { return acknowledged_.size(); }

 private:
  Ended ended_early(Words words, std::optional<microseconds> after) {
    words.insert(words.end(), {"--kart", box_.kart(), "--log", box_.log(), "--format", "json"});
    Command command = kartwright(words);
    command.killed_after = after;
    return run(command);
  }

  Ended add(std::optional<microseconds> after) {
    ++calls_;
    const Ended ended = ended_early({"log", "add", "--laps", "31.5 31.4 31.45", "--at",
                                     fmt::format("2024-11-{:02} {:02}:{:02}", 1 + calls_ / 1440,
                                                 calls_ / 60 % 24, calls_ % 60)},
                                    after);
    if (ended.out.ends_with("}\n")) {
      const Json run = Json::parse(ended.out);
      acknowledged_.emplace_back(run.at("id"), run.at("at"));
    }
    return ended;
  }

  Ended apply(std::optional<microseconds> after) {
    std::uniform_int_distribution<std::size_t> which(0, kWidths.size());
    const std::size_t width = which(dice_);
    if (width == kWidths.size()) return ended_early({"apply", "--undo"}, after);
    return ended_early({"apply", "--set", fmt::format("rear-width={}mm", kWidths.at(width))},
                       after);
  }

  PitBox box_;
  std::mt19937 dice_;
  std::set<std::string> states_;
  std::vector<std::pair<std::int64_t, std::string>> acknowledged_;
  int calls_ = 0, killed_ = 0;
};

TEST(LogEndurance, EndedAtAnyMomentNothingAcknowledgedIsLost) {
  constexpr unsigned kSeed = 53;
  const int calls = watched() ? 20 : 200;
  Endurance log(kSeed);
  const microseconds call = std::min(log.time_of_a_call(), log.time_of_a_call());
  for (int i = 1; i <= calls; ++i) {
    log.end_one_of(call, i % 2 == 0);
    if (i % 20 == 0) log.check();
  }
  EXPECT_GT(log.killed(), calls / 10);
  EXPECT_GT(log.acknowledged(), 2U);
  RecordProperty("killed", log.killed());
  RecordProperty("acknowledged", static_cast<int>(log.acknowledged()));
}

TEST(LogEndurance, OfTwoThatWriteAtOnceEveryRunIsThere) {
  const std::size_t each = watched() ? 5 : 50;
  const PitBox box;
  std::vector<std::thread> crew;
  std::array<std::size_t, 2> failed{};
  for (std::size_t& fails : failed) {
    crew.emplace_back([&] {
      for (std::size_t i = 0; i < each; ++i)
        fails += box.add({"--at", "2024-11-14 10:30"}).exit == 0 ? 0 : 1;
    });
  }
  for (std::thread& one : crew) one.join();
  EXPECT_EQ(failed[0] + failed[1], 0U);
  EXPECT_EQ(box.runs(), 2 * each);
  EXPECT_EQ(box.with_log({"log", "verify"}).exit, 0);
}

/// The program where no file may grow beyond so many blocks of 512 bytes.
Ended with_blocks(int blocks, const std::string& ignored, const Words& words) {
  Command command{.argv = {"/bin/sh", "-c",
                           fmt::format("{} ulimit -f {}; exec \"$0\" \"$@\"", ignored, blocks),
                           binary()}};
  command.argv.insert(command.argv.end(), words.begin(), words.end());
  return run(command);
}

TEST(LogEndurance, AFullDiskIsToldAndLosesNothing) {
  const PitBox box;
  box.add({"--at", "2024-11-14 10:30"});
  const std::string before = box.exported();
  for (const char* const ignored : {"", "trap '' XFSZ;"}) {
    const Ended added = with_blocks(
        4, ignored,
        {"log", "add", "--kart", box.kart(), "--log", box.log(), "--laps", "31.5 31.4"});
    EXPECT_EQ(added.exit, 74) << added.err;
    EXPECT_EQ(added.out, "");
    EXPECT_THAT(added.err, HasSubstr("error[N005]: the log was not written"));
    const Ended applied = with_blocks(
        1, ignored,
        {"apply", "--kart", box.kart(), "--log", box.log(), "--set", "rear-width=1370mm"});
    EXPECT_EQ(applied.exit, 74) << applied.err;
    const Ended alone =
        with_blocks(1, ignored, {"apply", "--kart", box.kart(), "--set", "rear-width=1370mm"});
    EXPECT_EQ(alone.exit, 74) << alone.err;
    EXPECT_THAT(alone.err, HasSubstr("nothing was changed"));
  }
  EXPECT_EQ(box.exported(), before);
  EXPECT_EQ(file_text(box.kart()), pit_box_kart());
  EXPECT_EQ(box.with_log({"log", "verify"}).exit, 0);
  EXPECT_EQ(box.add({}).exit, 0);
}

TEST(LogEndurance, ALogThatCannotBeMadeIsSeventyThree) {
  const PitBox box;
  for (const char* const path : {"/dev/null/x.db", "/no/such/folder/x.db"}) {
    const Ended ended =
        run_kartwright({"log", "add", "--kart", box.kart(), "--log", path, "--laps", "31.5"});
    EXPECT_EQ(ended.exit, 73) << path;
    EXPECT_THAT(ended.err, HasSubstr("error[N004]: the log cannot be written here"));
    EXPECT_EQ(ended.out, "");
  }
}

}  // namespace
}  // namespace kartwright
