// The gauges of a sheet: what is allowed, where it stands, what ends it.

#include "cli/sheet/room_table.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/support/pit.h"

namespace kartwright::cli {
namespace {

using testing::HasSubstr;
using testing::Not;

Kart some_kart() { return typical_kart(rules()); }

TEST(RoomTable, TellsWhereAMoveWouldGoAndWhatIsLeft) {
  const Kart kart = some_kart();
  const auto tables =
      room_tables({{.setting = kart.setting("rear-width"), .to = 1.375}}, System::metric);
  ASSERT_EQ(tables.size(), 1U);
  EXPECT_THAT(tables[0].html(), HasSubstr("<td>1360 → 1375 mm</td>"));
  EXPECT_THAT(tables[0].html(), HasSubstr("1300 to 1400 mm"));
  EXPECT_THAT(tables[0].html(), HasSubstr("<td>-75, +25 mm</td>"));
}

TEST(RoomTable, SaysThatThereIsNoOtherPart) {
  Kart kart = some_kart();
  kart.settings.at("axle").in_the_box = {"medium"};
  const auto tables = room_tables({{.setting = kart.setting("axle")}}, System::metric);
  EXPECT_THAT(tables[0].html(), HasSubstr("medium only"));
  EXPECT_THAT(tables[0].html(), HasSubstr("<td>-0, +0</td>"));
}

TEST(RoomGauge, MarksAnEndOfTheClassAndNotThatOfTheAdjuster) {
  Kart kart = some_kart();
  const auto picture = [&] {
    return gauge_picture({.setting = kart.setting("rear-width")}).markup.html();
  };
  EXPECT_THAT(picture(), Not(HasSubstr("class=\"limit\"")));
  kart.settings.at("rear-width").limit.at_most = 1.380;
  EXPECT_THAT(picture(), HasSubstr("class=\"limit\""));
}

}  // namespace
}  // namespace kartwright::cli
