#include <array>
#include <cmath>

#include <fmt/format.h>

#include "engine/decision/headline.h"
#include "engine/practice/outcome.h"

namespace kartwright {
namespace {

constexpr double kGoodMark = 80.0;
constexpr double kPoorMark = 50.0;
constexpr double kMuch = 0.2;  ///< share of the handling error

std::string_view how_much(int severity) {
  static constexpr std::array<std::string_view, 4> kWords{"not felt", "slight", "clear", "severe"};
  return kWords.at(static_cast<std::size_t>(severity));
}

/// "going in": the first way in which the driver of a drill says it.
std::string where_in_words(Phase phase, const Pack& pack) {
  const DrillWords* const words = pack.drills.said_of("phase " + std::string(name_of(phase)));
  return words == nullptr || words->says.empty() ? "" : " " + words->says.front();
}

std::string told_of(const Felt& felt, const Pack& pack) {
  const Symptom* const symptom = pack.symptom(felt.symptom);
  const std::string what =
      (symptom != nullptr ? symptom->label : felt.symptom) + where_in_words(felt.phase, pack);
  if (felt.before == 0) return fmt::format("new: {}, {}", what, how_much(felt.after));
  if (felt.after == 0) return fmt::format("{}: gone", what);
  if (felt.after == felt.before)
    return fmt::format("{}: as before, {}", what, how_much(felt.after));
  return fmt::format("{}: {}, {} before", what, how_much(felt.after), how_much(felt.before));
}

std::string told_of_check(const DrillOutcome& outcome, const DrillChoice& choice,
                          const Pack& pack) {
  const Fault& fault = pack.faults[choice.fault];
  if (!outcome.found) return "You looked (" + fault.check + "): nothing found.";
  return "You looked (" + fault.check + ") and found it: " + fault.label + ". " + fault.fix + ".";
}

std::string told_of_error(const DrillOutcome& outcome) {
  if (outcome.error_before < kSmallLoss) return "There was hardly any handling error to take out.";
  const double percent = std::round(100.0 * outcome.relief());
  if (percent == 0.0) return "The handling error of this kart is what it was.";
  if (percent < 0.0)
    return fmt::format("The handling error of this kart truly grew by {:g} %.", -percent);
  return fmt::format("Truly taken out of this kart's handling error: {:g} %.", percent);
}

bool had_little_to_gain(const DrillOutcome& outcome, const DrillChoice& choice) {
  return choice.kind != DrillChoice::Kind::change || outcome.error_before < kSmallLoss;
}

}  // namespace

std::vector<std::string> told(const DrillOutcome& outcome, const DrillChoice& choice,
                              const Marking& marking) {
  std::vector<std::string> out;
  const Pack& pack = marking.pack();
  if (choice.kind == DrillChoice::Kind::check) {
    out.push_back(told_of_check(outcome, choice, pack));
  } else {
    for (const Felt& felt : outcome.felt) out.push_back(told_of(felt, pack));
  }
  for (const std::size_t fault : outcome.out_with)
    out.push_back("The fault was still there, and the kart went out with it: " +
                  pack.faults[fault].label + ".");
  if (choice.kind == DrillChoice::Kind::check) return out;
  if (outcome.out_with.empty() && !marking.stopping().empty())
    out.emplace_back("Nothing broke this time. Nobody could know that without a look.");
  out.push_back(told_of_error(outcome));
  return out;
}

std::string luck_of(const DrillOutcome& outcome, const DrillChoice& choice,
                    const Marking& marking) {
  const double mark = marking.mark_of(choice);
  if (choice.kind == DrillChoice::Kind::check && !marking.stopping().empty() && mark >= kGoodMark &&
      !outcome.found)
    return "It was sound this time. Looking first was right all the same.";
  if (had_little_to_gain(outcome, choice) || !marking.stopping().empty()) return {};
  const bool worth_it = marking.worth_of(choice).points >= marking.worth_of({}).points;
  if (mark >= kGoodMark && worth_it && outcome.relief() < 0.0)
    return "A good call that came off badly this time: what a kart does is never known for sure.";
  if (mark < kPoorMark && outcome.relief() > kMuch)
    return "A poor call that came off well this time. Do not count on it.";
  return {};
}

}  // namespace kartwright
