// The pages of the codes that the cases beside rule files give.

#include <array>

#include "engine/document/code_pages.h"

namespace kartwright {
namespace {

constexpr std::array kCasePages{
    CodePage{.code = Code::rule_silent,
             .shown = Shown::cases,
             .what = "a case says that a rule fires on it, and it does not",
             .why = "either the rule has stopped saying what it was written for, or the case never "
                    "was one",
             .avoid = R"(# rules/setup/raised-mass.cases.yaml
cases:
  - case: a roll structure, and rubber down
    track: greasy
    kart: {facts: {roll-structure: yes}}
    fires: [raised-mass-on-rubber-loads-the-rear]
  - case: a roll structure on a green track
    track: green
    kart: {facts: {roll-structure: yes}}
    silent: [raised-mass-on-rubber-loads-the-rear])",
             .prefer = R"(# rules/setup/raised-mass.cases.yaml
cases:
  - case: a roll structure, and rubber down
    track: rubbered-in
    kart: {facts: {roll-structure: yes}}
    fires: [raised-mass-on-rubber-loads-the-rear]
  - case: a roll structure on a green track
    track: green
    kart: {facts: {roll-structure: yes}}
    silent: [raised-mass-on-rubber-loads-the-rear])"},
    CodePage{.code = Code::rule_fires,
             .shown = Shown::cases,
             .what = "a case says that a rule stays silent on it, and it fires",
             .why = "a rule that speaks where it should not moves answers that it has no part in",
             .avoid = R"(# rules/setup/raised-mass.cases.yaml
cases:
  - case: a roll structure, and rubber down
    track: rubbered-in
    kart: {facts: {roll-structure: yes}}
    fires: [raised-mass-on-rubber-loads-the-rear]
  - case: a driver who sits high, and rubber down
    track: rubbered-in
    facts: {raised-mass: yes}
    silent: [raised-mass-on-rubber-loads-the-rear])",
             .prefer = R"(# rules/setup/raised-mass.cases.yaml
cases:
  - case: a roll structure, and rubber down
    track: rubbered-in
    kart: {facts: {roll-structure: yes}}
    fires: [raised-mass-on-rubber-loads-the-rear]
  - case: a driver who sits low, and rubber down
    track: rubbered-in
    facts: {raised-mass: no}
    silent: [raised-mass-on-rubber-loads-the-rear])"},
    CodePage{.code = Code::rule_without_case,
             .shown = Shown::cases,
             .what = "a rule has no case that makes it fire, or none on which it stays silent",
             .why = "without both nobody would notice a rule that never speaks, or one that always "
                    "does",
             .avoid = R"(# rules/setup/raised-mass.cases.yaml
cases:
  - case: a roll structure, and rubber down
    track: rubbered-in
    kart: {facts: {roll-structure: yes}}
    fires: [raised-mass-on-rubber-loads-the-rear])",
             .prefer = R"(# rules/setup/raised-mass.cases.yaml
cases:
  - case: a roll structure, and rubber down
    track: rubbered-in
    kart: {facts: {roll-structure: yes}}
    fires: [raised-mass-on-rubber-loads-the-rear]
  - case: no roll structure, and rubber down
    track: rubbered-in
    silent: [raised-mass-on-rubber-loads-the-rear])"},
    CodePage{.code = Code::foreign_rule,
             .shown = Shown::cases,
             .what = "a case names a rule that stands in another file than the one beside it",
             .why = "whoever changes a rule looks for its cases beside it, and nowhere else",
             .avoid = R"(# rules/setup/raised-mass.cases.yaml
cases:
  - case: a roll structure, and rubber down
    track: rubbered-in
    kart: {facts: {roll-structure: yes}}
    fires:
      - raised-mass-on-rubber-loads-the-rear
      - rubber-gives-the-rear-too-much
  - case: no roll structure, and rubber down
    track: rubbered-in
    silent: [raised-mass-on-rubber-loads-the-rear])",
             .prefer = R"(# rules/setup/raised-mass.cases.yaml
cases:
  - case: a roll structure, and rubber down
    track: rubbered-in
    kart: {facts: {roll-structure: yes}}
    fires: [raised-mass-on-rubber-loads-the-rear]
  - case: no roll structure, and rubber down
    track: rubbered-in
    silent: [raised-mass-on-rubber-loads-the-rear])"},
};

}  // namespace

std::span<const CodePage> case_pages() { return kCasePages; }

}  // namespace kartwright
