#include "engine/document/diagnostic.h"

#include <gtest/gtest.h>

namespace kartwright {
namespace {

struct Distance {
  const char *a, *b;
  int edits;
};

// kitten and Saturday: the textbook pairs of Levenshtein distance. ca and abc: the textbook pair
// that tells optimal string alignment (3) from a distance with free transpositions (2).
constexpr Distance kDistances[] = {
    {"", "", 0},         {"hop", "", 3},       {"", "hop", 3},    {"hop", "hop", 0},
    {"hop", "hops", 1},  {"hops", "hop", 1},   {"hop", "hip", 1}, {"hop", "ohp", 1},
    {"push", "pusj", 1}, {"psuh", "push", 1},  {"ca", "abc", 3},  {"kitten", "sitting", 3},
    {"ab", "ba", 1},     {"abcd", "badc", 2},  {"abc", "cab", 2}, {"saturday", "sunday", 3},
    {"a", "bcd", 3},     {"axle", "exale", 2}, {"toe", "Toe", 1}, {"camber", "caster", 2},
};

TEST(EditDistance, IsThatOfTheTextbooks) {
  for (const Distance& pair : kDistances) {
    EXPECT_EQ(edit_distance(pair.a, pair.b), pair.edits) << pair.a << ' ' << pair.b;
    EXPECT_EQ(edit_distance(pair.b, pair.a), pair.edits) << pair.b << ' ' << pair.a;
  }
}

TEST(NearestName, IsTheOneWithFewestEdits) {
  const std::vector<std::string> known{"front-width", "rear-hubs", "rear-width", "toe"};
  EXPECT_EQ(nearest_name("rear-widht", known), "rear-width");
  EXPECT_EQ(nearest_name("rearwidth", known), "rear-width");
  EXPECT_EQ(nearest_name("rear-hub", known), "rear-hubs");
  EXPECT_EQ(nearest_name("toe", known), "toe");
}

TEST(NearestName, IsNoneWhereAThirdOfTheLettersWouldNotDo) {
  EXPECT_EQ(nearest_name("tow", {"toe"}), "toe");     // a short word may be one edit off
  EXPECT_EQ(nearest_name("two", {"toe"}), "");        // but not two
  EXPECT_EQ(nearest_name("caaste", {"camber"}), "");  // six letters, three edits
  EXPECT_EQ(nearest_name("caster", {"camber"}), "camber");
  EXPECT_EQ(nearest_name("bodywork", {"axle", "toe"}), "");
  EXPECT_EQ(nearest_name("9", {"1"}), "");  // all of it is changed
  EXPECT_EQ(nearest_name("toe", {}), "");
}

TEST(NearestName, OfTwoAsNearIsTheFirstOfTheAlphabetWhateverTheOrder) {
  EXPECT_EQ(nearest_name("hop", {"pop", "hip"}), "hip");
  EXPECT_EQ(nearest_name("hop", {"hip", "pop"}), "hip");
}

TEST(Suggestion, AsksForTheNearNameElseListsAFew) {
  EXPECT_EQ(suggestion("brkae", {"brake", "throttle"}), "did you mean `brake`?");
  EXPECT_EQ(suggestion("clutch", {"brake", "throttle"}), "one of brake, throttle");
  EXPECT_EQ(suggestion("clutch", {}), "");
}

TEST(Suggestion, ListsEightNamesButNotNine) {
  std::vector<std::string> known{"n1", "n2", "n3", "n4", "n5", "n6", "n7", "n8"};
  EXPECT_EQ(suggestion("clutch", known), "one of n1, n2, n3, n4, n5, n6, n7, n8");
  known.emplace_back("n9");
  EXPECT_EQ(suggestion("clutch", known), "");
}

Diagnostic finding(Code code, Severity severity) { return {.code = code, .severity = severity}; }

TEST(Findings, WarningsAloneAreNotThrown) {
  Findings findings;
  EXPECT_NO_THROW(findings.throw_if_errors());
  findings.add(finding(Code::setting_off_step, Severity::warning));
  EXPECT_FALSE(findings.has_errors());
  EXPECT_NO_THROW(findings.throw_if_errors());
  EXPECT_EQ(findings.all().size(), 1U);
}

TEST(Findings, AnErrorThrowsAllThatWasFoundInOrder) {
  Findings findings;
  findings.add(finding(Code::setting_off_step, Severity::warning));
  findings.add(finding(Code::unknown_key, Severity::error));
  findings.add(finding(Code::bad_number, Severity::error));
  EXPECT_TRUE(findings.has_errors());
  try {
    findings.throw_if_errors();
    FAIL() << "nothing was thrown";
  } catch (const InputError& error) {
    ASSERT_EQ(error.found().size(), 3U);
    EXPECT_EQ(error.found()[0].code, Code::setting_off_step);
    EXPECT_EQ(error.found()[1].code, Code::unknown_key);
    EXPECT_EQ(error.found()[2].code, Code::bad_number);
    EXPECT_STRNE(error.what(), "");
  }
}

}  // namespace
}  // namespace kartwright
