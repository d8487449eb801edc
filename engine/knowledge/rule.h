// rule.h - what every rule of a pack carries: an id, a reason, what stands behind it, and where it
// is written.

#pragma once

#include <string>

namespace kartwright {

/// Where a rule is written.
struct Source {
  std::string file;
  int line = 0;
  std::string text() const { return file + ":" + std::to_string(line); }
  bool operator==(const Source&) const = default;
};

/// What stands behind a rule: common practice, and how many independent published groups agree or
/// not.
struct Provenance {
  bool practice = false;
  int groups_for = 0;
  int groups_against = 0;
  std::string note = {};
  /// "common practice; published: 8 groups for, 3 against"
  std::string text() const;
  bool operator==(const Provenance&) const = default;
};

enum class Status { experimental, test, stable };

/// What every rule carries.
struct Rule {
  std::string id;
  std::string because;
  Provenance provenance;
  Status status = Status::stable;
  Source source;
  bool operator==(const Rule&) const = default;
};

}  // namespace kartwright
