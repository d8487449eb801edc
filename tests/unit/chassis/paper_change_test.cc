// Changes to try on paper, as they are written on the command line.

#include "engine/chassis/paper_change.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/support/kart_pack.h"
#include "tests/support/pit.h"

namespace kartwright {
namespace {

using testing::HasSubstr;

struct Parsed {
  std::optional<PaperChange> change;
  std::string told;
};

Parsed parsed(const std::string& text, const Kart& kart) {
  Findings findings;
  Parsed out;
  out.change = parse_paper_change(text, kart, rules(), {.file = "--set", .source = text}, findings);
  out.told = told(findings.all());
  return out;
}

class PaperChangeOfATypicalKart : public testing::Test {
 protected:
  Kart kart_ = typical_kart(rules());
};

TEST_F(PaperChangeOfATypicalKart, IsASettingAPositionOrASize) {
  const auto width = parsed("rear-width=54 in", kart_).change.value();
  EXPECT_NEAR(width.to, 1.3716, 1e-12);
  EXPECT_NEAR(width.from, 1.36, 1e-12);
  EXPECT_EQ(parsed("front-bar=in", kart_).change.value().to, 1.0);
  const auto height = parsed("mass-height=300mm", kart_).change.value();
  EXPECT_EQ(height.setting, nullptr);
  EXPECT_DOUBLE_EQ(height.to, 0.3);
  EXPECT_DOUBLE_EQ(parsed("front-share=43 %", kart_).change.value().to, 0.43);
}

TEST_F(PaperChangeOfATypicalKart, BeyondItsRangeIsKeptWithAWarning) {
  EXPECT_EQ(parsed("rear-width=1420mm", kart_).change.value().warning,
            "beyond the range of this kart");
  EXPECT_EQ(parsed("rear-width=1380mm", kart_).change.value().warning, "");
}

TEST_F(PaperChangeOfATypicalKart, ThatNoKartHasIsRefusedWithWhatIsPlausible) {
  EXPECT_THAT(parsed("rear-width=5 m", kart_).told, HasSubstr("between 1200 mm and 1500 mm"));
  EXPECT_THAT(parsed("wheelbase=10 m", kart_).told, HasSubstr("between 900 mm and 1200 mm"));
  EXPECT_THAT(parsed("mass-with-driver=-5 kg", kart_).told, HasSubstr("between 50 kg and 300 kg"));
  EXPECT_THAT(parsed("front-bar=up", kart_).told, HasSubstr("one of out, in"));
}

TEST_F(PaperChangeOfATypicalKart, WrittenWrongIsToldWithTheNearestName) {
  EXPECT_THAT(parsed("rear-widht=1380mm", kart_).told, HasSubstr("did you mean `rear-width`?"));
  EXPECT_THAT(parsed("rear-width", kart_).told, HasSubstr("needs a value"));
  EXPECT_THAT(parsed("rear-width=1380", kart_).told, HasSubstr("no unit"));
  EXPECT_THAT(parsed("caster=1mm", kart_).told, HasSubstr("an angle"));
  EXPECT_THAT(parsed("ballast-height=0 mm", kart_).told, HasSubstr("this kart has no"));
}

TEST_F(PaperChangeOfATypicalKart, SweepsByTheStepsOfItsSettingBothWays) {
  Findings findings;
  const WrittenAt at{.file = "--sweep"};
  const auto wider = parse_sweep("rear-width=1340mm..1360mm", kart_, rules(), at, findings);
  ASSERT_EQ(wider.size(), 5U);
  EXPECT_NEAR(wider.back().to, 1.36, 1e-12);
  const auto narrower = parse_sweep("rear-width=1360mm..1340mm", kart_, rules(), at, findings);
  ASSERT_EQ(narrower.size(), 5U);
  EXPECT_NEAR(narrower.back().to, 1.34, 1e-12);
  EXPECT_EQ(parse_sweep("mass-height=0.2m..0.3m", kart_, rules(), at, findings).size(), 11U);
  EXPECT_EQ(told(findings.all()), "");
  EXPECT_TRUE(parse_sweep("rear-width=1340mm", kart_, rules(), at, findings).empty());
  EXPECT_THAT(told(findings.all()), HasSubstr("from one value to another"));
}

TEST_F(PaperChangeOfATypicalKart, OfASizeComesBeforeTheSeatThatMovesIt) {
  const KnownKart known = known_kart(kart_, rules()).value();
  std::vector<PaperChange> changes{parsed("seat-height=10mm", kart_).change.value(),
                                   parsed("mass-height=300mm", kart_).change.value()};
  const double both = changed(known, kart_, rules(), changes).kart.mass_height;
  EXPECT_NEAR(both, 0.3 + 80.0 * 0.01 / 165.0, 1e-12);
  std::swap(changes[0], changes[1]);
  EXPECT_DOUBLE_EQ(changed(known, kart_, rules(), changes).kart.mass_height, both);
}

TEST_F(PaperChangeOfATypicalKart, AtTheVeryEndsIsStillPlausibleAndInItsRange) {
  EXPECT_EQ(parsed("rear-width=1200mm", kart_).told, "");
  EXPECT_EQ(parsed("rear-width=1500mm", kart_).told, "");
  EXPECT_NE(parsed("rear-width=1501mm", kart_).told, "");
  EXPECT_EQ(parsed("rear-width=1300mm", kart_).change.value().warning, "");
  EXPECT_EQ(parsed("rear-width=1400mm", kart_).change.value().warning, "");
  EXPECT_EQ(parsed("rear-width=1299mm", kart_).change.value().warning,
            "beyond the range of this kart");
}

TEST_F(PaperChangeOfATypicalKart, BeyondTheClassIsWarnedOfAsThat) {
  kart_.settings.at("rear-width").limit.at_most = 1.38;
  EXPECT_EQ(parsed("rear-width=1390mm", kart_).change.value().warning,
            "beyond what the class allows");
}

TEST_F(PaperChangeOfATypicalKart, MovesLoadsWhereThePhysicsClaimsIt) {
  EXPECT_TRUE(moves_loads(parsed("rear-width=1380mm", kart_).change.value()));
  EXPECT_TRUE(moves_loads(parsed("mass-height=300mm", kart_).change.value()));
  EXPECT_FALSE(moves_loads(parsed("toe=2mm", kart_).change.value()));
}

TEST_F(PaperChangeOfATypicalKart, OfTheMassStandsBeforeWhatTheScalesSaid) {
  kart_.corner_weights = CornerLoads{35.0, 35.0, 48.0, 48.0};
  const KnownKart known = known_kart(kart_, rules()).value();
  const auto after = [&](const char* change) {
    return changed(known, kart_, rules(), {parsed(change, kart_).change.value()}).kart.mass;
  };
  EXPECT_EQ(after("mass-with-driver=150 kg"), 150.0);
  EXPECT_EQ(after("mass-height=300mm"), 166.0);
}

TEST_F(PaperChangeOfATypicalKart, ComesFromTheCrewsFigureWhereThereIsOne) {
  EXPECT_EQ(parsed("mass-height=300mm", kart_).change.value().from, 0.26);
  kart_.dimensions["mass-height"] = 0.28;
  EXPECT_EQ(parsed("mass-height=300mm", kart_).change.value().from, 0.28);
}

}  // namespace
}  // namespace kartwright
