// why_not.h - why a change leads or loses: what it would leave of the handling error, axis by axis,
// and by which parts of the score it stands behind the first, refused or not.

#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "engine/advice/advice.h"
#include "engine/debrief/report_grammar.h"
#include "engine/knowledge/every_rule.h"

namespace kartwright {

/// A change that was asked about: an adjustment in one direction, or in both where none was named.
struct AskedChange {
  const Adjustment* adjustment = nullptr;
  std::vector<std::size_t> directions;
};

using AskedWhyNot = std::variant<AskedChange, RuleRef>;

/// Reads `rear-width:narrower`, `rear-width`, or the id of a rule; what names both is the change.
/// What it does not know is added to `findings`, with the nearest name. The pack must outlive it.
std::optional<AskedWhyNot> parse_why_not(std::string_view text, const Pack& pack,
                                         const WrittenAt& at, Findings& findings);

/// What a move does to one axis, weighed.
struct AxisAccount {
  std::size_t axis = 0;
  double before = 0.0, after = 0.0;  ///< notches
  double moved = 0.0;                ///< weight (after^2 - before^2): negative takes error out
  double doubt = 0.0;                ///< weight u^2 variance: what is not known of the effect
  double added() const { return moved + doubt; }
};

/// A place the adjustment could go to, judged as if it were allowed.
struct JudgedPlace {
  Candidate candidate;
  std::string to;   ///< as a kart file writes it
  std::string why;  ///< it is not allowed; empty where it is
};

/// How a change stands against another one, in points: parts of its score minus the other's.
struct Against {
  std::string phrase;  ///< the other change, in the crew's words
  Parts difference;    ///< negative parts put it behind
};

struct WhyChange {
  std::string adjustment, direction;
  std::string phrase;                      ///< in the crew's words
  std::optional<std::size_t> stands = {};  ///< 1 leads; nothing: it is not offered
  Refusal refusal = Refusal::none;         ///< where it is not offered
  std::vector<JudgedPlace> places = {};    ///< nearest first
  /// Index in `places`: the best allowed one; with none allowed the best that is not too far for
  /// one move, or the nearest. Nothing where there is no place at all.
  std::optional<std::size_t> best = {};
  /// Of the best place, axes it touches, most error added first. Their `added` sum to `loss_added`.
  std::vector<AxisAccount> axes = {};
  double loss_added = 0.0;  ///< J(move) - J(none), notches squared; negative is good
  /// The first change, or the second where this is the first; nothing where there is no other.
  std::optional<Against> against = {};
  std::vector<std::string> text = {};  ///< all of it in plain sentences, most telling first

  /// The axis it worsens most, or nothing where it worsens none.
  std::optional<AxisAccount> worst() const;
};

/// Judges a change by an advice and the pack and kart it was made from. REQUIRES: the adjustment is
/// of that pack, direction is 0 or 1.
WhyChange why_not(const Adjustment& adjustment, std::size_t direction, const Advice& advice,
                  const Pack& pack, const Kart& kart);

}  // namespace kartwright
