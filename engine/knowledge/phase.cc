#include "engine/knowledge/phase.h"

#include <algorithm>
#include <array>

namespace kartwright {
namespace {

constexpr std::array<std::string_view, 5> kPhases{"entry", "mid", "exit", "straight", "any"};
constexpr std::array<std::string_view, 2> kSides{"left", "right"};
constexpr std::array<std::string_view, 2> kWhens{"early", "late"};
constexpr std::array<std::string_view, 3> kConfidences{"sure", "fair", "unsure"};

template <typename Enum, std::size_t N>
std::optional<Enum> named(const std::array<std::string_view, N>& names, std::string_view name) {
  const auto* found = std::find(names.begin(), names.end(), name);
  if (found == names.end()) return std::nullopt;
  return static_cast<Enum>(found - names.begin());
}

}  // namespace

std::string_view name_of(Phase phase) { return kPhases.at(static_cast<std::size_t>(phase)); }
std::string_view name_of(Side side) { return kSides.at(static_cast<std::size_t>(side)); }
std::string_view name_of(When when) { return kWhens.at(static_cast<std::size_t>(when)); }
std::string_view name_of(Confidence confidence) {
  return kConfidences.at(static_cast<std::size_t>(confidence));
}
std::optional<Phase> phase_named(std::string_view name) { return named<Phase>(kPhases, name); }
std::optional<Side> side_named(std::string_view name) { return named<Side>(kSides, name); }
std::optional<When> when_named(std::string_view name) { return named<When>(kWhens, name); }
std::optional<Confidence> confidence_named(std::string_view name) {
  return named<Confidence>(kConfidences, name);
}

}  // namespace kartwright
