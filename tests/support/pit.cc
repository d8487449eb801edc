#include "tests/support/pit.h"

#include <stdexcept>

#include "engine/debrief/report_grammar.h"
#include "engine/debrief/sentence.h"
#include "engine/knowledge/built_in.h"

namespace kartwright {
namespace {

Eigen::Index axis_at(std::string_view id) {
  for (std::size_t i = 0; i < rules().axes.size(); ++i) {
    if (rules().axes[i].id == id) return static_cast<Eigen::Index>(i);
  }
  throw std::invalid_argument("no axis " + std::string(id));
}

std::size_t adjustment_at(std::string_view id) {
  for (std::size_t i = 0; i < rules().adjustments.size(); ++i) {
    if (rules().adjustments[i].id == id) return i;
  }
  throw std::invalid_argument("no adjustment " + std::string(id));
}

WrittenAt written(const std::string& text) { return {.file = "a test", .source = text}; }

}  // namespace

const Pack& rules() {
  static const Pack pack = built_in_pack();
  return pack;
}

Heard heard_by_rules(std::string_view said) {
  static Ear ear(rules());
  return ear.hear(said);
}

Advice Pit::answer() const {
  Debrief debrief{.heard = {}, .track = track, .minutes = minutes};
  Findings findings;
  for (const std::string& text : reports) {
    const auto report = parse_report(text, rules(), written(text), findings);
    if (report) debrief.heard.reports.push_back(*report);
  }
  for (const std::string& text : facts) {
    const auto fact = parse_fact(text, rules(), written(text), findings);
    if (fact) debrief.heard.facts.push_back(*fact);
  }
  findings.throw_if_errors();
  return advise(rules(), kart, debrief, System::metric);
}

double belief(const Advice& advice, std::string_view axis) {
  return advice.belief.mean[axis_at(axis)];
}

double per_step(const Advice& advice, std::string_view adjustment, std::string_view axis) {
  return advice.effects[adjustment_at(adjustment)].per_step[axis_at(axis)];
}

const Change* ranked(const Advice& advice, std::string_view adjustment,
                     std::string_view direction) {
  for (const Change& change : advice.changes) {
    if (change.adjustment().id == adjustment && change.direction() == direction) return &change;
  }
  return nullptr;
}

std::string first_of(const Advice& advice) {
  if (advice.changes.empty()) return "nothing";
  const Change& lead = advice.changes.front();
  return lead.adjustment().id + " " + lead.direction();
}

double moved_by(const Advice& advice, const Change& change, std::string_view axis) {
  return change.candidate.option.steps * per_step(advice, change.adjustment().id, axis);
}

std::string refusal_of(const Advice& advice, std::string_view adjustment,
                       std::string_view direction) {
  for (const NotNow& each : advice.not_now) {
    if (each.adjustment == adjustment && each.direction == direction)
      return std::string(name_of(each.reason));
  }
  return ranked(advice, adjustment, direction) != nullptr ? "offered" : "nowhere";
}

}  // namespace kartwright
