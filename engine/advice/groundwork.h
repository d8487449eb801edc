// groundwork.h - what an advice rests on whatever was said of the handling, kept from one debrief
// of a kart to the next: its loads by track, its places by the time there is, what its moves do by
// the facts, and the words for that.
//
// The same values as worked out anew each time. For one thread.

#pragma once

#include <Eigen/Core>
#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "engine/advice/explain_change.h"
#include "engine/advice/shared.h"
#include "engine/chassis/load_measures.h"
#include "engine/decision/bundles.h"
#include "engine/decision/effects.h"
#include "engine/decision/options.h"
#include "engine/inference/belief.h"

namespace kartwright {

/// Values kept by the way that they are of, numbered as all_ways does, and by a key.
template <typename Key, typename Value>
class KeptByWay {
 public:
  /// The value under the key, made where there is none. It stays until the next one is asked for.
  template <typename Make>
  const Value& of(std::size_t way, const Key& key, const Make& make) {
    if (by_way_.size() <= way) by_way_.resize(way + 1);
    auto& kept = by_way_[way];
    for (const auto& [known, value] : kept) {
      if (known == key) return value;
    }
    return kept.emplace_back(key, make()).second;
  }

 private:
  std::vector<std::vector<std::pair<Key, Value>>> by_way_;
};

/// What moves do where the same facts hold, and what is told of that.
struct MovesUnderFacts {
  Shared<std::vector<Effect>> effects;                         ///< as effects_of
  KeptByWay<std::pair<double, System>, Grounds> grounds = {};  ///< by where it goes, and the units
};

/// Where moves can go in the same time, and what is told of those that cannot be made.
struct MovesInTime {
  /// Why a way is refused, and in which units that is told.
  struct Why {
    Refusal refusal = Refusal::none;
    std::optional<std::size_t> worsens = {};
    bool uncertain = false;
    System units = System::metric;
    bool operator==(const Why&) const = default;
  };
  Shared<std::vector<Way>> ways;  ///< as all_ways
  KeptByWay<Why, NotNow> not_now = {};
};

class Groundwork {
 public:
  /// REQUIRES: both outlive it and stay as they are.
  Groundwork(const Pack& pack, const Kart& kart);

  const Pack& pack() const { return pack_; }
  const Kart& kart() const { return kart_; }
  const Eigen::VectorXd& weights() const { return weights_; }  ///< by axis
  bool room_matters() const { return room_matters_; }          ///< as looks_at_room

  /// As make_prior, and throws as that does.
  const Prior& prior();

  /// A kart's loads on a track, and what they come to as measures; empty where they are not known.
  struct Loads {
    std::optional<LoadsToday> today = {};
    std::map<std::string, double, std::less<>> measures = {};
  };
  const Loads& loads(const std::string& track);

  MovesInTime& in_time(double minutes_left);

  /// REQUIRES: a situation of this pack and kart with nothing supposed, its loads as `loads` gives
  /// them for the track. It stays until the next one is asked for.
  MovesUnderFacts& under_facts(Situation& situation, const std::string& track);

  const JobClasses& jobs();  ///< as job_classes

 private:
  const Pack& pack_;
  const Kart& kart_;
  Eigen::VectorXd weights_;
  bool room_matters_;
  bool reports_matter_;  ///< some effect depends on a report
  std::optional<Prior> prior_ = {};
  std::map<std::string, Loads, std::less<>> loads_ = {};
  std::map<double, MovesInTime> in_time_ = {};
  std::map<std::string, MovesUnderFacts, std::less<>> under_facts_ = {};  ///< by track and facts
  std::optional<MovesUnderFacts> of_one_case_ = {};
  std::optional<JobClasses> jobs_ = {};
};

}  // namespace kartwright
