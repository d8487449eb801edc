#include "cli/why_text.h"

#include <algorithm>
#include <cmath>
#include <string>

#include <fmt/format.h>

#include "cli/change_table.h"
#include "engine/advice/explain_change.h"

namespace kartwright::cli {
namespace {

constexpr double kSmallShare = 0.05;  // notches; smaller shares are left to --why

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

/// What travel spent today will be wanted for, where that costs a point or more.
void room_line(const Change& change, double nothing, Page& page) {
  constexpr double kTold = 1.0;  // points
  const double room = nothing - change.candidate.parts.room;
  if (room < kTold) return;
  page.paragraph(fmt::format("pays {:.1f} points of room: travel that the track will want", room),
                 2);
}

/// What the change does to the loads of this kart.
void loads_line(const Change& change, Page& page) {
  for (const Because& because : change.because) {
    if (because.kind == "chassis") page.paragraph("loads: " + because.text, 2);
  }
}

/// What this kart's own log has taught of it.
void records_line(const Change& change, Page& page) {
  for (const Because& because : change.because) {
    if (because.kind == "record") page.paragraph("log: " + because.text, 2);
  }
}

/// How many sizes behind the loads were assumed, and which one to measure first.
void assumed_line(const Advice& advice, bool all, Page& page) {
  if (!advice.loads || (!all && !advice.measure_next)) return;
  const std::vector<std::string_view>& assumed = advice.loads->known.assumed;
  std::string text = fmt::format("{} sizes behind the loads are assumed", assumed.size());
  if (all) text += fmt::format(": {}", fmt::join(assumed, ", "));
  if (advice.measure_next) {
    text += fmt::format("; measure first the {}, which could move the lead by {:.0f} points",
                        advice.measure_next->label, advice.measure_next->points);
  }
  page.paragraph(text, 2);
}

void why_one(const Change& change, const Advice& advice, const Pack& pack, bool all, Page& page) {
  page.paragraph(phrase_of(change) + ": " + mechanism_of(change), 2);
  loads_line(change, page);
  records_line(change, page);
  if (change.moves.empty()) return;
  axis_moves(change, pack, all, page);
  against_line(change, advice, page);
  shares_line(change, advice, pack, all, page);
  const Parts& parts = change.candidate.parts;
  if (!all) room_line(change, advice.score_of_nothing, page);
  if (!all) return;
  const double nothing = advice.score_of_nothing;
  page.paragraph(
      fmt::format("score {:.1f} = effect {:.1f}, room {:.1f}, minutes {:.1f}, last notch {:.1f}{}",
                  parts.score() - nothing, parts.effect, parts.room, parts.effort, parts.last_notch,
                  nothing < -0.05 ? fmt::format(", less {:.1f} of leaving it alone", nothing) : ""),
      2);
  rules_of(change, advice, pack, page);
  if (!change.then.empty()) page.paragraph("then on to " + change.then, 2);
}

/// `0.4 unloading + rear-grip.mid`, with the axes of a row.
std::string row_text(const Eigen::VectorXd& row, const Pack& pack) {
  std::string text;
  for (std::size_t i = 0; i < pack.axes.size(); ++i) {
    const double factor = row[static_cast<Eigen::Index>(i)];
    if (factor == 0.0) continue;
    const bool first = text.empty();
    text += first ? (factor < 0.0 ? "-" : "") : (factor < 0.0 ? " - " : " + ");
    if (std::abs(factor) != 1.0) text += fmt::format("{:.3g} ", std::abs(factor));
    text += pack.axes[i].id;
  }
  return text;
}

/// A reading with everything behind it, down to the driver's words and the line of the rule.
std::string reading_line(const Reading& reading, const Advice& advice, const Pack& pack) {
  std::string text = fmt::format("{}: {} = {:+.2f} ± {:.2f}, rule {} ({})", reading.text,
                                 row_text(reading.row, pack), reading.value, reading.sd,
                                 reading.rule, reading.source->text());
  if (reading.report < 0) return text;
  const Report& report = advice.debrief.heard.reports[static_cast<std::size_t>(reading.report)];
  return text + (report.words.empty() ? ", as reported" : ", from \"" + report.words + "\"");
}

}  // namespace

void why_text(const Advice& advice, const Pack& pack, bool all, Page& page) {
  page.section("WHY");
  // Nothing is told of what the table does not offer.
  const std::size_t told =
      all ? advice.changes.size() : std::min<std::size_t>(1, changes_shown(advice, false));
  for (std::size_t i = 0; i < told; ++i) why_one(advice.changes[i], advice, pack, all, page);
  if (told > 0) assumed_line(advice, all, page);
  if (!all) return;
  for (const Reading& reading : advice.readings)
    page.paragraph("reads " + reading_line(reading, advice, pack), 2);
  for (const Fact& fact : advice.facts.all) {
    if (fact.premises.empty()) continue;
    page.paragraph(
        "fact " + fact.text() + " by " + fact.rule + " from " + joined(fact.premises, ", "), 2);
  }
}

}  // namespace kartwright::cli
