#include <array>

#include <fmt/format.h>

#include "engine/advice/turning.h"

namespace kartwright {

Leading leading_of(const Advice& advice) {
  const Headline headline = advice.verdict.headline;
  const bool alone = headline == Headline::leave_alone || headline == Headline::wait_for_track;
  if (alone || advice.changes.empty()) {
    const bool wait = headline == Headline::wait_for_track;
    return {.headline = headline, .phrase = wait ? "wait for the track" : "leave the kart alone"};
  }
  const Change& first = advice.changes.front();
  const std::string& phrase = first.adjustment().phrases.at(first.candidate.option.direction);
  return {headline, first.adjustment().id, first.direction(),
          phrase.empty() ? first.adjustment().label + " " + first.direction() : phrase};
}

std::string_view name_of(TurnKind kind) {
  static constexpr std::array<std::string_view, 6> kNames{"severity", "confidence", "track",
                                                          "fact",     "setting",    "rule"};
  return kNames.at(static_cast<std::size_t>(kind));
}

std::string in_words(const Turn& turn) {
  const std::string first = ": " + turn.then.phrase;
  switch (turn.kind) {
    case TurnKind::severity:
      return fmt::format("{} at severity {} instead of {}{}", turn.input, turn.to, turn.from,
                         first);
    case TurnKind::confidence:
      return fmt::format("{} {} instead of {}{}", turn.input, turn.to, turn.from, first);
    case TurnKind::track:
      return fmt::format("track {} instead of {}{}", turn.to, turn.from, first);
    case TurnKind::fact:
      return fmt::format("{} {}{}", turn.input, turn.to, first);
    case TurnKind::setting:
      return fmt::format("{} at {} instead of {}{}", turn.input, turn.to, turn.from, first);
    case TurnKind::rule:
      return fmt::format("{} {:.0f} % {}{}", turn.input, 100.0 * turn.distance,
                         turn.to.front() == '0' ? "weaker" : "stronger", first);
  }
  return {};
}

}  // namespace kartwright
