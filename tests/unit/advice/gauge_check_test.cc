// Measured checks: the verdicts of the built-in rules, as a crew would try them.

#include "engine/advice/gauge_check.h"

#include <algorithm>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "engine/advice/explain_gauge.h"
#include "engine/advice/gauge_words.h"
#include "engine/inference/fault_odds.h"
#include "engine/knowledge/built_in.h"
#include "engine/knowledge/every_rule.h"
#include "engine/knowledge/load.h"
#include "tests/support/small_rules.h"

namespace kartwright {
namespace {

using testing::HasSubstr;
using testing::IsEmpty;

const Pack& gauges_pack() {
  static const Pack pack = load_pack(built_in_rules(), {});
  return pack;
}

GaugeCheck checked(const std::string& gauge, const GivenWords& words, const Kart* kart = nullptr) {
  const Gauge& g = *gauges_pack().gauge(gauge);
  return check_gauge(g, read_gauge_readings(g, words), gauges_pack(), kart);
}

const GaugeVerdict& lead(const GaugeCheck& check) { return *check.verdicts.at(0).verdict; }

std::string lead_of(const std::string& gauge, const GivenWords& words, const Kart* kart = nullptr) {
  return lead(checked(gauge, words, kart)).id;
}

Kart kart_from(const std::string& text) {
  Findings findings;
  const Document document = parse_document("kart.yaml", text);
  Kart kart = read_kart(document, gauges_pack(), findings);
  EXPECT_THAT(findings.all(), IsEmpty());
  return kart;
}

/// Decibans that a check moves a fault by.
double moved(const GaugeCheck& check, const std::string& fault) {
  double sum = 0.0;
  for (const EvidenceFound& each : check.evidence) {
    if (each.fault == fault) sum += each.decibans;
  }
  return sum;
}

TEST(CheckChain, WantsAboutAnInchAtTheTightestPointOnAClutch) {
  const auto on_clutch = [](const char* travel) {
    return lead_of("chain", {{"tight", travel}, {"drive", "clutch"}});
  };
  EXPECT_EQ(on_clutch("1 in"), "chain-right-on-a-clutch");
  EXPECT_EQ(on_clutch("3/4 in"), "chain-tight-on-a-clutch");
  EXPECT_EQ(on_clutch("1 1/2 in"), "chain-slack-on-a-clutch");
}

TEST(CheckChain, TakesALittleLessOnAJackshaftAndNeverUnderThreeQuarters) {
  const auto on_jackshaft = [](const char* travel) {
    return lead_of("chain", {{"tight", travel}, {"drive", "jackshaft"}});
  };
  EXPECT_EQ(on_jackshaft("20 mm"), "chain-right-on-a-jackshaft");
  EXPECT_EQ(on_jackshaft("3/4 in"), "chain-right-on-a-jackshaft");
  EXPECT_EQ(on_jackshaft("19.05 mm"), "chain-right-on-a-jackshaft");
  EXPECT_EQ(on_jackshaft("19 mm"), "chain-tight-on-a-jackshaft");
}

TEST(CheckChain, LooseTightLooseRoundTheAxleMeansABentAxle) {
  const GaugeCheck check =
      checked("chain", {{"tight", "25 mm"}, {"loose", "39 mm"}, {"drive", "clutch"}});
  EXPECT_EQ(lead(check).id, "chain-tight-loose-tight");
  EXPECT_FALSE(lead(check).ok);
  EXPECT_DOUBLE_EQ(moved(check, "bent-axle"), 22.0);
  EXPECT_DOUBLE_EQ(moved(check, "chain-too-tight"), -20.0);
}

TEST(CheckChain, ABentAxleLeadsBeforeATightChain) {
  const GaugeCheck check =
      checked("chain", {{"tight", "15 mm"}, {"loose", "27 mm"}, {"drive", "clutch"}});
  EXPECT_EQ(lead(check).id, "chain-tight-loose-tight");
  EXPECT_TRUE(lead(check).stops);
  ASSERT_EQ(check.verdicts.size(), 2U);
  EXPECT_EQ(check.verdicts[1].verdict->id, "chain-tight-on-a-clutch");
  EXPECT_DOUBLE_EQ(moved(check, "chain-too-tight"), 20.0);
}

TEST(CheckChain, ALooseChainIsNotToldAsRight) {
  for (const char* drive : {"clutch", "jackshaft"}) {
    const GaugeCheck check =
        checked("chain", {{"tight", "32 mm"}, {"loose", "36 mm"}, {"drive", drive}});
    EXPECT_THAT(check.facts,
                testing::ElementsAre(std::pair<std::string, std::string>("chain-play", "loose")));
    EXPECT_DOUBLE_EQ(moved(check, "chain-too-tight"), -20.0);
  }
}

TEST(CheckChain, AnEvenChainDoesNotClearAnAxleNobodyWatched) {
  const GaugeCheck check =
      checked("chain", {{"tight", "25 mm"}, {"loose", "28 mm"}, {"drive", "clutch"}});
  EXPECT_TRUE(lead(check).ok);
  EXPECT_DOUBLE_EQ(moved(check, "bent-axle"), 0.0);
}

TEST(CheckChain, TheKartFileMaySayTheSameWhereItDoes) {
  const GaugeCheck tight = checked("chain", {{"tight", "15 mm"}, {"drive", "jackshaft"}});
  ASSERT_EQ(tight.measures.size(), 1U);
  EXPECT_EQ(tight.measures[0].first->id, "chain-travel");
  // On a clutch 20 mm are too tight, and the measure alone would clear it.
  EXPECT_THAT(checked("chain", {{"tight", "20 mm"}, {"drive", "clutch"}}).measures, IsEmpty());
}

TEST(CheckChain, TheCrewsOwnBandComesBeforeTheRules) {
  const Kart kart = kart_from("bands: {chain-travel: {from: 14 mm, to: 18 mm}}\n");
  const GaugeCheck check = checked("chain", {{"tight", "16 mm"}, {"drive", "clutch"}}, &kart);
  EXPECT_EQ(lead(check).id, "chain-right-on-a-clutch");
  EXPECT_TRUE(check.verdicts[0].crews_band);
  EXPECT_EQ(lead_of("chain", {{"tight", "13 mm"}, {"drive", "clutch"}}, &kart),
            "chain-tight-on-a-clutch");
  EXPECT_EQ(lead_of("chain", {{"tight", "1 in"}, {"drive", "clutch"}}, &kart),
            "chain-slack-on-a-clutch");
}

TEST(CheckToe, WithoutAKartFileItIsHeldAgainstWhatKartsAreSetTo) {
  EXPECT_EQ(lead_of("toe", {{"front", "1012 mm"}, {"rear", "1010 mm"}}), "toe-usual");
  EXPECT_EQ(lead_of("toe", {{"front", "1020 mm"}, {"rear", "1010 mm"}}), "toe-far-out");
  EXPECT_EQ(lead_of("toe", {{"front", "1004 mm"}, {"rear", "1010 mm"}}), "toe-far-in");
}

TEST(CheckToe, WithAKartFileItIsHeldAgainstItsSetting) {
  const Kart kart = kart_from("settings: {toe: 2 mm}\n");
  const auto front = [&](const char* width) {
    return checked("toe", {{"front", width}, {"rear", "1010 mm"}}, &kart);
  };
  EXPECT_EQ(lead(front("1012 mm")).id, "toe-as-set");
  EXPECT_DOUBLE_EQ(moved(front("1012 mm"), "toe-moved"), -20.0);
  EXPECT_EQ(lead(front("1009 mm")).id, "toe-moved-in");
  EXPECT_EQ(lead(front("1014 mm")).id, "toe-moved-out");
  EXPECT_DOUBLE_EQ(moved(front("1014 mm"), "toe-moved"), 40.0);
}

TEST(CheckToe, TheTyresOwnDiameterStandsInWhereNobodySaysHowFarApart) {
  const auto angle = [](const GaugeCheck& check) {
    for (const FigureFound& found : check.figures) {
      if (found.figure->id == "angle") return found.value;
    }
    return 0.0;
  };
  const GaugeCheck assumed = checked("toe", {{"front", "1012 mm"}, {"rear", "1010 mm"}});
  EXPECT_THAT(assumed.assumed, testing::ElementsAre("apart"));
  const GaugeCheck given =
      checked("toe", {{"front", "1012 mm"}, {"rear", "1010 mm"}, {"apart", "260 mm"}});
  EXPECT_THAT(given.assumed, IsEmpty());
  EXPECT_DOUBLE_EQ(angle(assumed), angle(given));
  const Kart kart = kart_from("dimensions: {tyre-radius-front: 125 mm}\n");
  EXPECT_GT(angle(checked("toe", {{"front", "1012 mm"}, {"rear", "1010 mm"}}, &kart)),
            angle(given));
}

TEST(CheckCollars, OnBothSidesTheyKeepTheAxleFromMoving) {
  const GaugeCheck check = checked("collars", {{"left", "tight"}, {"right", "tight"}});
  EXPECT_TRUE(lead(check).ok);
  EXPECT_DOUBLE_EQ(moved(check, "axle-free-to-slide"), -20.0);
}

TEST(CheckCollars, OneLooseOrMissingLetsItSlideAndSetScrewsDoNotHoldIt) {
  for (const char* left : {"tight", "loose", "missing"}) {
    for (const char* right : {"tight", "loose", "missing"}) {
      const GaugeCheck check = checked("collars", {{"left", left}, {"right", right}});
      const bool held = std::string(left) == "tight" && std::string(right) == "tight";
      EXPECT_EQ(lead(check).ok, held) << left << right;
      EXPECT_DOUBLE_EQ(moved(check, "axle-free-to-slide"), held ? -20.0 : 35.0);
      if (held) continue;
      EXPECT_THAT(lead(check).because, HasSubstr("set screws"));
    }
  }
}

TEST(CheckCollars, BothSidesAreSpokenOf) {
  const auto says = [](const char* left, const char* right) {
    return lead(checked("collars", {{"left", left}, {"right", right}})).says;
  };
  EXPECT_THAT(says("missing", "loose"), testing::AllOf(HasSubstr("no collar on the left"),
                                                       HasSubstr("loose one on the right")));
  EXPECT_THAT(says("loose", "missing"), testing::AllOf(HasSubstr("loose collar on the left"),
                                                       HasSubstr("none on the right")));
  EXPECT_THAT(says("missing", "missing"), HasSubstr("either side"));
  EXPECT_THAT(says("loose", "loose"), HasSubstr("both sides"));
  EXPECT_THAT(says("tight", "loose"), HasSubstr("loose collar on the right"));
  EXPECT_THAT(says("missing", "tight"), testing::Not(HasSubstr("right")));
}

TEST(CheckRunOut, ASmallBendIsNotLetPass) {
  EXPECT_TRUE(lead(checked("run-out", {{"reading", "0.2 mm"}})).ok);
  const GaugeCheck slight = checked("run-out", {{"reading", "0.4 mm"}});
  EXPECT_FALSE(lead(slight).ok);
  EXPECT_THAT(lead(slight).because, HasSubstr("a small bend already makes a kart hard to drive"));
}

TEST(CheckRunOut, ABentAxleIsNotRunAndAHarderGradeIsNoHelp) {
  const GaugeCheck bent = checked("run-out", {{"reading", "0.6 mm"}});
  EXPECT_EQ(lead(bent).id, "axle-bent");
  EXPECT_THAT(lead(bent).to_do, HasSubstr("grades do not differ in how they survive a hit"));
  EXPECT_THAT(bent.cautions, testing::Contains(HasSubstr("do not run it")));
  EXPECT_DOUBLE_EQ(moved(bent, "bent-axle"), 25.0);
  ASSERT_EQ(bent.measures.size(), 1U);  // `measured: {axle-run-out: 0.6 mm}` says the same
}

TEST(CheckSprockets, AStraightedgeDoesNotGuess) {
  EXPECT_DOUBLE_EQ(moved(checked("sprockets", {{"offset", "0.5 mm"}}), "sprockets-out-of-line"),
                   -20.0);
  const GaugeCheck off = checked("sprockets", {{"offset", "2 mm"}});
  EXPECT_DOUBLE_EQ(moved(off, "sprockets-out-of-line"), 40.0);
  EXPECT_DOUBLE_EQ(moved(off, "axle-free-to-slide"), 8.0);
}

TEST(CheckBearings, PlayIsWear) {
  EXPECT_DOUBLE_EQ(moved(checked("bearings", {{"play", "0.1 mm"}}), "bearing-worn"), -20.0);
  EXPECT_THAT(checked("bearings", {{"play", "0.4 mm"}}).facts, IsEmpty());
  EXPECT_DOUBLE_EQ(moved(checked("bearings", {{"play", "0.8 mm"}}), "bearing-worn"), 20.0);
}

TEST(CheckPressures, TheEndThatGainsMoreIsHotter) {
  const GaugeCheck check = checked("pressures", {{"cold", "0.75bar,0.75bar,0.70bar,0.70bar"},
                                                 {"hot", "1.00bar,1.00bar,0.85bar,0.85bar"}});
  EXPECT_THAT(check.facts,
              testing::Contains(std::pair<std::string, std::string>("front-tyres", "hotter")));
  EXPECT_DOUBLE_EQ(moved(check, "soft-tyre"), -20.0);
}

TEST(CheckPressures, OneLowTyreLeadsWhateverTheRest) {
  const GaugeCheck check = checked("pressures", {{"cold", "0.75bar,0.60bar,0.70bar,0.70bar"}});
  EXPECT_EQ(lead(check).id, "a-cold-pressure-is-low");
  EXPECT_DOUBLE_EQ(moved(check, "soft-tyre"), 40.0);
}

std::string lead_line(const GaugeCheck& check) {
  return verdict_line(check.verdicts.at(0), System::metric);
}

using StatedFacts = std::vector<std::pair<std::string, std::string>>;

TEST(CheckPressures, ATyreThatLostAirWhileTheOthersGainedIsALeakOfThatTyre) {
  const GaugeCheck check = checked("pressures", {{"cold", "0.75bar,0.75bar,0.70bar,0.70bar"},
                                                 {"hot", "0.95bar,0.70bar,0.92bar,0.91bar"}});
  EXPECT_EQ(lead_line(check),
            "a leak or a slow puncture: the right front lost air: least that a tyre gained -0.05 "
            "bar; in order from -0.02 bar");
  EXPECT_EQ(check.facts, (StatedFacts{{"gauge", "low"}}));
  EXPECT_DOUBLE_EQ(moved(check, "soft-tyre"), 40.0);
  EXPECT_EQ(check.verdicts.size(), 1U);  // a mean rise with a leak in it says nothing of heat
}

TEST(CheckPressures, TwoTyresThatLostAirAreBothNamed) {
  const GaugeCheck check = checked("pressures", {{"cold", "0.75bar,0.75bar,0.70bar,0.70bar"},
                                                 {"hot", "0.70bar,0.95bar,0.92bar,0.60bar"}});
  EXPECT_THAT(lead_line(check), HasSubstr("the left front and the right rear lost air"));
}

TEST(CheckPressures, ATyreThatWentNearlyFlatIsALeakAndNoSlipOfTheHand) {
  const GaugeCheck check = checked("pressures", {{"cold", "1.2bar,1.2bar,1.2bar,1.2bar"},
                                                 {"hot", "1.3bar,1.3bar,0.2bar,1.3bar"}});
  EXPECT_THAT(lead_line(check), HasSubstr("the left rear lost air"));
}

TEST(CheckPressures, HotBelowColdOnAllFourIsNoRunOfTheseTyres) {
  const GaugeCheck check = checked("pressures", {{"cold", "0.95bar,0.90bar,0.92bar,0.91bar"},
                                                 {"hot", "0.75bar,0.75bar,0.70bar,0.70bar"}});
  EXPECT_EQ(lead(check).id, "hot-below-cold");
  EXPECT_THAT(lead(check).because,
              testing::AllOf(HasSubstr("swapped"), HasSubstr("before the run")));
  EXPECT_THAT(check.facts, IsEmpty());
}

TEST(CheckPressures, ATyreFarBehindTheOthersIsNotClearedByItsColdPressure) {
  const GaugeCheck check = checked("pressures", {{"cold", "0.75bar,0.75bar,0.70bar,0.70bar"},
                                                 {"hot", "0.95bar,0.76bar,0.92bar,0.91bar"}});
  EXPECT_THAT(lead_line(check), testing::StartsWith("the right front gained far less"));
  EXPECT_THAT(check.facts, IsEmpty());
}

TEST(CheckPressures, ColdItSaysWhichTyreIsLow) {
  const auto cold = [](const char* four) {
    return lead_line(checked("pressures", {{"cold", four}}));
  };
  EXPECT_THAT(cold("0.75bar,0.55bar,0.70bar,0.70bar"),
              testing::StartsWith("the right front is low"));
  EXPECT_THAT(cold("0.75bar,0.75bar,0.60bar,0.70bar"), testing::StartsWith("the left rear is low"));
  EXPECT_THAT(cold("0.75bar,0.75bar,0.70bar,0.65bar"), HasSubstr("the right rear lower"));
}

TEST(CheckPressures, AVerdictInOrderNamesItsOwnRange) {
  const GaugeCheck check = checked("pressures", {{"cold", "0.75bar,0.75bar,0.70bar,0.70bar"},
                                                 {"hot", "0.95bar,0.94bar,0.92bar,0.91bar"}});
  std::vector<std::string> lines;
  for (const VerdictFound& found : check.verdicts) {
    lines.push_back(verdict_line(found, System::metric));
  }
  EXPECT_THAT(lines, testing::Contains("left and right are alike: lefts rose more than rights by "
                                       "+0.01 bar; in order from -0.04 bar to under 0.04 bar"));
}

const FigureFound* figure_of(const GaugeCheck& check, const std::string& id) {
  for (const FigureFound& found : check.figures) {
    if (found.figure->id == id) return &found;
  }
  return nullptr;
}

GivenWords eleven_and_eighty(GivenWords more) {
  more.insert(more.end(), {{"front-teeth", "11"}, {"rear-teeth", "80"}, {"pitch", "#219"}});
  return more;
}

TEST(CheckChainLength, TwoTeethMoreOnTheAxleBringTheEngineFiveMillimetresNearer) {
  const GaugeCheck check =
      checked("chain-length", eleven_and_eighty({{"links", "110"}, {"new-rear", "82"}}));
  EXPECT_TRUE(lead(check).ok);
  ASSERT_NE(figure_of(check, "engine-moves"), nullptr);
  EXPECT_NEAR(figure_of(check, "engine-moves")->value, -0.00517, 5e-6);
  EXPECT_EQ(
      figure_of(checked("chain-length", eleven_and_eighty({{"links", "110"}})), "engine-moves"),
      nullptr);
}

TEST(CheckChainLength, TheAnswerLeads) {
  const auto answer = [](GivenWords more) {
    return lead_line(checked("chain-length", eleven_and_eighty(std::move(more))));
  };
  EXPECT_EQ(answer({{"links", "106"}, {"new-rear", "82"}}),
            "the engine moves 5.3 mm towards the axle");
  EXPECT_EQ(answer({{"links", "110"}, {"new-rear", "78"}}),
            "the engine moves 5.1 mm away from the axle");
  EXPECT_EQ(answer({{"distance", "237 mm"}}), "the distance asks for 110 links");
  EXPECT_EQ(answer({{"links", "110"}}), "the shafts stand 235.2 mm apart with this chain");
}

TEST(CheckChainLength, LinksAndDistanceThatContradictEachOtherAreSaid) {
  const auto both = [](const char* links, const char* distance) {
    return checked("chain-length", eleven_and_eighty({{"links", links}, {"distance", distance}}));
  };
  EXPECT_THAT(lead_line(both("110", "300 mm")),
              HasSubstr("contradict each other: 16 links too few"));
  EXPECT_THAT(lead_line(both("110", "220 mm")), HasSubstr("links too many"));
  EXPECT_TRUE(lead(both("110", "237 mm")).ok);
}

TEST(CheckChainLength, ADistanceAsksForAnEvenNumberOfLinks) {
  const GaugeCheck check = checked("chain-length", eleven_and_eighty({{"distance", "237 mm"}}));
  ASSERT_NE(figure_of(check, "links"), nullptr);
  EXPECT_DOUBLE_EQ(figure_of(check, "links")->value, 110.0);
  EXPECT_NEAR(figure_of(check, "shafts")->value, 0.2352, 5e-5);
}

TEST(CheckChainLength, OddAndUnsoldLengthsAreSaid) {
  EXPECT_EQ(lead_of("chain-length", eleven_and_eighty({{"links", "109"}})), "chain-with-odd-links");
  EXPECT_EQ(lead_of("chain-length", eleven_and_eighty({{"links", "112"}})),
            "chain-219-longer-than-sold");
  EXPECT_EQ(lead_of("chain-length", eleven_and_eighty({{"links", "98"}})),
            "shafts-with-this-chain");
}

struct SillyInput {
  const char* gauge;
  GivenWords words;
  const char *message, *help;
};

TEST(CheckRefuses, WhatCannotBe) {
  const SillyInput silly[] = {
      {"chain", {{"tight", "-2 mm"}, {"drive", "clutch"}}, "-2 mm", "between 0 mm and 75 mm"},
      {"chain", {{"tight", "20"}, {"drive", "clutch"}}, "no unit", "a length"},
      {"chain", {{"tight", "300 mm"}, {"drive", "clutch"}}, "300 mm", "between 0 mm and 75 mm"},
      {"chain", {{"tight", "34 mm"}, {"loose", "20 mm"}, {"drive", "clutch"}}, "-14 mm", "swapped"},
      {"chain",
       {{"tigth", "20 mm"}, {"tight", "20 mm"}, {"drive", "clutch"}},
       "`--tigth`",
       "did you mean `--tight`?"},
      {"chain", {{"tight", "20 mm"}}, "`--drive` is missing", "--drive jackshaft"},
      {"chain", {{"tight", "20 mm"}, {"drive", "cluch"}}, "`cluch`", "`clutch`"},
      {"chain", {{"tight", "20 mm"}, {"tight", "21 mm"}, {"drive", "clutch"}}, "twice", ""},
      {"toe", {{"front", "30 deg"}, {"rear", "1010 mm"}}, "`deg` measures an angle", "a length"},
      {"toe", {{"front", "1150 mm"}, {"rear", "1010 mm"}}, "cannot be 140 mm", "different lines"},
      {"toe", {{"front", "1010 mm"}}, "`--rear` is missing", "1010 mm"},
      {"run-out", {{"reading", "20 psi"}}, "`psi` measures pressure", "a length"},
      {"pressures", {{"cold", "0.7bar,0.7bar"}}, "holds 2 amounts", "four"},
      {"pressures", {{"cold", "7bar,0.7bar,0.7bar,0.7bar"}}, "`7bar`", "between 0.2 bar and 3 bar"},
      {"chain-length",
       {{"front-teeth", "11.5"}, {"rear-teeth", "80"}, {"pitch", "219"}, {"links", "110"}},
       "not a whole number",
       "between 6 and 40"},
      {"chain-length",
       {{"front-teeth", "11"}, {"rear-teeth", "80"}, {"pitch", "219"}},
       "one of --links, --distance",
       ""},
      {"chain-length",
       {{"front-teeth", "11"}, {"rear-teeth", "80"}, {"pitch", "219"}, {"links", "50"}},
       "cannot be",
       "counted right"},
  };
  for (const SillyInput& each : silly) {
    const auto found = found_by([&] { checked(each.gauge, each.words); });
    ASSERT_EQ(found.size(), 1U) << each.gauge << " " << each.message;
    EXPECT_THAT(found[0].message, HasSubstr(each.message)) << each.gauge;
    EXPECT_THAT(found[0].help, HasSubstr(each.help)) << each.gauge;
  }
}

bool listens(const Condition& condition, const std::string& fact, const std::string& value) {
  if (condition.op == Condition::Op::test) {
    const auto* test = std::get_if<FactTest>(&condition.test);
    return test != nullptr && test->fact == fact &&
           std::find(test->values.begin(), test->values.end(), value) != test->values.end();
  }
  return std::any_of(condition.parts.begin(), condition.parts.end(),
                     [&](const Condition& part) { return listens(part, fact, value); });
}

bool some_rule_listens(const std::pair<std::string, std::string>& state) {
  const std::vector<RuleRef> rules = every_rule(gauges_pack());
  return std::any_of(rules.begin(), rules.end(), [&](const RuleRef& rule) {
    return rule.when != nullptr && listens(*rule.when, state.first, state.second);
  });
}

// `front-tyres=same` says that neither end is hotter, and the effects that wait for either are
// still.
TEST(EveryGauge, StatesFactsThatSomeRuleListensTo) {
  for (const Gauge& gauge : gauges_pack().gauges) {
    for (const GaugeVerdict& verdict : gauge.verdicts) {
      for (const auto& state : verdict.states) {
        const auto* fact = gauges_pack().fact(state.first);
        const bool any_value =
            std::any_of(fact->values.begin(), fact->values.end(), [&](const std::string& value) {
              return some_rule_listens({state.first, value});
            });
        EXPECT_TRUE(fact->priors.empty() ? some_rule_listens(state) : any_value)
            << verdict.id << ": " << state.first << "=" << state.second;
      }
    }
  }
}

TEST(EveryGauge, FillsInEveryMarkOfItsTexts) {
  for (const Gauge& gauge : gauges_pack().gauges) {
    for (const GaugeVerdict& verdict : gauge.verdicts) {
      for (const std::string& text : {verdict.says, verdict.because, verdict.to_do}) {
        EXPECT_THAT(verdict_text(text, "one tyre"), testing::Not(HasSubstr("{"))) << verdict.id;
      }
    }
  }
}

TEST(EveryGauge, StopsTheKartWhereItSaysNotToRunIt) {
  for (const Gauge& gauge : gauges_pack().gauges) {
    for (const GaugeVerdict& verdict : gauge.verdicts) {
      EXPECT_EQ(verdict.stops, verdict.to_do.starts_with("do not run it")) << verdict.id;
    }
  }
}

TEST(OddsInWords, ToTwoFigures) {
  EXPECT_EQ(odds_text(22.0), "160 times up");
  EXPECT_EQ(odds_text(-20.0), "100 times down");
  EXPECT_EQ(odds_text(4.0), "2.5 times up");
  EXPECT_EQ(odds_text(35.0), "3200 times up");
}

TEST(EveryGauge, MovesTheOddsOfAFaultButTheOneOnChainLength) {
  const Kart kart = typical_kart(gauges_pack());
  for (const Gauge& gauge : gauges_pack().gauges) {
    bool moves = false;
    for (const GaugeVerdict& verdict : gauge.verdicts) {
      for (const auto& [fact, value] : verdict.states) {
        moves = moves || !evidence_of(fact, value, gauges_pack(), kart).empty();
      }
    }
    EXPECT_EQ(moves, gauge.id != "chain-length") << gauge.id;
  }
}

TEST(EveryGauge, HasAnExampleThatIsAnswered) {
  for (const Gauge& gauge : gauges_pack().gauges) {
    GivenWords words;
    for (const GaugeReading& reading : gauge.readings) {
      words.emplace_back(reading.id, reading.example);
    }
    for (const GaugeChoice& choice : gauge.choices) {
      words.emplace_back(choice.id, choice.values.front().id);
    }
    EXPECT_TRUE(lead(checked(gauge.id, words)).ok) << gauge.id;
  }
}

TEST(EveryGauge, IsFoundByItsNameItsMeasureAndItsVerdicts) {
  const Pack& pack = gauges_pack();
  ASSERT_NE(gauge_named("check-toe", pack), nullptr);
  EXPECT_EQ(gauge_named("chain-travel", pack), pack.gauge("chain"));
  EXPECT_EQ(gauge_named("axle-bent", pack), pack.gauge("run-out"));
  EXPECT_EQ(gauge_named("", pack), nullptr);
  EXPECT_EQ(gauge_named("hop", pack), nullptr);
}

}  // namespace
}  // namespace kartwright
