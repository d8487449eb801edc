// What a kart file can have wrong, each with its code and its place.

#include <algorithm>
#include <ostream>

#include <gtest/gtest.h>

#include "tests/support/kart_pack.h"

namespace kartwright {
namespace {

struct Wrong {
  const char* name;
  const char* text;
  Code code;
  Severity severity;
  int line, column;
  const char* message;  ///< part of it
  const char* help;     ///< part of it
};

void PrintTo(const Wrong& wrong, std::ostream* out) { *out << wrong.name; }

class WrongKart : public ::testing::TestWithParam<Wrong> {};

TEST_P(WrongKart, IsToldOnceWithItsPlace) {
  const Wrong& wrong = GetParam();
  const auto found = read_kart_text(wrong.text).found;
  ASSERT_EQ(found.size(), 1U) << told(found);
  EXPECT_EQ(found[0].code, wrong.code) << told(found);
  EXPECT_EQ(found[0].severity, wrong.severity);
  EXPECT_EQ(found[0].span.line, wrong.line);
  EXPECT_EQ(found[0].span.column, wrong.column);
  EXPECT_NE(found[0].message.find(wrong.message), std::string::npos) << told(found);
  EXPECT_NE(found[0].help.find(wrong.help), std::string::npos) << told(found);
  EXPECT_EQ(found[0].file, "kart.yaml");
  EXPECT_FALSE(found[0].source.empty());
}

constexpr Severity E = Severity::error;

const Wrong kWrongFiles[] = {
    {"unknown_section", "kart: x\nsetings: {}", Code::unknown_key, E, 2, 1, "`setings`",
     "did you mean `settings`?"},
    {"section_not_a_map", "settings: [axle]", Code::wrong_shape, E, 1, 11, "`settings`", ""},
    {"unknown_adjustment", "settings:\n  rear-widht: 1360 mm", Code::unknown_name, E, 2, 3,
     "`rear-widht` is not an adjustment", "did you mean `rear-width`?"},
    {"unfilled_setting", "settings:\n  rear-width:\n  axle: soft", Code::wrong_shape, E, 2, 3,
     "`rear-width` has no value", "fill it in"},
    {"wrong_kind", "settings: {rear-width: 12 kg}", Code::bad_quantity, E, 1, 24, "12 kg",
     "a length"},
    {"no_unit", "settings: {rear-width: 1360}", Code::bad_quantity, E, 1, 24, "no unit",
     "a length"},
    {"over_the_range", "settings: {rear-width: 1410 mm}", Code::setting_out_of_range, E, 1, 24,
     "`rear-width` at 1410 mm", "between 1300 mm and 1400 mm"},
    {"under_the_range", "settings: {rear-width: 1290 mm}", Code::setting_out_of_range, E, 1, 24,
     "`rear-width` at 1290 mm", "between 1300 mm and 1400 mm"},
    {"range_in_inches", "settings: {rear-width: 56 in}", Code::setting_out_of_range, E, 1, 24,
     "`rear-width` at 56 in", "and 55.12 in"},
    {"own_range_short_of_setting",
     "settings: {rear-width: 1310 mm}\nranges: {rear-width: {from: 1320 mm, to: 1400 mm}}",
     Code::setting_out_of_range, E, 1, 24, "1310 mm", "between 1320 mm and 1400 mm"},
    {"unknown_position", "settings: {axle: medum}", Code::setting_out_of_range, E, 1, 18,
     "no position `medum`", "did you mean `medium`?"},
    {"position_off_this_kart", "settings: {axle: hard}\nranges: {axle: [soft, medium]}",
     Code::setting_out_of_range, E, 1, 18, "no position `hard`", "one of soft, medium"},
    {"list_as_setting", "settings: {axle: [hard]}", Code::wrong_shape, E, 1, 18, "`axle`", ""},
    {"between_steps", "settings: {rear-width: 1362 mm}", Code::setting_off_step, Severity::warning,
     1, 24, "the nearest is 1360 mm", "counted from 1300 mm by 5 mm"},
    {"between_inch_steps", "settings: {rear-width: 53 1/2 in}", Code::setting_off_step,
     Severity::warning, 1, 24, "53 1/2 in", "by 0.197 in"},
    {"over_class_limit",
     "settings: {rear-width: 1390 mm}\nclass: {limits: {rear-width: {at-most: 1380 mm}}}",
     Code::over_class_limit, E, 1, 24,
     "the kart breaks its own class limit: `rear-width` is 1390 mm", "at most 1380 mm"},
    {"under_class_limit",
     "settings: {rear-width: 1310 mm}\n"
     "class: {limits: {rear-width: {at-least: 1320 mm, at-most: 1380 mm}}}",
     Code::over_class_limit, E, 1, 24, "1310 mm", "at least 1320 mm, at most 1380 mm"},
    {"position_not_allowed", "settings: {axle: soft}\nclass: {limits: {axle: {allowed: [hard]}}}",
     Code::over_class_limit, E, 1, 18, "`axle` is soft", "allowed: hard"},
    {"limit_leaves_nothing",
     "settings: {rear-width: 1360 mm}\n"
     "class: {limits: {rear-width: {at-least: 1390 mm, at-most: 1320 mm}}}",
     Code::implausible, E, 2, 30, "leaves nothing", "at-least"},
    {"limit_allows_nothing", "settings: {axle: soft}\nclass: {limits: {axle: {allowed: []}}}",
     Code::wrong_shape, E, 2, 34, "no position", ""},
    {"limit_of_the_other_sort", "settings: {axle: soft}\nclass: {limits: {axle: {at-most: 3}}}",
     Code::unknown_key, E, 2, 25, "`at-most`", "allowed"},
    {"limit_names_unknown", "settings: {axle: soft}\nclass: {limits: {axle: [soft]}}",
     Code::wrong_shape, E, 2, 24, "the class limit of `axle`", ""},
    {"range_backwards",
     "settings: {rear-width: 1360 mm}\nranges: {rear-width: {from: 1400 mm, to: 1320 mm}}",
     Code::implausible, E, 2, 22, "at or beyond its end", "from 1400 mm to 1320 mm"},
    {"range_without_step", "settings: {rear-width: 1360 mm}\nranges: {rear-width: {step: 0 mm}}",
     Code::implausible, E, 2, 22, "not above zero", ""},
    {"range_narrower_than_step",
     "settings: {rear-width: 1360 mm}\nranges: {rear-width: {step: 101 mm}}", Code::implausible, E,
     2, 22, "narrower than its step", ""},
    {"range_of_too_many_places",
     "settings: {rear-width: 1360 mm}\nranges: {rear-width: {step: 0.2 mm}}", Code::implausible, E,
     2, 22, "more than 500 places", ""},
    {"range_no_kart_has", "settings: {rear-width: 1360 mm}\nranges: {rear-width: {to: 1451 mm}}",
     Code::implausible, E, 2, 27, "`rear-width` does not go to 1451 mm",
     "between 1250 mm and 1450 mm"},
    {"range_with_unknown_key",
     "settings: {rear-width: 1360 mm}\nranges: {rear-width: {form: 1320 mm}}", Code::unknown_key, E,
     2, 23, "`form`", "did you mean `from`?"},
    {"range_with_unknown_position", "settings: {axle: hard}\nranges: {axle: [soft, medum, hard]}",
     Code::unknown_name, E, 2, 23, "`medum` is not a position of `axle`", "did you mean `medium`?"},
    {"range_without_position", "settings: {axle: hard}\nranges: {axle: []}", Code::wrong_shape, E,
     2, 16, "no position at all", ""},
    {"range_without_setting", "ranges: {toe: {from: 0 mm}}", Code::missing_key, E, 1, 10,
     "`ranges` speaks of `toe`, which has no setting", "under `settings`"},
    {"limit_without_setting", "class: {limits: {toe: {at-most: 2 mm}}}", Code::missing_key, E, 1,
     18, "`limits` speaks of `toe`", "under `settings`"},
    {"parts_without_setting", "parts: {axle: [soft]}", Code::missing_key, E, 1, 9,
     "`parts` speaks of `axle`", "under `settings`"},
    {"minutes_without_setting", "minutes: {axle: 3}", Code::missing_key, E, 1, 11,
     "`minutes` speaks of `axle`", "under `settings`"},
    {"parts_of_what_has_none", "settings: {front-bar: in}\nparts: {front-bar: [in]}",
     Code::unknown_key, E, 2, 20, "`front-bar` is not a key of `parts`", "moved, not swapped"},
    {"unknown_part", "settings: {axle: hard}\nparts: {axle: [hrad]}", Code::unknown_name, E, 2, 16,
     "`hrad`", "did you mean `hard`?"},
    {"minutes_beyond_a_day", "settings: {axle: hard}\nminutes: {axle: 601}", Code::implausible, E,
     2, 17, "601 minutes", "between 0 and 600"},
    {"minutes_below_zero", "settings: {axle: hard}\nminutes: {axle: -1}", Code::implausible, E, 2,
     17, "-1 minutes", "between 0 and 600"},
    {"minutes_with_unit", "settings: {axle: hard}\nminutes: {axle: 3 kg}", Code::bad_number, E, 2,
     17, "3 kg", ""},
    {"pressures_contradict",
     "settings: {pressures: 0.75 bar, front-pressures: 0.7 bar, rear-pressures: 0.8 bar}",
     Code::settings_disagree, Severity::warning, 1, 23,
     "`pressures` at 0.75 bar contradicts `front-pressures` at 0.7 bar and `rear-pressures` at",
     "leave `pressures` out"},
    {"pressures_contradict_one_end", "settings: {front-pressures: 0.7 bar, pressures: 0.8 bar}",
     Code::settings_disagree, Severity::warning, 1, 49, "contradicts `front-pressures`", ""},
    {"light_class", "class: {minimum-weight: 15 kg}", Code::implausible, E, 1, 25, "15 kg",
     "between 40 kg and 300 kg"},
    {"unknown_class_key", "class: {weight: 158 kg}", Code::unknown_key, E, 1, 9, "`weight`", ""},
    {"unknown_measure", "measured: {front-shares: 42 %}", Code::unknown_name, E, 1, 12,
     "is not a measure", "did you mean `front-share`?"},
    {"measure_no_kart_has", "measured: {front-share: 65 %}", Code::implausible, E, 1, 25, "65 %",
     "between 30 % and 60 %"},
    {"corner_missing",
     "measured:\n  corner-weights: {left-front: 35 kg, right-front: 37 kg, left-rear: 48 kg}",
     Code::missing_key, E, 2, 19, "needs `right-rear`", ""},
    {"corner_no_kart_has",
     "measured:\n  corner-weights:\n    left-front: 350 kg\n    right-front: 37 kg\n"
     "    left-rear: 48 kg\n    right-rear: 48 kg",
     Code::implausible, E, 3, 17, "`corner-weight` at 350 kg", "between 2 kg and 150 kg"},
    {"corners_that_cannot_be",
     "measured:\n  corner-weights: {left-front: 35 kg, right-front: 70 kg, left-rear: 60 kg, "
     "right-rear: 60 kg}",
     Code::implausible, E, 2, 19, "`front-pair-difference` at 35 kg", "between 0 kg and 30 kg"},
    {"corners_lighter_than_a_kart",
     "measured:\n  corner-weights: {left-front: 4 kg, right-front: 4 kg, left-rear: 5 kg, "
     "right-rear: 5 kg}",
     Code::implausible, E, 2, 19, "the four sum to 18 kg", "between 50 kg and 300 kg"},
    {"scales_and_mass_that_disagree",
     "dimensions: {mass-with-driver: 120 kg}\nmeasured:\n  corner-weights: {left-front: 35 kg, "
     "right-front: 35 kg, left-rear: 48 kg, right-rear: 48 kg}",
     Code::settings_disagree, Severity::warning, 1, 32, "the four scales sum to 166 kg",
     "the scales are taken"},
    {"band_backwards", "bands: {front-share: {from: 43 %, to: 41 %}}", Code::implausible, E, 1, 22,
     "at or beyond its end", ""},
    {"band_no_kart_has", "bands: {front-share: {to: 90 %}}", Code::implausible, E, 1, 27, "90 %",
     "between 30 % and 60 %"},
    {"unknown_dimension", "dimensions: {whelbase: 1040 mm}", Code::unknown_name, E, 1, 14,
     "is not a dimension", "did you mean `wheelbase`?"},
    {"dimension_no_kart_has", "dimensions: {wheelbase: 104 mm}", Code::implausible, E, 1, 25,
     "104 mm", "between 900 mm and 1200 mm"},
    {"unknown_fact", "facts: {rol-structure: yes}", Code::unknown_name, E, 1, 9, "is not a fact",
     "did you mean `roll-structure`?"},
    {"unknown_value", "facts: {roll-structure: maybe}", Code::unknown_name, E, 1, 25,
     "`maybe` is not a value of `roll-structure`", "one of yes, no"},
    {"fact_that_follows", "facts: {raised-mass: yes}", Code::bad_fact, E, 1, 9, "`raised-mass`",
     ""},
};

INSTANTIATE_TEST_SUITE_P(Each, WrongKart, ::testing::ValuesIn(kWrongFiles),
                         [](const auto& each) { return std::string(each.param.name); });

TEST(WrongKarts, AreToldAllInOneRun) {
  const auto found = read_kart_text(R"(kart: all at once
colour: blue
class: {minimum-weight: 9 kg, limits: {axle: {allowed: [hrd]}}}
settings:
  rear-width: 1500 mm
  axle: medum
  toe: 0.5 mm
facts: {roll-structure: perhaps}
)")
                         .found;
  std::vector<Code> codes;
  for (const Diagnostic& each : found) codes.push_back(each.code);
  std::sort(codes.begin(), codes.end());
  EXPECT_EQ(codes, (std::vector<Code>{Code::unknown_key, Code::unknown_name, Code::unknown_name,
                                      Code::setting_out_of_range, Code::setting_out_of_range,
                                      Code::setting_off_step, Code::implausible}))
      << told(found);
}

TEST(WrongKarts, ASettingBeyondItsRangeAndItsClassIsToldForBoth) {
  const auto found =
      read_kart_text(
          "{settings: {rear-width: 1410 mm}, class: {limits: {rear-width: {at-most: 1400 mm}}}}")
          .found;
  ASSERT_EQ(found.size(), 2U) << told(found);
  EXPECT_EQ(found[0].code, Code::setting_out_of_range);
  EXPECT_EQ(found[1].code, Code::over_class_limit);
}

TEST(WrongKarts, FiveHundredPlacesAreStillARange) {
  const auto [kart, found] = read_kart_text(
      "{settings: {rear-width: 1300 mm}, "
      "ranges: {rear-width: {from: 1300 mm, to: 1349.9 mm, step: 0.1 mm}}}");
  EXPECT_EQ(told(found), "");
  EXPECT_EQ(kart.setting("rear-width")->travel.places.size(), 500U);
}

TEST(WrongKarts, AnythingButAMapIsToldAndNotFatal) {
  for (const char* const text :
       {"", "# a note\n", "just words", "[1, 2]", "settings: {axle: {a: b}}",
        "{settings: {axle: soft}, ranges: {axle: {a: b}}}",
        "{settings: {axle: soft}, minutes: {axle: [1]}}",
        "{settings: {toe: 1 mm}, ranges: {toe: [1 mm]}}", "measured: {corner-weights: 4}",
        "facts: {turn-in: [brake]}", "bands: {front-share: 3}", "class: senior", "kart: [a]"}) {
    const auto found = read_kart_text(text).found;
    EXPECT_FALSE(found.empty()) << text;
    for (const Diagnostic& each : found) EXPECT_GT(each.span.line, 0) << text;
  }
}

TEST(WrongKarts, AFileCutOffAnywhereIsReadOrToldWithAPlace) {
  const std::string whole = start_kart_file(kart_pack(), true);
  std::size_t read = 0;
  for (std::size_t length = 0; length <= whole.size(); ++length) {
    try {
      for (const Diagnostic& each : read_kart_text(whole.substr(0, length)).found) {
        EXPECT_GT(each.span.line, 0) << "cut at " << length << ": " << each.message;
      }
      ++read;
    } catch (const InputError& error) {
      EXPECT_FALSE(error.found().empty()) << "cut at " << length;
    }
  }
  EXPECT_GT(read, whole.size() / 2);
}

}  // namespace
}  // namespace kartwright
