// The pages of the codes that rule files give.

#include <array>

#include "engine/document/code_pages.h"

namespace kartwright {
namespace {

constexpr std::array kRulePages{
    CodePage{.code = Code::duplicate_id,
             .shown = Shown::rules,
             .what = "two things of one kind, or two rules of any kind, go by the same id in one "
                     "set of rule files",
             .why = "an answer names rules by their id, and `explain` must find the one that was "
                    "meant",
             .avoid = R"(cautions:
  - {caution: hot-exhaust, text: keep hands off the exhaust}
  - {caution: hot-exhaust, text: let the engine cool first})",
             .prefer = R"(cautions:
  - {caution: hot-exhaust, text: keep hands off the exhaust}
  - {caution: hot-engine, text: let the engine cool first})"},
    CodePage{.code = Code::not_positive_definite,
             .shown = Shown::rules,
             .what = "no kart can be as the spreads and correlations of the axes say, taken "
                     "together",
             .why = "three things cannot each be the opposite of both others; the belief about the "
                    "kart would come out as nonsense",
             .avoid = R"(correlations:
  - {a: rear-grip, b: response, value: -0.95})",
             .prefer = R"(correlations:
  - {a: rear-grip, b: response, value: -0.05})"},
    CodePage{
        .code = Code::negation_cycle,
        .shown = Shown::rules,
        .what = "one fact follows where another does not hold, and that one follows from the "
                "first",
        .why = "if the first holds it does not, and if it does not it does: there is no answer",
        .avoid = R"(facts:
  - {fact: gusty, label: gusts of wind, values: [yes]}
  - {fact: calm, label: no wind, values: [yes]}
derive:
  - id: calm-where-it-is-not-gusty
    when: {not: {fact: gusty}}
    then: {calm: yes}
    because: it is one or the other
    provenance: {practice: common}
    status: test
  - id: gusty-where-it-is-calm
    when: {fact: calm}
    then: {gusty: yes}
    because: the calm comes before the gusts
    provenance: {practice: common}
    status: test)",
        .prefer = R"(facts:
  - {fact: gusty, label: gusts of wind, values: [yes]}
  - {fact: calm, label: no wind, values: [yes]}
derive:
  - id: calm-where-it-is-not-gusty
    when: {not: {fact: gusty}}
    then: {calm: yes}
    because: it is one or the other
    provenance: {practice: common}
    status: test)"},
    CodePage{.code = Code::bad_condition,
             .shown = Shown::rules,
             .what = "what stands under `when` is not built of the tests and joints there are",
             .why = "a rule whose condition is misread speaks at the wrong time",
             .avoid = R"(readings:
  - id: wind-shakes-the-front
    when: {tarck: green}
    row: {front-grip: 1}
    value: -0.5 ± 0.8
    because: a gust takes load off the nose
    provenance: {practice: common}
    status: experimental)",
             .prefer = R"(readings:
  - id: wind-shakes-the-front
    when: {track: green}
    row: {front-grip: 1}
    value: -0.5 ± 0.8
    because: a gust takes load off the nose
    provenance: {practice: common}
    status: experimental)"},
    CodePage{.code = Code::bad_rule,
             .shown = Shown::rules,
             .what = "a rule, or what rules speak about, says too little or contradicts itself",
             .why = "it could never be used, and nobody would notice",
             .avoid = "facts:\n  - {fact: gusty, label: gusts of wind}",
             .prefer = "facts:\n  - {fact: gusty, label: gusts of wind, values: [yes, no]}"},
    CodePage{.code = Code::no_axes,
             .shown = Shown::rules_alone,
             .what = "the rules name no handling quality that could be too low or too high",
             .why = "there is nothing that a report or a change could speak about",
             .avoid = "cautions:\n  - {caution: hot-exhaust, text: keep hands off the exhaust}",
             .prefer = R"(axes:
  - axis: response
    label: response
    low: slow
    high: nervous
    weight: 1
    spread: 1
cautions:
  - {caution: hot-exhaust, text: keep hands off the exhaust})"},
};

}  // namespace

std::span<const CodePage> rule_pages() { return kRulePages; }

}  // namespace kartwright
