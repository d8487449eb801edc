// small_case.h - rule packs from a few lines of text, and one kart with one debrief before the
// engine's inner rooms, so that a test can stop at any door of the corridor.

#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "engine/inference/situation.h"

namespace kartwright {

/// A pack of these rule files, named file-1.yaml, file-2.yaml ... Throws InputError.
Pack pack_of(const std::vector<std::string>& files);

/// `axes:` with one axis for each name, weight 1 and spread 1.
std::string axes_text(const std::vector<std::string>& names);

/// What every rule must carry beside what the test is about.
inline constexpr std::string_view kRuleTail =
    "because: it is so, provenance: {practice: common}, status: stable";

/// One kart and one debrief. Reports as `push@entry=2`, facts as `laps=faster`, both checked.
struct SmallCase {
  /// The pack must outlive the case.
  explicit SmallCase(const Pack& rules, std::vector<std::string> said = {},
                     std::vector<std::string> facts = {}, std::string track = "unknown");

  /// The case with its facts settled; the case must outlive it.
  Situation settled() const;

  const Pack& pack;
  Kart kart;
  Debrief debrief;
};

/// The axis of a pack. Throws where there is none.
long axis_index(const Pack& pack, std::string_view id);

}  // namespace kartwright
