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
#include "engine/kart/change_setting.h"
#include "engine/knowledge/built_in.h"
#include "engine/records/history.h"

namespace kartwright {
namespace {

using Json = nlohmann::json;

const std::string kWeekendFile =
    std::string(KARTWRIGHT_SOURCE_DIR) + "/scenarios/harbour/weekend.json";

const std::string kKartAfter =
    std::string(KARTWRIGHT_SOURCE_DIR) + "/scenarios/harbour/harbour-27-sunday.yaml";

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

/// The kart file of the weekend's first morning, with the settings of its last evening.
std::string kart_file_after() {
  const std::string path =
      std::string(KARTWRIGHT_SOURCE_DIR) + "/scenarios/harbour/harbour-27.yaml";
  Document file = read_document(path);
  for (const auto& [id, setting] : driven().kart.settings) {
    const auto last = setting_value(setting, driven().runs.back().setting(id));
    if (!last || *last == setting.now) continue;
    file = parse_document(path, with_setting(file, setting, *last).value());
  }
  // The ends differ now, so there is no one pressure for all.
  const std::string all = "  pressures: 0.75 bar\n";
  return file.text.replace(file.text.find(all), all.size(), "");
}

std::string text_of_file(const std::string& path) {
  std::ifstream file(path);
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

// KARTWRIGHT_REGENERATE=1 writes both files anew.
TEST(Weekend, ItsKartFileStandsAsTheLastRunWasDriven) {
  if (std::getenv("KARTWRIGHT_REGENERATE") != nullptr)
    std::ofstream(kKartAfter) << kart_file_after();
  EXPECT_EQ(text_of_file(kKartAfter), kart_file_after());
}

TEST(Weekend, TheFileIsWhatItsGeneratorMakes) {
  const std::string made = weekend_file(driven().runs);
  if (std::getenv("KARTWRIGHT_REGENERATE") != nullptr) std::ofstream(kWeekendFile) << made;
  const std::string text = text_of_file(kWeekendFile);
  ASSERT_FALSE(text.empty());
  EXPECT_TRUE(comparable(text) == comparable(made))
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
  // What it moved most it knows better than the rules do.
  const LearnedAdjustment& width = *find(learned, "rear-width");
  const auto axis = static_cast<Eigen::Index>(width.axis);
  const double truth = weekend_plan().multiples.at("rear-width") * width.rule[axis];
  EXPECT_LT(std::abs(width.learned[axis] - truth), std::abs(width.rule[axis] - truth) / 2.0);
}

}  // namespace
}  // namespace kartwright
