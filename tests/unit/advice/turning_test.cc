// What would change the answer: every turn that is told is made, and nothing nearer turns it.

#include "engine/advice/turning.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "engine/debrief/report_grammar.h"
#include "tests/support/pit.h"

namespace kartwright {
namespace {

using testing::IsEmpty;
using testing::Not;

/// Few settings, so that a test is soon done.
constexpr TurningPlan kNear{.places = 3, .contenders = 3};

Debrief said(const std::string& track, const std::vector<std::string>& reports) {
  Debrief debrief{.heard = {}, .track = track};
  Findings findings;
  for (const std::string& text : reports) {
    debrief.heard.reports.push_back(
        parse_report(text, rules(), {.file = "a test", .source = text}, findings).value());
  }
  return debrief;
}

struct Outing {
  Kart kart = typical_kart(rules());
  Debrief debrief = said("green", {"push@entry=2", "lazy@entry=1"});

  Turning turned(const TurningPlan& plan = kNear) const {
    return turning(rules(), kart, debrief, System::metric, plan);
  }
  Leading leading(const Pack& pack = rules()) const {
    return leading_of(advise(pack, kart, debrief, System::metric, {.questions = false}));
  }
};

std::vector<Turn> of_kind(const Turning& turning, TurnKind kind) {
  std::vector<Turn> out;
  std::copy_if(turning.turns.begin(), turning.turns.end(), std::back_inserter(out),
               [&](const Turn& turn) { return turn.kind == kind; });
  return out;
}

/// What leads after a turn, made by other means than the search.
Leading after(const Turn& turn, Outing outing) {
  switch (turn.kind) {
    case TurnKind::severity:
    case TurnKind::confidence:
      for (Report& report : outing.debrief.heard.reports) {
        if (turn.input != report.symptom + "@" + std::string(name_of(report.phase))) continue;
        if (turn.kind == TurnKind::severity) report.severity = std::stoi(turn.to);
        if (turn.kind == TurnKind::confidence) report.confidence = *confidence_named(turn.to);
      }
      break;
    case TurnKind::track:
      outing.debrief.track = turn.to;
      break;
    case TurnKind::fact:
      outing.debrief.heard.facts.push_back({turn.input, turn.to});
      break;
    case TurnKind::setting:
      for (const double place : outing.kart.settings.at(turn.input).travel.places) {
        const Setting& setting = outing.kart.settings.at(turn.input);
        if (print_setting(setting, place, System::metric) != turn.to) continue;
        outing.kart.settings.at(turn.input).now = place;
        break;
      }
      break;
    case TurnKind::rule:
      break;
  }
  return outing.leading();
}

TEST(Turning, TellsOnlyWhatDoesTurnIt) {
  for (const char* track : {"green", "rubbered-in"}) {
    Outing outing;
    outing.debrief = said(track, {"push@entry=2", "lazy@entry=1"});
    const Turning turned = outing.turned();
    EXPECT_TRUE(turned.now.same_as(outing.leading()));
    EXPECT_THAT(turned.turns, Not(IsEmpty()));
    for (const Turn& turn : turned.turns) {
      EXPECT_FALSE(turn.then.same_as(turned.now)) << in_words(turn);
      if (turn.kind == TurnKind::rule) continue;
      EXPECT_TRUE(turn.then.same_as(after(turn, outing))) << in_words(turn);
    }
  }
}

TEST(Turning, MissesNoSeverityAndNoTrack) {
  const Outing outing;
  const Turning turned = outing.turned({.places = 0, .contenders = 0, .strongest = 1.0});
  std::set<std::string> told;
  for (const Turn& turn : turned.turns) {
    if (turn.kind == TurnKind::track) told.insert(turn.to);
  }
  for (const TrackState& track : rules().tracks) {
    Outing other = outing;
    other.debrief.track = track.id;
    EXPECT_EQ(told.contains(track.id), !other.leading().same_as(turned.now)) << track.id;
  }
  for (std::size_t i = 0; i < outing.debrief.heard.reports.size(); ++i) {
    const Report& report = outing.debrief.heard.reports[i];
    std::map<bool, int> nearest;
    for (int severity = 0; severity <= 3; ++severity) {
      Outing other = outing;
      other.debrief.heard.reports[i].severity = severity;
      if (other.leading().same_as(turned.now)) continue;
      const int far = std::abs(severity - report.severity);
      const auto [at, fresh] = nearest.emplace(severity > report.severity, far);
      if (!fresh) at->second = std::min(at->second, far);
    }
    std::map<bool, int> reported;
    for (const Turn& turn : of_kind(turned, TurnKind::severity)) {
      if (turn.input == report.symptom + "@" + std::string(name_of(report.phase)))
        reported[std::stoi(turn.to) > report.severity] = static_cast<int>(turn.distance);
    }
    EXPECT_EQ(reported, nearest) << report.symptom;
  }
}

/// The rules with one effect rule at another size.
Pack with_size(const std::string& id, double factor) {
  Pack pack = rules();
  for (Adjustment& adjustment : pack.adjustments) {
    for (EffectRule& rule : adjustment.effects) {
      if (rule.id != id) continue;
      for (Cell& cell : rule.cells) {
        cell.mean *= factor;
        cell.sd *= factor;
      }
    }
  }
  return pack;
}

Leading with_pack(const Outing& outing, const Pack& pack) {
  Kart kart = outing.kart;
  for (auto& [id, setting] : kart.settings) setting.adjustment = pack.adjustment(id);
  return leading_of(advise(pack, kart, outing.debrief, System::metric, {.questions = false}));
}

TEST(Turning, FindsTheSizeOfARuleToOnePerCent) {
  const Outing outing;
  const Turning turned = outing.turned({.places = 0, .contenders = 0});
  const std::vector<Turn> sizes = of_kind(turned, TurnKind::rule);
  ASSERT_THAT(sizes, Not(IsEmpty()));
  for (const Turn& turn : sizes) {
    const double weaker = turn.to.front() == '0' ? -1.0 : 1.0;
    const double size = 1.0 + weaker * turn.distance;
    EXPECT_TRUE(with_pack(outing, with_size(turn.input, size)).same_as(turn.then))
        << in_words(turn);
    const double nearer = size - weaker * 0.0101;
    EXPECT_TRUE(with_pack(outing, with_size(turn.input, nearer)).same_as(turned.now))
        << in_words(turn);
  }
}

TEST(Turning, ComesByKindAndThenTheNearestFirst) {
  const Turning turned = Outing().turned();
  for (std::size_t i = 1; i < turned.turns.size(); ++i) {
    const Turn& before = turned.turns[i - 1];
    const Turn& here = turned.turns[i];
    ASSERT_LE(before.kind, here.kind);
    if (before.kind == here.kind) {
      ASSERT_LE(before.distance, here.distance);
    }
  }
}

TEST(Turning, TellsAtMostFiveAndTheNearestOfEachKindAmongThem) {
  const Turning turned = Outing().turned();
  EXPECT_LE(turned.telling.size(), 5U);
  EXPECT_EQ(turned.telling.size(), std::min<std::size_t>(5, turned.turns.size()));
  std::set<TurnKind> kinds;
  for (const Turn& turn : turned.telling) kinds.insert(turn.kind);
  for (const TurnKind kind : {TurnKind::track, TurnKind::fact, TurnKind::setting, TurnKind::rule}) {
    EXPECT_EQ(kinds.contains(kind), !of_kind(turned, kind).empty()) << name_of(kind);
  }
}

TEST(Turning, CountsItsRunsAndKeepsThemFew) {
  const Turning all = Outing().turned(TurningPlan{});
  EXPECT_GT(all.runs, 20);
  EXPECT_LE(all.runs, 450);
}

TEST(Turning, StaysWithinTheClassLimit) {
  Outing outing;
  for (auto& [id, setting] : outing.kart.settings) {
    if (setting.adjustment->listed()) {
      setting.limit.allowed = {setting.travel.names.at(static_cast<std::size_t>(setting.now))};
    } else {
      setting.limit.at_least = setting.limit.at_most = setting.now;
    }
  }
  EXPECT_THAT(of_kind(outing.turned(), TurnKind::setting), IsEmpty());
}

TEST(Turning, OfAKartThatIsLeftAloneSaysWhatWouldMakeItAChange) {
  Outing outing;
  outing.debrief = said("unknown", {"push@mid=1,unsure"});
  const Turning turned = outing.turned({.places = 0, .contenders = 0});
  ASSERT_EQ(turned.now.headline, Headline::leave_alone);
  EXPECT_EQ(turned.now.phrase, "leave the kart alone");
  const std::vector<Turn> severities = of_kind(turned, TurnKind::severity);
  ASSERT_THAT(severities, Not(IsEmpty()));
  for (const Turn& turn : severities) EXPECT_EQ(turn.then.headline, Headline::change);
}

TEST(TurningInWords, SaysTheInputAndWhatComesFirst) {
  const Leading toe{Headline::change, "toe", "out", "toe out"};
  EXPECT_EQ(in_words(Turn{TurnKind::severity, "push@entry", "2", "1", 1.0, toe}),
            "push@entry at severity 1 instead of 2: toe out");
  EXPECT_EQ(in_words(Turn{TurnKind::rule, "wider-sheds-side-bite", "1", "0.66", 0.34, toe}),
            "wider-sheds-side-bite 34 % weaker: toe out");
  EXPECT_EQ(in_words(Turn{TurnKind::fact, "turn-in", "nobody said", "brake", 1.0, toe}),
            "turn-in brake: toe out");
}

}  // namespace
}  // namespace kartwright
