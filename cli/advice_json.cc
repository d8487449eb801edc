#include "cli/advice_json.h"

#include "cli/diagnostics.h"
#include "cli/next_steps_text.h"
#include "cli/page.h"
#include "cli/working_json.h"

namespace kartwright::cli {
namespace {

void write_report(JsonWriter& out, const Report& r) {
  out.object([&] {
    out.field("symptom", r.symptom);
    out.field("phase", name_of(r.phase));
    out.field("severity", r.severity);
    out.field("confidence", name_of(r.confidence));
    if (r.side) out.field("side", name_of(*r.side));
    if (r.when) out.field("when", name_of(*r.when));
    if (!r.corners.empty()) out.list("corners", r.corners);
    if (!r.words.empty()) out.field("words", printable(r.words));
    if (r.denied()) out.field("denied", true);
    if (r.from_praise) out.field("praise", true);
  });
}

void write_heard(JsonWriter& out, const Heard& said) {
  out.object("heard", [&] {
    out.list("reports", said.reports, [&](const Report& r) { write_report(out, r); });
    out.list("not_understood", said.not_understood, [&](const NotUnderstood& left) {
      out.object([&] {
        out.field("words", printable(left.words));
        out.list("nearest", left.nearest);
      });
    });
    out.list("facts", said.facts, [&](const StatedFact& stated) {
      out.object([&] {
        out.field("fact", stated.fact);
        out.field("value", stated.value);
      });
    });
    out.list("praise", said.praise, [&](const std::string& words) { out.value(printable(words)); });
  });
}

void write_odd_one_out(JsonWriter& out, const Advice& advice) {
  if (advice.coherence.odd_one_out < 0) {
    out.field("odd_one_out", nullptr);
    return;
  }
  const Reading& odd = advice.readings[static_cast<std::size_t>(advice.coherence.odd_one_out)];
  out.object("odd_one_out", [&] {
    out.field("rule", odd.rule);
    out.field("text", odd.text);
    out.field("from", odd.report >= 0 ? "report" : "track-or-setup");
  });
}

void write_reading(JsonWriter& out, const Advice& advice) {
  out.object("reading", [&] {
    out.field("headline", name_of(advice.verdict.headline));
    out.field("text", advice.text);
    out.field("coherent", advice.coherence.coherent);
    out.field("chi2", advice.coherence.chi2);
    out.field("dof", advice.coherence.dof);
    write_odd_one_out(out, advice);
  });
}

void write_checks(JsonWriter& out, const std::vector<FaultOdds>& checks) {
  out.list("checks", checks, [&](const FaultOdds& odds) {
    out.object([&] {
      out.field("fault", odds.fault->id);
      out.field("probability", odds.probability);
      out.field("minutes", odds.fault->minutes);
      out.field("loss", odds.fault->loss);
      out.field("stop", odds.fault->stop);
      out.list("because", odds.because, [&](const Weight& weight) {
        out.object([&] {
          out.field("rule", weight.rule);
          out.field("decibans", weight.decibans);
        });
      });
    });
  });
}

/// What stands behind a change, and what it feeds.
void write_grounds(JsonWriter& out, const Change& c) {
  out.list("because", c.because, [&](const Because& because) {
    out.object([&] {
      out.field("kind", because.kind);
      out.field("id", because.id);
      out.field("text", because.text);
    });
  });
  if (!c.tried.empty()) out.field("tried", c.tried);
  out.field("watch", c.watch);
  out.field("back_out", c.back_out);
  out.list("against", c.against, [&](const auto& fed) {
    out.object([&] {
      out.field("reading", fed.first);
      out.field("notches", fed.second);
    });
  });
  out.list("cautions", c.cautions);
}

void write_change(JsonWriter& out, const Change& c, std::size_t rank) {
  const Candidate& candidate = c.candidate;
  out.object([&] {
    out.field("rank", rank);
    out.field("adjustment", c.adjustment().id);
    out.field("direction", c.direction());
    out.field("from", c.from);
    out.field("to", c.to);
    out.field("steps", candidate.option.steps);
    out.field("relief", candidate.relief);
    out.field("room_cost", candidate.room_cost);
    out.field("minutes", candidate.option.minutes);
    out.field("score", candidate.parts.score());
    write_parts(out, candidate.parts);
    out.field("room_left", candidate.option.room_left);
    out.field("contested", c.contested);
    write_grounds(out, c);
    if (!c.then.empty()) out.field("then", c.then);
  });
}

void write_changes(JsonWriter& out, const std::vector<Change>& changes) {
  std::size_t rank = 0;
  out.list("changes", changes, [&](const Change& c) { write_change(out, c, ++rank); });
}

void write_bundles(JsonWriter& out, const std::vector<Together>& bundles) {
  out.list("bundles", bundles, [&](const Together& bundle) {
    out.object([&] {
      out.list("moves", bundle.moves, [&](const Together::Move& move) {
        out.object([&] {
          out.field("adjustment", move.adjustment);
          out.field("from", move.from);
          out.field("to", move.to);
          out.field("steps", move.steps);
          out.field("minutes", move.minutes);
          out.field("relief", move.relief);
        });
      });
      out.field("relief", bundle.relief);
      out.field("minutes", bundle.minutes);
    });
  });
}

void write_not_now(JsonWriter& out, const std::vector<NotNow>& refused) {
  out.list("not_now", refused, [&](const NotNow& each) {
    out.object([&] {
      out.field("adjustment", each.adjustment);
      out.field("direction", each.direction);
      out.field("to", each.to);
      out.field("text", each.text);
      out.field("reason", name_of(each.reason));
    });
  });
}

void write_next(JsonWriter& out, const NextWanted& next) {
  out.object("next", [&] {
    out.field("track", next.track);
    out.field("adjustment", next.adjustment);
    out.field("direction", next.direction);
    out.field("move", next.phrase);
    out.field("from", next.from);
    out.field("to", next.to);
    out.field("left", next.left);
  });
}

void write_ask(JsonWriter& out, const std::vector<Question>& questions) {
  out.list("ask", questions, [&](const Question& question) {
    out.object([&] {
      write_asked(out, question);
      out.field("question", question.text());
      out.field("worth", question.worth);
    });
  });
}

/// Shares of the draws in which each change comes first, in their order.
void write_draws(JsonWriter& out, const Draws& d) {
  out.object("draws", [&] {
    out.field("draws", d.draws);
    out.list("first", d.first);
    out.field("nothing", d.nothing);
    out.field("coin_toss", coin_toss(d));
  });
}

void write_turning(JsonWriter& out, const Turning& turning) {
  out.object("turning", [&] {
    out.field("now", turning.now.phrase);
    out.list("turns", turning.turns, [&](const Turn& turn) {
      out.object([&] {
        out.field("kind", name_of(turn.kind));
        out.field("input", turn.input);
        out.field("from", turn.from);
        out.field("to", turn.to);
        out.field("distance", turn.distance);
        out.field("then", turn.then.phrase);
        out.field("text", in_words(turn));
      });
    });
    out.field("runs", turning.runs);
  });
}

void write_paper_side(JsonWriter& out, std::string_view name, const Cornering& corner,
                      const PatchLine& line) {
  out.object(name, [&] {
    out.object("loads", [&] {
      out.field("fl", corner.loads.left_front);
      out.field("fr", corner.loads.right_front);
      out.field("rl", corner.loads.left_rear);
      out.field("rr", corner.loads.right_rear);
    });
    out.object("line", [&] {
      out.field("angle_rad", line.angle);
      out.field("upright", line.upright);
      out.field("sideways", line.sideways);
    });
  });
}

/// What the pictures show: kilograms standing, newtons in the corner.
void write_sketch(JsonWriter& out, const Sketch& sketch) {
  out.object("on_paper", [&] {
    out.field("track", sketch.paper.track);
    out.field("phase", phase_of(sketch));
    out.field("weighed", sketch.weighed);
    out.object("standing", [&] {
      out.field("lf", sketch.standing.left_front);
      out.field("rf", sketch.standing.right_front);
      out.field("lr", sketch.standing.left_rear);
      out.field("rr", sketch.standing.right_rear);
    });
    write_paper_side(out, "before", sketch.before(), sketch.paper.before.line);
    if (sketch.moves_loads) {
      write_paper_side(out, "after", sketch.after(), sketch.paper.after.line);
    } else {
      out.field("after", nullptr);
    }
  });
}

void write_beside(JsonWriter& out, const Beside& beside, const Pack& pack, System units) {
  if (!beside.why_not.empty()) write_why_not(out, beside.why_not, pack, units);
  if (beside.turning) write_turning(out, *beside.turning);
  if (beside.next_steps) write_next_steps(out, *beside.next_steps);
  if (beside.sketch) write_sketch(out, *beside.sketch);
  if (beside.warnings.empty()) return;
  out.list("warnings", beside.warnings,
           [&](const Diagnostic& warning) { write_diagnostic(out, warning); });
}

}  // namespace

void write_advice(JsonWriter& out, const Advice& advice, const Pack& pack, bool brief,
                  const Beside& beside) {
  out.object([&] {
    out.field("schema", "kartwright/advice/1");
    out.field("kart", printable(advice.kart));
    out.field("track", advice.track);
    write_heard(out, advice.debrief.heard);
    write_reading(out, advice);
    out.field("look_over", advice.look_over);
    write_checks(out, advice.checks);
    write_changes(out, advice.changes);
    write_bundles(out, advice.bundles);
    write_not_now(out, advice.not_now);
    if (advice.next) write_next(out, *advice.next);
    if (!brief) {
      write_ask(out, advice.questions);
      write_working(out, advice, pack);
    }
    if (advice.draws) write_draws(out, *advice.draws);
    write_beside(out, beside, pack, advice.units);
  });
}

std::string advice_json(const Advice& advice, const Pack& pack, bool brief, const Beside& beside) {
  JsonWriter out(brief ? kBriefAdvice : kWholeAdvice);
  write_advice(out, advice, pack, brief, beside);
  return out.line();
}

}  // namespace kartwright::cli
