// The strict reader: what it takes, and that every value knows its place.

#include <algorithm>

#include <gtest/gtest.h>

#include "engine/document/document.h"
#include "tests/support/kart_pack.h"
#include "tests/support/small_rules.h"

namespace kartwright {
namespace {

/// A document in a line: scalars quoted, lists in brackets, maps in braces, `~` for nothing.
std::string shown(const Node& node) {
  std::string out;
  switch (node.type) {
    case Node::Type::null:
      return "~";
    case Node::Type::scalar:
      return "'" + node.text + "'";
    case Node::Type::list:
      for (const Node& item : node.items) out += (out.empty() ? "" : " ") + shown(item);
      return "[" + out + "]";
    case Node::Type::map:
      for (const Entry& entry : node.entries) {
        out += (out.empty() ? "" : " ") + entry.key + "=" + shown(entry.value);
      }
      return "{" + out + "}";
  }
  return "?";
}

std::string read(const std::string& text) { return shown(parse_document("f.yaml", text).root); }

/// "line:column+length"
std::string shown(const Span& span) {
  return std::to_string(span.line) + ":" + std::to_string(span.column) + "+" +
         std::to_string(span.length);
}

TEST(Reader, KeepsScalarsListsAndMapsInTheirOrder) {
  EXPECT_EQ(read("b: 1\na: [x, y, {z: 2}]\nc:\n  - p\n  - q: r\n"),
            "{b='1' a=['x' 'y' {z='2'}] c=['p' {q='r'}]}");
  EXPECT_EQ(read("just a word"), "'just a word'");
  EXPECT_EQ(read("[]"), "[]");
  EXPECT_EQ(read("{}"), "{}");
  EXPECT_EQ(read("a: |\n  two\n  lines\nb: >\n  folded\n  text\n"),
            "{a='two\nlines\n' b='folded text\n'}");
}

TEST(Reader, WordsAreNeverTakenForNumbersOrTruths) {
  EXPECT_EQ(read("[yes, on, true, 010, 0x10, .nan, 1e3, 2024-01-01, '~', \"null\"]"),
            "['yes' 'on' 'true' '010' '0x10' '.nan' '1e3' '2024-01-01' '~' 'null']");
}

TEST(Reader, NothingIsNothing) {
  EXPECT_EQ(read(""), "~");
  EXPECT_EQ(read("\n\n  \n"), "~");
  EXPECT_EQ(read("# only\n# comments\n"), "~");
  EXPECT_EQ(read("---\n"), "~");
  EXPECT_EQ(read("a:\nb: ~\nc: null\n"), "{a=~ b=~ c=~}");
  EXPECT_EQ(read("- \n- x\n"), "[~ 'x']");
}

TEST(Reader, OneDocumentMayHaveItsMarkers) {
  EXPECT_EQ(read("---\na: 1\n"), "{a='1'}");
  EXPECT_EQ(read("a: 1\n...\n"), "{a='1'}");
  EXPECT_EQ(read("%YAML 1.2\n---\na: 1\n...\n# the end\n"), "{a='1'}");
}

TEST(Reader, QuotesThatCloseAreTaken) {
  EXPECT_EQ(read("a: 'it''s'"), "{a='it's'}");
  EXPECT_EQ(read("a: ''"), "{a=''}");
  EXPECT_EQ(read("a: ''''"), "{a='''}");
  EXPECT_EQ(read(R"(a: "53 1/2\" wide")"), "{a='53 1/2\" wide'}");
  EXPECT_EQ(read(R"(a: "back\\")"), R"({a='back\'})");
  EXPECT_EQ(read("a: \"over\n  two lines\"\nb: 2"), "{a='over two lines' b='2'}");
  EXPECT_EQ(read("\"a\": 1\n'b': 2"), "{a='1' b='2'}");
  EXPECT_EQ(read("a: it's\nb: 5\" x"), "{a='it's' b='5\" x'}");  // a quote inside a plain word
}

TEST(Reader, AQuotedMergeKeyIsAKeyLikeAnyOther) {
  EXPECT_EQ(read("'<<': 1\nb: <<\n"), "{<<='1' b='<<'}");
}

TEST(Reader, AByteOrderMarkIsNotPartOfTheText) {
  const Document document = parse_document("f.yaml",
                                           "\xEF\xBB\xBF"
                                           "a: 1\n");
  EXPECT_EQ(shown(document.root), "{a='1'}");
  EXPECT_EQ(shown(document.root.entries[0].span), "1:1+1");
  EXPECT_EQ(document.line(1), "a: 1");
  EXPECT_EQ(read("\xEF\xBB\xBF\xEF\xBB\xBF"
                 "a: 'x'"),
            "{a='x'}");
  EXPECT_EQ(read("\xEF\xBB\xBF"), "~");
}

TEST(Reader, PlacesCountFromOneInCharacters) {
  const Document document = parse_document("f.yaml",
                                           "kart: blue\n"
                                           "spread: {a: -0.5 ± 0.2, été: 'x y'}\n"
                                           "\n"
                                           "list:\n"
                                           "  - \xF0\x9F\x8F\x81 flag   # a flag takes four bytes\n"
                                           "  - €: 12\n");
  const Node& spread = *document.root.find("spread");
  const Node& list = *document.root.find("list");
  EXPECT_EQ(shown(document.root.entries[0].span), "1:1+4");
  EXPECT_EQ(shown(document.root.entries[0].value.span), "1:7+4");
  EXPECT_EQ(shown(spread.span), "2:9+1");
  EXPECT_EQ(shown(spread.entries[0].value.span), "2:13+10");
  EXPECT_EQ(shown(spread.entries[1].span), "2:25+3");
  EXPECT_EQ(shown(spread.entries[1].value.span), "2:30+3");
  EXPECT_EQ(shown(list.items[0].span), "5:5+6");
  EXPECT_EQ(shown(list.items[1].entries[0].span), "6:5+1");
  EXPECT_EQ(shown(list.items[1].entries[0].value.span), "6:8+2");
}

TEST(Reader, AnEmptyValueStandsWhereItsKeyDoes) {
  const Document document = parse_document("f.yaml", "a:\n\n\nb: 1\nc:\n");
  EXPECT_EQ(shown(document.root.find("a")->span), "1:1+1");
  EXPECT_EQ(shown(document.root.find("c")->span), "5:1+1");
}

TEST(Reader, AValueOverManyLinesIsNoLongerThanItsFirst) {
  const Document document = parse_document("f.yaml", "a: one two\n  three four\nb: 'p\n  q r'\n");
  EXPECT_EQ(document.root.find("a")->text, "one two three four");
  EXPECT_EQ(shown(document.root.find("a")->span), "1:4+7");
  EXPECT_EQ(shown(document.root.find("b")->span), "3:4+2");
}

TEST(Reader, WindowsLineEndsChangeNoPlace) {
  const Document document = parse_document("f.yaml", "a: 1\r\nb: é\r\nc:\r\n  - x\r\n");
  EXPECT_EQ(shown(document.root), "{a='1' b='é' c=['x']}");
  EXPECT_EQ(shown(document.root.find("b")->span), "2:4+1");
  EXPECT_EQ(shown(document.root.find("c")->items[0].span), "4:5+1");
}

TEST(Reader, ThirtyTwoLevelsAreRead) {
  const std::string open(32, '[');
  const std::string close(32, ']');
  EXPECT_EQ(read(open + close), open + close);
}

// The largest file there is, with a value on each line, and with all values on one line. Time that
// grows with the square of the size would not end within this test's limit.
TEST(Reader, TheLargestFilesAreReadInTime) {
  std::string lines;
  while (lines.size() + 4 <= kLargestFile) lines += "- a\n";
  EXPECT_EQ(parse_document("f.yaml", lines).root.items.size(), kLargestFile / 4);
  std::string line = "[";
  while (line.size() + 3 <= kLongestLine) line += "b,";
  const Document document = parse_document("f.yaml", line + "]");
  const Span last = document.root.items.back().span;
  EXPECT_EQ(last.line, 1);
  EXPECT_EQ(last.column, static_cast<int>(line.size()) - 1);
}

TEST(Reader, MistakesWithoutNumberOnOneLongLineAreToldInTime) {
  std::string text = "{";
  while (text.size() + 8 <= kLongestLine) text += "a: &b c,";
  const auto found = found_by([&] { parse_document("f.yaml", text + "}"); });
  EXPECT_EQ(found.size(), Findings::kMost);
  EXPECT_LE(found.back().source.size(), 400U);
}

}  // namespace
}  // namespace kartwright
