#include "engine/advice/explain.h"

#include <algorithm>

#include "engine/advice/explain_gauge.h"
#include "engine/advice/explain_parts.h"
#include "engine/document/codes.h"

namespace kartwright {
namespace {

std::optional<Explanation> find_rule(std::string_view id, const Pack& pack) {
  for (const RuleRef& rule : every_rule(pack)) {
    if (rule.rule->id == id) return explain_rule(rule, pack);
  }
  return std::nullopt;
}

std::vector<std::string> message_ids() {
  std::vector<std::string> ids;
  for (const CodeText& each : kCodes) ids.emplace_back(each.name);
  return ids;
}

template <typename T>
std::vector<std::string> ids_of(const std::vector<T>& all) {
  std::vector<std::string> ids;
  for (const T& item : all) ids.push_back(item.id);
  return ids;
}

/// `check-toe`, since `toe` is an adjustment.
std::vector<std::string> check_ids(const Pack& pack) {
  std::vector<std::string> ids;
  for (const Gauge& gauge : pack.gauges) ids.push_back("check-" + gauge.id);
  return ids;
}

/// What a kart file may say of measurements and sizes; those of a check have the check's page.
std::vector<std::string> size_ids(const Pack& pack) {
  std::vector<std::string> ids;
  for (const auto* sizes : {&pack.measures, &pack.dimensions}) {
    for (const MeasureDef& size : *sizes) {
      const auto is_page = [&](const QuantityPage& page) { return page.id == size.id; };
      const bool has_page = std::any_of(pack.quantities.begin(), pack.quantities.end(), is_page);
      if (!has_page && gauge_named(size.id, pack) == nullptr) ids.push_back(size.id);
    }
  }
  return ids;
}

std::vector<std::string> rule_ids(const Pack& pack) {
  std::vector<std::string> ids;
  for (const RuleRef& rule : every_rule(pack)) ids.push_back(rule.rule->id);
  std::sort(ids.begin(), ids.end());
  return ids;
}

}  // namespace

std::optional<Explanation> explain(std::string_view id, const Pack& pack) {
  if (const Symptom* s = pack.symptom(id)) return explain_symptom(*s, pack);
  if (const Adjustment* a = pack.adjustment(id)) return explain_adjustment(*a, pack);
  if (const Fault* f = pack.fault(id)) return explain_fault(*f, pack);
  if (const TrackState* t = pack.track(id)) return explain_track(*t, pack);
  if (const FactDef* f = pack.fact(id)) return explain_fact(*f);
  if (auto message = explain_message(id)) return message;
  if (const Gauge* gauge = gauge_named(id, pack)) return explain_gauge(*gauge, pack);
  for (const QuantityPage& page : pack.quantities) {
    if (page.id == id) return explain_quantity(page);
  }
  if (const MeasureDef* m = pack.measure(id)) return explain_size(*m, "measured");
  if (const MeasureDef* d = pack.dimension(id)) return explain_size(*d, "dimensions");
  return find_rule(id, pack);
}

std::vector<std::pair<std::string, std::vector<std::string>>> explainable(const Pack& pack) {
  return {{"symptoms", ids_of(pack.symptoms)},
          {"adjustments", ids_of(pack.adjustments)},
          {"faults", ids_of(pack.faults)},
          {"track", ids_of(pack.tracks)},
          {"facts", ids_of(pack.facts)},
          {"checks", check_ids(pack)},
          {"quantities", ids_of(pack.quantities)},
          {"sizes", size_ids(pack)},
          {"rules", rule_ids(pack)},
          {"messages", message_ids()}};
}

}  // namespace kartwright
