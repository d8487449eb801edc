#include "engine/document/utf8.h"

#include <string>

#include <gtest/gtest.h>

namespace kartwright {
namespace {

TEST(Utf8, EveryLengthOfSequenceIsWellFormedAtBothItsEnds) {
  for (const std::string text :
       {"\x01", "\x7F", "\xC2\x80", "\xDF\xBF", "\xE0\xA0\x80", "\xED\x9F\xBF", "\xEE\x80\x80",
        "\xEF\xBF\xBF", "\xF0\x90\x80\x80", "\xF4\x8F\xBF\xBF"}) {
    EXPECT_FALSE(first_invalid_utf8(text)) << text;
    EXPECT_FALSE(first_invalid_utf8("a" + text + "b")) << text;
    EXPECT_EQ(characters(text), 1U) << text;
  }
  EXPECT_FALSE(first_invalid_utf8(""));
  EXPECT_FALSE(first_invalid_utf8(std::string("a\0b", 3)));  // a character like any other here
}

// RFC 3629, sections 3, 4 and 10: overlong forms, surrogates, beyond U+10FFFF, stray and missing
// continuations.
TEST(Utf8, WhatTheStandardForbidsIsFoundAtItsFirstByte) {
  for (const std::string text : {"\x80",
                                 "\xBF",
                                 "\xC0\x80",
                                 "\xC1\xBF",
                                 "\xE0\x9F\xBF",
                                 "\xED\xA0\x80",
                                 "\xED\xBF\xBF",
                                 "\xF0\x8F\xBF\xBF",
                                 "\xF4\x90\x80\x80",
                                 "\xF5\x80\x80\x80",
                                 "\xFE",
                                 "\xFF",
                                 "\xC3",
                                 "\xE2\x82",
                                 "\xF0\x9F\x8F",
                                 "\xC3(",
                                 "\xE2(\xAC",
                                 "\xE2\x82(",
                                 "\xF0(\x8F\x81",
                                 "\xF0\x9F(\x81",
                                 "\xF0\x9F\x8F("}) {
    EXPECT_EQ(first_invalid_utf8(text), 0U) << testing::PrintToString(text);
    EXPECT_EQ(first_invalid_utf8("\xC3\xA9x" + text), 3U) << testing::PrintToString(text);
  }
}

TEST(Utf8, CharactersAreCodePointsNotBytes) {
  EXPECT_EQ(characters(""), 0U);
  EXPECT_EQ(characters("push"), 4U);
  EXPECT_EQ(characters("-0.5 ± 0.2"), 10U);
  EXPECT_EQ(characters("\xF0\x9F\x8F\x81 é €"), 5U);
}

}  // namespace
}  // namespace kartwright
