#include "cli/sheet/room_table.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "cli/change_table.h"
#include "cli/sheet/sheet.h"

namespace kartwright::cli {
namespace {

constexpr double kWide = 120.0, kTall = 14.0, kMargin = 7.0;

struct Ends {
  double low = 0, high = 0;
};

/// The whole mechanical range.
Ends range_of(const Setting& setting) {
  if (setting.travel.places.empty())
    return {0.0, std::max(0.0, static_cast<double>(setting.travel.names.size()) - 1.0)};
  return {setting.travel.places.front(), setting.travel.places.back()};
}

std::string from_to_text(const RoomGauge& gauge, System units) {
  const std::string now = print_setting(*gauge.setting, gauge.setting->now, units);
  return gauge.to ? from_to(now, print_setting(*gauge.setting, *gauge.to, units)) : now;
}

/// "1320 to 1400 mm"
std::string span_text(const Setting& setting, const OpenTravel& ends, System units) {
  const std::string low = print_setting(setting, ends.low, units);
  const std::string high = print_setting(setting, ends.high, units);
  if (low == high) return low + " only";
  const std::size_t unit = low.rfind(' ');
  const bool same = unit != std::string::npos && high.ends_with(low.substr(unit));
  return (same ? low.substr(0, unit) : low) + " to " + high;
}

/// Travel that is left either way: "−75, +25 mm".
std::string room_text(const RoomGauge& gauge, System units) {
  const Setting& setting = *gauge.setting;
  const double at = gauge.to.value_or(setting.now);
  const OpenTravel legal = open_travel(setting);
  if (!setting.travel.names.empty())
    return fmt::format("-{:g}, +{:g}", at - legal.low, legal.high - at);
  const auto travel = [&](double left) {
    return print_quantity(left, setting.adjustment->kind, units);
  };
  const std::string below = travel(at - legal.low);
  return "-" + below.substr(0, below.rfind(' ')) + ", +" + travel(legal.high - at);
}

/// The picture with its ends beside it, or below it where there is no room.
Markup gauge_cell(const RoomGauge& gauge, System units) {
  const Setting& setting = *gauge.setting;
  return element("div", {{"class", "gauge"}},
                 {gauge_picture(gauge).markup,
                  element("span", words(span_text(setting, open_travel(setting), units)))});
}

}  // namespace

Picture gauge_picture(const RoomGauge& gauge) {
  const Ends range = range_of(*gauge.setting);
  const OpenTravel legal = open_travel(*gauge.setting);
  const auto x = [&](double value) {
    const double low = std::min(range.low, legal.low);
    const double high = std::max(range.high, legal.high);
    const double share = high > low ? (value - low) / (high - low) : 0.5;
    return kMargin + share * (kWide - 2.0 * kMargin);
  };
  constexpr double kMiddle = kTall / 2.0;
  Drawing drawing(kTall, kWide);
  drawing.line({x(range.low), kMiddle}, {x(range.high), kMiddle}, "axis");
  drawing.box({x(legal.low), kMiddle - 2.5}, std::max(x(legal.high) - x(legal.low), 0.5), 5.0,
              "tyre");
  if (gauge.wanted) {
    const double at = x(*gauge.wanted);
    drawing.area(
        {{at, kMiddle - 5.0}, {at + 5.0, kMiddle}, {at, kMiddle + 5.0}, {at - 5.0, kMiddle}},
        "wanted");
  }
  drawing.circle({x(gauge.setting->now), kMiddle}, 4.0, "was-dot");
  if (gauge.to) drawing.circle({x(*gauge.to), kMiddle}, 4.0, "is-dot");
  const auto limit = [&](double end, Refusal why) {
    if (why != Refusal::end_stop) drawing.line({x(end), 0.0}, {x(end), kTall}, "limit");
  };
  limit(legal.low, legal.below);
  limit(legal.high, legal.above);
  return drawing.picture("gauge; the columns beside it say the same");
}

std::string_view gauge_legend() {
  return "○ now, ● where a change would put it, ◇ where the track to come would have it; the thick "
         "part is allowed, a red bar ends it where the class or the box does. Room left: down and "
         "up.";
}

std::vector<Markup> room_tables(const std::vector<RoomGauge>& gauges, System units) {
  const std::size_t half = (gauges.size() + 1) / 2;
  std::vector<Markup> out;
  for (std::size_t start = 0; start < gauges.size(); start += half) {
    SheetTable table{
        .caption = {}, .head = {"adjustment", "now → change", "allowed", "room left"}, .rows = {}};
    for (std::size_t i = start; i < std::min(start + half, gauges.size()); ++i) {
      const RoomGauge& gauge = gauges[i];
      const Setting& setting = *gauge.setting;
      table.rows.push_back({words(setting.adjustment->label), words(from_to_text(gauge, units)),
                            gauge_cell(gauge, units), words(room_text(gauge, units))});
    }
    table.first_leads = start == 0 && gauges.front().leads;
    out.push_back(table_of(table));
  }
  return out;
}

}  // namespace kartwright::cli
