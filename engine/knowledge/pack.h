// pack.h - the trade's knowledge in memory, as the rule files give it. Plain data, loaded once.
//
// Amounts are notches (1 slight, 2 clear, 3 severe), moves are counted in the adjustment's
// reference steps, odds in decibans. Everything is sorted by id, so that the order of files plays
// no part.

#pragma once

#include <array>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/knowledge/condition.h"
#include "engine/knowledge/drill.h"
#include "engine/knowledge/gauge.h"
#include "engine/knowledge/phase.h"
#include "engine/knowledge/rule.h"
#include "engine/quantity/quantity.h"

namespace kartwright {

/// One handling quality; 0 is the pace optimum, negative too little.
struct Axis {
  std::string id;              ///< `front-grip.entry`, `response`
  std::string family;          ///< `front-grip`, `response`
  std::optional<Phase> phase;  ///< of a family with phases
  std::string label;           ///< "front grip going in"
  std::string low, high;       ///< what too little and too much feel like
  double weight = 1.0;
  double spread = 1.0;  ///< notches, prior standard deviation
  Source source = {};
  bool operator==(const Axis&) const = default;
};

/// Prior correlation between two axes, by index into Pack::axes.
struct Correlation {
  std::size_t a = 0, b = 0;
  double value = 0.0;
  Source source;
  bool operator==(const Correlation&) const = default;
};

/// A term of a row over axes: an axis, or a family taken at the phase of the report.
struct RowTerm {
  std::string axis;  ///< axis id or family
  double factor = 1.0;
  bool operator==(const RowTerm&) const = default;
};

/// How a report of a symptom reads on the axes: row = value_per_severity * severity.
struct SymptomReading : Rule {
  std::vector<RowTerm> row;
  double value = 1.0;           ///< notches per unit of severity
  std::optional<Phase> unsaid;  ///< the phase taken when none is said; none: the mean of the three
  bool operator==(const SymptomReading&) const = default;
};

/// A symptom that is taken for this one, and how the two are told apart.
struct Neighbour {
  std::string symptom;
  std::string tell;
  Source source = {};
  bool operator==(const Neighbour&) const = default;
};

struct Symptom {
  std::string id;
  std::string label;
  std::string plain;                  ///< what it is, for a novice
  std::vector<Neighbour> neighbours;  ///< each named from the other side too, in its own layer
  std::string question;               ///< what to ask the driver; empty: not asked
  std::map<Phase, std::string> question_at;  ///< the question where it is about one phase alone
  std::string against;  ///< the symptom at the other end of the same row: one question for both
  std::vector<Phase> phases;              ///< where it can be felt; empty: anywhere
  std::optional<SymptomReading> reading;  ///< none: it speaks to faults only
  Source source;
  /// What to ask about it at a phase.
  const std::string& question_about(Phase phase) const;
  bool operator==(const Symptom&) const = default;
};

/// How sure words turn into spread, and how vagueness, denial, praise and the clock change it.
struct Hearing {
  double sure = 0, fair = 0, unsure = 0;   ///< notches
  double denied = 0;                       ///< sd of a denial
  double praise = 0;                       ///< sd of what praise denies
  double unsaid_factor = 1;                ///< times sd where the phase is unsaid
  double faster_factor = 1;                ///< times sd of complaints when the laps are faster
  std::vector<std::string> praise_denies;  ///< symptom ids
  double confidence_sd(Confidence confidence) const;
  bool operator==(const Hearing&) const = default;
};

/// How far two runs of one day can be held against each other: spreads in notches. All 0 where the
/// pack does not say; then nothing is learned from a log.
struct Learning {
  double unmentioned = 0;    ///< of 0 for what a complete debrief leaves unsaid or denies
  double drift = 0;          ///< of every axis, from one run to the next
  double track_moved = 0;    ///< the same where the state of the track changed
  double tyres_changed = 0;  ///< more where other tyres went on
  double slow_lap = 0;       ///< share over its run's median at which a lap does not count
  bool operator==(const Learning&) const = default;
};

/// A reading taken from the track, the setting or a measurement.
struct ReadingRule : Rule {
  Condition when;
  std::vector<RowTerm> row;      ///< a family without phase is the mean of its phases
  double value = 0.0, sd = 1.0;  ///< notches
  std::string per_measure;  ///< value is multiplied by the excess of this measure over the band
  double per_amount = 1.0;  ///< ... counted in this many SI units
  bool operator==(const ReadingRule&) const = default;
};

/// What one reference step does to one axis.
struct Cell {
  std::size_t axis = 0;
  double mean = 0.0, sd = 0.0;
  bool operator==(const Cell&) const = default;
};

struct EffectRule : Rule {
  Condition when;
  bool contested = false;
  std::vector<Cell> cells;  ///< by axis, each once
  bool operator==(const EffectRule&) const = default;
};

/// One thing on the kart that can be moved. Direction 0 is +.
struct Adjustment {
  std::string id;
  std::string label;
  std::string plain;     ///< what it is, for a novice
  std::string measured;  ///< how a crew measures it
  std::array<std::string, 2> directions;
  std::array<std::string, 2>
      phrases;  ///< "rear wider", "rear narrower": the move in the crew's words
  Kind kind = Kind::count;
  double reference_step =
      1.0;  ///< SI, signed: what one step in direction 0 adds; 1 position for lists
  std::vector<std::string>
      positions;  ///< named positions, lowest in direction 0 first; empty: a range
  double from = 0, to = 0, step = 0;  ///< SI, the usual range, for ranges
  double most_at_once = 0;            ///< in SI, or positions for lists
  double minutes = 0;
  std::string
      typical;  ///< the setting of a typical kart, as a kart file writes it; `none`: not fitted
  std::optional<double> typical_limit;  ///< SI, the most an invented class allows on it
  std::string part_of;  ///< this setting is a part of that one, as rear pressures are of all
  bool parts = false;   ///< each position is a part that the crew has or has not
  std::vector<std::string> shares_stand_with;
  double stand_minutes = 0;  ///< of `minutes`: what it shares with jobs on the same stand
  std::vector<std::string> same_setting_as;  ///< other names of the same physical setting
  std::vector<std::string> cautions;
  std::array<std::string, 2> watch;     ///< what the driver should feel first, per direction
  std::array<std::string, 2> back_out;  ///< what says it is wrong
  std::string explain;                  ///< the mechanism in plain words
  std::string limits;                   ///< what ends its travel, in plain words
  std::vector<EffectRule> effects;      ///< conditional ones replace the cells they name
  Source source;
  bool listed() const { return !positions.empty(); }
  bool operator==(const Adjustment&) const = default;
};

/// Evidence for or against a fault.
struct EvidenceRule : Rule {
  Condition when;
  double decibans = 0.0;
  bool operator==(const EvidenceRule&) const = default;
};

struct Fault {
  std::string id;
  std::string label;
  std::string check;   ///< what to do with hands and eyes
  std::string fix;     ///< what to do where it is found
  double prior = 0.0;  ///< decibans
  double minutes = 1.0;
  double loss = 1.0;                   ///< notches it can cost
  bool stop = false;                   ///< not to be run
  std::vector<EvidenceRule> evidence;  ///< including what clears it, with negative decibans
  std::vector<std::string> cautions;
  Provenance provenance;
  Source source;
  bool operator==(const Fault&) const = default;
};

/// A fact the crew can state, or a rule derive.
struct FactDef {
  std::string id;
  std::string label;
  std::vector<std::string> values;
  struct Prior {
    Condition when;
    std::vector<double> weights;  ///< per value, sum 1
    bool operator==(const Prior&) const = default;
  };
  std::vector<Prior> priors;  ///< the first that holds; empty: nobody saying it means it is not so
  std::string question;       ///< empty: not asked
  bool entered = true;        ///< false: only derived
  Source source;
  bool operator==(const FactDef&) const = default;
};

/// Concludes a fact from others.
struct DeriveRule : Rule {
  Condition when;
  std::string fact, value;
  bool operator==(const DeriveRule&) const = default;
};

/// Words of care, by id.
struct Caution {
  std::string id;
  std::string text;
  Source source = {};
  bool operator==(const Caution&) const = default;
};

struct TrackState {
  std::string id;
  std::string label;
  std::string plain;
  bool wet = false;
  std::string ahead;           ///< the state that comes next; may be empty
  std::vector<RowTerm> shift;  ///< what grip gains by then, notches on each axis of a family
  /// How hard a kart corners on it, in g: in the middle of a corner, and at the most.
  struct Cornering {
    double middle = 0.0, peak = 0.0;
    bool operator==(const Cornering&) const = default;
  };
  std::optional<Cornering> cornering = {};
  Source source;
  bool operator==(const TrackState&) const = default;
};

/// One stage of a usual day.
struct DayStage {
  std::string id;
  std::string label;
  std::string track;     ///< the state whose rules hold
  double towards = 0.0;  ///< 0 to 1: how far the track has gone to the state ahead of that one
  bool rubber = false;   ///< there only where rubber comes
  Source source = {};
  bool operator==(const DayStage&) const = default;
};

/// Sentence fragments the drivers use, with the one thing they mean. Words are lower case; `*`
/// after a word stands for its verb endings.
struct Phrase {
  enum class Means {
    symptom,
    phase,
    side,
    when,
    severity,
    confidence,
    negation,
    praise,
    fact,
    laps,
    manner,
    aside,
    place,
    filler
  };
  /// One fragment a line, its words parted by one blank; `<front>` stands for any words of that
  /// class.
  std::string wordings;
  Means means = Means::filler;
  std::string id;               ///< symptom, phase, side, ... `fact` as `id=value`
  std::optional<Phase> phase;   ///< a symptom's; of filler, what it says before a corner
  std::optional<int> severity;  ///< a symptom's may carry its severity
  bool solid = false;           ///< no light words may stand between its own
  bool operator==(const Phrase&) const = default;
};

/// The fragments of a phrase, each in its `wordings`.
std::vector<std::string_view> wordings_of(const Phrase& phrase);
/// The words of a run, which blanks or line ends part.
std::vector<std::string> words_in(std::string_view run);

/// Words that stand for each other in phrases: `front`, `front end`, `nose`.
struct WordClass {
  std::string id;
  std::vector<std::vector<std::string>> words;
  bool operator==(const WordClass&) const = default;
};

/// A quantity a crew can measure and a rule can test.
struct MeasureDef {
  std::string id;
  std::string label;
  Kind kind = Kind::count;
  double from = 0, to = 0;                   ///< plausible range, SI
  std::optional<double> band_from, band_to;  ///< usual band, SI
  std::optional<double> assumed = {};        ///< of a dimension nobody has measured, SI
  std::string known_from = {};               ///< where that figure comes from
  std::optional<double> likely_from = {}, likely_to = {};  ///< where most karts are, SI
  Source source = {};
  bool operator==(const MeasureDef&) const = default;
};

/// Something the physics works out, in plain words.
struct QuantityPage {
  std::string id;
  std::string label;
  std::string plain, formula, known_from, limits;
  std::string too_much = {};  ///< of a load on a rear wheel: which too much rear grip it stands for
  Source source = {};
  bool operator==(const QuantityPage&) const = default;
};

/// What a pack may claim of all its advice; an audit holds it to it.
enum class PropertyKind { opposite_moves, left_and_right, inches_and_millimetres, worse_reports };
/// `opposite-moves` and so on: the ids that properties have.
std::string_view name_of(PropertyKind kind);
/// True of a property of reports, which is claimed symptom by symptom; the others are claimed
/// adjustment by adjustment.
bool is_of_symptoms(PropertyKind kind);

/// A claim about the whole pack. Its id is the name of its kind.
struct Property : Rule {
  PropertyKind kind = PropertyKind::opposite_moves;
  std::vector<std::string> only = {};  ///< symptoms or adjustments it is claimed of; empty: all
  struct Exception {
    std::string id;  ///< the symptom or adjustment it is not claimed of
    std::string because;
    bool operator==(const Exception&) const = default;
  };
  std::vector<Exception> exceptions = {};
  /// True where it is claimed of this symptom or adjustment.
  bool claimed_of(std::string_view id) const;
  bool operator==(const Property&) const = default;
};

struct Pack {
  std::vector<Axis> axes;
  std::vector<Correlation> correlations;
  Hearing hearing;
  Learning learning;
  std::vector<Symptom> symptoms;
  std::vector<Phrase> phrases;
  std::vector<WordClass> word_classes;
  std::vector<std::string> light_words;     ///< may stand inside a phrase and change nothing
  std::vector<std::string> ordinary_words;  ///< runs of words that are no typos, parted by blanks
  std::vector<TrackState> tracks;
  std::vector<DayStage> day;  ///< in the order in which a day goes
  std::vector<FactDef> facts;
  std::vector<DeriveRule> derives;
  std::vector<ReadingRule> readings;
  std::vector<Adjustment> adjustments;
  std::vector<Fault> faults;
  std::vector<MeasureDef> measures;
  std::vector<QuantityPage> quantities;  ///< what the physics works out
  std::vector<MeasureDef> dimensions;    ///< what a kart file may say of sizes and masses
  std::vector<Caution> cautions;
  std::vector<Property> properties;
  std::vector<Gauge> gauges;
  Drills drills;          ///< what a trainee practises on
  std::string look_over;  ///< the whole-kart look after a knock

  const Symptom* symptom(std::string_view id) const;
  const Adjustment* adjustment(std::string_view id) const;
  const Fault* fault(std::string_view id) const;
  const FactDef* fact(std::string_view id) const;
  const TrackState* track(std::string_view id) const;
  const MeasureDef* measure(std::string_view id) const;
  const MeasureDef* dimension(std::string_view id) const;
  const Caution* caution(std::string_view id) const;
  const Gauge* gauge(std::string_view id) const;
  bool operator==(const Pack&) const = default;
};

}  // namespace kartwright
