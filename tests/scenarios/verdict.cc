#include "tests/scenarios/verdict.h"

#include <algorithm>

#include <fmt/format.h>

namespace kartwright {
namespace {

constexpr std::size_t kFewestScenarios = 12;

std::string shown(const NamedMove& move) { return move.adjustment + " " + move.direction; }

std::string shown(const std::vector<NamedMove>& moves) {
  std::string text;
  for (const NamedMove& move : moves) text += (text.empty() ? "" : ", ") + shown(move);
  return text.empty() ? "nothing" : text;
}

std::string shown(const std::vector<Report>& reports) {
  std::string text;
  for (const Report& r : reports) {
    text += fmt::format("{}{}@{}={},{}{}{}", text.empty() ? "" : "; ", r.symptom, name_of(r.phase),
                        r.severity, name_of(r.confidence),
                        r.side ? fmt::format(",{}", name_of(*r.side)) : "",
                        r.when ? fmt::format(",{}", name_of(*r.when)) : "");
  }
  return text.empty() ? "nothing" : text;
}

/// The judge of one answer; collects what is not met.
class Judge {
 public:
  Judge(const Expectation& expect, const Advice& advice, const Pack& pack)
      : expect_(expect), advice_(advice), pack_(pack) {
    for (const Change& change : advice.changes) {
      offered_.push_back({change.adjustment().id, change.direction()});
    }
  }

  std::vector<std::string> judge() {
    headline();
    order();
    refusals();
    checks();
    beliefs();
    hearing();
    return std::move(not_met_);
  }

 private:
  template <typename... Args>
  void fails(fmt::format_string<Args...> text, Args&&... args) {
    not_met_.push_back(fmt::format(text, std::forward<Args>(args)...));
  }

  template <typename List, typename Item>
  static bool among(const List& list, const Item& item) {
    return std::find(list.begin(), list.end(), item) != list.end();
  }

  void headline() {
    const std::string_view came = name_of(advice_.verdict.headline);
    if (expect_.headline && *expect_.headline != came) {
      fails("headline: expected {}, came {}", *expect_.headline, came);
    }
  }

  void order() {
    const std::string came = shown(offered_);
    const NamedMove lead = offered_.empty() ? NamedMove{"nothing", ""} : offered_.front();
    if (!expect_.first.empty() && !among(expect_.first, lead)) {
      fails("first: expected one of {}; came {}", shown(expect_.first), came);
    }
    if (among(expect_.not_first, lead)) fails("not-first: {} leads: {}", shown(lead), came);
    for (const NamedMove& move : expect_.ranked) {
      if (!among(offered_, move)) {
        fails("ranked: {} is not offered ({}); came {}", shown(move), why_not(move), came);
      }
    }
    for (const NamedMove& move : expect_.not_ranked) {
      if (among(offered_, move)) fails("not-ranked: {} is offered: {}", shown(move), came);
    }
  }

  std::string why_not(const NamedMove& move) const {
    for (const NotNow& each : advice_.not_now) {
      if (NamedMove{std::string(each.adjustment), std::string(each.direction)} == move)
        return std::string(name_of(each.reason));
    }
    return "nowhere at all";
  }

  void refusals() {
    for (const RefusedMove& refused : expect_.refused) {
      const std::string came = among(offered_, refused.move) ? "offered" : why_not(refused.move);
      if (came != refused.reason) {
        fails("refused: expected {} for {}, came {}", refused.reason, shown(refused.move), came);
      }
    }
  }

  void checks() {
    std::vector<std::string> came;
    for (const FaultOdds& odds : advice_.checks) came.push_back(odds.fault->id);
    const std::string all = fmt::format("{}", fmt::join(came, ", "));
    const std::string top = came.empty() ? "none" : came.front();
    if (expect_.first_check && *expect_.first_check != top) {
      fails("first-check: expected {}, came {}", *expect_.first_check, all);
    }
    for (const std::string& fault : expect_.checks) {
      if (!among(came, fault)) fails("checks: {} is missing from: {}", fault, all);
    }
    for (const std::string& fault : expect_.no_checks) {
      if (among(came, fault)) fails("no-checks: {} is among: {}", fault, all);
    }
    if (expect_.look_over && *expect_.look_over == advice_.look_over.empty()) {
      fails("look-over: expected {}", *expect_.look_over ? "one" : "none");
    }
  }

  void beliefs() {
    for (std::size_t i = 0; i < pack_.axes.size(); ++i) {
      const auto expected = expect_.axes.find(pack_.axes[i].id);
      if (expected == expect_.axes.end()) continue;
      const double mean = advice_.belief.mean[static_cast<Eigen::Index>(i)];
      if (!lies(mean, expected->second)) {
        fails("axes: expected {} {}, came {:+.2f}", expected->first, name_of(expected->second),
              mean);
      }
    }
    for (const auto& [fact, value] : expect_.facts) {
      if (!advice_.facts.has(fact, value)) fails("facts: {}={} does not hold", fact, value);
    }
  }

  void hearing() {
    const Heard& heard = advice_.debrief.heard;
    if (expect_.not_understood &&
        static_cast<std::size_t>(*expect_.not_understood) != heard.not_understood.size()) {
      fails("not-understood: expected {}, came {}", *expect_.not_understood,
            heard.not_understood.size());
    }
    if (!expect_.heard) return;
    std::vector<Report> came;
    std::copy_if(heard.reports.begin(), heard.reports.end(), std::back_inserter(came),
                 [](const Report& report) { return !report.from_praise; });
    if (keys_of(came) != keys_of(*expect_.heard)) {
      fails("heard: expected {}, came {}", shown(*expect_.heard), shown(came));
    }
  }

  /// What of a report is compared: all but its words, in an order of its own.
  static std::vector<std::string> keys_of(const std::vector<Report>& reports) {
    std::vector<std::string> keys;
    for (const Report& report : reports) keys.push_back(shown(std::vector{report}));
    std::sort(keys.begin(), keys.end());
    return keys;
  }

  const Expectation& expect_;
  const Advice& advice_;
  const Pack& pack_;
  std::vector<NamedMove> offered_ = {};
  std::vector<std::string> not_met_ = {};
};

}  // namespace

std::vector<std::string> not_met(const Expectation& expect, const Advice& advice,
                                 const Pack& pack) {
  return Judge(expect, advice, pack).judge();
}

std::vector<std::string> gaps_in(const std::vector<Scenario>& scenarios) {
  std::vector<std::string> gaps;
  if (scenarios.size() < kFewestScenarios) {
    gaps.push_back(
        fmt::format("{} scenarios are fewer than {}", scenarios.size(), kFewestScenarios));
  }
  for (const std::string_view track : {"cold", "green", "rubbered-in", "wet"}) {
    const bool there = std::any_of(scenarios.begin(), scenarios.end(), [&](const Scenario& each) {
      return each.debrief.track == track;
    });
    if (!there) gaps.push_back(fmt::format("no scenario has a {} track", track));
  }
  return gaps;
}

}  // namespace kartwright
