#include "tests/support/agreement.h"

#include <algorithm>
#include <map>
#include <set>
#include <utility>

namespace kartwright {
namespace {

bool can_be_asked(const PitQuestion& question) {
  return question.unasked == Unasked::none || question.unasked == Unasked::no_symptom;
}

/// Replies by the context of the question: groups ask the same.
using Replies = std::map<std::string, PitReply>;

const PitReply& reply_to(const PitQuestion& question, Replies& replies) {
  const auto [at, fresh] = replies.try_emplace(question.context());
  if (fresh) at->second = ask(question);
  return at->second;
}

void add_line(const PublishedStatement& s, const PitQuestion& question,
              std::map<std::string, AgreementUnit>& units) {
  AgreementUnit& unit = units[s.group + ": " + question.context()];
  unit.group = s.group;
  if (unit.lines.empty()) unit.question = question;
  unit.lines.push_back(&s);
  unit.directions.push_back(question.direction);
}

/// A sign of the tables for the pack's first direction: +1, -1, or 0 where nothing is said.
int sign_of(const std::string& grip, const PitQuestion& question) {
  if (grip != "+" && grip != "-") return 0;
  const auto& first = rules().adjustment(question.adjustment)->directions[0];
  return (grip == "+") == (question.direction == first) ? 1 : -1;
}

}  // namespace

Verdicted AgreementUnit::verdict() const {
  if (question.unasked != Unasked::none || reply.offered.empty()) return Verdicted::silent;
  const bool all = std::all_of(directions.begin(), directions.end(),
                               [&](const std::string& each) { return each == reply.offered; });
  return all ? Verdicted::agrees : Verdicted::disagrees;
}

std::vector<AgreementUnit> agreement_units(const std::vector<PublishedStatement>& statements,
                                           int severity) {
  std::map<std::string, AgreementUnit> found;
  for (const PublishedStatement& s : statements) {
    if (s.remedy()) add_line(s, question_of(s, severity), found);
  }
  std::vector<AgreementUnit> units;
  Replies replies;
  for (auto& [key, unit] : found) {
    if (can_be_asked(unit.question)) unit.reply = reply_to(unit.question, replies);
    units.push_back(std::move(unit));
  }
  std::sort(units.begin(), units.end(), [](const AgreementUnit& a, const AgreementUnit& b) {
    return a.lines.front()->record < b.lines.front()->record;
  });
  return units;
}

std::string AgreementUnit::move() const {
  return question.adjustment + " " + lines.front()->surface;
}

bool contested(const AgreementUnit& unit) {
  return can_be_asked(unit.question) && unit.reply.contested;
}

bool counts(const AgreementUnit& unit) {
  const Unasked why = unit.question.unasked;
  return why != Unasked::outside && why != Unasked::no_direction && !contested(unit);
}

AgreementTally tally(const std::vector<AgreementUnit>& units) {
  AgreementTally out;
  for (const AgreementUnit& unit : units) {
    if (!counts(unit)) continue;
    ++out.units;
    out.spoken += unit.verdict() != Verdicted::silent;
    out.agreed += unit.verdict() == Verdicted::agrees;
  }
  return out;
}

AgreementTally coarse_tally(const std::vector<AgreementUnit>& units) {
  std::map<std::pair<std::string, std::string>, std::set<Verdicted>> said;
  for (const AgreementUnit& unit : units) {
    if (!counts(unit)) continue;
    said[{unit.group, unit.move()}].insert(unit.verdict());
  }
  AgreementTally out;
  for (const auto& [key, verdicts] : said) {
    ++out.units;
    out.spoken += verdicts != std::set{Verdicted::silent};
    out.agreed += verdicts.contains(Verdicted::agrees) && !verdicts.contains(Verdicted::disagrees);
  }
  return out;
}

std::vector<std::string> against_most(const std::vector<AgreementUnit>& units) {
  std::map<std::string, int> for_it;  // units that agree less those that do not
  for (const AgreementUnit& unit : units) {
    if (!counts(unit) || unit.verdict() == Verdicted::silent) continue;
    for_it[unit.move()] += unit.verdict() == Verdicted::agrees ? 1 : -1;
  }
  std::vector<std::string> against;
  for (const auto& [move, balance] : for_it) {
    if (balance <= 0) against.push_back(move);
  }
  return against;
}

std::vector<std::string> split_in_print(const std::vector<PublishedStatement>& statements) {
  std::map<std::pair<std::string, std::string>, std::set<int>> signs;  // by move and end
  for (const PublishedStatement& s : statements) {
    const PitQuestion question = question_of(s, 2);
    if (!s.remedy() || !can_be_asked(question)) continue;
    const std::string move = question.adjustment + " " + s.surface;
    signs[{move, "front"}].insert(sign_of(s.front_grip, question));
    signs[{move, "rear"}].insert(sign_of(s.rear_grip, question));
  }
  std::set<std::string> split;
  for (const auto& [move, seen] : signs) {
    if (seen.contains(1) && seen.contains(-1)) split.insert(move.first);
  }
  return {split.begin(), split.end()};
}

}  // namespace kartwright
