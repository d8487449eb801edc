#include "cli/working_json.h"

namespace kartwright::cli {
namespace {

/// How an answer of each symptom's question would be read.
void write_questions(JsonWriter& out, const std::vector<Question>& questions) {
  out.list("questions", questions, [&](const Question& question) {
    if (question.symptom == nullptr) return;
    out.object([&] {
      write_asked(out, question);
      out.field("row", question.asked.row);
      out.field("sd", question.asked.sd);
      out.field("two_sided", question.asked.two_sided);
    });
  });
}

void write_facts(JsonWriter& out, const Facts& facts) {
  out.list("facts", facts.all, [&](const Fact& fact) {
    out.object([&] {
      out.field("fact", fact.text());
      out.field("rule", fact.rule);
      out.list("premises", fact.premises);
    });
  });
}

void write_readings(JsonWriter& out, const std::vector<Reading>& readings) {
  out.list("readings", readings, [&](const Reading& reading) {
    out.object([&] {
      out.field("rule", reading.rule);
      out.field("source", reading.source->text());
      out.field("row", reading.row);
      out.field("value", reading.value);
      out.field("sd", reading.sd);
    });
  });
}

void write_effect(JsonWriter& out, const Adjustment& adjustment, const Setting* setting,
                  const Effect& effect) {
  out.object([&] {
    out.field("adjustment", adjustment.id);
    out.field("grid", setting == nullptr ? std::nullopt : std::optional(grid_of(*setting)));
    out.field("per_step", effect.per_step);
    out.field("covariance", effect.covariance);
    out.list("rules", effect.rules, [&](const EffectRule* rule) { out.value(rule->id); });
    out.field("records", effect.records);
  });
}

void write_effects(JsonWriter& out, const Advice& advice, const Pack& pack) {
  out.list("effects", advice.effects, [&](const Effect& effect) {
    const auto at = static_cast<std::size_t>(&effect - advice.effects.data());
    write_effect(out, pack.adjustments[at], advice.ways[2 * at].setting, effect);
  });
}

void write_options(JsonWriter& out, const std::vector<Way>& ways, System units) {
  const auto write = [&](const Option& option, const std::string& from) {
    out.object([&] {
      out.field("adjustment", option.setting->adjustment->id);
      out.field("from", from);
      out.field("to", print_setting(*option.setting, option.to, units));
      out.field("u", option.steps);
      out.field("minutes", option.minutes);
      out.field("last_notch", option.last_notch);
      out.field("open", option.open());
      out.field("legal", option.legal());
    });
  };
  out.list("options", ways, [&](const Way& way) {
    if (way.options.empty()) return;
    const std::string from = print_setting(*way.setting, way.setting->now, units);
    for (const Option& option : way.options) write(option, from);
  });
}

void write_forecast(JsonWriter& out, const std::vector<Stage>& forecast) {
  out.list("forecast", forecast, [&](const Stage& stage) {
    out.object([&] {
      out.field("stage", stage.track);
      out.field("shift", stage.shift);
      out.field("weight", stage.weight);
    });
  });
}

void write_gaussian(JsonWriter& out, std::string_view name, const Eigen::VectorXd& mean,
                    const Eigen::MatrixXd& covariance) {
  out.object(name, [&] {
    out.field("mean", mean);
    out.field("covariance", covariance);
  });
}

/// What the physics makes of this kart on this track, and what it had to assume.
void write_loads(JsonWriter& out, const Advice& advice) {
  if (!advice.loads) return;
  const LoadsToday& loads = *advice.loads;
  out.object("loads", [&] {
    out.field("lateral_g", loads.corner.lateral / kGravity);
    out.field("peak_g", loads.corner.peak / kGravity);
    out.field("rear_bite_n", loads.figures.outside_rear);
    out.field("inside_rear_n", loads.figures.inside_rear);
    out.field("default_inside_rear_n", loads.of_default.inside_rear);
    const std::optional<double>& release = loads.figures.release;
    out.field("release_g", release ? std::optional(*release / kGravity) : std::nullopt);
    out.field("hop", loads.figures.hop);
    out.list("assumed", loads.known.assumed);
    if (!advice.measure_next) return;
    out.object("measure_next", [&] {
      out.field("id", advice.measure_next->id);
      out.field("points", advice.measure_next->points);
    });
  });
}

}  // namespace

void write_asked(JsonWriter& out, const Question& question) {
  if (question.symptom == nullptr) {
    out.field("symptom", nullptr);
    out.field("phase", nullptr);
    out.field("fact", question.fact->id);
    return;
  }
  out.field("symptom", question.symptom->id);
  out.field("phase", name_of(question.phase));
}

void write_working(JsonWriter& out, const Advice& advice, const Pack& pack) {
  out.object("working", [&] {
    out.list("axes", pack.axes, [&](const Axis& axis) { out.value(axis.id); });
    out.field("weights", advice.weights);
    write_gaussian(out, "prior", advice.prior.mean, advice.prior.covariance);
    write_facts(out, advice.facts);
    write_readings(out, advice.readings);
    write_gaussian(out, "posterior", advice.belief.mean, advice.belief.covariance);
    out.field("shares", advice.belief.shares);
    write_effects(out, advice, pack);
    write_options(out, advice.ways, advice.units);
    write_questions(out, advice.questions);
    out.field("minutes_left", advice.debrief.minutes);
    out.field("effort_rate", advice.effort_rate);
    out.field("loss_none", advice.loss_none);
    out.field("score_of_nothing", advice.score_of_nothing);
    write_forecast(out, advice.forecast);
    write_loads(out, advice);
  });
}

}  // namespace kartwright::cli
