#include "cli/case_options.h"

#include <spdlog/spdlog.h>

#include "cli/commands.h"
#include "cli/page.h"

namespace kartwright::cli {
namespace {

void set_track(const std::string& track, const Pack& pack, Debrief& debrief, Findings& findings) {
  debrief.track = track;
  check_track(track, pack, findings);
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

}  // namespace

void add_options(const AdviseOptions& options, const Pack& pack, Debrief& debrief,
                 Findings& findings) {
  if (options.track) set_track(*options.track, pack, debrief, findings);
  for (const std::string& text : options.reports) {
    const auto report = parse_report(text, pack, at_option("--report", text), findings);
    if (report) debrief.heard.reports.push_back(*report);
  }
  for (const std::string& text : options.facts) {
    const auto fact = parse_fact(text, pack, at_option("--fact", text), findings);
    if (fact) debrief.heard.facts.push_back(*fact);
  }
  if (!options.laps.empty()) {
    const auto laps =
        make_fact("laps", options.laps, pack, at_option("--laps", options.laps), findings);
    if (laps) debrief.heard.facts.push_back(*laps);
  }
  if (options.minutes) debrief.minutes = *options.minutes;
  if (options.hours) debrief.hours = *options.hours;
  if (!options.said.empty()) add_words(debrief, options.said, pack);
  settle_reports(debrief.heard.reports);
}

WrittenAt at_option(const std::string& name, const std::string& value) {
  return {.file = name, .span = {.line = 1, .column = 1}, .source = value};
}

History history_in(const Logbook& log, const Pack& pack, const Kart& kart) {
  const RunParts what_was_said{.settings = false, .laps = false, .notes = false, .words = false};
  return learn(log.runs(kart.name, what_was_said), pack, kart);
}

GivenCase read_case(const AdviseOptions& options, const Pack& pack, Findings& findings) {
  DebriefFile file;
  if (!options.debrief.empty()) {
    spdlog::info("debrief: {}", options.debrief);
    file = read_debrief(read_document(options.debrief), pack, findings);
  }
  add_options(options, pack, file.debrief, findings);
  refuse_contradictions(file.debrief.heard.facts, findings);
  // What is wrong with the debrief is told before a kart is looked for that it may not mean.
  if (!options.debrief.empty()) findings.throw_if_errors();
  Kart kart = kart_for(options, file, pack, findings);
  kart.name = printable(kart.name);
  return {.kart = std::move(kart), .file = std::move(file)};
}

}  // namespace kartwright::cli
