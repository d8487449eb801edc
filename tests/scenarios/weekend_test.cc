// The invented weekend: the file is what its generator makes, and its log teaches what is true of
// it.

#include "tests/support/weekend.h"

#include <cmath>
#include <cstdlib>
#include <fstream>
#include <sstream>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "engine/advice/learned.h"
#include "engine/knowledge/built_in.h"
#include "engine/records/history.h"

namespace kartwright {
namespace {

using Json = nlohmann::json;

const std::string kWeekendFile =
    std::string(KARTWRIGHT_SOURCE_DIR) + "/scenarios/harbour/weekend.json";

struct Driven {
  Pack pack = built_in_pack();
  Kart kart;
  std::vector<Run> runs;

  Driven() {
    Findings findings;
    kart = read_kart(
        read_document(std::string(KARTWRIGHT_SOURCE_DIR) + "/scenarios/harbour/harbour-27.yaml"),
        pack, findings);
    runs = weekend(pack, kart);
  }
};

const Driven& driven() {
  static const Driven all;
  return all;
}

/// Numbers as they are printed to nine digits: compilers differ in the last ones.
Json rounded_numbers(Json json) {
  if (json.is_number_float()) return std::round(json.get<double>() * 1e9) / 1e9;
  if (json.is_structured()) {
    for (Json& each : json) each = rounded_numbers(each);
  }
  return json;
}

Json comparable(const std::string& text) {
  Json json = Json::parse(text);
  for (Json& run : json.at("runs")) {
    if (!run.contains("changes")) continue;
    for (Json& change : run.at("changes")) {
      if (change.contains("advice"))
        change["advice"] = rounded_numbers(Json::parse(change["advice"].get<std::string>()));
    }
  }
  return rounded_numbers(json);
}

// KARTWRIGHT_REGENERATE=1 writes the file anew.
TEST(Weekend, TheFileIsWhatItsGeneratorMakes) {
  const std::string made = weekend_file(driven().runs);
  if (std::getenv("KARTWRIGHT_REGENERATE") != nullptr) std::ofstream(kWeekendFile) << made;
  std::ifstream file(kWeekendFile);
  std::ostringstream text;
  text << file.rdbuf();
  ASSERT_FALSE(text.str().empty());
  EXPECT_TRUE(comparable(text.str()) == comparable(made))
      << "the rules or the generator have changed: KARTWRIGHT_REGENERATE=1 writes it anew";
}

TEST(Weekend, HasFortyRunsAndMoreOfAllSorts) {
  const auto& runs = driven().runs;
  EXPECT_GE(runs.size(), 40U);
  int advised = 0;
  int own = 0;
  int taken_back = 0;
  for (const auto& run : runs) {
    for (const RunChange& change : run.changes) {
      advised += change.origin == Origin::advice ? 1 : 0;
      own += change.origin == Origin::own_idea ? 1 : 0;
      taken_back += change.origin == Origin::undo ? 1 : 0;
    }
  }
  EXPECT_GE(advised, 8);
  EXPECT_GE(own, 8);
  EXPECT_GE(taken_back, 3);
}

const LearnedAdjustment* find(const Learned& learned, const std::string& id) {
  for (const LearnedAdjustment& each : learned.adjustments) {
    if (each.adjustment->id == id) return &each;
  }
  return nullptr;
}

TEST(Weekend, TeachesWhatIsTrueOfItsKart) {
  const Driven& all = driven();
  const Learned learned =
      learned_from(learn(all.runs, all.pack, all.kart), all.pack, all.kart, "green");
  for (const auto& [id, multiple] : weekend_plan().multiples) {
    const LearnedAdjustment* const each = find(learned, id);
    ASSERT_NE(each, nullptr) << id;
    const auto axis = static_cast<Eigen::Index>(each->axis);
    const double truth = multiple * each->rule[axis];
    EXPECT_LE(std::abs(each->learned[axis] - truth), 3.0 * each->sd[axis]) << id;
    EXPECT_LT(each->sd[axis], each->rule_sd[axis]) << id;
  }
  // More air in the rear tyres does the opposite here of what the rules say.
  const LearnedAdjustment& air = *find(learned, "rear-pressures");
  const auto axis = static_cast<Eigen::Index>(air.axis);
  EXPECT_LT(air.rule[axis] * air.learned[axis], 0.0);
}

}  // namespace
}  // namespace kartwright
