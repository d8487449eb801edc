#include "tests/support/agreement_report.h"

#include <functional>
#include <set>

#include <fmt/format.h>

namespace kartwright {
namespace {

using Wanted = std::function<bool(const AgreementUnit&)>;

std::string joined(const std::set<std::string>& texts) {
  return fmt::format("{}", fmt::join(texts, " and "));
}

std::string why_silent(const AgreementUnit& unit) {
  if (unit.question.unasked != Unasked::none) return std::string(name_of(unit.question.unasked));
  return "neither way is ranked";
}

std::string replied(const AgreementUnit& unit) {
  if (unit.verdict() == Verdicted::silent) return why_silent(unit);
  const bool agrees = unit.verdict() == Verdicted::agrees;
  return "the program: " + (agrees ? "the same" : unit.reply.offered) +
         (unit.reply.label_printed ? ", labelled contested" : "");
}

/// The question, what is published and what the program says; then a line for every record.
std::string entry(const AgreementUnit& unit) {
  const std::set<std::string> directions(unit.directions.begin(), unit.directions.end());
  std::string text = fmt::format("  {}\n    published: {}; {}\n", unit.question.context(),
                                 joined(directions), replied(unit));
  for (const PublishedStatement* line : unit.lines) {
    text += fmt::format("    {} {}: \"{}\"\n      {}: {}\n", line->record, line->group, line->note,
                        line->source, line->title);
  }
  return text;
}

std::string section(std::string_view title, const std::vector<AgreementUnit>& units,
                    const Wanted& wanted) {
  std::string text;
  int count = 0;
  for (const AgreementUnit& unit : units) {
    if (!wanted(unit)) continue;
    ++count;
    text += entry(unit);
  }
  return fmt::format("\n{}: {}\n", title, count) + text;
}

std::string shares(std::string_view title, const AgreementTally& t) {
  return fmt::format("  {:<44}{:>4} spoken of {:>3} ({:.1f} %), {:>3} agreed ({:.1f} %)\n", title,
                     t.spoken, t.units, 100.0 * t.spoken_share(), t.agreed,
                     100.0 * t.agreed_share());
}

std::string counted(const std::vector<PublishedStatement>& statements,
                    const std::vector<AgreementUnit>& units) {
  std::set<std::string> sources, groups, with_remedies;
  int remedies = 0;
  for (const PublishedStatement& s : statements) {
    sources.insert(s.source);
    groups.insert(s.group);
    if (!s.remedy()) continue;
    ++remedies;
    with_remedies.insert(s.group);
  }
  int ranked = 0, labels = 0;
  for (const AgreementUnit& unit : units) {
    if (!contested(unit) || unit.verdict() == Verdicted::silent) continue;
    ++ranked;
    labels += unit.reply.label_printed;
  }
  return fmt::format(
             "{} statements of {} sources, {} groups; {} of them remedies of {} groups; {} "
             "questions "
             "by group\n\nUncontested\n",
             statements.size(), sources.size(), groups.size(), remedies, with_remedies.size(),
             units.size()) +
         shares("a question and a group once", tally(units)) +
         shares("an adjustment, dry or wet, and a group once", coarse_tally(units)) +
         fmt::format("\nContested\n  {} ranked, {} of them labelled contested\n", ranked, labels);
}

}  // namespace

std::string agreement_report(const std::vector<PublishedStatement>& statements,
                             const std::vector<AgreementUnit>& units) {
  const auto is = [](Verdicted verdict, bool disputed) {
    return [=](const AgreementUnit& unit) {
      return unit.verdict() == verdict && (disputed ? contested(unit) : counts(unit));
    };
  };
  const auto left_out = [](const AgreementUnit& u) { return !counts(u) && !contested(u); };
  return counted(statements, units) +
         section("Disagreements, uncontested", units, is(Verdicted::disagrees, false)) +
         section("Silent, uncontested", units, is(Verdicted::silent, false)) +
         section("Disagreements, contested", units, is(Verdicted::disagrees, true)) +
         section("Silent, contested", units, is(Verdicted::silent, true)) +
         section("Left out", units, left_out) +
         section("Agreements, uncontested", units, is(Verdicted::agrees, false)) +
         section("Agreements, contested", units, is(Verdicted::agrees, true));
}

}  // namespace kartwright
