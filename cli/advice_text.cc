#include "cli/advice_text.h"

#include <algorithm>
#include <array>
#include <map>

#include <fmt/format.h>

#include "cli/change_table.h"
#include "cli/next_steps_text.h"
#include "cli/why_text.h"

namespace kartwright::cli {
namespace {

constexpr std::size_t kShownChecks = 3;

const char* severity_word(int severity) {
  static constexpr std::array kWords{"denied", "slight", "clear", "severe"};
  return kWords.at(static_cast<std::size_t>(severity));
}

void heard(const Advice& advice, const Pack& pack, Page& page) {
  page.section("HEARD");
  const Heard& said = advice.debrief.heard;
  for (const std::string& words : said.praise) page.paragraph("praise \"" + words + "\"", 2);
  for (const Report& report : said.reports) {
    if (!report.from_praise) page.paragraph(report_line(report, pack), 2);
  }
  for (const StatedFact& fact : said.facts) {
    const FactDef* def = pack.fact(fact.fact);
    const std::string words = fact.words.empty() ? "" : " \"" + fact.words + "\"";
    page.paragraph((def == nullptr ? fact.fact : def->label) + ": " + fact.value + words, 2);
  }
  for (const NotUnderstood& left : said.not_understood) page.paragraph(left_over_line(left), 2);
  if (said.reports.empty() && said.not_understood.empty())
    page.paragraph("no word of the handling");
  const TrackState* track = pack.track(advice.track);
  std::string kart = advice.kart + ", track " + (track == nullptr ? advice.track : track->label);
  for (const std::string& note : advice.notes) kart += "; " + note;
  page.paragraph(kart, 2);
}

void reading(const Advice& advice, Page& page) {
  page.section("READING");
  const bool stop = advice.verdict.headline == Headline::stop_and_fix;
  page.paragraph(advice.text, 0, stop ? Tint::stop : Tint::none);
}

void checks(const Advice& advice, bool why, Page& page) {
  page.section("CHECK");
  if (!advice.look_over.empty()) page.paragraph("after a knock: the whole kart first, see CARE", 2);
  const std::size_t shown =
      why ? advice.checks.size() : std::min(kShownChecks, advice.checks.size());
  for (std::size_t i = 0; i < shown; ++i) {
    const FaultOdds& odds = advice.checks[i];
    const bool stop = odds.fault->stop && odds.probability >= 0.5;
    page.paragraph(
        fmt::format("{}{}, {:.0f} %, {:g} min: {}", stop ? "STOP " : "", odds.fault->label,
                    100.0 * odds.probability, odds.fault->minutes, odds.fault->check),
        2, stop ? Tint::stop : Tint::none);
    if (stop) page.paragraph("if so: " + odds.fault->fix, 2);
    if (!why) continue;
    for (const Weight& weight : odds.because) {
      page.paragraph(
          fmt::format("  {:+g} dB  {} [{}]", weight.decibans, weight.because, weight.rule), 10);
    }
  }
}

void watch(const Advice& advice, bool all, Page& page) {
  if (changes_shown(advice, all) == 0) return;
  const Change& first = advice.changes.front();
  page.section("WATCH FOR");
  page.paragraph("right: " + std::string(first.watch), 2);
  page.paragraph("wrong: " + std::string(first.back_out), 2);
  page.paragraph("the way back: " + first.to + " to " + first.from, 2);
  if (!first.then.empty())
    page.paragraph("helped, and more is wanted: on towards " + first.then, 2);
}

void not_now(const Advice& advice, const Pack& pack, bool all, Page& page) {
  // Where the kart is better left alone, nearly everything makes it worse.
  const bool leave = advice.verdict.headline == Headline::leave_alone;
  page.section("NOT NOW");
  std::vector<std::string> order;
  std::map<std::string, std::vector<std::string>> moves;
  for (const NotNow& refused : advice.not_now) {
    if (leave && !all && refused.reason == Refusal::makes_worse) continue;
    const Adjustment& adjustment = *pack.adjustment(refused.adjustment);
    const std::size_t direction = refused.direction == adjustment.directions[0] ? 0 : 1;
    if (!moves.contains(refused.text)) order.push_back(refused.text);
    moves[refused.text].push_back(adjustment.phrases.at(direction));
  }
  for (const std::string& reason : order)
    page.paragraph(reason + ": " + joined(moves[reason], ", "), 2);
}

/// How the crew answers: `--report hop@mid=0..3` or `--fact turn-in=brake|throttle`.
std::string answered_by(const Question& question) {
  if (question.symptom == nullptr)
    return "--fact " + question.fact->id + "=" + joined(question.fact->values, "|");
  std::string report = "--report " + question.symptom->id;
  if (question.phase != Phase::any) report += "@" + std::string(name_of(question.phase));
  return report + "=0..3";
}

/// The questions whose answers could change the choice.
void ask(const Advice& advice, bool all, Page& page) {
  constexpr std::size_t kShownQuestions = 3;
  constexpr double kWorthAsking = 1.0;  // points
  page.section("ASK");
  std::size_t shown = 0;
  for (const Question& question : advice.questions) {
    if (!all && (shown == kShownQuestions || question.worth < kWorthAsking)) break;
    page.paragraph(
        fmt::format("{} worth {:.1f}: {}", question.text(), question.worth, answered_by(question)),
        2);
    ++shown;
  }
}

/// The smallest single changes that would put something else first.
void turning(const Beside& beside, Page& page) {
  if (!beside.turning) return;
  page.section("TURNS ON");
  for (const Turn& turn : beside.turning->telling) page.paragraph(in_words(turn), 2);
  if (beside.turning->telling.empty())
    page.paragraph("nothing: no single input would put anything else first");
}

void care(const Advice& advice, Page& page) {
  page.section("CARE");
  std::vector<std::string_view> texts;
  const auto add = [&](const std::vector<std::string_view>& more) {
    for (const std::string_view text : more) {
      if (std::find(texts.begin(), texts.end(), text) == texts.end()) texts.push_back(text);
    }
  };
  if (!advice.look_over.empty()) texts.emplace_back(advice.look_over);
  if (!advice.checks.empty()) add(advice.check_cautions);
  if (!advice.changes.empty()) add(advice.changes.front().cautions);
  for (const std::string_view text : texts) page.paragraph(text, 2);
}

}  // namespace

std::string report_line(const Report& report, const Pack& pack) {
  const Symptom* symptom = pack.symptom(report.symptom);
  std::string text = symptom == nullptr ? report.symptom : symptom->label;
  if (report.denied()) text = "no " + text;
  if (report.phase != Phase::any) text += " " + std::string(name_of(report.phase));
  if (!report.denied()) text += ", " + std::string(severity_word(report.severity));
  if (report.side) text += ", turning " + std::string(name_of(*report.side));
  for (const std::string& corner : report.corners) text += ", " + corner;
  if (report.when) text += ", " + std::string(name_of(*report.when)) + " in the run";
  if (report.confidence != Confidence::fair) text += ", " + std::string(name_of(report.confidence));
  if (!report.words.empty()) text += " \"" + report.words + "\"";
  return text;
}

std::string left_over_line(const NotUnderstood& left) {
  const std::string near = left.nearest.empty() ? "" : "; nearest: " + joined(left.nearest, ", ");
  return "not understood: \"" + left.words + "\"" + near;
}

Page advice_page(const Advice& advice, const Pack& pack, Look look, bool why_all,
                 const Beside& beside) {
  Page page(look);
  heard(advice, pack, page);
  reading(advice, page);
  why_not_text(beside.why_not, pack, advice.units, page);
  if (!beside.why_not.empty() && !why_all) return page;
  checks(advice, why_all, page);
  change_table(advice, why_all, page);
  if (beside.asked_after) next_steps_text(beside.next_steps, page);
  turning(beside, page);
  why_text(advice, pack, why_all, page);
  watch(advice, why_all, page);
  not_now(advice, pack, why_all, page);
  ask(advice, why_all, page);
  care(advice, page);
  return page;
}

std::string advice_text(const Advice& advice, const Pack& pack, Look look, bool why_all,
                        const Beside& beside) {
  return advice_page(advice, pack, look, why_all, beside).text();
}

}  // namespace kartwright::cli
