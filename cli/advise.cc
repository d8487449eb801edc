// advise: the debrief, the track and the kart go in; one ranked, explained change comes out.

#include "engine/advice/advise.h"

#include <algorithm>
#include <cstdio>
#include <optional>

#include <fmt/format.h>
#include <spdlog/spdlog.h>

#include "cli/advice_json.h"
#include "cli/advice_text.h"
#include "cli/ask.h"
#include "cli/batch.h"
#include "cli/case_options.h"
#include "cli/commands.h"
#include "cli/diagnostics.h"
#include "cli/dialogue.h"
#include "cli/log_words.h"
#include "cli/sheet/advice_sheet.h"
#include "engine/advice/stakes.h"
#include "engine/debrief/debrief_file.h"
#include "engine/kart/change_setting.h"
#include "engine/knowledge/built_in.h"
#include "engine/knowledge/load.h"
#include "engine/records/clock_of_runs.h"
#include "engine/records/logbook.h"

namespace kartwright::cli {
namespace {

/// What is said twice, in the debrief that is taken up and on the command line, counts once; of two
/// values of a fact the later one.
void drop_repeats(Heard& heard) {
  const auto again = [](auto& all, const auto& same) {
    for (auto each = all.begin(); each != all.end();) {
      const bool later = std::any_of(std::next(each), all.end(),
                                     [&](const auto& other) { return same(*each, other); });
      each = later ? all.erase(each) : std::next(each);
    }
  };
  again(heard.facts, [](const auto& a, const auto& b) { return a.fact == b.fact; });
  again(heard.not_understood, [](const auto& a, const auto& b) { return a.words == b.words; });
  again(heard.praise, [](const auto& a, const auto& b) { return a == b; });
}

std::vector<AskedWhyNot> asked_why_not(const AdviseOptions& options, const Pack& pack,
                                       Findings& findings) {
  std::vector<AskedWhyNot> asked;
  for (const std::string& text : options.why_not) {
    auto one = parse_why_not(text, pack, at_option("--why-not", text), findings);
    if (one) asked.push_back(std::move(*one));
  }
  return asked;
}

void answer(const AskedWhyNot& asked, const Advice& advice, const Pack& pack, const Kart& kart,
            std::vector<WhyNotAnswer>& answers) {
  if (const auto* rule = std::get_if<RuleRef>(&asked)) {
    answers.emplace_back(WhyRule{*rule, why_not(*rule, situation_behind(advice, pack, kart))});
    return;
  }
  const auto& change = std::get<AskedChange>(asked);
  for (const std::size_t direction : change.directions)
    answers.emplace_back(why_not(*change.adjustment, direction, advice, pack, kart));
}

Depth depth_of(const AdviseOptions& options) {
  constexpr std::uint64_t kUsualDraws = 1000;
  const bool text = options.common.format != Format::json;
  const std::uint64_t draws = options.draws.value_or(text || !options.brief ? kUsualDraws : 0);
  return {.questions = text || !options.brief,
          .together = options.together,
          .draws = static_cast<int>(draws),
          .seed = options.seed,
          .measure_next = text || !options.brief};
}

/// What the log brings to an advice.
struct FromLog {
  std::optional<History> history = {};
  std::vector<std::string> notes = {};
};

bool says_nothing(const Debrief& debrief) {
  return debrief.heard.reports.empty() && debrief.heard.not_understood.empty();
}

/// Where nothing was said here, the debrief of the last run in the log counts.
void take_last_debrief(const Run& last, const AdviseOptions& options, Debrief& debrief,
                       std::vector<std::string>& notes) {
  if (!says_nothing(debrief)) return;
  debrief.heard.reports = last.reports;
  for (const StatedFact& fact : last.facts) {
    const auto stated = std::any_of(debrief.heard.facts.begin(), debrief.heard.facts.end(),
                                    [&](const StatedFact& each) { return each.fact == fact.fact; });
    if (!stated) debrief.heard.facts.push_back(fact);
  }
  if (!options.track && debrief.track == "unknown" && !last.track.empty())
    debrief.track = last.track;
  notes.push_back("the debrief is that of " + name_of(last) +
                  (last.reports.empty() ? ", which says nothing of the handling" : ""));
}

/// Where the kart file is not as the kart was driven, the debrief is of another setup.
void mind_the_setup(const Run& last, const Kart& kart, std::vector<std::string>& notes) {
  std::string differs;
  for (const auto& [id, setting] : kart.settings) {
    const std::string was = last.setting(id);
    const auto value = setting_value(setting, was);
    if (value && steps_between(setting, *value, setting.now) != 0.0)
      differs += fmt::format("{}{} {}", differs.empty() ? "" : ", ", id, was);
  }
  if (!differs.empty())
    notes.emplace_back("the kart file is not as the kart was driven then: it had " + differs);
}

/// The clock discounts complaints where the log settles that the kart has become faster.
void take_clock(const std::vector<Run>& runs, Debrief& debrief, std::vector<std::string>& notes) {
  const bool stated = std::any_of(debrief.heard.facts.begin(), debrief.heard.facts.end(),
                                  [](const StatedFact& each) { return each.fact == "laps"; });
  if (stated || runs.size() < 2) return;
  const auto laps = laps_fact(runs);
  if (!laps) return;
  debrief.heard.facts.push_back({.fact = "laps", .value = *laps, .words = {}});
  notes.push_back(fmt::format("by the log's clock {} is {} than the setup before it",
                              name_of(runs.back()), *laps));
}

FromLog read_log(const AdviseOptions& options, const Pack& pack, const Kart& kart,
                 Debrief& debrief) {
  FromLog out;
  if (options.common.log.empty()) return out;
  constexpr std::size_t kRunsOfADay = 20;
  const Logbook log(options.common.log, Logbook::For::reading);
  out.history = history_in(log, pack, kart);
  std::vector<Run> latest = log.runs(kart.name, {}, kRunsOfADay);
  std::erase_if(latest, [](const Run& run) { return !run.driven; });
  if (latest.empty()) {
    out.notes.emplace_back("the log has no run of this kart yet");
    return out;
  }
  if (says_nothing(debrief)) mind_the_setup(latest.back(), kart, out.notes);
  take_last_debrief(latest.back(), options, debrief, out.notes);
  take_clock(latest, debrief, out.notes);
  return out;
}

/// The last advice stays in the log for `apply`. Where that cannot be, the advice is given all the
/// same.
void remember(const AdviseOptions& options, const Kart& kart, const Advice& advice,
              const Pack& pack) {
  if (options.common.log.empty() || kart.typical) return;
  try {
    Logbook log(options.common.log, Logbook::For::writing);
    log.remember_advice(kart.name, moment_now(), advice_json(advice, pack, true, {}));
  } catch (const InputError& error) {
    std::vector<Diagnostic> told = error.found();
    for (Diagnostic& each : told) {
      each.severity = Severity::warning;
      each.message = "the advice is not remembered for `apply`: " + each.message;
    }
    show_diagnostics(told, options.common.loudness >= 0);
  }
}

/// Who is asked, and where what was answered is kept for as long as that is not finished.
struct AskingDriver {
  Dialogue dialogue = Dialogue();
  DebriefKeeper keeper;
  DriverAsked driver;
  AskingDriver(const AdviseOptions& options, const DebriefFile& file, const Pack& pack)
      : keeper({.kart = options.kart.empty() ? file.kart_path : options.kart,
                .debrief = options.debrief}),
        driver(dialogue, keeper, pack) {}
};

/// Takes up a debrief that was broken off, where the crew wants that.
AskingEnd take_up(AskingDriver& asking, const std::string& kart, const AdviseOptions& options,
                  const Pack& pack, Debrief& debrief) {
  AskingEnd end = AskingEnd::finished;
  std::optional<Debrief> kept = asking.driver.offer(kart, end);
  if (!kept) return end;
  Findings found_already;
  debrief = std::move(*kept);
  add_options(options, pack, debrief, found_already);
  drop_repeats(debrief.heard);
  return end;
}

std::string in_format(const AdviseOptions& options, const Advice& advice, const Kart& kart,
                      const Pack& pack, const Beside& beside) {
  switch (options.common.format) {
    case Format::json:
      return advice_json(advice, pack, options.brief, beside);
    case Format::html:
      return advice_sheet(advice, kart, pack, options.why, beside);
    default:
      return advice_text(advice, pack, look_of_stdout(), options.why, beside);
  }
}

}  // namespace

Pack load_rules(const Common& common) {
  if (common.rules.empty()) return built_in_pack();
  spdlog::info("rules: built in, and {}", common.rules);
  return load_pack(built_in_rules(), read_rule_folder(common.rules));
}

Kart load_kart(const std::string& path, const Pack& pack, Findings& findings) {
  if (path.empty()) return typical_kart(pack);
  spdlog::info("kart: {}", path);
  return read_kart(read_document(path), pack, findings);
}

void check_track(const std::string& track, const Pack& pack, Findings& findings) {
  std::vector<std::string> known{"unknown"};
  for (const TrackState& state : pack.tracks) known.push_back(state.id);
  if (track == "unknown" || pack.track(track) != nullptr) return;
  findings.add({.code = Code::unknown_name,
                .file = "--track",
                .span = {.line = 1, .column = 1, .length = static_cast<int>(track.size())},
                .message = "`" + track + "` is not a track state",
                .help = suggestion(track, known),
                .source = track});
}

int run_advise(const AdviseOptions& options) {
  const Pack pack = load_rules(options.common);
  Findings findings;
  if (!options.batch.empty()) {
    if (options.track) check_track(*options.track, pack, findings);
    findings.throw_if_errors();
    return run_batch(options, pack);
  }
  GivenCase given = read_case(options, pack, findings);
  DebriefFile& file = given.file;
  Kart& kart = given.kart;
  findings.throw_if_errors();
  const std::vector<AskedWhyNot> asked = asked_why_not(options, pack, findings);
  findings.throw_if_errors();
  std::optional<AskingDriver> asking;
  if (options.ask) asking.emplace(options, file, pack);
  if (asking && take_up(*asking, kart.name, options, pack, file.debrief) == AskingEnd::interrupted)
    return kInterrupted;
  const FromLog from_log = read_log(options, pack, kart, file.debrief);
  const History* const history = from_log.history ? &*from_log.history : nullptr;
  show_diagnostics(findings.all(), options.common.loudness >= 0);

  const System units = options.common.units.value_or(kart.units);
  if (asking &&
      asking->driver.ask({pack, kart, units, history}, file.debrief) == AskingEnd::interrupted)
    return kInterrupted;
  Advice advice = advise(pack, kart, file.debrief, units, depth_of(options), history);
  advice.notes.insert(advice.notes.end(), from_log.notes.begin(), from_log.notes.end());
  Beside beside;
  for (const AskedWhyNot& each : asked) answer(each, advice, pack, kart, beside.why_not);
  beside.asked_after = options.after;
  if (options.after) beside.next_steps = next_steps(advice, pack, kart);
  if (options.turns)
    beside.turning = turning(pack, kart, file.debrief, units, {.history = history});
  if (options.common.format != Format::text && !options.brief)
    beside.sketch = sketch_of(advice, kart, pack);
  const std::string answer = in_format(options, advice, kart, pack, beside);
  std::fwrite(answer.data(), 1, answer.size(), stdout);
  remember(options, kart, advice, pack);
  if (asking && std::fflush(stdout) == 0) asking->driver.advised();
  return kSuccess;
}

}  // namespace kartwright::cli
