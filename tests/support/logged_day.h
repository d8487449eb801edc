// logged_day.h - what tests of a day of logged runs stand on: the built-in rules, their typical
// kart, and runs twenty minutes apart on a green track, told in full.

#pragma once

#include <string>
#include <utility>
#include <vector>

#include <gtest/gtest.h>

#include "engine/knowledge/built_in.h"
#include "engine/records/history.h"
#include "tests/support/log_files.h"

namespace kartwright {

class LoggedDay : public testing::Test {
 protected:
  static const Pack& pack() {
    static const Pack all = built_in_pack();
    return all;
  }
  static const Kart& kart() {
    static const Kart usual = typical_kart(pack());
    return usual;
  }
  static Report mid(const std::string& symptom, int severity) {
    return {.symptom = symptom, .phase = Phase::mid, .severity = severity};
  }
  static LoggedRun told(int number, std::vector<Report> reports) {
    LoggedRun run{.id = number,
                  .kart = "27",
                  .at = later("2026-11-14T10:00:00", 1200 * number),
                  .track = "green",
                  .complete = true};
    run.reports = std::move(reports);
    return run;
  }
  /// The run, until the next one is driven.
  LoggedRun& driven(std::vector<Report> reports) {
    runs_.push_back(told(static_cast<int>(runs_.size()) + 1, std::move(reports)));
    return runs_.back();
  }

  std::vector<LoggedRun> runs_;
};

}  // namespace kartwright
