#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "engine/advice/advise.h"
#include "engine/advice/gauge_check.h"
#include "engine/decision/effects.h"
#include "engine/decision/forecast.h"
#include "engine/inference/belief.h"
#include "engine/inference/derive.h"
#include "engine/inference/fault_odds.h"
#include "tests/scenarios/claim.h"

namespace kartwright {
namespace {

constexpr double kTold = 0.03;                 ///< notches or decibans that tell a way from none
constexpr double kEven = 0.5, kCertain = 0.9;  ///< of a probability
constexpr double kATenth = -10.0;              ///< decibans

/// What the pack makes of one case.
struct Worked {
  Kart kart;
  std::vector<Report> reports;
  Situation situation;

  Worked(const Pack& pack, const ClaimedCase& on)
      : kart(on.kart ? *on.kart : typical_kart(pack)),
        reports(on.debrief.heard.reports),
        situation{.pack = pack, .kart = kart, .reports = reports} {
    situation.facts = settle_facts(pack, kart, reports, given_facts(pack, kart, on.debrief));
    measure_loads(situation);
  }
  Worked(const Worked&) = delete;
  Worked& operator=(const Worked&) = delete;

  Eigen::VectorXd believed() const {
    return update(make_prior(situation.pack), take_readings(situation)).mean;
  }

  double decibans(const std::string& fault) const {
    double sum = 0.0;
    for (const FaultOdds& odds : weigh_faults(situation)) {
      if (odds.fault->id == fault) sum = odds.decibans;
    }
    return sum;
  }
};

ClaimedSense way_of(double amount) {
  if (std::abs(amount) <= kTold) return ClaimedSense::same;
  return amount > 0.0 ? ClaimedSense::more : ClaimedSense::less;
}

/// Holds one claim against one pack; collects what is not kept.
class ClaimJudge {
 public:
  ClaimJudge(const Claim& claim, const Pack& pack)
      : claim_(claim), pack_(pack), worked_(pack, claim.on) {}

  std::vector<std::string> judge() {
    moves();
    beliefs();
    odds();
    for (const auto& [fact, value] : claim_.holds) {
      if (!worked_.situation.facts.has(fact, value)) fails("{}={} does not hold", fact, value);
    }
    if (claim_.stops || !claim_.asks.empty()) advice();
    if (!claim_.check.empty()) check();
    return std::move(not_kept_);
  }

 private:
  template <typename... Args>
  void fails(fmt::format_string<Args...> text, Args&&... args) {
    not_kept_.push_back(fmt::format(text, std::forward<Args>(args)...));
  }

  /// Holds a vector over axes against ways of axes or families.
  void hold(std::string_view what, const Eigen::VectorXd& amounts, const AxisWays& ways) {
    for (const auto& [name, way] : ways) {
      for (std::size_t i = 0; i < pack_.axes.size(); ++i) {
        const Axis& axis = pack_.axes[i];
        const double amount = amounts[static_cast<Eigen::Index>(i)];
        if ((axis.id != name && axis.family != name) || way_of(amount) == way) continue;
        fails("{}: {} of {} was expected, came {:+.2f}", what, name_of(way), axis.id, amount);
      }
    }
  }

  void hold_most(std::string_view what, const Eigen::VectorXd& amounts, const std::string& most) {
    if (most.empty()) return;
    Eigen::Index lead = 0;
    const double largest = amounts.cwiseAbs().maxCoeff(&lead);
    const double here = std::abs(amounts[axis_at(most)]);
    if (here < kTold || here < largest - kTold) {
      fails("{}: {:.2f} of {}, {:.2f} of {}", what, here, most, largest,
            pack_.axes[static_cast<std::size_t>(lead)].id);
    }
  }

  Eigen::VectorXd step(const NamedMove& move, const Worked& on) const {
    const Adjustment& adjustment = *pack_.adjustment(move.adjustment);
    const double sign = move.direction == adjustment.directions[0] ? 1.0 : -1.0;
    return sign * effect_of(adjustment, on.situation).per_step;
  }

  void what_is_open() {
    const Adjustment& adjustment = *pack_.adjustment(claim_.move->adjustment);
    const Effect effect = effect_of(adjustment, worked_.situation);
    for (const std::string& fact : claim_.open) {
      if (std::count(effect.open_facts.begin(), effect.open_facts.end(), fact) == 0)
        fails("{} is not open", fact);
    }
    if (claim_.disputed && *claim_.disputed != effect.contested)
      fails("the move is {}disputed", effect.contested ? "" : "not ");
  }

  void moves() {
    if (!claim_.move) return;
    const Eigen::VectorXd done = step(*claim_.move, worked_);
    Eigen::VectorXd apart = done;
    if (claim_.than) apart -= step(*claim_.move, Worked(pack_, *claim_.than));
    hold("the move", apart, claim_.does);
    what_is_open();
    hold_most("the move", done, claim_.most);
    for (const NamedMove& other : claim_.outdoes) {
      const auto at = axis_at(claim_.most);
      const double more = std::abs(done[at]), less = std::abs(step(other, worked_)[at]);
      if (more <= less + kTold) {
        fails("{} {} does {:.2f}, the move {:.2f}", other.adjustment, other.direction, less, more);
      }
    }
  }

  Eigen::Index axis_at(const std::string& id) const {
    const auto found = std::find_if(pack_.axes.begin(), pack_.axes.end(),
                                    [&](const Axis& axis) { return axis.id == id; });
    return found - pack_.axes.begin();
  }

  void beliefs() {
    if (!claim_.reads.empty() || !claim_.mostly.empty()) {
      Eigen::VectorXd moved = worked_.believed();
      if (claim_.than) moved -= Worked(pack_, *claim_.than).believed();
      hold("the belief", moved, claim_.reads);
      hold_most("the belief", moved, claim_.mostly);
    }
    if (claim_.ahead.empty()) return;
    const std::vector<Stage> stages = forecast(pack_, claim_.on.debrief.track, 3.0);
    const auto none = Eigen::VectorXd::Zero(static_cast<Eigen::Index>(pack_.axes.size()));
    hold("the track", stages.empty() ? Eigen::VectorXd(none) : stages.front().shift, claim_.ahead);
  }

  /// Decibans by which the case moves a fault.
  double moved(const std::string& fault) const {
    const double from =
        claim_.than ? Worked(pack_, *claim_.than).decibans(fault) : pack_.fault(fault)->prior;
    return worked_.decibans(fault) - from;
  }

  void odds() {
    for (const std::string& fault : claim_.likelier) {
      if (moved(fault) <= kTold) fails("{} is no likelier: {:+.1f} dB", fault, moved(fault));
    }
    for (const std::string& fault : claim_.unlikelier) {
      if (moved(fault) >= -kTold) fails("{} is no less likely: {:+.1f} dB", fault, moved(fault));
    }
    for (const std::string& fault : claim_.cleared) {
      if (moved(fault) >= kATenth - kTold)
        fails("{} is not cleared: {:+.1f} dB", fault, moved(fault));
    }
    for (const std::string& fault : claim_.doubtful) {
      const double p = probability_of(worked_.decibans(fault));
      if (p >= kEven) fails("{} is likelier than not: {:.2f}", fault, p);
    }
    for (const std::string& fault : claim_.certain) {
      const double p = probability_of(worked_.decibans(fault));
      if (p < kCertain) fails("{} is not certain: {:.2f}", fault, p);
    }
  }

  void advice() {
    const Advice came = advise(pack_, worked_.kart, claim_.on.debrief, worked_.kart.units);
    const bool stops = came.verdict.headline == Headline::stop_and_fix;
    if (claim_.stops && stops != *claim_.stops)
      fails("the headline is {}", name_of(came.verdict.headline));
    for (const std::string& fact : claim_.asks) {
      const bool asked = std::any_of(came.questions.begin(), came.questions.end(),
                                     [&](const Question& each) { return each.id() == fact; });
      if (!asked) fails("{} is not asked for", fact);
    }
  }

  void check() {
    const Gauge& gauge = *pack_.gauge(claim_.check);
    const Kart* const kart = claim_.on.kart ? &*claim_.on.kart : nullptr;
    const GaugeCheck came =
        check_gauge(gauge, read_gauge_readings(gauge, claim_.given), pack_, kart);
    const auto any = [&](auto is) {
      return std::any_of(came.verdicts.begin(), came.verdicts.end(),
                         [&](const VerdictFound& each) { return is(*each.verdict); });
    };
    const bool wrong = any([](const GaugeVerdict& verdict) { return !verdict.ok; });
    const bool not_run = any([](const GaugeVerdict& verdict) { return verdict.stops; });
    if (came.verdicts.empty()) fails("{}: no verdict", claim_.check);
    if (claim_.in_order && *claim_.in_order == wrong)
      fails("{}: {}", claim_.check, wrong ? "something is wrong" : "all is in order");
    if (claim_.not_run && *claim_.not_run != not_run)
      fails("{}: {}", claim_.check, not_run ? "not to be run" : "may be run");
    for (const std::string& figure : claim_.judges) {
      if (!any([&](const GaugeVerdict& verdict) { return verdict.of == figure; }))
        fails("{} says nothing of {}", claim_.check, figure);
    }
    for (const auto& each : claim_.states) {
      if (std::count(came.facts.begin(), came.facts.end(), each) == 0)
        fails("{} does not state {}={}", claim_.check, each.first, each.second);
    }
  }

  const Claim& claim_;
  const Pack& pack_;
  Worked worked_;
  std::vector<std::string> not_kept_ = {};
};

}  // namespace

std::vector<std::string> not_kept(const Claim& claim, const Pack& pack) {
  return ClaimJudge(claim, pack).judge();
}

}  // namespace kartwright
