// What fuzzing has found, and what the writing of the fuzzers has: one test each, which says what
// it was. What a few bytes show lies in finds/TARGET/ as well, so that the fuzzers start from it.

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "cli/batch_desk.h"
#include "engine/advice/learned.h"
#include "engine/records/logbook.h"
#include "engine/records/run_record.h"
#include "tests/fuzz/log_edits.h"
#include "tests/fuzz/oracle.h"
#include "tests/support/small_rules.h"
#include "tests/support/temp_folder.h"

namespace kartwright::fuzz {
namespace {

nlohmann::json answer_of_desk(const std::string& text) {
  cli::AdviseOptions options;
  options.batch = "day.jsonl";
  cli::BatchDesk desk(options, shipped_rules());
  cli::BatchLine line{.text = text, .number = 1};
  desk.answer(line);
  EXPECT_FALSE(line.fault);
  return nlohmann::json::parse(line.answer);
}

/// What is wrong with a sound log after an edit, as reading all of its runs finds it.
std::vector<Diagnostic> found_after(const std::string& edit) {
  const TempFolder folder;
  const std::string path = folder.write("day.db", sound_log());
  EXPECT_TRUE(edit_log(path, std::string(kEdits) + edit));
  const Logbook log(path, Logbook::For::reading);
  return found_by([&] { log.runs(""); });
}

// Its escapes were written out by a function that calls itself at every level: the stack ran out,
// and with it went the answers to all the other lines.
TEST(FuzzFinds, ALineNestedThirtyThousandDeepWithAnEscapeIsRefused) {
  constexpr std::size_t kDeep = 30'000;
  const std::string line =
      R"({"said":"\u0041","expect":)" + std::string(kDeep, '[') + std::string(kDeep, ']') + "}";
  const nlohmann::json answer = answer_of_desk(line);
  ASSERT_EQ(answer["errors"].size(), 1U);
  EXPECT_EQ(answer["errors"][0]["code"], code_name(Code::too_deep));
}

// The rest of the batch was read as a kart file.
TEST(FuzzFinds, ALineCannotTakeItsKartFromStandardInput) {
  const nlohmann::json answer = answer_of_desk(R"({"kart":"-","said":"pushes"})");
  ASSERT_EQ(answer["errors"].size(), 1U);
  EXPECT_EQ(answer["errors"][0]["code"], code_name(Code::cannot_read));
}

// The library's own exception went through all of the program, which called it a fault of its own.
TEST(FuzzFinds, ALogThatLostATableIsDamaged) {
  const auto found = found_after("drop lap\n");
  ASSERT_EQ(found.size(), 1U);
  EXPECT_EQ(found[0].code, Code::damaged_log);
  EXPECT_NE(found[0].message.find("no such table: lap"), std::string::npos) << found[0].message;
}

// A table of four words was asked for the nine hundredth, and the exception went through all.
TEST(FuzzFinds, ALogWithASeverityBeyondTheScaleIsDamaged) {
  const auto found = found_after("set report severity 0 whole 900\n");
  ASSERT_EQ(found.size(), 1U);
  EXPECT_EQ(found[0].code, Code::damaged_log);
}

// What the log holds is told as it stands, and made fit to be seen where it is shown: the promise,
// which asked for it before that, was wrong.
TEST(FuzzFinds, AWordOfALogThatIsNoTextIsShownAsSuch) {
  const auto found = found_after("set lap flag 1 text s\\xe7\\x1bomehow\n");
  ASSERT_EQ(found.size(), 1U);
  EXPECT_NE(found[0].message.find("s\xe7\x1b"), std::string::npos) << found[0].message;
  EXPECT_NO_THROW(check_shown(found[0]));
}

// What was learned from it was not finite any more, and the advice with it.
TEST(FuzzFinds, AChangeByMoreStepsThanThereAreIsAFaultOfItsRun) {
  const TempFolder folder;
  const std::string path = folder.write("day.db", sound_log());
  ASSERT_TRUE(edit_log(path, std::string(kEdits) + "set change steps 0 real 1e300\n"));
  const Logbook log(path, Logbook::For::reading);
  const auto runs = log.runs("");
  ASSERT_EQ(runs.size(), 2U);
  EXPECT_EQ(faults_of(runs[1]).size(), 1U);
  const History history = learn(runs, shipped_rules(), usual_kart_of_rules());
  const auto effects = effects_by_rules(shipped_rules(), usual_kart_of_rules(), "green");
  for (const LearnedEffect& learned : experience_of(history, effects))
    EXPECT_TRUE(learned.precision.size() == 0 || learned.precision.allFinite());
}

}  // namespace
}  // namespace kartwright::fuzz
