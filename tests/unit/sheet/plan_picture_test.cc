// The day drawn: whatever the number of its stages, no words lie on one another or leave the
// picture, and what ends an adjustment's travel is said in a word.

#include "cli/sheet/plan_picture.h"

#include <regex>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "cli/page.h"
#include "tests/support/pit.h"

namespace kartwright::cli {
namespace {

using testing::HasSubstr;
using testing::Not;

/// Words of a picture and the room they take; letters as wide as the pictures reckon.
struct WordsInPicture {
  std::string text;
  double left = 0, right = 0, foot = 0;
};

std::vector<WordsInPicture> words_in(const std::string& svg) {
  static const std::regex text("<text x=\"([-0-9.]+)\" y=\"([-0-9.]+)\"([^>]*)>([^<]*)</text>");
  std::vector<WordsInPicture> out;
  for (std::sregex_iterator at(svg.begin(), svg.end(), text), end; at != end; ++at) {
    const std::string how = (*at)[3], said = (*at)[4];
    const double letter = how.find("small") == std::string::npos ? Drawing::kLetter : 5.6;
    const double wide = letter * static_cast<double>(columns(said));
    double left = std::stod((*at)[1]);
    if (how.find("\"end\"") != std::string::npos) left -= wide;
    if (how.find("\"middle\"") != std::string::npos) left -= wide / 2.0;
    out.push_back({said, left, left + wide, std::stod((*at)[2])});
  }
  return out;
}

void expect_room_for_words(const Picture& picture) {
  const std::vector<WordsInPicture> all = words_in(picture.markup.html());
  EXPECT_GT(all.size(), 5U);
  for (std::size_t i = 0; i < all.size(); ++i) {
    EXPECT_GE(all[i].left, 0.0) << all[i].text;
    EXPECT_LE(all[i].right, Drawing::kWidth) << all[i].text;
    EXPECT_LE(all[i].foot, picture.height) << all[i].text;
    for (std::size_t k = 0; k < i; ++k) {
      const bool beside = all[i].left >= all[k].right || all[k].left >= all[i].right;
      const bool apart = std::abs(all[i].foot - all[k].foot) >= 9.5;
      EXPECT_TRUE(beside || apart) << all[i].text << " and " << all[k].text;
    }
  }
}

/// A day of so many stages with three adjustments that move at every stop.
Day busy_day(std::size_t stages) {
  Day day{.kart = "harbour 41"};
  for (const char* id : {"rear-width", "seat-fore-aft", "axle"}) {
    day.movers.push_back(rules().adjustment(id));
    day.stands.emplace_back("1360 mm");
    day.travel.push_back({.now = {"1360 mm", 1.36},
                          .low = {"1320 mm", 1.32},
                          .high = {"1380 mm", 1.38},
                          .below = Refusal::no_part,
                          .above = Refusal::class_limit,
                          .stands = 0.5});
  }
  for (std::size_t k = 0; k < stages; ++k) {
    DayStop stop{.stage = &rules().day[k % rules().day.size()], .untouched = 1.5, .left = 0.25};
    stop.settings.assign(3, k % 2 == 0 ? "1380 mm" : "1375 mm");
    stop.values.assign(3, k % 2 == 0 ? 1.38 : 1.375);
    stop.at.assign(3, k % 2 == 0 ? 1.0 : 0.9);
    day.stops.push_back(stop);
  }
  return day;
}

TEST(DayDrawn, HasRoomForItsWordsHoweverManyStagesItHas) {
  for (std::size_t stages = 1; stages <= 12; ++stages) {
    SCOPED_TRACE(stages);
    expect_room_for_words(plan_picture(busy_day(stages)));
  }
}

TEST(DayDrawn, NamesItsStagesWhereThereIsRoomAndLettersThemElse) {
  EXPECT_TRUE(stages_are_named(busy_day(5)));
  EXPECT_FALSE(stages_are_named(busy_day(12)));
  EXPECT_THAT(plan_picture(busy_day(12)).markup.html(), HasSubstr(">L</text>"));
}

TEST(DayDrawn, SaysWhatEndsTheTravelAndWhereItRunsOut) {
  Day day = busy_day(5);
  EXPECT_THAT(plan_picture(day).markup.html(), HasSubstr(">class above, box below</text>"));
  EXPECT_THAT(plan_picture(day).markup.html(), Not(HasSubstr(">runs out</text>")));
  day.runs_out.push_back({.stage = day.stops[3].stage, .adjustment = day.movers[0]});
  EXPECT_THAT(plan_picture(day).markup.html(), HasSubstr(">runs out</text>"));
}

TEST(DayDrawn, TellsEverythingInWordsToo) {
  const std::string svg = plan_picture(busy_day(2)).markup.html();
  EXPECT_THAT(svg, HasSubstr("rear width, which can go from 1320 mm to 1380 mm: stands at 1360 mm; "
                             "cold 1380 mm; green 1375 mm."));
  EXPECT_THAT(svg, HasSubstr("cold 150 % and 25 %"));
}

}  // namespace
}  // namespace kartwright::cli
