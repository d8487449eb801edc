#include <algorithm>
#include <array>
#include <cstdlib>
#include <map>

#include "engine/inference/mend.h"

namespace kartwright {
namespace {

/// A symptom as reported: the greatest severity at each phase, or nothing.
using Heights = std::map<Phase, int>;
constexpr std::array kMendedPhases{Phase::entry, Phase::mid, Phase::exit, Phase::straight,
                                   Phase::any};

std::vector<Report> as_reports(const Heights& heights, const std::string& symptom) {
  std::vector<Report> out;
  for (const auto& [phase, severity] : heights) {
    out.push_back({.symptom = symptom, .phase = phase, .severity = severity});
  }
  return out;
}

bool is_met_by(const Requirement& asked, const Heights& heights, const Situation& situation) {
  const std::vector<Report> reports = as_reports(heights, symptom_of(asked));
  return is_met(asked, {.pack = situation.pack, .kart = situation.kart, .reports = reports});
}

/// How far apart two heights are; to speak of what was not spoken of counts for half a grade more.
double apart(const Heights& a, const Heights& b) {
  double sum = 0.0;
  for (const Phase phase : kMendedPhases) {
    const auto x = a.find(phase), y = b.find(phase);
    if ((x == a.end()) != (y == b.end())) sum += 0.5;
    sum += std::abs((x == a.end() ? 0 : x->second) - (y == b.end() ? 0 : y->second));
  }
  return sum;
}

/// Every report of it that is too much goes down to where it may be, or away.
void lower(const ReportTest& unwanted, Heights& heights) {
  for (const Phase phase : kMendedPhases) {
    const auto at = heights.find(phase);
    if (at == heights.end() || phase != unwanted.phase.value_or(phase)) continue;
    const int most = unwanted.at_least - 1;
    if (unwanted.at_least == 0 ? at->second != 0 : at->second <= most) continue;
    if (most > 0) {
      at->second = most;
    } else {
      heights.erase(at);
    }
  }
}

/// The phases to try, where the symptom can be felt first.
std::vector<Phase> phases_to_try(const Requirement& asked, const Pack& pack) {
  const auto* test = std::get_if<ReportTest>(&asked.ask);
  if (test != nullptr && test->phase) return {*test->phase};
  std::vector<Phase> phases{Phase::any};
  const Symptom* symptom = pack.symptom(symptom_of(asked));
  if (symptom != nullptr) {
    phases.insert(phases.begin(), symptom->phases.begin(), symptom->phases.end());
  }
  return phases;
}

/// The nearest heights with one report raised, lowered or added that meet a requirement.
std::optional<Heights> raise(const Requirement& asked, const Heights& heights,
                             const Situation& situation) {
  std::optional<Heights> best;
  for (const Phase phase : phases_to_try(asked, situation.pack)) {
    for (int severity = 0; severity <= 3; ++severity) {
      Heights tried = heights;
      tried[phase] = severity;
      if (!is_met_by(asked, tried, situation)) continue;
      // A rule that takes any report is not told by a denial.
      if (std::holds_alternative<ReadTest>(asked.ask) && severity == 0) continue;
      if (!best || apart(heights, tried) < apart(heights, *best)) best = std::move(tried);
    }
  }
  return best;
}

const Requirement& guilty(const Requirements& asked, Phase phase, bool wanted) {
  const auto found = std::find_if(asked.begin(), asked.end(), [&](const Requirement& one) {
    const auto* test = std::get_if<ReportTest>(&one.ask);
    return !one.met && one.wanted == wanted &&
           (test == nullptr || !test->phase || test->phase == phase);
  });
  return found == asked.end() ? first_unmet(asked) : *found;
}

/// One lack for each phase at which the two differ.
std::vector<Lack> told(const Heights& now, const Heights& then, const Requirements& asked,
                       const Situation& situation) {
  std::vector<Lack> out;
  const std::string symptom = symptom_of(asked.front());
  for (const Phase phase : kMendedPhases) {
    const auto a = now.find(phase), b = then.find(phase);
    const bool was = a != now.end(), will = b != then.end();
    const int from = was ? a->second : 0, to = will ? b->second : 0;
    if (was == will && from == to) continue;
    ReportChange change{symptom, phase, {}};
    if (will) change.severity = to;
    Lack lack{.asked = guilty(asked, phase, will && (to > from || !was)), .change = change};
    lack.distance = std::abs(to - from) + (was == will ? 0.0 : 0.5);
    if (was && will) lack.off_by = std::abs(to - from);
    for (const Report& report : situation.reports) {
      if (report.symptom == symptom) lack.reports.push_back(report);
    }
    out.push_back(std::move(lack));
  }
  return out;
}

}  // namespace

std::string symptom_of(const Requirement& asked) {
  const auto* test = std::get_if<ReportTest>(&asked.ask);
  return test != nullptr ? test->symptom : std::get<ReadTest>(asked.ask).symptom;
}

Lacks mend_reports(const Requirements& asked, const Situation& situation) {
  Heights now;
  for (const Report& report : situation.reports) {
    if (report.symptom != symptom_of(asked.front())) continue;
    const auto [at, fresh] = now.emplace(report.phase, report.severity);
    if (!fresh) at->second = std::max(at->second, report.severity);
  }
  Heights then = now;
  for (const Requirement& one : asked) {
    // That a symptom reads is only ever wanted.
    if (!one.wanted) lower(std::get<ReportTest>(one.ask), then);
  }
  for (const Requirement& one : asked) {
    if (!one.wanted || is_met_by(one, then, situation)) continue;
    std::optional<Heights> raised = raise(one, then, situation);
    if (!raised) return std::nullopt;
    then = std::move(*raised);
  }
  const bool all = std::all_of(asked.begin(), asked.end(), [&](const Requirement& one) {
    return is_met_by(one, then, situation);
  });
  if (!all) return std::nullopt;
  return told(now, then, asked, situation);
}

}  // namespace kartwright
