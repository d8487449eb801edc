#include "cli/advice_text.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>

#include <fmt/format.h>

#include "cli/gauge.h"

namespace kartwright::cli {
namespace {

constexpr std::size_t kShownChanges = 5;
constexpr std::size_t kShownChecks = 3;
constexpr double kSmallShare = 0.05;  // notches; smaller shares are left to --why

const char* severity_word(int severity) {
  static constexpr std::array kWords{"denied", "slight", "clear", "severe"};
  return kWords.at(static_cast<std::size_t>(severity));
}

std::string joined(const std::vector<std::string>& texts, std::string_view with) {
  std::string out;
  for (const std::string& text : texts) {
    if (!out.empty()) out += with;
    out += text;
  }
  return out;
}

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
  for (const NotUnderstood& left : said.not_understood) {
    const std::string near = left.nearest.empty() ? "" : "; nearest: " + joined(left.nearest, ", ");
    page.paragraph("not understood: \"" + left.words + "\"" + near, 2);
  }
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

/// `1360 → 1370 mm`: the unit once where both ends have the same.
std::string from_to(const Change& change) {
  const std::size_t a = change.from.rfind(' ');
  const std::size_t b = change.to.rfind(' ');
  const bool same_unit = a != std::string::npos && b != std::string::npos &&
                         change.from.substr(a) == change.to.substr(b);
  return (same_unit ? change.from.substr(0, a) : change.from) + " → " + change.to;
}

const std::string& phrase_of(const Change& change) {
  return change.adjustment().phrases.at(change.candidate.option.direction);
}

/// Widths of the table's columns. On a narrow page the score goes first, then the gauge. Cells are
/// spelled for the page before they are measured: ASCII takes more room.
struct Columns {
  Look look;
  std::size_t rank = 3, move = 0, from_to = 0, gauge = 0;
  bool score = true;
};

Columns columns_for(const std::vector<Change>& changes, std::size_t shown, const Page& page) {
  constexpr std::size_t kNumbers = 1 + 5 + 4;  // gap, error taken out, minutes
  constexpr std::size_t kScore = 7;
  constexpr std::size_t kLeastGauge = 5;
  constexpr std::size_t kMostGauge = 12;
  const std::size_t room = page.room();
  Columns c{.look = page.look()};
  if (shown >= 10) c.rank = 4;
  for (std::size_t i = 0; i < shown; ++i) {
    c.move = std::max(c.move, columns(phrase_of(changes[i])));
    c.from_to = std::max(c.from_to, columns(spelled(from_to(changes[i]), c.look)));
  }
  const std::size_t fixed = c.rank + c.move + c.from_to + kNumbers;
  c.score = fixed + kScore + kLeastGauge + 2 <= room;
  const std::size_t spare = room - std::min(room, fixed + (c.score ? kScore : 0));
  if (spare > kLeastGauge) c.gauge = std::min(kMostGauge, spare - 1);
  return c;
}

std::string table_row(const std::string& rank, const std::string& move, const std::string& from_to,
                      const std::string& out, const std::string& room, const std::string& minutes,
                      const std::string& score, const Columns& c) {
  std::string text = left(rank, c.rank) + left(move, c.move) + " " +
                     left(spelled(from_to, c.look), c.from_to) + right(out, 5);
  if (c.gauge > 0) text += " " + left(spelled(room, c.look), c.gauge);
  text += right(minutes, 4);
  if (c.score) text += right(score, 7);
  return text;
}

/// What has to be said before the table: that it is conditional, or that the kart is better left
/// alone.
void before_the_table(const Advice& advice, Page& page) {
  switch (advice.verdict.headline) {
    case Headline::stop_and_fix:
      page.paragraph("only once that is put right:");
      break;
    case Headline::ask_again:
      page.paragraph("only if the reports stand as they are:");
      break;
    case Headline::leave_alone:
      page.paragraph("none");
      break;
    default:
      break;
  }
  if (!advice.next) return;
  const std::string when =
      advice.next->stays ? "next, while the track stays " : "next, when the track is ";
  page.paragraph(when + advice.next->track + ": " + advice.next->phrase + ", " + advice.next->from +
                     " → " + advice.next->to,
                 2);
}

std::string change_row(const Change& change, std::size_t rank, const Columns& c) {
  const Candidate& candidate = change.candidate;
  return table_row(std::to_string(rank) + (change.contested ? "?" : ""), phrase_of(change),
                   from_to(change), fmt::format("{:.0f} %", 100.0 * candidate.relief),
                   c.gauge > 0 ? gauge(candidate.option, c.gauge) : "",
                   fmt::format("{:g}", candidate.option.minutes),
                   fmt::format("{:.1f}", candidate.parts.score()), c);
}

void below_the_table(const Advice& advice, std::size_t shown, Page& page) {
  std::vector<std::string> notes;
  const auto end = advice.changes.begin() + static_cast<std::ptrdiff_t>(shown);
  if (std::any_of(advice.changes.begin(), end, [](const Change& c) { return c.contested; })) {
    notes.emplace_back("? crews disagree: a test worth logging");
  }
  if (shown < advice.changes.size()) {
    notes.push_back(fmt::format("{} more with --why", advice.changes.size() - shown));
  }
  if (!notes.empty()) page.paragraph(joined(notes, "; "), 2);
}

void changes(const Advice& advice, bool why, Page& page) {
  page.section("CHANGE");
  before_the_table(advice, page);
  const bool leave = advice.verdict.headline == Headline::leave_alone;
  const std::size_t most = why ? advice.changes.size() : leave ? 2 : kShownChanges;
  const std::size_t shown = std::min(most, advice.changes.size());
  if (shown == 0) {
    if (!leave) page.paragraph("nothing that helps and is allowed");
    return;
  }
  const Columns c = columns_for(advice.changes, shown, page);
  page.row(table_row("", "move", "from → to", "out", c.gauge < 9 ? "room" : "room ○→●", "min",
                     "score", c));
  for (std::size_t i = 0; i < shown; ++i) {
    const bool lead = i == 0 && advice.verdict.headline == Headline::change;
    page.row(change_row(advice.changes[i], i + 1, c), lead ? Tint::good : Tint::none);
  }
  below_the_table(advice, shown, page);
}

/// The axes the change moves, as `label +1.9 to +1.0`; the small ones only on request.
void axis_moves(const Change& change, const Pack& pack, bool all, Page& page) {
  std::string text;
  std::size_t told = 0;
  for (const AxisMove& move : change.moves) {
    if (!all && told == 3) break;
    text += fmt::format("{}{} {:+.1f} to {:+.1f}", text.empty() ? "" : "; ",
                        pack.axes[move.axis].label, move.before, move.after);
    ++told;
  }
  page.paragraph("moves " + text, 2);
}

/// What the driver complains of and will feel more of.
void against_line(const Change& change, const Advice& advice, Page& page) {
  std::string text;
  for (const auto& [index, more] : change.against) {
    text +=
        fmt::format("{}{} by {:.1f}", text.empty() ? "" : ", ", advice.readings[index].text, more);
  }
  if (!text.empty()) page.paragraph("but adds to what the driver says: " + text, 2);
}

/// Where the belief on the mended axis came from; the shares sum to it.
void shares_line(const Change& change, const Advice& advice, const Pack& pack, bool all,
                 Page& page) {
  const AxisMove& mended = change.moves.front();
  std::string text;
  double rest = 0.0;
  for (const auto& [index, share] : change.shares) {
    const Reading& reading = advice.readings[index];
    if (!all && std::abs(share) < kSmallShare) {
      rest += share;
      continue;
    }
    text += fmt::format("{}{:+.2f} {}", text.empty() ? "" : ", ", share, reading.text);
  }
  if (std::abs(rest) >= kSmallShare) text += fmt::format(", {:+.2f} from the rest", rest);
  page.paragraph(fmt::format("{} {:+.2f} = {}", pack.axes[mended.axis].label, mended.before, text),
                 2);
}

void rules_of(const Change& change, const Advice& advice, const Pack& pack, Page& page) {
  const auto at = static_cast<std::size_t>(&change.adjustment() - pack.adjustments.data());
  for (const EffectRule* rule : advice.effects[at].rules) {
    page.paragraph(
        fmt::format("rule {} ({}): {}", rule->id, rule->source.text(), rule->provenance.text()), 2);
  }
}

void why_one(const Change& change, const Advice& advice, const Pack& pack, bool all, Page& page) {
  const std::string mechanism = change.because.empty() ? "" : change.because.front().text;
  page.paragraph(phrase_of(change) + ": " + mechanism, 2);
  if (change.moves.empty()) return;
  axis_moves(change, pack, all, page);
  against_line(change, advice, page);
  shares_line(change, advice, pack, all, page);
  const Parts& parts = change.candidate.parts;
  if (!all) return;
  page.paragraph(
      fmt::format("score {:.1f} = effect {:.1f}, room {:.1f}, minutes {:.1f}, last notch {:.1f}",
                  parts.score(), parts.effect, parts.room, parts.effort, parts.last_notch),
      2);
  rules_of(change, advice, pack, page);
  if (!change.then.empty()) page.paragraph("then on to " + change.then, 2);
}

void why(const Advice& advice, const Pack& pack, bool all, Page& page) {
  if (advice.changes.empty()) return;
  page.section("WHY");
  const std::size_t told = all ? advice.changes.size() : 1;
  for (std::size_t i = 0; i < told; ++i) why_one(advice.changes[i], advice, pack, all, page);
  if (!all) return;
  for (const Fact& fact : advice.facts.all) {
    if (fact.premises.empty()) continue;
    page.paragraph(
        "fact " + fact.text() + " by " + fact.rule + " from " + joined(fact.premises, ", "), 2);
  }
}

void watch(const Advice& advice, Page& page) {
  if (advice.changes.empty()) return;
  const Change& first = advice.changes.front();
  page.section("WATCH FOR");
  page.paragraph("right: " + first.watch, 2);
  page.paragraph("wrong: " + first.back_out, 2);
  page.paragraph("the way back: " + first.to + " to " + first.from, 2);
  if (!first.then.empty())
    page.paragraph("helped, and more is wanted: on towards " + first.then, 2);
}

void not_now(const Advice& advice, const Pack& pack, Page& page) {
  page.section("NOT NOW");
  std::vector<std::string> order;
  std::map<std::string, std::vector<std::string>> moves;
  for (const NotNow& refused : advice.not_now) {
    const Adjustment& adjustment = *pack.adjustment(refused.adjustment);
    const std::size_t direction = refused.direction == adjustment.directions[0] ? 0 : 1;
    if (!moves.contains(refused.text)) order.push_back(refused.text);
    moves[refused.text].push_back(adjustment.phrases.at(direction));
  }
  for (const std::string& reason : order)
    page.paragraph(reason + ": " + joined(moves[reason], ", "), 2);
}

void care(const Advice& advice, Page& page) {
  page.section("CARE");
  std::vector<std::string> texts;
  const auto add = [&](const std::vector<std::string>& more) {
    for (const std::string& text : more) {
      if (std::find(texts.begin(), texts.end(), text) == texts.end()) texts.push_back(text);
    }
  };
  if (!advice.look_over.empty()) texts.push_back(advice.look_over);
  if (!advice.checks.empty()) add(advice.check_cautions);
  if (!advice.changes.empty()) add(advice.changes.front().cautions);
  for (const std::string& text : texts) page.paragraph(text, 2);
}

}  // namespace

std::string advice_text(const Advice& advice, const Pack& pack, Look look, bool why_all) {
  Page page(look);
  heard(advice, pack, page);
  reading(advice, page);
  checks(advice, why_all, page);
  changes(advice, why_all, page);
  why(advice, pack, why_all, page);
  watch(advice, page);
  not_now(advice, pack, page);
  care(advice, page);
  return page.text();
}

}  // namespace kartwright::cli
