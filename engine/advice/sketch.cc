#include "engine/advice/sketch.h"

#include <array>

namespace kartwright {
namespace {

constexpr std::array kSketchPhases{Phase::entry, Phase::mid, Phase::exit};

/// Of the worst complaint that names one of the three; else the middle.
std::size_t phase_at_hand(const Debrief& debrief) {
  std::size_t phase = 1;
  int worst = 0;
  for (const Report& report : debrief.heard.reports) {
    if (report.severity <= worst || report.from_praise) continue;
    for (std::size_t i = 0; i < kSketchPhases.size(); ++i) {
      if (report.phase != kSketchPhases.at(i)) continue;
      phase = i;
      worst = report.severity;
    }
  }
  return phase;
}

/// The change that leads, where the loads follow it.
std::vector<PaperChange> leading_change(const Advice& advice) {
  const Headline headline = advice.verdict.headline;
  if (advice.changes.empty() || headline == Headline::leave_alone) return {};
  const Candidate& first = advice.changes.front().candidate;
  if (first.parts.score() <= advice.score_of_nothing) return {};
  const Option& option = first.option;
  PaperChange change;
  change.id = option.setting->adjustment->id;
  change.setting = option.setting;
  change.from = option.from;
  change.to = option.to;
  return moves_loads(change) ? std::vector{change} : std::vector<PaperChange>{};
}

}  // namespace

std::string_view phase_of(const Sketch& sketch) { return name_of(kSketchPhases.at(sketch.phase)); }

CornerLoads standing_loads(const Kart& kart, const KnownKart& known) {
  if (kart.corner_weights) return *kart.corner_weights;
  const CornerLoads newtons = corner(known.kart, {}).loads;
  return {.left_front = newtons.left_front / kGravity,
          .right_front = newtons.right_front / kGravity,
          .left_rear = newtons.left_rear / kGravity,
          .right_rear = newtons.right_rear / kGravity};
}

std::optional<Sketch> sketch_of(const Advice& advice, const Kart& kart, const Pack& pack) {
  const std::optional<KnownKart> known = known_kart(kart, pack);
  const std::vector<PaperChange> changes = leading_change(advice);
  std::optional<OnPaper> paper = on_paper(kart, pack, advice.track, changes);
  if (!known || !paper || paper->classes.empty()) return std::nullopt;
  return Sketch{.paper = std::move(paper->classes.back()),
                .moves_loads = !changes.empty(),
                .phase = phase_at_hand(advice.debrief),
                .standing = standing_loads(kart, *known),
                .weighed = kart.corner_weights.has_value(),
                .front_tyre_width = known->front_tyre_width,
                .rear_tyre_width = known->rear_tyre_width,
                .assumed = known->assumed.size()};
}

}  // namespace kartwright
