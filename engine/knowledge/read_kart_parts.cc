// The one-subject rule files: an adjustment, a fault, a track state.

#include <cmath>

#include "engine/knowledge/section_reader.h"

namespace kartwright {
namespace {

std::array<std::string, 2> read_pair(Fields& fields, std::string_view key, const Section& section) {
  const std::vector<std::string> texts = fields.texts_or_none(key);
  if (texts.size() == 2) return {texts[0], texts[1]};
  section.refuse(fields.node(), Code::bad_rule, "`" + std::string(key) + "` needs two entries",
                 "the + direction first");
  return {};
}

/// Where the adjustment can stand: a range with a unit, or named positions. False where that could
/// not be read.
bool read_places(Fields& fields, const Section& section, Adjustment& adjustment) {
  adjustment.positions = fields.texts_or_none("positions");
  if (adjustment.listed()) {
    adjustment.most_at_once = fields.number("most-at-once");
    return true;
  }
  const std::string kind_name = fields.text("kind");
  const auto kind = read_kind(section.document, fields.node(), kind_name, section.findings);
  if (kind_name.empty() || !kind) {
    refuse_no_kind(fields, section);
    for (const char* const key : {"reference-step", "most-at-once", "usual"}) fields.optional(key);
    return false;
  }
  adjustment.kind = *kind;
  const std::size_t found_before = section.findings.all().size();
  const auto amount = [&](Fields& from, std::string_view key) {
    const std::optional<Quantity> found = from.quantity(key, adjustment.kind);
    if (!found) from.required(key);
    return found ? found->si : 1.0;
  };
  adjustment.reference_step = amount(fields, "reference-step");
  adjustment.most_at_once = amount(fields, "most-at-once");
  if (const Node* usual = fields.required("usual")) {
    Fields inner(section.document, *usual, section.findings, "`usual`");
    adjustment.from = amount(inner, "from");
    adjustment.to = amount(inner, "to");
    adjustment.step = amount(inner, "step");
    inner.finish();
  }
  if (section.findings.all().size() > found_before) return false;
  if (adjustment.reference_step == 0.0 || adjustment.step <= 0.0 ||
      adjustment.from >= adjustment.to) {
    section.refuse(fields.node(), Code::bad_rule, "a range that cannot be moved in");
  }
  return true;
}

EffectRule read_effect(const Node& node, const Section& section) {
  Fields fields(section.document, node, section.findings, "an effect");
  EffectRule rule;
  read_rule(fields, section, rule);
  rule.when = read_when(fields, section);
  rule.contested = read_flag(fields, "contested", section);
  if (const Node* moves = fields.required("moves")) rule.cells = read_moves(*moves, section);
  fields.finish();
  return rule;
}

EvidenceRule read_evidence(const Node& node, const Section& section) {
  Fields fields(section.document, node, section.findings, "a piece of evidence");
  EvidenceRule rule;
  read_rule(fields, section, rule);
  if (fields.required("when") != nullptr) rule.when = read_when(fields, section);
  rule.decibans = fields.number("decibans");
  fields.finish();
  return rule;
}

std::vector<std::string> read_names(Fields& fields, std::string_view key, std::string_view what,
                                    const std::vector<std::string>& known, const Section& section) {
  std::vector<std::string> texts = fields.texts_or_none(key);
  check_names(fields.node().find(key), what, texts, known, section);
  return texts;
}

/// The jobs done on the same stand, and the minutes that go into getting onto it.
void read_stand(Fields& fields, const Section& section, Adjustment& adjustment) {
  adjustment.shares_stand_with =
      read_names(fields, "shares-stand-with", "an adjustment", section.names.adjustments, section);
  if (adjustment.shares_stand_with.empty()) return;
  const std::size_t found_before = section.findings.all().size();
  adjustment.stand_minutes = fields.number("stand-minutes");
  if (section.findings.all().size() > found_before) return;
  if (adjustment.stand_minutes <= 0.0 || adjustment.stand_minutes > adjustment.minutes) {
    section.refuse(fields.node(), Code::bad_rule,
                   "`stand-minutes` are above zero and not more than `minutes`");
  }
}

}  // namespace

void read_adjustment(Fields& fields, const Section& section, Pack& pack) {
  Adjustment adjustment;
  adjustment.id = fields.text("adjustment");
  adjustment.label = fields.text("label");
  adjustment.plain = fields.text("plain");
  adjustment.measured = fields.text("measured");
  adjustment.directions = read_pair(fields, "directions", section);
  adjustment.phrases = read_pair(fields, "phrases", section);
  adjustment.source = section.source(fields.node());
  const bool placed = read_places(fields, section, adjustment);
  adjustment.typical = fields.text("typical");
  if (const auto most = fields.quantity("typical-limit", adjustment.kind)) {
    adjustment.typical_limit = most->si;
  }
  adjustment.minutes = fields.number("minutes");
  adjustment.parts = read_flag(fields, "parts", section);
  read_stand(fields, section, adjustment);
  if (const Node* whole = fields.optional("part-of")) {
    adjustment.part_of = whole->text;
    check_names(whole, "an adjustment", {whole->text}, section.names.adjustments, section);
  }
  adjustment.same_setting_as =
      read_names(fields, "same-setting-as", "an adjustment", section.names.adjustments, section);
  adjustment.cautions =
      read_names(fields, "cautions", "a caution", section.names.cautions, section);
  adjustment.explain = fields.text("explain");
  adjustment.limits = fields.text("limits");
  adjustment.watch = read_per_direction(fields, "watch", adjustment.directions, section);
  adjustment.back_out = read_per_direction(fields, "back-out", adjustment.directions, section);
  if (const Node* effects = fields.required("effects")) {
    for (const Node& item : list_items(*effects, "effects", section))
      adjustment.effects.push_back(read_effect(item, section));
  }
  if (placed && (adjustment.minutes <= 0.0 || adjustment.most_at_once <= 0.0)) {
    section.refuse(fields.node(), Code::bad_rule,
                   "`minutes` and `most-at-once` of an adjustment are above zero");
  }
  pack.adjustments.push_back(std::move(adjustment));
}

void read_fault(Fields& fields, const Section& section, Pack& pack) {
  Fault fault;
  fault.id = fields.text("fault");
  fault.label = fields.text("label");
  fault.check = fields.text("check");
  fault.fix = fields.text("fix");
  fault.prior = fields.number("prior");
  fault.minutes = fields.number("minutes");
  fault.loss = fields.number("loss");
  fault.stop = read_flag(fields, "stop", section);
  fault.provenance = read_provenance(fields, section);
  fault.source = section.source(fields.node());
  fault.cautions = read_names(fields, "cautions", "a caution", section.names.cautions, section);
  if (const Node* evidence = fields.required("evidence")) {
    for (const Node& item : list_items(*evidence, "evidence", section))
      fault.evidence.push_back(read_evidence(item, section));
  }
  if (fault.minutes <= 0.0 || fault.loss <= 0.0) {
    section.refuse(fields.node(), Code::bad_rule, "minutes and loss of a fault are above zero");
  }
  pack.faults.push_back(std::move(fault));
}

void read_track(Fields& fields, const Section& section, Pack& pack) {
  TrackState track;
  track.id = fields.text("track");
  track.label = fields.text("label");
  track.plain = fields.text("plain");
  track.wet = read_flag(fields, "wet", section);
  track.source = section.source(fields.node());
  if (const Node* cornering = fields.optional("cornering")) {
    Fields inner(section.document, *cornering, section.findings, "`cornering`");
    track.cornering = TrackState::Cornering{inner.number("middle"), inner.number("peak")};
    inner.finish();
    if (track.cornering->middle <= 0.0 || track.cornering->peak < track.cornering->middle) {
      section.refuse(*cornering, Code::bad_rule,
                     "a kart corners harder than nothing, and at its peak no less than usual");
    }
  }
  if (const Node* ahead = fields.optional("ahead")) {
    Fields inner(section.document, *ahead, section.findings, "`ahead`");
    track.ahead = inner.text("state");
    check_names(ahead, "a track state", {track.ahead}, section.names.tracks, section);
    if (const Node* shift = inner.required("shift")) track.shift = read_row(*shift, section);
    inner.finish();
  }
  pack.tracks.push_back(std::move(track));
}

}  // namespace kartwright
