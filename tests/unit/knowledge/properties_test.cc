// `properties:` of a rule file: what a pack claims of its advice.

#include <gtest/gtest.h>

#include "engine/knowledge/load.h"
#include "tests/support/kart_pack.h"
#include "tests/support/small_rules.h"

namespace kartwright {
namespace {

/// A property with one line of its own; what it does not say is in order.
std::string property(const std::string& line, const std::string& left_out = {}) {
  std::string text = "properties:\n  - " + line + "\n";
  for (const std::string key :
       {"id: opposite-moves", "because: x", "provenance: {practice: common}", "status: test"}) {
    const std::string name = key.substr(0, key.find(':') + 1);
    if (!line.starts_with(name) && name != left_out) text += "    " + key + "\n";
  }
  return text;
}

TEST(PropertyRules, AreReadWithWhatEveryRuleCarries) {
  const Pack pack = small_pack_with(property("id: worse-reports"));
  ASSERT_EQ(pack.properties.size(), 1U);
  const Property& claim = pack.properties[0];
  EXPECT_EQ(claim.id, "worse-reports");
  EXPECT_EQ(claim.kind, PropertyKind::worse_reports);
  EXPECT_EQ(claim.because, "x");
  EXPECT_TRUE(claim.provenance.practice);
  EXPECT_EQ(claim.status, Status::test);
  EXPECT_EQ(claim.source.text(), "own.yaml:2");
  EXPECT_TRUE(claim.claimed_of("push"));
  EXPECT_TRUE(claim.claimed_of("anything"));
}

TEST(PropertyRules, AreClaimedOfWhatTheyNameWithoutTheExceptions) {
  const Pack pack = small_pack_with(
      property("adjustments: [axle, rear-width]") +
      "    except: [{adjustment: axle, because: a stiff axle lets go all at once}]\n");
  const Property& claim = pack.properties.at(0);
  EXPECT_TRUE(claim.claimed_of("rear-width"));
  EXPECT_FALSE(claim.claimed_of("axle"));
  EXPECT_FALSE(claim.claimed_of("caster"));
  ASSERT_EQ(claim.exceptions.size(), 1U);
  EXPECT_EQ(claim.exceptions[0].because, "a stiff axle lets go all at once");
}

TEST(PropertyRules, TwoOfSymptomsAndTwoOfAdjustments) {
  EXPECT_EQ(told(found_in_own(property("id: left-and-right") + "    symptoms: [push]\n")), "");
  EXPECT_EQ(told(found_in_own(property("id: worse-reports") + "    symptoms: push\n")), "");
  EXPECT_EQ(told(found_in_own(property("id: opposite-moves") + "    adjustments: [axle]\n")), "");
  EXPECT_EQ(
      told(found_in_own(property("id: inches-and-millimetres") + "    adjustments: [axle]\n")), "");
}

TEST(PropertyRules, ACrewsOwnTakesThePlaceOfTheOneBelow) {
  const std::vector<Document> base{parse_document("base.yaml", property("because: theirs"))};
  std::vector<Document> below = small_rules();
  below.push_back(base[0]);
  const Pack pack = load_pack(below, {parse_document("own.yaml", property("because: ours"))});
  ASSERT_EQ(pack.properties.size(), 1U);
  EXPECT_EQ(pack.properties[0].because, "ours");
}

class WrongProperty : public testing::TestWithParam<WrongInput> {};

TEST_P(WrongProperty, IsToldOnceAtItsPlace) {
  expect_the_one_finding(GetParam(), found_in_own(GetParam().text));
}

constexpr Code kWrongName = Code::unknown_name;

const WrongInput kWrongProperties[] = {
    {"not_a_list", "properties: {id: opposite-moves}", Code::wrong_shape, 1, 13, "`properties`",
     "behind a dash"},
    {"unknown_kind", property("id: oposite-moves"), kWrongName, 2, 9,
     "`oposite-moves` is not a property", "`opposite-moves`"},
    {"no_id", property("because: x", "id:"), Code::missing_key, 2, 5, "needs `id`", ""},
    {"no_because", property("id: opposite-moves", "because:"), Code::missing_key, 2, 5,
     "needs `because`", ""},
    {"no_provenance", property("id: opposite-moves", "provenance:"), Code::missing_key, 2, 5,
     "needs `provenance`", ""},
    {"no_status", property("id: opposite-moves", "status:"), Code::missing_key, 2, 5,
     "needs `status`", ""},
    {"scope_of_the_other_sort", property("symptoms: [push]"), Code::unknown_key, 2, 5, "`symptoms`",
     ""},
    {"unknown_adjustment", property("adjustments: [rear-widht]"), kWrongName, 2, 18,
     "`rear-widht` is not an adjustment", "`rear-width`"},
    {"unknown_symptom", property("id: worse-reports") + "    symptoms: [psuh]\n", kWrongName, 6, 15,
     "`psuh` is not a symptom", "`push`"},
    {"except_not_a_list", property("except: axle"), Code::wrong_shape, 2, 13, "`except`", ""},
    {"except_unknown", property("except: [{adjustment: axel, because: x}]"), kWrongName, 2, 27,
     "`axel` is not an adjustment", "`axle`"},
    {"except_without_reason", property("except: [{adjustment: axle}]"), Code::missing_key, 2, 14,
     "needs `because`", ""},
    {"except_of_the_other_sort",
     property("id: worse-reports") + "    except: [{symptom: push, because: x, side: left}]\n",
     Code::unknown_key, 6, 42, "`side`", ""},
    {"except_what_was_not_claimed",
     property("adjustments: [axle]") + "    except: [{adjustment: rear-width, because: x}]\n",
     Code::bad_rule, 7, 14, "`rear-width` is excepted, but", "`adjustments`"},
    {"twice",
     property("id: opposite-moves") + "  - {id: opposite-moves, because: x, provenance: {practice: "
                                      "common}, status: test}\n",
     Code::duplicate_id, 6, 1, "the property id `opposite-moves` is used twice", "own.yaml:2"},
};

INSTANTIATE_TEST_SUITE_P(Each, WrongProperty, testing::ValuesIn(kWrongProperties),
                         [](const auto& each) { return case_name(each); });

}  // namespace
}  // namespace kartwright
