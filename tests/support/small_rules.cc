#include "tests/support/small_rules.h"

#include <ostream>

#include <gtest/gtest.h>

#include "engine/knowledge/load.h"
#include "tests/support/kart_pack.h"

namespace kartwright {
namespace {

constexpr const char* kAxes = R"(axes:
  - {axis: rear-grip.entry, label: rear in, low: steps out, high: tied down, weight: 1, spread: 1.2}
  - {axis: rear-grip.mid, label: rear mid, low: steps out, high: hops, weight: 1.2, spread: 1.2}
  - {axis: rear-grip.exit, label: rear off, low: steps out, high: tied down, weight: 1, spread: 1.2}
  - {axis: response, label: response, low: slow, high: nervous, weight: 0.6, spread: 1.0}
  - {axis: front-grip.entry, label: front in, low: wide, high: bites, weight: 1, spread: 1.2}
  - {axis: front-grip.mid, label: front mid, low: wide, high: bites, weight: 1, spread: 1.2}
  - {axis: front-grip.exit, label: front off, low: wide, high: bites, weight: 0.8, spread: 1.2}
correlations:
  - {a: front-grip, b: front-grip, value: 0.6}
  - {a: front-grip.entry, b: response, value: 0.4}
hearing: {sure: 0.4, fair: 0.7, unsure: 1.2, denied: 0.5, praise: 0.7, phase-unsaid: 1.5,
  laps-faster: 3, praise-denies: [push]}
)";

constexpr const char* kSymptoms = R"(symptoms:
  - symptom: push
    label: push
    plain: the front slides first
    phases: [entry, mid, exit]
    reading:
      id: push-is-front-short-of-rear
      row: {front-grip: 1, rear-grip: -1}
      value: -1
      because: the front runs wide when it has less grip than the rear
      provenance: {practice: common}
      status: stable
  - {symptom: vibration, label: vibration, plain: the kart shakes}
cautions:
  - {caution: torque, text: fasteners to the maker's torque}
)";

constexpr const char* kFacts = R"(facts:
  - fact: turn-in
    label: turning in
    values: [brake, throttle]
    prior: [{values: {brake: 1, throttle: 3}}]
  - {fact: laps, label: lap times, values: [faster, same, slower]}
  - {fact: roll-structure, label: roll structure, values: [yes, no]}
  - {fact: raised-mass, label: mass high up, values: [yes, no], derived: yes}
derive:
  - id: roll-structure-raises-the-mass
    when: {fact: roll-structure}
    then: {raised-mass: yes}
    because: it stands above everything else
    provenance: {practice: common}
    status: stable
measures:
  - measure: front-share
    label: front share of the weight
    kind: ratio
    plausible: {from: 30 %, to: 60 %}
    band: {from: 41 %, to: 43 %}
dimensions:
  - {dimension: wheelbase, label: wheelbase, kind: length, plausible: {from: 0.9 m, to: 1.2 m}}
)";

constexpr const char* kWords = R"(words:
  - {means: symptom, id: push, phrases: [push*, wash* out]}
  - {means: phase, id: entry, phrases: [going in]}
  - {means: fact, id: turn-in=brake, phrases: [on the brake]}
)";

constexpr const char* kRearWidth = R"(adjustment: rear-width
label: rear width
measured: overall
directions: [wider, narrower]
phrases: [rear wider, rear narrower]
kind: length
reference-step: 10 mm
usual: {from: 1300 mm, to: 1400 mm, step: 5 mm}
typical: 1360 mm
most-at-once: 15 mm
minutes: 6
cautions: [torque]
explain: wider frees the rear
effects:
  - id: wider-sheds-side-bite
    moves: {rear-grip: -0.5 ± 0.2, response: +0.1 ± 0.3}
    because: more of the push goes sideways
    provenance: {practice: common, published: {for: 5 groups, against: 1 group}}
    status: stable
watch: {wider: hop fades, narrower: the rear holds}
back-out: {wider: loose is too far, narrower: hop is too far}
plain: how wide it stands
limits: the axle ends
)";

constexpr const char* kAxle = R"(adjustment: axle
label: axle
measured: by its grade
directions: [stiffer, softer]
phrases: [stiffer axle, softer axle]
positions: [soft, medium, hard]
typical: medium
most-at-once: 1
minutes: 20
parts: yes
explain: it depends on the tyre
effects: []
watch: {stiffer: drive, softer: ease}
back-out: {stiffer: slides, softer: hops}
plain: how stiff it is
limits: the grades there are
)";

constexpr const char* kBentAxle = R"(fault: bent-axle
label: bent axle
check: spin it
fix: a new axle
prior: -17
minutes: 2
loss: 3
stop: yes
provenance: {practice: common}
cautions: [torque]
evidence:
  - id: vibration-may-be-a-bent-axle
    when: {report: vibration}
    decibans: +8
    because: a bent axle shakes the kart
    provenance: {practice: common}
    status: stable
)";

constexpr const char* kCold = R"(track: cold
label: cold
plain: no heat in it
ahead: {state: green, shift: {rear-grip: +0.3}}
)";

constexpr const char* kGreen = R"(track: green
label: green
plain: no rubber on it
readings:
  - id: green-track-is-short-of-rear-grip
    when: {track: green}
    row: {rear-grip: 1}
    value: -0.5 ± 0.8
    because: without rubber the rear slides before it bites
    provenance: {practice: common}
    status: test
)";

}  // namespace

std::vector<Document> small_rules() {
  return {parse_document("axes.yaml", kAxes),
          parse_document("symptoms.yaml", kSymptoms),
          parse_document("facts.yaml", kFacts),
          parse_document("words.yaml", kWords),
          parse_document("rear-width.yaml", kRearWidth),
          parse_document("axle.yaml", kAxle),
          parse_document("bent-axle.yaml", kBentAxle),
          parse_document("cold.yaml", kCold),
          parse_document("green.yaml", kGreen)};
}

Pack small_pack_with(const std::string& own) {
  return load_pack(small_rules(), {parse_document("own.yaml", own)});
}

std::vector<Diagnostic> found_in_own(const std::string& own) {
  return found_by([&] { small_pack_with(own); });
}

// NOLINTNEXTLINE(readability-identifier-naming): the name is GoogleTest's
void PrintTo(const WrongInput& wrong, std::ostream* out) { *out << wrong.name; }

void expect_the_one_finding(const WrongInput& wrong, const std::vector<Diagnostic>& found) {
  ASSERT_EQ(found.size(), 1U) << told(found);
  EXPECT_EQ(found[0].code, wrong.code) << told(found);
  EXPECT_EQ(found[0].span.line, wrong.line) << told(found);
  EXPECT_EQ(found[0].span.column, wrong.column) << told(found);
  EXPECT_NE(found[0].message.find(wrong.message), std::string::npos) << told(found);
  EXPECT_NE(found[0].help.find(wrong.help), std::string::npos) << told(found);
}

}  // namespace kartwright
