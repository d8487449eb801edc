// groundwork.h - what an advice rests on whatever was said of the handling, kept from one debrief
// of a kart to the next: its loads by track, its places by the time there is, and what its moves do
// by the facts.
//
// The same values as worked out anew each time. For one thread.

#pragma once

#include <Eigen/Core>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "engine/chassis/load_measures.h"
#include "engine/decision/effects.h"
#include "engine/decision/options.h"
#include "engine/inference/belief.h"

namespace kartwright {

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

  /// As all_ways.
  const std::vector<Way>& ways(double minutes_left);

  /// As effects_of. REQUIRES: a situation of this pack and kart with nothing supposed, its loads as
  /// `loads` gives them for the track.
  const std::vector<Effect>& effects(Situation& situation, const std::string& track);

 private:
  const Pack& pack_;
  const Kart& kart_;
  Eigen::VectorXd weights_;
  bool room_matters_;
  bool reports_matter_;  ///< some effect depends on a report
  std::optional<Prior> prior_ = {};
  std::map<std::string, Loads, std::less<>> loads_ = {};
  std::map<double, std::vector<Way>> ways_ = {};
  std::map<std::string, std::vector<Effect>, std::less<>> effects_ = {};  ///< by track and facts
  std::vector<Effect> of_one_case_ = {};
};

}  // namespace kartwright
