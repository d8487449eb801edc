// progress.h - what a trainee has done so far: how well at each level, what is mistaken for what,
// and which level is next.

#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "engine/practice/ends.h"
#include "engine/practice/marking.h"

namespace kartwright {

/// One thing taken for another: "front" for "rear".
struct Mistake {
  std::string said = {}, right = {};
};

/// One finished task.
struct DrillRecord {
  std::uint64_t seed = 1;
  std::string level = {};  ///< id; empty: a file's
  std::string task = {};   ///< of a case with a name; empty: drawn
  std::string end = {}, end_right = {};
  double end_mark = 0.0;
  std::string choice = {}, best = {};  ///< in words
  double mark = 0.0;
  int refused = 0;  ///< answers that could not be done
  std::vector<Mistake> mistakes = {};
};

/// The record of a finished task. An end under 70 and an answer under 80 are mistakes: the first of
/// one end for another, the second of a direction, or of a size where that alone is off.
DrillRecord record_of(const Marking& marking, KartEnd end, const DrillChoice& choice, int refused);

struct LevelProgress {
  std::string id = {}, label = {};
  int drills = 0;
  double mean = 0.0, latest = 0.0;
};

struct Progress {
  std::vector<LevelProgress> levels = {};              ///< in the order of learning; a file's last
  std::vector<std::pair<Mistake, int>> mistakes = {};  ///< most frequent first
  int drills = 0, refused = 0;
  std::string next_level = {};  ///< id
};

/// The first level that was done fewer than three times, or whose last three have a mean under 80,
/// is next; the last level where there is none.
Progress progress_of(const std::vector<DrillRecord>& records, const Pack& pack);

/// The seed after the last of a trainee; 1 where there is none.
std::uint64_t next_seed(const std::vector<DrillRecord>& records);

}  // namespace kartwright
