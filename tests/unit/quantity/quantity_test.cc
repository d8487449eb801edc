#include "engine/quantity/quantity.h"

#include <cmath>
#include <initializer_list>
#include <numbers>
#include <string>
#include <string_view>

#include <gtest/gtest.h>

namespace kartwright {
namespace {

constexpr double kDegreeInSi = std::numbers::pi / 180;

/// The SI value of a text that must be readable.
double si_of(std::string_view text, Kind kind) {
  const ParsedQuantity parsed = parse_quantity(text, kind);
  if (const auto* error = std::get_if<QuantityError>(&parsed)) {
    ADD_FAILURE() << text << ": " << error->what << "; expected " << error->expected;
    return std::nan("");
  }
  return std::get<Quantity>(parsed).si;
}

/// The error of a text that must not be readable.
QuantityError error_of(std::string_view text, Kind kind) {
  const ParsedQuantity parsed = parse_quantity(text, kind);
  if (const auto* quantity = std::get_if<Quantity>(&parsed)) {
    ADD_FAILURE() << text << " was read as " << quantity->si;
    return {};
  }
  return std::get<QuantityError>(parsed);
}

struct Written {
  std::string_view text;
  double si;
};

void expect_read(Kind kind, std::initializer_list<Written> all) {
  for (const auto& [text, si] : all) EXPECT_DOUBLE_EQ(si_of(text, kind), si) << text;
}

struct Refused {
  std::string_view text;
  Kind kind;
  std::string_view what;
};

void expect_refused(std::initializer_list<Refused> all) {
  for (const auto& [text, kind, what] : all) {
    const QuantityError error = error_of(text, kind);
    EXPECT_EQ(error.what, what) << text;
    EXPECT_EQ(error.expected, expected_form(kind)) << text;
  }
}

TEST(Quantity, LengthsAreReadAsTheCrewMeantThem) {
  expect_read(Kind::length, {{"53 1/2 in", 1.3589},
                             {"53-1/2 in", 1.3589},
                             {"53.5\"", 1.3589},
                             {"53.5 inches", 1.3589},
                             {"53.5\u2033", 1.3589},
                             {"53.5''", 1.3589},
                             {"1360mm", 1.36},
                             {"1360 MM", 1.36},
                             {"  1360\u00a0mm\t", 1.36},
                             {"1.36 m", 1.36},
                             {"136 cm", 1.36},
                             {"1.36e3 mm", 1.36},
                             {".5 in", 0.0127},
                             {"-3/16 in", -0.0047625},
                             {"+2 mm", 0.002},
                             {"\u22122 mm", -0.002},
                             {"0 mm", 0.0}});
}

TEST(Quantity, FeetMayHaveInchesBehindThem) {
  expect_read(Kind::length, {{"4 ft 5 in", 1.3462},
                             {"4'5\"", 1.3462},
                             {"4\u2032 5\u2033", 1.3462},
                             {"-4 ft 5 in", -1.3462},
                             {"4 ft 5 1/2 in", 1.3589},
                             {"4.5 ft", 1.3716}});
}

TEST(Quantity, AnglesPressuresMassesSharesAndCountsAreRead) {
  expect_read(Kind::angle, {{"12°", 12 * kDegreeInSi},
                            {"12 deg", 12 * kDegreeInSi},
                            {"-0.5 deg", -0.5 * kDegreeInSi},
                            {"0.2 rad", 0.2}});
  expect_read(Kind::pressure,
              {{"0.8 bar", 80000}, {"80 kPa", 80000}, {"12 psi", 82737.08751802033}});
  expect_read(
      Kind::mass,
      {{"164 lb", 74.38914868}, {"164 lbs", 74.38914868}, {"74.5 kg", 74.5}, {"500 g", 0.5}});
  expect_read(Kind::ratio, {{"41.5 %", 0.415}, {"41.5%", 0.415}});
  expect_read(Kind::count, {{"3", 3}, {"-2.5", -2.5}});
}

TEST(Quantity, ACommaIsRefusedWithAWordAboutCommas) {
  expect_refused(
      {{"1,360 mm", Kind::length,
        "`1,360 mm` has a comma: write thousands without one, and decimals with a point"},
       {"53,5", Kind::length,
        "`53,5` has a comma: write thousands without one, and decimals with a point"},
       {"0,8 bar", Kind::pressure,
        "`0,8 bar` has a comma: write thousands without one, and decimals with a point"}});
}

TEST(Quantity, AMissingUnknownOrWrongUnitIsNamed) {
  expect_refused({{"1360", Kind::length, "no unit"},
                  {"0", Kind::length, "no unit"},
                  {"1360 kg", Kind::length, "`kg` measures mass"},
                  {"12 psi", Kind::angle, "`psi` measures pressure"},
                  {"12 deg", Kind::pressure, "`deg` measures an angle"},
                  {"12 %", Kind::mass, "`%` measures a share"},
                  {"3 mm", Kind::count, "`mm` measures length"},
                  {"12 parsec", Kind::length, "unknown unit `parsec`"},
                  {"12 kg/m", Kind::mass, "unknown unit `kg/m`"},
                  {"3 holes", Kind::count, "unknown unit `holes`"}});
}

TEST(Quantity, WhatIsNotANumberIsNamed) {
  expect_refused({{"", Kind::length, "nothing is written"},
                  {" \t", Kind::length, "nothing is written"},
                  {"wide", Kind::length, "`wide` does not start with a number"},
                  {"mm", Kind::length, "`mm` does not start with a number"},
                  {"-", Kind::length, "no number"},
                  {"--2 mm", Kind::length, "`-2 mm` does not start with a number"},
                  {"0x10 mm", Kind::length, "unknown unit `x`"},
                  {"1 360 mm", Kind::length, "two numbers where one was expected"},
                  {"1.5 1/2 in", Kind::length, "two numbers where one was expected"},
                  {"53 3/2 in", Kind::length, "`3/2` behind a whole number is not below one"},
                  {"1/0 in", Kind::length, "`1/0` divides by nothing"}});
}

TEST(Quantity, WhatIsNotFiniteIsRefused) {
  expect_refused({{"inf mm", Kind::length, "`inf mm` is not a finite number"},
                  {"-Infinity mm", Kind::length, "`infinity mm` is not a finite number"},
                  {"nan", Kind::length, "`nan` is not a finite number"},
                  {"NaN mm", Kind::length, "`nan mm` is not a finite number"},
                  {"1e999 mm", Kind::length, "`1e999` is not a finite number"},
                  {"1e-999 mm", Kind::length, "`1e-999` is not a finite number"},
                  {"1e999", Kind::count, "`1e999` is not a finite number"},
                  {"1e308 bar", Kind::pressure, "not a finite number"}});
}

TEST(Quantity, WhatStandsBehindTheUnitIsNamed) {
  expect_refused({{"12 mm wide", Kind::length, "`wide` is left over"},
                  {"12 mm 5 in", Kind::length, "`5 in` is left over"},
                  {"12 mm-", Kind::length, "`-` is left over"},
                  {"4 ft 15 in", Kind::length, "only inches below twelve may stand behind feet"},
                  {"4 ft 5 mm", Kind::length, "only inches below twelve may stand behind feet"},
                  {"4 ft 5", Kind::length, "no unit"},
                  {"4 ft -5 in", Kind::length, "`-5 in` is left over"}});
}

TEST(Quantity, RemembersWhichSystemItWasWrittenIn) {
  const auto written = [](std::string_view text, Kind kind) {
    return std::get<Quantity>(parse_quantity(text, kind)).written;
  };
  EXPECT_EQ(written("1360 mm", Kind::length), System::metric);
  EXPECT_EQ(written("53 1/2 in", Kind::length), System::imperial);
  EXPECT_EQ(written("4 ft 5 in", Kind::length), System::imperial);
  EXPECT_EQ(written("164 lb", Kind::mass), System::imperial);
  EXPECT_EQ(written("0.8 bar", Kind::pressure), System::metric);
  EXPECT_EQ(written("12 deg", Kind::angle), std::nullopt);
  EXPECT_EQ(written("41.5 %", Kind::ratio), std::nullopt);
  EXPECT_EQ(written("3", Kind::count), std::nullopt);
}

TEST(Quantity, TheSameRearWidthInInchesAndMillimetresIsTheSameNumber) {
  EXPECT_DOUBLE_EQ(si_of("53 1/2 in", Kind::length), si_of("1358.9 mm", Kind::length));
}

TEST(Quantity, ALongTextIsCutShortInTheMessage) {
  const std::string what = error_of(std::string(5000, 'x'), Kind::length).what;
  EXPECT_EQ(what, "`" + std::string(40, 'x') + "...` does not start with a number");
}

TEST(Quantity, ALongTextIsNotCutInsideACharacter) {
  const std::string what = error_of(std::string(39, 'x') + "\u00e9\u00e9", Kind::length).what;
  EXPECT_EQ(what, "`" + std::string(39, 'x') + "...` does not start with a number");
}

// Anything worse than linear would take hours here, and CTest's time limit would stop it.
TEST(Quantity, AMegabyteOfAnythingIsAnsweredAtOnce) {
  constexpr std::size_t length = 1U << 20U;
  for (const std::string_view piece :
       {"1", " ", "1 ", "-", "1/", "'", "1'", "\xe2", "\xe2\x80", "1 1/", "4 ft ", ",", "."}) {
    std::string text;
    while (text.size() < length) text += piece;
    for (const Kind kind : {Kind::length, Kind::count}) {
      EXPECT_TRUE(std::holds_alternative<QuantityError>(parse_quantity(text, kind))) << piece;
    }
    EXPECT_TRUE(std::holds_alternative<QuantityError>(parse_spread(text))) << piece;
  }
}

TEST(Spread, IsReadWithEitherSign) {
  for (const std::string_view text :
       {"-0.5 ± 0.2", "-0.5 +/- 0.2", "\u22120.5±0.2", " -.5 ± +.2 "}) {
    const auto parsed = parse_spread(text);
    ASSERT_TRUE(std::holds_alternative<Spread>(parsed)) << text;
    EXPECT_EQ(std::get<Spread>(parsed).mean, -0.5) << text;
    EXPECT_EQ(std::get<Spread>(parsed).sd, 0.2) << text;
  }
}

TEST(Spread, IsRefusedWithItsReason) {
  const auto what = [](std::string_view text) {
    const auto parsed = parse_spread(text);
    const auto* error = std::get_if<QuantityError>(&parsed);
    if (error == nullptr) return std::string("read");
    EXPECT_EQ(error->expected, "a mean with its spread, such as `-0.5 ± 0.2`") << text;
    return error->what;
  };
  EXPECT_EQ(what("-0.5"), "no spread");
  EXPECT_EQ(what("-0.5 0.2"), "no spread");
  EXPECT_EQ(what("-0.5 ±"), "no number");
  EXPECT_EQ(what("-0.5 ± 0"), "the spread is not above zero");
  EXPECT_EQ(what("-0.5 ± -0.2"), "the spread is not above zero");
  EXPECT_EQ(what("-0.5 ± 0.2 mm"), "`mm` is left over");
  EXPECT_EQ(what("± 0.2"), "`± 0.2` does not start with a number");
  EXPECT_EQ(what(""), "no number");
  EXPECT_EQ(what("0 ± 1e999"), "`1e999` is not a finite number");
}

TEST(Print, LengthsInMillimetres) {
  EXPECT_EQ(print_quantity(1.36, Kind::length, System::metric), "1360 mm");
  EXPECT_EQ(print_quantity(1.3589, Kind::length, System::metric), "1358.9 mm");
  EXPECT_EQ(print_quantity(0.0000005, Kind::length, System::metric), "0.001 mm");
  EXPECT_EQ(print_quantity(-0.0000004, Kind::length, System::metric), "0 mm");
  EXPECT_EQ(print_quantity(-0.002, Kind::length, System::metric), "-2 mm");
}

TEST(Print, LengthsInInchesAsAFractionWhereThatIsExact) {
  EXPECT_EQ(print_quantity(1.3589, Kind::length, System::imperial), "53 1/2 in");
  EXPECT_EQ(print_quantity(0.0254 * 53 / 64, Kind::length, System::imperial), "53/64 in");
  EXPECT_EQ(print_quantity(-0.0047625, Kind::length, System::imperial), "-3/16 in");
  EXPECT_EQ(print_quantity(-0.0381, Kind::length, System::imperial), "-1 1/2 in");
  EXPECT_EQ(print_quantity(0.3048, Kind::length, System::imperial), "12 in");
  EXPECT_EQ(print_quantity(0.0, Kind::length, System::imperial), "0 in");
}

TEST(Print, LengthsInInchesWithTwoDecimalsWhereItIsNot) {
  EXPECT_EQ(print_quantity(1.36, Kind::length, System::imperial), "53.54 in");
  EXPECT_EQ(print_quantity(0.015, Kind::length, System::imperial), "0.59 in");
}

TEST(Print, SmallLengthsInInchesAsADialGaugeReadsThem) {
  EXPECT_EQ(print_quantity(0.005, Kind::length, System::imperial), "0.197 in");
  EXPECT_EQ(print_quantity(0.012 * 0.0254, Kind::length, System::imperial), "0.012 in");
  EXPECT_EQ(print_quantity(0.00025, Kind::length, System::imperial), "0.0098 in");
  EXPECT_EQ(print_quantity(-0.008 * 0.0254, Kind::length, System::imperial), "-0.008 in");
  EXPECT_EQ(print_quantity(-0.000001, Kind::length, System::imperial), "0 in");
}

TEST(Print, TheOtherKindsInBothSystems) {
  EXPECT_EQ(print_quantity(74.5, Kind::mass, System::metric), "74.5 kg");
  EXPECT_EQ(print_quantity(74.38914868, Kind::mass, System::imperial), "164 lb");
  EXPECT_EQ(print_quantity(75000, Kind::pressure, System::metric), "0.75 bar");
  EXPECT_EQ(print_quantity(82737.08751802033, Kind::pressure, System::imperial), "12 psi");
  for (const System system : {System::metric, System::imperial}) {
    EXPECT_EQ(print_quantity(-0.25 * kDegreeInSi, Kind::angle, system), "-0.25 deg");
    EXPECT_EQ(print_quantity(0.415, Kind::ratio, system), "41.5 %");
    EXPECT_EQ(print_quantity(3, Kind::count, system), "3");
  }
}

TEST(Print, AChangeCarriesItsSign) {
  EXPECT_EQ(print_change(0.01, Kind::length, System::metric), "+10 mm");
  EXPECT_EQ(print_change(-0.00635, Kind::length, System::imperial), "-1/4 in");
  EXPECT_EQ(print_change(0.0, Kind::length, System::metric), "0 mm");
  EXPECT_EQ(print_change(1e-9, Kind::length, System::metric), "0 mm");
  EXPECT_EQ(print_change(1, Kind::count, System::metric), "+1");
}

TEST(PartsOfAList, AreWhatStandsBetweenItsCommas) {
  using Parts = std::vector<std::string>;
  EXPECT_EQ(parts_of_list("36.8kg,34.2kg"), (Parts{"36.8kg", "34.2kg"}));
  EXPECT_EQ(parts_of_list("1 lb"), Parts{"1 lb"});
  EXPECT_EQ(parts_of_list(",2,"), (Parts{"", "2", ""}));
  EXPECT_EQ(parts_of_list(""), Parts{""});
}

TEST(ExpectedForm, GivesExamplesThatCanThemselvesBeRead) {
  for (const Kind kind :
       {Kind::length, Kind::mass, Kind::angle, Kind::pressure, Kind::ratio, Kind::count}) {
    const std::string_view form = expected_form(kind);
    std::size_t examples = 0;
    for (std::size_t open = form.find('`'); open != std::string_view::npos; ++examples) {
      const std::size_t close = form.find('`', open + 1);
      si_of(form.substr(open + 1, close - open - 1), kind);
      open = form.find('`', close + 1);
    }
    EXPECT_GE(examples, 1U) << form;
  }
}

}  // namespace
}  // namespace kartwright
