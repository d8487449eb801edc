// Messages as they look: the caret under its column, the line cut around it, colour on a terminal.

#include "cli/diagnostics.h"

#include <gtest/gtest.h>

#include "cli/safe_json.h"
#include "tests/cli/kartwright.h"

namespace kartwright::cli {
namespace {

Diagnostic found_at(int column, const std::string& line, int length = 1) {
  Diagnostic found{.code = Code::unknown_key,
                   .file = "k.yaml",
                   .span = {.line = 3, .column = column, .length = length},
                   .message = "not known",
                   .help = "did you mean"};
  show_source(found, line);
  return found;
}

/// Column at which the caret begins, from 0, and the text above it from there on.
std::string above_the_caret(const std::string& shown) {
  const std::vector<std::string> lines = lines_of(shown);
  const std::size_t caret = lines.at(2).find('^');
  std::string_view above = lines.at(1);
  std::size_t used = 0;
  while (!above.empty() && used < caret) {
    used += columns(above.substr(0, glyph_bytes(above)));
    above.remove_prefix(glyph_bytes(above));
  }
  return std::string(above);
}

TEST(Caret, StandsUnderItsColumn) {
  const std::string shown = render(found_at(3, "a: bcd", 2), {.width = 80});
  EXPECT_EQ(shown, "k.yaml:3:3: error[D012]: not known\n  a: bcd\n    ^^\nhelp: did you mean\n");
}

TEST(Caret, CountsColumnsNotBytes) {
  EXPECT_EQ(above_the_caret(render(found_at(5, "日本é: x", 1), {.width = 80})), " x");
  EXPECT_EQ(above_the_caret(render(found_at(2, "\tx", 1), {.width = 80})), "x");
}

TEST(Caret, OfALongLineHasItsSurroundingsAndFits) {
  std::string line;
  for (int i = 0; i < 3'000; ++i) line += std::to_string(i) + ' ';
  for (const std::size_t width : {40U, 60U, 80U}) {
    for (const int column : {1, 30, 200, 201, 5'000, static_cast<int>(line.size())}) {
      const std::string shown = render(found_at(column, line, 3), {.width = width});
      for (const std::string& each : lines_of(shown)) EXPECT_LE(columns(each), width) << shown;
      const std::string expected = line.substr(static_cast<std::size_t>(column) - 1, 3);
      EXPECT_EQ(above_the_caret(shown).substr(0, expected.size()), expected) << shown;
    }
  }
}

TEST(Caret, InAsciiTooTheCutIsSeen) {
  const std::string shown =
      render(found_at(300, std::string(600, 'x')), {.width = 60, .unicode = false});
  EXPECT_TRUE(is_ascii(shown)) << shown;
  EXPECT_NE(shown.find("..."), std::string::npos) << shown;
}

TEST(Messages, AreColouredOnlyWhereTheLookSaysSo) {
  EXPECT_EQ(render(found_at(1, "a"), {.width = 80}).find('\x1b'), std::string::npos);
  const std::string coloured = render(found_at(1, "a"), {.width = 80, .colour = true});
  EXPECT_NE(coloured.find("\x1b[31merror\x1b[0m["), std::string::npos) << coloured;
}

TEST(Messages, EchoNothingThatSteersTheTerminal) {
  Diagnostic found = found_at(1, "a\x1b[2J\xE2\x80\xAE\x07z");
  found.file = "k\x1b]0;x\x07.yaml";
  found.message = "`\x9b\xE2\x80\x8F`";
  found.help = "\r\n";
  const std::string shown = render(found, {.width = 80});
  for (const std::string& line : lines_of(shown)) EXPECT_FALSE(has_control(line)) << line;
  EXPECT_EQ(shown.find("\xE2\x80\xAE"), std::string::npos);
}

TEST(SafeJson, EscapesWhatCouldSteerATerminalAndNothingElse) {
  EXPECT_EQ(safe_json("{\"a\":\"± é\"}"), "{\"a\":\"± é\"}");
  EXPECT_EQ(safe_json("\"\xE2\x80\xAE\xC2\x9B\""), "\"\\u202e\\u009b\"");
  EXPECT_EQ(safe_json("\"\xF3\xA0\x80\x81\""), "\"\\udb40\\udc01\"");
}

}  // namespace
}  // namespace kartwright::cli
