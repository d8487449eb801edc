#include "cli/compare_json.h"

#include <array>

#include <nlohmann/json.hpp>

#include "cli/safe_json.h"

namespace kartwright::cli {
namespace {

using Json = nlohmann::ordered_json;

std::string_view name_of_reason(Unsettled reason) {
  constexpr std::array<std::string_view, 4> kNames{"none", "spread", "wild-laps", "order"};
  return kNames.at(static_cast<std::size_t>(reason));
}

Json effects_json(const LapComparison& all, const ClockFit& fit) {
  Json out = Json::array();
  for (const SettingEffect& effect : fit.effects) {
    out.push_back({{"group", all.groups[effect.setting].name},
                   {"effect", effect.seconds},
                   {"se", effect.error},
                   {"df", fit.degrees_of_freedom},
                   {"interval", {effect.low, effect.high}}});
  }
  return out;
}

void add_fit(const LapComparison& all, const ClockFit& fit, Json& out) {
  out["effects"] = effects_json(all, fit);
  out["drift"] = fit.drift;
  out["drift_se"] = fit.drift_error;
  out["residual_sd"] = fit.residual_sd;
}

void add_judgement(const ClockJudgement& judged, Json& out) {
  out["verdict"] = name_of(judged.verdict);
  out["reason"] = name_of_reason(judged.reason);
  out["laps_needed"] = judged.laps_needed;
}

Json judged_json(const LapComparison& all) {
  Json out = Json::array();
  for (const ClockJudgement& judged : all.clock.judged) {
    Json one{{"group", all.groups[judged.setting].name}};
    add_judgement(judged, one);
    out.push_back(std::move(one));
  }
  return out;
}

Json groups_json(const LapComparison& all) {
  Json out = Json::array();
  for (const DrivenGroup& group : all.groups) {
    out.push_back({{"group", group.name},
                   {"laps", group.laps},
                   {"first_lap", group.first_lap},
                   {"last_lap", group.last_lap}});
  }
  return out;
}

Json laps_json(const LapComparison& all) {
  Json out = Json::array();
  for (const FittedLap& lap : all.laps) {
    out.push_back({{"lap", lap.number},
                   {"seconds", lap.seconds},
                   {"fitted", lap.fitted},
                   {"group", all.groups[lap.group].name},
                   {"wild", lap.wild}});
  }
  return out;
}

Json wild_json(const LapComparison& all) {
  Json out = Json::array();
  for (const std::size_t at : all.clock.wild) {
    const FittedLap& lap = all.laps[at];
    out.push_back(
        {{"lap", lap.number}, {"seconds", lap.seconds}, {"group", all.groups[lap.group].name}});
  }
  return out;
}

}  // namespace

std::string compare_json(const LapComparison& compared) {
  Json out{{"schema", "kartwright/compare/1"}};
  add_fit(compared, compared.clock.fit, out);
  add_judgement(compared.clock.judged[compared.decides], out);
  out["decides"] = compared.groups[compared.clock.judged[compared.decides].setting].name;
  out["judged"] = judged_json(compared);
  out["worth"] = compared.worth;
  out["first_group"] = compared.groups.front().name;
  out["groups"] = groups_json(compared);
  out["left_out"] = compared.left_out;
  out["wild_laps"] = wild_json(compared);
  out["without_wild"] = nullptr;
  if (compared.clock.fit_tame) {
    Json tame = Json::object();
    add_fit(compared, *compared.clock.fit_tame, tame);
    out["without_wild"] = std::move(tame);
  }
  out["laps"] = laps_json(compared);
  out["scale"] = {{"least", compared.least}, {"most", compared.most}};
  return json_line(out);
}

}  // namespace kartwright::cli
