// The picture of a terminal that the README shows says what the program prints now.

#include <array>
#include <string_view>
#include <utility>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/cli/kartwright.h"
#include "tests/cli/pit_box.h"
#include "tests/support/terminal.h"

namespace kartwright {
namespace {

constexpr std::size_t kPicturedLines = 25;

std::string picture_file(const std::string& name) {
  return file_text(std::string(KARTWRIGHT_SOURCE_DIR) + "/cli/pictures/" + name);
}

/// The text between two marks, behind `at`, which moves behind it; empty where there is none.
std::string text_between(const std::string& text, std::string_view open, std::string_view close,
                         std::size_t& at) {
  const std::size_t start = text.find(open, at);
  if (start == std::string::npos) return {};
  const std::size_t end = text.find(close, start);
  at = end;
  return text.substr(start + open.size(), end - start - open.size());
}

/// What an element holds, without its tags.
std::string without_tags(const std::string& markup) {
  std::string out;
  bool in_tag = false;
  for (const char c : markup) {
    if (c == '<') in_tag = true;
    if (!in_tag) out += c;
    if (c == '>') in_tag = false;
  }
  constexpr std::array<std::array<std::string_view, 2>, 5> kMarks{
      {{"&lt;", "<"}, {"&gt;", ">"}, {"&quot;", "\""}, {"&#x27;", "'"}, {"&amp;", "&"}}};
  for (const auto& [escaped, mark] : kMarks)
    for (std::size_t at = 0; (at = out.find(escaped, at)) != std::string::npos; at += mark.size())
      out.replace(at, escaped.size(), mark);
  return out;
}

std::vector<std::string> pictured_lines(const std::string& svg) {
  std::vector<std::string> lines;
  for (std::size_t at = svg.find("<rect"); (at = svg.find("<text", at)) != std::string::npos;) {
    std::string row = text_between(svg, "\"preserve\">", "</text>", at);
    lines.push_back(without_tags(row));
  }
  return lines;
}

TEST(PictureOfTheTerminal, SaysWhatTheProgramPrintsNow) {
  const Words words{"advise", "--debrief", demo_debrief()};
  std::vector<std::string> now = lines_of(run_kartwright(words, {{"COLUMNS", "80"}}).out);
  ASSERT_GT(now.size(), kPicturedLines);
  now.resize(kPicturedLines);
  EXPECT_EQ(pictured_lines(picture_file("terminal.svg")), now)
      << "`sh cli/pictures.sh` makes it anew";
}

TEST(PictureOfTheTerminal, HasTheColoursOfATerminal) {
  const Command command =
      kartwright({"advise", "--debrief", demo_debrief()}, {{"TERM", "xterm-256color"}});
  const std::string seen = Terminal(command, {.columns = 80, .rows = 50}).finish().out;
  const std::string svg = picture_file("terminal.svg");
  for (const auto& [code, style] :
       {std::pair{"\x1b[1m", "\"bold\""}, std::pair{"\x1b[32m", "\"green\""},
        std::pair{"\x1b[31m", "\"red\""}}) {
    EXPECT_EQ(seen.find(code) != std::string::npos, svg.find(style) != std::string::npos) << style;
  }
}

}  // namespace
}  // namespace kartwright
