#include "engine/document/frozen.h"

#include <gtest/gtest.h>

#include "engine/knowledge/built_in.h"
#include "engine/knowledge/load.h"

namespace kartwright {
namespace {

void expect_same(const Node& a, const Node& b, const std::string& where);

void expect_same(const Span& a, const Span& b, const std::string& where) {
  EXPECT_EQ(a.line, b.line) << where;
  EXPECT_EQ(a.column, b.column) << where;
  EXPECT_EQ(a.length, b.length) << where;
}

void expect_same(const Node& a, const Node& b, const std::string& where) {
  EXPECT_EQ(a.type, b.type) << where;
  EXPECT_EQ(a.text, b.text) << where;
  expect_same(a.span, b.span, where);
  ASSERT_EQ(a.items.size(), b.items.size()) << where;
  ASSERT_EQ(a.entries.size(), b.entries.size()) << where;
  for (std::size_t i = 0; i < a.items.size(); ++i) {
    expect_same(a.items[i], b.items[i], where + "[" + std::to_string(i) + "]");
  }
  for (std::size_t i = 0; i < a.entries.size(); ++i) {
    EXPECT_EQ(a.entries[i].key, b.entries[i].key) << where;
    expect_same(a.entries[i].span, b.entries[i].span, where);
    expect_same(a.entries[i].value, b.entries[i].value, where + "." + a.entries[i].key);
  }
}

std::vector<Document> rule_files() {
  return read_rule_folder(std::string(KARTWRIGHT_SOURCE_DIR) + "/rules");
}

TEST(Frozen, EveryRuleFileComesBackAsItWas) {
  const std::vector<Document> files = rule_files();
  ASSERT_GT(files.size(), 50U);
  const std::vector<Document> thawed = thaw(freeze(files));
  ASSERT_EQ(thawed.size(), files.size());
  for (std::size_t i = 0; i < files.size(); ++i) {
    EXPECT_EQ(thawed[i].name, files[i].name);
    EXPECT_EQ(thawed[i].text, "");
    expect_same(thawed[i].root, files[i].root, files[i].name);
  }
}

TEST(Frozen, LongTextsAndLargeNumbersComeBack) {
  std::string text(300, '\n');
  text += "é: " + std::string(20000, 'x') + "\nb:\n  - {c: ''}\n  -\n";
  const std::vector<Document> one{parse_document(std::string(200, 'n'), text)};
  const std::vector<Document> thawed = thaw(freeze(one));
  ASSERT_EQ(thawed.size(), 1U);
  EXPECT_EQ(thawed[0].name, one[0].name);
  expect_same(thawed[0].root, one[0].root, "one");
  EXPECT_EQ(thawed[0].root.find("é")->span.line, 301);
}

TEST(Frozen, NoDocumentsAndEmptyOnesComeBack) {
  EXPECT_TRUE(thaw(freeze({})).empty());
  const auto thawed = thaw(freeze({parse_document("empty.yaml", "# nothing\n")}));
  ASSERT_EQ(thawed.size(), 1U);
  EXPECT_EQ(thawed[0].root.type, Node::Type::null);
}

TEST(Frozen, TheProgramHoldsTheRuleFilesOfThisTree) {
  const std::string root = std::string(KARTWRIGHT_SOURCE_DIR) + "/";
  const std::vector<Document> files = rule_files();
  const std::vector<Document> built_in = built_in_rules();
  ASSERT_EQ(built_in.size(), files.size());
  for (std::size_t i = 0; i < files.size(); ++i) {
    EXPECT_EQ(root + built_in[i].name, files[i].name);
    expect_same(built_in[i].root, files[i].root, files[i].name);
  }
}

}  // namespace
}  // namespace kartwright
