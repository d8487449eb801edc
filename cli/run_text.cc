#include "cli/run_text.h"

#include <algorithm>

#include <fmt/format.h>

#include "cli/advice_text.h"
#include "engine/records/lap_time.h"

namespace kartwright::cli {
namespace {

std::string day_and_time(const Run& run) {
  // A log that somebody changed may hold anything here.
  return run.at.size() < 16 ? run.at : run.at.substr(0, 10) + " " + run.at.substr(11, 5);
}

void conditions(const Run& run, Page& page) {
  std::string text;
  const auto add = [&](const std::string& more) { text += (text.empty() ? "" : ", ") + more; };
  if (run.air) add(fmt::format("air {:g} °C", *run.air));
  if (run.road) add(fmt::format("track {:g} °C", *run.road));
  if (!run.driver.empty()) add("driver " + run.driver);
  if (!run.tyres.empty()) add("tyres " + run.tyres);
  if (run.tyre_laps) add(fmt::format("{} laps on the tyres", *run.tyre_laps));
  if (!run.load.empty()) add(run.load);
  if (!text.empty()) page.paragraph(text, 2);
}

std::string lap_word(const RunLap& lap) {
  std::string text = print_lap_time(lap.seconds);
  if (lap.flag != LapFlag::counts) text = "(" + text + " " + std::string(name_of(lap.flag)) + ")";
  return text + (lap.by_crew ? "!" : "");
}

void laps(const Run& run, const RunAsides& asides, Page& page) {
  page.section("LAPS");
  if (run.laps.empty()) return page.paragraph("none given");
  const std::vector<double> good = counted(run);
  std::string text = fmt::format("{} laps, {} count", run.laps.size(), good.size());
  if (!good.empty()) {
    double sum = 0.0;
    for (const double seconds : good) sum += seconds;
    text += fmt::format(", best {}, mean {}", print_lap_time(best_of(run)),
                        print_lap_time(sum / static_cast<double>(good.size())));
  }
  page.paragraph(text, 2);
  constexpr std::size_t kShown = 100;
  std::string all;
  for (std::size_t i = 0; i < std::min(kShown, run.laps.size()); ++i)
    all += (i == 0 ? "" : " ") + lap_word(run.laps[i]);
  if (run.laps.size() > kShown) all += fmt::format(" and {} more", run.laps.size() - kShown);
  page.paragraph(all, 2);
  const bool ours = std::any_of(run.laps.begin(), run.laps.end(), [](const RunLap& lap) {
    return lap.flag != LapFlag::counts && !lap.by_crew;
  });
  if (ours && !asides.lap_rule.empty()) page.paragraph(asides.lap_rule, 2);
  if (std::any_of(run.laps.begin(), run.laps.end(), [](const RunLap& lap) { return lap.by_crew; }))
    page.paragraph("! as the crew said", 2);
}

void heard(const Run& run, const Pack& pack, const RunAsides& asides, Page& page) {
  page.section("HEARD");
  for (const Report& report : run.reports) page.paragraph(report_line(report, pack), 2);
  for (const StatedFact& fact : run.facts) page.paragraph(fact.fact + ": " + fact.value, 2);
  for (const NotUnderstood& left : asides.not_understood) page.paragraph(left_over_line(left), 2);
  if (run.reports.empty() && asides.not_understood.empty())
    page.paragraph("no word of the handling");
  if (run.complete) page.paragraph("the debrief was complete: what is unmentioned is not there", 2);
}

std::string verdict_text(const RunVerdict& verdict, const Pack& pack) {
  const Adjustment* const adjustment = pack.adjustment(verdict.adjustment);
  std::string text = (adjustment == nullptr ? verdict.adjustment : adjustment->label) + ": " +
                     std::string(name_of(verdict.verdict));
  if (!verdict.by.empty()) text += " by the " + verdict.by;
  return text + (verdict.text.empty() ? "" : ", " + verdict.text);
}

}  // namespace

std::string idea_behind(const RunChange& change) {
  std::string text;
  switch (change.origin) {
    case Origin::advice:
      text = change.rank ? fmt::format("advised, rank {}", *change.rank) : "advised";
      if (change.relief)
        text += fmt::format(", promised {:.0f} % of the error", 100.0 * *change.relief);
      break;
    case Origin::own_idea:
      text = "own idea";
      break;
    case Origin::found:
      text = "found in the kart file";
      break;
    case Origin::undo:
      text = change.why.empty() ? "taken back" : change.why;
      break;
  }
  if (!change.asked_by.empty()) text += ", asked for by " + change.asked_by;
  if (change.origin != Origin::undo && !change.why.empty()) text += ": " + change.why;
  return text;
}

std::string move_phrase(const RunChange& change, const Pack& pack) {
  const Adjustment* const adjustment = pack.adjustment(change.adjustment);
  return adjustment == nullptr ? change.adjustment
                               : adjustment->phrases[change.steps > 0.0 ? 0 : 1];
}

std::string change_phrase(const RunChange& change, const Pack& pack) {
  return fmt::format("{}, {} → {}", move_phrase(change, pack), change.from, change.to);
}

Page run_page(const Run& run, const Pack& pack, bool setup, const RunAsides& asides, Look look) {
  Page page(look);
  page.section("RUN");
  const TrackState* const track = pack.track(run.track);
  std::string text = fmt::format("{}: {}, {}", run.id, run.kart, day_and_time(run));
  if (!run.session.empty()) text += ", " + run.session;
  text += ", track " + (track != nullptr ? track->label : "unknown");
  if (!run.driven) text += ", made ready and not driven yet";
  page.paragraph(text, 2);
  conditions(run, page);
  if (run.driven) laps(run, asides, page);
  if (run.driven) heard(run, pack, asides, page);
  page.section("CHANGED");
  for (const RunChange& change : run.changes)
    page.paragraph(change_phrase(change, pack) + " (" + idea_behind(change) + ")", 2);
  page.section("VERDICT");
  for (const RunVerdict& verdict : run.verdicts) page.paragraph(verdict_text(verdict, pack), 2);
  page.section("NOTES");
  for (const RunNote& note : run.notes) page.paragraph(note.text, 2);
  if (!setup) return page;
  page.section("SETUP");
  std::string settings;
  for (const RunSetting& setting : run.settings)
    settings += (settings.empty() ? "" : ", ") + setting.adjustment + " " + setting.value;
  page.paragraph(settings.empty() ? "not known" : settings, 2);
  return page;
}

std::string run_text(const Run& run, const Pack& pack, bool setup, const RunAsides& asides,
                     Look look) {
  return run_page(run, pack, setup, asides, look).text();
}

namespace {

/// The changes before a run, each with what came of it at last.
std::string remarks(const Run& run, const Pack& pack) {
  std::string text;
  for (const RunChange& change : run.changes) {
    text += (text.empty() ? "" : "; ") + change_phrase(change, pack);
    for (auto verdict = run.verdicts.rbegin(); verdict != run.verdicts.rend(); ++verdict) {
      if (verdict->adjustment != change.adjustment) continue;
      text += ": " + std::string(name_of(verdict->verdict));
      break;
    }
  }
  return text;
}

constexpr std::size_t kWhole = 60;  // columns that a row of the list takes with everything in it

std::string row_of_list(const Run& run, bool narrow) {
  const double best = best_of(run);
  const std::string clock =
      !run.driven  ? "not driven"
      : best > 0.0 ? fmt::format("{:>3} {:>8}", counted(run).size(), print_lap_time(best))
                   : "no laps";
  const std::string when = narrow ? run.day().substr(5) : day_and_time(run);
  return fmt::format("{:>4}  {} {}  {} {}", run.id, when, right(clock, 12),
                     left(run.track, narrow ? 1 : 11), run.session);
}

constexpr std::size_t kUnder = 6;  // columns that the remarks of a run stand in from the left

}  // namespace

std::string runs_text(const std::vector<Run>& runs, const Pack& pack, std::size_t all, Look look) {
  Page page(look);
  page.section("RUNS");
  if (runs.empty()) page.paragraph("the log is empty");
  std::string kart;
  for (const Run& run : runs) {
    if (run.kart != kart)
      page.row(run.kart + (kart.empty() ? "; laps that count, the best of them" : ""));
    kart = run.kart;
    page.row(row_of_list(run, page.room() < kWhole));
    const std::string remark = remarks(run, pack);
    if (remark.empty()) continue;
    for (const std::string& line : wrap(remark, page.room() - kUnder))
      page.row(std::string(kUnder, ' ') + line);
  }
  if (runs.size() < all)
    page.paragraph(fmt::format("{} of {} runs; --last all shows every one", runs.size(), all));
  return page.text();
}

}  // namespace kartwright::cli
