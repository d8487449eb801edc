// Lap files that cannot be read: how much of the line is marked, what is advised, and which edges
// are still fine.

#include <sstream>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "engine/records/lap_file.h"

namespace kartwright {
namespace {

using testing::AllOf;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;
using testing::SizeIs;

struct LapsTaken {
  LapFile file;
  std::vector<Diagnostic> found;
};

LapsTaken take_laps(const std::string& text, const LapsWanted& wanted = {}) {
  std::istringstream stream(text);
  Findings findings;
  LapsTaken out;
  try {
    out.file = read_lap_file(stream, "day.csv", wanted, findings);
    out.found = findings.all();
  } catch (const InputError& error) {
    out.found = error.found();
  }
  return out;
}

Diagnostic fault_in(const std::string& text, const LapsWanted& wanted = {}) {
  const LapsTaken taken = take_laps(text, wanted);
  EXPECT_THAT(taken.found, SizeIs(1)) << text;
  return taken.found.empty() ? Diagnostic{} : taken.found.front();
}

/// "line:column+length" of the one thing wrong.
std::string place_of_fault(const std::string& text) {
  const Diagnostic found = fault_in(text);
  return std::to_string(found.span.line) + ":" + std::to_string(found.span.column) + "+" +
         std::to_string(found.span.length);
}

TEST(LapFaults, AreMarkedAsFarAsTheyReach) {
  EXPECT_EQ(place_of_fault("lap,time,group\n1,fast,A\n"), "2:3+4");
  EXPECT_EQ(place_of_fault("lap,time,group\ntwelve,31.5,A\n"), "2:1+6");
  EXPECT_EQ(place_of_fault("lap,time,group\n1,31.5,A\n1,31.4,A\n"), "3:1+1");
  EXPECT_EQ(place_of_fault("lap,time,group\n1,31.5,A\n12,31.5\n"), "3:1+7") << "the whole row";
  EXPECT_EQ(place_of_fault("lap,time,group\n1,31.5," + std::string(101, 'A') + "\n"), "2:8+101");
  EXPECT_EQ(place_of_fault("lap,time,group\n1,\"31.5,A\n"), "2:3+1") << "where the quote opens";
  EXPECT_EQ(place_of_fault("lap,time,group\n1,\"31.5\" s,A\n"), "2:10+1");
  EXPECT_EQ(place_of_fault("lap,time,group\n1,31.5,\x01\n"), "2:8+1");
  EXPECT_EQ(place_of_fault("lap,time,group\n1,31.5," + std::string(70'000, 'A') + "\n"), "2:1+1");
  EXPECT_EQ(place_of_fault("lap,sector\n1,31.5\n"), "1:1+10");
}

TEST(LapFaults, OfTheHeaderAreAllThatIsTold) {
  EXPECT_EQ(fault_in("lap,\"time,group\n1,31.5,A\n").code, Code::unclosed_quote);
  EXPECT_EQ(fault_in("lap,\"time\"s,group\n1,31.5,A\n").code, Code::unclosed_quote);
  EXPECT_EQ(fault_in("lap,ti\x02me,group\n1,31.5,A\n").code, Code::not_utf8);
  EXPECT_EQ(fault_in("\xFE\xFF" + std::string("\0l\0a\0p", 6)).code, Code::not_utf8);
  EXPECT_THAT(fault_in("\xFE\xFFlap,time").message, HasSubstr("UTF-16"));
  EXPECT_EQ(fault_in(std::string(70'000, 'A') + "\n1\n").code, Code::too_many_laps);
}

TEST(LapFaults, EndTheFileWhereNothingBehindThemCanBeRead) {
  const LapsTaken taken = take_laps("lap,time\n1,31.5\n2,\"31.4\"x\nthree,31.4\n");
  EXPECT_THAT(taken.found, SizeIs(1)) << "of the row behind it nothing is said";
  EXPECT_THAT(taken.file.laps, SizeIs(1));
}

TEST(LapFaults, ComeWithWhatToDo) {
  EXPECT_EQ(fault_in("lap,time\n1,fast\n").help, "write it as 31.42 or 1:02.417");
  EXPECT_THAT(fault_in("lap,time,group\n1,fast,A\n").help, HasSubstr("has an empty group"));
  EXPECT_THAT(fault_in("lap,time\n1,31.5\n1,31.4\n").help, HasSubstr("--only COLUMN=VALUE"));
  EXPECT_EQ(
      fault_in("kart,lap,time\n27,1,31.5\n27,1,31.4\n", {.only_column = "kart", .only_value = "27"})
          .help,
      "laps are numbered over the whole day");
  EXPECT_THAT(fault_in("lap,time\n1,31.5\n2;31.4\n").help,
              HasSubstr("a comma parts the columns of the header"));
  EXPECT_THAT(fault_in("lap;time\n1;31.5\n2,31.4\n").help, HasSubstr("a semicolon parts"));
  EXPECT_THAT(fault_in("lap\ttime\n1\t31.5\n2;31.4\n").help, HasSubstr("a tab parts"));
  EXPECT_THAT(fault_in("lap,time\n1,31.5\n2\n").help,
              AllOf(HasSubstr("has an empty group"), Not(HasSubstr("parts"))));
  EXPECT_THAT(fault_in("lap,time\n1,31,5\n").help, HasSubstr("needs quotes"));
  EXPECT_THAT(fault_in("lap,time,group\n1,31.5,\x1F\n").help, HasSubstr("is this a text file?"));
  EXPECT_THAT(fault_in("lap,time,group\n1,31.5,\x80\n").help, HasSubstr("save the file as UTF-8"));
}

TEST(LapFaults, CountTheColumnsOfTheRow) {
  EXPECT_THAT(fault_in("lap,time,group\n1\n").message, HasSubstr("has 1 column, the header has 3"));
  EXPECT_THAT(fault_in("lap,time,group\n1,31.5\n").message, HasSubstr("has 2 columns"));
  EXPECT_THAT(take_laps("lap,time,group\n1,31.5,A,,\n").found, IsEmpty())
      << "empty cells behind the last are no column";
  EXPECT_THAT(take_laps("lap,time,note\n1,31.5\n").found, IsEmpty())
      << "a column that is not read may be missing";
}

TEST(LapFaults, AreToldOfRowsThatAreAskedForAlone) {
  const LapsWanted kart{.only_column = "kart", .only_value = "27"};
  EXPECT_THAT(take_laps("kart,lap,time\n27,1,31.5\n19,x,y\n", kart).found, IsEmpty());
  EXPECT_THAT(fault_in("kart,lap,time\n27,1,fast\n", kart).message, HasSubstr("`fast`"));
  EXPECT_THAT(fault_in("kart,lap,time\n19,1,31.5\n", kart).help, HasSubstr("there is `19`"));
  EXPECT_THAT(fault_in("lap,time,kart\n1,31.5\n", kart).message, HasSubstr("2 columns"));
}

TEST(LapFaults, OfAFileWithoutLapsSayWhy) {
  EXPECT_THAT(fault_in("lap,time\n").message, HasSubstr("no lap below the header"));
  EXPECT_THAT(fault_in("lap,time,group\n1,31.5,\n").message, HasSubstr("every lap is left out"));
  const LapsWanted kart{.only_column = "kart", .only_value = "27"};
  EXPECT_THAT(fault_in("kart,lap,time,group\n27,1,31.5,\n", kart).message,
              HasSubstr("every lap is left out"))
      << "the kart is there";
  EXPECT_THAT(fault_in("lap,time\n1,fast\n").message, Not(HasSubstr("no lap")));
}

TEST(LapNumbers, GoFromNoughtToAMillion) {
  EXPECT_THAT(take_laps("lap,time\n0,31.5\n1000000,31.5\n").found, IsEmpty());
  EXPECT_THAT(fault_in("lap,time\n1000001,31.5\n").message, HasSubstr("not the number of a lap"));
  EXPECT_THAT(fault_in("lap,time\n-1,31.5\n").message, HasSubstr("not the number of a lap"));
  EXPECT_THAT(fault_in("lap,time\n99999999999,31.5\n").message, HasSubstr("not the number"));
  EXPECT_THAT(fault_in("lap,time\n7th,31.5\n").message, HasSubstr("not the number of a lap"));
}

TEST(LapGroups, HaveNamesOfAHundredCharactersAtMost) {
  const std::string umlauts = [] {
    std::string text;
    for (int i = 0; i < 100; ++i) text += "\xC3\xA4";
    return text;
  }();
  const LapsTaken taken = take_laps("lap,time,group\n1,31.5," + umlauts + "\n2,31.5, \n");
  EXPECT_THAT(taken.found, IsEmpty());
  EXPECT_THAT(taken.file.groups, SizeIs(1));
  EXPECT_EQ(taken.file.left_out, 1U);
}

TEST(LapCells, MayHoldSpacesButNoControlCharacter) {
  EXPECT_THAT(take_laps("lap,time,group\n1,31.5,a b~\n").found, IsEmpty());
  for (const char* const bad : {"\x1F", "\x7F", "\x01"}) {
    EXPECT_THAT(fault_in(std::string("lap,time,group\n1,31.5,a") + bad + "\xC3\n").message,
                HasSubstr("a control character"))
        << "the first that is wrong is told";
  }
  EXPECT_THAT(fault_in("lap,time,group\n1,31.5,\xC3\x01\n").message, HasSubstr("byte 0xC3"));
}

TEST(LapOrder, GroupsAreNumberedByTheirFirstLap) {
  const LapFile file = take_laps("lap,time,group\n9,31.9,C\n4,31.4,A\n6,31.6,B\n5,31.5,A\n").file;
  EXPECT_THAT(file.groups, testing::ElementsAre("A", "B", "C"));
  std::vector<std::pair<int, std::size_t>> laps;
  for (const FileLap& lap : file.laps) laps.emplace_back(lap.number, lap.group);
  EXPECT_THAT(laps, testing::ElementsAre(std::pair(4, 0U), std::pair(5, 0U), std::pair(6, 1U),
                                         std::pair(9, 2U)));
}

}  // namespace
}  // namespace kartwright
