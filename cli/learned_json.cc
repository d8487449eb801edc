#include "cli/learned_json.h"

#include "cli/json_writer.h"

namespace kartwright::cli {
namespace {

void write_adjustment(JsonWriter& out, const LearnedAdjustment& each, const Pack& pack) {
  out.object([&] {
    out.field("adjustment", each.adjustment->id);
    out.field("rule", each.rule);
    out.field("rule_sd", each.rule_sd);
    out.field("learned", each.learned);
    out.field("sd", each.sd);
    out.field("runs", each.runs);
    out.field("differences", each.differences);
    out.field("agrees", each.agreement != Agreement::contradicted && each.contradicted.empty());
    out.field("agreement", name_of(each.agreement));
    out.field("axis", pack.axes[each.axis].id);
    out.list("contradicted", each.contradicted,
             [&](std::size_t axis) { out.value(pack.axes[axis].id); });
    out.field("with_other_changes", each.with_others);
    out.field("track_moved", each.track_moved);
    out.field("tyres_changed", each.tyres_changed);
    out.list("told", each.told);
  });
}

void write_calibration(JsonWriter& out, const Calibration& all) {
  out.object("calibration", [&] {
    out.list("intervals", all.intervals, [&](const Held& held) {
      out.object([&] {
        out.field("promised", held.promised);
        out.field("held", held.held);
        out.field("of", held.of);
        out.field("share", held.share());
      });
    });
    out.object("complaint", [&] {
      out.field("eased", all.eased);
      out.field("same", all.same);
      out.field("worse", all.worse);
    });
    out.object("clock", [&] {
      out.field("faster", all.faster);
      out.field("slower", all.slower);
      out.field("not_settled", all.not_settled);
    });
    out.field("advised", all.advised);
    out.field("promised_share", all.promised_share);
    out.field("squares_before", all.squares_before);
    out.field("squares_after", all.squares_after);
  });
}

}  // namespace

std::string learned_json(const Learned& learned, const Pack& pack) {
  JsonWriter out;
  out.object([&] {
    out.field("schema", "kartwright/learned/1");
    out.field("kart", learned.kart);
    out.field("track", learned.track);
    out.field("runs", learned.runs);
    out.list("axes", pack.axes, [&](const Axis& axis) { out.value(axis.id); });
    out.list("adjustments", learned.adjustments,
             [&](const LearnedAdjustment& each) { write_adjustment(out, each, pack); });
    if (learned.calibration) write_calibration(out, *learned.calibration);
  });
  return out.line();
}

}  // namespace kartwright::cli
