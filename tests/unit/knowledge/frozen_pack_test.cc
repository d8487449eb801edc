#include "engine/knowledge/frozen_pack.h"

#include <gtest/gtest.h>

#include "engine/knowledge/built_in.h"
#include "engine/knowledge/load.h"
#include "tests/support/small_rules.h"

namespace kartwright {
namespace {

TEST(FrozenPack, TheProgramHoldsThePackThatItsRuleFilesMake) {
  const Pack loaded = load_pack(built_in_rules());
  ASSERT_GT(loaded.phrases.size(), 100U);
  EXPECT_TRUE(built_in_pack() == loaded);
}

TEST(FrozenPack, ASmallPackComesBackAsItWas) {
  const Pack pack = load_pack(small_rules());
  EXPECT_TRUE(thaw_pack(freeze_pack(pack)) == pack);
}

TEST(FrozenPack, APackOfNothingComesBack) { EXPECT_TRUE(thaw_pack(freeze_pack(Pack())) == Pack()); }

TEST(FrozenPack, NumbersAreKeptToTheLastBit) {
  Pack pack;
  pack.axes.emplace_back();
  pack.axes.back().weight = 1.0 / 3.0;
  pack.axes.back().spread = -1e-300;
  const Pack thawed = thaw_pack(freeze_pack(pack));
  EXPECT_EQ(thawed.axes.at(0).weight, 1.0 / 3.0);
  EXPECT_EQ(thawed.axes.at(0).spread, -1e-300);
}

TEST(FrozenPack, OnePartThatDiffersIsAnotherPack) {
  const Pack pack = load_pack(small_rules());
  Pack other = pack;
  other.axes.at(0).spread += 1e-9;
  EXPECT_FALSE(thaw_pack(freeze_pack(other)) == pack);
}

}  // namespace
}  // namespace kartwright
