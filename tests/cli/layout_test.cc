// The page: sections in their order at the left edge, never wider than asked, the answer near the
// top.

#include <algorithm>
#include <array>
#include <optional>
#include <string_view>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "tests/cli/kartwright.h"
#include "tests/support/scenario_files.h"

namespace kartwright {
namespace {

using testing::HasSubstr;

constexpr std::array<std::string_view, 9> kSections{
    "HEARD", "READING", "CHECK", "CHANGE", "WHY", "WATCH FOR", "NOT NOW", "ASK", "CARE"};
constexpr std::size_t kMargin = 11;  // columns that section words and the gap after them take

/// The section that a line opens, if it opens one.
std::optional<std::size_t> opened_by(const std::string& line) {
  std::string word = line.substr(0, kMargin);
  word.erase(word.find_last_not_of(' ') + 1);
  const auto found = std::find(kSections.begin(), kSections.end(), word);
  if (found == kSections.end()) return std::nullopt;
  return static_cast<std::size_t>(found - kSections.begin());
}

class Page : public testing::TestWithParam<std::string> {
 protected:
  static Ended page(Environment env, const Words& more = {}) {
    Words words{"advise", "--debrief", GetParam()};
    words.insert(words.end(), more.begin(), more.end());
    return run_kartwright(words, std::move(env));
  }
};

TEST_P(Page, HoldsNothingButSectionWordsAtTheLeftEdgeAndThoseInOrder) {
  for (const Words& more : {Words{}, {"--why"}}) {
    std::vector<std::size_t> opened;
    for (const std::string& line : lines_of(page({}, more).out)) {
      if (line.empty()) continue;
      if (const auto section = opened_by(line)) {
        opened.push_back(*section);
      } else {
        EXPECT_EQ(line.substr(0, kMargin), std::string(kMargin, ' ')) << line;
      }
    }
    EXPECT_TRUE(std::is_sorted(opened.begin(), opened.end()));
    EXPECT_EQ(std::adjacent_find(opened.begin(), opened.end()), opened.end()) << "a section twice";
    for (const std::size_t always : {0U, 1U, 3U}) EXPECT_THAT(opened, testing::Contains(always));
  }
}

TEST_P(Page, IsNoWiderThanAsked) {
  for (const std::size_t columns : {60U, 80U, 100U}) {
    for (const char* locale : {"C", "C.UTF-8"}) {
      const Ended ended =
          page({{"COLUMNS", std::to_string(columns)}, {"LC_ALL", locale}}, {"--why"});
      EXPECT_EQ(ended.exit, 0);
      for (const std::string& line : lines_of(ended.out))
        EXPECT_LE(width_of(line), columns) << line;
    }
  }
}

TEST_P(Page, UsesTheWidthItIsGiven) {
  const auto widest = [](const char* columns) {
    std::size_t most = 0;
    for (const std::string& line : lines_of(page({{"COLUMNS", columns}}).out))
      most = std::max(most, width_of(line));
    return most;
  };
  EXPECT_GT(widest("100"), widest("60"));
}

TEST_P(Page, IsAsciiWithoutAUnicodeLocaleAndNeverColouredInAPipe) {
  const Ended plain = page({{"LC_ALL", "C"}, {"TERM", "xterm-256color"}}, {"--why"});
  EXPECT_TRUE(is_ascii(plain.out));
  EXPECT_FALSE(has_control(plain.out));
  const Ended unicode = page({{"TERM", "xterm-256color"}}, {"--why"});
  EXPECT_FALSE(is_ascii(unicode.out));
  EXPECT_FALSE(has_control(unicode.out));
}

/// The change that the same question leads with in JSON, or null where none is worth its minutes.
nlohmann::json lead_of(const std::string& debrief) {
  const Ended ended = run_kartwright({"advise", "--debrief", debrief, "--format", "json"});
  const auto answer = nlohmann::json::parse(ended.out);
  if (answer.at("reading").at("headline") == "leave-alone") return {};
  for (const auto& change : answer.at("changes")) {
    if (change.at("score") > answer.at("working").at("score_of_nothing")) return change;
    break;
  }
  return {};
}

TEST_P(Page, HasTheFirstChangeWithinTwentyFiveLines) {
  const std::vector<std::string> lines = lines_of(page({{"COLUMNS", "80"}}).out);
  const std::size_t top = std::min<std::size_t>(25, lines.size());
  const auto end = lines.begin() + static_cast<std::ptrdiff_t>(top);
  const auto heading = std::find_if(lines.begin(), end, [](const std::string& line) {
    return opened_by(line) == std::size_t{3};
  });
  ASSERT_NE(heading, end) << "CHANGE comes too late";
  const nlohmann::json lead = lead_of(GetParam());
  if (lead.is_null()) return;
  const std::string to = lead.at("to");
  const auto row = std::find_if(heading, end, [&](const std::string& line) {
    return line.substr(0, kMargin + 1) == std::string(kMargin, ' ') + '1' &&
           line.find(to.substr(0, to.find(' '))) != std::string::npos;
  });
  EXPECT_NE(row, end) << "the first row of CHANGE comes too late, or is not the first of the JSON";
}

INSTANTIATE_TEST_SUITE_P(All, Page, testing::ValuesIn(scenarios_to_run()),
                         [](const testing::TestParamInfo<std::string>& file) {
                           std::string name = scenario_name(file.param);
                           for (char& c : name) c = c == '/' || c == '-' ? '_' : c;
                           return name;
                         });

TEST(Demo, ShowsADebriefThatIsThere) {
  const Ended demo =
      run({.argv = {"/bin/sh", "-c", "cat \"$0\"/cli/demo.sh", KARTWRIGHT_SOURCE_DIR}});
  EXPECT_THAT(demo.out, HasSubstr("--debrief scenarios/harbour/heat-2.yaml"));
  EXPECT_EQ(run_kartwright({"advise", "--debrief", demo_debrief()}).exit, 0);
}

TEST(Width, OfNoSenseIsNotTaken) {
  const Words words{"advise", "--debrief", demo_debrief()};
  const std::string usual = run_kartwright(words).out;
  for (const char* columns : {"", "0", "-5", "wide", "99999999999999999999"}) {
    const Ended ended = run_kartwright(words, {{"COLUMNS", columns}});
    EXPECT_EQ(ended.exit, 0) << columns;
    EXPECT_EQ(ended.out, usual) << columns;
  }
}

TEST(Width, OfAPhoneStillHoldsTheTable) {
  const Ended ended = run_kartwright({"advise", "--debrief", demo_debrief()}, {{"COLUMNS", "40"}});
  EXPECT_THAT(ended.out, HasSubstr("rear wider"));
}

}  // namespace
}  // namespace kartwright
