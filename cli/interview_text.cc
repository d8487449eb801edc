#include "cli/interview_text.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "cli/advice_text.h"
#include "cli/page.h"

namespace kartwright::cli {
namespace {

std::string with_capital(std::string text) {
  if (!text.empty() && text[0] >= 'a' && text[0] <= 'z')
    text[0] = static_cast<char>(text[0] - 'a' + 'A');
  return text;
}

std::string worth_in_words(const Asking& asking) {
  if (asking.about == Asking::About::track) return "asked first: everything leans on it";
  if (asking.about == Asking::About::words) return "nothing was said yet";
  const double worth = asking.question.worth;
  constexpr double kRound = 9.95;
  return worth < kRound ? fmt::format("worth {:.1f} points", worth)
                        : fmt::format("worth {:.0f} points", worth);
}

/// Tenths of a notch, without a minus before nothing.
double in_tenths(double notches) {
  constexpr double kTenths = 10.0;
  return std::round(notches * kTenths) / kTenths + 0.0;
}

const char* off_by(double notches) {
  constexpr double kHalfNotch = 0.5;
  if (std::abs(notches) < kHalfNotch) return "about right";
  return notches > 0.0 ? "too much" : "too little";
}

std::string heard_line(const Understood& understood, const Pack& pack) {
  std::vector<std::string> all;
  if (const TrackState* track = pack.track(understood.track))
    all.push_back("track " + track->label);
  for (const std::string& words : understood.heard.praise)
    all.push_back("praise \"" + words + "\"");
  for (const Report& report : understood.heard.reports) {
    if (!report.from_praise) all.push_back(report_line(report, pack));
  }
  for (const StatedFact& fact : understood.heard.facts) {
    const FactDef* def = pack.fact(fact.fact);
    all.push_back((def == nullptr ? fact.fact : def->label) + ": " + fact.value);
  }
  return "heard: " + joined(all, "; ");
}

std::string moved_line(const Moved& moved) {
  constexpr std::size_t kShown = 2;
  std::vector<std::string> axes;
  for (std::size_t i = 0; i < std::min(kShown, moved.axes.size()); ++i) {
    const auto& [axis, from, to] = moved.axes[i];
    axes.push_back(fmt::format("{} {:+.1f} → {:+.1f}, {}", axis->label, in_tenths(from),
                               in_tenths(to), off_by(to)));
  }
  const std::string what = axes.empty() ? "moved nothing by a tenth of a notch" : "moved: ";
  const std::string first = moved.leads == moved.led
                                ? "first is still: " + moved.leads
                                : "first is now: " + moved.leads + " (was: " + moved.led + ")";
  return what + joined(axes, "; ") + ". " + with_capital(first);
}

/// "push or loose".
std::string either(const Asking& asking) {
  return asking.choices.at(0).label + " or " + asking.choices.at(1).label;
}

}  // namespace

std::string question_line(const Asking& asking, std::size_t number) {
  return fmt::format("{}. {} ({})", number, with_capital(asking.text), worth_in_words(asking));
}

std::string key_line(const Asking& asking) {
  if (asking.about == Asking::About::words) return "any words, ? skip, d done";
  const bool track = asking.about == Asking::About::track;
  std::vector<std::string> keys;
  for (const Choice& choice : asking.choices)
    keys.push_back(choice.key + " " + (track ? choice.value : choice.label));
  if (asking.about == Asking::About::symptom) keys.emplace_back("1 slight to 3 severe");
  if (asking.about == Asking::About::both_ends) keys.emplace_back("1-3 amount");
  return joined(keys, ", ") + (track ? ", ? skip" : ", ? skip, b back");
}

std::string help_line(const Asking& asking) {
  std::string how = "a word of these or their number";
  if (asking.about == Asking::About::words) how = "what the driver said, as it was said";
  if (asking.about == Asking::About::symptom)
    how = "y, n, or how much: 1 slight, 2 clear, 3 severe";
  if (asking.about == Asking::About::both_ends) {
    const std::string& key = asking.choices.front().key;
    how = fmt::format("{}, or neither; with how much behind it: {}1 slight, {}2 clear, {}3 severe",
                      either(asking), key, key, key);
  }
  return "Type " + how +
         "; or say it in a sentence. ? where it is not known, b for the question before, d for the "
         "advice now.";
}

std::vector<std::string> answer_lines(const AnswerTaken& answered, const Asking& asked,
                                      const Pack& pack) {
  using Kind = Understood::Kind;
  std::vector<std::string> lines;
  switch (answered.understood.kind) {
    case Kind::help:
      return {help_line(asked)};
    case Kind::which:
      return {"Which of the two: " + either(asked) + "?"};
    case Kind::back:
      if (!answered.taken) return {"There is no question before this one."};
      return {"Taken back. " + with_capital(moved_line(answered.moved))};
    case Kind::skip:
      return {"Not known, so it counts for nothing."};
    case Kind::done:
      return {};
    case Kind::answer:
      lines.push_back(heard_line(answered.understood, pack));
      break;
    case Kind::nothing:
      break;
  }
  for (const NotUnderstood& left : answered.understood.heard.not_understood)
    lines.push_back(left_over_line(left));
  if (lines.empty()) lines.emplace_back("not understood");
  if (answered.taken) lines.push_back(moved_line(answered.moved));
  if (answered.open) lines.emplace_back("Taken, though it is not what was asked.");
  return lines;
}

std::string count_of_answers(std::size_t answers) {
  return fmt::format("{} answer{}", answers, answers == 1 ? "" : "s");
}

}  // namespace kartwright::cli
