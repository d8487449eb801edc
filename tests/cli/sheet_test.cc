// Sheets through the program: what a picture shows is what the JSON says, and nobody's words can
// become more than text. What only a browser can see is looked at by tests/browser.sh.

#include <fstream>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/cli/kartwright.h"
#include "tests/support/sheet_figures.h"
#include "tests/support/temp_folder.h"

namespace kartwright {
namespace {

using testing::HasSubstr;
using testing::Not;

std::string in_format(Words words, const char* format) {
  words.insert(words.end(), {"--format", format});
  const Ended ended = run_kartwright(words);
  EXPECT_EQ(ended.exit, 0) << ended.err;
  return ended.out;
}

/// The sheet and the JSON of one command line agree in every figure.
void expect_true_figures(const Words& words, std::size_t at_least) {
  const std::string html = in_format(words, "html");
  const std::string json = in_format(words, "json");
  const std::vector<SheetFigure> figures = figures_in(html);
  EXPECT_GE(figures.size(), at_least);
  for (const SheetFigure& figure : figures) EXPECT_EQ(wrong_with(figure, json), "");
  EXPECT_LE(html.size(), 200U * 1024U);
}

const Words kHopInTheMiddle{"advise", "--track", "rubbered-in", "--report", "hop@mid=3"};

TEST(SheetFigures, OfAnAdviceAreThoseOfItsJson) {
  expect_true_figures(kHopInTheMiddle, 26);
  Words imperial = kHopInTheMiddle;
  imperial.insert(imperial.end(), {"--units", "imperial"});
  expect_true_figures(imperial, 26);
}

TEST(SheetFigures, OfAWeighingAreThoseOfItsJson) {
  const Words words{"weigh", "--lf", "32kg", "--rf", "31kg", "--lr", "52kg", "--rr", "50kg"};
  expect_true_figures(words, 7);
  Words imperial = words;
  imperial.insert(imperial.end(), {"--units", "imperial"});
  expect_true_figures(imperial, 7);
}

TEST(SheetFigures, OfAChangeOnPaperAreThoseOfItsJson) {
  expect_true_figures({"whatif", "--track", "unknown", "--set", "rear-width=1380mm"}, 22);
  expect_true_figures({"whatif", "--track", "green", "--sweep", "rear-width=1340mm..1400mm"}, 4);
}

const std::string kHarbourFiles = KARTWRIGHT_SOURCE_DIR "/scenarios/harbour/";

/// The invented weekend in a log of its own.
std::string weekend_log(const TempFolder& folder) {
  std::string log = folder.path() + "/weekend.db";
  EXPECT_EQ(run_kartwright({"log", "import", kHarbourFiles + "weekend.json", "--log", log}).exit,
            0);
  return log;
}

/// Six laps of each of three groups; one of them is far off, its time beyond the scale.
std::string three_groups(const TempFolder& folder, const std::string& name) {
  std::string path = folder.path() + "/laps.csv";
  std::ofstream file(path);
  file << "lap,time,group\n";
  for (int lap = 1; lap <= 18; ++lap) {
    const int group = (lap - 1) / 6;
    const double seconds = 31.0 - 0.2 * group + 0.02 * (lap * lap % 5) + (lap == 9 ? 4.0 : 0.0);
    file << lap << ',' << seconds << ",\"" << (group == 1 ? name : std::string(1, 'a' + group))
         << "\"\n";
  }
  return path;
}

TEST(SheetFigures, OfAComparisonAreThoseOfItsJson) {
  const TempFolder folder;
  expect_true_figures({"compare", "--csv", three_groups(folder, "b")}, 8);
  expect_true_figures({"compare", "--log", weekend_log(folder), "--runs", "38,39,40,41"}, 7);
}

TEST(SheetFigures, OfWhatALogTeachesAreThoseOfItsJson) {
  const TempFolder folder;
  expect_true_figures({"learned", "--kart", "harbour 27", "--log", weekend_log(folder)}, 5);
  expect_true_figures(
      {"learned", "--kart", "harbour 27", "--log", weekend_log(folder), "--calibration"}, 17);
}

TEST(SheetFigures, OfAPlanAreThoseOfItsJson) {
  const Words words{"plan", "--kart", kHarbourFiles + "harbour-41.yaml"};
  expect_true_figures(words, 16);
  Words imperial = words;
  imperial.insert(imperial.end(), {"--units", "imperial"});
  expect_true_figures(imperial, 16);
}

TEST(SheetFigures, OfARunAreThoseOfItsJson) {
  const TempFolder folder;
  expect_true_figures({"log", "show", "44", "--log", weekend_log(folder)}, 4);
}

TEST(SheetFigures, AWrongOneIsSeen) {
  EXPECT_EQ(wrong_with({"/a", "1.2 °"}, R"({"a": 0.021})"), "");
  EXPECT_THAT(wrong_with({"/a", "1.3 °"}, R"({"a": 0.021})"), HasSubstr("is not"));
  EXPECT_THAT(wrong_with({"/b", "1"}, R"({"a": 1})"), HasSubstr("points at nothing"));
  EXPECT_THAT(wrong_with({"/a", "1"}, R"({"a": "1"})"), HasSubstr("is no number"));
}

TEST(SheetOfAnAdvice, HoldsHostileNamesAsTextAndNothingElse) {
  const TempFolder folder;
  std::ofstream(folder.path() + "/kart.yaml")
      << "kart: \"<script>alert(1)</script> \\u202E \\\" onload=x " << std::string(500, 'x')
      << "\"\n";
  const std::string html =
      in_format({"advise", "--kart", folder.path() + "/kart.yaml", "--track", "green", "--said",
                 "<img src=x onerror=alert(1)> pushes going in"},
                "html");
  EXPECT_THAT(html, Not(HasSubstr("<script")));
  EXPECT_THAT(html, Not(HasSubstr("<img")));
  EXPECT_THAT(html, HasSubstr("&lt;script&gt;alert(1)&lt;/script&gt;"));
}

TEST(SheetOfAComparison, HoldsHostileNamesAsTextAndNothingElse) {
  const TempFolder folder;
  const std::string name = "<script>alert(1)</script> \"\" onload=x \u202E" + std::string(50, 'W');
  const std::string html = in_format({"compare", "--csv", three_groups(folder, name)}, "html");
  EXPECT_THAT(html, Not(HasSubstr("<script")));
  EXPECT_THAT(html, Not(HasSubstr("\u202E")));
  EXPECT_THAT(html, HasSubstr("&lt;script&gt;alert(1)&lt;/script&gt;"));
}

TEST(SheetOfARun, IsOfOneRunAlone) {
  const TempFolder folder;
  const std::string log = weekend_log(folder);
  const Ended list = run_kartwright({"log", "list", "--log", log, "--format", "html"});
  EXPECT_EQ(list.exit, 2);
  EXPECT_THAT(list.err, HasSubstr("`--format html` goes with `log show`"));
  const std::string run = in_format({"log", "show", "44", "--log", log}, "html");
  EXPECT_THAT(run, HasSubstr("<th scope=\"row\">rear tyre pressures</th><td>0.75 bar</td>"));
  EXPECT_THAT(run, HasSubstr("<td>0.65 → 0.75 bar</td>"));
}

TEST(SheetOfAPlan, SaysWhereAnAdjustmentRunsOut) {
  const std::string html = in_format({"plan", "--kart", kHarbourFiles + "harbour-41.yaml"}, "html");
  EXPECT_THAT(html, HasSubstr(">runs out</text>"));
  EXPECT_THAT(html, HasSubstr(">class above</text>"));
  EXPECT_THAT(html, HasSubstr("<th scope=\"row\">rubbering in</th>"));
}

TEST(SheetOfAnAdvice, StopsBeforeItTunes) {
  const std::string html = in_format({"advise", "--track", "green", "--report",
                                      "vibration@straight", "--fact", "axle-spun=tight-loose"},
                                     "html");
  EXPECT_THAT(html, HasSubstr("<p class=\"stop\">STOP"));
}

TEST(SheetOfAnExplanation, HasItsTableAndKeepsTheLinesOfAFile) {
  const std::string width = in_format({"explain", "rear-width"}, "html");
  EXPECT_THAT(width, HasSubstr("<th scope=\"col\">in the middle</th>"));
  const std::string message = in_format({"explain", "K003"}, "html");
  EXPECT_THAT(message, HasSubstr("<pre>"));
}

TEST(SheetOfACommandWithoutOne, IsRefusedWithTheFormsThereAre) {
  const Ended ended = run_kartwright({"check", "--format", "html"});
  EXPECT_EQ(ended.exit, 2);
  EXPECT_THAT(ended.err, HasSubstr("one of text, json"));
}

}  // namespace
}  // namespace kartwright
