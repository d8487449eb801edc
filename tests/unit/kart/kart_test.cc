#include "engine/kart/kart.h"

#include <gtest/gtest.h>

#include "tests/support/kart_pack.h"

namespace kartwright {
namespace {

TEST(TypicalKart, HasEveryAdjustmentAtThePacksTypicalSetting) {
  const Kart kart = typical_kart(kart_pack());
  EXPECT_TRUE(kart.typical);
  EXPECT_EQ(kart.name, "a typical sprint kart");
  ASSERT_EQ(kart.settings.size(), kart_pack().adjustments.size());
  EXPECT_DOUBLE_EQ(kart.setting("rear-width")->now, 1.360);
  EXPECT_EQ(kart.setting("rear-width")->now, kart.setting("rear-width")->travel.places[12]);
  EXPECT_EQ(kart.setting("axle")->now, 1.0);
  EXPECT_EQ(kart.setting("axle")->in_the_box, kart_pack().adjustment("axle")->positions);
  EXPECT_TRUE(kart.setting("front-bar")->in_the_box.empty());
  EXPECT_EQ(kart.setting("front-bar")->minutes, 5.0);
}

TEST(TypicalKart, LeavesOutWhatThePackNamesNoTypicalSettingFor) {
  Pack pack = kart_pack();
  pack.adjustments[0].typical = "softish";
  pack.adjustments[5].typical.clear();
  const Kart kart = typical_kart(pack);
  EXPECT_EQ(kart.setting("axle"), nullptr);
  EXPECT_EQ(kart.setting("rear-width"), nullptr);
  EXPECT_NE(kart.setting("toe"), nullptr);
}

TEST(PrintSetting, WritesARangeWithItsUnitAndAListByName) {
  const Kart kart = typical_kart(kart_pack());
  const Setting& width = *kart.setting("rear-width");
  const Setting& axle = *kart.setting("axle");
  EXPECT_EQ(print_setting(width, width.now, System::metric), "1360 mm");
  EXPECT_EQ(print_setting(width, 53.5 * 0.0254, System::imperial), "53 1/2 in");
  EXPECT_EQ(print_setting(axle, 2.0, System::metric), "hard");
  EXPECT_EQ(print_setting(axle, 7.0, System::metric), "hard");
  EXPECT_EQ(print_setting(axle, -1.0, System::metric), "soft");
}

TEST(ClassAllows, TheLimitItselfAndWhatLiesWithin) {
  Setting width = *typical_kart(kart_pack()).setting("rear-width");
  EXPECT_TRUE(class_allows(width, 9.0));
  width.limit = {.at_least = 1.320, .at_most = 1.380};
  EXPECT_TRUE(class_allows(width, 1.320));
  EXPECT_TRUE(class_allows(width, 1.320 + 12 * 0.005));
  EXPECT_TRUE(class_allows(width, 1.380 + 1e-13));
  EXPECT_FALSE(class_allows(width, 1.381));
  EXPECT_FALSE(class_allows(width, 1.319));
}

TEST(ClassAllows, OnlyTheNamedPositionsWhereAnyAreNamed) {
  Setting axle = *typical_kart(kart_pack()).setting("axle");
  EXPECT_TRUE(class_allows(axle, 0.0));
  axle.limit.allowed = {"medium", "hard"};
  EXPECT_FALSE(class_allows(axle, 0.0));
  EXPECT_TRUE(class_allows(axle, 2.0));
}

}  // namespace
}  // namespace kartwright
