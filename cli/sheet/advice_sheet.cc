#include "cli/sheet/advice_sheet.h"

#include <algorithm>

#include <fmt/format.h>

#include "cli/advice_text.h"
#include "cli/change_table.h"
#include "cli/sheet/belief_picture.h"
#include "cli/sheet/loads_picture.h"
#include "cli/sheet/room_table.h"
#include "cli/sheet/sheet.h"

namespace kartwright::cli {
namespace {

Markup change_rows(const Advice& advice, bool all) {
  SheetTable table{.caption = {},
                   .head = {"move", "from → to", "error out", "min", "score"},
                   .rows = {},
                   .figures = {false, false, true, true, true},
                   .first_leads = advice.verdict.headline == Headline::change};
  for (std::size_t i = 0; i < changes_shown(advice, all); ++i) {
    const Change& change = advice.changes[i];
    const Candidate& candidate = change.candidate;
    const std::string tried = change.tried.empty() ? "" : " (" + change.tried + ")";
    table.rows.push_back(
        {words(fmt::format("{}{} {}{}", i + 1, change.contested ? "?" : "", phrase_of(change),
                           tried)),
         words(from_to(change.from, change.to)),
         words(fmt::format("{:.0f} %", 100.0 * candidate.relief)),
         words(fmt::format("{:g}", candidate.option.minutes)),
         words(fmt::format("{:.1f}", candidate.parts.score() - advice.score_of_nothing))});
  }
  return table_of(table);
}

/// Every adjustment of the kart, those with a change first and in its order.
std::vector<RoomGauge> gauges_of(const Advice& advice, const Kart& kart) {
  std::vector<RoomGauge> out;
  const auto has = [&](const Setting* setting) {
    return std::any_of(out.begin(), out.end(),
                       [&](const RoomGauge& each) { return each.setting == setting; });
  };
  const std::size_t shown = changes_shown(advice, false);
  for (std::size_t i = 0; i < shown; ++i) {
    const Candidate& c = advice.changes[i].candidate;
    if (has(c.option.setting)) continue;
    out.push_back({.setting = c.option.setting,
                   .to = c.option.to,
                   .wanted = c.wanted,
                   .leads = i == 0 && advice.verdict.headline == Headline::change});
  }
  for (const auto& [id, setting] : kart.settings)
    if (!has(&setting)) out.push_back({.setting = &setting});
  return out;
}

/// The kart on paper, before and after the change that leads.
LoadsView view_of(const Sketch& sketch, System units) {
  return {.where = fmt::format("{} of a left turn", phase_of(sketch)),
          .before = &sketch.paper.before,
          .after = sketch.moves_loads ? &sketch.paper.after : nullptr,
          .phase = sketch.phase,
          .front_tyre_width = sketch.front_tyre_width,
          .rear_tyre_width = sketch.rear_tyre_width,
          .json_before = "/on_paper/before",
          .json_after = "/on_paper/after",
          .standing = sketch.standing,
          .json_standing = "/on_paper/standing",
          .units = units};
}

std::string plan_caption(const Sketch& sketch, const Advice& advice, const Pack& pack) {
  const TrackState* const track = pack.track(sketch.paper.track);
  const SprintKart& kart = sketch.paper.before.kart;
  const Manoeuvre turn =
      manoeuvre_of(kart, sketch.paper.corner, static_cast<CornerPhase>(sketch.phase));
  std::string text = fmt::format(
      "Loads in a left turn, {}, at {:.2f} g{}{}. Bars: the same loads. Circle: the centre of "
      "mass. "
      "Standing: {}.",
      phase_of(sketch), turn.lateral / kGravity,
      advice.track == "unknown" ? "; the track is unknown, so as if " : ", ",
      track == nullptr ? sketch.paper.track : track->label,
      sketch.weighed ? "by the scales" : "by the kart's shares");
  if (kart.mass_left != 0.0)
    text += " WHY takes the mass on the centre line, so that both turns are alike.";
  if (sketch.assumed > 0)
    text += fmt::format(" {} of the kart's sizes are assumed.", sketch.assumed);
  return text;
}

void pictures(Sheet& sheet, const Advice& advice, const Pack& pack, const Beside& beside) {
  if (beside.sketch) {
    const Sketch& sketch = *beside.sketch;
    const LoadsView view = view_of(sketch, advice.units);
    sheet.picture(loads_picture(view), plan_caption(sketch, advice, pack));
    sheet.picture(line_picture(view, view.json_before, view.json_after),
                  line_caption(sketch.moves_loads));
  }
  sheet.picture(belief_picture(advice, pack),
                "What is believed, in notches: the band before the debrief, the dot with its line "
                "after it, one standard deviation either way.");
}

/// On paper these go first where it runs short.
bool may_be_dropped(std::string_view word) {
  return word == "WHY" || word == "NOT NOW" || word == "ASK";
}

}  // namespace

namespace {

/// Where the reasons of every change are asked for those of the first stand by themselves, so that
/// paper has them even where there is no room for the rest.
void reasons(Sheet& sheet, const PageSection& all, const Advice& advice, const Pack& pack) {
  for (const PageSection& section : advice_page(advice, pack, look_of_sheet(), false).sections())
    if (section.word == "WHY") sheet.section(section);
  sheet.droppable_from_here();
  sheet.section("WHY OF EACH", paragraphs_of(all));
}

}  // namespace

std::string advice_sheet(const Advice& advice, const Kart& kart, const Pack& pack, bool why,
                         const Beside& beside) {
  Sheet sheet("Advice", advice.kart);
  const Page page = advice_page(advice, pack, look_of_sheet(), why, beside);
  const Markup table = change_rows(advice, why);
  bool pictured = false;
  for (const PageSection& section : page.sections()) {
    if (section.word == "WHY") {
      pictures(sheet, advice, pack, beside);
      pictured = true;
    }
    if (section.word == "WHY" && why) {
      sheet.needed_from_here();
      reasons(sheet, section, advice, pack);
      continue;
    }
    if (may_be_dropped(section.word)) {
      sheet.droppable_from_here();
    } else {
      sheet.needed_from_here();
    }
    const bool change = section.word == "CHANGE";
    sheet.section(section.word,
                  paragraphs_of(section, change ? std::vector{table} : std::vector<Markup>{}));
  }
  if (!pictured) pictures(sheet, advice, pack, beside);
  sheet.droppable_from_here();
  sheet.section("MOVED BY", belief_table(advice, pack));
  sheet.wide("ROOM", gauge_legend(), room_tables(gauges_of(advice, kart), advice.units));
  return sheet.html();
}

}  // namespace kartwright::cli
