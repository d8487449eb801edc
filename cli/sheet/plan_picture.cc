#include "cli/sheet/plan_picture.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <string_view>
#include <utility>

#include <fmt/format.h>

#include "cli/page.h"

namespace kartwright::cli {
namespace {

constexpr double kWordsFrom = 4.0;  // where words at the left begin
constexpr double kStands = 58.0;    // where an adjustment stands before the day
constexpr double kDayFrom = 62.0, kDayTo = 316.0;
constexpr double kBandTall = 30.0;
constexpr double kLine = 14.0;  // from one line of words to the next
constexpr double kSmallLetter = 5.64;
constexpr std::size_t kLinesOfStage = 3;

/// How wide words are, never less: settings are all digits and `mm`, wider than other words.
double wide(std::string_view text) {
  double out = 0.0;
  for (; !text.empty(); text.remove_prefix(glyph_bytes(text))) {
    const std::string_view glyph = text.substr(0, glyph_bytes(text));
    const bool broad = std::string_view("mwMW%@").find(glyph) != std::string_view::npos;
    const bool slim = std::string_view(" .,ilj").find(glyph) != std::string_view::npos;
    constexpr double kBroad = 11.0, kSlim = 3.6, kPlain = 7.1;
    out += broad ? kBroad : slim ? kSlim : kPlain * static_cast<double>(columns(glyph));
  }
  return out;
}

/// The columns of the stages.
struct DayColumns {
  double width = 0;
  explicit DayColumns(const Day& day)
      : width((kDayTo - kDayFrom) / static_cast<double>(day.stops.size())) {}
  double left(std::size_t stage) const { return kDayFrom + width * static_cast<double>(stage); }
  double middle(std::size_t stage) const { return left(stage) + width / 2.0; }
};

std::string percent_text(double share) { return fmt::format("{} %", std::lround(100.0 * share)); }

// --- the stages ----------------------------------------------------------------------------------

std::vector<std::string> lines_of_stage(const DayColumns& at, const std::string& label) {
  return wrap(printable(label), static_cast<std::size_t>(at.width / kSmallLetter));
}

double head_height(const Day& day) {
  if (!stages_are_named(day)) return kLine + kWordsFrom;
  const DayColumns at(day);
  std::size_t most = 1;
  for (const DayStop& stop : day.stops)
    most = std::max(most, lines_of_stage(at, stop.stage->label).size());
  return kLine * static_cast<double>(most) + kWordsFrom;
}

void stage_heads(Drawing& drawing, const Day& day, double foot) {
  const DayColumns at(day);
  const bool named = stages_are_named(day);
  const std::string letters = stage_letters(day);
  for (std::size_t k = 0; k < day.stops.size(); ++k) {
    const auto lines =
        named ? lines_of_stage(at, day.stops[k].stage->label) : std::vector{letters.substr(k, 1)};
    double y = kLine - 2.0;
    for (const std::string& line : lines) {
      drawing.words({at.left(k) + 1.0, y}, line, Anchor::start, "small soft");
      y += kLine;
    }
    drawing.line({at.left(k), 0.0}, {at.left(k), foot}, "faint");
  }
}

// --- a lane --------------------------------------------------------------------------------------

/// A text below a lane, at the first line where there is room for it.
struct UnderLane {
  double x = 0;
  std::string text = {}, json = {}, style = {};  ///< no pointer: words
};

/// A setting: a figure where it is a number, else words.
void setting_text(Drawing& drawing, Point at, std::string_view text, std::string_view json,
                  std::string_view style) {
  if (json.empty()) return drawing.words(at, text, Anchor::start, style);
  drawing.figure(at, text, json, Anchor::start, style);
}

std::string pointer_of(bool number, std::string pointer) {
  return number ? std::move(pointer) : std::string();
}

class LinesUnder {
 public:
  /// Which line a text goes to; `x` is moved to the left where it would leave the picture.
  std::size_t line_for(double& x, std::string_view text) {
    constexpr double kGap = 4.0, kBold = 1.12;
    const double room = kBold * wide(text);
    x = std::min(x, Drawing::kWidth - 2.0 - room);
    std::size_t line = 0;
    while (line < free_from_.size() && free_from_[line] > x) ++line;
    if (line == free_from_.size()) free_from_.push_back(0.0);
    free_from_[line] = x + room + kGap;
    return line;
  }
  std::size_t lines() const { return free_from_.size(); }

 private:
  std::vector<double> free_from_;
};

/// The stage where a mover runs out, if it does.
std::optional<std::size_t> runs_out_at(const Day& day, std::size_t mover) {
  for (const RunsOut& each : day.runs_out) {
    if (each.adjustment != day.movers[mover]) continue;
    for (std::size_t k = 0; k < day.stops.size(); ++k)
      if (day.stops[k].stage == each.stage) return k;
  }
  return std::nullopt;
}

std::vector<UnderLane> texts_under(const Day& day, std::size_t mover) {
  constexpr std::size_t kSettingInPicture = 14;  // columns
  const DayColumns at(day);
  const std::string& id = day.movers[mover]->id;
  const auto cut = [](const std::string& text) {
    return std::string(fitting(printable(text), kSettingInPicture));
  };
  const DaySetting& now = day.travel[mover].now;
  std::vector<UnderLane> out{{kWordsFrom, cut(now.text),
                              pointer_of(now.value.has_value(), "/travel/" + id + "/values/now")}};
  const std::string* before = &now.text;
  const auto out_at = runs_out_at(day, mover);
  for (std::size_t k = 0; k < day.stops.size(); ++k) {
    const DayStop& stop = day.stops[k];
    if (stop.settings[mover] != *before)
      out.push_back(
          {at.left(k) + 1.0, cut(stop.settings[mover]),
           pointer_of(stop.values[mover].has_value(), fmt::format("/stages/{}/values/{}", k, id))});
    before = &stop.settings[mover];
    if (out_at == k) out.push_back({at.left(k) + 1.0, "runs out", {}, "stop"});
  }
  return out;
}

double lane_height(const Day& day, std::size_t mover) {
  LinesUnder lines;
  for (UnderLane& each : texts_under(day, mover)) lines.line_for(each.x, each.text);
  constexpr double kTitle = 18.0, kGap = 8.0;
  return kTitle + kBandTall + kLine * static_cast<double>(lines.lines()) + kGap;
}

std::string_view who_ends_it(Refusal reason) {
  return reason == Refusal::class_limit ? "class" : "box";
}

/// "class above, box below": where it is not the kart itself that ends the travel.
std::string ends_text(const DayTravel& travel) {
  const bool above = travel.above != Refusal::end_stop, below = travel.below != Refusal::end_stop;
  if (above && below && travel.above == travel.below)
    return fmt::format("{} above and below", who_ends_it(travel.above));
  std::vector<std::string> parts;
  if (above) parts.push_back(fmt::format("{} above", who_ends_it(travel.above)));
  if (below) parts.push_back(fmt::format("{} below", who_ends_it(travel.below)));
  return joined(parts, ", ");
}

void lane_ends(Drawing& drawing, const Day& day, std::size_t mover, double top) {
  constexpr std::size_t kEndInPicture = 8;  // columns
  const DayTravel& travel = day.travel[mover];
  const auto told = [&](const DaySetting& setting, double y, const char* key) {
    setting_text(drawing, {kWordsFrom, y}, fitting(printable(setting.text), kEndInPicture),
                 pointer_of(setting.value.has_value(),
                            fmt::format("/travel/{}/values/{}", day.movers[mover]->id, key)),
                 "small soft");
  };
  drawing.box({kDayFrom, top}, kDayTo - kDayFrom, kBandTall, "band");
  const auto end = [&](double y, Refusal reason) {
    drawing.line({kDayFrom, y}, {kDayTo, y}, reason == Refusal::end_stop ? "axis" : "limit");
  };
  for (std::size_t k = 1; k < day.stops.size(); ++k) {
    const double x = DayColumns(day).left(k);
    drawing.line({x, top}, {x, top + kBandTall}, "faint");
  }
  end(top, travel.above);
  end(top + kBandTall, travel.below);
  told(travel.high, top + 7.0, "high");
  told(travel.low, top + kBandTall, "low");
}

void lane_line(Drawing& drawing, const Day& day, std::size_t mover, double top) {
  const DayColumns at(day);
  constexpr double kInside = 4.0;  // so that an end of the travel is not hidden by the line
  const auto y = [&](double height) {
    return top + kInside + (1.0 - height) * (kBandTall - 2.0 * kInside);
  };
  std::vector<Point> points{{kStands, y(day.travel[mover].stands)},
                            {kDayFrom, y(day.travel[mover].stands)}};
  for (std::size_t k = 0; k < day.stops.size(); ++k) {
    const double here = y(day.stops[k].at[mover]);
    points.push_back({at.left(k), here});
    points.push_back({at.left(k + 1), here});
  }
  drawing.path(points, "is");
  drawing.circle(points.front(), 3.5, "was-dot");
  if (const auto k = runs_out_at(day, mover)) {
    const Point here{at.middle(*k), y(day.stops[*k].at[mover])};
    constexpr double kArm = 4.0;
    drawing.line({here.x - kArm, here.y - kArm}, {here.x + kArm, here.y + kArm}, "limit");
    drawing.line({here.x - kArm, here.y + kArm}, {here.x + kArm, here.y - kArm}, "limit");
  }
}

void lane(Drawing& drawing, const Day& day, std::size_t mover, double y) {
  constexpr std::size_t kLabelInPicture = 22;  // columns
  drawing.words({kWordsFrom, y + 10.0},
                fitting(printable(day.movers[mover]->label), kLabelInPicture), Anchor::start);
  const std::string ends = ends_text(day.travel[mover]);
  if (!ends.empty()) drawing.words({kDayTo, y + 10.0}, ends, Anchor::end, "small soft");
  const double top = y + 16.0;
  lane_ends(drawing, day, mover, top);
  lane_line(drawing, day, mover, top);
  LinesUnder lines;
  for (UnderLane& each : texts_under(day, mover)) {
    const double down = kLine * static_cast<double>(lines.line_for(each.x, each.text) + 1);
    setting_text(drawing, {each.x, top + kBandTall + down}, each.text, each.json, each.style);
  }
}

// --- what is left of the handling error ----------------------------------------------------------

constexpr double kErrorTitle = 18.0, kBarTall = 34.0;
double most_error(const Day& day) {
  double most = 0.01;
  for (const DayStop& stop : day.stops) most = std::max({most, stop.untouched, stop.left});
  return most;
}

/// Figures only where each has room in its column.
bool errors_have_room(const Day& day) {
  return wide(percent_text(most_error(day))) <= DayColumns(day).width;
}

double error_height(const Day& day) {
  return kErrorTitle + kBarTall + (errors_have_room(day) ? 2.0 * kLine : 0.0) + 8.0;
}

void error_bars(Drawing& drawing, const Day& day, double y) {
  const DayColumns at(day);
  const double most = most_error(day), foot = y + kErrorTitle + kBarTall;
  const double half = std::min(12.0, at.width / 2.0 - 2.0);
  drawing.words({kWordsFrom, y + 10.0}, "handling error", Anchor::start);
  const bool figures = errors_have_room(day);
  for (const bool planned : {false, true}) {
    const double line = foot + kLine * (planned ? 2.0 : 1.0);
    if (figures)
      drawing.words({kWordsFrom, line}, planned ? "■ plan" : "□ as is", Anchor::start,
                    planned ? "then" : "soft");
    for (std::size_t k = 0; k < day.stops.size(); ++k) {
      const double share = planned ? day.stops[k].left : day.stops[k].untouched;
      const double tall = std::max(share / most * kBarTall, 0.5);
      drawing.box({planned ? at.middle(k) + 1.0 : at.middle(k) - half - 1.0, foot - tall}, half,
                  tall, planned ? "is-fill" : "wanted");
      if (!figures) continue;
      drawing.figure({at.middle(k), line}, percent_text(share),
                     fmt::format("/stages/{}/{}", k, planned ? "left" : "untouched"),
                     Anchor::middle, planned ? "then" : "soft");
    }
  }
  drawing.line({kDayFrom, foot}, {kDayTo, foot}, "axis");
}

// --- in words ------------------------------------------------------------------------------------

std::string lane_in_words(const Day& day, std::size_t mover) {
  const DayTravel& travel = day.travel[mover];
  std::string text =
      fmt::format(" {}, which can go from {} to {}: stands at {}", day.movers[mover]->label,
                  travel.low.text, travel.high.text, day.stands[mover]);
  for (const DayStop& stop : day.stops)
    text += fmt::format("; {} {}", stop.stage->label, stop.settings[mover]);
  if (const auto k = runs_out_at(day, mover)) text += "; runs out " + day.stops[*k].stage->label;
  return text + ".";
}

std::string day_in_words(const Day& day) {
  std::string text = "The day, stage by stage.";
  for (std::size_t i = 0; i < day.movers.size(); ++i) text += lane_in_words(day, i);
  text += " Handling error as it is and by the plan:";
  for (const DayStop& stop : day.stops)
    text += fmt::format(" {} {} and {};", stop.stage->label, percent_text(stop.untouched),
                        percent_text(stop.left));
  text.back() = '.';
  return text;
}

}  // namespace

std::string stage_letters(const Day& day) {
  std::string letters(day.stops.size(), 'A');
  std::iota(letters.begin(), letters.end(), 'A');
  return letters;
}

bool stages_are_named(const Day& day) {
  const DayColumns at(day);
  return std::all_of(day.stops.begin(), day.stops.end(), [&](const DayStop& stop) {
    const auto lines = lines_of_stage(at, stop.stage->label);
    // A word that was cut does not read back.
    return lines.size() <= kLinesOfStage && joined(lines, " ") == printable(stop.stage->label);
  });
}

Picture plan_picture(const Day& day) {
  const double head = head_height(day);
  double height = head + error_height(day);
  for (std::size_t i = 0; i < day.movers.size(); ++i) height += lane_height(day, i);
  Drawing drawing(height);
  stage_heads(drawing, day, head);
  double y = head;
  for (std::size_t i = 0; i < day.movers.size(); ++i) {
    lane(drawing, day, i, y);
    y += lane_height(day, i);
  }
  error_bars(drawing, day, y);
  return drawing.picture(day_in_words(day));
}

}  // namespace kartwright::cli
