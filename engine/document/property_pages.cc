// The pages of the codes that a rule pack gives which does not keep what it claims.

#include <array>

#include "engine/document/code_pages.h"

namespace kartwright {
namespace {

constexpr std::array kPropertyPages{
    CodePage{
        .code = Code::moves_not_opposite,
        .shown = Shown::claims,
        .what = "a step of an adjustment and the step back do not cancel: the rules say other "
                "things at the two places",
        .why =
            "a change that did not work is taken out again, and the kart must then be what it was",
        .avoid = R"(properties:
  - id: opposite-moves
    adjustments: [camber, toe]
    because: the step back undoes the step
    provenance: {practice: common}
    status: test)",
        .prefer = R"(properties:
  - id: opposite-moves
    adjustments: [camber, toe]
    because: the step back undoes the step
    provenance: {practice: common}
    status: test
    except:
      - adjustment: camber
        because: an upright wheel has nothing left to win on a wet track)"},
    CodePage{
        .code = Code::sides_differ,
        .shown = Shown::claims,
        .what = "what is said of left corners is answered otherwise than the same of right ones",
        .why = "a rule for one side is more often a slip than a fact of the trade; a kart is built "
               "to turn both ways",
        .avoid = R"(properties:
  - id: left-and-right
    symptoms: push
    because: a kart does not know its left from its right
    provenance: {practice: common}
    status: test
readings:
  - id: fuel-moves-to-one-side
    when: {fact: {one-direction: left}}
    row: {rear-grip: 1}
    value: -0.5 ± 0.8
    because: the fuel leans out of the corner
    provenance: {practice: common}
    status: test)",
        .prefer = R"(properties:
  - id: left-and-right
    symptoms: push
    because: a kart does not know its left from its right
    provenance: {practice: common}
    status: test
readings:
  - id: fuel-moves-to-one-side
    when: {fact: {one-direction: [left, right]}}
    row: {rear-grip: 1}
    value: -0.5 ± 0.8
    because: the fuel leans out of the corner
    provenance: {practice: common}
    status: test)"},
    CodePage{.code = Code::units_differ,
             .shown = Shown::claims,
             .what = "one kart, written in millimetres and in inches, gets two answers",
             .why = "no conversion is exact to the last figure, so a rule that looks there answers "
                    "by chance",
             .avoid = R"(properties:
  - id: inches-and-millimetres
    adjustments: toe
    because: any tape will do
    provenance: {practice: common}
    status: test
readings:
  - id: a-tight-chain-drags
    when: {measure: {chain-travel: below-band}}
    row: {unloading: 1}
    value: +0.1 ± 0.9
    per: {measure: chain-travel, each: 0.00000001 mm}
    because: it holds the axle back
    provenance: {practice: common}
    status: test)",
             .prefer = R"(properties:
  - id: inches-and-millimetres
    adjustments: toe
    because: any tape will do
    provenance: {practice: common}
    status: test
readings:
  - id: a-tight-chain-drags
    when: {measure: {chain-travel: below-band}}
    row: {unloading: 1}
    value: +0.1 ± 0.9
    per: {measure: chain-travel, each: 5 mm}
    because: it holds the axle back
    provenance: {practice: common}
    status: test)"},
    CodePage{
        .code = Code::worse_report_lowers,
        .shown = Shown::claims,
        .what = "a worse report of a symptom leaves less belief in it, or in a fault behind it, "
                "than a milder one",
        .why = "a crew that marks a complaint up must not be answered as if it were marked down",
        .avoid = R"(properties:
  - id: worse-reports
    symptoms: push
    because: who complains harder means more of it
    provenance: {practice: common}
    status: test
readings:
  - id: a-severe-push-is-told-tall
    when: {report: {symptom: push, at-least: 3}}
    row: {front-grip: 1, rear-grip: -1}
    value: +2 ± 0.3
    because: drivers talk
    provenance: {practice: common}
    status: test)",
        .prefer = R"(properties:
  - id: worse-reports
    symptoms: push
    because: who complains harder means more of it
    provenance: {practice: common}
    status: test
readings:
  - id: a-severe-push-is-told-tall
    when: {report: {symptom: push, at-least: 3}}
    row: {front-grip: 1, rear-grip: -1}
    value: -3 ± 0.3
    because: drivers talk
    provenance: {practice: common}
    status: test)"},
};

}  // namespace

std::span<const CodePage> property_pages() { return kPropertyPages; }

}  // namespace kartwright
