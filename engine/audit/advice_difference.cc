#include "engine/audit/advice_difference.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <map>
#include <memory>
#include <set>
#include <utility>

#include "engine/advice/advise.h"
#include "engine/debrief/debrief_file.h"

namespace kartwright {
namespace {

/// What one pack says to a scenario. The kart stays where the advice points at it.
struct PackAnswer {
  std::unique_ptr<Kart> kart;
  std::optional<Advice> advice;
  std::vector<Diagnostic> errors;
};

std::vector<Diagnostic> errors_of(const Findings& findings) {
  std::vector<Diagnostic> errors;
  std::copy_if(findings.all().begin(), findings.all().end(), std::back_inserter(errors),
               [](const Diagnostic& each) { return each.severity == Severity::error; });
  return errors;
}

Kart kart_of(const ScenarioFile& scenario, DebriefFile& file, const Pack& pack,
             Findings& findings) {
  if (scenario.kart) return read_kart(*scenario.kart, pack, findings);
  return file.kart ? std::move(*file.kart) : typical_kart(pack);
}

PackAnswer ask(const Pack& pack, const ScenarioFile& scenario) {
  if (!scenario.broken.empty()) return {nullptr, std::nullopt, scenario.broken};
  PackAnswer answer;
  try {
    Findings findings;
    DebriefFile file = read_debrief(scenario.debrief, pack, findings);
    answer.kart = std::make_unique<Kart>(kart_of(scenario, file, pack, findings));
    answer.errors = errors_of(findings);
    if (!answer.errors.empty()) return answer;
    answer.advice = advise(pack, *answer.kart, file.debrief, answer.kart->units);
  } catch (const InputError& error) {
    answer.errors = error.found();
  }
  return answer;
}

using MoveKey = std::pair<std::string, std::string>;

MoveKey key_of(const Change& change) { return {change.adjustment().id, change.direction()}; }

struct RankAndScore {
  std::size_t rank = 0;
  double score = 0.0;
};

std::map<MoveKey, RankAndScore> standing(const Advice& advice) {
  std::map<MoveKey, RankAndScore> all;
  for (const Change& change : advice.changes) {
    all.emplace(key_of(change), RankAndScore{all.size() + 1, change.candidate.parts.score()});
  }
  return all;
}

void compare_moves(const Advice& before, const Advice& after, ScenarioDifference& out) {
  const auto old_standing = standing(before), new_standing = standing(after);
  std::set<MoveKey> moves;
  for (const auto& [move, each] : old_standing) moves.insert(move);
  for (const auto& [move, each] : new_standing) moves.insert(move);
  for (const MoveKey& move : moves) {
    const auto& [adjustment, direction] = move;
    const auto old = old_standing.find(move), now = new_standing.find(move);
    const RankAndScore was = old == old_standing.end() ? RankAndScore{} : old->second;
    const RankAndScore is = now == new_standing.end() ? RankAndScore{} : now->second;
    if (was.rank != is.rank) out.ranks.push_back({adjustment, direction, was.rank, is.rank});
    const bool both = was.rank > 0 && is.rank > 0;
    if (both && std::abs(was.score - is.score) > kScoreShift) {
      out.scores.push_back({adjustment, direction, was.score, is.score});
    }
  }
  const auto by_rank = [](const RankShift& shift) {
    return shift.before > 0 ? shift.before : shift.after;
  };
  std::stable_sort(out.ranks.begin(), out.ranks.end(),
                   [&](const auto& a, const auto& b) { return by_rank(a) < by_rank(b); });
  std::stable_sort(out.scores.begin(), out.scores.end(), [](const auto& a, const auto& b) {
    return std::abs(a.after - a.before) > std::abs(b.after - b.before);
  });
}

std::optional<LeadingChange> leading(const Advice& advice) {
  if (advice.changes.empty()) return std::nullopt;
  const Change& lead = advice.changes.front();
  return LeadingChange{lead.adjustment().id, lead.direction(),
                       lead.adjustment().phrases.at(lead.candidate.option.direction), lead.from,
                       lead.to};
}

bool lead_differs(const Advice& before, const Advice& after) {
  if (before.changes.empty() || after.changes.empty()) {
    return before.changes.empty() != after.changes.empty();
  }
  const Change& old = before.changes.front();
  const Change& now = after.changes.front();
  return key_of(old) != key_of(now) || old.from != now.from || old.to != now.to;
}

std::set<std::string> checks_in(const Advice& advice) {
  std::set<std::string> ids;
  for (const FaultOdds& odds : advice.checks) ids.insert(odds.fault->id);
  return ids;
}

std::vector<std::string> only_in(const std::set<std::string>& here,
                                 const std::set<std::string>& there) {
  std::vector<std::string> out;
  std::set_difference(here.begin(), here.end(), there.begin(), there.end(),
                      std::back_inserter(out));
  return out;
}

std::string title_of(const ScenarioFile& scenario) {
  const Node* const title = scenario.debrief.root.find("title");
  return title == nullptr ? "" : title->text;
}

ScenarioDifference compare_answers(const ScenarioFile& scenario, const Advice& before,
                                   const Advice& after) {
  ScenarioDifference out{.scenario = scenario.path,
                         .title = title_of(scenario),
                         .headline_before = before.verdict.headline,
                         .headline_after = after.verdict.headline,
                         .first_before = leading(before),
                         .first_after = leading(after),
                         .first_differs = lead_differs(before, after)};
  compare_moves(before, after, out);
  const std::set<std::string> old_checks = checks_in(before), new_checks = checks_in(after);
  out.checks_came = only_in(new_checks, old_checks);
  out.checks_went = only_in(old_checks, new_checks);
  return out;
}

bool says_something(const ScenarioDifference& each) {
  return each.headline_differs() || each.first_differs || !each.ranks.empty() ||
         !each.scores.empty() || !each.checks_came.empty() || !each.checks_went.empty();
}

}  // namespace

ScenariosApart scenarios_apart(const Pack& before, const Pack& after,
                               const std::vector<ScenarioFile>& scenarios) {
  ScenariosApart apart;
  for (const ScenarioFile& scenario : scenarios) {
    const PackAnswer old = ask(before, scenario), now = ask(after, scenario);
    if (!old.advice || !now.advice) {
      apart.unread.push_back({scenario.path, old.errors, now.errors});
      continue;
    }
    ++apart.asked;
    ScenarioDifference one = compare_answers(scenario, *old.advice, *now.advice);
    if (says_something(one)) apart.differing.push_back(std::move(one));
  }
  return apart;
}

}  // namespace kartwright
