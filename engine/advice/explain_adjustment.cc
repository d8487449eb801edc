// An adjustment in the order a novice reads: what it is, what it does where, why, when that turns
// round, what limits it, how far it is agreed, what to watch for, and what it is a cure for.

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "engine/advice/cause_words.h"
#include "engine/advice/explain_parts.h"
#include "engine/inference/situation.h"

namespace kartwright {
namespace {

using Lines = std::vector<std::string>;

bool is_usual(const EffectRule& rule) { return rule.when.op == Condition::Op::always; }

/// The rules of an ordinary day first.
std::vector<const EffectRule*> usual_first(const Adjustment& a) {
  std::vector<const EffectRule*> rules;
  for (const EffectRule& rule : a.effects) rules.push_back(&rule);
  std::stable_partition(rules.begin(), rules.end(),
                        [](const EffectRule* rule) { return is_usual(*rule); });
  return rules;
}

std::string places_text(const Adjustment& a) {
  if (a.listed()) return fmt::format("positions {}", fmt::join(a.positions, ", "));
  const auto print = [&](double si) { return print_quantity(si, a.kind, System::metric); };
  return fmt::format("usually {} to {} by {}", print(a.from), print(a.to), print(a.step));
}

std::string most_text(const Adjustment& a) {
  return a.listed() ? fmt::format("at most {:g} at once", a.most_at_once)
                    : fmt::format("at most {} at once",
                                  print_quantity(a.most_at_once, a.kind, System::metric));
}

std::string labels_text(const Lines& ids, const Pack& pack) {
  std::string out;
  for (const std::string& id : ids) {
    const Adjustment* other = pack.adjustment(id);
    out += (out.empty() ? "" : ", ") + (other == nullptr ? id : other->label);
  }
  return out;
}

/// A row of one family; its cells in the order of the columns, one alone where it has no phases.
EffectTable::Row table_row(const Axis& first, const Adjustment& a, const Pack& pack) {
  EffectTable::Row row{.label = family_label(first, pack), .cells = {}, .notches = {}};
  for (std::size_t axis = 0; axis < pack.axes.size(); ++axis) {
    if (pack.axes[axis].family != first.family) continue;
    row.notches.push_back(usual_effect(a, axis));
    row.cells.push_back(strength(row.notches.back()));
  }
  return row;
}

EffectTable table_of(const Adjustment& a, const Pack& pack) {
  EffectTable table{.caption = a.phrases[0] + ", " + each_step(a), .columns = {}, .rows = {}};
  for (const Phase phase : {Phase::entry, Phase::mid, Phase::exit}) {
    table.columns.push_back(phase_label(phase, pack));
  }
  std::string family;
  for (const Axis& axis : pack.axes) {
    if (axis.family != family) table.rows.push_back(table_row(axis, a, pack));
    family = axis.family;
  }
  return table;
}

/// The axis that a step moves most.
std::string most_moved(const Adjustment& a, const Pack& pack) {
  std::size_t most = 0;
  double size = 0.0;
  for (std::size_t axis = 0; axis < pack.axes.size(); ++axis) {
    const double here = std::abs(usual_effect(a, axis).value_or(0.0));
    if (here <= size) continue;
    most = axis;
    size = here;
  }
  if (size == 0.0) return "on an ordinary day nobody can say which way";
  const bool less = *usual_effect(a, most) < 0.0;
  return fmt::format("most of all: {}, {:g} of a notch {}", pack.axes[most].label, size,
                     less ? "less" : "more");
}

ExplainedPart what_it_does(const Adjustment& a, const Pack& pack) {
  return {.heading = "what it does",
          .paragraphs = {most_moved(a, pack), a.phrases[1] + ": the reverse of all of it"},
          .table = table_of(a, pack)};
}

ExplainedPart why_it_does(const Adjustment& a) {
  ExplainedPart part{.heading = "why it works", .paragraphs = {a.explain}};
  for (const EffectRule& rule : a.effects) {
    if (is_usual(rule)) part.paragraphs.push_back(rule.because);
  }
  return part;
}

std::string change_line(const EffectChange& change, const Pack& pack) {
  return fmt::format("when {}: {}, because {} [{}]", describe(change.rule->when, pack),
                     changes_text(change, pack), change.rule->because, change.rule->id);
}

bool disputed(const Adjustment& a) {
  return std::any_of(a.effects.begin(), a.effects.end(), [](const EffectRule& rule) {
    return rule.contested || rule.provenance.groups_against > 0;
  });
}

void add_changes(const Adjustment& a, const Pack& pack, Explanation& out) {
  ExplainedPart turns{.heading = "when it turns round", .paragraphs = {}};
  ExplainedPart sizes{.heading = "when it is more or less than that", .paragraphs = {}};
  for (const EffectChange& change : effect_changes(a)) {
    (change.turns() ? turns : sizes).paragraphs.push_back(change_line(change, pack));
  }
  if (turns.paragraphs.empty()) {
    turns.paragraphs.emplace_back(
        disputed(a) ? "no condition is known that turns it round, though not all agree on it: see "
                      "how contested it is"
                    : "nothing known turns it round");
  }
  if (sizes.paragraphs.empty()) sizes.paragraphs.emplace_back("nothing else known changes it");
  out.sections.push_back(std::move(turns));
  out.sections.push_back(std::move(sizes));
}

std::string minutes_text(const Adjustment& a, const Pack& pack) {
  std::string out = fmt::format("{:g} minutes", a.minutes);
  if (a.shares_stand_with.empty()) return out;
  return out + fmt::format(", {:g} of them shared where the stand is up for {}", a.stand_minutes,
                           labels_text(a.shares_stand_with, pack));
}

ExplainedPart what_limits_it(const Adjustment& a, const Pack& pack) {
  ExplainedPart part{.heading = "what limits it", .paragraphs = {a.limits}};
  part.paragraphs.push_back(places_text(a) + "; " + most_text(a));
  part.paragraphs.push_back(minutes_text(a, pack));
  if (a.parts) part.paragraphs.emplace_back("each position is a part that the crew has or has not");
  if (!a.part_of.empty()) part.paragraphs.push_back("a part of " + labels_text({a.part_of}, pack));
  if (!a.same_setting_as.empty()) {
    part.paragraphs.push_back("never moved together with " + labels_text(a.same_setting_as, pack) +
                              ", which set the same thing");
  }
  return part;
}

ExplainedPart how_contested(const Adjustment& a, const Pack& pack) {
  ExplainedPart part{.heading = "how contested it is", .paragraphs = {}};
  for (const EffectRule* rule : usual_first(a)) {
    part.paragraphs.push_back(
        fmt::format("{}: {}; {} [{}]",
                    is_usual(*rule) ? "on an ordinary day" : "when " + describe(rule->when, pack),
                    agreement_text(*rule), standing_text(*rule, rule->contested), rule->id));
  }
  if (part.paragraphs.empty())
    part.paragraphs.emplace_back("the rules say nothing of what it does");
  return part;
}

ExplainedPart what_to_watch(const Adjustment& a) {
  ExplainedPart part{.heading = "watch for", .paragraphs = {}};
  for (std::size_t d = 0; d < 2; ++d) {
    part.paragraphs.push_back(a.phrases.at(d) + ", right: " + a.watch.at(d));
    part.paragraphs.push_back(a.phrases.at(d) + ", wrong: " + a.back_out.at(d));
  }
  return part;
}

/// "push in the middle (0.9), hop (0.7)": those that a step moves one way.
std::string moved_text(const std::vector<SymptomMove>& moves, bool eased, const Pack& pack) {
  std::string out;
  for (const SymptomMove& move : moves) {
    if ((move.notches < 0.0) != eased) continue;
    const std::string phase = move.phase == Phase::any ? "" : " " + phase_label(move.phase, pack);
    out += fmt::format("{}{}{} ({:.1f})", out.empty() ? "" : ", ", move.symptom->label, phase,
                       std::abs(move.notches));
  }
  return out;
}

ExplainedPart what_it_cures(const Adjustment& a, const Pack& pack) {
  ExplainedPart part{.heading = "cures and feeds", .paragraphs = {}};
  const std::vector<SymptomMove> moves = symptoms_moved(a, pack);
  const std::string eased = moved_text(moves, true, pack), fed = moved_text(moves, false, pack);
  if (!eased.empty()) part.paragraphs.push_back(a.phrases[0] + ": a cure for " + eased);
  if (!fed.empty()) part.paragraphs.push_back(a.phrases[0] + ": feeds " + fed);
  if (moves.empty()) {
    part.paragraphs.emplace_back(
        "on an ordinary day it moves no symptom enough to be worth naming");
  } else {
    part.paragraphs.push_back(a.phrases[1] + ": the other way round; in brackets, notches of " +
                              "severity for " + each_step(a) + ", where it is felt most");
  }
  return part;
}

ExplainedPart in_numbers(const Adjustment& a, const Pack& pack) {
  ExplainedPart part{.heading = "in numbers", .paragraphs = {}};
  for (const EffectRule* rule : usual_first(a)) {
    part.paragraphs.push_back(cells_text(*rule, pack) + " [" + rule->id + "]");
  }
  if (part.paragraphs.empty()) part.paragraphs.emplace_back("none");
  return part;
}

}  // namespace

Explanation explain_adjustment(const Adjustment& a, const Pack& pack) {
  Explanation out{"adjustment", a.id, a.label, {}};
  out.sections.push_back({"what it is", {a.plain}});
  out.sections.push_back({"measured", {a.measured}});
  out.sections.push_back(what_it_does(a, pack));
  out.sections.push_back(why_it_does(a));
  add_changes(a, pack, out);
  out.sections.push_back(what_limits_it(a, pack));
  out.sections.push_back(how_contested(a, pack));
  out.sections.push_back(what_to_watch(a));
  out.sections.push_back(what_it_cures(a, pack));
  out.sections.push_back(in_numbers(a, pack));
  if (!a.cautions.empty()) out.sections.push_back({"care", cautions_text(a.cautions, pack)});
  return out;
}

}  // namespace kartwright
