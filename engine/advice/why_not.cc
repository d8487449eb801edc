#include "engine/advice/why_not.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "engine/advice/explain_change.h"
#include "engine/advice/stakes.h"

namespace kartwright {
namespace {

using Eigen::Index;

bool too_far(const Option& option) { return option.refusal == Refusal::none && !option.at_once; }

/// Why a place is not allowed, in the words of a refusal; empty where it is.
std::string why_refused(const Option& option, const Way& way, const Situation& situation,
                        const Advice& advice) {
  if (option.legal()) return {};
  if (too_far(option)) return "farther than one move should go";
  const Refused refused{.way = &way, .refusal = option.refusal, .option = option};
  return explain_refusal(refused, situation, advice.units, advice.debrief.minutes).text;
}

bool scores_more(const JudgedPlace& a, const JudgedPlace& b) {
  if (a.candidate.held_back() != b.candidate.held_back()) return b.candidate.held_back();
  return a.candidate.parts.score() > b.candidate.parts.score();
}

std::optional<std::size_t> best_of(const std::vector<JudgedPlace>& places) {
  std::optional<std::size_t> best;
  const auto rank = [](const JudgedPlace& place) {
    const Option& option = place.candidate.option;
    return option.legal() ? 0 : option.at_once ? 1 : 2;
  };
  for (std::size_t i = 0; i < places.size(); ++i) {
    const int mine = rank(places[i]);
    const int theirs = best ? rank(places[*best]) : 3;
    // Of those too far for one move the nearest, which is the first.
    if (mine < theirs || (mine == theirs && mine < 2 && scores_more(places[i], places[*best])))
      best = i;
  }
  return best;
}

/// Where the ranking offers it.
std::optional<std::size_t> offered_of(const WhyChange& why, const Advice& advice) {
  const double to = advice.changes[*why.stands - 1].candidate.option.to;
  const auto found = std::find_if(why.places.begin(), why.places.end(), [&](const JudgedPlace& p) {
    return p.candidate.option.to == to;
  });
  return static_cast<std::size_t>(found - why.places.begin());
}

/// How the advice has it: where it stands, or why it is not offered.
void look_up(WhyChange& why, const Advice& advice) {
  for (std::size_t i = 0; i < advice.changes.size(); ++i) {
    const Change& change = advice.changes[i];
    if (change.adjustment().id == why.adjustment && change.direction() == why.direction)
      why.stands = i + 1;
  }
  for (const NotNow& refused : advice.not_now) {
    if (refused.adjustment == why.adjustment && refused.direction == why.direction)
      why.refusal = refused.reason;
  }
}

std::vector<JudgedPlace> judged(const Stakes& stakes, std::size_t way, const Advice& advice,
                                const Situation& situation) {
  std::vector<JudgedPlace> out;
  for (const Candidate& candidate : judge_places(stakes, advice.ways, advice.effects, way)) {
    const Option option = candidate.option;
    out.push_back({candidate, print_setting(*option.setting, option.to, advice.units),
                   why_refused(option, advice.ways[way], situation, advice)});
  }
  return out;
}

std::vector<AxisAccount> accounts(const Stakes& stakes, const Effect& effect, double steps) {
  std::vector<AxisAccount> out;
  for (Index i = 0; i < stakes.mean.size(); ++i) {
    const double spread = effect.covariance(i, i);
    if (effect.per_step[i] == 0.0 && spread == 0.0) continue;
    AxisAccount axis{.axis = static_cast<std::size_t>(i), .before = stakes.mean[i]};
    axis.after = axis.before + steps * effect.per_step[i];
    axis.moved = stakes.weights[i] * (axis.after * axis.after - axis.before * axis.before);
    axis.doubt = stakes.weights[i] * steps * steps * spread;
    out.push_back(axis);
  }
  std::stable_sort(out.begin(), out.end(), [](const AxisAccount& a, const AxisAccount& b) {
    return a.added() > b.added();
  });
  return out;
}

Parts minus(const Parts& a, const Parts& b) {
  return {.effect = a.effect - b.effect,
          .room = a.room - b.room,
          .effort = a.effort - b.effort,
          .last_notch = a.last_notch - b.last_notch};
}

std::string phrase_of(const Adjustment& adjustment, std::size_t direction) {
  const std::string& phrase = adjustment.phrases.at(direction);
  return phrase.empty() ? adjustment.label + " " + adjustment.directions.at(direction) : phrase;
}

std::optional<Against> against(const WhyChange& why, const Advice& advice) {
  if (!why.best) return std::nullopt;
  const std::size_t other = why.stands == std::size_t{1} ? 1 : 0;
  if (advice.changes.size() <= other) return std::nullopt;
  const Change& change = advice.changes[other];
  return Against{phrase_of(change.adjustment(), change.candidate.option.direction),
                 minus(why.places[*why.best].candidate.parts, change.candidate.parts)};
}

// --- in words
// -------------------------------------------------------------------------------------

std::string parts_text(const Parts& parts) {
  std::string out = fmt::format("effect {:+.1f}", parts.effect);
  if (parts.room != 0.0) out += fmt::format(", room {:+.1f}", parts.room);
  if (parts.effort != 0.0) out += fmt::format(", minutes {:+.1f}", parts.effort);
  if (parts.last_notch != 0.0) out += fmt::format(", last notch {:+.1f}", parts.last_notch);
  return out;
}

std::string standing_text(const WhyChange& why, const Advice& advice) {
  if (why.stands && why.against) {
    const double by = why.against->difference.score();
    return fmt::format("{} stands {} of {}: {:.1f} points {} {} ({})", why.phrase, *why.stands,
                       advice.changes.size(), std::abs(by), by < 0.0 ? "behind" : "ahead of",
                       why.against->phrase, parts_text(why.against->difference));
  }
  if (why.stands) return why.phrase + " is the only change on offer";
  for (const NotNow& refused : advice.not_now) {
    if (refused.adjustment == why.adjustment && refused.direction == why.direction)
      return why.phrase + " is not offered: " + refused.text;
  }
  return why.phrase + " is not offered";
}

std::string best_text(const WhyChange& why) {
  const JudgedPlace& best = why.places[*why.best];
  const Parts& parts = best.candidate.parts;
  return fmt::format("{} to {} {} {:.1f} points: {}", why.phrase, best.to,
                     best.why.empty() ? "scores" : "would score", parts.score(), parts_text(parts));
}

std::string behind_text(const WhyChange& why) {
  const double by = why.against->difference.score();
  return fmt::format("that would be {:.1f} points {} {} ({})", std::abs(by),
                     by < 0.0 ? "behind" : "ahead of", why.against->phrase,
                     parts_text(why.against->difference));
}

std::string axis_text(const AxisAccount& axis, const Pack& pack) {
  std::string out =
      fmt::format("{} {:+.2f} -> {:+.2f}: {} {:.2f}", pack.axes[axis.axis].label, axis.before,
                  axis.after, axis.added() > 0.0 ? "adds" : "takes out", std::abs(axis.added()));
  if (axis.doubt > 0.0) out += fmt::format(", {:.2f} of doubt counted in", axis.doubt);
  return out;
}

std::string loss_text(const WhyChange& why, const Advice& advice) {
  return fmt::format("in all {} {:.2f} of a handling error of {:.2f}",
                     why.loss_added > 0.0 ? "adds" : "takes out", std::abs(why.loss_added),
                     advice.loss_none);
}

/// Each reason once, told by the nearest place that it refuses.
void add_refusals(const WhyChange& why, std::vector<std::string>& out) {
  bool far_told = false;
  for (const JudgedPlace& place : why.places) {
    if (place.why.empty()) continue;
    if (!too_far(place.candidate.option)) {
      if (std::find(out.begin(), out.end(), place.why) == out.end()) out.push_back(place.why);
    } else if (!far_told) {
      out.push_back(place.to + " is " + place.why);
      far_told = true;
    }
  }
}

std::vector<std::string> reasons_text(const WhyChange& why, const Advice& advice,
                                      const Pack& pack) {
  std::vector<std::string> out{standing_text(why, advice)};
  if (!why.best) return out;
  out.push_back(best_text(why));
  if (!why.stands && why.against) out.push_back(behind_text(why));
  if (const auto worst = why.worst())
    out.push_back("it worsens " + pack.axes[worst->axis].label +
                  fmt::format(" most, by {:.2f}", worst->added()));
  for (const AxisAccount& axis : why.axes) out.push_back(axis_text(axis, pack));
  out.push_back(loss_text(why, advice));
  add_refusals(why, out);
  if (why.places[*why.best].candidate.only_comfort)
    out.emplace_back("the clock says faster, and it only quiets the complaint");
  return out;
}

// --- parsing
// --------------------------------------------------------------------------------------

std::nullopt_t refuse_asked(const WrittenAt& at, Findings& findings, const std::string& message,
                            std::string help) {
  Diagnostic found{.code = Code::unknown_name,
                   .file = at.file,
                   .span = at.span,
                   .message = message,
                   .help = std::move(help)};
  show_source(found, at.source);
  findings.add(std::move(found));
  return std::nullopt;
}

std::vector<std::string> changes_and_rules(const Pack& pack) {
  std::vector<std::string> names;
  for (const Adjustment& adjustment : pack.adjustments) {
    names.push_back(adjustment.id);
    for (const std::string& direction : adjustment.directions)
      names.push_back(adjustment.id + ":" + direction);
  }
  for (const RuleRef& rule : every_rule(pack)) names.push_back(rule.rule->id);
  return names;
}

std::string in_quotes(std::string_view text) { return "`" + std::string(text) + "`"; }

}  // namespace

std::optional<AskedWhyNot> parse_why_not(std::string_view text, const Pack& pack,
                                         const WrittenAt& at, Findings& findings) {
  const std::size_t colon = std::min(text.find(':'), text.size());
  const std::string_view name = text.substr(0, colon);
  const Adjustment* adjustment = pack.adjustment(name);
  if (adjustment != nullptr && colon == text.size()) return AskedChange{adjustment, {0, 1}};
  if (adjustment != nullptr) {
    const std::string direction(text.substr(colon + 1));
    const auto& known = adjustment->directions;
    const auto found = std::find(known.begin(), known.end(), direction);
    if (found != known.end())
      return AskedChange{adjustment, {static_cast<std::size_t>(found - known.begin())}};
    return refuse_asked(at, findings,
                        in_quotes(direction) + " is not a direction of " + in_quotes(name),
                        suggestion(direction, {known.begin(), known.end()}));
  }
  for (const RuleRef& rule : every_rule(pack)) {
    if (rule.rule->id == text) return rule;
  }
  return refuse_asked(at, findings, in_quotes(text) + " is neither a change nor a rule",
                      suggestion(text, changes_and_rules(pack)));
}

std::optional<AxisAccount> WhyChange::worst() const {
  if (axes.empty() || axes.front().added() <= 0.0) return std::nullopt;
  return axes.front();
}

WhyChange why_not(const Adjustment& adjustment, std::size_t direction, const Advice& advice,
                  const Pack& pack, const Kart& kart) {
  const auto at = static_cast<std::size_t>(&adjustment - pack.adjustments.data());
  const Effect& effect = advice.effects[at];
  const Stakes stakes = stakes_behind(advice, pack);
  WhyChange why{.adjustment = adjustment.id,
                .direction = adjustment.directions.at(direction),
                .phrase = phrase_of(adjustment, direction)};
  look_up(why, advice);
  why.places = judged(stakes, 2 * at + direction, advice, situation_behind(advice, pack, kart));
  why.best = why.stands ? offered_of(why, advice) : best_of(why.places);
  if (why.best) {
    const double steps = why.places[*why.best].candidate.option.steps;
    why.axes = accounts(stakes, effect, steps);
    why.loss_added = loss_of(stakes, effect, steps) - loss_of_nothing(stakes);
  }
  why.against = against(why, advice);
  why.text = reasons_text(why, advice, pack);
  return why;
}

}  // namespace kartwright
