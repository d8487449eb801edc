#include "engine/advice/reading_text.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>

#include <fmt/format.h>

#include "engine/advice/load_reason.h"
#include "engine/knowledge/engine_facts.h"

namespace kartwright {
namespace {

using Eigen::Index;

constexpr double kHalfNotch = 0.5;

std::string how_much(double notches) {
  const double size = std::abs(notches);
  if (size < 1.5) return "slight";
  return size < 2.5 ? "clear" : "severe";
}

/// From the chance that the sign is right.
std::string how_sure(double mean, double sd) {
  const double chance = 0.5 * std::erfc(-std::abs(mean) / (sd * std::sqrt(2.0)));
  if (chance >= 0.975) return "sure";
  return chance >= 0.84 ? "fairly sure" : "a lean, no more";
}

/// Axes by how much they weigh in the handling error, heaviest first.
std::vector<Index> heaviest_axes(const Advice& advice) {
  std::vector<Index> order(static_cast<std::size_t>(advice.belief.mean.size()));
  std::iota(order.begin(), order.end(), Index{0});
  const auto error = [&](Index i) {
    return advice.weights[i] * advice.belief.mean[i] * advice.belief.mean[i];
  };
  std::stable_sort(order.begin(), order.end(),
                   [&](Index a, Index b) { return error(a) > error(b); });
  return order;
}

/// `rear-grip` as it is said.
std::string spaced(std::string id) {
  std::replace(id.begin(), id.end(), '-', ' ');
  return id;
}

std::string capitalised(std::string text) {
  if (!text.empty() && text[0] >= 'a' && text[0] <= 'z')
    text[0] = static_cast<char>(text[0] - 'a' + 'A');
  return text;
}

/// Where no axis is half a notch off: the end of the kart that is off by a little all through the
/// corner, if one is.
std::string mild_sentence(const Advice& advice, const Pack& pack) {
  constexpr double kALittle = 0.25;
  std::map<std::string, std::pair<double, double>> ends;  // sum and count, by family
  for (std::size_t i = 0; i < pack.axes.size(); ++i) {
    if (!pack.axes[i].phase) continue;
    ends[pack.axes[i].family].first += advice.belief.mean[static_cast<Index>(i)];
    ends[pack.axes[i].family].second += 1.0;
  }
  std::string text = "Nothing is more than half a notch from its best";
  double most = kALittle;
  std::string more;
  for (const auto& [family, sum] : ends) {
    const double mean = sum.first / sum.second;
    if (std::abs(mean) < most) continue;
    most = std::abs(mean);
    more = fmt::format(", but all through the corner there is slightly too {} {} ({:+.1f} notches)",
                       mean > 0.0 ? "much" : "little", spaced(family), mean);
  }
  return text + more + ".";
}

/// The heaviest axis, and the next if it weighs at least half as much.
std::string belief_sentence(const Advice& advice, const Pack& pack) {
  const std::vector<Index> order = heaviest_axes(advice);
  const Eigen::VectorXd& mean = advice.belief.mean;
  const auto axis = [&](Index i) -> const Axis& { return pack.axes[static_cast<std::size_t>(i)]; };
  const Index first = order.front();
  std::string text = axis_in_words(axis(first), mean[first]);
  if (text.empty()) return mild_sentence(advice, pack);
  const double sd = std::sqrt(advice.belief.covariance(first, first));
  text += fmt::format(": {}, {:+.1f} ± {:.1f} notches, {}", how_much(mean[first]), mean[first], sd,
                      how_sure(mean[first], sd));
  if (order.size() > 1) {
    const Index second = order[1];
    const double ratio = advice.weights[second] * mean[second] * mean[second] /
                         (advice.weights[first] * mean[first] * mean[first]);
    const std::string more = axis_in_words(axis(second), mean[second]);
    if (ratio >= 0.4 && !more.empty()) text += "; then " + more;
  }
  return capitalised(text) + ".";
}

/// A quality that a complaint could have come from, and how much of the complaint it explains.
struct Suspect {
  const Reading* complaint = nullptr;
  Index axis = -1;
  double share = 0.0;

  /// True where too much of it would cause the complaint.
  bool high() const { return complaint->row[axis] * complaint->value > 0.0; }
};

/// The qualities that explain least and most of what the belief sees of a complaint.
std::pair<Suspect, Suspect> suspects(const Reading& complaint, const Eigen::VectorXd& mean) {
  Suspect least;
  Suspect most;
  const double seen = complaint.row.dot(mean) / complaint.value;
  if (complaint.value == 0.0 || seen <= 0.0) return {};
  for (Index i = 0; i < complaint.row.size(); ++i) {
    if (complaint.row[i] == 0.0) continue;
    const double share = complaint.row[i] * mean[i] / complaint.value / seen;
    if (least.axis < 0 || share < least.share) least = {&complaint, i, share};
    if (most.axis < 0 || share > most.share) most = {&complaint, i, share};
  }
  return {least, most};
}

/// True where the complaint may come from too little of one thing or too much of another: such a
/// complaint is the one that is easily taken the wrong way.
bool ambiguous(const Reading& reading) {
  return reading.row.minCoeff() < 0.0 && reading.row.maxCoeff() > 0.0;
}

/// The chance that a suspect is off by more than half a notch, the way the complaint has it.
double chance_off(const Belief& belief, const Suspect& suspect) {
  const double mean = belief.mean[suspect.axis];
  const double sd = std::sqrt(belief.covariance(suspect.axis, suspect.axis));
  return 0.5 * std::erfc((kHalfNotch - (suspect.high() ? mean : -mean)) / (sd * std::sqrt(2.0)));
}

/// What a suspect would feel like: "the front tyres give up".
std::string feels(const Suspect& suspect, const Pack& pack) {
  const Axis& axis = pack.axes[static_cast<std::size_t>(suspect.axis)];
  return suspect.high() ? axis.high : axis.low;
}

/// Over all complaints, ambiguous ones first, the quality that explains least, if that is little:
/// "not that the front tyres give up". Where it may well be off too, only that it is the less
/// likely of two.
std::string what_it_is_not(const Advice& advice, const Pack& pack) {
  constexpr double kLittle = 0.3;
  constexpr double kHardly = 0.15;
  Suspect least;
  Suspect most;
  for (const Reading& reading : advice.readings) {
    if (!reading.complaint) continue;
    const auto [low, high] = suspects(reading, advice.belief.mean);
    if (low.axis < 0 || low.share > kLittle) continue;
    const auto key = [](const Suspect& s) { return std::pair(!ambiguous(*s.complaint), s.share); };
    if (least.axis >= 0 && key(low) >= key(least)) continue;
    least = low;
    most = high;
  }
  if (least.axis < 0) return {};
  const std::string& complaint = least.complaint->text;
  if (chance_off(advice.belief, least) <= kHardly)
    return fmt::format("The {} is not that {}.", complaint, feels(least, pack));
  if (!ambiguous(*least.complaint) || feels(most, pack) == feels(least, pack)) return {};
  return fmt::format("The {} is more that {} than that {}.", complaint, feels(most, pack),
                     feels(least, pack));
}

std::string no_complaint_text(const Advice& advice) {
  const Heard& heard = advice.debrief.heard;
  if (!advice.checks.empty()) return "Nothing to tune: look at the checks first.";
  if (!heard.reports.empty()) return "Leave it alone: nobody complains of the handling.";
  if (!heard.not_understood.empty())
    return "Leave it alone until it is clear what the driver means: ask again in other words.";
  return "Leave it alone: nobody has said a word of the handling yet.";
}

/// What the track does by itself, in percent of the handling error.
std::string wait_text(const Advice& advice, const Pack& pack) {
  const TrackState* next = pack.track(advice.forecast.front().track);
  return fmt::format(
      "Wait for the track: as it goes on to {}, it is expected to take out {:.0f} % of the error "
      "by "
      "itself, more than the best change here.",
      next == nullptr ? advice.forecast.front().track : next->label, 100.0 * advice.track_relief);
}

std::string leave_text(const Advice& advice) {
  switch (advice.verdict.reason) {
    case LeaveReason::no_complaint:
      return no_complaint_text(advice);
    case LeaveReason::nothing_wrong:
      return "Leave it alone: what is left is too small to chase.";
    case LeaveReason::nothing_pays:
      if (advice.no_settings)
        return "Nothing can be ranked: the kart file has no settings yet. Fill in those you know.";
      return "Leave it alone: nothing here pays for its minutes.";
    case LeaveReason::keep_room:
      return "Leave it alone: keep the room that is left for the track to come.";
    case LeaveReason::only_comfort:
      return "Leave it alone: it is faster like this, and no change is sure to keep it so.";
    case LeaveReason::none:
      break;
  }
  return advice.changes.empty() ? "Nothing can be changed here." : "";
}

std::string ask_again_text(const Advice& advice) {
  const Reading& odd = advice.readings[static_cast<std::size_t>(advice.coherence.odd_one_out)];
  if (odd.report >= 0) {
    return "The reports do not fit together; ask the driver again about the odd one out: " +
           odd.text + ".";
  }
  return "The reports do not fit the track or the setting; check that this is so: " + odd.text +
         ".";
}

std::string stop_text(const Advice& advice) {
  const auto stop = std::find_if(advice.checks.begin(), advice.checks.end(),
                                 [](const FaultOdds& odds) { return odds.fault->stop; });
  if (stop == advice.checks.end()) return {};
  return fmt::format(
      "STOP: {} is likely ({:.0f} %). Do not send the kart out and do not tune around it.",
      stop->fault->label, 100.0 * stop->probability);
}

}  // namespace

std::string axis_in_words(const Axis& axis, double mean) {
  if (std::abs(mean) < kHalfNotch) return {};
  return (mean > 0.0 ? "too much " : "too little ") + axis.label;
}

std::string reading_text(const Advice& advice, const Pack& pack) {
  std::vector<std::string> sentences;
  const bool faster = advice.facts.has(engine_facts::kLaps, "faster");
  switch (advice.verdict.headline) {
    case Headline::stop_and_fix:
      sentences.push_back(stop_text(advice));
      break;
    case Headline::ask_again:
      sentences.push_back(ask_again_text(advice));
      break;
    case Headline::wait_for_track:
      sentences.push_back(wait_text(advice, pack));
      break;
    default:
      sentences.push_back(leave_text(advice));
      break;
  }
  if (faster) {
    sentences.emplace_back(
        "The clock says faster: give the driver the fast kart, not the comfortable one.");
  }
  // What does not fit together makes no belief worth reading out.
  if (advice.coherence.coherent) {
    sentences.push_back(belief_sentence(advice, pack));
    if (!faster) sentences.push_back(what_it_is_not(advice, pack));
    sentences.push_back(two_meanings(advice, pack));
  }
  std::string text;
  for (const std::string& sentence : sentences) {
    if (!sentence.empty()) text += (text.empty() ? "" : " ") + sentence;
  }
  return text;
}

}  // namespace kartwright
