#include "cli/whatif_json.h"

#include <array>

#include <nlohmann/json.hpp>

#include "cli/safe_json.h"

namespace kartwright::cli {
namespace {

using Json = nlohmann::ordered_json;

constexpr std::array kPhaseKeys{"entry", "mid", "exit"};

double per_degree(double per_radian) { return per_radian * 3.14159265358979323846 / 180.0; }

Json in_g(const std::optional<double>& acceleration) {
  return acceleration ? Json(*acceleration / kGravity) : Json(nullptr);
}

std::string_view contact_name(Contact contact) {
  constexpr std::array<std::string_view, 4> kNames{"all-four", "inside-rear-off",
                                                   "inside-front-off", "tipping"};
  return kNames.at(static_cast<std::size_t>(contact));
}

Json json_of(const Cornering& at) {
  return {{"loads",
           {{"fl", at.loads.left_front},
            {"fr", at.loads.right_front},
            {"rl", at.loads.left_rear},
            {"rr", at.loads.right_rear}}},
          {"contact", contact_name(at.contact)},
          {"inside_rear_lift_m", at.inside_rear_lift}};
}

void add_figures(Json& out, const Figures& figures) {
  out["release_g"] = in_g(figures.release);
  out["static_stability"] = figures.static_stability;
  out["hop"] = figures.hop;
  out["response_n_per_deg"] = per_degree(figures.response);
  out["rear_bite_n"] = figures.outside_rear;
  out["inside_rear_n"] = figures.inside_rear;
}

Json json_of(const PaperSide& side) {
  Json out;
  for (std::size_t i = 0; i < kPhaseKeys.size(); ++i)
    out[kPhaseKeys.at(i)] = json_of(side.phases.at(i));
  add_figures(out, side.figures);
  out["front_share"] = side.kart.front_share;
  out["mass_height_m"] = side.kart.mass_height;
  out["rear_track_m"] = side.kart.rear_track;
  out["bar_changes_sign_g"] = in_g(side.bar_turns);
  out["line"] = {{"angle_rad", side.line.angle},
                 {"upright", side.line.upright},
                 {"sideways", side.line.sideways}};
  return out;
}

/// Where it is another than the left turn.
Json right_turn(const PaperClass& one) {
  if (!one.right || !one.right_after) return nullptr;
  Json before;
  Json after;
  add_figures(before, *one.right);
  add_figures(after, *one.right_after);
  return {{"before", std::move(before)}, {"after", std::move(after)}};
}

Json json_of(const PaperClass& one) {
  return {{"track", one.track},
          {"lateral_g", one.corner.lateral / kGravity},
          {"peak_g", one.corner.peak / kGravity},
          {"radius_m", one.corner.radius},
          {"before", json_of(one.before)},
          {"after", json_of(one.after)},
          {"right_turn", right_turn(one)}};
}

std::string_view name_of_say(LoadsSay say) {
  constexpr std::array<std::string_view, 3> kNames{"the-same", "the-opposite", "nothing"};
  return kNames.at(static_cast<std::size_t>(say));
}

Json json_of(const Reported& reported, const Pack& pack) {
  Json moves = Json::array();
  for (const auto& [axis, notches] : reported.moves)
    moves.push_back({{"axis", pack.axes[axis].id}, {"notches", notches}});
  return {{"adjustment", reported.adjustment},
          {"made", reported.made},
          {"basis", "rule of thumb"},
          {"moves", moves},
          {"contested", reported.contested},
          {"loads_claimed", reported.loads_claim},
          {"loads_say", name_of_say(reported.loads)},
          {"text", reported.text}};
}

Json json_of(const PaperChange& change, System units) {
  return {{"id", change.id},
          {"from", print_value(change, change.from, units)},
          {"to", print_value(change, change.to, units)},
          {"moves_loads", moves_loads(change)},
          {"warning", change.warning.empty() ? Json(nullptr) : Json(change.warning)}};
}

}  // namespace

std::string whatif_json(const WhatIf& what, const Kart& kart, const Pack& pack, System units) {
  Json out{{"schema", "kartwright/whatif/1"}, {"kart", kart.name}};
  const PaperClass& first = what.paper.classes.front();
  out["track"] = first.track;
  out["changes"] = Json::array();
  for (const PaperChange& change : what.paper.changes)
    out["changes"].push_back(json_of(change, units));
  out["assumed"] = what.paper.assumed;
  out["measure_first"] = nullptr;
  if (what.counts_most) {
    const CountsMost& size = *what.counts_most;
    out["measure_first"] = {{"id", size.id},
                            {"likely", {size.low, size.high}},
                            {"outside_rear_n", {size.at_low, size.at_high}}};
  }
  out["before"] = json_of(first.before);
  out["after"] = json_of(first.after);
  out["classes"] = Json::array();
  for (const PaperClass& one : what.paper.classes) out["classes"].push_back(json_of(one));
  out["reported"] = Json::array();
  for (const Reported& reported : what.reported) out["reported"].push_back(json_of(reported, pack));
  out["cautions"] = what.cautions;
  out["equivalent_track_m"] = what.equivalent_track ? Json(*what.equivalent_track) : Json(nullptr);
  return json_line(out);
}

std::string sweep_json(const std::vector<Sweep>& sweeps, const Kart& kart, System units) {
  Json out{{"schema", "kartwright/sweep/1"}, {"kart", kart.name}, {"sweeps", Json::array()}};
  for (const Sweep& sweep : sweeps) {
    Json one{{"track", sweep.track},
             {"id", sweep.rows.front().change.id},
             {"assumed", sweep.assumed},
             {"rows", Json::array()}};
    for (const SweepRow& row : sweep.rows) {
      Json each{{"to", print_value(row.change, row.change.to, units)}};
      add_figures(each, row.figures);
      each["middle"] = json_of(row.middle);
      each["warning"] = row.change.warning.empty() ? Json(nullptr) : Json(row.change.warning);
      one["rows"].push_back(std::move(each));
    }
    out["sweeps"].push_back(std::move(one));
  }
  return json_line(out);
}

}  // namespace kartwright::cli
