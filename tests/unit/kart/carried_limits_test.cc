// What a carried mass and a seat that goes sideways cannot be, each told at its place.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/support/kart_pack.h"
#include "tests/support/marked_input.h"
#include "tests/support/pit.h"

namespace kartwright {
namespace {

class WrongCarried : public testing::TestWithParam<MarkedInput> {};

TEST_P(WrongCarried, IsToldOnceAtItsPlace) {
  const WrongInput wrong = GetParam().wrong();
  expect_the_one_finding(wrong, read_kart_text(wrong.text, rules()).found);
}

/// `count` entries `a0: value, a1: value, ...`.
std::string many_entries(int count, const std::string& value) {
  std::string text;
  for (int i = 0; i < count; ++i) text += (i == 0 ? "a" : ", a") + std::to_string(i) + ": " + value;
  return text;
}

std::string lead_with(const std::string& more) {
  return "carried: {lead: {mass: 5 kg, at: a, mounts: {a: {forward: 0 mm}}" + more + "}}";
}

std::string sideways(const std::string& way) { return "carried: {seat: {sideways: ^" + way + "}}"; }

const MarkedInput kWrongCarried[] = {
    {"mounts_not_a_map", "carried: {lead: {mass: 5 kg, at: a, mounts: ^[a]}}", Code::wrong_shape,
     "the mounts of `lead` must be a map", "forward: -100 mm"},
    {"many_mounts",
     "carried: {lead: {mass: 5 kg, at: a0, mounts: ^{" + many_entries(200, "{forward: 0 mm}") +
         "}}}",
     Code::implausible, "`lead` has 200 mounts", "at most"},
    {"many_masses",
     "carried: ^{" + many_entries(200, "{mass: 1 kg, at: m, mounts: {m: {forward: 0 mm}}}") + "}",
     Code::implausible, "`carried` lists 200 masses", "at most"},
    {"mount_misspelt", "carried: {lead: {mass: 5 kg, at: ^flor, mounts: {floor: {forward: 0 mm}}}}",
     Code::unknown_name, "`flor` is not a mount of `lead`", "`floor`"},
    {"mount_not_a_name", "carried: {lead: {mass: 5 kg, at: ^[a], mounts: {a: {forward: 0 mm}}}}",
     Code::wrong_shape, "at"},
    {"minutes_below_none", lead_with(", minutes: ^-1"), Code::implausible,
     "moving `lead` takes -1 minutes", "between 0 and"},
    {"minutes_of_days", lead_with(", minutes: ^100000"), Code::implausible,
     "moving `lead` takes 100000 minutes", "between 0 and"},
    {"sideways_backwards", sideways("{at: 0 mm, from: 20 mm, to: -20 mm, step: 10 mm}"),
     Code::implausible, "starts beyond its end", "as `{at: 0 mm"},
    {"sideways_standing_still", sideways("{at: 0 mm, from: -20 mm, to: 20 mm, step: 0 mm}"),
     Code::implausible, "has a step that is not above zero"},
    {"sideways_in_hairs", sideways("{at: 0 mm, from: -20 mm, to: 20 mm, step: 0.01 mm}"),
     Code::implausible, "has more than"},
    {"sideways_left_of_it", sideways("{at: 30 mm, from: -20 mm, to: 20 mm, step: 10 mm}"),
     Code::implausible, "does not hold where the seat is"},
    {"sideways_right_of_it", sideways("{at: -30 mm, from: -20 mm, to: 20 mm, step: 10 mm}"),
     Code::implausible, "does not hold where the seat is"},
    {"sideways_without_a_step", sideways("{at: 0 mm, from: -20 mm, to: 20 mm}"), Code::missing_key,
     "needs `step`"},
    {"seat_without_a_way", "carried: {seat: ^{}}", Code::missing_key, "needs `sideways`"},
};

INSTANTIATE_TEST_SUITE_P(Each, WrongCarried, testing::ValuesIn(kWrongCarried),
                         [](const auto& each) { return case_name(each); });

TEST(StartedKartFile, QuotesNamesThatYamlWouldReadOtherwise) {
  for (const std::string name : {"it's soft", "- soft", "%soft", "soft: 1", "#1", "[x]", "a, b"}) {
    Pack pack = kart_pack();
    for (Adjustment& adjustment : pack.adjustments) {
      if (adjustment.id == "axle") {
        adjustment.positions = {name, "medium", "hard"};
        adjustment.typical = name;
      }
    }
    const ReadKart read = read_kart_text(start_kart_file(pack, true), pack);
    EXPECT_EQ(told(read.found), "") << name;
    ASSERT_NE(read.kart.setting("axle"), nullptr) << name;
    EXPECT_EQ(read.kart.setting("axle")->now, 0.0) << name;
  }
}

}  // namespace
}  // namespace kartwright
