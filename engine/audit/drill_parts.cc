#include "engine/audit/drill_parts.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

namespace kartwright {
namespace {

using enum FieldKind;

std::string in_a_row(const std::vector<std::string>& names) {
  return fmt::format("{}", fmt::join(names, ", "));
}

std::string flag(bool is) { return is ? "yes" : "no"; }

std::string amount(const std::optional<double>& si) { return si ? fmt::format("{}", *si) : ""; }

PackPart part_of_level(const DrillLevel& level) {
  return {"drill level",
          level.id,
          level.source,
          {{"place", numbers, fmt::format("{}", level.place)},
           {"complaints", numbers, fmt::format("{} to {}", level.least, level.most)},
           {"reports", condition, std::string(name_of(level.reports))},
           {"tracks", condition, in_a_row(level.tracks)},
           {"moved", numbers, fmt::format("{}", level.moved)},
           {"broken", condition, flag(level.broken)},
           {"used-up", condition, flag(level.used_up)},
           {"laps", condition, level.laps},
           {"headline", condition, level.headline},
           {"offers", condition, in_a_row(level.offers)},
           {"label", texts, level.label},
           {"teaches", texts, level.teaches}}};
}

PackPart part_of_case(const DrillCase& drill) {
  PackPart part{"drill case",
                drill.id,
                drill.source,
                {{"level", condition, drill.level},
                 {"track", condition, drill.track},
                 {"said", condition, drill.said},
                 {"laps", condition, drill.laps},
                 {"minutes", numbers, fmt::format("{}", drill.minutes)},
                 {"hours", numbers, fmt::format("{}", drill.hours)},
                 {"title", texts, drill.title},
                 {"because", texts, drill.because}}};
  for (const auto& [fact, value] : drill.facts)
    part.fields.push_back({"fact " + fact, condition, value});
  for (const DrillSetting& each : drill.settings) {
    part.fields.push_back(
        {"setting " + each.adjustment, numbers, amount(each.value) + each.position});
  }
  for (const DrillLimit& each : drill.limits) {
    part.fields.push_back({"limit " + each.adjustment, numbers,
                           fmt::format("{} to {}; {}", amount(each.at_least), amount(each.at_most),
                                       in_a_row(each.allowed))});
  }
  return part;
}

}  // namespace

std::vector<PackPart> drill_parts(const Pack& pack) {
  std::vector<PackPart> parts;
  for (const DrillLevel& level : pack.drills.levels) parts.push_back(part_of_level(level));
  for (const DrillCase& drill : pack.drills.cases) parts.push_back(part_of_case(drill));
  for (const DrillWords& words : pack.drills.words) {
    parts.push_back({"words of a drill",
                     words.id,
                     words.source,
                     {{"says", texts, fmt::format("{}", fmt::join(words.says, "; "))}}});
  }
  for (const DrillEnd& end : pack.drills.ends) {
    parts.push_back({"end of the kart",
                     end.id,
                     end.source,
                     {{"axes", condition, in_a_row(end.axes)},
                      {"label", texts, end.label},
                      {"because", texts, end.because}}});
  }
  return parts;
}

}  // namespace kartwright
