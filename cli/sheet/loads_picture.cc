#include "cli/sheet/loads_picture.h"

#include <array>

#include <fmt/format.h>

#include "cli/sheet/kart_picture.h"

namespace kartwright::cli {
namespace {

constexpr std::array<std::string_view, 4> kWheelKeys{"fl", "fr", "rl", "rr"};
constexpr std::array<std::string_view, 4> kStandingKeys{"lf", "rf", "lr", "rr"};

const CornerLoads& loads_in(const PaperSide& side, std::size_t phase) {
  return side.phases.at(phase).loads;
}

/// The lines beside one wheel, and the same in words.
std::vector<WheelFigure> lines_of(const LoadsView& view, std::size_t wheel, std::string& in_words) {
  std::vector<WheelFigure> lines;
  const auto load = [&](const PaperSide& side, const std::string& json, const char* style) {
    lines.push_back({force_text(by_wheel(loads_in(side, view.phase)).at(wheel), view.units),
                     fmt::format("{}/loads/{}", json, kWheelKeys.at(wheel)), style});
  };
  in_words += fmt::format(" {}", wheel_name(wheel));
  if (view.standing) {
    lines.push_back({print_quantity(by_wheel(*view.standing).at(wheel), Kind::mass, view.units),
                     fmt::format("{}/{}", view.json_standing, kStandingKeys.at(wheel)),
                     "small soft"});
    in_words += fmt::format(" {} standing,", lines.back().text);
  }
  load(*view.before, view.json_before, "now");
  in_words += " " + lines.back().text;
  if (view.after != nullptr) {
    load(*view.after, view.json_after, "then");
    in_words += ", after the change " + lines.back().text;
  }
  in_words += ";";
  return lines;
}

}  // namespace

Picture loads_picture(const LoadsView& view) {
  FromAbove above{
      .kart = outline_of(view.before->kart, view.front_tyre_width, view.rear_tyre_width),
      .wheels = {},
      .was = loads_in(*view.before, view.phase),
      .mass = mass_place(view.before->kart),
      .units = view.units,
      .turns_left = true};
  if (view.after != nullptr) {
    above.is = loads_in(*view.after, view.phase);
    above.mass_after = mass_place(view.after->kart);
  }
  if (view.standing) above.legend.push_back({"standing", "small soft"});
  above.legend.push_back({"in the corner", "now"});
  if (view.after != nullptr) above.legend.push_back({"after", "then"});
  std::string in_words = fmt::format("The kart from above, to scale, {}:", view.where);
  for (std::size_t i = 0; i < above.wheels.size(); ++i)
    above.wheels.at(i) = lines_of(view, i, in_words);
  in_words.back() = '.';
  return from_above(above, in_words);
}

Picture line_picture(const LoadsView& view, std::string_view json_before,
                     std::string_view json_after) {
  FromBehind behind{.was = view.before->kart,
                    .is = {},
                    .rear_tyre_width = view.rear_tyre_width,
                    .line = view.before->line,
                    .line_after = {},
                    .json_before = std::string(json_before),
                    .json_after = std::string(json_after),
                    .units = view.units};
  if (view.after != nullptr) {
    behind.is = view.after->kart;
    behind.line_after = view.after->line;
  }
  return from_behind(behind);
}

std::string line_caption(bool with_change) {
  std::string text = "From behind: the line from the centre of mass to the outside rear tyre";
  if (with_change)
    text +=
        ", broad as it is, thin after the change; to scale, so a small change is told by the "
        "figures";
  return text + ". The nearer it is to upright, the more of the push goes down into the tyre.";
}

}  // namespace kartwright::cli
