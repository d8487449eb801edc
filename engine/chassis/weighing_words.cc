#include "engine/chassis/weighing_words.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

namespace kartwright {

namespace {

constexpr double kSeen = 2.0;  // standard deviations

std::string mass(double kg, System units) {
  return print_quantity(std::abs(kg), Kind::mass, units);
}

std::string joined_by(const std::vector<std::string_view>& words) {
  std::string out;
  for (std::size_t i = 0; i < words.size(); ++i) {
    const bool last = i + 1 == words.size();
    out += (i == 0 ? "" : last ? " and " : ", ") + std::string(words[i]);
  }
  return out;
}

std::string wanted(const JudgedFigure& figure, System units) {
  const auto end = [&](double value) { return print_quantity(value, figure.kind, units); };
  if (figure.kind == Kind::mass) return "at most " + end(figure.to.value_or(0.0));
  if (!figure.from) return "at most " + end(figure.to.value_or(1.0));
  if (!figure.to) return "at least " + end(*figure.from);
  return end(*figure.from) + " to " + end(*figure.to);
}

std::string side(double left_less_right) { return left_less_right >= 0.0 ? "left" : "right"; }

/// How far beyond the nearest end; of a pair, of its size.
std::string beyond(const JudgedFigure& figure, System units) {
  const bool pair = figure.kind == Kind::mass;
  const double value = pair ? std::abs(figure.figure.value) : figure.figure.value;
  const bool under = !pair && figure.from && value < *figure.from;
  const double by = under ? *figure.from - value : value - figure.to.value_or(value);
  return fmt::format("{} by {}", under ? "under" : "over", print_quantity(by, figure.kind, units));
}

/// Both pairs lean the same way where a mass sits to one side, opposite ways where the kart stands
/// twisted.
std::string lean_text(const WeighingAnswer& answer) {
  const WithError& front = answer.figures[3].figure;
  const WithError& rear = answer.figures[4].figure;
  if (!can_be_seen(front) && !can_be_seen(rear))
    return "neither pair leans by more than these scales' error";
  if (!can_be_seen(front) || !can_be_seen(rear)) {
    const bool at_front = can_be_seen(front);
    return fmt::format("only the {} pair leans, to the {}: weight to one side and twist in one",
                       at_front ? "front" : "rear", side((at_front ? front : rear).value));
  }
  if ((front.value > 0.0) == (rear.value > 0.0)) {
    return fmt::format("both pairs lean to the {}: weight to one side, seat or ballast",
                       side(front.value));
  }
  return fmt::format("the front leans to the {} and the rear to the {}: a twist, no mass does that",
                     side(front.value), side(rear.value));
}

std::string warp_text(const WarpPart& part, System units) {
  return fmt::format("{}: warp {}{}", joined_by(part.of),
                     print_measured(part.warp, Kind::mass, units),
                     can_be_seen(part.warp) ? "" : ", nothing that these scales can see");
}

bool is_told_apart(const WeighingAnswer& answer) { return answer.warp.size() > 1; }

std::string first_word_on_twist(const WeighingAnswer& answer) {
  const WarpPart& frame = frame_part(answer);
  if (!can_be_seen(frame.warp)) {
    return fmt::format("no twist that these scales can see: warp {}",
                       print_measured(frame.warp, Kind::mass, answer.units));
  }
  const bool left = frame.warp.value > 0.0;
  return fmt::format(
      "{} and {} carry {} more than the other diagonal, from {}",
      left ? "left front" : "right front", left ? "right rear" : "left rear",
      print_measured({std::abs(frame.warp.value), frame.warp.sd}, Kind::mass, answer.units),
      joined_by(frame.of));
}

bool anything_to_tell(const WeighingAnswer& answer) {
  const bool pair_out = !answer.figures[3].ok || !answer.figures[4].ok || !answer.figures[2].ok;
  return pair_out || can_be_seen(answer.warp.front().warp);
}

std::string share_sentence(const JudgedFigure& figure, std::string_view where,
                           std::string_view doubt, System units) {
  const bool under = figure.from && figure.figure.value < *figure.from;
  return fmt::format("Too {} on the {}: {}, wanted {}{}.", under ? "little" : "much", where,
                     print_measured(figure.figure, figure.kind, units), wanted(figure, units),
                     figure.sure ? "" : std::string(doubt));
}

std::string shares_in_words(const WeighingAnswer& answer) {
  static constexpr std::string_view kDoubt = ", by less than these scales can be sure of";
  std::string text;
  const auto add = [&](const JudgedFigure& figure, std::string_view where) {
    if (figure.ok) return;
    text += (text.empty() ? "" : " ") + share_sentence(figure, where, kDoubt, answer.units);
  };
  add(answer.figures[0], "front");
  add(answer.figures[1], "left");
  return text.empty() ? "Front and left share are in their bands." : text;
}

std::string plan_sentence(const WeighingAnswer& answer) {
  if (answer.figures[0].ok && answer.figures[1].ok) return {};
  if (answer.plans.empty()) return " No move of seat or ballast here comes nearer.";
  const MovePlan& plan = answer.plans.front();
  std::string steps;
  for (const MassStep& step : plan.steps) steps += (steps.empty() ? "" : "; ") + step_text(step);
  return fmt::format(" {}: {}.", plan.reaches ? "This reaches it" : "No move reaches it; nearest",
                     steps);
}

std::string pair_sentence(const WeighingAnswer& answer) {
  const JudgedFigure& cross = answer.figures[2];
  std::string out;
  for (const std::size_t i : {3U, 4U}) {
    const JudgedFigure& pair = answer.figures[i];
    if (pair.ok) continue;
    out += fmt::format(
        " The {} pair is {} apart, {}{}.", i == 3U ? "front" : "rear",
        print_measured({std::abs(pair.figure.value), pair.figure.sd}, Kind::mass, answer.units),
        wanted(pair, answer.units), pair.sure ? "" : ", by less than these scales can be sure of");
  }
  if (!cross.ok) {
    out += fmt::format(" Cross weight is {}, wanted {}.",
                       print_measured(cross.figure, cross.kind, answer.units),
                       wanted(cross, answer.units));
  }
  return out;
}

std::string twist_sentence(const WeighingAnswer& answer) {
  const WarpPart& frame = frame_part(answer);
  if (!can_be_seen(frame.warp)) return " No twist that these scales can see.";
  if (frame.of.size() == 1) {
    return " The twist is the kart's own: frame, pressures or ride heights.";
  }
  if (!anything_to_tell(answer)) return {};
  return fmt::format(" A twist is read; {} are not told apart yet.", joined_by(frame.of));
}

}  // namespace

bool can_be_seen(const WithError& figure) { return std::abs(figure.value) >= kSeen * figure.sd; }

const WarpPart& frame_part(const WeighingAnswer& answer) { return answer.warp.front(); }

std::string judged_text(const JudgedFigure& figure, System units) {
  const bool pair = figure.kind == Kind::mass;
  if (pair && !can_be_seen(figure.figure)) return "no difference that these scales can see";
  const std::string heavier = pair ? side(figure.figure.value) + " heavier, " : "";
  if (figure.ok) {
    return heavier + (figure.sure ? "in the band" : "in the band, at its edge for these scales");
  }
  return heavier + beyond(figure, units) +
         (figure.sure ? "" : ", less than these scales can be sure of");
}

std::vector<std::string> modes_in_words(const WeighingAnswer& answer) {
  const Modes& m = answer.modes;
  const System units = answer.units;
  const std::string more = mass(m.warp, units);
  std::string diagonals = "both diagonals carry the same";
  if (!more.starts_with("0 ")) {
    diagonals =
        fmt::format("{} carry {} more than the other two",
                    m.warp > 0.0 ? "left front and right rear" : "right front and left rear", more);
  }
  return {
      fmt::format("total {}: kart and driver", mass(m.total, units)),
      fmt::format("pitch: the {} carries {} more; seat and ballast along the kart move it",
                  m.pitch > 0.0 ? "front" : "rear", mass(m.pitch, units)),
      fmt::format("roll: the {} side carries {} more; seat and ballast across it move it",
                  side(m.roll), mass(m.roll, units)),
      "warp: " + diagonals +
          "; frame, floor, scales, pressures and ride heights move it, no mass does",
  };
}

std::vector<std::string> twist_in_words(const WeighingAnswer& answer) {
  std::vector<std::string> out{first_word_on_twist(answer), lean_text(answer)};
  if (is_told_apart(answer)) {
    for (const WarpPart& part : answer.warp) out.push_back(warp_text(part, answer.units));
  }
  const WarpPart& frame = frame_part(answer);
  if (can_be_seen(frame.warp)) {
    out.emplace_back(
        "moving seat or ballast does not change it; pressures and ride height shims do, and a "
        "frame that is bent is for a qualified eye");
  }
  return out;
}

std::vector<std::string> left_open(const WeighingAnswer& answer) {
  std::vector<std::string> out;
  const WarpPart& frame = frame_part(answer);
  if (frame.of.size() > 1) out.push_back(joined_by(frame.of) + " from each other");
  if (frame.of.size() == 1) {
    out.emplace_back("a twisted frame from pressures or ride heights that differ side to side");
  }
  out.emplace_back(
      "scales of one axle that both read too much or too little: put one known weight on each");
  return out;
}

std::vector<std::string> next_weighings(const WeighingAnswer& answer) {
  std::vector<std::string> out;
  if (!anything_to_tell(answer)) return out;
  if (!answer.given.swapped) {
    out.emplace_back(
        "change the scales of each axle over, left for right, kart back on the same spot, and give "
        "the readings by wheel: --swapped LF,RF,LR,RR");
  }
  if (!answer.given.turned) {
    out.emplace_back(
        "turn the kart a quarter on its spot, each scale staying with its wheel: --turned "
        "LF,RF,LR,RR");
  }
  return out;
}

std::string moves_in_words(const WeighingAnswer& answer, bool movable, int many) {
  if (answer.figures[0].ok && answer.figures[1].ok) {
    return "front and left share are in their bands: nothing to move";
  }
  if (!movable) return "the kart file names nothing that can be moved: no seat, ballast or mass";
  const std::string tried = many == 1 ? "one move at a time" : fmt::format("up to {} moves", many);
  if (answer.plans.empty()) return "nothing comes nearer to the bands, of " + tried;
  if (answer.plans.front().reaches) return "reaches both bands, fewest moves first:";
  return fmt::format("no move reaches the bands, of {}; the nearest:", tried);
}

std::string step_text(const MassStep& step) {
  return fmt::format("{}, {} → {}", step.what, step.from, step.to);
}

bool weighings_disagree(const WeighingAnswer& answer) {
  return std::any_of(answer.verdicts.begin(), answer.verdicts.end(), [](const auto& verdict) {
    return verdict.id.ends_with("weighs-the-same") && !verdict.ok;
  });
}

std::string weighing_headline(const WeighingAnswer& answer) {
  std::string text;
  for (const WeighingVerdict& verdict : answer.verdicts) {
    const bool told = verdict.id == "minimum-weight" || verdict.id.ends_with("weighs-the-same");
    if (told && !verdict.ok) text += "Careful: " + verdict.text + ". ";
  }
  if (weighings_disagree(answer)) return text + "No share, twist or move is told from them.";
  return text + shares_in_words(answer) + plan_sentence(answer) + pair_sentence(answer) +
         twist_sentence(answer);
}

}  // namespace kartwright
