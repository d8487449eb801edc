// Corner weights into kart files of every form, and the forms that are left alone.

#include <gtest/gtest.h>

#include "engine/kart/save_corner_weights.h"
#include "tests/support/kart_pack.h"
#include "tests/support/pit.h"

namespace kartwright {
namespace {

constexpr CornerLoads kOnTheScales{36.0, 36.5, 48.0, 48.5};

std::optional<std::string> with_weights(const std::string& text) {
  return with_corner_weights(parse_document("kart.yaml", text), kOnTheScales, System::metric);
}

/// The weights that a kart file holds, read by the program itself.
CornerLoads weights_in(const std::string& text) {
  const ReadKart read = read_kart_text(text, rules());
  EXPECT_EQ(told(read.found), "") << text;
  return read.kart.corner_weights.value_or(CornerLoads{});
}

TEST(WeightsInAKartFile, OfEveryFormReadBackAsTheyWereGiven) {
  for (const char* text :
       {"kart: a", "kart: a\n", "kart: a\nmeasured:\n", "measured:\n  corner-weights:\nkart: a\n",
        "measured: {tyre-laps: 40}\nkart: a\n", "measured:\n  tyre-laps: 40\nkart: a\n",
        "measured:\n  corner-weights: {left-front: 1 kg, right-front: 2 kg, left-rear: 3 kg, "
        "right-rear: 4 kg}\nkart: a\n"}) {
    const auto saved = with_weights(text);
    ASSERT_TRUE(saved) << text;
    const CornerLoads read = weights_in(*saved);
    EXPECT_EQ(read.left_front, kOnTheScales.left_front) << *saved;
    EXPECT_EQ(read.right_front, kOnTheScales.right_front) << *saved;
    EXPECT_EQ(read.left_rear, kOnTheScales.left_rear) << *saved;
    EXPECT_EQ(read.right_rear, kOnTheScales.right_rear) << *saved;
  }
}

TEST(WeightsInAKartFile, AnEmptyEntryIsFilledWhereItStands) {
  EXPECT_EQ(with_weights("measured:\n  corner-weights:   # soon\nkart: a\n"),
            "measured:\n  corner-weights: {left-front: 36 kg, right-front: 36.5 kg, left-rear: 48 "
            "kg, right-rear: 48.5 kg}   # soon\nkart: a\n");
}

TEST(WeightsInAKartFile, ThatLacksAWheelOrHoldsSomethingElseIsLeftAlone) {
  for (const char* text :
       {"measured:\n  corner-weights: {left-front: 1 kg}\n",
        "measured:\n  corner-weights: {left-front: [1 kg], right-front: 2 kg, left-rear: 3 kg, "
        "right-rear: 4 kg}\n",
        "measured: soon\n", "measured: [soon]\n", "- kart\n"})
    EXPECT_EQ(with_weights(text), std::nullopt) << text;
}

}  // namespace
}  // namespace kartwright
