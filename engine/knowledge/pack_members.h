// pack_members.h - every member of every part of a pack, each part by one list, for what goes
// through all of them: freezing and thawing.
//
// A test compares a thawed pack with the one that was frozen: a member left out here is found.

#pragma once

#include <concepts>
#include <type_traits>

#include "engine/knowledge/pack.h"

namespace kartwright {

/// T is a U, or a U that is only read.
template <typename T, typename U>
concept Is = std::same_as<std::remove_const_t<T>, U>;

/// U, only to be read where T is.
template <typename T, typename U>
using As = std::conditional_t<std::is_const_v<T>, const U, U>;

/// `visit(v, part)` calls v once with all members of the part, what every rule carries first.
struct PackMembers {
  template <typename V, Is<FactTest> T>
  static void visit(V& v, T& x) {
    v(x.fact, x.values);
  }
  template <typename V, Is<ReportTest> T>
  static void visit(V& v, T& x) {
    v(x.symptom, x.phase, x.at_least);
  }
  template <typename V, Is<SettingTest> T>
  static void visit(V& v, T& x) {
    v(x.adjustment, x.positions, x.within, x.of_end);
  }
  template <typename V, Is<MeasureTest> T>
  static void visit(V& v, T& x) {
    v(x.measure, x.side, x.limit);
  }
  template <typename V, Is<Condition> T>
  static void visit(V& v, T& x) {
    v(x.op, x.test, x.parts);
  }
  template <typename V, Is<Source> T>
  static void visit(V& v, T& x) {
    v(x.file, x.line);
  }
  template <typename V, Is<Provenance> T>
  static void visit(V& v, T& x) {
    v(x.practice, x.groups_for, x.groups_against, x.note);
  }
  template <typename V, Is<Rule> T>
  static void visit(V& v, T& x) {
    v(x.id, x.because, x.provenance, x.status, x.source);
  }
  template <typename V, Is<DrillLevel> T>
  static void visit(V& v, T& x) {
    v(x.id, x.label, x.teaches, x.place, x.least, x.most, x.reports, x.tracks, x.moved, x.broken,
      x.used_up, x.laps, x.headline, x.offers, x.source);
  }
  template <typename V, Is<DrillSetting> T>
  static void visit(V& v, T& x) {
    v(x.adjustment, x.value, x.position);
  }
  template <typename V, Is<DrillLimit> T>
  static void visit(V& v, T& x) {
    v(x.adjustment, x.at_least, x.at_most, x.allowed);
  }
  template <typename V, Is<DrillCase> T>
  static void visit(V& v, T& x) {
    v(x.id, x.level, x.title, x.because, x.track, x.said, x.laps, x.facts, x.settings, x.limits,
      x.minutes, x.hours, x.source);
  }
  template <typename V, Is<DrillWords> T>
  static void visit(V& v, T& x) {
    v(x.id, x.says, x.source);
  }
  template <typename V, Is<DrillEnd> T>
  static void visit(V& v, T& x) {
    v(x.id, x.label, x.axes, x.because, x.source);
  }
  template <typename V, Is<Drills> T>
  static void visit(V& v, T& x) {
    v(x.levels, x.cases, x.words, x.ends);
  }
  template <typename V, Is<GaugeReading> T>
  static void visit(V& v, T& x) {
    v(x.id, x.label, x.kind, x.from, x.to, x.example, x.optional, x.each_tyre, x.dimension,
      x.times);
  }
  template <typename V, Is<GaugeChoice> T>
  static void visit(V& v, T& x) {
    v(x.id, x.label, x.values, x.example);
  }
  template <typename V, Is<GaugeChoice::Value> T>
  static void visit(V& v, T& x) {
    v(x.id, x.label, x.amount);
  }
  template <typename V, Is<GaugeFigure> T>
  static void visit(V& v, T& x) {
    v(x.id, x.label, x.kind, x.formula, x.of, x.by, x.only_with, x.change, x.inner, x.shown_to,
      x.measure, x.from, x.to, x.impossible);
  }
  template <typename V, Is<GaugeVerdict> T>
  static void visit(V& v, T& x) {
    v(static_cast<As<T, Rule>&>(x), x.of, x.where, x.from, x.to, x.side, x.ok, x.stops, x.alone,
      x.quiet, x.says, x.to_do, x.states, x.cautions);
  }
  template <typename V, Is<Gauge> T>
  static void visit(V& v, T& x) {
    v(x.id, x.label, x.plain, x.steps, x.readings, x.choices, x.one_of, x.figures, x.verdicts,
      x.cautions, x.source);
  }
  template <typename V, Is<Axis> T>
  static void visit(V& v, T& x) {
    v(x.id, x.family, x.phase, x.label, x.low, x.high, x.weight, x.spread, x.source);
  }
  template <typename V, Is<Correlation> T>
  static void visit(V& v, T& x) {
    v(x.a, x.b, x.value, x.source);
  }
  template <typename V, Is<RowTerm> T>
  static void visit(V& v, T& x) {
    v(x.axis, x.factor);
  }
  template <typename V, Is<SymptomReading> T>
  static void visit(V& v, T& x) {
    v(static_cast<As<T, Rule>&>(x), x.row, x.value, x.unsaid);
  }
  template <typename V, Is<Neighbour> T>
  static void visit(V& v, T& x) {
    v(x.symptom, x.tell, x.source);
  }
  template <typename V, Is<Symptom> T>
  static void visit(V& v, T& x) {
    v(x.id, x.label, x.plain, x.neighbours, x.question, x.question_at, x.against, x.phases,
      x.reading, x.source);
  }
  template <typename V, Is<Hearing> T>
  static void visit(V& v, T& x) {
    v(x.sure, x.fair, x.unsure, x.denied, x.praise, x.unsaid_factor, x.faster_factor,
      x.praise_denies);
  }
  template <typename V, Is<Learning> T>
  static void visit(V& v, T& x) {
    v(x.unmentioned, x.drift, x.track_moved, x.tyres_changed, x.slow_lap);
  }
  template <typename V, Is<ReadingRule> T>
  static void visit(V& v, T& x) {
    v(static_cast<As<T, Rule>&>(x), x.when, x.row, x.value, x.sd, x.per_measure, x.per_amount);
  }
  template <typename V, Is<Cell> T>
  static void visit(V& v, T& x) {
    v(x.axis, x.mean, x.sd);
  }
  template <typename V, Is<EffectRule> T>
  static void visit(V& v, T& x) {
    v(static_cast<As<T, Rule>&>(x), x.when, x.contested, x.cells);
  }
  template <typename V, Is<Adjustment> T>
  static void visit(V& v, T& x) {
    v(x.id, x.label, x.plain, x.measured, x.directions, x.phrases, x.kind, x.reference_step,
      x.positions, x.from, x.to, x.step, x.most_at_once, x.minutes, x.typical, x.typical_limit,
      x.part_of, x.parts, x.shares_stand_with, x.stand_minutes, x.same_setting_as, x.cautions,
      x.watch, x.back_out, x.explain, x.limits, x.effects, x.source);
  }
  template <typename V, Is<EvidenceRule> T>
  static void visit(V& v, T& x) {
    v(static_cast<As<T, Rule>&>(x), x.when, x.decibans);
  }
  template <typename V, Is<Fault> T>
  static void visit(V& v, T& x) {
    v(x.id, x.label, x.check, x.fix, x.prior, x.minutes, x.loss, x.stop, x.evidence, x.cautions,
      x.provenance, x.source);
  }
  template <typename V, Is<FactDef> T>
  static void visit(V& v, T& x) {
    v(x.id, x.label, x.values, x.priors, x.question, x.entered, x.source);
  }
  template <typename V, Is<FactDef::Prior> T>
  static void visit(V& v, T& x) {
    v(x.when, x.weights);
  }
  template <typename V, Is<DeriveRule> T>
  static void visit(V& v, T& x) {
    v(static_cast<As<T, Rule>&>(x), x.when, x.fact, x.value);
  }
  template <typename V, Is<Caution> T>
  static void visit(V& v, T& x) {
    v(x.id, x.text, x.source);
  }
  template <typename V, Is<TrackState> T>
  static void visit(V& v, T& x) {
    v(x.id, x.label, x.plain, x.wet, x.ahead, x.shift, x.cornering, x.source);
  }
  template <typename V, Is<TrackState::Cornering> T>
  static void visit(V& v, T& x) {
    v(x.middle, x.peak);
  }
  template <typename V, Is<DayStage> T>
  static void visit(V& v, T& x) {
    v(x.id, x.label, x.track, x.towards, x.rubber, x.source);
  }
  template <typename V, Is<Phrase> T>
  static void visit(V& v, T& x) {
    v(x.wordings, x.means, x.id, x.phase, x.severity, x.solid);
  }
  template <typename V, Is<WordClass> T>
  static void visit(V& v, T& x) {
    v(x.id, x.words);
  }
  template <typename V, Is<MeasureDef> T>
  static void visit(V& v, T& x) {
    v(x.id, x.label, x.kind, x.from, x.to, x.band_from, x.band_to, x.assumed, x.known_from,
      x.likely_from, x.likely_to, x.source);
  }
  template <typename V, Is<QuantityPage> T>
  static void visit(V& v, T& x) {
    v(x.id, x.label, x.plain, x.formula, x.known_from, x.limits, x.too_much, x.source);
  }
  template <typename V, Is<Property> T>
  static void visit(V& v, T& x) {
    v(static_cast<As<T, Rule>&>(x), x.kind, x.only, x.exceptions);
  }
  template <typename V, Is<Property::Exception> T>
  static void visit(V& v, T& x) {
    v(x.id, x.because);
  }
  template <typename V, Is<Pack> T>
  static void visit(V& v, T& x) {
    v(x.axes, x.correlations, x.hearing, x.learning, x.symptoms, x.phrases, x.word_classes,
      x.light_words, x.ordinary_words, x.tracks, x.day, x.facts, x.derives, x.readings,
      x.adjustments, x.faults, x.measures, x.quantities, x.dimensions, x.cautions, x.properties,
      x.gauges, x.drills, x.look_over);
  }
};

}  // namespace kartwright
