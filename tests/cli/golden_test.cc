// What the program prints, byte for byte: every page at three widths, in ASCII and in Unicode, and
// in colour at a terminal. The pages stand in tests/cli/golden/; KARTWRIGHT_REGENERATE=1 writes
// them anew.

#include <cstdlib>
#include <fstream>
#include <ostream>
#include <string_view>

#include <fmt/format.h>
#include <gtest/gtest.h>

#include "tests/cli/kartwright.h"
#include "tests/cli/pit_box.h"
#include "tests/support/temp_folder.h"
#include "tests/support/terminal.h"

namespace kartwright {
namespace {

const std::string kGoldenFolder = std::string(KARTWRIGHT_SOURCE_DIR) + "/tests/cli/golden/";
const std::string kGoldenHarbour = std::string(KARTWRIGHT_SOURCE_DIR) + "/scenarios/harbour/";

constexpr Terminal::Seconds kPatience{40.0};  // a plan takes its time on a busy machine

struct GoldenPage {
  std::string name;
  Words words;             ///< WEEKEND and KART stand for the log and the kart file of a weekend
  std::string typed = {};  ///< standard input; a page with some is not looked at in a terminal
};

void PrintTo(const GoldenPage& page, std::ostream* out) { *out << page.name; }

Words of_the_harbour(const std::string& debrief, const Words& more = {}) {
  Words words{"advise", "--debrief", kGoldenHarbour + debrief + ".yaml"};
  words.insert(words.end(), more.begin(), more.end());
  return words;
}

std::vector<GoldenPage> golden_pages() {
  return {{"advise-change", of_the_harbour("heat-2")},
          {"advise-why", of_the_harbour("heat-2", {"--why", "--after"})},
          {"advise-imperial", of_the_harbour("final-wet-push", {"--units", "imperial"})},
          {"advise-stop", of_the_harbour("heat-1-bent-axle")},
          {"advise-leave-alone", of_the_harbour("practice-2-keep-the-room")},
          {"advise-wait", of_the_harbour("practice-2-wait-for-rubber")},
          {"weigh",
           {"weigh", "--lf", "75lb", "--rf", "75.5lb", "--lr", "114lb", "--rr", "114.5lb",
            "--resolution", "0.2lb"}},
          {"whatif", {"whatif", "--track", "rubbered-in", "--set", "rear-width=1380mm"}},
          {"plan", {"plan", "--kart", "KART"}},
          {"compare", {"compare", "--csv", kGoldenHarbour + "rear-width-a-b-a.csv"}},
          {"learned", {"learned", "--log", "WEEKEND", "--kart", "KART"}},
          {"log-show", {"log", "show", "43", "--log", "WEEKEND"}},
          {"explain", {"explain", "hop"}},
          {"check", {"check", "chain", "--tight", "25mm", "--loose", "39mm", "--drive", "clutch"}},
          {"rules-show", {"rules", "show", "wider-sheds-side-bite"}},
          {"drill", {"drill", "--case", "first-hop"}, "rear\nrear wider\n10 mm\n"}};
}

/// The invented weekend, in a log of the test.
class GoldenWeekend {
 public:
  GoldenWeekend() {
    kart_ = folder_.write("blue27.yaml", file_text(kGoldenHarbour + "harbour-27-sunday.yaml"));
    EXPECT_EQ(import_into(log(), kGoldenHarbour + "weekend.json").exit, 0);
  }
  std::string log() const { return folder_.path() + "/weekend.db"; }
  Words with_places(Words words) const {
    for (std::string& word : words) {
      if (word == "WEEKEND") word = log();
      if (word == "KART") word = kart_;
    }
    return words;
  }

 private:
  TempFolder folder_;
  std::string kart_;
};

struct GoldenLook {
  unsigned short columns;
  const char* locale;
  bool colour = false;
};

std::vector<GoldenLook> golden_looks(const GoldenPage& page) {
  std::vector<GoldenLook> looks;
  for (const unsigned short columns : {60, 80, 120})
    for (const char* locale : {"C", "C.UTF-8"}) looks.push_back({columns, locale});
  if (page.typed.empty())
    for (const char* locale : {"C", "C.UTF-8"}) looks.push_back({80, locale, true});
  return looks;
}

std::string heading_of(const GoldenLook& look) {
  const bool unicode = std::string_view(look.locale) != "C";
  return fmt::format("=== {} columns, {}, {} ===\n", look.columns, unicode ? "Unicode" : "ASCII",
                     look.colour ? "in colour" : "plain");
}

Ended printed(const Words& words, const GoldenLook& look, const std::string& typed = {}) {
  Environment env{{"LC_ALL", look.locale}};
  if (look.colour) {
    env["TERM"] = "xterm-256color";
    return Terminal(kartwright(words, env), {.columns = look.columns, .rows = 50})
        .finish(kPatience);
  }
  env["COLUMNS"] = std::to_string(look.columns);
  Command command = kartwright(words, env);
  command.input = typed;
  return run(command);
}

/// Escapes as they can be read in any editor: `\e[1m`.
std::string with_visible_escapes(const std::string& text) {
  std::string out;
  for (const char c : text) out += c == '\x1b' ? std::string("\\e") : std::string(1, c);
  return out;
}

std::string without_colours(const std::string& text) {
  std::string out;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] == '\x1b')
      i = text.find('m', i);
    else
      out += text[i];
  }
  return out;
}

class Golden : public testing::TestWithParam<GoldenPage> {
 protected:
  Words words() const { return weekend_.with_places(GetParam().words); }

 private:
  GoldenWeekend weekend_;
};

TEST_P(Golden, PageIsWhatTheProgramPrints) {
  std::string page;
  for (const GoldenLook& look : golden_looks(GetParam())) {
    const Ended ended = printed(words(), look, GetParam().typed);
    EXPECT_EQ(ended.exit, 0) << ended.err;
    page += heading_of(look) + with_visible_escapes(ended.out);
  }
  const std::string path = kGoldenFolder + GetParam().name + ".txt";
  if (std::getenv("KARTWRIGHT_REGENERATE") != nullptr)
    std::ofstream(path, std::ios::binary) << page;
  EXPECT_EQ(page, file_text(path))
      << "if it should be so: KARTWRIGHT_REGENERATE=1 writes the page anew";
}

TEST_P(Golden, PageIsTheSameInColourButForTheColours) {
  if (!GetParam().typed.empty()) {  // it waits for keys, so it is only held to have no colour
    EXPECT_FALSE(has_control(printed(words(), {80, "C.UTF-8"}, GetParam().typed).out));
    return;
  }
  for (const unsigned short columns : {60, 120}) {
    for (const char* locale : {"C", "C.UTF-8"}) {
      const std::string coloured = printed(words(), {columns, locale, true}).out;
      EXPECT_EQ(without_colours(coloured), printed(words(), {columns, locale}).out);
    }
  }
}

INSTANTIATE_TEST_SUITE_P(All, Golden, testing::ValuesIn(golden_pages()),
                         [](const testing::TestParamInfo<GoldenPage>& page) {
                           std::string name = page.param.name;
                           for (char& c : name) c = c == '-' ? '_' : c;
                           return name;
                         });

TEST(GoldenFiles, AreOnePerPage) {
  for (const GoldenPage& page : golden_pages())
    EXPECT_FALSE(file_text(kGoldenFolder + page.name + ".txt").empty()) << page.name;
}

}  // namespace
}  // namespace kartwright
