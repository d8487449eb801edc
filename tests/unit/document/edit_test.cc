// A document edited in place: where values stand in the bytes, and whether two say the same.

#include "engine/document/edit.h"

#include <gtest/gtest.h>

namespace kartwright {
namespace {

/// The bytes of the value under a key, as they stand in the text.
std::string bytes_under(const std::string& text, const std::string& key) {
  const Document document = parse_document("f.yaml", text);
  const Node* const node = document.root.find(key);
  const std::size_t from = offset_of(document, node->span);
  return document.text.substr(from, end_of_value(document, node->span, from) - from);
}

TEST(Edit, AValueIsFoundInItsBytes) {
  EXPECT_EQ(bytes_under("a: 1\nb: 2 mm  # mine\n", "b"), "2 mm");
  EXPECT_EQ(bytes_under("a: 1\r\nb: 2 mm\r\nc: 3\r\n", "b"), "2 mm");
  EXPECT_EQ(bytes_under("é: ü\nb: x", "b"), "x");
  EXPECT_EQ(bytes_under("é: ü\nb: x", "é"), "ü");
  EXPECT_EQ(bytes_under("{ä: ö, b: 1360 mm, c: 3}", "b"), "1360 mm");
}

TEST(Edit, QuotesBelongToAValue) {
  EXPECT_EQ(bytes_under("a: \"x y\"  # \"z\"\n", "a"), "\"x y\"");
  EXPECT_EQ(bytes_under("a: 'x \"y'\n", "a"), "'x \"y'");
  EXPECT_EQ(bytes_under("{a: 'ö', b: 2}", "a"), "'ö'");
}

TEST(Edit, SameNodesHaveTheSameValuesInTheSameOrder) {
  const auto same = [](const char* a, const char* b) {
    return same_node(parse_document("a", a).root, parse_document("b", b).root);
  };
  EXPECT_TRUE(same("{a: 1, b: [2, {c: 3}]}", "# other\na: '1'\nb:\n  - 2\n  - c: 3\n"));
  EXPECT_FALSE(same("{a: 1, b: 2}", "{b: 2, a: 1}"));
  EXPECT_FALSE(same("a: 1", "a: 1.0"));
  EXPECT_FALSE(same("a: [1, 2]", "a: [1]"));
  EXPECT_FALSE(same("a: {b: 1}", "a: {c: 1}"));
  EXPECT_FALSE(same("a:", "a: ''"));
  EXPECT_FALSE(same("a: []", "a: {}"));
}

}  // namespace
}  // namespace kartwright
