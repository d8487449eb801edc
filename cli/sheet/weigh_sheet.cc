#include "cli/sheet/weigh_sheet.h"

#include <algorithm>

#include <fmt/format.h>

#include "cli/sheet/sheet.h"
#include "cli/weigh_text.h"

namespace kartwright::cli {
namespace {

constexpr std::array<std::string_view, 4> kReadingKeys{"lf", "rf", "lr", "rr"};

const JudgedFigure* figure_named(const WeighingAnswer& answer, std::string_view id) {
  const auto found = std::find_if(answer.figures.begin(), answer.figures.end(),
                                  [&](const JudgedFigure& each) { return each.id == id; });
  return found == answer.figures.end() ? nullptr : &*found;
}

/// The places of the centre of mass whose shares lie in their bands, both axles leaning alike.
std::optional<MassBand> band_of(const WeighingAnswer& answer, const KartOutline& kart) {
  const JudgedFigure* const front = figure_named(answer, "front-share");
  const JudgedFigure* const left = figure_named(answer, "left-share");
  if (front == nullptr || left == nullptr || !front->from || !front->to || !left->from || !left->to)
    return std::nullopt;
  const double share = answer.shares.front.value;
  const double track = share * kart.front_track + (1.0 - share) * kart.rear_track;
  return MassBand{.back = *front->from * kart.wheelbase,
                  .front = *front->to * kart.wheelbase,
                  .right = (*left->from - 0.5) * track,
                  .left = (*left->to - 0.5) * track};
}

ShareLine share_line(const WeighingAnswer& answer, std::string_view id, const char* label) {
  const JudgedFigure* const share = figure_named(answer, id);
  ShareLine line{.label = label, .figure = {}, .note = {}};
  if (share == nullptr) return line;
  line.figure = {print_quantity(share->figure.value, share->kind, answer.units),
                 fmt::format("/figures/{}/value", share - answer.figures.data()),
                 share->ok ? "" : "stop"};
  line.note = (share->ok ? "in the band " : "outside ") + band_text(*share, answer.units);
  return line;
}

Picture scales_picture(const WeighingAnswer& answer, const KartOutline& kart) {
  FromAbove view{.kart = kart,
                 .wheels = {},
                 .was = answer.on,
                 .mass = mass_place(answer.on, kart),
                 .band = band_of(answer, kart),
                 .units = answer.units};
  const bool moves = !answer.plans.empty();
  view.legend.push_back({"read", "now"});
  if (moves) {
    view.legend.push_back({"after the move", "then"});
    view.is = answer.plans.front().predicted;
    view.mass_after = mass_place(*view.is, kart);
  }
  std::string in_words = "The kart from above, to scale, on the scales:";
  for (std::size_t i = 0; i < view.wheels.size(); ++i) {
    auto& lines = view.wheels.at(i);
    const auto mass = [&](const CornerLoads& on) {
      return print_quantity(by_wheel(on).at(i), Kind::mass, answer.units);
    };
    lines.push_back({mass(answer.on), fmt::format("/best/{}", kReadingKeys.at(i)), "now"});
    in_words += fmt::format(" {} {}", wheel_name(i), lines[0].text);
    if (moves) {
      lines.push_back(
          {mass(*view.is), fmt::format("/moves/0/predicted/{}", kReadingKeys.at(i)), "then"});
      in_words += ", after the move " + lines[1].text;
    }
    in_words += ";";
  }
  view.shares = {share_line(answer, "front-share", "front"),
                 share_line(answer, "left-share", "left"),
                 share_line(answer, "cross-share", "cross")};
  for (const ShareLine& line : view.shares)
    in_words += fmt::format(" {} {}, {};", line.label, line.figure.text, line.note);
  in_words.back() = '.';
  return from_above(view, in_words);
}

std::string caption_of(const WeighingAnswer& answer) {
  std::string text =
      "Readings, the driver aboard. Ring: the centre of mass; it is wanted where the grey strips "
      "cross.";
  if (!answer.plans.empty())
    text += " Second figures, second bars and the dot: after the first move below.";
  return text;
}

/// What was read, what is wanted, and the verdict of each figure.
Markup figures_table(const WeighingAnswer& answer) {
  SheetTable table{.caption = {}, .head = {"", "read", "wanted", "verdict"}, .rows = {}};
  for (const JudgedFigure& each : answer.figures) {
    table.rows.push_back({words(short_name(each.id)),
                          words(print_measured(each.figure, each.kind, answer.units)),
                          words(band_text(each, answer.units)), words(each.text)});
  }
  return table_of(table);
}

}  // namespace

std::string weigh_sheet(const WeighingAnswer& answer, const std::optional<KartOutline>& outline) {
  Sheet sheet("Weighing", answer.kart);
  for (const PageSection& section : weigh_page(answer, look_of_sheet()).sections()) {
    if (section.word == "WEIGHT" && outline)
      sheet.picture(scales_picture(answer, *outline), caption_of(answer));
    const bool table = section.word == "WEIGHT";
    sheet.section(section.word, table ? figures_table(answer) : paragraphs_of(section));
  }
  return sheet.html();
}

std::string height_sheet(const HeightAnswer& answer) {
  Sheet sheet("Height of the centre of mass", answer.kart);
  for (const PageSection& section : height_page(answer, look_of_sheet()).sections())
    sheet.section(section);
  return sheet.html();
}

}  // namespace kartwright::cli
