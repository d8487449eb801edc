#include "engine/knowledge/pack.h"

#include <gtest/gtest.h>

#include "engine/knowledge/load.h"
#include "tests/support/small_rules.h"

namespace kartwright {
namespace {

TEST(Provenance, SaysWhatStandsBehindARule) {
  EXPECT_EQ(Provenance{.practice = true}.text(), "common practice");
  EXPECT_EQ((Provenance{.groups_for = 8, .groups_against = 3}.text()),
            "published: 8 groups for, 3 against");
  EXPECT_EQ((Provenance{.groups_for = 1}.text()), "published: 1 group for, 0 against");
  EXPECT_EQ((Provenance{.groups_against = 2}.text()), "published: 0 groups for, 2 against");
  EXPECT_EQ((Provenance{.practice = true, .groups_for = 5, .groups_against = 1, .note = "in rain"}
                 .text()),
            "common practice; published: 5 groups for, 1 against; in rain");
  EXPECT_EQ((Provenance{.note = "from memory"}.text()), "from memory");
}

TEST(Provenance, IsReadWithTheNotesOfBothPlaces) {
  const Pack pack = small_pack_with(
      "derive:\n"
      "  - id: own\n"
      "    when: {track: cold}\n"
      "    then: {raised-mass: no}\n"
      "    because: x\n"
      "    provenance: {practice: common, note: here, published: {for: 1 group, against: 12 groups,"
      " note: there}}\n"
      "    status: experimental\n");
  const DeriveRule& rule = pack.derives.front();
  EXPECT_EQ(rule.id, "own");
  EXPECT_EQ(rule.status, Status::experimental);
  EXPECT_EQ(rule.provenance.text(),
            "common practice; published: 1 group for, 12 against; here; there");
}

TEST(Hearing, SureWordsSpreadLessThanUnsureOnes) {
  const Hearing hearing = load_pack(small_rules()).hearing;
  EXPECT_EQ(hearing.confidence_sd(Confidence::sure), 0.4);
  EXPECT_EQ(hearing.confidence_sd(Confidence::fair), 0.7);
  EXPECT_EQ(hearing.confidence_sd(Confidence::unsure), 1.2);
}

TEST(Phrase, HasAWordingOnEachLineAndWordsInEachWording) {
  Phrase phrase;
  EXPECT_TRUE(wordings_of(phrase).empty());
  phrase.wordings = "wash* out";
  EXPECT_EQ(wordings_of(phrase), std::vector<std::string_view>{"wash* out"});
  phrase.wordings += "\npush*";
  EXPECT_EQ(wordings_of(phrase), (std::vector<std::string_view>{"wash* out", "push*"}));
  EXPECT_EQ(words_in("  wash*  out\n"), (std::vector<std::string>{"wash*", "out"}));
  EXPECT_TRUE(words_in(" ").empty());
}

TEST(Pack, FindsById) {
  const Pack pack = load_pack(small_rules());
  EXPECT_EQ(pack.symptom("push")->id, "push");
  EXPECT_EQ(pack.symptom("psuh"), nullptr);
  EXPECT_EQ(pack.adjustment("axle")->id, "axle");
  EXPECT_EQ(pack.fault("bent-axle")->id, "bent-axle");
  EXPECT_EQ(pack.fact("laps")->id, "laps");
  EXPECT_EQ(pack.track("green")->id, "green");
  EXPECT_EQ(pack.measure("front-share")->id, "front-share");
  EXPECT_EQ(pack.measure("wheelbase"), nullptr);
  EXPECT_EQ(pack.dimension("wheelbase")->id, "wheelbase");
  EXPECT_EQ(pack.caution("torque")->text, "fasteners to the maker's torque");
  EXPECT_EQ(pack.caution(""), nullptr);
}

TEST(Names, OfPhasesSidesTimesAndSurenessGoThereAndBack) {
  for (const Phase phase : {Phase::entry, Phase::mid, Phase::exit, Phase::straight, Phase::any}) {
    EXPECT_EQ(phase_named(name_of(phase)), phase);
  }
  for (const Side side : {Side::left, Side::right}) EXPECT_EQ(side_named(name_of(side)), side);
  for (const When when : {When::early, When::late}) EXPECT_EQ(when_named(name_of(when)), when);
  for (const Confidence c : {Confidence::sure, Confidence::fair, Confidence::unsure}) {
    EXPECT_EQ(confidence_named(name_of(c)), c);
  }
  EXPECT_EQ(name_of(Phase::mid), "mid");
  EXPECT_EQ(phase_named("middle"), std::nullopt);
  EXPECT_EQ(phase_named("Entry"), std::nullopt);
  EXPECT_EQ(side_named(""), std::nullopt);
}

}  // namespace
}  // namespace kartwright
