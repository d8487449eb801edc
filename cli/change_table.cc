#include "cli/change_table.h"

#include <algorithm>
#include <string>
#include <vector>

#include <fmt/format.h>

#include "cli/gauge.h"

namespace kartwright::cli {
namespace {

constexpr std::size_t kShownChanges = 5;

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
    c.from_to =
        std::max(c.from_to, columns(spelled(from_to(changes[i].from, changes[i].to), c.look)));
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
    case Headline::wait_for_track:
      page.paragraph("none yet; if it cannot wait:");
      break;
    case Headline::change:
      break;
  }
}

/// What the track will want, and the travel that is left for it.
void next_line(const Advice& advice, Page& page) {
  if (!advice.next) return;
  const NextWanted& next = *advice.next;
  page.paragraph(fmt::format("next, {} {}: {}, {} ({} left after it)",
                             next.stays ? "while the track stays" : "when the track is", next.track,
                             next.phrase, from_to(next.from, next.to), next.left),
                 2);
}

/// "rear wider 1360 → 1375 mm and shorter hubs medium → short".
/// In the order to make and to test them.
std::string moves_in_a_line(const Together& bundle) {
  std::vector<std::string> moves;
  for (const Together::Move& move : bundle.moves) {
    moves.push_back(fmt::format("{} {} ({:g} min, {:.0f} % out)", move.phrase,
                                from_to(move.from, move.to), move.minutes, 100.0 * move.relief));
  }
  return joined(moves, ", then ");
}

/// A toss of a coin is called one.
void draws_line(const Advice& advice, Page& page) {
  if (!advice.draws || advice.changes.empty()) return;
  const Draws& draws = *advice.draws;
  if (advice.verdict.headline == Headline::leave_alone) return;
  std::vector<std::pair<double, std::string>> shares{{draws.nothing, "leaving it alone"}};
  for (std::size_t i = 0; i < advice.changes.size(); ++i)
    shares.emplace_back(draws.first[i], phrase_of(advice.changes[i]));
  std::stable_sort(shares.begin(), shares.end(),
                   [](const auto& a, const auto& b) { return a.first > b.first; });
  std::vector<std::string> texts;
  for (std::size_t i = 0; i < std::min<std::size_t>(3, shares.size()); ++i)
    texts.push_back(fmt::format("{} {:.0f} %", shares[i].second, 100.0 * shares[i].first));
  page.paragraph(fmt::format("{}by draws of all that is not known, first is: {}",
                             coin_toss(draws) ? "a coin toss: " : "", joined(texts, ", ")),
                 2);
}

/// One change at a time is the habit; where one leaves much of the error, two may be worth it.
void bundle_lines(const Advice& advice, Page& page) {
  for (const Together& bundle : advice.bundles) {
    page.paragraph(fmt::format("{} in one stop, {:g} min: {}; run in between where there is time",
                               bundle.moves.size() == 2 ? "two" : "three", bundle.minutes,
                               moves_in_a_line(bundle)),
                   2);
  }
}

/// The score is told over what leaving the kart alone scores.
std::string change_row(const Change& change, std::size_t rank, double nothing, const Columns& c) {
  const Candidate& candidate = change.candidate;
  return table_row(
      std::to_string(rank) + (change.contested ? "?" : ""), phrase_of(change),
      from_to(change.from, change.to), fmt::format("{:.0f} %", 100.0 * candidate.relief),
      c.gauge > 0 ? gauge(candidate, c.gauge) : "", fmt::format("{:g}", candidate.option.minutes),
      fmt::format("{:.1f}", candidate.parts.score() - nothing), c);
}

/// True where the forecast would have an adjustment somewhere else than it is or would go.
bool wanted_elsewhere(const Change& change) {
  const Candidate& c = change.candidate;
  return c.wanted && *c.wanted != c.option.from && *c.wanted != c.option.to;
}

void below_the_table(const Advice& advice, std::size_t shown, const Columns& c, Page& page) {
  std::vector<std::string> notes;
  const auto end = advice.changes.begin() + static_cast<std::ptrdiff_t>(shown);
  if (std::any_of(advice.changes.begin(), end, [](const Change& each) { return each.contested; })) {
    notes.emplace_back("? crews disagree: a test worth logging");
  }
  if (c.gauge > 0 && std::any_of(advice.changes.begin(), end, wanted_elsewhere))
    notes.emplace_back("◇ where the track will want it");
  if (shown < advice.changes.size()) {
    notes.push_back(fmt::format("{} more with --why", advice.changes.size() - shown));
  }
  if (!notes.empty()) page.paragraph(joined(notes, "; "), 2);
}

constexpr std::size_t kUnderAMove = 3;  // columns in from the left

void rows(const Advice& advice, std::size_t shown, Page& page) {
  const Columns c = columns_for(advice.changes, shown, page);
  page.row(table_row("", "move", "from → to", "out", c.gauge < 9 ? "room" : "room ○→●", "min",
                     "score", c));
  for (std::size_t i = 0; i < shown; ++i) {
    const bool lead = i == 0 && advice.verdict.headline == Headline::change;
    page.row(change_row(advice.changes[i], i + 1, advice.score_of_nothing, c),
             lead ? Tint::good : Tint::none);
    if (advice.changes[i].tried.empty()) continue;
    for (const std::string& line : wrap(advice.changes[i].tried, page.room() - kUnderAMove))
      page.row(std::string(kUnderAMove, ' ') + line);
  }
  below_the_table(advice, shown, c, page);
}

}  // namespace

std::string from_to(const std::string& from, const std::string& to) {
  const std::size_t a = from.rfind(' ');
  const std::size_t b = to.rfind(' ');
  const bool same_unit =
      a != std::string::npos && b != std::string::npos && from.substr(a) == to.substr(b);
  return (same_unit ? from.substr(0, a) : from) + " → " + to;
}

std::size_t changes_shown(const Advice& advice, bool all) {
  if (all) return advice.changes.size();
  if (advice.verdict.headline == Headline::leave_alone) return 0;
  const auto pays = [&](const Change& change) {
    return change.candidate.parts.score() > advice.score_of_nothing;
  };
  const auto paying = std::count_if(advice.changes.begin(), advice.changes.end(), pays);
  return std::min(kShownChanges, static_cast<std::size_t>(paying));
}

const std::string& phrase_of(const Change& change) {
  return change.adjustment().phrases.at(change.candidate.option.direction);
}

void change_table(const Advice& advice, bool all, Page& page) {
  page.section("CHANGE");
  before_the_table(advice, page);
  const std::size_t shown = changes_shown(advice, all);
  if (shown > 0) {
    rows(advice, shown, page);
  } else if (advice.verdict.headline != Headline::leave_alone) {
    page.paragraph("nothing that helps, is allowed and pays for its minutes");
  }
  draws_line(advice, page);
  bundle_lines(advice, page);
  next_line(advice, page);
}

}  // namespace kartwright::cli
