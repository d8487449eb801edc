#include "engine/advice/groundwork.h"

#include <algorithm>

#include "engine/inference/derive.h"
#include "engine/knowledge/names.h"

namespace kartwright {
namespace {

constexpr std::size_t kMostKept = 64;  // of a kind: then it begins anew

Eigen::VectorXd weights_by_axis(const Pack& pack) {
  Eigen::VectorXd weights(static_cast<Eigen::Index>(pack.axes.size()));
  for (std::size_t i = 0; i < pack.axes.size(); ++i)
    weights[static_cast<Eigen::Index>(i)] = pack.axes[i].weight;
  return weights;
}

bool looks_at_reports(const Condition& condition) {
  if (condition.op == Condition::Op::test)
    return std::holds_alternative<ReportTest>(condition.test);
  return std::any_of(condition.parts.begin(), condition.parts.end(),
                     [](const Condition& part) { return looks_at_reports(part); });
}

/// True where an effect of the pack, or a fact that it is a mixture over, depends on a report.
bool effects_look_at_reports(const Pack& pack) {
  const auto look = [](const auto& rules) {
    return std::any_of(rules.begin(), rules.end(),
                       [](const auto& rule) { return looks_at_reports(rule.when); });
  };
  return std::any_of(pack.adjustments.begin(), pack.adjustments.end(),
                     [&](const Adjustment& each) { return look(each.effects); }) ||
         std::any_of(pack.facts.begin(), pack.facts.end(),
                     [&](const FactDef& each) { return look(each.priors); });
}

/// All that effects can look at of a case of one kart.
std::string key_of(const Situation& situation, const std::string& track, bool room_matters) {
  std::string key = track;
  for (const Fact& fact : situation.facts.all) {
    if (room_matters || !is_room_fact(fact.id))
      key.append("\n").append(fact.id).append(":").append(fact.value);
  }
  return key;
}

/// What is kept under a key, made where it is not.
template <typename Kept, typename Key, typename Make>
auto& kept_or_made(Kept& kept, const Key& key, const Make& make) {
  const auto found = kept.find(key);
  if (found != kept.end()) return found->second;
  if (kept.size() >= kMostKept) kept.clear();
  return kept.emplace(key, make()).first->second;
}

}  // namespace

Groundwork::Groundwork(const Pack& pack, const Kart& kart)
    : pack_(pack),
      kart_(kart),
      weights_(weights_by_axis(pack)),
      room_matters_(looks_at_room(pack)),
      reports_matter_(effects_look_at_reports(pack)) {}

const Prior& Groundwork::prior() {
  if (!prior_) prior_ = make_prior(pack_);
  return *prior_;
}

const Groundwork::Loads& Groundwork::loads(const std::string& track) {
  return kept_or_made(loads_, track, [&] {
    Loads made{.today = loads_today(kart_, pack_, track)};
    if (made.today) made.measures = measures_of(*made.today, pack_);
    return made;
  });
}

MovesInTime& Groundwork::in_time(double minutes_left) {
  return kept_or_made(in_time_, minutes_left,
                      [&] { return MovesInTime{.ways = all_ways(pack_, kart_, minutes_left)}; });
}

MovesUnderFacts& Groundwork::under_facts(Situation& situation, const std::string& track) {
  const auto make = [&] { return MovesUnderFacts{.effects = effects_of(situation)}; };
  // With a log's experience, or where reports matter, they are of that one case.
  if (situation.experience != nullptr || reports_matter_) return of_one_case_.emplace(make());
  return kept_or_made(under_facts_, key_of(situation, track, room_matters_), make);
}

const JobClasses& Groundwork::jobs() {
  if (!jobs_) jobs_ = job_classes(all_ways(pack_, kart_, 0.0));
  return *jobs_;
}

}  // namespace kartwright
