// The rule files of measured checks: what is read, and what is refused.

#include <set>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "engine/knowledge/built_in.h"
#include "engine/knowledge/load.h"
#include "tests/support/small_rules.h"

namespace kartwright {
namespace {

/// A gauge on top of the small rules, with one piece of it exchanged.
std::string own_gauge(const std::string& piece = "", const std::string& by = "") {
  std::string text =
      "gauge: axle-swing\n"
      "label: swing of the axle\n"
      "plain: whether it is straight\n"
      "steps: [turn it, read it]\n"
      "amounts:\n"
      "  - {reading: swing, label: swing, kind: length, plausible: {from: 0 mm, to: 9 mm}, "
      "example: "
      "1 mm}\n"
      "choices:\n"
      "  - {choice: where, label: where, values: [{value: mid, label: middle}, {value: end, label: "
      "end}]}\n"
      "figures:\n"
      "  - {figure: bend, label: bend, kind: length, formula: half, of: [swing]}\n"
      "verdicts:\n"
      "  - {id: swings-little, of: bend, to: 1 mm, ok: yes, says: straight, because: it is, do: "
      "nothing, provenance: {practice: common}, status: test}\n"
      "  - {id: swings-much, of: bend, from: 1 mm, side: over, ok: no, says: bent, because: it is "
      "not, do: replace it, states: {turn-in: throttle}, provenance: {practice: common}, status: "
      "test}\n";
  if (piece.empty()) return text;
  const std::size_t at = text.find(piece);
  EXPECT_NE(at, std::string::npos) << piece;
  return text.replace(at, piece.size(), by);
}

TEST(GaugeRules, AGaugeIsReadAsItIsWritten) {
  const Pack pack = small_pack_with(own_gauge());
  const Gauge* gauge = pack.gauge("axle-swing");
  ASSERT_NE(gauge, nullptr);
  EXPECT_EQ(gauge->steps.size(), 2U);
  ASSERT_NE(gauge->reading("swing"), nullptr);
  EXPECT_DOUBLE_EQ(gauge->reading("swing")->to, 0.009);
  ASSERT_NE(gauge->figure("bend"), nullptr);
  EXPECT_EQ(gauge->figure("bend")->formula, Formula::half);
  ASSERT_EQ(gauge->verdicts.size(), 2U);
  EXPECT_TRUE(gauge->verdicts[0].ok);
  EXPECT_EQ(gauge->verdicts[1].side, BandSide::over);
  EXPECT_EQ(gauge->verdicts[1].status, Status::test);
  EXPECT_EQ(gauge->verdicts[1].states.at(0),
            std::pair(std::string("turn-in"), std::string("throttle")));
}

TEST(GaugeRules, WhatAVerdictDoesToTheOthersIsRead) {
  const Pack plain = small_pack_with(own_gauge());
  EXPECT_FALSE(plain.gauge("axle-swing")->verdicts[1].stops);
  EXPECT_FALSE(plain.gauge("axle-swing")->figure("bend")->inner);
  const Pack stops = small_pack_with(own_gauge("ok: no", "ok: no, stops: yes, alone: yes"));
  EXPECT_TRUE(stops.gauge("axle-swing")->verdicts[1].stops);
  EXPECT_TRUE(stops.gauge("axle-swing")->verdicts[1].alone);
  const Pack quiet = small_pack_with(own_gauge("ok: yes", "ok: yes, quiet: yes"));
  EXPECT_TRUE(quiet.gauge("axle-swing")->verdicts[0].quiet);
  const Pack shown =
      small_pack_with(own_gauge("of: [swing]", "inner: yes, shown-to: 0.1 mm, of: [swing]"));
  EXPECT_TRUE(shown.gauge("axle-swing")->figure("bend")->inner);
  EXPECT_DOUBLE_EQ(shown.gauge("axle-swing")->figure("bend")->shown_to.value(), 0.0001);
}

struct WrongGauge {
  const char *piece, *by, *message;
};

TEST(GaugeRules, WhatCannotBeIsRefusedAtItsPlace) {
  const WrongGauge wrong[] = {
      {"formula: half", "formula: halve", "`halve` is not a formula"},
      {"of: [swing]", "of: [swing, swing]", "is worked out of 1 inputs"},
      {"of: [swing]", "of: [swin]", "`swin` is not a reading"},
      {"of: bend, to", "of: bent, to", "`bent` is not a figure"},
      {"from: 1 mm, side", "from: 2 mm, side", "leave a gap or overlap"},
      {"to: 1 mm, ok", "to: 3 mm, ok", "leave a gap or overlap"},
      {"side: over", "side: beyond", "`beyond` is not a side"},
      {"turn-in: throttle", "turn-in: shakes", "`shakes` is not a value"},
      {"turn-in: throttle", "turn-im: throttle", "`turn-im` is not a fact"},
      {"{from: 0 mm, to: 9 mm}", "{from: 0 mm}", "`plausible` needs both ends"},
      {"{from: 0 mm, to: 9 mm}", "{from: 9 mm, to: 0 mm}", "begins at or beyond its end"},
      {"formula: half", "formula: side-difference", "of all four tyres"},
      {"id: swings-much", "id: swings-little", "`swings-little` is used twice"},
  };
  for (const WrongGauge& each : wrong) {
    const auto found = found_in_own(own_gauge(each.piece, each.by));
    ASSERT_FALSE(found.empty()) << each.message;
    EXPECT_THAT(found.front().message, testing::HasSubstr(each.message));
    EXPECT_GT(found.front().span.line, 0);
  }
}

TEST(GaugeRules, ACrewsOwnGaugeTakesThePlaceOfTheBuiltInOne) {
  std::string text = own_gauge("gauge: axle-swing", "gauge: collars");
  const Pack pack = load_pack(built_in_rules(), {parse_document("own.yaml", text)});
  ASSERT_NE(pack.gauge("collars"), nullptr);
  EXPECT_EQ(pack.gauge("collars")->label, "swing of the axle");
}

TEST(GaugeRules, TheBuiltInOnesAreThoseThatACrewMeasures) {
  std::set<std::string> ids;
  for (const Gauge& gauge : load_pack(built_in_rules(), {}).gauges) ids.insert(gauge.id);
  EXPECT_THAT(ids, testing::ElementsAre("bearings", "chain", "chain-length", "collars", "pressures",
                                        "run-out", "sprockets", "toe"));
}

// Where a gauge has a default for a reading, the pack has the dimension that it is taken from.
TEST(GaugeRules, EveryStandInIsADimensionOfThePack) {
  const Pack pack = load_pack(built_in_rules(), {});
  for (const Gauge& gauge : pack.gauges) {
    for (const GaugeReading& reading : gauge.readings) {
      if (reading.dimension.empty()) continue;
      ASSERT_NE(pack.dimension(reading.dimension), nullptr) << reading.dimension;
      EXPECT_TRUE(pack.dimension(reading.dimension)->assumed.has_value());
    }
  }
}

// A crew's band sorts an amount to one of three sides, so each side that can be must have a
// verdict.
TEST(GaugeRules, AFigureWithAMeasureHasAVerdictWithinAndOneBeyond) {
  for (const Gauge& gauge : load_pack(built_in_rules(), {}).gauges) {
    for (const GaugeFigure& figure : gauge.figures) {
      if (figure.measure.empty()) continue;
      std::set<BandSide> sides;
      for (const GaugeVerdict& each : gauge.verdicts) {
        if (each.of == figure.id) sides.insert(each.side);
      }
      EXPECT_TRUE(sides.contains(BandSide::within)) << gauge.id;
      EXPECT_GE(sides.size(), 2U) << gauge.id;
    }
  }
}

}  // namespace
}  // namespace kartwright
