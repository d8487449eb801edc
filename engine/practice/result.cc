#include "engine/practice/result.h"

#include "engine/advice/explain_change.h"

namespace kartwright {
namespace {

std::string because_of_change(const Marking& marking) {
  const Option& option = marking.option_of(marking.best());
  for (const Change& change : marking.advice().changes) {
    if (&change.adjustment() != &marking.adjustment_of(marking.best())) continue;
    if (change.candidate.option.direction != option.direction || change.because.empty()) continue;
    return mechanism_of(change) + ". Watch: " + std::string(change.watch) + ".";
  }
  return {};
}

std::string because_of_check(const Marking& marking) {
  const Fault& fault = marking.pack().faults[marking.best().fault];
  std::string out;
  for (const FaultOdds& odds : marking.advice().checks) {
    for (const Weight& weight : odds.because) {
      if (odds.fault != &fault || weight.rule == "prior" || weight.decibans <= 0.0) continue;
      out += std::string(weight.because) + "; ";
    }
  }
  return out + "nobody tunes around it, and nobody sends the kart out";
}

std::string because_of_leaving(const Marking& marking) {
  const DrillLevel* const level = marking.pack().drills.level(marking.task().level);
  return level != nullptr && marking.leaving_is_right()
             ? level->teaches
             : "nothing here is worth more than leaving the kart as it is";
}

std::vector<std::string_view> cautions_of(const Marking& marking) {
  const DrillChoice& best = marking.best();
  std::vector<std::string> ids;
  if (best.kind == DrillChoice::Kind::change) ids = marking.adjustment_of(best).cautions;
  if (best.kind == DrillChoice::Kind::check) ids = marking.pack().faults[best.fault].cautions;
  std::vector<std::string_view> out;
  for (const std::string& id : ids) {
    const Caution* const caution = marking.pack().caution(id);
    if (caution != nullptr) out.emplace_back(caution->text);
  }
  return out;
}

}  // namespace

std::string because_of(const Marking& marking) {
  if (!marking.task().because.empty()) return marking.task().because;
  const DrillChoice::Kind kind = marking.best().kind;
  if (kind == DrillChoice::Kind::change) return because_of_change(marking);
  return kind == DrillChoice::Kind::check ? because_of_check(marking) : because_of_leaving(marking);
}

DrillResult result_of(const Marking& marking, KartEnd end, const DrillChoice& choice, int refused) {
  const DrillOutcome outcome = outcome_of(choice, marking);
  return {.record = record_of(marking, end, choice, refused),
          .ends = mark_ends(marking),
          .reading = marking.advice().text,
          .told = told(outcome, choice, marking),
          .luck = luck_of(outcome, choice, marking),
          .outcome = outcome,
          .worth = marking.worth_of(choice),
          .best_worth = marking.worth_of(marking.best()),
          .because = because_of(marking),
          .cautions = cautions_of(marking)};
}

}  // namespace kartwright
