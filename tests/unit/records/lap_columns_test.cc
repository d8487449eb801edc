// Which columns of a lap file are read, and what is said where there is none or there are two.

#include <sstream>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "engine/records/lap_file.h"

namespace kartwright {
namespace {

using testing::AllOf;
using testing::HasSubstr;
using testing::Not;
using testing::SizeIs;

/// The one thing wrong with a lap file.
Diagnostic wrong_laps(const std::string& text, const LapsWanted& wanted = {}) {
  std::istringstream stream(text);
  Findings findings;
  try {
    read_lap_file(stream, "day.csv", wanted, findings);
  } catch (const InputError& error) {
    EXPECT_THAT(error.found(), SizeIs(1));
    return error.found().at(0);
  }
  EXPECT_THAT(findings.all(), SizeIs(1));
  return findings.all().empty() ? Diagnostic{} : findings.all().front();
}

TEST(LapColumns, WithoutATimeThereIsSaidWhatThereIs) {
  const Diagnostic two = wrong_laps("lap,sector\n1,31.5\n");
  EXPECT_EQ(two.code, Code::no_such_column);
  EXPECT_THAT(two.help, HasSubstr("the columns are `lap`, `sector`"));
  EXPECT_THAT(wrong_laps("sector\n31.5\n").help, HasSubstr("the only column is `sector`"));
}

TEST(LapColumns, OfManyOnlyTwelveAreNamed) {
  std::string header = "c1";
  for (int i = 2; i <= 15; ++i) header += ",c" + std::to_string(i);
  const Diagnostic wrong = wrong_laps(header + "\n1\n");
  EXPECT_THAT(wrong.help, AllOf(HasSubstr("`c12` and 3 more"), Not(HasSubstr("`c13`"))));
}

TEST(LapColumns, ANameThatIsMisspeltIsAnsweredWithTheNearest) {
  const Diagnostic wrong = wrong_laps("lap,Lap Time\n1,31.5\n", {.time = "Lap Tim"});
  EXPECT_THAT(wrong.message, HasSubstr("there is no column `Lap Tim`"));
  EXPECT_THAT(wrong.help, HasSubstr("did you mean `Lap Time`?"));
  EXPECT_THAT(wrong_laps("lap,time\n1,31.5\n", {.time = "zzzzzz"}).help,
              Not(HasSubstr("did you mean")));
}

TEST(LapColumns, TwoThatCouldBeMeantAreNamed) {
  const Diagnostic wrong = wrong_laps("lap,Lap Time,lap_time\n1,31.5,31.5\n");
  EXPECT_THAT(wrong.message, HasSubstr("`Lap Time` and `lap_time`"));
  EXPECT_EQ(wrong.span.column, 14);
  const Diagnostic same = wrong_laps("lap,time,time\n1,31.5,31.5\n");
  EXPECT_THAT(same.help, HasSubstr("a name of its own"));
  const Diagnostic asked = wrong_laps("lap,best,best\n1,31.5,31.5\n", {.time = "best"});
  EXPECT_THAT(asked.message, HasSubstr("`best` stands twice in the header"));
}

TEST(LapRows, AreTakenByAColumnThatIsThereOnce) {
  const LapsWanted kart{.only_column = "kart", .only_value = "27"};
  EXPECT_THAT(wrong_laps("driver,lap,time\nA,1,31.5\n", kart).message,
              HasSubstr("there is no column `kart` for the rows"));
  EXPECT_THAT(wrong_laps("Kart,KART,lap,time\n27,27,1,31.5\n", kart).message,
              HasSubstr("stands twice"));
}

TEST(LapRows, OfManyOthersAFewShortOnesAreNamed) {
  std::string text = "kart,lap,time\n";
  for (int i = 10; i < 30; ++i) text += std::to_string(i) + ",1,31.5\n";
  const LapsWanted wanted{.only_column = "kart", .only_value = "99"};
  const Diagnostic wrong = wrong_laps(text, wanted);
  EXPECT_EQ(wrong.code, Code::no_laps);
  EXPECT_THAT(wrong.help,
              AllOf(HasSubstr("there is `10`, "), HasSubstr("`17`"), Not(HasSubstr("`18`"))));
  const std::string endless(50, 'x');
  EXPECT_THAT(wrong_laps("kart,lap,time\n" + endless + ",1,31.5\n7,1,31.5\n", wanted).help,
              AllOf(HasSubstr("there is `7`"), Not(HasSubstr("xxx"))));
}

TEST(LapCell, ThatIsLongIsCutAfterAWholeCharacter) {
  const std::string forty(40, 'x');
  EXPECT_THAT(wrong_laps("lap,time\n1," + forty + "\n").message, HasSubstr("`" + forty + "` is"));
  EXPECT_THAT(wrong_laps("lap,time\n1," + forty + "x\n").message,
              HasSubstr("`" + forty + "...` is not a lap time"));
  const std::string umlaut = std::string(39, 'x') + "\xC3\xA4" + "yy";
  EXPECT_THAT(wrong_laps("lap,time\n1," + umlaut + "\n").message,
              HasSubstr("`" + std::string(39, 'x') + "...`"));
}

}  // namespace
}  // namespace kartwright
