#include "engine/debrief/glyphs.h"

#include <gtest/gtest.h>

namespace kartwright {
namespace {

TEST(Glyphs, ReadsOneToFourBytes) {
  EXPECT_EQ(glyph_at("a", 0).code, U'a');
  EXPECT_EQ(glyph_at("x\xC3\xA9", 1).code, U'\u00E9');
  EXPECT_EQ(glyph_at("\xE2\x80\x99", 0).code, U'\u2019');
  EXPECT_EQ(glyph_at("\xF0\x9F\x8F\x81", 0).code, U'\U0001F3C1');
  EXPECT_EQ(glyph_at("\xF0\x9F\x8F\x81", 0).bytes, 4u);
}

TEST(Glyphs, BrokenBytesAreReadOneByOne) {
  for (const std::string_view text :
       {"\xFF", "\x80", "\xC3", "\xE2\x80", "\xC0\xAF", "\xED\xA0\x80"}) {
    const Glyph glyph = glyph_at(text, 0);
    EXPECT_TRUE(glyph.broken);
    EXPECT_EQ(glyph.bytes, 1u);
    EXPECT_EQ(kind_of(glyph), GlyphKind::letter);
  }
}

TEST(Glyphs, KnowsTheMarksOfTypewritersAndOfPhones) {
  EXPECT_EQ(kind_of(glyph_at("'", 0)), GlyphKind::apostrophe);
  EXPECT_EQ(kind_of(glyph_at("\u2019", 0)), GlyphKind::apostrophe);
  EXPECT_EQ(kind_of(glyph_at("\u2014", 0)), GlyphKind::comma);
  EXPECT_EQ(kind_of(glyph_at("\u2026", 0)), GlyphKind::stop);
  EXPECT_EQ(kind_of(glyph_at("\u00A0", 0)), GlyphKind::gap);
  EXPECT_EQ(kind_of(glyph_at("/", 0)), GlyphKind::gap);
  EXPECT_EQ(kind_of(glyph_at("\u00FC", 0)), GlyphKind::letter);
}

TEST(Glyphs, WhatSteersATerminalIsControl) {
  EXPECT_TRUE(is_control(glyph_at("\x1B", 0)));
  EXPECT_TRUE(is_control(glyph_at("\u202E", 0)));
  EXPECT_TRUE(is_control(glyph_at("\u009B", 0)));
  EXPECT_FALSE(is_control(glyph_at("e", 0)));
  EXPECT_FALSE(is_control(glyph_at("\u00E9", 0)));
}

}  // namespace
}  // namespace kartwright
