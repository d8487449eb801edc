#include "engine/document/yaml_words.h"

#include <gtest/gtest.h>

#include "engine/document/document.h"
#include "tests/support/kart_pack.h"
#include "tests/support/small_rules.h"

namespace kartwright {
namespace {

struct Broken {
  const char* name;
  const char* text;
  Code code;
  const char* message;
};

void PrintTo(const Broken& broken, std::ostream* out) { *out << broken.name; }

class BrokenYaml : public testing::TestWithParam<Broken> {};

TEST_P(BrokenYaml, IsToldInOurWordsWithAPlace) {
  const std::vector<Diagnostic> found =
      found_by([&] { parse_document("f.yaml", GetParam().text); });
  ASSERT_FALSE(found.empty());
  EXPECT_EQ(found.front().code, GetParam().code) << told(found);
  EXPECT_NE(found.front().message.find(GetParam().message), std::string::npos) << told(found);
  EXPECT_GT(found.front().span.line, 0);
  for (const char* jargon : {"illegal", "token", "sequence", "scalar", "node", "YAML:"}) {
    EXPECT_EQ(found.front().message.find(jargon), std::string::npos) << told(found);
  }
}

INSTANTIATE_TEST_SUITE_P(
    Each, BrokenYaml,
    testing::Values(Broken{"colon", "a: b: c", Code::not_yaml, "a colon"},
                    Broken{"list_in_value", "a: - b", Code::not_yaml, "a `-`"},
                    Broken{"closes_nothing", "a: ]", Code::not_yaml, "a bracket closes"},
                    Broken{"half_indented", "a:\n    b: 1\n  c: 2\n", Code::not_yaml, "a map ends"},
                    Broken{"list_half_indented", "a:\n    - b\n  - c\n", Code::not_yaml, ""},
                    Broken{"open_brace", "a: {b: 1\nc: 2\n", Code::not_yaml, ""},
                    Broken{"open_bracket", "a: [b\n", Code::not_yaml, "`[`"},
                    Broken{"tab", "a:\n\tb: 1\n", Code::not_yaml, "a tab"},
                    Broken{"escape", "a: \"\\q\"", Code::not_yaml, "a backslash"},
                    Broken{"hex", "a: \"\\xzz\"", Code::not_yaml, "a backslash"},
                    Broken{"reserved", "a: @b", Code::not_yaml, "a character"},
                    Broken{"percent", "%YAML x\n---\na: 1\n", Code::not_yaml, "`%`"},
                    Broken{"block", "a: | b\n", Code::not_yaml, "`|`"},
                    Broken{"star", "a: * b", Code::anchor_or_alias, "`*`"},
                    Broken{"alias", "a: *b", Code::anchor_or_alias, "an alias"},
                    Broken{"ampersand", "a: & b", Code::anchor_or_alias, "`&`"}),
    [](const auto& each) { return std::string(each.param.name); });

TEST(YamlWords, AMessageThatIsNotKnownKeepsItsWords) {
  EXPECT_EQ(in_our_words("something new").message, "this cannot be read as YAML: something new");
}

TEST(LongLines, AreRefusedBeforeTheyAreParsed) {
  const std::vector<Diagnostic> found =
      found_by([] { parse_document("f.yaml", "a: 1\nb: " + std::string(kLongestLine, 'x')); });
  ASSERT_EQ(found.size(), 1U);
  EXPECT_EQ(found[0].code, Code::too_large);
  EXPECT_EQ(found[0].span.line, 2);
  EXPECT_LT(found[0].source.size(), 500U);
  EXPECT_NO_THROW(parse_document("f.yaml", "b: " + std::string(kLongestLine - 3, 'x')));
}

TEST(OpenBrackets, AreRefusedInGreatNumberAndAtGreatLength) {
  std::string many, wide = "[\n";
  for (int i = 0; i < 1'001; ++i) many += "[\n";
  for (int i = 0; i < 50'000; ++i) wide += "a,\n";
  const auto deep = found_by([&] { parse_document("f.yaml", many); });
  ASSERT_EQ(deep.size(), 1U);
  EXPECT_EQ(deep[0].code, Code::too_deep);
  const auto large = found_by([&] { parse_document("f.yaml", wide); });
  ASSERT_EQ(large.size(), 1U);
  EXPECT_EQ(large[0].code, Code::too_large);
}

TEST(Findings, EndTheReadingAfterSoManyErrors) {
  std::string text;
  for (int i = 0; i < 1'000; ++i) text += "a: 1\n";
  const auto found = found_by([&] { parse_document("f.yaml", text); });
  EXPECT_EQ(found.size(), Findings::kMost);
}

TEST(Findings, DropWarningsBeyondSoManyButNoError) {
  Findings findings;
  for (int i = 0; i < 1'000; ++i) {
    findings.add({.code = Code::setting_off_step, .severity = Severity::warning});
  }
  findings.add({.code = Code::bad_number});
  EXPECT_EQ(findings.all().size(), Findings::kMost + 1);
  EXPECT_TRUE(findings.has_errors());
}

TEST(NearestName, ABeginningIsEnoughWhereOneNameHasIt) {
  EXPECT_EQ(nearest_name("rubber", {"cold", "rubbered-in"}), "rubbered-in");
  EXPECT_EQ(nearest_name("rear", {"rear-width", "rear-hubs"}), "");
  EXPECT_EQ(nearest_name(std::string(100, 'a'), {std::string(100, 'a') + 'b'}), "");
}

}  // namespace
}  // namespace kartwright
