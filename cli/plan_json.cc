#include "cli/plan_json.h"

#include "cli/json_writer.h"
#include "engine/quantity/quantity.h"

namespace kartwright::cli {
namespace {

void write_move(JsonWriter& out, const DayMove& move) {
  out.object([&] {
    out.field("adjustment", move.adjustment->id);
    out.field("direction", move.adjustment->directions.at(move.direction));
    out.field("from", move.from);
    out.field("to", move.to);
    out.field("minutes", move.minutes);
    out.field("until", move.until);
    out.field("left", move.left);
  });
}

void write_stops(JsonWriter& out, const std::vector<DayStop>& stops, const Day& day) {
  out.list("stages", stops, [&](const DayStop& stop) {
    out.object([&] {
      out.field("stage", stop.stage->id);
      out.field("track", stop.stage->track);
      out.field("hours", stop.hours);
      out.field("untouched", stop.untouched);
      out.field("left", stop.left);
      out.field("minutes", stop.minutes);
      out.list("moves", stop.moves, [&](const DayMove& move) { write_move(out, move); });
      if (stop.settings.empty()) return;
      out.object("settings", [&] {
        for (std::size_t i = 0; i < day.movers.size(); ++i)
          out.field(day.movers[i]->id, stop.settings[i]);
      });
      out.object("values", [&] {
        for (std::size_t i = 0; i < day.movers.size(); ++i)
          out.field(day.movers[i]->id, stop.values[i]);
      });
    });
  });
}

void write_travel(JsonWriter& out, const Day& day) {
  out.object("travel", [&] {
    for (std::size_t i = 0; i < day.movers.size(); ++i) {
      const DayTravel& travel = day.travel[i];
      out.object(day.movers[i]->id, [&] {
        out.field("now", travel.now.text);
        out.field("low", travel.low.text);
        out.field("high", travel.high.text);
        out.object("values", [&] {
          out.field("now", travel.now.value);
          out.field("low", travel.low.value);
          out.field("high", travel.high.value);
        });
        out.field("below", name_of(travel.below));
        out.field("above", name_of(travel.above));
      });
    }
  });
}

void write_runs_out(JsonWriter& out, const Day& day) {
  out.list("runs_out", day.runs_out, [&](const RunsOut& each) {
    out.object([&] {
      out.field("stage", each.stage->id);
      out.field("adjustment", each.adjustment->id);
      out.field("direction", each.adjustment->directions.at(each.direction));
      out.field("at", each.at);
      out.field("reason", name_of(each.reason));
      out.field("missed", each.missed);
      out.key("takes_over");
      if (each.takes_over) write_move(out, *each.takes_over);
      if (!each.takes_over) out.value(nullptr);
      out.field("planned", each.by_plan);
    });
  });
}

}  // namespace

std::string plan_json(const Day& day) {
  JsonWriter out;
  out.object([&] {
    out.field("schema", "kartwright/plan/1");
    out.field("kart", day.kart);
    out.field("units", day.units == System::metric ? "metric" : "imperial");
    out.field("runs_in_log", day.runs_in_log);
    out.list("notes", day.notes);
    out.field("before_all", day.before_all);
    out.list("stops_the_kart", day.stops_the_kart, [&](const FaultOdds& odds) {
      out.object([&] {
        out.field("fault", odds.fault->id);
        out.field("probability", odds.probability);
      });
    });
    out.field("left", day.left);
    out.field("points_saved", day.points_saved);
    out.field("best", day.short_of_best == 0.0);
    out.field("short_of_best", day.short_of_best);
    out.field("most_adjustments", day.most_levers);
    out.field("most_changes", day.changes);
    write_travel(out, day);
    write_stops(out, day.stops, day);
    write_runs_out(out, day);
    out.field("gain_of_looking_ahead", day.gain_of_looking_ahead);
    out.list("start_looking_at_now", day.start_looking_at_now);
    out.list("if", day.replies, [&](const DayReply& reply) {
      out.object([&] {
        out.field("rubber", reply.early ? "early" : "never");
        out.field("left", reply.left);
        out.field("regret", reply.regret);
        write_stops(out, reply.stops, day);
      });
    });
    out.list("care", day.cautions);
  });
  return out.line();
}

}  // namespace kartwright::cli
