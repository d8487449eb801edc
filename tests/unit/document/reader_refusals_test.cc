// The strict reader: what it refuses, each at its place.

#include <algorithm>

#include <gtest/gtest.h>

#include "engine/document/document.h"
#include "tests/support/kart_pack.h"
#include "tests/support/small_rules.h"

namespace kartwright {
namespace {

class RefusedText : public testing::TestWithParam<WrongInput> {};

TEST_P(RefusedText, IsToldOnceAtItsPlace) {
  const auto found = found_by([] { parse_document("f.yaml", GetParam().text); });
  expect_the_one_finding(GetParam(), found);
  for (const Diagnostic& each : found) EXPECT_EQ(each.file, "f.yaml");
}

const WrongInput kRefused[] = {
    {"key_twice", "toe: 1\ncamber: 2\ntoe: 3\n", Code::duplicate_key, 3, 1, "`toe`", "keep one"},
    {"key_twice_in_braces", "a: {é: 1, b: 2, é: 3}", Code::duplicate_key, 1, 17, "`é`", ""},
    {"key_twice_once_quoted", "a: 1\n'a': 2", Code::duplicate_key, 2, 1, "`a`", ""},
    {"key_twice_once_without_value", "{a, a: 1}", Code::duplicate_key, 1, 5, "`a`", ""},
    {"key_twice_deep_down", "x:\n  - y: {z: 1, z: 2}", Code::duplicate_key, 2, 15, "`z`", ""},
    {"anchor_on_scalar", "a: &x 1", Code::anchor_or_alias, 1, 4, "an anchor", "leave"},
    {"anchor_on_list", "a: &x [1]", Code::anchor_or_alias, 1, 4, "an anchor", ""},
    {"anchor_on_map", "a: &x {b: 1}", Code::anchor_or_alias, 1, 4, "an anchor", ""},
    {"anchor_on_key", "&x a: 1", Code::anchor_or_alias, 1, 1, "an anchor", ""},
    {"anchor_on_nothing", "a: &x", Code::anchor_or_alias, 1, 4, "an anchor", ""},
    {"merge_key", "<<: {a: 1}", Code::anchor_or_alias, 1, 1, "a merge key", "write the keys"},
    {"alias_of_nothing", "b: *x", Code::anchor_or_alias, 1, 4, "an alias", "write"},
    {"tag_of_a_type", "a: !!str 1", Code::tag, 1, 4, "a tag", "leave"},
    {"tag_of_ones_own", "a: !wide [1]", Code::tag, 1, 4, "a tag", ""},
    {"tag_on_map", "a: !wide {b: 1}", Code::tag, 1, 4, "a tag", ""},
    {"tag_without_name", "a: ! b", Code::tag, 1, 4, "a tag", ""},
    {"tag_in_full", "a: !<tag:yaml.org,2002:str> b", Code::tag, 1, 4, "a tag", ""},
    {"tag_without_name_on_list", "a: ! [b]", Code::tag, 1, 4, "a tag", ""},
    {"tag_on_nothing", "a: !\nb: 1", Code::tag, 1, 4, "a tag", ""},
    {"tag_on_quoted", "a: ! 'b'", Code::tag, 1, 4, "a tag", ""},
    {"tag_on_key", "!wide a: 1", Code::tag, 1, 1, "a tag", ""},
    {"second_document", "a: 1\n---\nb: 2\n", Code::more_than_one_document, 2, 1, "second",
     "one document"},
    {"second_document_empty", "a: 1\n---\n", Code::more_than_one_document, 2, 1, "", ""},
    {"second_document_after_end", "a: 1\n...\nb: 2\n", Code::more_than_one_document, 3, 1, "", ""},
    {"left_over_after_list", "[a]\nb\n", Code::more_than_one_document, 2, 1, "left over", ""},
    {"left_over_after_map", "{a: 1} é", Code::more_than_one_document, 1, 8, "left over", ""},
    {"comma_alone", ",", Code::more_than_one_document, 1, 1, "", ""},
    {"open_double_quote", "é: \"x\nb: 1\n", Code::unclosed_quote, 1, 4, "never closes", "close"},
    {"open_single_quote", "a: 1\nb: 'it\nc: 2\n", Code::unclosed_quote, 2, 4, "never closes", ""},
    {"open_quote_at_the_end", "a: \"x", Code::unclosed_quote, 1, 4, "never closes", ""},
    {"open_quote_alone", "'", Code::unclosed_quote, 1, 1, "never closes", ""},
    {"open_quote_in_key", "\"a: 1\n", Code::unclosed_quote, 1, 1, "never closes", ""},
    {"open_quote_in_list", "- x\n- 'y\n- z\n", Code::unclosed_quote, 2, 3, "never closes", ""},
    {"only_escaped_quotes", "a: \"x\\\"\n", Code::unclosed_quote, 1, 4, "never closes", ""},
    {"only_doubled_quotes", "a: 'x''\n", Code::unclosed_quote, 1, 4, "never closes", ""},
    {"list_as_key", "[a, b]: c", Code::wrong_shape, 1, 1, "a key must be a plain word", ""},
    {"map_as_key", "x: 1\n{y: 1}: d", Code::wrong_shape, 2, 1, "a key must be a plain word", ""},
    {"complex_list_as_key", "? - x\n: d", Code::wrong_shape, 1, 3, "a key must be a plain", ""},
    {"complex_map_as_key", "? x: y\n: d", Code::wrong_shape, 1, 3, "a key must be a plain", ""},
    {"nothing_as_key", ": x", Code::wrong_shape, 1, 1, "a key must be a plain word", ""},
    {"tab_as_indent", "a: 1\n\tb: 2", Code::not_yaml, 2, 1, "tab", ""},
    {"map_in_a_value", "ß: é: 1", Code::not_yaml, 1, 5, "a colon", ""},
    {"list_left_open", "a: [1, 2", Code::not_yaml, 1, 9, "`[`", ""},
    {"escape_unknown", "é: \"x\\qy\"", Code::not_yaml, 1, 8, "a backslash", ""},
    {"reserved_sign", "a: `b`", Code::not_yaml, 1, 4, "a character", ""},
    {"zero_byte", std::string("é: a\0b", 7), Code::not_utf8, 1, 5, "a control character",
     "take it out"},
    {"control_character", "a: 1\n\x04\nb: 2\n", Code::not_utf8, 2, 1, "a control character", ""},
    {"bell", "a: 1\nb: é\x07", Code::not_utf8, 2, 5, "a control character", ""},
    {"delete", "a: \x7F", Code::not_utf8, 1, 4, "a control character", ""},
    {"latin_one", "a: 1\n\nb: é\xE9t\xE9\n", Code::not_utf8, 3, 5, "is not UTF-8 text", "UTF-8"},
    {"cut_off_character", "a: x\xE2\x82", Code::not_utf8, 1, 5, "is not UTF-8 text", ""},
    {"surrogate", "a: \xED\xA0\x80", Code::not_utf8, 1, 4, "is not UTF-8 text", ""},
    {"utf_sixteen",
     std::string("\xFF\xFE"
                 "a\0:\0",
                 6),
     Code::not_utf8, 1, 1, "is not UTF-8 text", ""},
    {"control_before_bad_byte", "a: \x01\xFF", Code::not_utf8, 1, 4, "", ""},
    {"bad_byte_before_control", "a: \xFF\x01", Code::not_utf8, 1, 4, "", ""},
    {"too_large", "a: 1\n" + std::string(kLargestFile, '#'), Code::too_large, 0, 0, "1 MiB", ""},
    {"lists_too_deep", std::string(33, '[') + std::string(33, ']'), Code::too_deep, 1, 33, "deep",
     "32"},
    {"dashes_too_deep",
     [] {
       std::string text;
       for (int i = 0; i < 5000; ++i) text += "- ";
       return text;
     }(),
     Code::too_deep, 1, 65, "deep", "32"},
};

INSTANTIATE_TEST_SUITE_P(Each, RefusedText, testing::ValuesIn(kRefused),
                         [](const auto& each) { return case_name(each); });

std::vector<std::string> places(const std::vector<Diagnostic>& found) {
  std::vector<std::string> all;
  for (const Diagnostic& each : found) {
    all.push_back(std::string(code_name(each.code)) + " " + std::to_string(each.span.line) + ":" +
                  std::to_string(each.span.column));
  }
  return all;
}

TEST(RefusedTexts, AreToldAllInOneRun) {
  const auto found = found_by([] {
    parse_document("f.yaml",
                   "a: &x 1\n"
                   "b: *x\n"
                   "a: !t 2\n"
                   "<<: {c: 1, c: 2}\n"
                   "[d]: e\n"
                   "---\n"
                   "f: 'g\n");
  });
  EXPECT_EQ(places(found),
            (std::vector<std::string>{"D007 1:4", "D007 2:4", "D005 3:1", "D008 3:4", "D007 4:1",
                                      "D005 4:12", "D010 5:1", "D006 6:1"}))
      << told(found);
}

TEST(RefusedTexts, WhatCameBeforeAHaltIsKept) {
  const auto found = found_by([] { parse_document("f.yaml", "a: 1\na: 2\nb: c: d\n"); });
  EXPECT_EQ(places(found), (std::vector<std::string>{"D005 2:1", "D002 3:5"})) << told(found);
}

TEST(RefusedTexts, SizeAndBadBytesAreToldTogether) {
  const auto found =
      found_by([] { parse_document("f.yaml", std::string(kLargestFile, 'a') + "\n\xFF"); });
  EXPECT_EQ(places(found), (std::vector<std::string>{"D003 0:0", "D001 2:1"})) << told(found);
}

TEST(RefusedTexts, AliasesAreNeverUnfolded) {
  std::string bomb = "a0: &a0 [x, x, x, x, x, x, x, x, x]\n";
  for (int i = 1; i <= 30; ++i) {
    const std::string before = "*a" + std::to_string(i - 1);
    bomb += "a" + std::to_string(i) + ": &a" + std::to_string(i) + " [" + before;
    for (int k = 1; k < 9; ++k) bomb += ", " + before;
    bomb += "]\n";
  }
  const auto found = found_by([&] { parse_document("f.yaml", bomb); });
  EXPECT_EQ(found.size(), Findings::kMost);  // of three hundred
  EXPECT_TRUE(std::all_of(found.begin(), found.end(), [](const Diagnostic& each) {
    return each.code == Code::anchor_or_alias;
  }));
}

TEST(RefusedTexts, ManyBracketsWithoutEndAreRefusedBeforeTheStackIsUsedUp) {
  for (const char* open : {"[", "{", "{a: ", "- ", "? "}) {
    std::string text;
    while (text.size() < kLongestLine - 10) text += open;
    const auto found = found_by([&] { parse_document("f.yaml", text); });
    ASSERT_EQ(found.size(), 1U) << open;
    EXPECT_EQ(found[0].code, Code::too_deep) << open;
  }
}

TEST(RefusedTexts, AnAnchorInsideItselfIsRefusedAndEnds) {
  const auto found = found_by([] { parse_document("f.yaml", "&x [*x, *x]"); });
  EXPECT_EQ(places(found), (std::vector<std::string>{"D007 1:1", "D007 1:5", "D007 1:9"}));
}

TEST(RefusedTexts, TheLineIsShownAsItStands) {
  const auto found = found_by([] { parse_document("f.yaml", "a: 1\n  é: b\n"); });
  ASSERT_EQ(found.size(), 1U);
  EXPECT_EQ(found[0].source, "  é: b");
}

TEST(RefusedTexts, BytesThatAreNotTextAreNotShown) {
  const auto found = found_by([] { parse_document("f.yaml", "a: \xFF\xFE\n"); });
  ASSERT_EQ(found.size(), 1U);
  EXPECT_EQ(found[0].source, "");
}

}  // namespace
}  // namespace kartwright
