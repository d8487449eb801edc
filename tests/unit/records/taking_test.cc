// A run of an export held against the log.

#include "engine/records/taking.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "engine/records/run_fields.h"
#include "tests/support/log_files.h"

namespace kartwright {
namespace {

class TakingRuns : public testing::Test {
 protected:
  std::optional<TakenAs> take(const LoggedRun& run) {
    return take_run(log_, run, document_, findings_);
  }

  TempFolder folder_;
  Logbook log_{log_of_runs(folder_.path() + "/day.db", 1), kWriting};
  Document document_ = parse_document("day.json", "{kart: blue 27}");
  Findings findings_;
};

TEST_F(TakingRuns, TheSameIsThereAlready) {
  EXPECT_EQ(take(whole_run()), TakenAs::there);
  EXPECT_EQ(log_.count_runs(""), 1U);
}

TEST_F(TakingRuns, ANewOneIsAdded) {
  LoggedRun run = whole_run("2026-11-15T10:30:00");
  run.id = 1;  // what another log numbers it plays no part
  EXPECT_EQ(take(run), TakenAs::added);
  EXPECT_EQ(log_.count_runs(""), 2U);
  EXPECT_EQ(in_words(*log_.run(1)), in_words(whole_run()));
}

TEST_F(TakingRuns, AnotherAtItsMomentIsRefusedAtItsPlace) {
  LoggedRun run = whole_run();
  run.laps[1].seconds += 0.001;
  EXPECT_EQ(take(run), std::nullopt);
  ASSERT_EQ(findings_.all().size(), 1U);
  EXPECT_EQ(findings_.all()[0].code, Code::run_differs);
  EXPECT_EQ(findings_.all()[0].span.line, 1);
  EXPECT_EQ(in_words(*log_.run(1)), in_words(whole_run()));
}

TEST_F(TakingRuns, OneMadeReadyIsTakenOverByTheDrivenOneAndNeverTheOtherWay) {
  LoggedRun ready = plain_run("blue 27", "2026-11-15T10:30:00");
  ready.driven = false;
  EXPECT_EQ(take(ready), TakenAs::added);
  LoggedRun driven = ready;
  driven.driven = true;
  EXPECT_EQ(take(driven), TakenAs::added);
  EXPECT_EQ(take(ready), TakenAs::there);
  EXPECT_EQ(log_.count_runs(""), 2U);
  EXPECT_TRUE(log_.run_at("blue 27", ready.at)->driven);
}

/// Changes a field, whatever it is.
struct Spoil {
  void operator()(std::string& text) const { text += "x"; }
  void operator()(double& number) const { number += 0.5; }
  void operator()(int& number) const { number += 1; }
  void operator()(bool& truth) const { truth = !truth; }
  template <typename T>
  void operator()(std::optional<T>& item) const {
    item ? item.reset() : void(item.emplace());
  }
  void operator()(std::vector<std::string>& texts) const { texts.emplace_back("x"); }
  template <typename Enum>
  requires std::is_enum_v<Enum>
  void operator()(Enum& value) const {
    value = static_cast<int>(value) == 0 ? static_cast<Enum>(1) : static_cast<Enum>(0);
  }
};

TEST(SameRun, DiffersInEveryField) {
  const LoggedRun whole = whole_run();
  EXPECT_TRUE(same_run(whole, whole));
  int fields = 0;
  const auto differs = [&](const auto& spoil_field) {
    LoggedRun other = whole;
    spoil_field(other);
    EXPECT_FALSE(same_run(whole, other)) << in_words(other);
    EXPECT_NE(in_words(whole), in_words(other));  // nor do exports leave it out
    ++fields;
  };
  each_field_of_run(whole, [&](const std::string& name, const auto&) {
    differs([&](LoggedRun& run) {
      each_field_of_run(run, [&](const std::string& each, auto& field) {
        if (each == name) Spoil{}(field);
      });
    });
  });
  each_part_of_run(
      whole, [&]<typename Part>(const std::string& list, const std::vector<Part>& parts) {
        FieldsOf<Part>::each(parts.at(0), [&](const std::string& name, const auto&) {
          differs([&](LoggedRun& run) {
            each_part_of_run(
                run, [&]<typename Other>(const std::string& other, std::vector<Other>& others) {
                  if (other != list) return;
                  FieldsOf<Other>::each(others.at(0), [&](const std::string& each, auto& field) {
                    if (each == name) Spoil{}(field);
                  });
                });
          });
        });
      });
  EXPECT_EQ(fields, 11 + 2 + 4 + 9 + 3 + 1 + 10 + 4);
}

}  // namespace
}  // namespace kartwright
