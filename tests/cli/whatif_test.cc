// whatif: the page, the sweep, the JSON, and what is refused.

#include <cmath>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "tests/cli/kartwright.h"
#include "tests/support/temp_folder.h"

namespace kartwright {
namespace {

using Json = nlohmann::json;
using testing::AllOf;
using testing::HasSubstr;
using testing::Not;
using testing::StartsWith;

Words on_paper(const Words& more) {
  Words words{"whatif"};
  words.insert(words.end(), more.begin(), more.end());
  return words;
}

Json answered(Words words) {
  words.insert(words.end(), {"--format", "json"});
  const Ended ended = run_kartwright(on_paper(words));
  EXPECT_EQ(ended.exit, 0) << ended.err;
  return Json::parse(ended.out);
}

TEST(WhatIf, TheAnswerStandsInTheFirstLinesOfSixtyColumns) {
  const Ended ended =
      run_kartwright(on_paper({"--set", "rear-width=1380mm", "--track", "rubbered-in"}),
                     {{"COLUMNS", "60"}, {"LC_ALL", "C"}});
  EXPECT_EQ(ended.exit, 0);
  EXPECT_EQ(ended.err, "");
  EXPECT_TRUE(is_ascii(ended.out));
  const std::vector<std::string> lines = lines_of(ended.out);
  for (const std::string& line : lines) EXPECT_LE(width_of(line), 60U) << line;
  std::string top;
  for (std::size_t i = 0; i < 8; ++i) top += lines.at(i) + "\n";
  EXPECT_THAT(top, AllOf(StartsWith("ON PAPER"), HasSubstr("RESULT"),
                         HasSubstr("less on the outside rear")));
  EXPECT_THAT(ended.out,
              AllOf(HasSubstr("crews report, in notches of handling"), HasSubstr("ASSUMED"),
                    HasSubstr("measure first: height of the centre of"), HasSubstr("CARE")));
}

TEST(WhatIf, TheLoadsOfTheJsonCarryTheKartBeforeAndAfter) {
  const Json json = answered({"--set", "rear-width=1380mm", "--track", "green"});
  EXPECT_EQ(json.at("schema"), "kartwright/whatif/1");
  EXPECT_EQ(json.at("track"), "green");
  for (const char* const side : {"before", "after"}) {
    for (const char* const phase : {"entry", "mid", "exit"}) {
      double sum = 0.0;
      for (const auto& [wheel, load] : json.at(side).at(phase).at("loads").items())
        sum += load.get<double>();
      EXPECT_NEAR(sum, 165.0 * 9.80665, 1e-6) << side;
    }
  }
  EXPECT_EQ(json.at("measure_first").at("id"), "mass-height");
}

TEST(WhatIf, WithoutATrackASlipperyAndAGrippyOneAreShown) {
  const Json json = answered({"--set", "rear-width=1380mm"});
  ASSERT_EQ(json.at("classes").size(), 2U);
  EXPECT_LT(json.at("classes")[0].at("lateral_g"), json.at("classes")[1].at("lateral_g"));
  const std::string page = run_kartwright(on_paper({"--set", "rear-width=1380mm"})).out;
  EXPECT_THAT(page, AllOf(HasSubstr("LOADS      cold"), HasSubstr("LOADS      rubbered in")));
}

TEST(WhatIf, InchesAndPoundsAreTheSameKart) {
  const Json metric =
      answered({"--set", "rear-width=1371.6mm", "--set", "mass-with-driver=163.29325kg"});
  const Json imperial = answered({"--set", "rear-width=54in", "--set", "mass-with-driver=360lb"});
  for (std::size_t i = 0; i < 2; ++i) {
    const Json& a = metric.at("classes")[i].at("after");
    const Json& b = imperial.at("classes")[i].at("after");
    EXPECT_NEAR(a.at("rear_bite_n"), b.at("rear_bite_n"), 1e-3);
    EXPECT_NEAR(a.at("release_g"), b.at("release_g"), 1e-6);
  }
}

// The same mass higher makes the kart behave as if narrower, and sheds the inside rear sooner.
TEST(WhatIf, AHigherMassIsANarrowerKart) {
  const Json json = answered({"--set", "mass-height=300mm", "--track", "rubbered-in"});
  EXPECT_NEAR(json.at("equivalent_track_m"), 1.16 * 0.26 / 0.30, 1e-9);
  EXPECT_LT(json.at("after").at("release_g"), json.at("before").at("release_g"));
  EXPECT_GT(json.at("after").at("rear_bite_n"), json.at("before").at("rear_bite_n"));
}

TEST(WhatIf, OfTheFrontBarSaysWhereItTurns) {
  const Json json = answered({"--set", "front-bar=in", "--track", "rubbered-in"});
  EXPECT_THAT(json.at("reported")[0].at("text").get<std::string>(),
              HasSubstr("tighter corners turn later"));
  EXPECT_GT(json.at("before").at("bar_changes_sign_g"), 0.5);
}

TEST(WhatIf, OfWhatThePhysicsDoesNotClaimSaysSo) {
  EXPECT_THAT(run_kartwright(on_paper({"--set", "axle=hard"})).out,
              AllOf(HasSubstr("the loads stay as they are"), HasSubstr("claims nothing of it")));
  EXPECT_THAT(run_kartwright(on_paper({"--sweep", "axle=soft..hard"})).out,
              HasSubstr("claims nothing of it"));
}

TEST(WhatIf, BeyondTheClassIsWorkedOutAndSaid) {
  const TempFolder folder;
  const std::string path = folder.write("blue.yaml",
                                        "kart: blue\nclass: {limits: {rear-width: {at-most: 1400 "
                                        "mm}}}\nsettings: {rear-width: 1390 mm}\n");
  const Ended ended = run_kartwright(on_paper({"--kart", path, "--set", "rear-width=1410mm"}));
  EXPECT_EQ(ended.exit, 0) << ended.err;
  EXPECT_THAT(ended.out, HasSubstr("beyond what the class allows"));
}

TEST(WhatIf, ASweepGoesByTheStepsOfTheSetting) {
  const Json json = answered({"--sweep", "rear-width=1320mm..1400mm", "--track", "rubbered-in"});
  const Json& rows = json.at("sweeps").at(0).at("rows");
  ASSERT_EQ(rows.size(), 17U);
  EXPECT_EQ(rows[0].at("to"), "1320 mm");
  EXPECT_EQ(rows[16].at("to"), "1400 mm");
  for (std::size_t i = 1; i < rows.size(); ++i) {
    EXPECT_LT(rows[i].at("rear_bite_n"), rows[i - 1].at("rear_bite_n"));
    EXPECT_GT(rows[i].at("release_g"), rows[i - 1].at("release_g"));
  }
  const Ended page =
      run_kartwright(on_paper({"--sweep", "rear-width=1320mm..1400mm", "--track", "rubbered-in"}),
                     {{"COLUMNS", "60"}});
  const std::vector<std::string> lines = lines_of(page.out);
  for (const std::string& line : lines) EXPECT_LE(width_of(line), 60U) << line;
  const auto bar = [&](const char* label) {
    for (const std::string& line : lines) {
      if (line.find(label) != std::string::npos) return width_of(line);
    }
    return std::size_t{0};
  };
  EXPECT_GT(bar("1320 mm"), bar("1360 mm"));
  EXPECT_GT(bar("1360 mm"), bar("1400 mm"));
}

struct RefusedChange {
  Words words;
  const char *what, *help;
};

TEST(WhatIf, RefusesWithThePlausibleRange) {
  const RefusedChange all[] = {
      {{"--set", "mass-with-driver=-5kg"}, "no kart has", "between 50 kg and 300 kg"},
      {{"--set", "wheelbase=10m"}, "`wheelbase` at 10 m", "between 900 mm and 1200 mm"},
      {{"--set", "toe=30deg"}, "measures an angle", "a length"},
      {{"--set", "caster=40deg"}, "`caster` at 40 deg", "between 0 deg and 24 deg"},
      {{"--set", "rear-widht=1380mm"}, "`rear-widht`", "`rear-width`"},
      {{"--set", "rear-width=1380kg"}, "`kg` measures mass", "a length"},
      {{"--set", "front-bar=half"}, "no position `half`", "one of out, in"},
      {{"--sweep", "rear-width=1320mm"}, "from one value to another", "1320mm..1400mm"},
      {{"--set", "rear-width=1380mm", "--track", "gren"}, "`gren`", "`green`"},
      {{}, "nothing to change", "--set rear-width=1380mm"},
  };
  for (const RefusedChange& each : all) {
    const Ended ended = run_kartwright(on_paper(each.words));
    EXPECT_EQ(ended.exit, 2) << each.what;
    EXPECT_EQ(ended.out, "");
    EXPECT_THAT(ended.err, AllOf(HasSubstr(each.what), HasSubstr(each.help)));
  }
}

TEST(WhatIf, TellsAllThatIsWrongAtOnce) {
  const Ended ended = run_kartwright(on_paper({"--set", "wheelbase=10m", "--set", "caster=40deg"}));
  EXPECT_THAT(ended.err, AllOf(HasSubstr("wheelbase"), HasSubstr("caster")));
}

// Once the wheel is off the outside rear carries the axle and no more, however high the mass.
TEST(WhatIf, NoWheelLosesMoreThanItCarried) {
  const Ended ended = run_kartwright(
      on_paper({"--set", "mass-height=420mm", "--track", "rubbered-in"}), {{"COLUMNS", "120"}});
  EXPECT_THAT(ended.out, AllOf(HasSubstr("96 N less on the inside rear"),
                               HasSubstr("the inside rear off the ground")));
  const Json json = answered({"--sweep", "mass-height=260mm..420mm", "--track", "rubbered-in"});
  const Json& rows = json.at("sweeps")[0].at("rows");
  for (const Json& row : rows) EXPECT_GE(row.at("middle").at("loads").at("rl"), 0.0);
  EXPECT_EQ(rows.back().at("middle").at("contact"), "inside-rear-off");
  const Ended tips = run_kartwright(
      on_paper({"--set", "mass-height=590mm", "--track", "rubbered-in"}), {{"COLUMNS", "300"}});
  EXPECT_THAT(tips.out.substr(0, tips.out.find("LOADS")), HasSubstr("it tips"));
}

TEST(WhatIf, SaysWhereATrackCannotLetTheInsideRearGo) {
  const Ended ended = run_kartwright(on_paper({"--set", "rear-width=1380mm", "--track", "green"}),
                                     {{"COLUMNS", "300"}});
  EXPECT_THAT(ended.out, HasSubstr("so it does not let go here"));
}

constexpr const char* kLeansRight =
    "kart: blue\nsettings: {rear-width: 1360 mm, seat-fore-aft: 0 mm}\nmeasured: {corner-weights: "
    "{left-front: 34 kg, right-front: 36 kg, left-rear: 45 kg, right-rear: 53 kg}}\n";
constexpr const char* kLeansLeft =
    "kart: blue\nsettings: {rear-width: 1360 mm, seat-fore-aft: 0 mm}\nmeasured: {corner-weights: "
    "{left-front: 36 kg, right-front: 34 kg, left-rear: 53 kg, right-rear: 45 kg}}\n";

// A kart on its scales stands with its mass where the scales say; the mirrored kart's left turn is
// its right turn.
TEST(WhatIf, AKartThatLeansTurnsTwoWays) {
  const TempFolder folder;
  const auto words = [&](const char* name, const char* text) {
    return Words{"--kart",     folder.write(name, text), "--set", "rear-width=1380mm", "--track",
                 "rubbered-in"};
  };
  const Json right = answered(words("right.yaml", kLeansRight));
  const Json left = answered(words("left.yaml", kLeansLeft));
  const std::vector<std::string> assumed = right.at("assumed");
  EXPECT_THAT(assumed, Not(testing::Contains("mass-sideways")));
  EXPECT_NE(right.at("after").at("rear_bite_n"), left.at("after").at("rear_bite_n"));
  EXPECT_EQ(right.at("classes")[0].at("right_turn").at("after").at("rear_bite_n"),
            left.at("after").at("rear_bite_n"));
  EXPECT_THAT(run_kartwright(on_paper(words("again.yaml", kLeansRight))).out,
              HasSubstr("in right"));
}

TEST(WhatIf, AMoveOfTheSeatCarriesTheCautionsOfTheSeat) {
  for (const char* const option : {"--set", "--sweep"}) {
    const std::string value =
        std::string(option) == "--set" ? "seat-fore-aft=20mm" : "seat-fore-aft=-20mm..20mm";
    EXPECT_THAT(run_kartwright(on_paper({option, value}), {{"COLUMNS", "200"}}).out,
                AllOf(HasSubstr("rib protection"), HasSubstr("have the last word")))
        << option;
  }
}

TEST(WhatIf, ASweepMarksWhatTheClassDoesNotAllow) {
  const TempFolder folder;
  const std::string path = folder.write("blue.yaml",
                                        "kart: blue\nclass: {limits: {rear-width: {at-most: 1400 "
                                        "mm}}}\nsettings: {rear-width: 1390 mm}\n");
  EXPECT_THAT(
      run_kartwright(on_paper({"--kart", path, "--sweep", "rear-width=1380mm..1420mm"})).out,
      HasSubstr("! beyond what this kart or its class allows"));
}

TEST(WhatIf, AtFortyColumnsNoNumberIsCut) {
  const Ended ended = run_kartwright(
      on_paper({"--set", "mass-height=320mm", "--track", "rubbered-in"}), {{"COLUMNS", "40"}});
  for (const std::string& line : lines_of(ended.out)) EXPECT_LE(width_of(line), 40U) << line;
  std::string flat;
  for (const std::string& line : lines_of(ended.out))
    flat += line.substr(line.find_first_not_of(' ') == std::string::npos
                            ? 0
                            : line.find_first_not_of(' ')) +
            " ";
  const Json json = answered({"--set", "mass-height=320mm", "--track", "rubbered-in"});
  const double load = json.at("after").at("mid").at("loads").at("fr");
  EXPECT_THAT(flat, HasSubstr("to " + std::to_string(load).substr(0, 5)));
}

TEST(WhatIf, ASettingIsSetOnce) {
  const Ended ended =
      run_kartwright(on_paper({"--set", "rear-width=1380mm", "--set", "rear-width=1390mm"}));
  EXPECT_EQ(ended.exit, 2);
  EXPECT_THAT(ended.err, HasSubstr("set twice"));
}

}  // namespace
}  // namespace kartwright
