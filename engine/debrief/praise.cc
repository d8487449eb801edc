#include "engine/debrief/praise.h"

#include <algorithm>
#include <array>

namespace kartwright {
namespace {

constexpr std::array kCorner{Phase::entry, Phase::mid, Phase::exit};

template <typename List, typename Item>
bool among(const List& list, const Item& item) {
  return std::find(list.begin(), list.end(), item) != list.end();
}

/// True where the symptom reads on other axes at another phase: a term that is no axis by itself is
/// a family with phases.
bool depends_on_phase(const std::string& id, const Pack& pack) {
  const Symptom* const symptom = pack.symptom(id);
  if (symptom == nullptr || !symptom->reading) return false;
  const std::vector<RowTerm>& row = symptom->reading->row;
  return std::any_of(row.begin(), row.end(), [&](const RowTerm& term) {
    return std::none_of(pack.axes.begin(), pack.axes.end(),
                        [&](const Axis& axis) { return axis.id == term.axis; });
  });
}

bool complains_of(const std::vector<Report>& reports, const std::string& symptom) {
  return std::any_of(reports.begin(), reports.end(), [&](const Report& report) {
    return report.symptom == symptom && !report.denied();
  });
}

/// The parts of the corner that praise of the whole leaves to be denied: those without a complaint.
/// `any` where no complaint names its part.
std::vector<Phase> spared(const std::vector<Report>& reports, const Pack& pack) {
  std::vector<Phase> blamed;
  for (const Report& report : reports) {
    if (!report.denied() && depends_on_phase(report.symptom, pack)) blamed.push_back(report.phase);
  }
  if (blamed.empty() || among(blamed, Phase::any)) return {Phase::any};
  std::vector<Phase> rest;
  for (const Phase phase : kCorner) {
    if (!among(blamed, phase)) rest.push_back(phase);
  }
  return rest;
}

}  // namespace

void Praise::add(const std::vector<Phase>& said) {
  if (said.empty() || among(said, Phase::any)) whole = true;
  for (const Phase phase : said) {
    if (among(kCorner, phase) && !among(phases, phase)) phases.push_back(phase);
  }
}

std::vector<Report> denied_by(const Praise& praise, const std::vector<Report>& reports,
                              const Pack& pack) {
  const std::vector<Phase> parts = praise.whole ? spared(reports, pack) : praise.phases;
  const auto spoken_of = [&](const std::string& symptom, Phase phase) {
    return std::any_of(reports.begin(), reports.end(), [&](const Report& report) {
      return report.symptom == symptom && report.phase == phase;
    });
  };
  std::vector<Report> denials;
  for (const std::string& symptom : pack.hearing.praise_denies) {
    if (complains_of(reports, symptom)) continue;
    const bool phased = depends_on_phase(symptom, pack);
    if (!phased && !praise.whole) continue;
    for (const Phase phase : phased ? parts : std::vector{Phase::any}) {
      if (spoken_of(symptom, phase)) continue;
      Report denial{symptom, phase, 0};
      denial.words = praise.words;
      denial.from_praise = true;
      denials.push_back(std::move(denial));
    }
  }
  return denials;
}

}  // namespace kartwright
