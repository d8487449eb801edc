#include <algorithm>
#include <array>
#include <set>

#include "engine/audit/sample.h"

namespace kartwright {
namespace {

constexpr std::array kSampledPhases{Phase::any, Phase::entry, Phase::mid, Phase::exit,
                                    Phase::straight};
constexpr int kUnsaid = -1;

/// Severities that a report at one phase may have; kUnsaid: no report there. Best first.
using Open = std::vector<int>;

bool fits(const ReportTest& test, int severity) {
  return test.at_least == 0 ? severity == 0 : severity >= test.at_least;
}

/// What every test on this phase, and every denied test on any phase, leaves open.
Open open_at(Phase phase, const Conjunction& all) {
  Open open{kUnsaid, 2, 3, 1, 0};
  for (const Literal& literal : all) {
    const auto& test = std::get<ReportTest>(literal.test);
    const bool concerns = test.phase ? *test.phase == phase : !literal.wanted;
    if (!concerns) continue;
    std::erase_if(open, [&](int severity) { return fits(test, severity) != literal.wanted; });
  }
  return open;
}

/// The phases where a symptom is felt first, since reports of others are answered with a warning.
std::vector<Phase> phases_by_choice(const Symptom& symptom) {
  std::vector<Phase> phases = symptom.phases;
  for (const Phase phase : kSampledPhases) {
    if (std::find(phases.begin(), phases.end(), phase) == phases.end()) phases.push_back(phase);
  }
  return phases;
}

/// A complaint of at least this severity is wanted at some phase (0: none is), and a denial.
struct Somewhere {
  int complaint = 0;
  bool denial = false;
};

Somewhere wanted_somewhere(const Conjunction& all) {
  Somewhere wanted;
  for (const Literal& literal : all) {
    const auto& test = std::get<ReportTest>(literal.test);
    if (test.phase || !literal.wanted) continue;
    wanted.complaint = std::max(wanted.complaint, test.at_least);
    wanted.denial = wanted.denial || test.at_least == 0;
  }
  return wanted;
}

/// Severities by phase, or none where a phase has nothing left open.
using Said = std::vector<std::pair<Phase, Open>>;

/// Narrows one phase to what serves; false where nothing of it does.
bool narrow(Open& open, const ReportTest& test) {
  std::erase_if(open, [&](int severity) { return !fits(test, severity); });
  return !open.empty();
}

/// Tries the complaint at each phase and the denial at each other one.
std::optional<Said> placed(const Said& said, const Somewhere& wanted) {
  const std::size_t none = said.size();
  const std::size_t complaints = wanted.complaint > 0 ? said.size() : 1;
  const std::size_t denials = wanted.denial ? said.size() : 1;
  for (std::size_t i = 0; i < complaints; ++i) {
    for (std::size_t j = 0; j < denials; ++j) {
      Said tried = said;
      const std::size_t at = wanted.complaint > 0 ? i : none;
      if (at != none && !narrow(tried[at].second, {.symptom = {}, .at_least = wanted.complaint}))
        continue;
      if (wanted.denial && !narrow(tried[j].second, {.symptom = {}, .at_least = 0})) continue;
      return tried;
    }
  }
  return std::nullopt;
}

}  // namespace

std::optional<std::vector<Report>> sample_reports(const Symptom& symptom, const Conjunction& all) {
  Said said;
  for (const Phase phase : phases_by_choice(symptom)) {
    said.emplace_back(phase, open_at(phase, all));
    if (said.back().second.empty()) return std::nullopt;
  }
  const std::optional<Said> settled = placed(said, wanted_somewhere(all));
  if (!settled) return std::nullopt;
  std::vector<Report> reports;
  for (const auto& [phase, open] : *settled) {
    if (open.front() == kUnsaid) continue;
    reports.push_back({.symptom = symptom.id, .phase = phase, .severity = open.front()});
  }
  return reports;
}

}  // namespace kartwright
