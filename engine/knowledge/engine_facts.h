// engine_facts.h - the facts that the engine itself states or reads, named once, so that an audit
// of the rules knows that they are stated and read though no rule does either.

#pragma once

#include <array>
#include <string_view>

namespace kartwright::engine_facts {

inline constexpr std::string_view kTrack = "track";         ///< from `track:` of the debrief
inline constexpr std::string_view kTrackWas = "track-was";  ///< read: wet to dry and back
inline constexpr std::string_view kLaps = "laps";           ///< read: the clock against complaints
inline constexpr std::string_view kHit = "hit";             ///< read: opens the whole-kart look
inline constexpr std::string_view kOnlyEarly = "only-early";  ///< stated from the reports
inline constexpr std::string_view kOnlyLate = "only-late";    ///< stated from the reports

inline constexpr std::array kRead{kTrack, kTrackWas, kLaps, kHit};
inline constexpr std::array kStated{kOnlyEarly, kOnlyLate};

}  // namespace kartwright::engine_facts

/// The axes that the loads of the wheels speak to. Rules without them are heard as they are.
namespace kartwright::engine_axes {

inline constexpr std::string_view kRearGripMid = "rear-grip.mid";
inline constexpr std::string_view kUnloading = "unloading";

}  // namespace kartwright::engine_axes
