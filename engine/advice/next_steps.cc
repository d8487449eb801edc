#include "engine/advice/next_steps.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#include "engine/advice/stakes.h"
#include "engine/algebra/distributions.h"
#include "engine/decision/following.h"

namespace kartwright {
namespace {

using Eigen::VectorXd;

/// What is listened for after every change.
struct ListenFor {
  VectorXd row;
  double value = 0.0;  ///< that it was heard as, notches
  double denied_sd = 0.5, heard_sd = 0.7;
  std::string text;
};

double share_heard(Outcome outcome) {
  static constexpr std::array kShares{0.0, 0.5, 1.0, 1.5};
  return kShares.at(static_cast<std::size_t>(outcome));
}

constexpr std::array kOutcomes{Outcome::gone, Outcome::halved, Outcome::as_before, Outcome::worse};

/// How likely each answer is: an answer stands for what lies nearest to it.
std::array<double, 4> chances_of(const Following& kart, const ListenFor& listen, double value) {
  const double sd = std::sqrt(kart.variance(listen.row, listen.heard_sd));
  const double mean = kart.expected(listen.row) / value;
  const auto below = [&](double share) {
    return normal_below((share - mean) / (sd / std::abs(value)));
  };
  const double gone = below(0.25), halved = below(0.75), same = below(1.25);
  return {gone, halved - gone, same - halved, 1.0 - same};
}

/// One branch of the tree: the kart as it stands by then, and what is believed of it.
class Branch {
 public:
  Branch(const Advice& advice, const Pack& pack, const Kart& kart)
      : advice_(advice),
        pack_(pack),
        kart_(kart),
        stakes_(stakes_behind(advice, pack)),
        following_(advice.belief.mean, advice.belief.covariance) {}

  void make(const Option& option) {
    const std::size_t which = number_of(*option.setting->adjustment);
    following_.move(which, following_.effect(which, advice_.effects[which]), option.steps);
    kart_.settings.at(option.setting->adjustment->id).now = option.to;
  }

  const Following& believed() const { return following_; }
  void hear(const ListenFor& listen, double value, bool denied) {
    following_.hear(listen.row, value, denied ? listen.denied_sd : listen.heard_sd);
  }

  /// The step to make now, and the option behind it; nothing where the kart is left.
  std::optional<Candidate> best() const {
    Stakes stakes = stakes_;
    stakes.mean = following_.mean();
    // What only quiets a complaint was judged before the first change.
    stakes.without_complaints.reset();
    stakes.with_complaints.reset();
    const double none = loss_of_nothing(stakes);
    if (none < kSmallLoss) return std::nullopt;
    std::vector<Effect> effects;
    for (std::size_t i = 0; i < advice_.effects.size(); ++i)
      effects.push_back(following_.effect(i, advice_.effects[i]));
    const std::vector<Way> ways = all_ways(pack_, kart_, stakes.minutes_left);
    const Ranking ranking = rank(stakes, ways, effects);
    std::optional<Candidate> best;
    double points = ranking.nothing + kWorthWhile;
    const auto take = [&](const Candidate& candidate) {
      if (candidate.parts.score() < points) return;
      points = candidate.parts.score();
      best = candidate;
    };
    for (const Candidate& candidate : ranking.candidates) {
      if (!moved(*candidate.option.setting)) take(candidate);
    }
    for (std::size_t way = 0; way < ways.size(); ++way) {
      if (ways[way].setting == nullptr || !moved(*ways[way].setting)) continue;
      for (Candidate candidate : judge_places(stakes, ways, effects, way)) {
        if (!candidate.option.legal()) continue;
        const double more = following_.known_together(number_of(*ways[way].adjustment),
                                                      stakes.weights, candidate.option.steps);
        candidate.relief -= more / none;
        candidate.parts.effect -= 100.0 * more / none;
        if (candidate.relief > 0.0) take(candidate);
      }
    }
    return best;
  }

  NextStep in_words(const Option& option, double relief) const {
    NextStep step{.kind = NextStep::Kind::change,
                  .adjustment = option.setting->adjustment,
                  .direction = option.direction,
                  .from = print_setting(*option.setting, option.from, advice_.units),
                  .to = print_setting(*option.setting, option.to, advice_.units),
                  .relief = relief,
                  .minutes = option.minutes};
    if (stood_at_first(*option.setting, option.to)) step.kind = NextStep::Kind::put_back;
    return step;
  }

  /// A change taken back, since something else must be wrong.
  NextStep put_back(const Option& made) const {
    return {.kind = NextStep::Kind::look_for_a_fault,
            .adjustment = made.setting->adjustment,
            .direction = 1 - made.direction,
            .from = print_setting(*made.setting, made.to, advice_.units),
            .to = print_setting(*made.setting, made.from, advice_.units),
            .minutes = made.minutes};
  }

 private:
  std::size_t number_of(const Adjustment& adjustment) const {
    return static_cast<std::size_t>(&adjustment - pack_.adjustments.data());
  }
  /// How the setting stood before the first change; the ways of the advice point there.
  const Setting& at_first(const Setting& setting) const {
    return *advice_.ways[2 * number_of(*setting.adjustment)].setting;
  }
  bool moved(const Setting& setting) const { return setting.now != at_first(setting).now; }
  bool stood_at_first(const Setting& setting, double place) const {
    return moved(setting) && steps_between(setting, place, at_first(setting).now) == 0.0;
  }

  const Advice& advice_;
  const Pack& pack_;
  Kart kart_;
  Stakes stakes_;
  Following following_;
};

void grow(NextStep& step, const Option& option, const Branch& before, const ListenFor& listen,
          double value, std::size_t depth);

/// What to do after an answer.
NextStep step_after(const Branch& branch, const ListenFor& listen, double value,
                    std::size_t depth) {
  const std::optional<Candidate> best = branch.best();
  if (!best) return {};
  NextStep step = branch.in_words(best->option, best->relief);
  grow(step, best->option, branch, listen, value, depth);
  return step;
}

void grow(NextStep& step, const Option& option, const Branch& before, const ListenFor& listen,
          double value, std::size_t depth) {
  constexpr double kSilent = 0.25;  // notches: nothing is left to listen for
  constexpr double kHardly = 0.02;  // a chance: what is believed does not allow for it
  if (depth == 0 || std::abs(value) < kSilent) return;
  Branch made = before;
  made.make(option);
  const std::array<double, 4> chances = chances_of(made.believed(), listen, value);
  for (const Outcome outcome : kOutcomes) {
    Branch heard = made;
    const double now = share_heard(outcome) * value;
    heard.hear(listen, now, outcome == Outcome::gone);
    AfterChange after{
        .outcome = outcome, .chance = chances.at(static_cast<std::size_t>(outcome)), .then = {}};
    const bool in_doubt = outcome == Outcome::worse && after.chance < kHardly;
    after.then.push_back(in_doubt ? made.put_back(option)
                                  : step_after(heard, listen, now, depth - 1));
    step.after.push_back(std::move(after));
  }
}

/// The complaint that the change mends most, by the notches that it takes off it.
std::optional<ListenFor> complaint_mended(const Change& change, const Advice& advice,
                                          const Pack& pack, const VectorXd& per_step) {
  std::optional<ListenFor> out;
  double most = 0.0;
  for (const Reading& reading : advice.readings) {
    if (!reading.complaint || reading.value == 0.0) continue;
    const double moved = change.candidate.option.steps * reading.row.dot(per_step);
    const double mended = reading.value < 0.0 ? moved : -moved;
    if (mended <= most) continue;
    most = mended;
    out = ListenFor{.row = reading.row,
                    .value = reading.value,
                    .denied_sd = pack.hearing.denied,
                    .heard_sd = pack.hearing.fair,
                    .text = reading.text};
  }
  return out;
}

/// Where no complaint is mended: the axis the change is made for.
ListenFor axis_mended(const Change& change, const Advice& advice, const Pack& pack) {
  const auto axis = static_cast<Eigen::Index>(change.moves.front().axis);
  return {.row = VectorXd::Unit(advice.belief.mean.size(), axis),
          .value = advice.belief.mean[axis],
          .denied_sd = pack.hearing.denied,
          .heard_sd = pack.hearing.fair,
          .text = pack.axes[change.moves.front().axis].label};
}

}  // namespace

std::string_view name_of(Outcome outcome) {
  static constexpr std::array<std::string_view, 4> kNames{"gone", "halved", "as-before", "worse"};
  return kNames.at(static_cast<std::size_t>(outcome));
}

std::optional<NextSteps> next_steps(const Advice& advice, const Pack& pack, const Kart& kart,
                                    std::size_t depth) {
  const bool leads = advice.verdict.headline == Headline::change && !advice.changes.empty();
  if (!leads || advice.changes.front().moves.empty()) return std::nullopt;
  const Change& change = advice.changes.front();
  const auto which = static_cast<std::size_t>(&change.adjustment() - pack.adjustments.data());
  const ListenFor listen = complaint_mended(change, advice, pack, advice.effects[which].per_step)
                               .value_or(axis_mended(change, advice, pack));
  const Branch now(advice, pack, kart);
  NextSteps out{.first = now.in_words(change.candidate.option, change.candidate.relief),
                .complaint = listen.text};
  grow(out.first, change.candidate.option, now, listen, listen.value, depth);
  return out;
}

}  // namespace kartwright
