// normal_form.h - a condition as alternatives, each a list of tests that hold or do not hold.
//
// A fact that rules conclude is written out by the conditions of those rules, so that every test
// left is on what comes from outside: what was stated, reported, set and measured. A fact test in
// the alternatives means that the value was stated.

#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/knowledge/pack.h"

namespace kartwright {

/// A test that holds, or does not.
struct Literal {
  Test test;
  bool wanted = true;
  auto operator<=>(const Literal&) const = default;
};

/// All of these together; sorted, none twice. Empty: always.
using Conjunction = std::vector<Literal>;
/// Any of these; empty: never.
using NormalForm = std::vector<Conjunction>;

/// What a fact test stands for while a condition is taken apart.
enum class FactsAs {
  outside,    ///< what can be stated, and what rules conclude from that
  any_value,  ///< the same, supposing that every value of every fact could be stated
  named,      ///< the fact itself, a value a test; rules are not looked into
};

/// The values that a fact can have before any rule: what the crew may state, and what the engine
/// states of the track, the reports and the room on an adjustment.
std::vector<std::string> values_from_outside(std::string_view fact, const Pack& pack);

/// More alternatives than this are not written out.
inline constexpr std::size_t kMostAlternatives = 1000;

/// Disjunctive normal form of a condition over the pack's rules, alternatives that no facts can fit
/// left out; nothing where it would take more than kMostAlternatives. Holds on a case exactly where
/// the condition does once the facts are settled, as long as no fact depends on its own absence.
std::optional<NormalForm> normal_form(const Condition& condition, const Pack& pack,
                                      FactsAs facts = FactsAs::outside);

}  // namespace kartwright
