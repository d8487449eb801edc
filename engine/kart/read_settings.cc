#include "engine/kart/read_settings.h"

#include <algorithm>

#include <fmt/format.h>

#include "engine/kart/read_range.h"

namespace kartwright {

namespace {

constexpr double kMostMinutes = 600.0;

/// "between 1300 mm and 1400 mm", in the system that the crew wrote.
std::string range_text(const Adjustment& adjustment, const Range& range, System system) {
  return fmt::format("between {} and {}", print_quantity(range.from, adjustment.kind, system),
                     print_quantity(range.to, adjustment.kind, system));
}

void check_in_range(KartReading& reading, const Adjustment& adjustment, const Reach& reach,
                    const Node& node, const Quantity& now) {
  const Range& range = reach.range;
  const bool low = now.si < range.from && !same_value(now.si, range.from, range.step);
  const bool high = now.si > range.to && !same_value(now.si, range.to, range.step);
  const System system = now.written.value_or(System::metric);
  if (low || high) {
    reading.error(node.span, Code::setting_out_of_range,
                  fmt::format("`{}` at {} is outside its range", adjustment.id,
                              as_written(now, adjustment.kind)),
                  fmt::format("{}; where this kart goes further, say so under `ranges`",
                              range_text(adjustment, range, system)));
    return;
  }
  const double nearest = nearest_place(reach.travel, now.si);
  if (same_value(nearest, now.si, range.step)) return;
  reading.warning(node.span, Code::setting_off_step,
                  fmt::format("`{}` at {} stands between two steps, the nearest is {}",
                              adjustment.id, as_written(now, adjustment.kind),
                              print_quantity(nearest, adjustment.kind, system)),
                  fmt::format("moves go to the steps counted from {} by {}; where this kart has "
                              "others, say so under `ranges`",
                              print_quantity(range.from, adjustment.kind, system),
                              print_quantity(range.step, adjustment.kind, system)));
}

/// A value on the grid is given as the grid has it, so that equal settings compare equal.
std::optional<Quantity> read_value(KartReading& reading, const Adjustment& adjustment,
                                   const Reach& reach, const Node& node) {
  const std::optional<Quantity> now = reading.quantity(node, adjustment.kind);
  if (!now) return {};
  if (reach.trusted) check_in_range(reading, adjustment, reach, node, *now);
  const double place = nearest_place(reach.travel, now->si);
  return Quantity{same_value(place, now->si, reach.range.step) ? place : now->si, now->written};
}

std::optional<Quantity> read_position(KartReading& reading, const Adjustment& adjustment,
                                      const Reach& reach, const Node& node) {
  const std::string text = scalar_text(reading.document, node, reading.findings, adjustment.id);
  if (node.type != Node::Type::scalar) return {};
  const std::optional<double> place = place_named(reach.travel, text);
  if (place) return Quantity{*place};
  const bool in_pack = std::find(adjustment.positions.begin(), adjustment.positions.end(), text) !=
                       adjustment.positions.end();
  const std::string near = in_pack ? "" : nearest_name(text, reach.travel.names);
  reading.error(node.span, Code::setting_out_of_range,
                fmt::format("`{}` has no position `{}` on this kart", adjustment.id, text),
                near.empty() ? "one of " + listing(reach.travel.names)
                             : fmt::format("did you mean `{}`?", near));
  return {};
}

std::optional<double> take_end(KartReading& reading, Fields& fields, std::string_view key,
                               Kind kind) {
  const Node* const node = fields.optional(key);
  if (node == nullptr) return {};
  const std::optional<Quantity> end = reading.quantity(*node, kind);
  return end ? std::optional(end->si) : std::nullopt;
}

std::vector<std::string> take_allowed(KartReading& reading, Fields& fields,
                                      const Adjustment& adjustment) {
  const Node* const node = fields.optional("allowed");
  if (node == nullptr) return {};
  if (node->type == Node::Type::list && node->items.empty()) {
    reading.error(node->span, Code::wrong_shape,
                  fmt::format("the class allows no position of `{}` at all", adjustment.id));
  }
  return read_positions(reading, adjustment, *node);
}

ClassLimit read_limit(KartReading& reading, const Adjustment& adjustment, const Node* node) {
  ClassLimit limit;
  if (node == nullptr) return limit;
  Fields fields(reading.document, *node, reading.findings,
                fmt::format("the class limit of `{}`", adjustment.id));
  if (adjustment.listed()) {
    limit.allowed = take_allowed(reading, fields, adjustment);
  } else {
    limit.at_least = take_end(reading, fields, "at-least", adjustment.kind);
    limit.at_most = take_end(reading, fields, "at-most", adjustment.kind);
  }
  fields.finish();
  if (limit.at_least && limit.at_most && *limit.at_least > *limit.at_most) {
    reading.error(node->span, Code::implausible,
                  fmt::format("the class limit of `{}` leaves nothing", adjustment.id),
                  "`at-least` must not be above `at-most`");
  }
  return limit;
}

std::string limit_text(const Setting& setting, System system) {
  const ClassLimit& limit = setting.limit;
  if (!limit.allowed.empty()) return "allowed: " + listing(limit.allowed);
  std::string text;
  if (limit.at_least) text = "at least " + print_setting(setting, *limit.at_least, system);
  if (!limit.at_most) return text;
  return text + (text.empty() ? "" : ", ") + "at most " +
         print_setting(setting, *limit.at_most, system);
}

void check_class(KartReading& reading, const Setting& setting, const Node& node, System system) {
  if (class_allows(setting, setting.now)) return;
  const ClassLimit& limit = setting.limit;
  if (limit.at_least && limit.at_most && *limit.at_least > *limit.at_most) return;  // told already
  reading.error(node.span, Code::over_class_limit,
                fmt::format("the kart breaks its own class limit: `{}` is {}",
                            setting.adjustment->id, print_setting(setting, setting.now, system)),
                limit_text(setting, system));
}

/// Parts on hand, in the pack's order. A file that does not say is taken to have them all, and what
/// is fitted is there whether it is listed or not.
std::vector<std::string> read_parts(KartReading& reading, const Adjustment& adjustment,
                                    const Node* node, const std::string& fitted) {
  if (node == nullptr) return adjustment.parts ? adjustment.positions : std::vector<std::string>{};
  if (!adjustment.parts) {
    reading.error(node->span, Code::unknown_key,
                  fmt::format("`{}` is not a key of `parts`", adjustment.id),
                  "it is moved, not swapped; how far it goes stands under `ranges`");
    return {};
  }
  const std::vector<std::string> listed = read_positions(reading, adjustment, *node);
  std::vector<std::string> here;
  for (const std::string& position : adjustment.positions) {
    const bool has = std::find(listed.begin(), listed.end(), position) != listed.end();
    if (has || position == fitted) here.push_back(position);
  }
  return here;
}

double read_minutes(KartReading& reading, const Adjustment& adjustment, const Node* node) {
  if (node == nullptr) return adjustment.minutes;
  const double minutes = scalar_number(reading.document, *node, reading.findings, adjustment.id);
  if (minutes >= 0.0 && minutes <= kMostMinutes) return minutes;
  reading.error(node->span, Code::implausible,
                fmt::format("no move of `{}` takes {} minutes", adjustment.id, node->text),
                fmt::format("between 0 and {} minutes", kMostMinutes));
  return adjustment.minutes;
}

std::optional<Setting> read_setting(KartReading& reading, const SettingSections& sections,
                                    const Entry& entry) {
  const Adjustment& adjustment = *reading.pack.adjustment(entry.key);
  Reach reach = read_reach(reading, adjustment, given(sections.ranges, entry.key));
  const auto now = adjustment.listed() ? read_position(reading, adjustment, reach, entry.value)
                                       : read_value(reading, adjustment, reach, entry.value);
  Setting setting{.adjustment = &adjustment,
                  .now = now ? now->si : 0.0,
                  .travel = std::move(reach.travel),
                  .limit = read_limit(reading, adjustment, given(sections.limits, entry.key)),
                  .minutes = read_minutes(reading, adjustment, given(sections.minutes, entry.key))};
  setting.in_the_box =
      read_parts(reading, adjustment, given(sections.parts, entry.key), entry.value.text);
  if (!now) return {};
  check_class(reading, setting, entry.value, now->written.value_or(System::metric));
  return setting;
}

/// What other sections say of an adjustment that is not fitted: it counts for nothing, but must be
/// right.
void read_around(KartReading& reading, const SettingSections& sections, const Entry& entry) {
  const Adjustment& adjustment = *reading.pack.adjustment(entry.key);
  read_reach(reading, adjustment, given(sections.ranges, entry.key));
  read_limit(reading, adjustment, given(sections.limits, entry.key));
  read_minutes(reading, adjustment, given(sections.minutes, entry.key));
  read_parts(reading, adjustment, given(sections.parts, entry.key), entry.value.text);
}

/// `none` says that the kart has no such thing, unless it is a position of its own.
bool not_fitted(const Adjustment& adjustment, const Node& value) {
  const std::vector<std::string>& positions = adjustment.positions;
  return value.text == "none" &&
         std::find(positions.begin(), positions.end(), "none") == positions.end();
}

/// A section may only speak of what has a setting.
void check_section(KartReading& reading, const Node* settings, const Node* section,
                   std::string_view title, const std::vector<std::string>& known) {
  for (const Entry* entry : named_entries(reading, section, title, "an adjustment", known)) {
    if (settings != nullptr && settings->find(entry->key) != nullptr) continue;
    reading.error(entry->span, Code::missing_key,
                  fmt::format("`{}` speaks of `{}`, which has no setting", title, entry->key),
                  "give it under `settings`, or take this line out");
  }
}

}  // namespace

std::map<std::string, Setting> read_settings(KartReading& reading,
                                             const SettingSections& sections) {
  const std::vector<std::string> known = ids_of(reading.pack.adjustments);
  std::map<std::string, Setting> settings;
  for (const Entry* entry :
       named_entries(reading, sections.settings, "settings", "an adjustment", known)) {
    if (not_fitted(*reading.pack.adjustment(entry->key), entry->value)) {
      read_around(reading, sections, *entry);
      continue;
    }
    if (auto setting = read_setting(reading, sections, *entry)) {
      settings.emplace(entry->key, std::move(*setting));
    }
  }
  check_section(reading, sections.settings, sections.ranges, "ranges", known);
  check_section(reading, sections.settings, sections.limits, "limits", known);
  check_section(reading, sections.settings, sections.parts, "parts", known);
  check_section(reading, sections.settings, sections.minutes, "minutes", known);
  return settings;
}

}  // namespace kartwright
