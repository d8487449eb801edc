// Rows of comma-separated values: which cells there are, where each begins, and where a row cannot
// be taken apart.

#include "engine/records/csv_rows.h"

#include <sstream>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace kartwright {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;
using testing::SizeIs;

/// "line: cell@at|cell@at" of each row; a fault as "!2@at" by its number.
std::vector<std::string> rows_of_csv(const std::string& text, CsvRows::Manners manners = {}) {
  std::istringstream stream(text);
  CsvRows rows(stream, manners);
  std::vector<std::string> out;
  CsvLine row;
  while (rows.next(row)) {
    std::string words = std::to_string(row.line) + ": ";
    for (const CsvCell& cell : row.cells) {
      if (&cell != &row.cells.front()) words += "|";
      words += cell.text + "@" + std::to_string(cell.at);
    }
    if (row.fault != CsvFault::none) {
      words +=
          " !" + std::to_string(static_cast<int>(row.fault)) + "@" + std::to_string(row.fault_at);
    }
    out.push_back(words);
    if (row.fault != CsvFault::none) break;
  }
  return out;
}

char delimiter_of(const std::string& text) {
  std::istringstream stream(text);
  CsvRows rows(stream);
  CsvLine row;
  rows.next(row);
  return rows.delimiter();
}

TEST(CsvRows, AreTakenApartWithTheirPlaces) {
  EXPECT_THAT(rows_of_csv("a,b,c\n1,22,333\n"), ElementsAre("1: a@0|b@2|c@4", "2: 1@0|22@2|333@5"));
  EXPECT_THAT(rows_of_csv("a,b"), ElementsAre("1: a@0|b@2")) << "the last line needs no end";
  EXPECT_THAT(rows_of_csv(""), IsEmpty());
  EXPECT_THAT(rows_of_csv("a,,c\n,b,\n"), ElementsAre("1: a@0|@2|c@3", "2: @0|b@1|@3"));
  EXPECT_THAT(rows_of_csv("a\nb,c\nd\n"), ElementsAre("1: a@0", "2: b@0|c@2", "3: d@0"))
      << "each row has the cells it has";
}

TEST(CsvRows, AreWithoutTheBlanksAroundTheirCells) {
  EXPECT_THAT(rows_of_csv("a , b,\tc\t,  \n"), ElementsAre("1: a@0|b@4|c@7|@10"));
  EXPECT_THAT(rows_of_csv("  a b \n"), ElementsAre("1: a b@2"));
}

TEST(CsvRows, PassBlankLinesOver) {
  EXPECT_THAT(rows_of_csv("\n \n a,b\n\n,\n1,2\n\n"), ElementsAre("3: a@1|b@3", "6: 1@0|2@2"));
  EXPECT_THAT(rows_of_csv("\n;;\na,b\n"), ElementsAre("3: a@0|b@2"))
      << "a blank line before the header says nothing of the delimiter";
}

TEST(CsvRows, EndWithEitherLineEnd) {
  EXPECT_THAT(rows_of_csv("a,b\r\n1,2\r\n"), ElementsAre("1: a@0|b@2", "2: 1@0|2@2"));
}

TEST(CsvRows, BeginBehindAByteOrderMarkOfTheFirstLineAlone) {
  EXPECT_THAT(rows_of_csv("\xEF\xBB\xBF"
                          "a,b\n"),
              ElementsAre("1: a@0|b@2"));
  EXPECT_THAT(rows_of_csv("a\n\xEF\xBB\xBF"
                          "b\n"),
              ElementsAre("1: a@0",
                          "2: \xEF\xBB\xBF"
                          "b@0"));
}

TEST(CsvRows, InQuotesHoldDelimitersQuotesAndLineEnds) {
  EXPECT_THAT(rows_of_csv("\"a,b\",c\n"), ElementsAre("1: a,b@0|c@6"));
  EXPECT_THAT(rows_of_csv("a, \"b\" ,c\n"), ElementsAre("1: a@0|b@3|c@8"));
  EXPECT_THAT(rows_of_csv("\"say \"\"b\"\"\",\"\"\n"), ElementsAre("1: say \"b\"@0|@12"));
  EXPECT_THAT(rows_of_csv("\"a\nb\",c\nd,e\n"), ElementsAre("1: a\nb@0|c@6", "3: d@0|e@2"));
  EXPECT_THAT(rows_of_csv("\"a\r\nb\",c\r\nd,e\r\n"), ElementsAre("1: a\nb@0|c@6", "3: d@0|e@2"));
  EXPECT_THAT(rows_of_csv("a\"b,c\n"), ElementsAre("1: a\"b@0|c@4")) << "inside a cell it is text";
  EXPECT_THAT(rows_of_csv("\"a\""), ElementsAre("1: a@0"));
  EXPECT_THAT(rows_of_csv("\"\"\"\"\n"), ElementsAre("1: \"@0"));
}

TEST(CsvRows, KeepTheBlanksInQuotesWhereThatIsTheirManner) {
  EXPECT_THAT(rows_of_csv("\" a \",\" \"\n"), ElementsAre("1: a@0|@6"));
  EXPECT_THAT(rows_of_csv("\" a \",\" \"\n", {.quotes_keep_blanks = true}),
              ElementsAre("1:  a @0| @6"));
}

TEST(CsvRows, PartByWhatTheirFirstLineHoldsMostOfOutsideQuotes) {
  EXPECT_EQ(delimiter_of("a,b;c;d\n"), ';');
  EXPECT_EQ(delimiter_of("a,b,c;d\n"), ',');
  EXPECT_EQ(delimiter_of("a\tb\tc;d\n"), '\t');
  EXPECT_EQ(delimiter_of("a,b;c\n"), ',') << "as many of each";
  EXPECT_EQ(delimiter_of("\"a;b;c;d\",e\n"), ',');
  EXPECT_EQ(delimiter_of("e,\"a;b;c;d\"\n"), ',');
  EXPECT_EQ(delimiter_of("\"a,b,c\";d\n"), ';');
  EXPECT_EQ(delimiter_of("alone\n"), ',');
  EXPECT_THAT(rows_of_csv("a;b\n1,5;2\n"), ElementsAre("1: a@0|b@2", "2: 1,5@0|2@4"))
      << "the first line decides for all";
}

TEST(CsvRows, ThatCannotBeTakenApartSayWhere) {
  EXPECT_THAT(rows_of_csv("a,b\n1,\"2\n3,4\n"), ElementsAre("1: a@0|b@2", testing::_));
  EXPECT_THAT(rows_of_csv("a,b\n1,\"2\n3,4\n").back(), testing::EndsWith("!2@2"));
  EXPECT_THAT(rows_of_csv("a, \"b\" c,d\n"), ElementsAre("1: a@0|b@3 !3@7"));
  EXPECT_THAT(rows_of_csv("\"a\"b\n").back(), testing::EndsWith("!3@3"));
  EXPECT_THAT(rows_of_csv("\"\n").back(), testing::EndsWith("!2@0")) << "though it looks blank";
}

TEST(CsvRows, AreNoLongerThanTheyMayBe) {
  CsvRows::Manners ten;
  ten.longest = 10;
  EXPECT_THAT(rows_of_csv("123456789,\n", ten), ElementsAre("1: 123456789@0|@10"));
  EXPECT_THAT(rows_of_csv("1234567890,\n", ten).back(), testing::HasSubstr("!1@"));
  EXPECT_THAT(rows_of_csv("\"12345\n7\"\n", ten), ElementsAre("1: 12345\n7@0"));
  EXPECT_THAT(rows_of_csv("\"12345\n7890\"\n", ten).back(), testing::HasSubstr("!"));
}

TEST(CsvRows, OfAHundredLinesAtMostAreOneRow) {
  const auto of_lines = [](int lines) {
    std::string text = "\"";
    for (int i = 1; i < lines; ++i) text += "x\n";
    return text + "x\"\n";
  };
  EXPECT_THAT(rows_of_csv(of_lines(100)).back(), testing::EndsWith("@0"));
  EXPECT_THAT(rows_of_csv(of_lines(100)).back(), testing::Not(testing::HasSubstr("!")));
  EXPECT_THAT(rows_of_csv(of_lines(101)).back(), testing::EndsWith("!2@0"));
}

TEST(CsvRows, LongerThanABlockOfTheStreamAreWhole) {
  std::string text = "a,b\n";
  for (int i = 0; i < 30'000; ++i) text += std::to_string(100'000 + i) + ",x\n";
  const auto rows = rows_of_csv(text);
  ASSERT_THAT(rows, SizeIs(30'001));
  for (int i = 0; i < 30'000; ++i) {
    ASSERT_EQ(rows[static_cast<std::size_t>(i) + 1],
              std::to_string(i + 2) + ": " + std::to_string(100'000 + i) + "@0|x@7");
  }
}

// --- findings at a cell -------------------------------------------------------------------------

/// "line:column+length of the source" for a place in a row.
std::string found_at(const std::string& text, std::size_t at, std::size_t length) {
  const CsvLine row{.text = text, .line = 7, .cells = {}};
  const Diagnostic found = at_cell(row, at, length, {});
  return std::to_string(found.span.line) + ":" + std::to_string(found.span.column) + "+" +
         std::to_string(found.span.length) + " of " + found.source;
}

TEST(PlaceInARow, IsCountedInCharacters) {
  EXPECT_EQ(found_at("a,bcd,e", 2, 3), "7:3+3 of a,bcd,e");
  EXPECT_EQ(found_at("z\xC3\xA4h,\xC3\xBC"
                     "b,e",
                     5, 3),
            "7:5+2 of z\xC3\xA4h,\xC3\xBC"
            "b,e");
  EXPECT_EQ(found_at("a,,e", 2, 0), "7:3+1 of a,,e") << "of nothing one place is marked";
  EXPECT_EQ(found_at("a,", 2, 5), "7:3+1 of a,");
}

TEST(PlaceInARow, OfSeveralLinesIsInItsOwn) {
  EXPECT_EQ(found_at("ab,\"c\nde\",f", 10, 1), "8:5+1 of de\",f");
  EXPECT_EQ(found_at("ab,\"c\nde\",f", 3, 6), "7:4+2 of ab,\"c") << "as far as the line goes";
  EXPECT_EQ(found_at("a\nb\nc", 4, 1), "9:1+1 of c");
}

TEST(Delimiters, HaveNames) {
  EXPECT_EQ(name_of_delimiter(','), "a comma");
  EXPECT_EQ(name_of_delimiter(';'), "a semicolon");
  EXPECT_EQ(name_of_delimiter('\t'), "a tab");
}

}  // namespace
}  // namespace kartwright
