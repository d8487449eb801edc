#include "cli/drill_json.h"

#include "cli/json_writer.h"

namespace kartwright::cli {
namespace {

void write_mistakes(JsonWriter& out, const std::vector<Mistake>& mistakes) {
  out.list("mistakes", mistakes, [&](const Mistake& each) {
    out.object([&] {
      out.field("said", each.said);
      out.field("right", each.right);
    });
  });
}

void write_worth(JsonWriter& out, std::string_view name, const DrillWorth& worth) {
  out.object(name, [&] {
    out.field("points", worth.points);
    out.list("parts", worth.parts, [&](const DrillWorth::Part& part) {
      out.object([&] {
        out.field("what", part.what);
        out.field("points", part.points);
      });
    });
  });
}

void write_ends(JsonWriter& out, const DrillResult& result) {
  out.object("end", [&] {
    out.field("said", result.record.end);
    out.field("right", result.record.end_right);
    out.field("mark", result.record.end_mark);
    out.field("front", result.ends.front);
    out.field("rear", result.ends.rear);
  });
}

void write_outcome(JsonWriter& out, const DrillResult& result) {
  const DrillOutcome& outcome = result.outcome;
  out.object("outcome", [&] {
    out.list("felt", outcome.felt, [&](const Felt& felt) {
      out.object([&] {
        out.field("symptom", felt.symptom);
        out.field("phase", name_of(felt.phase));
        out.field("before", felt.before);
        out.field("after", felt.after);
      });
    });
    out.field("error-before", outcome.error_before);
    out.field("error-after", outcome.error_after);
    out.field("found", outcome.found);
    out.list("told", result.told);
    out.field("luck", result.luck);
  });
}

void write_drill(JsonWriter& out, const FinishedDrill& drill) {
  const DrillRecord& record = drill.result.record;
  out.field("level", record.level);
  out.field("task", record.task);
  out.field("seed", record.seed);
  out.field("title", drill.title);
  out.field("track", drill.track);
  out.field("said", drill.said);
  write_ends(out, drill.result);
  out.field("choice", record.choice);
  out.field("best", record.best);
  out.field("mark", record.mark);
  out.field("refused", record.refused);
  write_worth(out, "worth", drill.result.worth);
  write_worth(out, "best-worth", drill.result.best_worth);
  write_outcome(out, drill.result);
  out.field("because", drill.result.because);
  out.field("reading", drill.result.reading);
  out.list("care", drill.result.cautions);
  write_mistakes(out, record.mistakes);
}

}  // namespace

std::string drill_json(const std::vector<FinishedDrill>& drills) {
  JsonWriter out;
  double sum = 0.0;
  for (const FinishedDrill& each : drills) sum += each.result.record.mark;
  out.object([&] {
    out.field("schema", "kartwright/drill/1");
    out.field("practice", "on paper: real work follows its cautions");
    out.list("drills", drills,
             [&](const FinishedDrill& each) { out.object([&] { write_drill(out, each); }); });
    const auto many = static_cast<double>(drills.size());
    out.field("mean", drills.empty() ? std::optional<double>() : std::optional(sum / many));
  });
  return out.line();
}

std::string progress_json(const std::string& trainee, const Progress& progress) {
  JsonWriter out;
  out.object([&] {
    out.field("schema", "kartwright/drill-progress/1");
    out.field("trainee", trainee);
    out.field("drills", progress.drills);
    out.field("refused", progress.refused);
    out.list("levels", progress.levels, [&](const LevelProgress& level) {
      out.object([&] {
        out.field("level", level.id);
        out.field("drills", level.drills);
        out.field("mean", level.mean);
        out.field("latest", level.latest);
      });
    });
    out.list("mistakes", progress.mistakes, [&](const auto& each) {
      out.object([&] {
        out.field("said", each.first.said);
        out.field("right", each.first.right);
        out.field("times", each.second);
      });
    });
    out.field("next", progress.next_level);
  });
  return out.line();
}

}  // namespace kartwright::cli
