#include "cli/sheet/advice_sheet.h"

#include <algorithm>

#include <fmt/format.h>

#include "cli/advice_text.h"
#include "cli/change_table.h"
#include "cli/sheet/belief_picture.h"
#include "cli/sheet/kart_picture.h"
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

std::string_view wheel_name(std::size_t wheel) {
  static constexpr std::array<std::string_view, 4> kNames{"left front", "right front", "left rear",
                                                          "right rear"};
  return kNames.at(wheel);
}

constexpr std::array<std::string_view, 4> kWheelKeys{"fl", "fr", "rl", "rr"};
constexpr std::array<std::string_view, 4> kStandingKeys{"lf", "rf", "lr", "rr"};

std::array<double, 4> each_wheel(const CornerLoads& on) {
  return {on.left_front, on.right_front, on.left_rear, on.right_rear};
}

Picture plan_view(const Sketch& sketch, System units) {
  const std::array<double, 4> standing = each_wheel(sketch.standing);
  const std::array<double, 4> before = each_wheel(sketch.before().loads);
  const std::array<double, 4> after = each_wheel(sketch.after().loads);
  FromAbove view{
      .kart = outline_of(sketch.paper.before.kart, sketch.front_tyre_width, sketch.rear_tyre_width),
      .wheels = {},
      .was = sketch.before().loads,
      .mass = mass_place(sketch.paper.before.kart),
      .shares = {},
      .units = units};
  std::string text =
      fmt::format("The kart from above, to scale, in the {} of a left turn:", phase_of(sketch));
  for (std::size_t i = 0; i < view.wheels.size(); ++i) {
    auto& lines = view.wheels.at(i);
    lines.push_back({print_quantity(standing.at(i), Kind::mass, units),
                     fmt::format("/on_paper/standing/{}", kStandingKeys.at(i)), "small soft"});
    lines.push_back({force_text(before.at(i), units),
                     fmt::format("/on_paper/before/loads/{}", kWheelKeys.at(i)), "now"});
    if (sketch.moves_loads)
      lines.push_back({force_text(after.at(i), units),
                       fmt::format("/on_paper/after/loads/{}", kWheelKeys.at(i)), "then"});
    text += fmt::format(" {} {} standing, {}{};", wheel_name(i), lines[0].text, lines[1].text,
                        sketch.moves_loads ? ", after the change " + lines[2].text : "");
  }
  if (sketch.moves_loads) {
    view.is = sketch.after().loads;
    view.mass_after = mass_place(sketch.paper.after.kart);
  }
  return from_above(view, text);
}

std::string plan_caption(const Sketch& sketch, const Pack& pack) {
  const TrackState* const track = pack.track(sketch.paper.track);
  std::string text = fmt::format(
      "Loads, left turn, {}, {}, {:.2f} g: standing ({}), then in the corner{}. The circle is the "
      "centre of mass.",
      phase_of(sketch), track == nullptr ? sketch.paper.track : track->label,
      manoeuvre_of(sketch.paper.before.kart, sketch.paper.corner,
                   static_cast<CornerPhase>(sketch.phase))
              .lateral /
          kGravity,
      sketch.weighed ? "by the scales" : "by the kart's shares",
      sketch.moves_loads ? " before and after the first change" : "");
  if (sketch.assumed > 0)
    text += fmt::format(" {} of the kart's sizes are assumed.", sketch.assumed);
  return text;
}

Picture rear_view(const Sketch& sketch, System units) {
  FromBehind view{.was = sketch.paper.before.kart,
                  .is = {},
                  .rear_tyre_width = sketch.rear_tyre_width,
                  .line = sketch.paper.before.line,
                  .line_after = {},
                  .json_before = "/on_paper/before",
                  .json_after = "/on_paper/after",
                  .units = units};
  if (sketch.moves_loads) {
    view.is = sketch.paper.after.kart;
    view.line_after = sketch.paper.after.line;
  }
  return from_behind(view);
}

void pictures(Sheet& sheet, const Advice& advice, const Pack& pack, const Beside& beside) {
  if (beside.sketch) {
    const Sketch& sketch = *beside.sketch;
    sheet.picture(plan_view(sketch, advice.units), plan_caption(sketch, pack));
    sheet.picture(
        rear_view(sketch, advice.units),
        "From behind: the line from the centre of mass to the outside rear tyre, broad as "
        "it is, thin after the first change. The nearer it is to upright, the more of the "
        "push goes down into the tyre.");
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
    if (may_be_dropped(section.word)) sheet.droppable_from_here();
    if (!may_be_dropped(section.word)) sheet.needed_from_here();
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
