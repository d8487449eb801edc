// advise: the debrief, the track and the kart go in; one ranked, explained change comes out.

#include "engine/advice/advise.h"

#include <cstdio>
#include <optional>

#include <fmt/format.h>
#include <spdlog/spdlog.h>

#include "cli/advice_json.h"
#include "cli/advice_text.h"
#include "cli/batch.h"
#include "cli/commands.h"
#include "cli/diagnostics.h"
#include "engine/advice/stakes.h"
#include "engine/debrief/debrief_file.h"
#include "engine/debrief/report_grammar.h"
#include "engine/knowledge/built_in.h"
#include "engine/knowledge/load.h"

namespace kartwright::cli {
namespace {

WrittenAt option(const std::string& name, const std::string& value) {
  return {.file = name, .span = {.line = 1, .column = 1}, .source = value};
}

void set_track(const std::string& track, const Pack& pack, Debrief& debrief, Findings& findings) {
  debrief.track = track;
  check_track(track, pack, findings);
}

/// What the options say, on top of what the debrief file said.
void add_options(const AdviseOptions& options, const Pack& pack, Debrief& debrief,
                 Findings& findings) {
  if (options.track) set_track(*options.track, pack, debrief, findings);
  for (const std::string& text : options.reports) {
    const auto report = parse_report(text, pack, option("--report", text), findings);
    if (report) debrief.heard.reports.push_back(*report);
  }
  for (const std::string& text : options.facts) {
    const auto fact = parse_fact(text, pack, option("--fact", text), findings);
    if (fact) debrief.heard.facts.push_back(*fact);
  }
  if (!options.laps.empty()) {
    const auto laps =
        make_fact("laps", options.laps, pack, option("--laps", options.laps), findings);
    if (laps) debrief.heard.facts.push_back(*laps);
  }
  if (options.minutes) debrief.minutes = *options.minutes;
  if (options.hours) debrief.hours = *options.hours;
  if (!options.said.empty()) add_words(debrief, options.said, pack);
  settle_reports(debrief.heard.reports);
}

/// A fact has one value; two different ones are the crew's to settle.
void refuse_contradictions(const std::vector<StatedFact>& facts, Findings& findings) {
  for (std::size_t i = 0; i < facts.size(); ++i) {
    for (std::size_t j = i + 1; j < facts.size(); ++j) {
      if (facts[i].fact != facts[j].fact || facts[i].value == facts[j].value) continue;
      findings.add({.code = Code::bad_fact,
                    .file = "--fact",
                    .message = "`" + facts[i].fact + "` is stated as `" + facts[i].value +
                               "` and as `" + facts[j].value + "`",
                    .help = "keep one of the two"});
    }
  }
}

Kart kart_for(const AdviseOptions& options, DebriefFile& file, const Pack& pack,
              Findings& findings) {
  const std::string& path = options.kart.empty() ? file.kart_path : options.kart;
  if (path.empty() && file.kart) return std::move(*file.kart);
  return load_kart(path, pack, findings);
}

std::vector<AskedWhyNot> asked_why_not(const AdviseOptions& options, const Pack& pack,
                                       Findings& findings) {
  std::vector<AskedWhyNot> asked;
  for (const std::string& text : options.why_not) {
    auto one = parse_why_not(text, pack, option("--why-not", text), findings);
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
  const bool text = options.common.format == Format::text;
  const std::uint64_t draws = options.draws.value_or(text || !options.brief ? kUsualDraws : 0);
  return {.questions = text || !options.brief,
          .together = options.together,
          .draws = static_cast<int>(draws),
          .seed = options.seed,
          .measure_next = text || !options.brief};
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
    Debrief usual;
    if (options.track) set_track(*options.track, pack, usual, findings);
    findings.throw_if_errors();
    return run_batch(options, pack);
  }
  DebriefFile file;
  if (!options.debrief.empty()) {
    spdlog::info("debrief: {}", options.debrief);
    file = read_debrief(read_document(options.debrief), pack, findings);
  }
  add_options(options, pack, file.debrief, findings);
  refuse_contradictions(file.debrief.heard.facts, findings);
  const Kart kart = kart_for(options, file, pack, findings);
  findings.throw_if_errors();
  show_diagnostics(findings.all(), options.common.loudness >= 0);

  const std::vector<AskedWhyNot> asked = asked_why_not(options, pack, findings);
  findings.throw_if_errors();
  const System units = options.common.units.value_or(kart.units);
  const Advice advice = advise(pack, kart, file.debrief, units, depth_of(options));
  Beside beside;
  for (const AskedWhyNot& each : asked) answer(each, advice, pack, kart, beside.why_not);
  if (options.turns) beside.turning = turning(pack, kart, file.debrief, units);
  const std::string answer = options.common.format == Format::json
                                 ? advice_json(advice, pack, options.brief, beside)
                                 : advice_text(advice, pack, look_of_stdout(), options.why, beside);
  std::fwrite(answer.data(), 1, answer.size(), stdout);
  return kSuccess;
}

}  // namespace kartwright::cli
