// Lap files: what timing systems and spreadsheets write is read, and what cannot be is refused
// where it stands.

#include "engine/records/lap_file.h"

#include <algorithm>
#include <array>
#include <sstream>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sys/resource.h>

namespace kartwright {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;

struct ReadLaps {
  LapFile file;
  std::vector<Diagnostic> found;
};

ReadLaps read_laps(const std::string& text, const LapsWanted& wanted = {.needs_group = true}) {
  std::istringstream stream(text);
  Findings findings;
  ReadLaps out;
  try {
    out.file = read_lap_file(stream, "day.csv", wanted, findings);
    out.found = findings.all();
  } catch (const InputError& error) {
    out.found = error.found();
  }
  return out;
}

/// `number seconds group` of each lap.
std::vector<std::string> laps_of(const ReadLaps& read) {
  std::vector<std::string> laps;
  for (const FileLap& lap : read.file.laps) {
    std::ostringstream text;
    text << lap.number << ' ' << lap.seconds << ' ' << read.file.groups[lap.group];
    laps.push_back(text.str());
  }
  return laps;
}

TEST(LapFile, CommasSemicolonsAndTabsAreAllUnderstood) {
  for (const char* text :
       {"lap,time,group\n1,31.5,A\n2,31.25,B\n", "lap;time;group\n1;31,5;A\n2;31,25;B\n",
        "lap\ttime\tgroup\n1\t31,5\tA\n2\t31.25\tB\n"}) {
    const ReadLaps read = read_laps(text);
    EXPECT_TRUE(read.found.empty()) << text;
    EXPECT_THAT(laps_of(read), ElementsAre("1 31.5 A", "2 31.25 B")) << text;
  }
}

TEST(LapFile, ADelimiterInsideQuotesPartsNothing) {
  const ReadLaps read = read_laps("\"lap\",\"a;b;c;d\",time,group\n1,x,31.5,\"front, out\"\n");
  EXPECT_TRUE(read.found.empty());
  EXPECT_THAT(laps_of(read), ElementsAre("1 31.5 front, out"));
}

TEST(LapFile, NamesOfColumnsThatAreNoTextAreAllThatIsToldOfAFile) {
  const ReadLaps read = read_laps("lap,z\xE4hler,group\n1,31.5,A\n");
  ASSERT_EQ(read.found.size(), 1U) << "nothing of the column with the times that is missing then";
  EXPECT_EQ(read.found[0].code, Code::not_utf8);
}

TEST(LapFile, ADecimalCommaBetweenCommasStandsInQuotes) {
  EXPECT_THAT(laps_of(read_laps("lap,time,group\n1,\"31,5\",A\n")), ElementsAre("1 31.5 A"));
}

TEST(LapFile, QuotesAreReadAsTheStandardHasThem) {
  const ReadLaps read =
      read_laps("lap,time,note,group\n1,31.5,\"slow\nin the \"\"hairpin\"\"\",\"A \"\"new\"\"\"\n");
  EXPECT_TRUE(read.found.empty());
  EXPECT_THAT(laps_of(read), ElementsAre("1 31.5 A \"new\""));
}

TEST(LapFile, ByteOrderMarkLineEndsBlanksAndBlankRowsDoNotMatter) {
  const ReadLaps read =
      read_laps("\xEF\xBB\xBF\r\nlap , time,group\r\n\r\n 1 , 1:02.5 ,A \r\n,,\r\n2,31.25,B");
  EXPECT_TRUE(read.found.empty());
  EXPECT_THAT(laps_of(read), ElementsAre("1 62.5 A", "2 31.25 B"));
}

TEST(LapFile, ColumnsGoByTheNamesThatSheetsGiveThem) {
  for (const char* header : {"Lap No.,Lap Time,Setting", "LAP,Time,Setup", "lap-number,SECONDS,run",
                             "Laps,lap_time,Group", "Number,time,group"}) {
    const ReadLaps read = read_laps(std::string(header) + "\n4,31.5,A\n");
    EXPECT_TRUE(read.found.empty()) << header;
    EXPECT_THAT(laps_of(read), ElementsAre("4 31.5 A")) << header;
  }
}

TEST(LapFile, TheLapTimeIsPreferredToTheTimeOfDayAndTheLapToTheKartsNumber) {
  const ReadLaps read = read_laps("Number,Lap,Time,Lap time,Group\n27,4,14:02,31.5,A\n");
  EXPECT_THAT(laps_of(read), ElementsAre("4 31.5 A"));
}

TEST(LapFile, AColumnCanBeNamedExactly) {
  const ReadLaps read = read_laps("lap,time,Lap Tm,rear width\n4,9,31.5,1360 mm\n",
                                  {.time = "Lap Tm", .group = "rear width", .needs_group = true});
  EXPECT_TRUE(read.found.empty());
  EXPECT_THAT(laps_of(read), ElementsAre("4 31.5 1360 mm"));
}

TEST(LapFile, WithoutALapColumnLapsAreNumberedByRowTheOnesLeftOutToo) {
  const ReadLaps read = read_laps("time,group\n33.5,\n31.5,A\n31.25,B\n");
  EXPECT_THAT(laps_of(read), ElementsAre("2 31.5 A", "3 31.25 B"));
  EXPECT_EQ(read.file.left_out, 1U);
}

TEST(LapFile, ALapWithoutAGroupIsLeftOutAndItsTimeNotRead) {
  const ReadLaps read = read_laps("lap,time,group\n1,in the pits,\n2,31.5,A\n");
  EXPECT_TRUE(read.found.empty());
  EXPECT_EQ(read.file.left_out, 1U);
  EXPECT_EQ(read.file.laps.size(), 1U);
}

TEST(LapFile, TheFirstGroupIsThatOfTheLowestLapAndLapsAreInOrder) {
  const ReadLaps read = read_laps("lap,time,group\n7,31.5,B\n3,31.25,A\n5,31.75,B\n");
  EXPECT_THAT(read.file.groups, ElementsAre("A", "B"));
  EXPECT_THAT(laps_of(read), ElementsAre("3 31.25 A", "5 31.75 B", "7 31.5 B"));
}

TEST(LapFile, AFileWithoutGroupsIsFineWhereNoneAreNeeded) {
  const ReadLaps read = read_laps("lap,time\n1,31.5\n2,31.25\n", {});
  EXPECT_TRUE(read.found.empty());
  EXPECT_THAT(read.file.groups, ElementsAre(""));
  EXPECT_EQ(read.file.laps.size(), 2U);
}

TEST(LapFile, OneKartIsTakenOutOfASession) {
  const std::string text = "Kart;Lap;Time;Group\n27;1;31,5;A\n19;1;x;\n27;2;31,25;B\n";
  const ReadLaps read =
      read_laps(text, {.needs_group = true, .only_column = "kart", .only_value = "27"});
  EXPECT_TRUE(read.found.empty());
  EXPECT_THAT(laps_of(read), ElementsAre("1 31.5 A", "2 31.25 B"));
}

TEST(LapFile, AKartThatIsNotThereIsAnsweredWithThoseThatAre) {
  const ReadLaps read = read_laps("Kart;Lap;Time;Group\n27;1;31,5;A\n19;1;31,5;A\n",
                                  {.only_column = "Kart", .only_value = "72"});
  ASSERT_EQ(read.found.size(), 1U);
  EXPECT_EQ(read.found[0].code, Code::no_laps);
  EXPECT_THAT(read.found[0].help, HasSubstr("`19`, `27`"));
}

struct RefusedLaps {
  const char* name;
  std::string text;
  Code code;
  int line, column;
  const char* says;
};

void PrintTo(const RefusedLaps& refused, std::ostream* out) { *out << refused.name; }

class LapFileRefuses : public testing::TestWithParam<RefusedLaps> {};

TEST_P(LapFileRefuses, WithThePlaceAndTheLine) {
  const RefusedLaps& want = GetParam();
  const ReadLaps read = read_laps(want.text);
  ASSERT_EQ(read.found.size(), 1U);
  const Diagnostic& found = read.found[0];
  EXPECT_EQ(found.code, want.code);
  EXPECT_EQ(found.file, "day.csv");
  EXPECT_EQ(found.span.line, want.line);
  EXPECT_EQ(found.span.column, want.column);
  EXPECT_THAT(found.message, HasSubstr(want.says));
  EXPECT_NE(found.help, "");
  EXPECT_EQ(found.source.empty(), want.line == 0);
}

const std::string kLapHeader = "lap,time,group\n";

INSTANTIATE_TEST_SUITE_P(
    All, LapFileRefuses,
    testing::Values(
        RefusedLaps{"number", kLapHeader + "1,31.5,A\ntwo,31.5,A\n", Code::bad_lap, 3, 1, "`two`"},
        RefusedLaps{"no number", kLapHeader + ",31.5,A\n", Code::bad_lap, 2, 1, "without a number"},
        RefusedLaps{"half a lap", kLapHeader + "1.5,31.5,A\n", Code::bad_lap, 2, 1, "`1.5`"},
        RefusedLaps{"time", kLapHeader + "1, fast,A\n", Code::bad_lap, 2, 4, "`fast`"},
        RefusedLaps{"no time", kLapHeader + "1,,A\n", Code::bad_lap, 2, 3, "without a time"},
        RefusedLaps{"seconds beyond a minute", kLapHeader + "1,1:72.0,A\n", Code::bad_lap, 2, 3,
                    "`1:72.0`"},
        RefusedLaps{"behind umlauts", "lap;note;time;group\n1;zäh zäh;x;A\n", Code::bad_lap, 2, 11,
                    "`x`"},
        RefusedLaps{"below a quoted line", "lap,note,time,group\n1,\"a\nb\",x,A\n", Code::bad_lap,
                    3, 4, "`x`"},
        RefusedLaps{"too few columns", kLapHeader + "1,31.5\n", Code::bad_lap, 2, 1,
                    "2 columns, the header has 3"},
        RefusedLaps{"a decimal comma between commas", kLapHeader + "1,31,5,A\n", Code::bad_lap, 2,
                    1, "4 columns, the header has 3"},
        RefusedLaps{"another delimiter", kLapHeader + "1;31.5;A\n", Code::bad_lap, 2, 1,
                    "1 column, the header has 3"},
        RefusedLaps{"a lap twice", kLapHeader + "1,31.5,A\n1,31.5,B\n", Code::bad_lap, 3, 1,
                    "line 2 already"},
        RefusedLaps{"open quote", kLapHeader + "1,\"31.5,A\n2,31.5,A\n", Code::unclosed_quote, 2, 3,
                    "never closes"},
        RefusedLaps{"text behind a quote", kLapHeader + "1,\"31.5\"s,A\n", Code::unclosed_quote, 2,
                    9, "behind a quote"},
        RefusedLaps{"no time column", "lap,sector,group\n1,31.5,A\n", Code::no_such_column, 1, 1,
                    "lap time"},
        RefusedLaps{"no group column", "lap,time\n1,31.5\n", Code::no_such_column, 1, 1, "group"},
        RefusedLaps{"two groups", "lap,time,group,setup\n1,31.5,A,A\n", Code::no_such_column, 1, 16,
                    "`group` and `setup`"},
        RefusedLaps{"utf-16", std::string("\xFF\xFEl\0a\0p\0\n\0", 10), Code::not_utf8, 1, 1,
                    "UTF-16"},
        RefusedLaps{"nul", kLapHeader + std::string("1,31.5,A\0\n", 10), Code::not_utf8, 2, 8,
                    "0x00"},
        RefusedLaps{"latin-1", kLapHeader + "1,31.5,z\xE4h\n", Code::not_utf8, 2, 8, "0xE4"},
        RefusedLaps{"header only", kLapHeader, Code::no_laps, 0, 0, "no lap below"},
        RefusedLaps{"all left out", kLapHeader + "1,31.5,\n", Code::no_laps, 0, 0, "left out"},
        RefusedLaps{"empty", "", Code::no_laps, 0, 0, "empty"},
        RefusedLaps{"blank", "\n\n  \n", Code::no_laps, 0, 0, "empty"},
        RefusedLaps{"long group", kLapHeader + "1,31.5," + std::string(101, 'A') + "\n",
                    Code::too_many_laps, 2, 8, "100 characters"},
        RefusedLaps{"long row", kLapHeader + "1,31.5," + std::string(70'000, 'A') + "\n",
                    Code::too_many_laps, 2, 1, "64 KiB"}));

TEST(LapFile, ByteThatIsNoTextIsNoneOfOursInAColumnThatIsNotRead) {
  const ReadLaps read = read_laps("lap,time,driver,group\n1,31.5,z\xE4h,A\n");
  EXPECT_TRUE(read.found.empty());
  EXPECT_EQ(read.file.laps.size(), 1U);
}

TEST(LapFile, EverythingWrongIsToldAtOnceAndNoMoreThanTwoHundred) {
  EXPECT_EQ(read_laps("lap,time,group\nx,31.5,A\n2,y,A\n2,31.5,A\n").found.size(), 3U);
  std::string text = "lap,time,group\n";
  for (int i = 0; i < 1000; ++i) text += "x,y,A\n";
  EXPECT_EQ(read_laps(text).found.size(), Findings::kMost);
}

TEST(LapFile, AMissingColumnComesWithThoseThereAre) {
  const ReadLaps read = read_laps("lap,time,group\n1,31.5,A\n", {.time = "tme"});
  ASSERT_EQ(read.found.size(), 1U);
  EXPECT_THAT(read.found[0].help, HasSubstr("did you mean `time`?"));
  EXPECT_THAT(read.found[0].help, HasSubstr("`lap`, `time`, `group`"));
}

/// A session that is never held anywhere: a header and rows without end, made as they are read.
class EndlessRows : public std::streambuf {
 public:
  EndlessRows(std::string header, long rows, std::string (*row)(long))
      : text_(std::move(header)), rows_(rows), row_(row) {
    setg(text_.data(), text_.data(), text_.data() + text_.size());
  }
  long made() const { return made_; }

 protected:
  int_type underflow() override {
    if (made_ == rows_) return traits_type::eof();
    text_.clear();
    for (int i = 0; i < 1000 && made_ < rows_; ++i) text_ += row_(made_++);
    setg(text_.data(), text_.data(), text_.data() + text_.size());
    return traits_type::to_int_type(text_.front());
  }

 private:
  std::string text_;
  long rows_, made_ = 0;
  std::string (*row_)(long);
};

long peak_kib() {
  rusage usage{};
  getrusage(RUSAGE_SELF, &usage);
  return usage.ru_maxrss;
}

constexpr long kTwoMillion = 2'000'000;
constexpr long kFewMebibytes = 32L * 1024;  // KiB

TEST(LapFile, TwoMillionRowsOfWhichOneKartDroveAFewTakeLittleMemory) {
  EndlessRows rows("kart,time,group\n", kTwoMillion, [](long i) {
    return i % 100'000 == 7 ? std::string("27,31.5,A\n") : std::string("19,31.5,A\n");
  });
  std::istream stream(&rows);
  Findings findings;
  const long before = peak_kib();
  const LapFile file =
      read_lap_file(stream, "day.csv", {.only_column = "kart", .only_value = "27"}, findings);
  EXPECT_TRUE(findings.all().empty());
  EXPECT_EQ(file.laps.size(), 20U);
  EXPECT_EQ(rows.made(), kTwoMillion);
  EXPECT_LT(peak_kib() - before, kFewMebibytes);
}

TEST(LapFile, TwoMillionLapsAreRefusedSoonAfterAHundredThousand) {
  EndlessRows rows("time,group\n", kTwoMillion, [](long) { return std::string("31.5,A\n"); });
  std::istream stream(&rows);
  Findings findings;
  const long before = peak_kib();
  const LapFile file = read_lap_file(stream, "day.csv", {.needs_group = true}, findings);
  ASSERT_EQ(findings.all().size(), 1U);
  EXPECT_EQ(findings.all()[0].code, Code::too_many_laps);
  EXPECT_EQ(findings.all()[0].span.line, 100'002);
  EXPECT_EQ(file.laps.size(), kMostLaps);
  EXPECT_LT(rows.made(), 120'000);
  EXPECT_LT(peak_kib() - before, kFewMebibytes);
}

}  // namespace
}  // namespace kartwright
