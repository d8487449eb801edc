#include "cli/weigh_text.h"

#include <fmt/format.h>

#include "engine/chassis/weighing_words.h"

namespace kartwright::cli {
namespace {

std::string_view known_from(ResolutionFrom from) {
  if (from == ResolutionFrom::crew) return "as given";
  if (from == ResolutionFrom::kart_file) return "by the kart file";
  return "assumed, as bathroom scales: give --resolution";
}

void paragraphs(Page& page, std::string_view word, const std::vector<std::string>& texts) {
  page.section(word);
  for (const std::string& text : texts) page.paragraph(text, 2);
}

void care(Page& page, const std::vector<std::string_view>& texts) {
  page.section("CARE");
  for (const std::string_view text : texts) page.paragraph(text, 2);
}

void assumed(Page& page, const std::vector<std::string>& labels) {
  page.section("ASSUMED");
  if (labels.empty()) return;
  page.paragraph(
      fmt::format("not in the kart file, so as the rules assume: {}", fmt::join(labels, "; ")), 2);
}

std::string loads_text(const CornerLoads& on, System units) {
  const auto mass = [&](double kg) { return print_quantity(kg, Kind::mass, units); };
  return fmt::format("left front {}, right front {}, left rear {}, right rear {}",
                     mass(on.left_front), mass(on.right_front), mass(on.left_rear),
                     mass(on.right_rear));
}

void scales(const WeighingAnswer& answer, Page& page) {
  const Weighing& given = answer.given;
  page.section("SCALES");
  const bool twice = given.swapped || given.turned;
  page.paragraph((twice ? "best of all weighings: " : "") + loads_text(answer.on, answer.units), 2);
  page.paragraph(fmt::format("{} in all, driver aboard; a scale tells {} apart, {}{}",
                             print_measured(answer.total, Kind::mass, answer.units),
                             print_quantity(given.resolution, Kind::mass, answer.units),
                             known_from(given.resolution_from),
                             given.from_kart_file ? "; readings from the kart file" : ""),
                 2);
}

/// A table where there is room for one, else a sentence for each figure.
void figures(const WeighingAnswer& answer, Page& page) {
  constexpr std::size_t kTable = 62;
  const std::size_t kRead = page.look().unicode ? 17 : 19;  // "+/-" for a sign
  page.section("WEIGHT");
  const bool table = page.room() >= kTable;
  if (table) page.row(left("", 12) + left("read", kRead) + left("wanted", 13));
  for (const JudgedFigure& each : answer.figures) {
    const std::string read = print_measured(each.figure, each.kind, answer.units);
    const std::string band = band_text(each, answer.units);
    const std::string_view name = short_name(each.id);
    if (table) {
      const std::string cells = left(name, 12) + left(read, kRead) + left(band, 13);
      const bool fits = columns(cells + each.text) <= page.room();
      page.row(fits ? cells + each.text : cells);
      if (!fits) page.paragraph("  " + each.text, 2);
    } else {
      page.paragraph(fmt::format("{} {}, wanted {}: {}", name, read, band, each.text), 2);
    }
  }
}

std::string plan_line(const MovePlan& plan, std::size_t number, System units) {
  std::string steps;
  for (const MassStep& step : plan.steps) steps += (steps.empty() ? "" : "; ") + step_text(step);
  return fmt::format("{}  {}: {:g} min; then front {}, left {}{}{}", number, steps, plan.minutes,
                     print_measured(plan.shares.front, Kind::ratio, units),
                     print_measured(plan.shares.left, Kind::ratio, units),
                     plan.reaches ? "" : ", still outside",
                     plan.legal ? "" : ", and under the class's minimum");
}

void moves(const WeighingAnswer& answer, Page& page) {
  page.section("MOVE");
  page.paragraph(answer.moves_text, 2);
  for (std::size_t i = 0; i < answer.plans.size(); ++i) {
    page.paragraph(plan_line(answer.plans[i], i + 1, answer.units), 3);
  }
  if (answer.plans.empty()) return;
  page.paragraph(
      "with 1 the scales should read: " + loads_text(answer.plans[0].predicted, answer.units), 3);
  page.paragraph("weigh again after it, the class's minimum weight with it", 3);
}

}  // namespace

std::string_view short_name(std::string_view id) {
  if (id == "front-share") return "front";
  if (id == "left-share") return "left";
  if (id == "cross-share") return "cross";
  return id == "front-pair-difference" ? "front pair" : "rear pair";
}

std::string band_text(const JudgedFigure& figure, System units) {
  const auto end = [&](double value) { return print_quantity(value, figure.kind, units); };
  if (!figure.from || figure.kind == Kind::mass) return figure.to ? "to " + end(*figure.to) : "";
  if (!figure.to) return "from " + end(*figure.from);
  const std::string from = end(*figure.from);
  return from.substr(0, from.find(' ')) + " to " + end(*figure.to);
}

Page weigh_page(const WeighingAnswer& answer, Look look) {
  Page page(look);
  page.section("VERDICT");
  page.paragraph(answer.headline);
  figures(answer, page);
  moves(answer, page);
  paragraphs(page, "TWIST", answer.twist);
  scales(answer, page);
  for (const WeighingVerdict& verdict : answer.verdicts) {
    const bool of_the_whole =
        verdict.id == "minimum-weight" || verdict.id.ends_with("weighs-the-same");
    if (of_the_whole) page.paragraph(verdict.text, 2, verdict.ok ? Tint::none : Tint::stop);
  }
  paragraphs(page, "NEXT", answer.next);
  paragraphs(page, "OPEN", answer.cannot_tell);
  paragraphs(page, "MODES", answer.modes_mean);
  assumed(page, answer.assumed);
  care(page, answer.cautions);
  return page;
}

std::string weigh_text(const WeighingAnswer& answer, Look look) {
  return weigh_page(answer, look).text();
}

Page height_page(const HeightAnswer& answer, Look look) {
  Page page(look);
  page.section("VERDICT");
  page.paragraph(answer.headline);
  page.section("LIFT");
  for (const WeighingVerdict& verdict : answer.verdicts) {
    page.paragraph(verdict.text, 2, verdict.ok ? Tint::none : Tint::stop);
  }
  page.section("ERROR");
  for (const std::string& text : answer.error) page.paragraph(text, 2);
  page.paragraph(
      fmt::format("resolution of the scales {}", known_from(answer.given.resolution_from)), 2);
  assumed(page, answer.given.assumed);
  care(page, answer.cautions);
  return page;
}

std::string height_text(const HeightAnswer& answer, Look look) {
  return height_page(answer, look).text();
}

}  // namespace kartwright::cli
