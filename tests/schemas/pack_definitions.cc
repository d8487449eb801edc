#include "tests/schemas/pack_definitions.h"

#include <functional>

#include <fmt/format.h>

#include "tests/schemas/document_json.h"

namespace kartwright {
namespace {

using Tree = nlohmann::ordered_json;
using NameList = std::vector<std::string>;

constexpr const char* kFrom = "of the built-in rules; tests/schemas writes it";
constexpr std::array<std::string_view, 8> kKindNames{"length", "mass",      "angle", "pressure",
                                                     "ratio",  "stiffness", "twist", "count"};

Tree pointer(std::string_view definition) {
  return {{"$ref", fmt::format("#/definitions/{}", definition)}};
}

Tree of_kind(Kind kind) { return pointer(kKindNames.at(static_cast<std::size_t>(kind))); }

/// A key may stand there with nothing behind it.
Tree or_nothing(const Tree& schema) {
  if (schema.contains("enum")) {
    Tree out = schema;
    out["enum"].push_back(nullptr);
    return out;
  }
  Tree any = schema.contains("anyOf") ? schema["anyOf"] : Tree::array({schema});
  any.push_back({{"type", "null"}});
  return {{"anyOf", any}};
}

/// Names as an editor sees them in YAML: `1` without quotes is a number.
Tree one_of(const NameList& names) {
  Tree values = Tree::array();
  for (const std::string& name : names) {
    const Tree plain = plain_scalar(name);
    if (!plain.is_string()) values.push_back(plain);
    values.push_back(name);
  }
  return {{"enum", values}};
}

Tree one_or_several(const NameList& names, int least) {
  Tree list{{"type", "array"}, {"items", one_of(names)}};
  if (least > 0) list["minItems"] = least;
  return {{"anyOf", {one_of(names), list}}};
}

Tree described(const std::string& words, const Tree& schema) {
  Tree out{{"description", words}};
  const bool pointer_alone = schema.contains("$ref");  // nothing counts beside a $ref
  if (pointer_alone) out["allOf"] = Tree::array({schema});
  if (!pointer_alone) out.update(schema);
  return out;
}

Tree closed(const Tree& properties) {
  return {{"$comment", kFrom},
          {"type", "object"},
          {"properties", properties},
          {"additionalProperties", false}};
}

template <typename Items>
NameList ids(const Items& items) {
  NameList all;
  for (const auto& item : items) all.push_back(item.id);
  return all;
}

std::string words_of(const Adjustment& a) {
  return fmt::format("{}: {}; + is {}", a.label, a.measured, a.directions[0]);
}

/// An object with a key for each adjustment; nothing where `schema` gives null.
Tree by_adjustment(const Pack& pack, const std::function<Tree(const Adjustment&)>& schema) {
  Tree properties = Tree::object();
  for (const Adjustment& each : pack.adjustments) {
    const Tree one = schema(each);
    if (!one.is_null()) properties[each.id] = described(words_of(each), one);
  }
  return closed(properties);
}

Tree setting_of(const Adjustment& a) {
  if (!a.listed()) return {{"anyOf", {of_kind(a.kind), one_of({"none"})}}};
  NameList positions = a.positions;
  if (std::find(positions.begin(), positions.end(), "none") == positions.end())
    positions.emplace_back("none");
  return one_of(positions);
}

/// An object with some of these keys, each of one kind.
Tree ends(Kind kind, const std::vector<std::pair<std::string, std::string>>& keys) {
  Tree properties = Tree::object();
  for (const auto& [key, words] : keys)
    properties[key] = described(words, or_nothing(of_kind(kind)));
  return {{"type", "object"}, {"properties", properties}, {"additionalProperties", false}};
}

Tree range_of(const Adjustment& a) {
  if (a.listed()) return one_or_several(a.positions, 1);
  return ends(a.kind, {{"from", "from here"}, {"to", "to here"}, {"step", "in such steps"}});
}

Tree limit_of(const Adjustment& a) {
  if (!a.listed()) return ends(a.kind, {{"at-least", "at the least"}, {"at-most", "at the most"}});
  const Tree allowed = described("allowed positions", or_nothing(one_or_several(a.positions, 1)));
  return {
      {"type", "object"}, {"properties", {{"allowed", allowed}}}, {"additionalProperties", false}};
}

Tree parts_of(const Adjustment& a) {
  return a.parts ? one_or_several(a.positions, 0) : Tree(nullptr);
}

Tree minutes_of(const Adjustment&) {
  return {{"type", {"number", "string"}},
          {"pattern", R"(^\+?-?(?:(?!0[0-9])[0-9]+\.?[0-9]*|\.[0-9]+)(?:[eE][-+]?[0-9]+)?$)"},
          {"minimum", 0},
          {"maximum", 600}};
}

Tree amounts(const std::vector<MeasureDef>& sizes) {
  Tree properties = Tree::object();
  for (const MeasureDef& each : sizes)
    properties[each.id] = described(each.label, of_kind(each.kind));
  return closed(properties);
}

Tree measured(const Pack& pack) {
  Tree out = amounts(pack.measures);
  out["properties"]["corner-weights"] =
      described("what the four scales show, the driver aboard", pointer("corner-weights"));
  return out;
}

Tree bands(const Pack& pack) {
  Tree properties = Tree::object();
  for (const MeasureDef& each : pack.measures)
    properties[each.id] = described(
        each.label, ends(each.kind, {{"from", "in order from here"}, {"to", "in order to here"}}));
  return closed(properties);
}

Tree facts(const Pack& pack, bool stated) {
  Tree properties = Tree::object();
  for (const FactDef& each : pack.facts) {
    if (stated && !each.entered) continue;
    properties[each.id] = described(each.label, one_of(each.values));
  }
  return closed(properties);
}

NameList track_names(const Pack& pack) {
  NameList names{"unknown"};
  for (const TrackState& each : pack.tracks) names.push_back(each.id);
  return names;
}

Tree report_line(const Pack& pack) {
  std::string symptoms;
  for (const Symptom& each : pack.symptoms) symptoms += (symptoms.empty() ? "" : "|") + each.id;
  return {{"$comment", kFrom},
          {"description",
           "symptom[@phase][=0..3][,left|right][,early|late][,sure|fair|unsure]; 0 "
           "denies it"},
          {"type", "string"},
          {"pattern", fmt::format("^({})(@(entry|mid|exit|straight|any))?(=[0-3])?"
                                  "(,(left|right|early|late|sure|fair|unsure))*$",
                                  symptoms)},
          {"examples", {"push@entry=2", "hop@mid=3,late,sure"}}};
}

/// A move, with what else its object holds.
Tree move(const Pack& pack, const Tree& more) {
  Tree ways = Tree::array();
  NameList directions;
  for (const Adjustment& each : pack.adjustments) {
    ways.push_back({{"properties",
                     {{"adjustment", {{"const", each.id}}},
                      {"direction", one_of({each.directions[0], each.directions[1]})}}}});
    for (const std::string& name : each.directions) {
      if (std::find(directions.begin(), directions.end(), name) == directions.end())
        directions.push_back(name);
    }
  }
  Tree properties{{"adjustment", described("id of the adjustment", one_of(ids(pack.adjustments)))},
                  {"direction", described("one of its two directions", one_of(directions))}};
  properties.update(more);
  Tree out = closed(properties);
  out["required"] = Tree::array();
  for (const auto& entry : properties.items()) out["required"].push_back(entry.key());
  out["anyOf"] = ways;
  return out;
}

Tree refused_move(const Pack& pack) {
  const NameList reasons{"end-stop",    "class-limit",      "no-part",       "no-time",
                         "makes-worse", "not-on-this-kart", "effect-unknown"};
  return move(pack, {{"reason", described("why it was refused", one_of(reasons))}});
}

Tree axis_levels(const Pack& pack) {
  Tree properties = Tree::object();
  for (const Axis& each : pack.axes)
    properties[each.id] =
        described(each.label, one_of({"low", "fair", "high", "not-low", "not-high"}));
  return closed(properties);
}

NameList axes_and_families(const Pack& pack) {
  NameList names = ids(pack.axes);
  for (const Axis& each : pack.axes) {
    if (std::find(names.begin(), names.end(), each.family) == names.end())
      names.push_back(each.family);
  }
  return names;
}

/// An object over axes and families; a crew's own axes may stand in it as well.
Tree over_axes(const Pack& pack, const std::string& words, std::string_view item) {
  Tree properties = Tree::object();
  for (const std::string& name : axes_and_families(pack))
    properties[name] = described(words, pointer(item));
  return {{"$comment", kFrom},        {"description", words + ", by axis or family"},
          {"type", "object"},         {"minProperties", 1},
          {"properties", properties}, {"additionalProperties", pointer(item)}};
}

/// A name of the built-in rules, or another.
Tree suggested(const std::string& words, const NameList& names) {
  return {{"$comment", kFrom},
          {"description", words + ", of the built-in rules or of a crew's own"},
          {"anyOf", {one_of(names), pointer("text")}}};
}

Tree named(const NameList& names) {
  Tree out{{"$comment", kFrom}};
  out.update(one_of(names));
  return out;
}

void add_names(const Pack& pack, Tree& out) {
  out["adjustment-name"] = suggested("id of an adjustment", ids(pack.adjustments));
  out["axis-name"] = suggested("an axis or a family", axes_and_families(pack));
  out["caution-name"] = suggested("id of a caution", ids(pack.cautions));
  out["fact-name"] = suggested("id of a fact", ids(pack.facts));
  out["level-name"] = suggested("id of a level of the drill", ids(pack.drills.levels));
  out["measure-name"] = suggested("id of a measure", ids(pack.measures));
  out["symptom-name"] = suggested("id of a symptom", ids(pack.symptoms));
  out["track-name"] = suggested("id of a track state", ids(pack.tracks));
}

}  // namespace

Tree pack_definitions(const Pack& pack) {
  Tree out = Tree::object();
  out["settings"] = by_adjustment(pack, setting_of);
  out["ranges"] = by_adjustment(pack, range_of);
  out["limits"] = by_adjustment(pack, limit_of);
  out["parts"] = by_adjustment(pack, parts_of);
  out["minutes"] = by_adjustment(pack, minutes_of);
  out["measured"] = measured(pack);
  out["bands"] = bands(pack);
  out["dimensions"] = amounts(pack.dimensions);
  out["stated-facts"] = facts(pack, true);
  out["facts-that-hold"] = facts(pack, false);
  out["track"] = named(track_names(pack));
  out["laps"] = named(pack.fact("laps")->values);
  out["report-line"] = report_line(pack);
  out["symptom"] = named(ids(pack.symptoms));
  out["fault"] = named(ids(pack.faults));
  out["move"] = move(pack, Tree::object());
  out["refused-move"] = refused_move(pack);
  out["axis-levels"] = axis_levels(pack);
  out["row"] = over_axes(pack, "factor of it", "number");
  out["moves"] = over_axes(pack, "notches a reference step, mean and spread", "spread");
  add_names(pack, out);
  return out;
}

}  // namespace kartwright
