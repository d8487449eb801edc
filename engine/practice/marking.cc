#include "engine/practice/marking.h"

#include <algorithm>

#include <fmt/format.h>

#include "engine/advice/advise.h"
#include "engine/advice/explain_change.h"
#include "engine/advice/stakes.h"
#include "engine/decision/headline.h"

namespace kartwright {
namespace {

void add_part(DrillWorth& worth, std::string what, double points) {
  worth.points += points;
  if (points != 0.0) worth.parts.push_back({std::move(what), points});
}

std::vector<FaultOdds> odds_in_order(const Situation& situation) {
  std::vector<FaultOdds> odds = weigh_faults(situation);
  std::sort(odds.begin(), odds.end(),
            [](const FaultOdds& a, const FaultOdds& b) { return a.fault->id < b.fault->id; });
  return odds;
}

}  // namespace

Marking::Marking(const Pack& pack, const DrillTask& task)
    : pack_(pack),
      task_(task),
      advice_(advise(pack, task.kart, task.debrief, task.kart.units,
                     {.questions = false, .room = false})) {
  const Stakes stakes = stakes_behind(advice_, pack);
  for (std::size_t i = 0; i < advice_.ways.size(); ++i) {
    const bool known = advice_.effects[i / 2].known();
    places_.push_back(known ? judge_places(stakes, advice_.ways, advice_.effects, i)
                            : std::vector<Candidate>{});
  }
  odds_ = odds_in_order(situation_behind(advice_, pack, task.kart));
  scale_ = std::max(advice_.loss_none, kSmallLoss);
  best_ = find_best();
  best_points_ = worth_of(best_).points;
}

const Option& Marking::option_of(const DrillChoice& choice) const {
  return advice_.ways[choice.way].options[choice.option];
}

const Adjustment& Marking::adjustment_of(const DrillChoice& choice) const {
  return *advice_.ways[choice.way].adjustment;
}

bool Marking::leaving_is_right() const {
  return advice_.verdict.headline == Headline::leave_alone ||
         advice_.verdict.headline == Headline::wait_for_track;
}

double Marking::cost_of(std::size_t fault) const {
  const FaultOdds& odds = odds_[fault];
  return 100.0 * odds.probability * odds.fault->loss * odds.fault->loss / scale_;
}

std::vector<std::size_t> Marking::stopping() const {
  std::vector<std::size_t> out;
  for (std::size_t i = 0; i < odds_.size(); ++i) {
    if (odds_[i].fault->stop && odds_[i].probability >= 0.5) out.push_back(i);
  }
  return out;
}

void Marking::charge_faults(DrillWorth& worth, const DrillChoice* checked) const {
  for (const std::size_t fault : stopping()) {
    if (checked != nullptr && checked->fault == fault) continue;
    add_part(worth, "for going out with a fault: " + odds_[fault].fault->label, -cost_of(fault));
  }
}

DrillWorth Marking::of_change(const DrillChoice& choice) const {
  const Candidate& place = places_[choice.way][choice.option];
  DrillWorth worth;
  add_part(worth, "for handling error taken out", place.parts.effect);
  add_part(worth, "for travel that the track will want", place.parts.room);
  add_part(worth, fmt::format("for {:g} min of work", place.option.minutes), place.parts.effort);
  add_part(worth, "for the last notch", place.parts.last_notch);
  if (!leaving_is_right() && !place.held_back()) return worth;
  const double most = advice_.score_of_nothing + place.parts.effort;
  if (worth.points > most)
    add_part(worth, "as it is comfort, or not asked for", most - worth.points);
  return worth;
}

DrillWorth Marking::of_leaving() const {
  DrillWorth worth;
  add_part(worth, "for travel that is missing already", advice_.score_of_nothing);
  return worth;
}

double Marking::best_without_faults() const {
  double best = of_leaving().points;
  for (const DrillChoice& change : changes()) best = std::max(best, of_change(change).points);
  return best;
}

DrillWorth Marking::of_check(const DrillChoice& choice) const {
  const std::vector<std::size_t> stops = stopping();
  const FaultOdds& odds = odds_[choice.fault];
  const double minutes = advice_.effort_rate * odds.fault->minutes;
  const double most = best_without_faults();
  DrillWorth worth;
  if (std::find(stops.begin(), stops.end(), choice.fault) != stops.end()) {
    add_part(worth, "for the best change, made afterwards", most);
  } else {
    worth = of_leaving();
    if (worth_a_look(odds)) add_part(worth, "for a fault found in time", cost_of(choice.fault));
    if (worth.points > most)
      add_part(worth, "as it is no more than the best change", most - worth.points);
  }
  add_part(worth, fmt::format("for {:g} min of looking", odds.fault->minutes), -minutes);
  return worth;
}

DrillWorth Marking::worth_of(const DrillChoice& choice) const {
  const bool check = choice.kind == DrillChoice::Kind::check;
  const bool change = choice.kind == DrillChoice::Kind::change;
  DrillWorth worth = change ? of_change(choice) : check ? of_check(choice) : of_leaving();
  charge_faults(worth, check ? &choice : nullptr);
  return worth;
}

std::vector<DrillChoice> Marking::changes() const {
  std::vector<DrillChoice> out;
  for (std::size_t way = 0; way < places_.size(); ++way) {
    for (std::size_t option = 0; option < places_[way].size(); ++option) {
      if (places_[way][option].option.legal())
        out.push_back({.kind = DrillChoice::Kind::change, .way = way, .option = option});
    }
  }
  return out;
}

DrillChoice Marking::find_best() const {
  std::vector<DrillChoice> all{DrillChoice{}};
  for (const DrillChoice& change : changes()) all.push_back(change);
  for (const std::size_t fault : stopping())
    all.push_back({.kind = DrillChoice::Kind::check, .fault = fault});
  std::vector<double> worths;
  for (const DrillChoice& each : all) worths.push_back(worth_of(each).points);
  const auto most = std::max_element(worths.begin(), worths.end());
  return all[static_cast<std::size_t>(most - worths.begin())];
}

double Marking::mark_of(const DrillChoice& choice) const {
  return std::clamp(100.0 - (best_points_ - worth_of(choice).points), 0.0, 100.0);
}

std::string Marking::refusal_of(const DrillChoice& choice) const {
  if (choice.kind != DrillChoice::Kind::change) return {};
  const Way& way = advice_.ways[choice.way];
  const Option& option = option_of(choice);
  const bool known = advice_.effects[choice.way / 2].known();
  const Refusal why = known ? option.refusal : Refusal::effect_unknown;
  if (why != Refusal::none) {
    const Situation situation = situation_behind(advice_, pack_, task_.kart);
    return explain_refusal({.way = &way, .refusal = why, .option = option}, situation,
                           task_.kart.units, task_.debrief.minutes)
        .text;
  }
  if (option.at_once) return {};
  const Adjustment& adjustment = *way.adjustment;
  if (adjustment.listed()) return fmt::format("at most {:g} at once", adjustment.most_at_once);
  return "at most " + print_quantity(adjustment.most_at_once, adjustment.kind, task_.kart.units) +
         " at once";
}

std::string Marking::words_of(const DrillChoice& choice) const {
  if (choice.kind == DrillChoice::Kind::leave_alone) return "leave it alone";
  if (choice.kind == DrillChoice::Kind::check) return "check: " + pack_.faults[choice.fault].label;
  const Option& option = option_of(choice);
  return fmt::format("{}, {} to {}", adjustment_of(choice).phrases.at(option.direction),
                     print_setting(*option.setting, option.from, task_.kart.units),
                     print_setting(*option.setting, option.to, task_.kart.units));
}

}  // namespace kartwright
