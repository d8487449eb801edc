// turning.h - what would change the answer: for each single thing that was entered or is taken for
// granted, the smallest change of it that puts another move first, or leaves the kart alone.
//
// Nothing is estimated: the whole advice is worked out anew for every value tried.

#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/advice/advise.h"
#include "engine/records/history.h"

namespace kartwright {

/// What comes first: a change, or leaving the kart alone or to the track.
struct Leading {
  Headline headline = Headline::change;
  std::string adjustment = {}, direction = {};  ///< empty where no change leads
  std::string phrase = {};                      ///< "rear wider", "leave the kart alone"
  bool same_as(const Leading& other) const {
    return adjustment == other.adjustment && direction == other.direction &&
           (!adjustment.empty() || headline == other.headline);
  }
};

/// The leading change where the advice offers one; with `leave-alone` and `wait-for-track` nothing
/// leads but that.
Leading leading_of(const Advice& advice);

/// Most telling first.
enum class TurnKind { severity, confidence, track, fact, setting, rule };
std::string_view name_of(TurnKind kind);

/// One thing that, changed alone, puts something else first.
struct Turn {
  TurnKind kind = TurnKind::severity;
  std::string input;  ///< "push@entry", "track", a fact's, an adjustment's or an effect rule's id
  std::string from, to;  ///< as the crew writes them; of a rule, its size: "1", "0.66"
  /// From the one to the other: grades of severity, steps of confidence, 1 for a track or a fact,
  /// reference steps of a setting, and for a rule the part of it that is added or taken away.
  double distance = 0.0;
  Leading then;
};

struct Turning {
  Leading now;
  std::vector<Turn> turns;    ///< by kind, then the nearest first; one for each input and direction
  std::vector<Turn> telling;  ///< at most 5 of them: the nearest of each kind, most telling first
  int runs = 0;               ///< how often the advice was worked out
};

/// How far to look. The bounds keep the runs within some four hundred.
struct TurningPlan {
  int places = 6;                    ///< of one adjustment, each way
  int contenders = 6;                ///< ranked changes whose settings are tried
  double strongest = 3.0;            ///< times which a runner-up's rule is tried
  const History* history = nullptr;  ///< of the kart, where there is a log
};

/// Tries each input by itself: of every report the severity and the confidence; the track; facts
/// that nobody stated and an effect waits for; the settings of the changes ranked first, of those
/// at an end stop and of those that rules look at, within the class limit; and the size of the
/// first change's effect rules, weaker, and of the runner-up's, stronger (mean and spread alike,
/// found to 1 %). The pack is taken by value since its rules are scaled in place. Throws as advise
/// does.
Turning turning(Pack pack, const Kart& kart, const Debrief& debrief, System units,
                const TurningPlan& plan = {});

/// "push@entry at severity 1 instead of 2: toe out comes first".
std::string in_words(const Turn& turn);

}  // namespace kartwright
