// sample.h - a case that fits a conjunction, or the knowledge that there is none.
//
// A test looks at one fact, one symptom, one adjustment or one measure, and those do not depend on
// each other: so each is settled alone, by looking through the few cases that its tests can tell
// apart.

#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "engine/audit/normal_form.h"
#include "engine/debrief/debrief.h"
#include "engine/kart/travel.h"

namespace kartwright {

/// One adjustment as a case has it.
struct Stand {
  std::optional<Setting> setting = {};  ///< none: the kart has no such adjustment
  std::optional<Range> range = {};      ///< where it differs from the usual one
  bool typical = false;                 ///< as on the kart that answers where none is given
};

/// A measurement, and the crew's own band where the case needs one. SI.
struct Measured {
  std::optional<double> value = {};
  std::optional<std::pair<double, double>> band = {};
};

/// What a case must have; of what is not here nothing is said.
struct Sample {
  std::map<std::string, std::string> facts = {};  ///< stated, by id
  std::vector<Report> reports = {};
  std::map<std::string, Stand> stands = {};       ///< by adjustment id
  std::map<std::string, Measured> measures = {};  ///< by measure id
};

/// A case on which all literals hold, fact tests taken as what was stated; nothing where no kart
/// and no debrief can be so. The adjustments of `fitted` are on the kart.
std::optional<Sample> sample_of(const Conjunction& all, const Pack& pack,
                                const std::vector<std::string>& fitted = {});

// One subject each; nothing where its literals cannot hold together.
std::optional<std::vector<Report>> sample_reports(const Symptom& symptom, const Conjunction& all);
std::optional<Stand> sample_stand(const Adjustment& adjustment, const Conjunction& all, bool fitted,
                                  const Pack& pack);
std::optional<Measured> sample_measure(const MeasureDef& measure, const Conjunction& all,
                                       const Pack& pack);

/// A number as a file can hold it: printed, and read again.
double as_written(double si, Kind kind, System system);

}  // namespace kartwright
