// Masses that can be mounted elsewhere, and the seat that can go sideways.

#include <gtest/gtest.h>

#include "tests/support/kart_pack.h"
#include "tests/support/pit.h"

namespace kartwright {
namespace {

constexpr const char* kLead = R"(kart: with lead
carried:
  lead plate:
    mass: 5 kg
    at: front mount
    mounts:
      rear mount: {forward: -100 mm, left: 150 mm, up: 20 mm}
      front mount: {forward: 500 mm}
  battery: {mass: 2 lb, at: pod, minutes: 3, mounts: {pod: {forward: 0 mm, left: 16 in}}}
  seat: {sideways: {at: 10 mm, from: -20 mm, to: 20 mm, step: 10 mm}}
)";

TEST(ReadCarried, TakesMassesMountsAndTheSeat) {
  const auto [kart, found] = read_kart_text(kLead, rules());
  EXPECT_EQ(told(found), "");
  ASSERT_EQ(kart.carried.size(), 2U);
  const CarriedMass& lead = kart.carried[0];
  EXPECT_EQ(lead.name, "lead plate");
  EXPECT_DOUBLE_EQ(lead.mass, 5.0);
  EXPECT_EQ(lead.at, 1U);
  ASSERT_EQ(lead.mounts.size(), 2U);
  EXPECT_DOUBLE_EQ(lead.mounts[0].left, 0.150);
  EXPECT_DOUBLE_EQ(lead.mounts[0].up, 0.020);
  EXPECT_DOUBLE_EQ(lead.mounts[1].forward, 0.500);
  EXPECT_EQ(lead.minutes, rules().adjustment("ballast-fore-aft")->minutes);
  EXPECT_EQ(kart.carried[1].minutes, 3.0);
  EXPECT_DOUBLE_EQ(kart.carried[1].mounts[0].left, 0.4064);
  ASSERT_TRUE(kart.seat_sideways);
  EXPECT_EQ(kart.seat_sideways->places.size(), 5U);
  EXPECT_EQ(kart.seat_sideways->at, kart.seat_sideways->places[3]);
}

TEST(ReadCarried, ASeatBetweenTwoStepsHasAPlaceOfItsOwn) {
  const auto [kart, found] = read_kart_text(
      "carried: {seat: {sideways: {at: 4 mm, from: -10 mm, to: 10 mm, step: 10 mm}}}", rules());
  EXPECT_EQ(told(found), "");
  EXPECT_EQ(kart.seat_sideways->places.size(), 4U);
}

struct WrongLead {
  const char* text;
  Code code;
  const char* told;  ///< that message or help must hold
};

TEST(ReadCarried, EveryMistakeIsToldWithItsPlace) {
  for (const WrongLead& wrong : {
           WrongLead{"carried: 5 kg", Code::wrong_shape, "must be a map"},
           WrongLead{"carried: {lead: 5 kg}", Code::wrong_shape, "`lead`"},
           WrongLead{"carried: {lead: {at: a, mounts: {a: {forward: 0 mm}}}}", Code::missing_key,
                     "`mass`"},
           WrongLead{"carried: {lead: {mass: 90 kg, at: a, mounts: {a: {forward: 0 mm}}}}",
                     Code::implausible, "40 kg"},
           WrongLead{"carried: {lead: {mass: -5 kg, at: a, mounts: {a: {forward: 0 mm}}}}",
                     Code::implausible, "0.1 kg"},
           WrongLead{"carried: {lead: {mass: 5, at: a, mounts: {a: {forward: 0 mm}}}}",
                     Code::bad_quantity, "mass"},
           WrongLead{"carried: {lead: {mass: 5 kg, at: reer, mounts: {rear: {forward: 0 mm}}}}",
                     Code::unknown_name, "`rear`"},
           WrongLead{"carried: {lead: {mass: 5 kg, at: a, mount: {a: {forward: 0 mm}}}}",
                     Code::missing_key, "`mounts`"},
           WrongLead{"carried: {lead: {mass: 5 kg, at: a, mounts: [a]}}", Code::wrong_shape,
                     "`lead`"},
           WrongLead{"carried: {lead: {mass: 5 kg, at: a, mounts: {a: {left: 0 mm}}}}",
                     Code::missing_key, "`forward`"},
           WrongLead{"carried: {lead: {mass: 5 kg, at: a, mounts: {a: {forward: 20 m}}}}",
                     Code::implausible, "2000 mm"},
           WrongLead{"carried: {seat: {sideway: {at: 0 mm}}}", Code::missing_key, "`sideways`"},
           WrongLead{"carried: {seat: {sideways: {at: 0 mm, from: -10 mm, to: 10 mm}}}",
                     Code::missing_key, "`step`"},
           WrongLead{
               "carried: {seat: {sideways: {at: 50 mm, from: -10 mm, to: 10 mm, step: 5 mm}}}",
               Code::implausible, "where the seat is"},
           WrongLead{"carried: {seat: {sideways: {at: 0 mm, from: 0 mm, to: 10 mm, step: 0 mm}}}",
                     Code::implausible, "step"},
       }) {
    const auto [kart, found] = read_kart_text(wrong.text, rules());
    ASSERT_FALSE(found.empty()) << wrong.text;
    EXPECT_EQ(found[0].code, wrong.code) << told(found);
    EXPECT_NE((found[0].message + found[0].help).find(wrong.told), std::string::npos)
        << told(found);
    EXPECT_GT(found[0].span.line, 0) << wrong.text;
    EXPECT_TRUE(kart.carried.empty()) << wrong.text;
    EXPECT_FALSE(kart.seat_sideways) << wrong.text;
  }
}

TEST(ReadCarried, AMisspeltKeyGetsTheNearest) {
  const auto found =
      read_kart_text(
          "carried: {lead: {mass: 5 kg, at: a, mounts: {a: {forward: 0 mm, lft: 1 mm}}}}", rules())
          .found;
  ASSERT_EQ(found.size(), 1U) << told(found);
  EXPECT_NE(found[0].help.find("`left`"), std::string::npos) << told(found);
}

}  // namespace
}  // namespace kartwright
