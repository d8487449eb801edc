// Which changes of a kart a crew may make, by what is written on the command line.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "engine/records/apply.h"
#include "tests/support/kart_pack.h"
#include "tests/support/pit.h"

namespace kartwright {
namespace {

using testing::HasSubstr;

class AllowedChanges : public testing::Test {
 protected:
  /// Why a change is refused; empty where it is allowed.
  std::string refused(const std::string& text) const {
    Findings findings;
    const auto change =
        allowed_change(text, kart_, rules(), {.file = "--set", .source = text}, findings);
    EXPECT_EQ(change.has_value(), !findings.has_errors()) << text;
    return told(findings.all());
  }
  Kart kart_ = typical_kart(rules());
};

TEST_F(AllowedChanges, AreOfSettingsOnTheirTravel) {
  EXPECT_EQ(refused("rear-width=1370mm"), "");
  EXPECT_EQ(refused("axle=hard"), "");
}

TEST_F(AllowedChanges, AreNotOfWhatIsMeasured) {
  EXPECT_THAT(refused("wheelbase=1050mm"), HasSubstr("`wheelbase` is measured, not set"));
  EXPECT_THAT(refused("wheelbase=1050mm"), HasSubstr("as `rear-width=1370mm`"));
}

TEST_F(AllowedChanges, AreNotBeyondTheRangeOfTheKart) {
  EXPECT_THAT(refused("rear-width=1420mm"), HasSubstr("beyond the range of this kart"));
}

TEST_F(AllowedChanges, AreNotBeyondTheClass) {
  kart_.settings.at("rear-width").limit.at_most = 1.365;
  EXPECT_NE(refused("rear-width=1370mm"), "");
  EXPECT_EQ(refused("rear-width=1365mm"), "");
}

TEST_F(AllowedChanges, AreNotToAPartThatIsNotHere) {
  kart_.settings.at("axle").in_the_box = {"medium"};
  EXPECT_NE(refused("axle=hard"), "");
}

TEST_F(AllowedChanges, AreNotOfWhatNobodyKnows) {
  EXPECT_THAT(refused("rear-wdith=1370mm"), HasSubstr("`rear-width`"));
  kart_.settings.erase("axle");
  EXPECT_NE(refused("axle=hard"), "");
}

}  // namespace
}  // namespace kartwright
