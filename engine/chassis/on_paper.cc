#include "engine/chassis/on_paper.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

namespace kartwright {

namespace {

constexpr double kFeltLoad = 0.05;  // N; less is printed as nothing

std::string more_or_less(double change, std::string_view where) {
  const double size = std::abs(change);
  return fmt::format("{:.{}f} N {} on the {}", size, size < 20.0 ? 1 : 0,
                     change > 0.0 ? "more" : "less", where);
}

void add(std::string& text, const std::string& more) { text += (text.empty() ? "" : ", ") + more; }

std::string release_words(const Figures& before, const Figures& after) {
  if (!before.release || !after.release) return "";
  const std::string was = fmt::format("{:.2f}", *before.release / kGravity);
  const std::string is = fmt::format("{:.2f}", *after.release / kGravity);
  return was == is ? fmt::format("released at {} g as before", is)
                   : fmt::format("released at {} g instead of {}", is, was);
}

bool leans(const SprintKart& kart) { return kart.mass_left != 0.0 || kart.twist != 0.0; }

/// Its left turn is the kart's right turn.
SprintKart mirrored(SprintKart kart) {
  kart.mass_left = -kart.mass_left;
  kart.twist = -kart.twist;
  return kart;
}

}  // namespace

PatchLine patch_line(double rear_track, double mass_height) {
  const double half = rear_track / 2.0;
  const double length = std::hypot(half, mass_height);
  return {std::atan2(mass_height, half), mass_height / length, half / length};
}

PaperSide paper_side(const KnownKart& known, const CornerClass& corner_class) {
  const SprintKart& kart = known.kart;
  PaperSide side;
  side.kart = kart;
  side.figures = figures_of(kart, corner_class);
  constexpr std::array kPhases{CornerPhase::entry, CornerPhase::mid, CornerPhase::exit};
  for (std::size_t i = 0; i < kPhases.size(); ++i)
    side.phases[i] = corner(kart, manoeuvre_of(kart, corner_class, kPhases[i]));
  side.bar_turns = bar_turns_at(kart, corner_class.radius);
  side.line = patch_line(kart.rear_track, kart.mass_height);
  return side;
}

std::vector<std::string> classes_of(const Pack& pack, const std::string& track) {
  const TrackState* const state = pack.track(track);
  if (state != nullptr) {
    return state->cornering ? std::vector{state->id} : std::vector<std::string>{};
  }
  const TrackState* least = nullptr;
  const TrackState* most = nullptr;
  for (const TrackState& each : pack.tracks) {
    if (!each.cornering || each.wet) continue;
    if (least == nullptr || each.cornering->middle < least->cornering->middle) least = &each;
    if (most == nullptr || each.cornering->middle > most->cornering->middle) most = &each;
  }
  if (least == nullptr) return {};
  return least == most ? std::vector{least->id} : std::vector{least->id, most->id};
}

std::optional<OnPaper> on_paper(const Kart& kart, const Pack& pack, const std::string& track,
                                const std::vector<PaperChange>& changes) {
  const std::optional<KnownKart> before = known_kart(kart, pack);
  if (!before) return {};
  const KnownKart after = changed(*before, kart, pack, changes);
  OnPaper out{.changes = changes, .classes = {}, .assumed = after.assumed};
  for (const std::string& id : classes_of(pack, track)) {
    const CornerClass class_before = *corner_class(*before, pack, id);
    const CornerClass class_after = *corner_class(after, pack, id);
    PaperClass one{.track = id,
                   .corner = class_before,
                   .before = paper_side(*before, class_before),
                   .after = paper_side(after, class_after)};
    if (leans(before->kart) || leans(after.kart)) {
      one.right = figures_of(mirrored(before->kart), class_before);
      one.right_after = figures_of(mirrored(after.kart), class_after);
    }
    out.classes.push_back(std::move(one));
  }
  if (out.classes.empty()) return {};
  return out;
}

RearLoads rear_loads(const Figures& figures) {
  const double lifted = std::min(figures.inside_rear, 0.0);
  return {figures.outside_rear + lifted, figures.inside_rear - lifted};
}

std::string load_change(const Figures& was, const Figures& is) {
  std::string text;
  const RearLoads before = rear_loads(was);
  const RearLoads after = rear_loads(is);
  const double outside = after.outside - before.outside;
  const double inside = after.inside - before.inside;
  if (std::abs(outside) >= kFeltLoad) add(text, more_or_less(outside, "outside rear"));
  if (std::abs(inside) >= kFeltLoad) add(text, more_or_less(inside, "inside rear"));
  if (before.inside > 0.0 && after.inside == 0.0) add(text, "the inside rear off the ground");
  if (before.inside == 0.0 && after.inside > 0.0) add(text, "the inside rear back on the ground");
  const std::string release = release_words(was, is);
  const bool moved = !text.empty();
  if (!moved) text = "the loads stay as they are";
  if (!release.empty() && (moved || !release.ends_with("as before"))) add(text, release);
  return text;
}

}  // namespace kartwright
