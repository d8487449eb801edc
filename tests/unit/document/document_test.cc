#include "engine/document/document.h"

#include <gtest/gtest.h>

#include "tests/support/small_rules.h"
#include "tests/support/temp_folder.h"

namespace kartwright {
namespace {

TEST(Node, FindsAKeyOfItsMapOrNothing) {
  const Document document = parse_document("kart.yaml", "toe: 1 mm\ncamber:\n");
  ASSERT_NE(document.root.find("toe"), nullptr);
  EXPECT_EQ(document.root.find("toe")->text, "1 mm");
  ASSERT_NE(document.root.find("camber"), nullptr);
  EXPECT_EQ(document.root.find("camber")->type, Node::Type::null);
  EXPECT_EQ(document.root.find("caster"), nullptr);
  EXPECT_EQ(document.root.find("toe")->find("toe"), nullptr);
}

TEST(Document, GivesEachLineWithoutItsEnd) {
  const Document document = parse_document("kart.yaml", "a: 1\r\n\r\n# é\nb: 2");
  EXPECT_EQ(document.line(1), "a: 1");
  EXPECT_EQ(document.line(2), "");
  EXPECT_EQ(document.line(3), "# é");
  EXPECT_EQ(document.line(4), "b: 2");
  EXPECT_EQ(document.line(0), "");
  EXPECT_EQ(document.line(-1), "");
  EXPECT_EQ(document.line(5), "");
  EXPECT_EQ(parse_document("empty.yaml", "").line(1), "");
}

TEST(Document, AFindingCarriesFilePlaceAndLine) {
  const Document document = parse_document("kart.yaml", "a: 1\nb: 2\n");
  const Diagnostic found =
      document.at({.line = 2, .column = 4, .length = 3}, Code::unknown_name, "not known", "try c");
  EXPECT_EQ(found.code, Code::unknown_name);
  EXPECT_EQ(found.severity, Severity::error);
  EXPECT_EQ(found.file, "kart.yaml");
  EXPECT_EQ(found.span.line, 2);
  EXPECT_EQ(found.span.column, 4);
  EXPECT_EQ(found.span.length, 3);
  EXPECT_EQ(found.message, "not known");
  EXPECT_EQ(found.help, "try c");
  EXPECT_EQ(found.source, "b: 2");
}

TEST(Document, AFindingWithoutAPlaceShowsNoLine) {
  EXPECT_EQ(parse_document("kart.yaml", "a: 1\n").at({}, Code::too_large, "large").source, "");
}

TEST(Document, OfALongLineWhatStandsAroundThePlaceIsShown) {
  std::string text = "k: ";
  for (int i = 0; i < 1'000; ++i) text += std::to_string(i) + ' ';
  const Document document = parse_document("kart.yaml", text);
  const auto at = [&](int column) {
    return document.at({.line = 1, .column = column}, Code::bad_number, "a number");
  };
  EXPECT_EQ(at(4).source, text.substr(0, 400));
  EXPECT_EQ(at(4).source_from, 1);
  EXPECT_EQ(at(1'001).source, text.substr(800, 400));
  EXPECT_EQ(at(1'001).source_from, 801);
}

TEST(ReadDocument, ReadsAFileAndKeepsItsPathAsName) {
  const TempFolder folder;
  const std::string path = folder.write("kart.yaml", "kart: blue\n");
  const Document document = read_document(path);
  EXPECT_EQ(document.name, path);
  EXPECT_EQ(document.text, "kart: blue\n");
  EXPECT_EQ(document.root.find("kart")->text, "blue");
}

TEST(ReadDocument, WhatCannotBeReadIsToldByItsPath) {
  const TempFolder folder;
  for (const std::string& path : {folder.path() + "/none.yaml", folder.path(), std::string()}) {
    const auto found = found_by([&] { read_document(path); });
    ASSERT_EQ(found.size(), 1U) << path;
    EXPECT_EQ(found[0].code, Code::cannot_read);
    EXPECT_EQ(found[0].file, path);
    EXPECT_EQ(found[0].span.line, 0);
    EXPECT_NE(found[0].message, "");
  }
}

TEST(ReadDocument, AMebibyteIsReadAndOneByteMoreIsNot) {
  const TempFolder folder;
  std::string text = "a: 'x'\n";
  while (text.size() + 10 < kLargestFile) text += "# comment\n";
  text += std::string(kLargestFile - text.size(), '\n');
  ASSERT_EQ(text.size(), kLargestFile);
  EXPECT_NO_THROW(read_document(folder.write("full.yaml", text)));
  text += '\n';
  const auto found = found_by([&] { read_document(folder.write("over.yaml", text)); });
  ASSERT_EQ(found.size(), 1U);
  EXPECT_EQ(found[0].code, Code::too_large);
}

}  // namespace
}  // namespace kartwright
