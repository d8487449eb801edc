// The writer of kart files to begin with. Wording lives here, what can be set lives in the pack.

#include <algorithm>

#include <fmt/format.h>

#include "engine/kart/kart.h"
#include "engine/kart/travel.h"

namespace kartwright {

namespace {

constexpr std::string_view kExampleHead =
    R"(# An invented kart, to try things on: no figure here was measured on a real one.
# Behind each setting: how it is measured, how far it usually goes, and which way is +.
# A kart that goes farther or less far says so under `ranges`; `none` is not fitted.

kart: example sprint kart

class:
  name: invented class
)";

constexpr std::string_view kBlankHead =
    R"(# A kart file to fill in. Take the # in front of a line away and put your value behind the
# colon. What is not on your kart stays out, or is `none`; what you do not know can wait.
# Lengths, masses and pressures need a unit, of either system: `1360 mm`, `53 1/2 in`.

kart: my kart

class:
#  name:
#  minimum-weight:            # kart and driver
)";

constexpr std::string_view kParts = R"(
# What is in the box or on the kart. An adjustment that is not named here has them all.
parts:
)";

constexpr std::string_view kTail = R"(
# How far it goes on this kart, where that is not the usual, and how long a move takes you.
ranges:
#  {ranged}: {{from: {from}, to: {to}, step: {step}}}
minutes:
#  {ranged}: {minutes}

# From the four scales, the driver aboard.
measured:
#  corner-weights: {{left-front: 35 kg, right-front: 35 kg, left-rear: 48 kg, right-rear: 48 kg}}
dimensions:
#  wheelbase: 1040 mm

# What can be mounted elsewhere, for `kartwright weigh`: a mass, the mount it is on, and where each
# mount is from any one point of the kart. What `ballast-fore-aft` moves does not stand here again.
carried:
#  lead plate:
#    mass: 5 kg
#    at: rear mount
#    mounts:
#      rear mount: {{forward: -100 mm, left: 150 mm, up: 0 mm}}
#      front mount: {{forward: 500 mm}}
#  seat: {{sideways: {{at: 0 mm, from: -20 mm, to: 20 mm, step: 10 mm}}}}
)";

/// `measured` up to its first comma: the rest is for a page of explanation, not for a line.
std::string how_measured(const Adjustment& adjustment) {
  std::string text = adjustment.measured.substr(0, adjustment.measured.find_first_of(",;(\n"));
  text.erase(text.find_last_not_of(' ') + 1);
  return text;
}

std::string printed(const Adjustment& adjustment, double si) {
  return print_quantity(si, adjustment.kind, System::metric);
}

std::string where_it_goes(const Adjustment& adjustment) {
  if (adjustment.listed()) return fmt::format("{}", fmt::join(adjustment.positions, ", "));
  return fmt::format("usual {} to {} by {}", printed(adjustment, adjustment.from),
                     printed(adjustment, adjustment.to), printed(adjustment, adjustment.step));
}

/// For a range, what one is written like in the two systems: "1360 mm or 53.54 in, ".
std::string forms(const Setting& setting) {
  if (setting.adjustment->listed()) return {};
  const std::string metric = print_setting(setting, setting.now, System::metric);
  const std::string imperial = print_setting(setting, setting.now, System::imperial);
  return "such as " + metric + (metric == imperial ? "" : " or " + imperial) + "; ";
}

std::string comment(const Adjustment& adjustment, const std::string& before) {
  return fmt::format("# {}; {}{}; + is {}", how_measured(adjustment), before,
                     where_it_goes(adjustment), adjustment.directions[0]);
}

/// A name from the pack as YAML: quoted unless it is plain words and numbers.
std::string yaml(const std::string& text) {
  const auto plain = [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == ' ' ||
           c == '-' || c == '.' || c == '/' || c == '%';
  };
  const bool safe = std::all_of(text.begin(), text.end(), plain) && !text.starts_with("- ") &&
                    !text.starts_with('%');
  if (safe && !text.empty()) return text;
  std::string quoted = "'";
  for (const char c : text) quoted += c == '\'' ? std::string("''") : std::string(1, c);
  return quoted + "'";
}

std::string yaml_list(const std::vector<std::string>& names) {
  std::string list;
  for (const std::string& name : names) list += (list.empty() ? "" : ", ") + yaml(name);
  return "[" + list + "]";
}

/// What the invented class of the example limits.
std::string class_limits(const Pack& pack, std::string_view mark) {
  std::string lines;
  for (const Adjustment& adjustment : pack.adjustments) {
    if (!adjustment.typical_limit) continue;
    lines += fmt::format("{}    {}: {{at-most: {}}}\n", mark, adjustment.id,
                         printed(adjustment, *adjustment.typical_limit));
  }
  return lines.empty() ? lines : fmt::format("{}  limits:\n", mark) + lines;
}

std::string setting_line(const Adjustment& adjustment, const Kart& kart, bool example) {
  const Setting* const setting = kart.setting(adjustment.id);
  if (!example) {
    const std::string how = setting == nullptr ? "" : forms(*setting);
    return fmt::format("#  {:<26} {}\n", adjustment.id + ":", comment(adjustment, how));
  }
  const std::string value =
      setting == nullptr ? "none" : yaml(print_setting(*setting, setting->now, System::metric));
  return fmt::format("  {:<28} {}\n", adjustment.id + ": " + value, comment(adjustment, ""));
}

std::string setting_lines(const Pack& pack, const Kart& kart, bool example) {
  std::string text = "\nsettings:\n";
  for (const Adjustment& each : pack.adjustments) text += setting_line(each, kart, example);
  return text;
}

std::string part_lines(const Kart& kart, std::string_view mark) {
  std::string text;
  for (const auto& [id, setting] : kart.settings) {
    if (!setting.adjustment->parts) continue;
    text += fmt::format("{}  {}: {}\n", mark, id, yaml_list(setting.adjustment->positions));
  }
  return text.empty() ? text : std::string(kParts) + text;
}

/// The sections that most karts do without, with one line each to copy.
std::string tail(const Kart& kart) {
  const auto ranged =
      std::find_if(kart.settings.begin(), kart.settings.end(),
                   [](const auto& each) { return !each.second.adjustment->listed(); });
  if (ranged == kart.settings.end()) return {};
  const Adjustment& adjustment = *ranged->second.adjustment;
  return fmt::format(kTail, fmt::arg("ranged", adjustment.id),
                     fmt::arg("from", printed(adjustment, adjustment.from)),
                     fmt::arg("to", printed(adjustment, adjustment.to)),
                     fmt::arg("step", printed(adjustment, adjustment.step)),
                     fmt::arg("minutes", adjustment.minutes));
}

}  // namespace

std::string start_kart_file(const Pack& pack, bool example) {
  const Kart kart = typical_kart(pack);
  const std::string_view mark = example ? "" : "#";
  return std::string(example ? kExampleHead : kBlankHead) + class_limits(pack, mark) +
         setting_lines(pack, kart, example) + part_lines(kart, mark) + tail(kart);
}

}  // namespace kartwright
