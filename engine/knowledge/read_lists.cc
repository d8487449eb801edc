// The list sections of rule files: facts, measures, cautions, how words are heard,
// correlations.

#include <algorithm>
#include <cmath>
#include <tuple>

#include "engine/knowledge/section_reader.h"

namespace kartwright {
namespace {

void read_correlation(const Node& node, const Section& section, Pack& pack) {
  Fields fields(section.document, node, section.findings, "a correlation");
  const std::string a = fields.text("a");
  const std::string b = fields.text("b");
  const double value = fields.number("value");
  fields.finish();
  check_names(&node, "an axis", {a, b}, section.names.axes_and_families(), section);
  if (std::abs(value) >= 1.0)
    section.refuse(node, Code::bad_rule, "a correlation lies between -1 and 1");
  const auto named = [&](std::size_t axis, const std::string& name) {
    return section.axes[axis].id == name || section.axes[axis].family == name;
  };
  bool any = false;
  for (std::size_t i = 0; i < section.axes.size(); ++i) {
    for (std::size_t j = i + 1; j < section.axes.size(); ++j) {
      const bool pair = (named(i, a) && named(j, b)) || (named(i, b) && named(j, a));
      if (pair) pack.correlations.push_back({i, j, value, section.source(node)});
      any = any || pair;
    }
  }
  if (!any && a == b) section.refuse(node, Code::bad_rule, "an axis is not correlated with itself");
}

void read_hearing(const Node& node, const Section& section, Pack& pack) {
  Fields fields(section.document, node, section.findings, "`hearing`");
  Hearing& hearing = pack.hearing;
  hearing.sure = fields.number("sure");
  hearing.fair = fields.number("fair");
  hearing.unsure = fields.number("unsure");
  hearing.denied = fields.number("denied");
  hearing.praise = fields.number("praise");
  hearing.unsaid_factor = fields.number("phase-unsaid");
  hearing.faster_factor = fields.number("laps-faster");
  hearing.praise_denies = fields.texts_or_none("praise-denies");
  fields.finish();
  check_names(&node, "a symptom", hearing.praise_denies, section.names.symptoms, section);
  const bool good = std::min({hearing.sure, hearing.fair, hearing.unsure, hearing.denied,
                              hearing.praise}) > 0.0 &&
                    std::min(hearing.unsaid_factor, hearing.faster_factor) >= 1.0;
  if (!good) section.refuse(node, Code::bad_rule, "spreads are above zero, factors at least one");
}

void read_learning(const Node& node, const Section& section, Pack& pack) {
  Fields fields(section.document, node, section.findings, "`learning`");
  Learning& learning = pack.learning;
  learning.unmentioned = fields.number("unmentioned");
  learning.drift = fields.number("drift");
  learning.track_moved = fields.number("track-moved");
  learning.tyres_changed = fields.number("tyres-changed");
  fields.required("slow-lap");
  if (const auto slow = fields.quantity("slow-lap", Kind::ratio)) learning.slow_lap = slow->si;
  fields.finish();
  const double least = std::min(
      {learning.unmentioned, learning.drift, learning.track_moved, learning.tyres_changed});
  if (least <= 0.0) section.refuse(node, Code::bad_rule, "spreads are above zero");
}

void read_day_stage(const Node& node, const Section& section, Pack& pack) {
  Fields fields(section.document, node, section.findings, "a stage of the day");
  DayStage stage;
  stage.id = fields.text("stage");
  stage.label = fields.text("label");
  stage.track = fields.text("track");
  stage.towards = fields.number_or("towards", 0.0);
  stage.rubber = read_flag(fields, "rubber", section);
  stage.source = section.source(node);
  fields.finish();
  check_names(node.find("track"), "a track state", {stage.track}, section.names.tracks, section);
  if (stage.towards < 0.0 || stage.towards > 1.0)
    section.refuse(node, Code::bad_rule, "`towards` lies between 0 and 1");
  pack.day.push_back(std::move(stage));
}

FactDef::Prior read_prior(const Node& node, const Section& section, const FactDef& fact) {
  Fields fields(section.document, node, section.findings, "a prior");
  FactDef::Prior prior{.when = read_when(fields, section), .weights = {}};
  if (const Node* values = fields.required("values")) {
    Fields weights(section.document, *values, section.findings, "the values of a prior");
    for (const std::string& value : fact.values)
      prior.weights.push_back(weights.number_or(value, 0.0));
    weights.finish();
  }
  fields.finish();
  double sum = 0.0;
  for (const double weight : prior.weights) sum += weight;
  const bool negative = std::any_of(prior.weights.begin(), prior.weights.end(),
                                    [](double weight) { return weight < 0.0; });
  if (negative || (sum <= 0.0 && !prior.weights.empty()))
    section.refuse(node, Code::bad_rule, "a prior needs weights above zero");
  for (double& weight : prior.weights) weight /= sum > 0.0 ? sum : 1.0;
  return prior;
}

void read_fact(const Node& node, const Section& section, Pack& pack) {
  Fields fields(section.document, node, section.findings, "a fact");
  FactDef fact;
  fact.id = fields.text("fact");
  fact.label = fields.text("label");
  fact.values = fields.texts_or_none("values");
  fact.question = fields.text_or("question", "");
  fact.entered = !read_flag(fields, "derived", section);
  fact.source = section.source(node);
  if (const Node* priors = fields.optional("prior")) {
    for (const Node& item : list_items(*priors, "prior", section))
      fact.priors.push_back(read_prior(item, section, fact));
  }
  fields.finish();
  if (fact.values.empty()) section.refuse(node, Code::bad_rule, "a fact needs its `values`");
  pack.facts.push_back(std::move(fact));
}

void read_derive(const Node& node, const Section& section, Pack& pack) {
  Fields fields(section.document, node, section.findings, "a derivation");
  DeriveRule rule;
  read_rule(fields, section, rule);
  rule.when = read_when(fields, section);
  const Node* then = fields.required("then");
  fields.finish();
  if (then == nullptr) return;
  if (then->entries.size() != 1) {
    section.refuse(*then, Code::bad_rule, "`then` concludes one fact",
                   "such as `{raised-mass: yes}`");
    return;
  }
  rule.fact = then->entries.front().key;
  rule.value = then->entries.front().value.text;
  check_names(then, "a fact", {rule.fact}, section.names.facts(), section);
  const auto values = section.names.fact_values.find(rule.fact);
  if (values != section.names.fact_values.end()) {
    check_names(then, "a value of it", {rule.value}, values->second, section);
  }
  pack.derives.push_back(std::move(rule));
}

/// Reads `{from: ..., to: ...}` of a kind, or reports it.
std::pair<double, double> read_span(Fields& fields, Kind kind) {
  const auto from = fields.quantity("from", kind);
  const auto to = fields.quantity("to", kind);
  fields.finish();
  return {from ? from->si : -HUGE_VAL, to ? to->si : HUGE_VAL};
}

/// `key` is `measure` or `dimension`: the two are told of in the same way.
MeasureDef read_definition(const Node& node, std::string_view key, const Section& section) {
  Fields fields(section.document, node, section.findings, "a " + std::string(key));
  MeasureDef measure;
  measure.id = fields.text(key);
  measure.label = fields.text("label");
  measure.source = section.source(node);
  const auto kind = read_kind(section.document, node, fields.text_or("kind", ""), section.findings);
  if (!kind) {
    for (const char* const key_of_a_kind : {"plausible", "band", "likely", "assumed", "known-from"})
      fields.optional(key_of_a_kind);
    fields.finish();
    return measure;
  }
  measure.kind = *kind;
  if (const Node* plausible = fields.required("plausible")) {
    Fields inner(section.document, *plausible, section.findings, "`plausible`");
    std::tie(measure.from, measure.to) = read_span(inner, measure.kind);
    if (measure.from >= measure.to) {
      section.refuse(*plausible, Code::bad_rule, "`plausible` begins at or beyond its end");
    }
  }
  if (const Node* band = fields.optional("band")) {
    Fields inner(section.document, *band, section.findings, "`band`");
    const auto [from, to] = read_span(inner, measure.kind);
    if (std::isfinite(from)) measure.band_from = from;
    if (std::isfinite(to)) measure.band_to = to;
  }
  if (const Node* likely = fields.optional("likely")) {
    Fields inner(section.document, *likely, section.findings, "`likely`");
    const auto [from, to] = read_span(inner, measure.kind);
    if (from >= measure.from && from < to && to <= measure.to) {
      measure.likely_from = from;
      measure.likely_to = to;
    } else {
      section.refuse(*likely, Code::bad_rule, "`likely` is a range within `plausible`");
    }
  }
  if (const auto assumed = fields.quantity("assumed", measure.kind)) {
    measure.assumed = assumed->si;
    measure.known_from = fields.text("known-from");
    if (*measure.assumed < measure.from || *measure.assumed > measure.to) {
      section.refuse(node, Code::bad_rule, "`assumed` lies outside `plausible`");
    }
  }
  fields.finish();
  return measure;
}

void read_measure(const Node& node, const Section& section, Pack& pack) {
  pack.measures.push_back(read_definition(node, "measure", section));
}

void read_dimension(const Node& node, const Section& section, Pack& pack) {
  pack.dimensions.push_back(read_definition(node, "dimension", section));
}

void read_quantity(const Node& node, const Section& section, Pack& pack) {
  Fields fields(section.document, node, section.findings, "a quantity");
  QuantityPage page{.id = fields.text("quantity"),
                    .label = fields.text("label"),
                    .plain = fields.text("plain"),
                    .formula = fields.text("formula"),
                    .known_from = fields.text("source"),
                    .limits = fields.text("limits"),
                    .too_much = fields.text_or("too-much", "")};
  page.source = section.source(node);
  fields.finish();
  pack.quantities.push_back(std::move(page));
}

void read_caution(const Node& node, const Section& section, Pack& pack) {
  Fields fields(section.document, node, section.findings, "a caution");
  Caution caution{.id = fields.text("caution"), .text = fields.text("text")};
  caution.source = section.source(node);
  fields.finish();
  pack.cautions.push_back(std::move(caution));
}

using ItemReader = void (*)(const Node&, const Section&, Pack&);

void read_items(Fields& fields, std::string_view key, const Section& section, Pack& pack,
                ItemReader reader) {
  const Node* list = fields.optional(key);
  if (list == nullptr) return;
  for (const Node& item : list_items(*list, key, section)) reader(item, section, pack);
}

}  // namespace

void read_readings(const Node& list, const Section& section, Pack& pack) {
  for (const Node& item : list_items(list, "readings", section)) {
    Fields fields(section.document, item, section.findings, "a reading");
    ReadingRule rule;
    read_rule(fields, section, rule);
    rule.when = read_when(fields, section);
    if (const Node* row = fields.required("row")) rule.row = read_row(*row, section);
    if (const Node* value = fields.required("value")) {
      const Spread spread = read_spread(*value, section);
      rule.value = spread.mean;
      rule.sd = spread.sd;
    }
    if (const Node* per = fields.optional("per")) {
      Fields inner(section.document, *per, section.findings, "`per`");
      rule.per_measure = inner.text("measure");
      check_names(per, "a measure", {rule.per_measure}, section.names.measures, section);
      const auto found = section.names.kinds.find(rule.per_measure);
      const auto kind =
          found == section.names.kinds.end() ? std::nullopt : kind_named(found->second);
      inner.required("each");
      const auto each = kind ? inner.quantity("each", *kind) : std::nullopt;
      rule.per_amount = each ? each->si : 1.0;
      inner.finish();
      if (rule.per_amount <= 0.0) section.refuse(*per, Code::bad_rule, "`each` must be above zero");
    }
    fields.finish();
    pack.readings.push_back(std::move(rule));
  }
}

void read_lists(Fields& fields, const Section& section, Pack& pack) {
  fields.optional("axes");  // read before, see read_axes
  read_items(fields, "correlations", section, pack, read_correlation);
  if (const Node* hearing = fields.optional("hearing")) read_hearing(*hearing, section, pack);
  if (const Node* learning = fields.optional("learning")) read_learning(*learning, section, pack);
  read_items(fields, "day", section, pack, read_day_stage);
  read_items(fields, "symptoms", section, pack, read_symptom);
  read_items(fields, "facts", section, pack, read_fact);
  read_items(fields, "derive", section, pack, read_derive);
  read_items(fields, "measures", section, pack, read_measure);
  read_items(fields, "dimensions", section, pack, read_dimension);
  read_items(fields, "quantities", section, pack, read_quantity);
  read_items(fields, "cautions", section, pack, read_caution);
  if (const Node* list = fields.optional("properties")) read_properties(*list, section, pack);
  read_drills(fields, section, pack);
  if (fields.node().find("look-over") != nullptr) pack.look_over = fields.text("look-over");
}

}  // namespace kartwright
