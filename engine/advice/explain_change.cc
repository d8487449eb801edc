#include "engine/advice/explain_change.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "engine/advice/reading_text.h"
#include "engine/quantity/number_text.h"

namespace kartwright {
namespace {

using Eigen::Index;

/// Axes the move touches, by how much weighed error it takes off them.
std::vector<AxisMove> moves_of(const Candidate& candidate, const Effect& effect,
                               const Advice& advice) {
  std::vector<AxisMove> moves;
  for (Index i = 0; i < effect.per_step.size(); ++i) {
    if (effect.per_step[i] == 0.0) continue;
    const double before = advice.belief.mean[i];
    moves.push_back({static_cast<std::size_t>(i), before,
                     before + candidate.option.steps * effect.per_step[i]});
  }
  const auto mended = [&](const AxisMove& m) {
    return advice.weights[static_cast<Index>(m.axis)] * (m.before * m.before - m.after * m.after);
  };
  std::sort(moves.begin(), moves.end(), [&](const AxisMove& a, const AxisMove& b) {
    return std::pair(-mended(a), a.axis) < std::pair(-mended(b), b.axis);
  });
  return moves;
}

std::vector<std::pair<std::size_t, double>> sorted_shares(std::size_t axis, const Belief& belief) {
  std::vector<std::pair<std::size_t, double>> shares;
  for (Index i = 0; i < belief.shares.cols(); ++i) {
    shares.emplace_back(static_cast<std::size_t>(i), belief.shares(static_cast<Index>(axis), i));
  }
  std::sort(shares.begin(), shares.end(), [](const auto& a, const auto& b) {
    return std::pair(-std::abs(a.second), a.first) < std::pair(-std::abs(b.second), b.first);
  });
  return shares;
}

/// Complaints that the move makes stronger by a tenth of a notch or more.
std::vector<std::pair<std::size_t, double>> fed_by(const Candidate& candidate, const Effect& effect,
                                                   const Advice& advice) {
  constexpr double kFelt = 0.1;
  std::vector<std::pair<std::size_t, double>> fed;
  for (std::size_t i = 0; i < advice.readings.size(); ++i) {
    const Reading& reading = advice.readings[i];
    if (!reading.complaint) continue;
    const double moved = candidate.option.steps * reading.row.dot(effect.per_step);
    const double more = reading.value < 0.0 ? -moved : moved;
    if (more >= kFelt - 1e-9) fed.emplace_back(i, more);
  }
  std::sort(fed.begin(), fed.end(), [](const auto& a, const auto& b) {
    return std::pair(-a.second, a.first) < std::pair(-b.second, b.first);
  });
  return fed;
}

std::string joined(const std::vector<std::string>& texts) {
  std::string out;
  for (const std::string& text : texts) out += (out.empty() ? "" : ", ") + text;
  return out;
}

/// "hop mid: +0.61 of rear grip in the middle"
std::string share_text(std::string_view reading, double share, std::string_view axis) {
  constexpr std::size_t kNumber = 16;
  std::string text;
  text.reserve(reading.size() + axis.size() + kNumber);
  text.append(reading).append(std::signbit(share) ? ": " : ": +");
  append_fixed(text, share, 2);
  return text.append(" of ").append(axis);
}

std::vector<Because> rules_of(const Effect& effect, const Situation& situation) {
  std::vector<Because> out;
  out.reserve(effect.rules.size());
  for (const EffectRule* rule : effect.rules) {
    const std::string premises = joined(premises_of(rule->when, situation));
    out.push_back({"rule", rule->id, rule->because});
    if (!premises.empty()) out.back().text.append(" (").append(premises).append(")");
  }
  return out;
}

/// The figure of this kart behind a move; nothing where it moves no loads.
std::optional<LoadReason> loads_behind(const Option& option, const Effect& effect,
                                       const Advice& advice, const Pack& pack) {
  if (!advice.loads || !moves_loads(option.setting->adjustment->id)) return {};
  const SettingMove move{*option.setting, option.direction, option.from, option.to, option.steps};
  return load_reason(*advice.loads, move, effect, pack, advice.units);
}

/// A move that was made on such a track before, and taken back.
std::string tried_before(const Change& change, const Advice& advice, const Situation& situation) {
  if (situation.experience == nullptr) return {};
  const auto at =
      static_cast<std::size_t>(&change.adjustment() - situation.pack.adjustments.data());
  for (const TriedBefore& tried : (*situation.experience)[at].tried) {
    if (tried.direction == change.candidate.option.direction && tried.track == advice.track)
      return tried.text;
  }
  return {};
}

std::string end_text(const Setting& setting, std::size_t direction, const Refused& refused) {
  if (refused.option && !refused.option->at_once)
    return "the next place is farther than one move should go";
  return "at its " + setting.adjustment->directions.at(direction) + " end";
}

std::string time_text(double takes, double left) {
  std::string text = "takes ";
  append_short(text, takes);
  text += " min of ";
  append_short(text, left);
  return text;
}

std::string worse_text(const Refused& refused, const Pack& pack) {
  if (refused.uncertain) return "could go either way here";
  return "makes " + pack.axes[refused.worsens.value_or(0)].label + " worse";
}

}  // namespace

Grounds grounds_of(const Option& option, const Effect& effect, const Advice& advice,
                   const Situation& situation) {
  Grounds grounds{.from = print_setting(*option.setting, option.from, advice.units),
                  .to = print_setting(*option.setting, option.to, advice.units),
                  .rules = rules_of(effect, situation),
                  .loads = loads_behind(option, effect, advice, situation.pack)};
  for (const std::string& id : option.setting->adjustment->cautions)
    grounds.cautions.emplace_back(situation.pack.caution(id)->text);
  return grounds;
}

const ChangeExplainer::Shares& ChangeExplainer::shares_on(std::size_t axis) {
  const auto [entry, fresh] = shares_.try_emplace(axis);
  Shares& shares = entry->second;
  if (!fresh) return shares;
  shares.sizes = sorted_shares(axis, advice_.belief);
  shares.told.reserve(shares.sizes.size());
  for (const auto& [index, share] : shares.sizes) {
    const Reading& reading = advice_.readings[index];
    shares.told.push_back(
        {"rule", reading.rule, share_text(reading.text, share, situation_.pack.axes[axis].label)});
  }
  return shares;
}

/// What this kart's log says of the axis that the change mends most.
void ChangeExplainer::add_records(Change& change, const Effect& effect) const {
  const Adjustment& adjustment = change.adjustment();
  if (effect.records == 0 || change.moves.empty() || situation_.experience == nullptr) return;
  const auto at = static_cast<std::size_t>(&adjustment - situation_.pack.adjustments.data());
  Situation without = situation_;
  without.experience = nullptr;
  const auto axis = static_cast<Index>(change.moves.front().axis);
  const double rules = effect_of(adjustment, without).per_step[axis];
  std::string text = fmt::format(
      "{} differences between this kart's debriefs: {} {:+.2f} a step by the rules, {:+.2f} with "
      "the log",
      effect.records, situation_.pack.axes[change.moves.front().axis].label, rules,
      effect.per_step[axis]);
  constexpr std::size_t kTold = 3;
  const std::vector<std::string>& told = (*situation_.experience)[at].told;
  for (std::size_t i = 0; i < std::min(kTold, told.size()); ++i) text.append("; ").append(told[i]);
  change.because.push_back({"record", adjustment.id, text});
}

void ChangeExplainer::add_shares(Change& change) {
  const Shares& shares = shares_on(change.moves.front().axis);
  change.shares = shares.sizes;
  change.because.insert(change.because.end(), shares.told.begin(), shares.told.end());
}

Change ChangeExplainer::explain(const Candidate& candidate, const Effect& effect,
                                const Grounds& grounds) {
  const Option& option = candidate.option;
  Change change{.candidate = candidate, .from = grounds.from, .to = grounds.to};
  if (candidate.then) change.then = print_setting(*option.setting, *candidate.then, advice_.units);
  change.contested = effect.contested;
  change.open_questions = effect.open_facts;
  change.moves = moves_of(candidate, effect, advice_);
  change.against = fed_by(candidate, effect, advice_);
  change.because.reserve(grounds.rules.size() + advice_.readings.size() + 2);
  change.because = grounds.rules;
  if (!change.moves.empty()) add_shares(change);
  add_records(change, effect);
  change.tried = tried_before(change, advice_, situation_);
  if (grounds.loads) {
    change.loads = grounds.loads->say;
    change.because.push_back({"chassis", "wheel-loads", grounds.loads->text});
  }
  const Adjustment& adjustment = change.adjustment();
  change.watch = adjustment.watch.at(option.direction);
  change.back_out = adjustment.back_out.at(option.direction);
  change.cautions = grounds.cautions;
  return change;
}

std::string mechanism_of(const Change& change) {
  if (change.because.empty()) return {};
  const Because& first = change.because.front();
  if (first.kind != "rule" || change.candidate.option.direction == 0) return first.text;
  return "undoes what " + change.adjustment().phrases.at(0) + " does: " + first.text;
}

NotNow explain_refusal(const Refused& refused, const Situation& situation, System units,
                       double minutes_left) {
  const Adjustment& adjustment = *refused.way->adjustment;
  NotNow out{.adjustment = adjustment.id,
             .direction = adjustment.directions.at(refused.way->direction),
             .reason = refused.refusal};
  if (refused.option) out.to = print_setting(*refused.option->setting, refused.option->to, units);
  switch (refused.refusal) {
    case Refusal::end_stop:
      out.text = end_text(*refused.way->setting, refused.way->direction, refused);
      break;
    case Refusal::class_limit:
      out.text = "the class does not allow " + out.to;
      break;
    case Refusal::no_part:
      out.text = out.to + " is not in the box";
      break;
    case Refusal::no_time:
      out.text = time_text(refused.way->setting->minutes, minutes_left);
      break;
    case Refusal::makes_worse:
      out.text = worse_text(refused, situation.pack);
      break;
    case Refusal::not_on_this_kart:
      out.text = "not fitted, or not in the kart file";
      break;
    case Refusal::effect_unknown:
      out.text = "no rule says what it would do today";
      break;
    case Refusal::none:
      break;
  }
  return out;
}

}  // namespace kartwright
