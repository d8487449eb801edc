#include "engine/audit/pack_parts.h"

#include <array>
#include <map>
#include <optional>

#include <fmt/format.h>

#include "engine/audit/drill_parts.h"
#include "engine/audit/gauge_parts.h"
#include "engine/inference/situation.h"
#include "engine/knowledge/every_rule.h"

namespace kartwright {
namespace {

using enum FieldKind;

std::string listed(const std::vector<std::string>& names) {
  return fmt::format("{}", fmt::join(names, ", "));
}

std::string yes_no(bool flag) { return flag ? "yes" : "no"; }

std::string figure(double number) { return fmt::format("{}", number); }
std::string signed_figure(double number) { return fmt::format("{:+}", number); }
std::string figure(const std::optional<double>& number) { return number ? figure(*number) : ""; }

std::string spread_text(double mean, double sd) { return fmt::format("{:+} ± {}", mean, sd); }

std::string row_in_full(const std::vector<RowTerm>& row) {
  std::vector<std::string> terms;
  for (const RowTerm& term : row) terms.push_back(fmt::format("{} {:+}", term.axis, term.factor));
  return listed(terms);
}

std::string_view name_of_kind(Kind kind) {
  static constexpr std::array<std::string_view, 8> kNames{
      "length", "mass", "angle", "pressure", "ratio", "stiffness", "twist", "count"};
  return kNames.at(static_cast<std::size_t>(kind));
}

std::string_view name_of_status(Status status) {
  static constexpr std::array<std::string_view, 3> kNames{"experimental", "test", "stable"};
  return kNames.at(static_cast<std::size_t>(status));
}

void add_rule_fields(const Rule& rule, PackPart& part) {
  part.source = rule.source;
  part.fields.push_back({"because", texts, rule.because});
  part.fields.push_back({"provenance", texts, rule.provenance.text()});
  part.fields.push_back({"status", status, std::string(name_of_status(rule.status))});
}

void add_cells(const EffectRule& rule, const Pack& pack, PackPart& part) {
  for (const Cell& cell : rule.cells) {
    part.fields.push_back({pack.axes[cell.axis].id, numbers, spread_text(cell.mean, cell.sd)});
  }
  part.fields.push_back({"contested", status, yes_no(rule.contested)});
}

void add_reading(const ReadingRule& rule, PackPart& part) {
  part.fields.push_back({"row", numbers, row_in_full(rule.row)});
  part.fields.push_back({"value", numbers, spread_text(rule.value, rule.sd)});
  if (rule.per_measure.empty()) return;
  part.fields.push_back(
      {"per", numbers, fmt::format("{} each {}", rule.per_measure, rule.per_amount)});
}

void add_symptom_reading(const SymptomReading& rule, PackPart& part) {
  part.fields.push_back({"row", numbers, row_in_full(rule.row)});
  part.fields.push_back({"value", numbers, signed_figure(rule.value)});
  const std::string unsaid = rule.unsaid ? std::string(name_of(*rule.unsaid)) : "mean";
  part.fields.push_back({"unsaid", condition, unsaid});
}

/// What a rule of its kind says, beside what every rule carries.
void add_own_fields(const RuleRef& ref, const Pack& pack, PackPart& part) {
  switch (ref.kind) {
    case RuleKind::symptom:
      return add_symptom_reading(*ref.symptom->reading, part);
    case RuleKind::reading:
      return add_reading(static_cast<const ReadingRule&>(*ref.rule), part);
    case RuleKind::effect:
      return add_cells(static_cast<const EffectRule&>(*ref.rule), pack, part);
    case RuleKind::evidence:
      part.fields.push_back({"decibans", numbers,
                             signed_figure(static_cast<const EvidenceRule&>(*ref.rule).decibans)});
      return;
    case RuleKind::derive: {
      const auto& derive = static_cast<const DeriveRule&>(*ref.rule);
      part.fields.push_back({"then", numbers, derive.fact + ":" + derive.value});
    }
  }
}

std::string owner_of(const RuleRef& ref) {
  if (ref.adjustment != nullptr) return ref.adjustment->id;
  if (ref.fault != nullptr) return ref.fault->id;
  return ref.symptom != nullptr ? ref.symptom->id : "";
}

void add_rules(const Pack& pack, std::vector<PackPart>& parts) {
  for (const RuleRef& ref : every_rule(pack)) {
    PackPart part{.kind = fmt::format("{} rule", name_of(ref.kind)), .id = ref.rule->id};
    if (!owner_of(ref).empty()) part.fields.push_back({"of", texts, owner_of(ref)});
    if (ref.when != nullptr) {
      part.fields.push_back({"when", condition, describe(*ref.when, pack)});
    }
    add_own_fields(ref, pack, part);
    add_rule_fields(*ref.rule, part);
    parts.push_back(std::move(part));
  }
  for (const Property& property : pack.properties) {
    PackPart part{.kind = "property", .id = property.id};
    part.fields.push_back({"only", condition, listed(property.only)});
    for (const Property::Exception& each : property.exceptions) {
      part.fields.push_back({"except " + each.id, condition, each.because});
    }
    add_rule_fields(property, part);
    parts.push_back(std::move(part));
  }
}

PackPart part_of(const Axis& axis) {
  return {"axis",
          axis.id,
          axis.source,
          {{"label", texts, axis.label},
           {"low", texts, axis.low},
           {"high", texts, axis.high},
           {"weight", numbers, figure(axis.weight)},
           {"spread", numbers, figure(axis.spread)}}};
}

PackPart part_of(const Hearing& hearing) {
  return {"hearing",
          "hearing",
          {},
          {{"sure", numbers, figure(hearing.sure)},
           {"fair", numbers, figure(hearing.fair)},
           {"unsure", numbers, figure(hearing.unsure)},
           {"denied", numbers, figure(hearing.denied)},
           {"praise", numbers, figure(hearing.praise)},
           {"phase-unsaid", numbers, figure(hearing.unsaid_factor)},
           {"laps-faster", numbers, figure(hearing.faster_factor)},
           {"praise-denies", condition, listed(hearing.praise_denies)}}};
}

PackPart part_of(const Learning& learning) {
  return {"learning",
          "learning",
          {},
          {{"unmentioned", numbers, figure(learning.unmentioned)},
           {"drift", numbers, figure(learning.drift)},
           {"track-moved", numbers, figure(learning.track_moved)},
           {"tyres-changed", numbers, figure(learning.tyres_changed)},
           {"slow-lap", numbers, figure(learning.slow_lap)}}};
}

PackPart part_of(const DayStage& stage) {
  return {"stage",
          stage.id,
          stage.source,
          {{"label", texts, stage.label},
           {"track", condition, stage.track},
           {"towards", numbers, figure(stage.towards)},
           {"rubber", condition, stage.rubber ? "yes" : "no"}}};
}

std::string questions_at(const Symptom& symptom) {
  std::vector<std::string> all;
  for (const auto& [phase, text] : symptom.question_at)
    all.push_back(fmt::format("{}: {}", name_of(phase), text));
  return listed(all);
}

PackPart part_of(const Symptom& symptom) {
  std::vector<std::string> phases;
  for (const Phase phase : symptom.phases) phases.emplace_back(name_of(phase));
  PackPart part{"symptom",
                symptom.id,
                symptom.source,
                {{"phases", condition, listed(phases)},
                 {"label", texts, symptom.label},
                 {"plain", texts, symptom.plain},
                 {"question", texts, symptom.question},
                 {"question-at", texts, questions_at(symptom)},
                 {"against", condition, symptom.against}}};
  for (const Neighbour& each : symptom.neighbours) {
    part.fields.push_back({"neighbour " + each.symptom, texts, each.tell});
  }
  return part;
}

void add_texts_of(const Adjustment& a, PackPart& part) {
  part.fields.push_back({"label", texts, a.label});
  part.fields.push_back({"plain", texts, a.plain});
  part.fields.push_back({"measured", texts, a.measured});
  for (std::size_t d = 0; d < 2; ++d) {
    const std::string& direction = a.directions.at(d);
    part.fields.push_back({fmt::format("direction {}", d + 1), texts, direction});
    part.fields.push_back({fmt::format("phrase {}", d + 1), texts, a.phrases.at(d)});
    part.fields.push_back({fmt::format("watch {}", d + 1), texts, a.watch.at(d)});
    part.fields.push_back({fmt::format("back-out {}", d + 1), texts, a.back_out.at(d)});
  }
  part.fields.push_back({"cautions", texts, listed(a.cautions)});
  part.fields.push_back({"explain", texts, a.explain});
  part.fields.push_back({"limits", texts, a.limits});
}

PackPart part_of(const Adjustment& a) {
  PackPart part{"adjustment",
                a.id,
                a.source,
                {{"kind", numbers, std::string(name_of_kind(a.kind))},
                 {"reference-step", numbers, figure(a.reference_step)},
                 {"positions", numbers, listed(a.positions)},
                 {"usual from", numbers, figure(a.from)},
                 {"usual to", numbers, figure(a.to)},
                 {"usual step", numbers, figure(a.step)},
                 {"most-at-once", numbers, figure(a.most_at_once)},
                 {"minutes", numbers, figure(a.minutes)},
                 {"stand-minutes", numbers, figure(a.stand_minutes)},
                 {"typical", numbers, a.typical},
                 {"typical-limit", numbers, figure(a.typical_limit)},
                 {"part-of", condition, a.part_of},
                 {"parts", condition, yes_no(a.parts)},
                 {"shares-stand-with", condition, listed(a.shares_stand_with)},
                 {"same-setting-as", condition, listed(a.same_setting_as)}}};
  add_texts_of(a, part);
  return part;
}

PackPart part_of(const Fault& fault) {
  return {"fault",
          fault.id,
          fault.source,
          {{"prior", numbers, signed_figure(fault.prior)},
           {"minutes", numbers, figure(fault.minutes)},
           {"loss", numbers, figure(fault.loss)},
           {"stop", condition, yes_no(fault.stop)},
           {"label", texts, fault.label},
           {"check", texts, fault.check},
           {"fix", texts, fault.fix},
           {"cautions", texts, listed(fault.cautions)},
           {"provenance", texts, fault.provenance.text()}}};
}

PackPart part_of(const FactDef& fact, const Pack& pack) {
  PackPart part{"fact",
                fact.id,
                fact.source,
                {{"values", condition, listed(fact.values)},
                 {"derived", condition, yes_no(!fact.entered)},
                 {"label", texts, fact.label},
                 {"question", texts, fact.question}}};
  for (std::size_t i = 0; i < fact.priors.size(); ++i) {
    std::string weights;
    for (std::size_t v = 0; v < fact.values.size(); ++v) {
      weights +=
          fmt::format("{}{} {}", v == 0 ? "" : ", ", fact.values[v], fact.priors[i].weights[v]);
    }
    const std::string when = describe(fact.priors[i].when, pack);
    part.fields.push_back(
        {fmt::format("prior {}", i + 1), numbers, fmt::format("{}: {}", when, weights)});
  }
  return part;
}

PackPart part_of(const TrackState& track) {
  const auto cornering = track.cornering.value_or(TrackState::Cornering{});
  return {"track",
          track.id,
          track.source,
          {{"wet", condition, yes_no(track.wet)},
           {"ahead", condition, track.ahead},
           {"shift", numbers, row_in_full(track.shift)},
           {"cornering in the middle", numbers, figure(cornering.middle)},
           {"cornering at the peak", numbers, figure(cornering.peak)},
           {"label", texts, track.label},
           {"plain", texts, track.plain}}};
}

PackPart part_of(const MeasureDef& measure, const char* kind) {
  return {kind,
          measure.id,
          measure.source,
          {{"kind", numbers, std::string(name_of_kind(measure.kind))},
           {"plausible from", numbers, figure(measure.from)},
           {"plausible to", numbers, figure(measure.to)},
           {"band from", numbers, figure(measure.band_from)},
           {"band to", numbers, figure(measure.band_to)},
           {"assumed", numbers, figure(measure.assumed)},
           {"known from", texts, measure.known_from},
           {"likely from", numbers, figure(measure.likely_from)},
           {"likely to", numbers, figure(measure.likely_to)},
           {"label", texts, measure.label}}};
}

/// Of two correlations of one pair the later one counts.
void add_correlations(const Pack& pack, std::vector<PackPart>& parts) {
  std::map<std::string, PackPart> by_pair;
  for (const Correlation& each : pack.correlations) {
    const std::string id = pack.axes[each.a].id + " with " + pack.axes[each.b].id;
    by_pair[id] = {"correlation", id, each.source, {{"value", numbers, figure(each.value)}}};
  }
  for (auto& [id, part] : by_pair) parts.push_back(std::move(part));
}

std::string what_else(const Phrase& phrase) {
  std::vector<std::string> said{"said"};
  if (phrase.phase) said.emplace_back(name_of(*phrase.phase));
  if (phrase.severity) said.push_back(fmt::format("severity {}", *phrase.severity));
  if (phrase.solid) said.emplace_back("solid");
  return listed(said);
}

std::string meaning_of(const Phrase& phrase) {
  static constexpr std::array<std::string_view, 14> kNames{
      "symptom", "phase", "side", "when",   "severity", "confidence", "negation",
      "praise",  "fact",  "laps", "manner", "aside",    "place",      "filler"};
  const std::string means(kNames.at(static_cast<std::size_t>(phrase.means)));
  return phrase.id.empty() ? means : means + " " + phrase.id;
}

/// What drivers say, by what it means: a field a phrase.
void add_words_of(const Pack& pack, std::vector<PackPart>& parts) {
  std::map<std::string, std::map<std::string, std::string>> by_meaning;
  for (const Phrase& phrase : pack.phrases) {
    std::map<std::string, std::string>& said = by_meaning[meaning_of(phrase)];
    for (const std::string_view words : wordings_of(phrase))
      said[std::string(words)] = what_else(phrase);
  }
  for (const WordClass& each : pack.word_classes) {
    for (const auto& words : each.words) {
      by_meaning["class " + each.id][fmt::format("{}", fmt::join(words, " "))] = "said";
    }
  }
  for (const std::string& word : pack.light_words) by_meaning["light"][word] = "said";
  for (const std::string& word : pack.ordinary_words) by_meaning["no typos"][word] = "said";
  for (const auto& [meaning, phrases] : by_meaning) {
    PackPart part{.kind = "words", .id = meaning};
    for (const auto& [phrase, value] : phrases) part.fields.push_back({phrase, texts, value});
    parts.push_back(std::move(part));
  }
}

}  // namespace

std::string_view name_of(FieldKind kind) {
  static constexpr std::array<std::string_view, 4> kNames{"condition", "numbers", "texts",
                                                          "status"};
  return kNames.at(static_cast<std::size_t>(kind));
}

std::vector<PackPart> parts_of(const Pack& pack) {
  std::vector<PackPart> parts;
  add_rules(pack, parts);
  for (const Axis& axis : pack.axes) parts.push_back(part_of(axis));
  add_correlations(pack, parts);
  parts.push_back(part_of(pack.hearing));
  parts.push_back(part_of(pack.learning));
  for (const DayStage& stage : pack.day) parts.push_back(part_of(stage));
  for (const Symptom& symptom : pack.symptoms) parts.push_back(part_of(symptom));
  for (const Adjustment& adjustment : pack.adjustments) parts.push_back(part_of(adjustment));
  for (const Fault& fault : pack.faults) parts.push_back(part_of(fault));
  for (const FactDef& fact : pack.facts) parts.push_back(part_of(fact, pack));
  for (const TrackState& track : pack.tracks) parts.push_back(part_of(track));
  for (const MeasureDef& measure : pack.measures) parts.push_back(part_of(measure, "measure"));
  for (const MeasureDef& each : pack.dimensions) parts.push_back(part_of(each, "dimension"));
  for (const QuantityPage& page : pack.quantities) {
    parts.push_back({"quantity",
                     page.id,
                     page.source,
                     {{"label", texts, page.label},
                      {"plain", texts, page.plain},
                      {"formula", texts, page.formula},
                      {"known from", texts, page.known_from},
                      {"too much", texts, page.too_much},
                      {"limits", texts, page.limits}}});
  }
  for (const Caution& caution : pack.cautions) {
    parts.push_back({"caution", caution.id, caution.source, {{"text", texts, caution.text}}});
  }
  for (PackPart& part : gauge_parts(pack)) parts.push_back(std::move(part));
  for (PackPart& part : drill_parts(pack)) parts.push_back(std::move(part));
  PackPart look_over;
  look_over.kind = look_over.id = "look-over";
  look_over.fields.push_back({"text", texts, pack.look_over});
  parts.push_back(std::move(look_over));
  add_words_of(pack, parts);
  return parts;
}

}  // namespace kartwright
