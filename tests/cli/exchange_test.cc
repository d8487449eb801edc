// log export and log import: out and back without loss, and nothing taken of what is damaged.

#include <algorithm>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "engine/records/logbook.h"
#include "tests/cli/pit_box.h"

namespace kartwright {
namespace {

using testing::AllOf;
using testing::HasSubstr;
using testing::MatchesRegex;

/// A log with three runs, one of them made ready and one that followed an advice.
const PitBox& full_box() {
  static const PitBox kBox = [] { return PitBox(); }();
  static const bool kFilled = [] {
    kBox.add({"--at",        "2024-11-14 10:30",
              "--session",   "heat 1; \"the first\"",
              "--track",     "green",
              "--air",       "12.5C",
              "--driver",    "Östman, Q",
              "--note",      " one ",
              "--note",      "two\n",
              "--said",      "pushes going in",
              "--fact",      "turn-in=brake",
              "--tyre-laps", "12"},
             {"--laps", "33,9 31.42 31.38 36"});
    kBox.advise();
    kBox.apply({"--change", "1", "--at", "2024-11-14 10:40"});
    kBox.add({"--at", "2024-11-14 10:50", "--complete"});
    kBox.apply({"--undo", "--at", "2024-11-14 11:00"});
    return true;
  }();
  EXPECT_TRUE(kFilled);
  return kBox;
}

std::string joined_lines(const std::vector<std::string>& lines) {
  std::string text;
  for (const std::string& line : lines) text += line + "\n";
  return text;
}

/// Refused with a place, and nothing of it taken.
void expect_refused(const std::string& text, const std::string& what) {
  const PitBox box;
  const std::string file = box.folder().write("damaged", text);
  const Ended ended = import_into(box.log(), file);
  EXPECT_EQ(ended.exit, 65) << what << ended.out;
  EXPECT_EQ(ended.out, "") << what;
  const std::string first = lines_of(ended.err).empty() ? "" : lines_of(ended.err).front();
  EXPECT_THAT(first, MatchesRegex(".*/damaged:[0-9]+:[0-9]+: error\\[[A-Z][0-9]+\\]: .*")) << what;
  EXPECT_EQ(box.runs(), 0U) << what;
}

class Exchange : public testing::TestWithParam<const char*> {
 protected:
  std::string exported() const { return full_box().exported(GetParam()); }
};

TEST_P(Exchange, OutAndBackIsTheSameByteForByte) {
  const std::string text = exported();
  ASSERT_GT(lines_of(text).size(), 3U);
  const PitBox box;
  const std::string file = box.folder().write("export", text);
  const Ended first = import_into(box.log(), file);
  EXPECT_EQ(first.exit, 0) << first.err;
  EXPECT_THAT(first.out, HasSubstr("runs added: 3; in the log already: 0"));
  EXPECT_EQ(box.exported(GetParam()), text);
  const Ended again = import_into(box.log(), file);
  EXPECT_EQ(again.exit, 0);
  EXPECT_THAT(again.out, HasSubstr("runs added: 0; in the log already: 3"));
  EXPECT_EQ(box.exported(GetParam()), text);
  EXPECT_EQ(box.with_log({"log", "verify"}).exit, 0);
}

TEST_P(Exchange, OfTheOneFormIsTheOther) {
  const PitBox box;
  const std::string other = std::string(GetParam()) == "csv" ? "json" : "csv";
  import_into(box.log(), box.folder().write("export", exported()));
  EXPECT_EQ(box.exported(other), full_box().exported(other));
}

TEST_P(Exchange, ThroughAPipeAndWithOtherLineEnds) {
  const PitBox box;
  Command command = kartwright({"log", "import", "-", "--log", box.log()});
  for (const char c : exported())
    command.input += c == '\n' ? std::string("\r\n") : std::string(1, c);
  const Ended ended = run(command);
  EXPECT_EQ(ended.exit, 0) << ended.err;
  EXPECT_EQ(box.exported(GetParam()), exported());
}

TEST_P(Exchange, ALineMissingAnywhereIsFound) {
  const std::vector<std::string> lines = lines_of(exported());
  const std::size_t step = watched() ? 12 : std::max<std::size_t>(1, lines.size() / 40);
  for (std::size_t i = 0; i < lines.size(); i += step) {
    std::vector<std::string> fewer = lines;
    fewer.erase(fewer.begin() + static_cast<std::ptrdiff_t>(i));
    expect_refused(joined_lines(fewer), "line " + std::to_string(i + 1));
  }
}

TEST_P(Exchange, CutShortAnywhereIsFound) {
  const std::string text = exported();
  const std::size_t parts = watched() ? 4 : 24;
  for (std::size_t part = 0; part < parts; ++part) {
    const std::size_t length = part * text.size() / parts;
    expect_refused(text.substr(0, length), std::to_string(length) + " bytes");
  }
  for (std::size_t end = text.find('\n'); end + 1 < text.size(); end = text.find('\n', end + 1))
    if (!watched() || end % 4 == 0) expect_refused(text.substr(0, end + 1), "whole lines");
}

TEST_P(Exchange, OfAnEmptyLogIsAnEmptyLog) {
  const PitBox box;
  const PitBox other;
  { const Logbook none(other.log(), Logbook::For::keeping); }  // makes the log, and fills none
  const std::string text = other.exported(GetParam());
  EXPECT_NE(text, "");
  EXPECT_EQ(import_into(box.log(), box.folder().write("export", text)).exit, 0);
  EXPECT_EQ(box.exported(GetParam()), text);
}

INSTANTIATE_TEST_SUITE_P(Form, Exchange, testing::Values("json", "csv"),
                         [](const auto& info) { return std::string(info.param); });

TEST(ExchangeOfJson, WhatIsChangedByHandIsNamedAtItsPlace) {
  const std::string text = full_box().exported();
  expect_refused(with_exchanged(text, "\"seconds\":31.42", "\"seconds\":0"), "a lap of 0");
  expect_refused(with_exchanged(text, "\"seconds\":31.42", "\"seconds\":\"quick\""), "quick");
  expect_refused(with_exchanged(text, "\"session\":", "\"sesion\":"), "an unknown key");
  expect_refused(with_exchanged(text, "\"flag\":\"out\"", "\"flag\":\"outt\""), "no flag");
  expect_refused(with_exchanged(text, "\"at\":\"2024-11-14", "\"at\":\"2026-13-14"), "no month");
  expect_refused(with_exchanged(text, "kartwright/log/1", "kartwright/log/2"), "another schema");
  expect_refused(with_exchanged(text, "},\n", "}\n"), "a comma gone");
  expect_refused(with_exchanged(text, "Östman", "\\u001b[2J"), "an escape");
  expect_refused(with_exchanged(text, "Östman", "\xFF"), "no UTF-8");
  expect_refused(text + text, "two exports in one");
  expect_refused(text + "and more\n", "something behind the end");
  std::string one_line = text;
  std::replace(one_line.begin(), one_line.end(), '\n', ' ');
  expect_refused(one_line, "all in one line");
  expect_refused(with_exchanged(text, ",\"laps\"", ",\n\"laps\""), "a line broken in two");
}

TEST(ExchangeOfJson, AMistakeIsToldWithItsColumn) {
  const PitBox box;
  const std::string text =
      with_exchanged(full_box().exported(), "\"flag\":\"out\"", "\"flag\":\"outt\"");
  const std::string line = lines_of(text).at(1);
  const Ended ended = import_into(box.log(), box.folder().write("damaged", text));
  const std::size_t bytes = line.find("\"outt\"");
  const std::string place =
      "damaged:2:" + std::to_string(width_of(line.substr(0, bytes)) + 1) + ": error[N007]";
  EXPECT_THAT(ended.err, HasSubstr(place));
}

TEST(ExchangeOfCsv, WhatIsChangedByHandIsNamedAtItsPlace) {
  const std::string text = full_box().exported("csv");
  expect_refused(with_exchanged(text, ",31.42,", ",0,"), "a lap of 0");
  expect_refused(with_exchanged(text, ",seconds,", ",second,"), "an unknown column");
  expect_refused(with_exchanged(text, ",seconds,", ",number,"), "a column twice");
  expect_refused(with_exchanged(text, "\nlap,", "\nlapp,"), "an unknown record");
  expect_refused(with_exchanged(text, "Östman", "\x1b[2J"), "an escape");
  expect_refused(with_exchanged(text, "Östman", "\xFF"), "no UTF-8");
  expect_refused(with_exchanged(text, "Östman", "Öst\"man"), "a quote in the middle");
  expect_refused(text + text, "two exports in one");
  expect_refused(text + "and more\n", "something behind the end");
  expect_refused(with_exchanged(text, "\nend,,,3,", "\nend,,,4,"), "a run too few");
  expect_refused("a,b\n1,2\n", "another table");
  expect_refused("kart: blue 27\n", "a kart file");
}

/// A CSV text without its column `n`; the texts of this log have no line ends in their cells.
std::string without_column(const std::string& text, std::size_t n) {
  std::string out;
  std::size_t column = 0;
  bool quoted = false;
  for (const char c : text) {
    if (c == '"') quoted = !quoted;
    if (c == '\n' && !quoted) column = 0;
    const bool parts = c == ',' && !quoted;
    if (parts) ++column;
    if (column != n || (c == '\n' && !quoted)) out += c;
  }
  return out;
}

TEST(ExchangeOfCsv, AColumnGoneIsFound) {
  const std::string text = full_box().exported("csv");
  const std::string head = lines_of(text).front();
  const auto columns = static_cast<std::size_t>(std::count(head.begin(), head.end(), ',')) + 1;
  for (std::size_t n = 1; n < columns; n += watched() ? 9 : 1)
    expect_refused(without_column(text, n), "column " + std::to_string(n));
}

TEST(Import, ARunThatTheLogHasOtherwiseIsRefused) {
  for (const char* const format : {"json", "csv"}) {
    const PitBox box;
    import_into(box.log(), box.folder().write("export", full_box().exported(format)));
    const std::string before = box.exported();
    const std::string other = with_exchanged(full_box().exported(format), "31.42", "31.43");
    const Ended ended = import_into(box.log(), box.folder().write("other", other));
    EXPECT_EQ(ended.exit, 65);
    EXPECT_THAT(ended.err, AllOf(HasSubstr("other:2:1: error[N008]"), HasSubstr("blue 27")));
    EXPECT_EQ(box.exported(), before);
  }
}

TEST(Import, OfTwoLogsIsBoth) {
  const PitBox one, two;
  one.add({"--at", "2024-11-14 10:00"});
  two.add({"--at", "2024-11-14 11:00"});
  EXPECT_EQ(import_into(one.log(), two.folder().write("export", two.exported("csv"))).exit, 0);
  EXPECT_EQ(one.runs(), 2U);
}

TEST(Import, OfNoFileIsSixtySix) {
  const PitBox box;
  EXPECT_EQ(import_into(box.log(), "/no/such/file").exit, 66);
  EXPECT_EQ(import_into(box.log(), box.folder().path()).exit, 66);
}

TEST(Export, ThatCannotBeWrittenIsSeventyFour) {
  Command command = kartwright({"log", "export", "--log", full_box().log()});
  command.out = Stdout::full_disk;
  EXPECT_EQ(run(command).exit, 74);
}

}  // namespace
}  // namespace kartwright
