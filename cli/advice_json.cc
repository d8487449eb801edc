#include "cli/advice_json.h"

#include <nlohmann/json.hpp>

#include "cli/diagnostics.h"
#include "cli/page.h"
#include "cli/safe_json.h"

namespace kartwright::cli {
namespace {

using Json = nlohmann::ordered_json;

Json numbers(const Eigen::VectorXd& v) {
  return std::vector<double>(v.data(), v.data() + v.size());
}

Json rows(const Eigen::MatrixXd& m) {
  Json out = Json::array();
  for (Eigen::Index i = 0; i < m.rows(); ++i) out.push_back(numbers(m.row(i)));
  return out;
}

Json warnings_json(const std::vector<Diagnostic>& warnings) {
  Json out = Json::array();
  for (const Diagnostic& d : warnings) out.push_back(diagnostic_json(d));
  return out;
}

Json report(const Report& r) {
  Json out{{"symptom", r.symptom},
           {"phase", name_of(r.phase)},
           {"severity", r.severity},
           {"confidence", name_of(r.confidence)}};
  if (r.side) out["side"] = name_of(*r.side);
  if (r.when) out["when"] = name_of(*r.when);
  if (!r.corners.empty()) out["corners"] = r.corners;
  if (!r.words.empty()) out["words"] = printable(r.words);
  if (r.denied()) out["denied"] = true;
  if (r.from_praise) out["praise"] = true;
  return out;
}

Json heard(const Heard& said) {
  Json reports = Json::array();
  Json not_understood = Json::array();
  Json facts = Json::array();
  for (const Report& r : said.reports) reports.push_back(report(r));
  for (const NotUnderstood& left : said.not_understood) {
    not_understood.push_back({{"words", printable(left.words)}, {"nearest", left.nearest}});
  }
  for (const StatedFact& fact : said.facts)
    facts.push_back({{"fact", fact.fact}, {"value", fact.value}});
  Json praise = Json::array();
  for (const std::string& words : said.praise) praise.push_back(printable(words));
  return {{"reports", reports},
          {"not_understood", not_understood},
          {"facts", facts},
          {"praise", praise}};
}

Json reading(const Advice& advice) {
  const Coherence& c = advice.coherence;
  Json odd = nullptr;
  if (c.odd_one_out >= 0) {
    const Reading& r = advice.readings[static_cast<std::size_t>(c.odd_one_out)];
    odd = {
        {"rule", r.rule}, {"text", r.text}, {"from", r.report >= 0 ? "report" : "track-or-setup"}};
  }
  return {{"headline", name_of(advice.verdict.headline)},
          {"text", advice.text},
          {"coherent", c.coherent},
          {"chi2", c.chi2},
          {"dof", c.dof},
          {"odd_one_out", odd}};
}

Json checks(const Advice& advice) {
  Json out = Json::array();
  for (const FaultOdds& odds : advice.checks) {
    Json because = Json::array();
    for (const Weight& weight : odds.because) {
      because.push_back({{"rule", weight.rule}, {"decibans", weight.decibans}});
    }
    out.push_back({{"fault", odds.fault->id},
                   {"probability", odds.probability},
                   {"minutes", odds.fault->minutes},
                   {"loss", odds.fault->loss},
                   {"stop", odds.fault->stop},
                   {"because", because}});
  }
  return out;
}

Json change(const Change& c, std::size_t rank) {
  const Candidate& candidate = c.candidate;
  const Parts& parts = candidate.parts;
  Json because = Json::array();
  for (const Because& b : c.because) {
    because.push_back({{"kind", b.kind}, {"id", b.id}, {"text", b.text}});
  }
  Json against = Json::array();
  for (const auto& [reading, notches] : c.against) {
    against.push_back({{"reading", reading}, {"notches", notches}});
  }
  Json out{{"rank", rank},
           {"adjustment", c.adjustment().id},
           {"direction", c.direction()},
           {"from", c.from},
           {"to", c.to},
           {"steps", candidate.option.steps},
           {"relief", candidate.relief},
           {"room_cost", candidate.room_cost},
           {"minutes", candidate.option.minutes},
           {"score", parts.score()},
           {"parts",
            {{"effect", parts.effect},
             {"room", parts.room},
             {"effort", parts.effort},
             {"last_notch", parts.last_notch}}},
           {"room_left", candidate.option.room_left},
           {"contested", c.contested},
           {"because", because},
           {"watch", c.watch},
           {"back_out", c.back_out},
           {"against", against},
           {"cautions", c.cautions}};
  if (!c.then.empty()) out["then"] = c.then;
  return out;
}

Json not_now(const Advice& advice) {
  Json out = Json::array();
  for (const NotNow& n : advice.not_now) {
    out.push_back({{"adjustment", n.adjustment},
                   {"direction", n.direction},
                   {"to", n.to},
                   {"text", n.text},
                   {"reason", name_of(n.reason)}});
  }
  return out;
}

Json bundles(const Advice& advice) {
  Json out = Json::array();
  for (const Together& bundle : advice.bundles) {
    Json moves = Json::array();
    for (const Together::Move& move : bundle.moves) {
      moves.push_back({{"adjustment", move.adjustment},
                       {"from", move.from},
                       {"to", move.to},
                       {"steps", move.steps}});
    }
    out.push_back({{"moves", moves}, {"relief", bundle.relief}, {"minutes", bundle.minutes}});
  }
  return out;
}

/// What a question is about: a symptom at a phase, or a fact.
Json asked(const Question& question) {
  if (question.symptom == nullptr) return {{"fact", question.fact->id}};
  return {{"symptom", question.symptom->id}, {"phase", name_of(question.phase)}};
}

Json ask(const Advice& advice) {
  Json out = Json::array();
  for (const Question& question : advice.questions) {
    Json one = asked(question);
    one["question"] = question.text();
    one["worth"] = question.worth;
    out.push_back(one);
  }
  return out;
}

/// How an answer of each symptom's question would be read.
Json questions(const Advice& advice) {
  Json out = Json::array();
  for (const Question& question : advice.questions) {
    if (question.symptom == nullptr) continue;
    Json one = asked(question);
    one["row"] = numbers(question.asked.row);
    one["sd"] = question.asked.sd;
    one["two_sided"] = question.asked.two_sided;
    out.push_back(one);
  }
  return out;
}

Json facts(const Advice& advice) {
  Json out = Json::array();
  for (const Fact& fact : advice.facts.all) {
    out.push_back({{"fact", fact.text()}, {"rule", fact.rule}, {"premises", fact.premises}});
  }
  return out;
}

Json readings(const Advice& advice) {
  Json out = Json::array();
  for (const Reading& r : advice.readings) {
    out.push_back({{"rule", r.rule},
                   {"source", r.source.text()},
                   {"row", numbers(r.row)},
                   {"value", r.value},
                   {"sd", r.sd}});
  }
  return out;
}

Json effects(const Advice& advice, const Pack& pack) {
  Json out = Json::array();
  for (std::size_t i = 0; i < advice.effects.size(); ++i) {
    const Effect& effect = advice.effects[i];
    Json rules = Json::array();
    for (const EffectRule* rule : effect.rules) rules.push_back(rule->id);
    const Setting* setting = advice.ways[2 * i].setting;
    out.push_back({{"adjustment", pack.adjustments[i].id},
                   {"grid", setting == nullptr ? Json(nullptr) : Json(grid_of(*setting))},
                   {"per_step", numbers(effect.per_step)},
                   {"covariance", rows(effect.covariance)},
                   {"rules", rules},
                   {"records", 0}});
  }
  return out;
}

Json options(const Advice& advice, System units) {
  Json out = Json::array();
  for (const Way& way : advice.ways) {
    for (const Option& option : way.options) {
      out.push_back({{"adjustment", way.adjustment->id},
                     {"from", print_setting(*option.setting, option.from, units)},
                     {"to", print_setting(*option.setting, option.to, units)},
                     {"u", option.steps},
                     {"minutes", option.minutes},
                     {"last_notch", option.last_notch},
                     {"open", option.open()},
                     {"legal", option.legal()}});
    }
  }
  return out;
}

Json forecast(const Advice& advice) {
  Json out = Json::array();
  for (const Stage& stage : advice.forecast) {
    out.push_back(
        {{"stage", stage.track}, {"shift", numbers(stage.shift)}, {"weight", stage.weight}});
  }
  return out;
}

/// Shares of the draws in which each change comes first, in their order.
Json draws(const Draws& d) {
  return {
      {"draws", d.draws}, {"first", d.first}, {"nothing", d.nothing}, {"coin_toss", coin_toss(d)}};
}

Json turning(const Turning& turning) {
  Json turns = Json::array();
  for (const Turn& turn : turning.turns) {
    turns.push_back({{"kind", name_of(turn.kind)},
                     {"input", turn.input},
                     {"from", turn.from},
                     {"to", turn.to},
                     {"distance", turn.distance},
                     {"then", turn.then.phrase},
                     {"text", in_words(turn)}});
  }
  return {{"now", turning.now.phrase}, {"turns", turns}, {"runs", turning.runs}};
}

Json working(const Advice& advice, const Pack& pack) {
  Json axes = Json::array();
  for (const Axis& axis : pack.axes) axes.push_back(axis.id);
  return {{"axes", axes},
          {"weights", numbers(advice.weights)},
          {"prior",
           {{"mean", numbers(advice.prior.mean)}, {"covariance", rows(advice.prior.covariance)}}},
          {"facts", facts(advice)},
          {"readings", readings(advice)},
          {"posterior",
           {{"mean", numbers(advice.belief.mean)}, {"covariance", rows(advice.belief.covariance)}}},
          {"shares", rows(advice.belief.shares)},
          {"effects", effects(advice, pack)},
          {"options", options(advice, advice.units)},
          {"questions", questions(advice)},
          {"minutes_left", advice.debrief.minutes},
          {"effort_rate", advice.effort_rate},
          {"loss_none", advice.loss_none},
          {"forecast", forecast(advice)}};
}

}  // namespace

std::string advice_json(const Advice& advice, const Pack& pack, bool brief, const Beside& beside) {
  Json changes = Json::array();
  for (std::size_t i = 0; i < advice.changes.size(); ++i) {
    changes.push_back(change(advice.changes[i], i + 1));
  }
  Json out{{"schema", "kartwright/advice/1"}, {"kart", printable(advice.kart)},
           {"track", advice.track},           {"heard", heard(advice.debrief.heard)},
           {"reading", reading(advice)},      {"look_over", advice.look_over},
           {"checks", checks(advice)},        {"changes", changes},
           {"bundles", bundles(advice)},      {"not_now", not_now(advice)}};
  if (advice.next) {
    out["next"] = {{"track", advice.next->track},
                   {"adjustment", advice.next->adjustment},
                   {"direction", advice.next->direction},
                   {"move", advice.next->phrase},
                   {"from", advice.next->from},
                   {"to", advice.next->to},
                   {"left", advice.next->left}};
  }
  if (!brief) {
    out["ask"] = ask(advice);
    out["working"] = working(advice, pack);
  }
  if (advice.draws) out["draws"] = draws(*advice.draws);
  if (!beside.why_not.empty()) out["why_not"] = why_not_json(beside.why_not, pack, advice.units);
  if (beside.turning) out["turning"] = turning(*beside.turning);
  if (!beside.warnings.empty()) out["warnings"] = warnings_json(beside.warnings);
  return safe_json(out.dump()) + "\n";
}

}  // namespace kartwright::cli
