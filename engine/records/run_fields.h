// run_fields.h - the fields of a run by name, in one place: the log's columns, and the fields of
// the records that it exports and takes back.
//
// Names are persisted: never renamed, never reused.

#pragma once

#include "engine/records/run.h"

namespace kartwright {

template <typename RunT, typename Visit>
void each_field_of_run(RunT& run, Visit&& visit) {
  visit("session", run.session);
  visit("track", run.track);
  visit("air", run.air);
  visit("road", run.road);
  visit("tyres", run.tyres);
  visit("tyre-laps", run.tyre_laps);
  visit("driver", run.driver);
  visit("load", run.load);
  visit("driven", run.driven);
  visit("complete", run.complete);
  visit("said", run.said);
}

/// Dispatches on what stands in a list of a run.
template <typename Part>
struct FieldsOf;

template <>
struct FieldsOf<RunSetting> {
  template <typename T, typename Visit>
  static void each(T& setting, Visit&& visit) {
    visit("adjustment", setting.adjustment);
    visit("value", setting.value);
  }
};

template <>
struct FieldsOf<RunLap> {
  template <typename T, typename Visit>
  static void each(T& lap, Visit&& visit) {
    visit("number", lap.number);
    visit("seconds", lap.seconds);
    visit("flag", lap.flag);
    visit("by-crew", lap.by_crew);
  }
};

template <>
struct FieldsOf<Report> {
  template <typename T, typename Visit>
  static void each(T& report, Visit&& visit) {
    visit("symptom", report.symptom);
    visit("phase", report.phase);
    visit("severity", report.severity);
    visit("confidence", report.confidence);
    visit("side", report.side);
    visit("when", report.when);
    visit("corners", report.corners);
    visit("words", report.words);
    visit("from-praise", report.from_praise);
  }
};

template <>
struct FieldsOf<StatedFact> {
  template <typename T, typename Visit>
  static void each(T& fact, Visit&& visit) {
    visit("fact", fact.fact);
    visit("value", fact.value);
    visit("words", fact.words);
  }
};

template <>
struct FieldsOf<RunNote> {
  template <typename T, typename Visit>
  static void each(T& note, Visit&& visit) {
    visit("text", note.text);
  }
};

template <>
struct FieldsOf<RunChange> {
  template <typename T, typename Visit>
  static void each(T& change, Visit&& visit) {
    visit("adjustment", change.adjustment);
    visit("from", change.from);
    visit("to", change.to);
    visit("steps", change.steps);
    visit("origin", change.origin);
    visit("asked-by", change.asked_by);
    visit("why", change.why);
    visit("rank", change.rank);
    visit("relief", change.relief);
    visit("advice", change.advice);
  }
};

template <>
struct FieldsOf<RunVerdict> {
  template <typename T, typename Visit>
  static void each(T& verdict, Visit&& visit) {
    visit("adjustment", verdict.adjustment);
    visit("verdict", verdict.verdict);
    visit("by", verdict.by);
    visit("text", verdict.text);
  }
};

/// The lists of a run, each with the name of its records and of its table.
template <typename RunT, typename Visit>
void each_part_of_run(RunT& run, Visit&& visit) {
  visit("setting", run.settings);
  visit("lap", run.laps);
  visit("report", run.reports);
  visit("fact", run.facts);
  visit("note", run.notes);
  visit("change", run.changes);
  visit("verdict", run.verdicts);
}

}  // namespace kartwright
