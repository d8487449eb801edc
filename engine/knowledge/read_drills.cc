// What a trainee practises on, rules/drills/.

#include <algorithm>
#include <array>
#include <cmath>

#include <fmt/format.h>

#include "engine/knowledge/condition_reader.h"
#include "engine/knowledge/section_reader.h"

namespace kartwright {
namespace {

/// A whole number in a range; the fallback where the key is missing or the number is none of them.
int whole_number(Fields& fields, std::string_view key, int fallback, int least, int most) {
  const double number = fields.number_or(key, fallback);
  if (number == std::floor(number) && number >= least && number <= most)
    return static_cast<int>(number);
  fields.findings().add(fields.document().at(
      fields.node().find(key)->span, Code::bad_rule, "`" + std::string(key) + "` cannot be that",
      "a whole number from " + std::to_string(least) + " to " + std::to_string(most)));
  return fallback;
}

/// One word of a few under a key that may be missing.
std::string one_of(Fields& fields, std::string_view key, std::string_view what,
                   const std::vector<std::string>& known, const Section& section) {
  std::string word = fields.text_or(key, "");
  const Node* const node = fields.optional(key);
  if (node != nullptr) check_names(node, what, {word}, known, section);
  return word;
}

/// Names under a key that may be missing, each checked at its own place.
std::vector<std::string> names_under(Fields& fields, std::string_view key, std::string_view what,
                                     const std::vector<std::string>& known,
                                     const Section& section) {
  std::vector<std::string> names = fields.texts_or_none(key);
  check_names(fields.node().find(key), what, names, known, section);
  return names;
}

std::vector<std::string> laps_known(const Section& section) {
  const auto found = section.names.fact_values.find("laps");
  return found == section.names.fact_values.end() ? std::vector<std::string>{} : found->second;
}

void read_complaints(Fields& fields, const Section& section, DrillLevel& level) {
  constexpr int kMost = 4;
  const Node* const node = fields.required("complaints");
  if (node == nullptr) return;
  if (node->type == Node::Type::scalar) {
    level.least = level.most = whole_number(fields, "complaints", 1, 1, kMost);
    return;
  }
  Fields inner(section.document, *node, section.findings, "`complaints`");
  level.least = whole_number(inner, "from", 1, 1, kMost);
  level.most = whole_number(inner, "to", level.least, level.least, kMost);
  inner.finish();
}

ReportsFit reports_fit(Fields& fields, const Section& section) {
  const std::string word = one_of(fields, "reports", "a way that reports go together",
                                  {"any", "agree", "conflict"}, section);
  if (word == "agree") return ReportsFit::agree;
  return word == "conflict" ? ReportsFit::conflict : ReportsFit::any;
}

void read_level(Fields& fields, const Section& section, Pack& pack) {
  constexpr int kMostMoved = 10;
  constexpr int kLastPlace = 99;
  const Names& names = section.names;
  DrillLevel level;
  level.id = fields.text("level");
  level.label = fields.text("label");
  level.teaches = fields.text("teaches");
  level.place = whole_number(fields, "place", 1, 1, kLastPlace);
  read_complaints(fields, section, level);
  level.reports = reports_fit(fields, section);
  level.tracks = names_under(fields, "tracks", "a track state", names.tracks, section);
  level.moved = whole_number(fields, "moved", 0, 0, kMostMoved);
  level.broken = read_flag(fields, "broken", section);
  level.used_up = read_flag(fields, "used-up", section);
  level.laps = one_of(fields, "laps", "a word of the clock", laps_known(section), section);
  level.headline =
      one_of(fields, "headline", "a headline",
             {"stop-and-fix", "ask-again", "leave-alone", "wait-for-track", "change"}, section);
  level.offers = names_under(fields, "offers", "an adjustment", names.adjustments, section);
  level.source = section.source(fields.node());
  const bool is_map = fields.node().type == Node::Type::map;
  if (is_map && (level.tracks.empty() || level.offers.empty() || level.headline.empty())) {
    section.refuse(fields.node(), Code::bad_rule, "a level without tracks, offers or a headline",
                   "name at least one of each: a case is drawn from them");
  }
  pack.drills.levels.push_back(std::move(level));
}

std::optional<Kind> kind_of_setting(const std::string& adjustment, const Section& section) {
  const auto found = section.names.kinds.find(adjustment);
  return found == section.names.kinds.end() ? std::nullopt : kind_named(found->second);
}

const std::vector<std::string>* positions_of(const std::string& adjustment,
                                             const Section& section) {
  const auto found = section.names.positions.find(adjustment);
  const bool listed = found != section.names.positions.end() && !found->second.empty();
  return listed ? &found->second : nullptr;
}

/// A value of an adjustment, SI; nothing where it is none, which is reported.
std::optional<double> amount_at(const std::string& adjustment, const Node& node,
                                const Section& section) {
  const auto kind = kind_of_setting(adjustment, section);
  if (!kind) return std::nullopt;
  const auto found = scalar_quantity(section.document, node, section.findings, *kind);
  return found ? std::optional(found->si) : std::nullopt;
}

/// The entries of a map of adjustments that may be missing; a key that is none is reported.
template <typename Read>
void each_adjustment(Fields& fields, std::string_view key, const Section& section, Read read) {
  const Node* const node = fields.optional(key);
  if (node == nullptr) return;
  if (node->type != Node::Type::map) {
    section.refuse(*node, Code::wrong_shape, "`" + std::string(key) + "` must be a map",
                   "such as `{rear-width: 1400 mm}`");
  }
  for (const Entry& entry : node->entries) {
    const Node at{.type = Node::Type::scalar, .text = entry.key, .span = entry.span, .entries = {}};
    if (known_name(section.document, at, section.findings, "an adjustment",
                   section.names.adjustments))
      read(entry);
  }
}

void read_case_settings(Fields& fields, const Section& section, DrillCase& drill) {
  each_adjustment(fields, "settings", section, [&](const Entry& entry) {
    DrillSetting setting{.adjustment = entry.key};
    if (const auto* const positions = positions_of(entry.key, section)) {
      setting.position = entry.value.text;
      known_name(section.document, entry.value, section.findings, "a position", *positions);
    } else {
      setting.value = amount_at(entry.key, entry.value, section);
    }
    drill.settings.push_back(std::move(setting));
  });
}

void read_case_limits(Fields& fields, const Section& section, DrillCase& drill) {
  each_adjustment(fields, "limits", section, [&](const Entry& entry) {
    Fields inner(section.document, entry.value, section.findings, "a limit");
    DrillLimit limit{.adjustment = entry.key};
    if (const auto* const positions = positions_of(entry.key, section)) {
      limit.allowed = names_under(inner, "allowed", "a position", *positions, section);
    } else {
      if (const Node* least = inner.optional("at-least"))
        limit.at_least = amount_at(entry.key, *least, section);
      if (const Node* most = inner.optional("at-most"))
        limit.at_most = amount_at(entry.key, *most, section);
    }
    inner.finish();
    drill.limits.push_back(std::move(limit));
  });
}

void read_case_facts(Fields& fields, const Section& section, DrillCase& drill) {
  const Node* const node = fields.optional("facts");
  if (node == nullptr) return;
  if (node->type != Node::Type::map) {
    section.refuse(*node, Code::wrong_shape, "`facts` must be a map", "such as `{hit: yes}`");
  }
  for (const Entry& entry : node->entries) {
    const Node at{.type = Node::Type::scalar, .text = entry.key, .span = entry.span, .entries = {}};
    if (!known_name(section.document, at, section.findings, "a fact", section.names.facts()))
      continue;
    known_name(section.document, entry.value, section.findings, "a value of it",
               section.names.fact_values.at(entry.key));
    drill.facts.emplace_back(entry.key, entry.value.text);
  }
}

double case_clock(Fields& fields, std::string_view key, double usual) {
  const double value = fields.number_or(key, usual);
  if (value >= 0.0) return value;
  fields.findings().add(fields.document().at(fields.node().find(key)->span, Code::implausible,
                                             "`" + std::string(key) + "` cannot be negative"));
  return usual;
}

void read_named(Fields& fields, const Section& section, Pack& pack) {
  DrillCase drill;
  drill.id = fields.text("case");
  drill.level = fields.text("level");
  check_names(fields.node().find("level"), "a level", {drill.level}, section.names.drill_levels,
              section);
  drill.title = fields.text("title");
  drill.because = fields.text("because");
  drill.track = fields.text("track");
  check_names(fields.node().find("track"), "a track state", {drill.track}, section.names.tracks,
              section);
  drill.said = fields.text("said");
  drill.laps = one_of(fields, "laps", "a word of the clock", laps_known(section), section);
  read_case_facts(fields, section, drill);
  read_case_settings(fields, section, drill);
  read_case_limits(fields, section, drill);
  drill.minutes = case_clock(fields, "minutes", drill.minutes);
  drill.hours = case_clock(fields, "hours", drill.hours);
  drill.source = section.source(fields.node());
  pack.drills.cases.push_back(std::move(drill));
}

void read_says(Fields& fields, const Section& section, Pack& pack) {
  const std::array<std::pair<std::string, std::vector<std::string>>, 3> about{
      std::pair{std::string("symptom"), section.names.symptoms},
      {"phase", {"entry", "mid", "exit", "straight"}},
      {"severity", {"1", "2", "3"}}};
  DrillWords words;
  for (const auto& [key, known] : about) {
    const std::string name = one_of(fields, key, "a " + key, known, section);
    if (!name.empty()) words.id = fmt::format("{} {}", key, name);
  }
  words.says = fields.texts_or_none("says");
  words.source = section.source(fields.node());
  if (words.id.empty() || words.says.empty()) {
    section.refuse(fields.node(), Code::bad_rule, "words that say nothing, or of nothing",
                   "`symptom`, `phase` or `severity`, and what the driver `says`");
  }
  pack.drills.words.push_back(std::move(words));
}

void read_drill_end(Fields& fields, const Section& section, Pack& pack) {
  DrillEnd end;
  end.id = fields.text("end");
  check_names(fields.node().find("end"), "an end of the kart", {end.id}, {"front", "rear"},
              section);
  end.label = fields.text("label");
  end.axes = names_under(fields, "axes", "an axis", section.names.axes_and_families(), section);
  end.because = fields.text("because");
  end.source = section.source(fields.node());
  pack.drills.ends.push_back(std::move(end));
}

}  // namespace

void read_drills(Fields& fields, const Section& section, Pack& pack) {
  using Read = void (*)(Fields&, const Section&, Pack&);
  struct List {
    std::string_view key;
    std::string_view what;
    Read read;
  };
  for (const List& list :
       {List{"drill-levels", "a level", read_level}, List{"drill-cases", "a case", read_named},
        List{"drill-words", "words of a driver", read_says},
        List{"drill-ends", "an end of the kart", read_drill_end}}) {
    const Node* const node = fields.optional(list.key);
    if (node == nullptr) continue;
    for (const Node& item : list_items(*node, list.key, section)) {
      Fields inner(section.document, item, section.findings, std::string(list.what));
      list.read(inner, section, pack);
      inner.finish();
    }
  }
}

}  // namespace kartwright
