// kept_debrief.h - a debrief that was broken off, kept in the state folder until it is taken up
// again: one for each kart, as an ordinary debrief file.

#pragma once

#include <optional>
#include <string>

#include "engine/debrief/debrief.h"
#include "engine/knowledge/pack.h"

namespace kartwright::cli {

/// Whose debrief it is: the kart's file, or the debrief file that holds the kart, or nothing where
/// a typical kart answers.
struct WhoseDebrief {
  std::string kart = {};     ///< path as it was given, or empty
  std::string debrief = {};  ///< path as it was given, where it holds the kart; or empty
};

struct KeptDebrief {
  Debrief debrief;
  std::size_t answers = 0;
};

class DebriefKeeper {
 public:
  explicit DebriefKeeper(const WhoseDebrief& whose);

  bool can_keep() const { return folder_.has_value(); }  ///< false: there is no state folder
  bool has_one() const;
  /// Throws InputError where it is damaged, or of other rules. REQUIRES: has_one().
  KeptDebrief read(const Pack& pack) const;
  /// Throws FileError. REQUIRES: can_keep().
  void keep(const KeptDebrief& kept) const;
  bool forget() const;  ///< false where one stays
  std::string path() const;

  /// The options that take it up again, ` --kart blue27.yaml`; empty for a typical kart.
  std::string options() const;

 private:
  WhoseDebrief whose_;
  std::optional<std::string> folder_;
  std::string name_;
};

}  // namespace kartwright::cli
