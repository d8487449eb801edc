#include "cli/weigh_json.h"

#include <nlohmann/json.hpp>

#include "cli/page.h"
#include "cli/safe_json.h"

namespace kartwright::cli {
namespace {

using Json = nlohmann::ordered_json;

Json of_loads(const CornerLoads& on) {
  return {
      {"lf", on.left_front}, {"rf", on.right_front}, {"lr", on.left_rear}, {"rr", on.right_rear}};
}

Json of_loads(const std::optional<CornerLoads>& on) { return on ? of_loads(*on) : Json(nullptr); }

Json of_measured(const WithError& figure) { return {{"value", figure.value}, {"sd", figure.sd}}; }

Json of_end(const std::optional<double>& end) { return end ? Json(*end) : Json(nullptr); }

Json of_shares(const Shares& shares) {
  return {{"front", of_measured(shares.front)},
          {"left", of_measured(shares.left)},
          {"cross", of_measured(shares.cross)}};
}

std::string_view word_for(ResolutionFrom from) {
  if (from == ResolutionFrom::crew) return "given";
  return from == ResolutionFrom::kart_file ? "kart-file" : "assumed";
}

Json of_figure(const JudgedFigure& figure) {
  return {{"id", figure.id},         {"value", figure.figure.value},
          {"sd", figure.figure.sd},  {"from", of_end(figure.from)},
          {"to", of_end(figure.to)}, {"ok", figure.ok},
          {"sure", figure.sure},     {"text", figure.text}};
}

Json of_verdicts(const std::vector<WeighingVerdict>& verdicts) {
  Json out = Json::array();
  for (const WeighingVerdict& each : verdicts) {
    out.push_back({{"id", each.id}, {"ok", each.ok}, {"sure", each.sure}, {"text", each.text}});
  }
  return out;
}

Json of_plan(const MovePlan& plan) {
  Json steps = Json::array();
  for (const MassStep& step : plan.steps) {
    steps.push_back({{"id", step.id},
                     {"what", step.what},
                     {"from", step.from},
                     {"to", step.to},
                     {"mass", step.mass}});
  }
  return {{"steps", steps},
          {"minutes", plan.minutes},
          {"reaches", plan.reaches},
          {"legal", plan.legal},
          {"higher", plan.higher},
          {"predicted", of_loads(plan.predicted)},
          {"shares", of_shares(plan.shares)}};
}

Json of_warp(const std::vector<WarpPart>& parts) {
  Json out = Json::array();
  for (const WarpPart& part : parts) {
    out.push_back({{"of", part.of}, {"value", part.warp.value}, {"sd", part.warp.sd}});
  }
  return out;
}

Json of_figures(const std::vector<JudgedFigure>& figures) {
  Json out = Json::array();
  for (const JudgedFigure& figure : figures) out.push_back(of_figure(figure));
  return out;
}

Json of_plans(const std::vector<MovePlan>& plans) {
  Json out = Json::array();
  for (const MovePlan& plan : plans) out.push_back(of_plan(plan));
  return out;
}

Json of_modes(const Modes& modes) {
  return {
      {"total", modes.total}, {"pitch", modes.pitch}, {"roll", modes.roll}, {"warp", modes.warp}};
}

}  // namespace

std::string weigh_json(const WeighingAnswer& answer) {
  const Weighing& given = answer.given;
  return json_line(
      {{"schema", "kartwright/weigh/1"},     {"kart", printable(answer.kart)},
       {"headline", answer.headline},        {"readings", of_loads(given.on)},
       {"swapped", of_loads(given.swapped)}, {"turned", of_loads(given.turned)},
       {"resolution", given.resolution},     {"resolution_from", word_for(given.resolution_from)},
       {"best", of_loads(answer.on)},        {"total", answer.total.value},
       {"total_sd", answer.total.sd},        {"shares", of_shares(answer.shares)},
       {"modes", of_modes(answer.modes)},    {"figures", of_figures(answer.figures)},
       {"warp_parts", of_warp(answer.warp)}, {"verdicts", of_verdicts(answer.verdicts)},
       {"moves", of_plans(answer.plans)},    {"moves_text", answer.moves_text},
       {"modes_text", answer.modes_mean},    {"twist", answer.twist},
       {"cannot_tell", answer.cannot_tell},  {"next", answer.next},
       {"assumed", answer.assumed},          {"cautions", answer.cautions}});
}

std::string height_json(const HeightAnswer& answer) {
  const LiftedAxle& test = answer.given.test;
  return json_line({{"schema", "kartwright/weigh-lifted/1"},
                    {"kart", printable(answer.kart)},
                    {"headline", answer.headline},
                    {"height", of_measured(answer.height)},
                    {"sd_by_scales", answer.by_scales},
                    {"sd_by_lift", answer.by_tape},
                    {"angle", answer.angle},
                    {"raised", answer.given.front_raised ? "front" : "rear"},
                    {"lift", test.lift},
                    {"level", test.level},
                    {"up", test.lifted},
                    {"mass", test.mass},
                    {"wheelbase", test.wheelbase},
                    {"resolution", test.sigma_scale},
                    {"resolution_from", word_for(answer.given.resolution_from)},
                    {"verdicts", of_verdicts(answer.verdicts)},
                    {"error", answer.error},
                    {"assumed", answer.given.assumed},
                    {"cautions", answer.cautions}});
}

}  // namespace kartwright::cli
