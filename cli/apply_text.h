// apply_text.h - a change that was made, or would be.

#pragma once

#include <string>
#include <utility>
#include <vector>

#include "cli/page.h"
#include "engine/records/apply.h"

namespace kartwright::cli {

/// A line of a file before and after.
struct ChangedLine {
  int number = 0;
  std::string before, after;
};
/// The lines that differ between two files of as many lines.
std::vector<ChangedLine> changed_lines(const Document& before, const Document& after);

struct AppliedPage {
  RunChange change;
  const Setting* setting = nullptr;
  bool far = false;
  bool dry_run = false;
  bool made_before = false;  ///< the kart file had it already, and the log did not
  std::string file;
  std::vector<ChangedLine> lines;
  Applied applied = {};
};

std::string apply_text(const AppliedPage& page, const Pack& pack, Look look);
std::string apply_json(const AppliedPage& page);

}  // namespace kartwright::cli
