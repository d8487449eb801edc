// condition.h - when a rule applies, as structure: tests on facts, reports, settings, measurements.

#pragma once

#include <compare>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "engine/knowledge/phase.h"

namespace kartwright {

/// A fact has one of these values. `track` is a fact like any other.
struct FactTest {
  std::string fact;
  std::vector<std::string> values;
  auto operator<=>(const FactTest&) const = default;
};

/// The crew reported a symptom: at a phase (any phase if none is named), of at least a severity.
struct ReportTest {
  std::string symptom;
  std::optional<Phase> phase = {};
  int at_least = 1;  ///< 0 asks for a denial
  auto operator<=>(const ReportTest&) const = default;
};

/// A setting stands in one of these positions, or near an end of its legal range.
struct SettingTest {
  std::string adjustment;
  std::vector<std::string> positions = {};  ///< for adjustments with named positions
  std::optional<double> within = {};        ///< SI, distance from the end
  std::string of_end = {};                  ///< the direction whose end is meant
  auto operator<=>(const SettingTest&) const = default;
};

/// A measurement lies beyond a limit, or outside the crew's band.
struct MeasureTest {
  std::string measure;
  enum class Side { above, below } side = Side::above;
  std::optional<double> limit = {};  ///< SI; without it, the edge of the crew's band
  auto operator<=>(const MeasureTest&) const = default;
};

using Test = std::variant<FactTest, ReportTest, SettingTest, MeasureTest>;

/// A tree of tests. `always` is the condition of a rule that names none.
struct Condition {
  enum class Op { always, test, all, any, negated };
  Op op = Op::always;
  Test test = {};
  std::vector<Condition> parts = {};
  bool operator==(const Condition&) const = default;
};

}  // namespace kartwright
