// The rule files of checks that are measured, rules/gauges/.

#include <algorithm>
#include <array>

#include "engine/knowledge/section_reader.h"

namespace kartwright {
namespace {

constexpr std::string_view kSetting = "setting:";

template <typename T>
std::vector<std::string> ids_in(const std::vector<T>& all) {
  std::vector<std::string> ids;
  for (const T& item : all) ids.push_back(item.id);
  return ids;
}

/// Reads every item of a list that may be missing.
template <typename T, typename Reader>
std::vector<T> read_each(Fields& fields, std::string_view key, const Section& section,
                         Reader reader) {
  std::vector<T> out;
  const Node* const list = fields.optional(key);
  if (list == nullptr) return out;
  for (const Node& item : list_items(*list, key, section)) out.push_back(reader(item));
  return out;
}

Kind kind_of(Fields& fields, const Section& section) {
  const std::string name = fields.text("kind");
  if (name.empty()) {
    refuse_no_kind(fields, section);
    return Kind::length;
  }
  return read_kind(section.document, fields.node(), name, section.findings).value_or(Kind::length);
}

/// `{from: ..., to: ...}` under a key, in order; an end left out is open.
void read_range_of(Fields& fields, Kind kind, const Section& section, std::optional<double>& from,
                   std::optional<double>& to) {
  if (const auto found = fields.quantity("from", kind)) from = found->si;
  if (const auto found = fields.quantity("to", kind)) to = found->si;
  if (from && to && *from >= *to) {
    section.refuse(fields.node(), Code::bad_rule, "a range begins at or beyond its end");
  }
}

GaugeReading read_gauge_reading(const Node& node, const Section& section) {
  Fields fields(section.document, node, section.findings, "a reading of a gauge");
  GaugeReading out;
  out.id = fields.text("reading");
  out.label = fields.text("label");
  out.kind = kind_of(fields, section);
  out.example = fields.text("example");
  out.optional = read_flag(fields, "optional", section);
  out.each_tyre = read_flag(fields, "each-tyre", section);
  out.dimension = fields.text_or("dimension", "");
  out.times = fields.number_or("times", 1.0);
  if (const Node* plausible = fields.required("plausible")) {
    Fields inner(section.document, *plausible, section.findings, "`plausible`");
    std::optional<double> from;
    std::optional<double> to;
    read_range_of(inner, out.kind, section, from, to);
    inner.finish();
    if (!from || !to) section.refuse(*plausible, Code::bad_rule, "`plausible` needs both ends");
    out.from = from.value_or(0.0);
    out.to = to.value_or(0.0);
  }
  fields.finish();
  return out;
}

GaugeChoice::Value read_choice_value(const Node& node, const Section& section) {
  Fields fields(section.document, node, section.findings, "a value of a choice");
  GaugeChoice::Value out{.id = fields.text("value"), .label = fields.text("label")};
  if (const auto amount = fields.quantity("length", Kind::length)) out.amount = amount->si;
  fields.finish();
  return out;
}

GaugeChoice read_gauge_choice(const Node& node, const Section& section) {
  Fields fields(section.document, node, section.findings, "a choice of a gauge");
  GaugeChoice out;
  out.id = fields.text("choice");
  out.label = fields.text("label");
  out.values = read_each<GaugeChoice::Value>(
      fields, "values", section, [&](const Node& n) { return read_choice_value(n, section); });
  fields.finish();
  if (out.values.empty()) section.refuse(node, Code::bad_rule, "a choice needs its `values`");
  return out;
}

/// The arithmetic, and whether it gets as many inputs as it takes.
void read_formula(Fields& fields, const Section& section, GaugeFigure& figure) {
  const std::string name = fields.text_or("formula", std::string(name_of(Formula::itself)));
  const auto formula = formula_named(name);
  if (!formula) {
    std::vector<std::string> known;
    for (int i = 0; i <= static_cast<int>(Formula::odd); ++i) {
      known.emplace_back(name_of(static_cast<Formula>(i)));
    }
    check_names(fields.node().find("formula"), "a formula", {name}, known, section);
    return;
  }
  figure.formula = *formula;
  if (figure.of.size() == inputs_of(*formula)) return;
  section.refuse(fields.node(), Code::bad_rule,
                 "`" + name + "` is worked out of " + std::to_string(inputs_of(*formula)) +
                     " inputs, and `of` names " + std::to_string(figure.of.size()));
}

/// Names that a figure may stand on: readings, choices, the figures before it, settings.
void check_inputs(const GaugeFigure& figure, const Gauge& gauge, const Node& node,
                  const Section& section) {
  std::vector<std::string> known = ids_in(gauge.readings);
  for (const GaugeChoice& choice : gauge.choices) known.push_back(choice.id);
  for (const GaugeFigure& before : gauge.figures) known.push_back(before.id);
  for (const std::string& name : figure.of) {
    const GaugeReading* const reading = gauge.reading(name);
    const bool of_tyres = reading != nullptr && reading->each_tyre;
    if (of_tyres != is_of_tyres(figure.formula)) {
      section.refuse(node, Code::bad_rule,
                     "`" + name + "` does not go with `" + std::string(name_of(figure.formula)) +
                         "`: one of them is of all four tyres");
    }
    if (!name.starts_with(kSetting)) {
      check_names(&node, "a reading, a choice or an earlier figure", {name}, known, section);
      continue;
    }
    check_names(&node, "an adjustment", {name.substr(kSetting.size())}, section.names.adjustments,
                section);
  }
}

GaugeFigure read_figure(const Node& node, const Gauge& gauge, const Section& section) {
  Fields fields(section.document, node, section.findings, "a figure");
  GaugeFigure out;
  out.id = fields.text("figure");
  out.label = fields.text("label");
  out.kind = kind_of(fields, section);
  out.of = fields.texts_or_none("of");
  read_formula(fields, section, out);
  out.by = fields.number_or("by", 1.0);
  out.change = read_flag(fields, "signed", section);
  out.inner = read_flag(fields, "inner", section);
  if (const auto shown = fields.quantity("shown-to", out.kind)) out.shown_to = shown->si;
  out.only_with = fields.texts_or_none("only-with");
  check_names(&node, "a reading", out.only_with, ids_in(gauge.readings), section);
  out.measure = fields.text_or("measure", "");
  if (!out.measure.empty()) {
    check_names(&node, "a measure", {out.measure}, section.names.measures, section);
  }
  if (const Node* possible = fields.optional("possible")) {
    Fields inner(section.document, *possible, section.findings, "`possible`");
    read_range_of(inner, out.kind, section, out.from, out.to);
    inner.finish();
    out.impossible = fields.text("impossible");
  }
  fields.finish();
  check_inputs(out, gauge, node, section);
  return out;
}

void read_where(Fields& fields, const Gauge& gauge, const Section& section, GaugeVerdict& out) {
  const Node* const where = fields.optional("where");
  if (where == nullptr) return;
  Fields inner(section.document, *where, section.findings, "`where`");
  for (const GaugeChoice& choice : gauge.choices) {
    const std::vector<std::string> values = inner.texts_or_none(choice.id);
    if (values.empty()) continue;
    check_names(where, "a value of `" + choice.id + "`", values, ids_in(choice.values), section);
    out.where.emplace(choice.id, values);
  }
  inner.finish();
}

/// Facts that an outcome amounts to, `{chain-play: tight}`.
void read_states(Fields& fields, const Section& section, GaugeVerdict& out) {
  const Node* const states = fields.optional("states");
  if (states == nullptr) return;
  if (states->type != Node::Type::map) {
    section.refuse(*states, Code::wrong_shape, "`states` must be a map",
                   "such as `{chain-play: tight}`");
  }
  for (const Entry& entry : states->entries) {
    check_names(states, "a fact", {entry.key}, section.names.facts(), section);
    const auto values = section.names.fact_values.find(entry.key);
    if (values == section.names.fact_values.end()) continue;
    check_names(states, "a value of it", {entry.value.text}, values->second, section);
    out.states.emplace_back(entry.key, entry.value.text);
  }
}

BandSide read_side(Fields& fields, const Section& section) {
  const std::string name = fields.text_or("side", std::string(name_of(BandSide::within)));
  const std::array sides{BandSide::under, BandSide::within, BandSide::over};
  std::vector<std::string> known;
  for (const BandSide side : sides) {
    if (name_of(side) == name) return side;
    known.emplace_back(name_of(side));
  }
  check_names(fields.node().find("side"), "a side of a band", {name}, known, section);
  return BandSide::within;
}

GaugeVerdict read_verdict(const Node& node, const Gauge& gauge, const Section& section) {
  Fields fields(section.document, node, section.findings, "a verdict");
  GaugeVerdict out;
  read_rule(fields, section, out);
  out.of = fields.text_or("of", "");
  const GaugeFigure* const figure = gauge.figure(out.of);
  if (!out.of.empty() && figure == nullptr) {
    check_names(&node, "a figure", {out.of}, ids_in(gauge.figures), section);
  }
  const Kind kind = figure == nullptr ? Kind::length : figure->kind;
  read_range_of(fields, kind, section, out.from, out.to);
  read_where(fields, gauge, section, out);
  out.side = read_side(fields, section);
  if (fields.required("ok") != nullptr) out.ok = read_flag(fields, "ok", section);
  out.stops = read_flag(fields, "stops", section);
  out.alone = read_flag(fields, "alone", section);
  out.quiet = read_flag(fields, "quiet", section);
  out.says = fields.text("says");
  out.to_do = fields.text("do");
  read_states(fields, section, out);
  out.cautions = fields.texts_or_none("cautions");
  check_names(node.find("cautions"), "a caution", out.cautions, section.names.cautions, section);
  fields.finish();
  return out;
}

/// True where a verdict can hold with this value of this choice.
bool can_hold(const GaugeVerdict& verdict, const std::string& choice, const std::string& value) {
  const auto found = verdict.where.find(choice);
  if (found == verdict.where.end()) return true;
  return std::find(found->second.begin(), found->second.end(), value) != found->second.end();
}

/// Ranges must follow each other without gap or overlap, open at both ends.
void check_ranges(std::vector<const GaugeVerdict*> verdicts, const std::string& of,
                  const Node& node, const Section& section) {
  if (verdicts.empty()) return;
  std::sort(verdicts.begin(), verdicts.end(), [](const auto* a, const auto* b) {
    return a->from.has_value() != b->from.has_value() ? !a->from : a->from < b->from;
  });
  bool whole = !verdicts.front()->from && !verdicts.back()->to;
  for (std::size_t i = 1; i < verdicts.size(); ++i) {
    whole = whole && verdicts[i]->from && verdicts[i - 1]->to == verdicts[i]->from;
  }
  if (whole) return;
  section.refuse(node, Code::bad_rule, "the verdicts on `" + of + "` leave a gap or overlap",
                 "each begins where the one before ends; the first and the last are open");
}

void check_cover(const Gauge& gauge, const Node& node, const Section& section) {
  for (const GaugeFigure& figure : gauge.figures) {
    std::vector<const GaugeVerdict*> all;
    for (const GaugeVerdict& each : gauge.verdicts) {
      if (each.of == figure.id) all.push_back(&each);
    }
    if (gauge.choices.empty()) check_ranges(all, figure.id, node, section);
    for (const GaugeChoice& choice : gauge.choices) {
      for (const GaugeChoice::Value& value : choice.values) {
        std::vector<const GaugeVerdict*> some;
        std::copy_if(all.begin(), all.end(), std::back_inserter(some),
                     [&](const auto* each) { return can_hold(*each, choice.id, value.id); });
        check_ranges(some, figure.id, node, section);
      }
    }
  }
}

void read_parts(Fields& fields, const Section& section, Gauge& gauge) {
  gauge.readings = read_each<GaugeReading>(
      fields, "amounts", section, [&](const Node& n) { return read_gauge_reading(n, section); });
  gauge.choices = read_each<GaugeChoice>(
      fields, "choices", section, [&](const Node& n) { return read_gauge_choice(n, section); });
  gauge.one_of = fields.texts_or_none("one-of");
  check_names(fields.node().find("one-of"), "a reading", gauge.one_of, ids_in(gauge.readings),
              section);
  if (const Node* list = fields.optional("figures")) {
    for (const Node& item : list_items(*list, "figures", section)) {
      gauge.figures.push_back(read_figure(item, gauge, section));
    }
  }
}

}  // namespace

void read_gauge(Fields& fields, const Section& section, Pack& pack) {
  Gauge gauge;
  gauge.id = fields.text("gauge");
  gauge.label = fields.text("label");
  gauge.plain = fields.text("plain");
  gauge.steps = fields.texts_or_none("steps");
  gauge.source = section.source(fields.node());
  gauge.cautions = fields.texts_or_none("cautions");
  check_names(fields.node().find("cautions"), "a caution", gauge.cautions, section.names.cautions,
              section);
  read_parts(fields, section, gauge);
  const std::size_t found_before = section.findings.all().size();
  gauge.verdicts = read_each<GaugeVerdict>(
      fields, "verdicts", section, [&](const Node& n) { return read_verdict(n, gauge, section); });
  if (section.findings.all().size() == found_before) check_cover(gauge, fields.node(), section);
  if (gauge.steps.empty() || gauge.verdicts.empty()) {
    section.refuse(fields.node(), Code::bad_rule, "a gauge needs its `steps` and its `verdicts`");
  }
  pack.gauges.push_back(std::move(gauge));
}

}  // namespace kartwright
