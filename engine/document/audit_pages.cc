// The pages of the codes that the audit of a rule pack gives.

#include <array>

#include "engine/document/code_pages.h"

namespace kartwright {
namespace {

constexpr std::array kAuditPages{
    CodePage{.code = Code::never_speaks,
             .shown = Shown::audited,
             .what = "no kart and no debrief can fit the rule's condition, or other rules "
                     "always take its place",
             .why = "a rule that cannot speak is a slip in its condition, and whoever wrote"
                    " it counts on it",
             .avoid = R"(readings:
  - id: cold-hands-are-slow
    when: {all: [{track: cold}, {track: wet}]}
    row: {response: 1}
    value: -0.4 ± 0.9
    because: a driver with cold hands turns late
    provenance: {practice: common}
    status: experimental)",
             .prefer = R"(readings:
  - id: cold-hands-are-slow
    when: {track: [cold, wet]}
    row: {response: 1}
    value: -0.4 ± 0.9
    because: a driver with cold hands turns late
    provenance: {practice: common}
    status: experimental)"},
    CodePage{.code = Code::always_holds,
             .shown = Shown::audited,
             .what = "a condition holds on every kart and in every debrief",
             .why = "a rule that means every case says so by leaving `when` out; here "
                    "something else was meant",
             .avoid = R"(readings:
  - id: cold-hands-are-slow
    when: {any: [{track: wet}, {not: {track: wet}}]}
    row: {response: 1}
    value: -0.4 ± 0.9
    because: a driver with cold hands turns late
    provenance: {practice: common}
    status: experimental)",
             .prefer = R"(readings:
  - id: cold-hands-are-slow
    when: {track: wet}
    row: {response: 1}
    value: -0.4 ± 0.9
    because: a driver with cold hands turns late
    provenance: {practice: common}
    status: experimental)"},
    CodePage{.code = Code::same_rule_twice,
             .shown = Shown::audited,
             .what = "two rules about one thing say the same, and always together",
             .why = "what is one observation would weigh as two",
             .avoid = R"(readings:
  - id: cold-hands-are-slow
    when: {track: wet}
    row: {response: 1}
    value: -0.4 ± 0.9
    because: a driver with cold hands turns late
    provenance: {practice: common}
    status: experimental
  - id: wet-gloves-are-slow
    when: {track: wet}
    row: {response: 1}
    value: -0.4 ± 0.9
    because: wet gloves slip on the wheel
    provenance: {practice: common}
    status: experimental)",
             .prefer = R"(readings:
  - id: cold-hands-are-slow
    when: {track: wet}
    row: {response: 1}
    value: -0.4 ± 0.9
    because: a driver with cold hands turns late
    provenance: {practice: common}
    status: experimental)"},
    CodePage{.code = Code::subsumed_rule,
             .shown = Shown::audited,
             .what = "a rule says what another says, in fewer cases",
             .why = "in those cases what is one observation would weigh as two",
             .avoid = R"(readings:
  - id: cold-hands-are-slow
    when: {track: wet}
    row: {response: 1}
    value: -0.4 ± 0.9
    because: a driver with cold hands turns late
    provenance: {practice: common}
    status: experimental
  - id: a-knock-in-the-rain-is-slow
    when: {track: wet, fact: hit}
    row: {response: 1}
    value: -0.4 ± 0.9
    because: a driver who was hit takes care
    provenance: {practice: common}
    status: experimental)",
             .prefer = R"(readings:
  - id: cold-hands-are-slow
    when: {track: wet}
    row: {response: 1}
    value: -0.4 ± 0.9
    because: a driver with cold hands turns late
    provenance: {practice: common}
    status: experimental
  - id: a-knock-in-the-rain-is-slow
    when: {track: wet, fact: hit}
    row: {response: 1}
    value: -0.2 ± 0.9
    because: a driver who was hit takes care
    provenance: {practice: common}
    status: experimental)"},
    CodePage{.code = Code::unreachable_fact,
             .shown = Shown::audited,
             .what = "a rule tests a fact that nobody can state and no rule concludes",
             .why = "the rule waits for something that can never be",
             .avoid = R"(facts:
  - fact: gusty
    label: gusts of wind
    values: [yes, no]
    derived: yes
readings:
  - id: gusts-make-it-nervous
    when: {fact: gusty}
    row: {response: 1}
    value: +0.4 ± 0.9
    because: a gust takes hold of the nose
    provenance: {practice: common}
    status: experimental)",
             .prefer = R"(facts:
  - fact: gusty
    label: gusts of wind
    values: [yes, no]
readings:
  - id: gusts-make-it-nervous
    when: {fact: gusty}
    row: {response: 1}
    value: +0.4 ± 0.9
    because: a gust takes hold of the nose
    provenance: {practice: common}
    status: experimental)"},
    CodePage{.code = Code::dead_end_fact,
             .shown = Shown::audited,
             .what = "a fact can be stated or concluded, and no rule tests it",
             .why = "a crew that takes the trouble to state it is not heard",
             .avoid = R"(facts:
  - {fact: gusty, label: gusts of wind, values: [yes, no]})",
             .prefer = R"(facts:
  - {fact: gusty, label: gusts of wind, values: [yes, no]}
readings:
  - id: gusts-make-it-nervous
    when: {fact: gusty}
    row: {response: 1}
    value: +0.4 ± 0.9
    because: a gust takes hold of the nose
    provenance: {practice: common}
    status: experimental)"},
    CodePage{.code = Code::idle_axis,
             .shown = Shown::audited,
             .what = "no effect of any adjustment moves a handling quality",
             .why = "a complaint about it could only be listened to, never answered",
             .avoid = R"(axes:
  - axis: kerb-ride
    label: ride over kerbs
    low: jars
    high: wallows
    weight: 0.5
    spread: 1)",
             .prefer = R"(axes:
  - axis: response
    label: response
    low: slow on the wheel
    high: nervous on the wheel
    weight: 0.5
    spread: 1)"},
    CodePage{.code = Code::unread_symptom,
             .shown = Shown::audited,
             .what = "drivers can report a symptom, and no rule makes anything of it",
             .why = "a driver who reports it is not heard",
             .avoid = R"(symptoms:
  - symptom: kerb-bounce
    label: bounces off kerbs
    plain: a kerb throws the kart off its line)",
             .prefer = R"(symptoms:
  - symptom: kerb-bounce
    label: bounces off kerbs
    plain: a kerb throws the kart off its line
    reading:
      id: bouncing-is-a-stiff-front
      row: {response: 1}
      value: +0.5
      because: a front that is too quick does not follow the kerb
      provenance: {practice: common}
      status: experimental)"},
    CodePage{.code = Code::opposite_effects,
             .shown = Shown::apart,
             .what = "two effects of one adjustment move one axis up and down in the same "
                     "case",
             .why = "the program can only take their mean, which neither of the two says",
             .avoid = "an adjustment with `front-grip: +0.3 ± 0.2` when `track: wet`, and "
                      "`front-grip: -0.3 ± 0.2` when `fact: {tyres: cold}`",
             .prefer = "the second with `not: {track: wet}` beside its fact, or both "
                       "`contested: yes`"},
    CodePage{.code = Code::opposite_readings,
             .shown = Shown::audited,
             .what = "two readings of one row point opposite ways, and one case fits both",
             .why = "both may be true of such a day; else one of them speaks where it "
                    "should not",
             .avoid = R"(readings:
  - id: cold-hands-are-slow
    when: {track: wet}
    row: {response: 1}
    value: -0.4 ± 0.9
    because: a driver with cold hands turns late
    provenance: {practice: common}
    status: experimental
  - id: a-knocked-kart-is-nervous
    when: {fact: hit}
    row: {response: 1}
    value: +0.4 ± 0.9
    because: a bent part answers before the driver does
    provenance: {practice: common}
    status: experimental)",
             .prefer = R"(readings:
  - id: cold-hands-are-slow
    when: {track: wet}
    row: {response: 1}
    value: -0.4 ± 0.9
    because: a driver with cold hands turns late
    provenance: {practice: common}
    status: experimental
  - id: a-knocked-kart-is-nervous
    when: {fact: hit, not: {track: wet}}
    row: {response: 1}
    value: +0.4 ± 0.9
    because: a bent part answers before the driver does
    provenance: {practice: common}
    status: experimental)"},
    CodePage{.code = Code::too_tangled,
             .shown = Shown::apart,
             .what = "a condition has more than a thousand ways to hold",
             .why = "the audit would look at each of them; it leaves the rule alone instead",
             .avoid = "an `all` of six `any`, each of four tests of its own",
             .prefer = "two or three rules, each with the part of the condition that belongs "
                       "to it"},
};

}  // namespace

std::span<const CodePage> audit_pages() { return kAuditPages; }

}  // namespace kartwright
