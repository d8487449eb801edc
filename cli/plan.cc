// plan: the settings for each stage of the day.

#include <charconv>
#include <cstdio>

#include <fmt/format.h>

#include "cli/case_options.h"
#include "cli/commands.h"
#include "cli/diagnostics.h"
#include "cli/plan_json.h"
#include "cli/plan_text.h"
#include "cli/sheet/plan_sheet.h"
#include "engine/advice/day.h"
#include "engine/document/fields.h"

namespace kartwright::cli {
namespace {

/// A mistake in an option's value, from some column on.
Diagnostic in_option(const std::string& name, const std::string& value, std::size_t column,
                     std::size_t length) {
  return {.code = Code::bad_option,
          .file = name,
          .span = {.line = 1,
                   .column = static_cast<int>(column) + 1,
                   .length = static_cast<int>(length)},
          .source = value};
}

std::string trimmed(std::string text) {
  text.erase(0, text.find_first_not_of(' '));
  text.erase(text.find_last_not_of(' ') + 1);
  return text;
}

/// `2h`, `1.5 h` or `2`: above zero.
std::optional<double> hours_of(std::string text) {
  text = trimmed(text);
  if (text.ends_with("h")) text = trimmed(text.substr(0, text.size() - 1));
  const auto hours = bare_number(text);
  constexpr double kLongestDay = 24.0;
  return hours && *hours > 0.0 && *hours <= kLongestDay ? hours : std::nullopt;
}

const DayStage* stage_named(const std::string& id, const Pack& pack) {
  for (const DayStage& stage : pack.day) {
    if (stage.id == id) return &stage;
  }
  return nullptr;
}

/// One stage of the list, which stands at `column` of it.
void add_stage(const std::string& text, std::size_t column, const std::string& all,
               const Pack& pack, std::vector<StageOfDay>& stages, Findings& findings) {
  const std::size_t equals = std::min(text.find('='), text.size());
  const std::string id = trimmed(text.substr(0, equals));
  const DayStage* stage = stage_named(id, pack);
  Diagnostic wrong = in_option("--stages", all, column, text.size());
  if (stage == nullptr) {
    std::vector<std::string> known;
    for (const DayStage& each : pack.day) known.push_back(each.id);
    wrong.code = Code::unknown_name;
    wrong.message = "`" + id + "` is not a stage of the day";
    wrong.help = suggestion(id, known);
    findings.add(std::move(wrong));
    return;
  }
  std::optional<double> hours = 1.0;
  if (equals < text.size()) hours = hours_of(text.substr(equals + 1));
  if (!hours) {
    wrong.message = "`" + text.substr(equals + 1) + "` is no number of hours up to 24";
    wrong.help = "as `" + id + "=2h`";
    findings.add(std::move(wrong));
    return;
  }
  stages.push_back({stage, *hours});
}

std::vector<StageOfDay> stages_of(const std::string& all, const Pack& pack, Findings& findings) {
  std::vector<StageOfDay> stages;
  for (std::size_t from = 0; from <= all.size();) {
    const std::size_t end = std::min(all.find(',', from), all.size());
    add_stage(all.substr(from, end - from), from, all, pack, stages, findings);
    from = end + 1;
  }
  constexpr std::size_t kMostStages = 12;
  if (stages.size() > kMostStages) {
    Diagnostic wrong = in_option("--stages", all, 0, all.size());
    wrong.message = fmt::format("{} stages are more than a day has", stages.size());
    wrong.help = fmt::format("at most {}", kMostStages);
    findings.add(std::move(wrong));
  }
  return stages;
}

void refuse_a_jump(const std::string& all, const std::vector<StageOfDay>& stages, const Pack& pack,
                   Findings& findings) {
  std::size_t broken = 0;
  if (stages.empty() || leads_on(pack, stages, broken)) return;
  Diagnostic wrong = in_option("--stages", all, 0, all.size());
  wrong.message = "the track is not known to go from " + stages[broken - 1].stage->label + " to " +
                  stages[broken].stage->label;
  wrong.help = "`kartwright explain " + stages[broken - 1].stage->track + "` says what comes next";
  findings.add(std::move(wrong));
}

/// The stages that were asked for, or the day from the state of the track on. Settles that state.
std::vector<StageOfDay> stages_for(const std::string& asked, const Pack& pack, Debrief& debrief,
                                   Findings& findings) {
  std::vector<StageOfDay> stages;
  if (!asked.empty()) {
    stages = stages_of(asked, pack, findings);
    refuse_a_jump(asked, stages, pack, findings);
  } else if (debrief.track == "unknown") {
    for (const DayStage& stage : pack.day) stages.push_back({&stage});
  } else {
    stages = stages_from(pack, debrief.track);
  }
  if (findings.has_errors()) return stages;
  if (stages.empty()) {
    findings.add(
        {.code = Code::bad_option,
         .file = "--track",
         .message = "the rules do not know how a day goes on that starts `" + debrief.track + "`",
         .help = "`kartwright advise` answers for the track as it is"});
  } else if (debrief.track != "unknown" && debrief.track != stages.front().stage->track) {
    findings.add({.code = Code::bad_option,
                  .file = "--stages",
                  .message = "the first stage is " + stages.front().stage->label +
                             ", but the track is said to be " + debrief.track,
                  .help = "the first stage is the track as it is now"});
  } else {
    debrief.track = stages.front().stage->track;
  }
  return stages;
}

double number_of(const std::string& option, const std::string& text, double usual, double from,
                 double to, Findings& findings) {
  if (text.empty()) return usual;
  const auto number = bare_number(text);
  if (number && *number >= from && *number <= to) return *number;
  Diagnostic wrong = in_option(option, text, 0, text.size());
  wrong.message = fmt::format("`{}` is not a number from {:g} to {:g}", text, from, to);
  wrong.help = fmt::format("{:g} is usual", usual);
  findings.add(std::move(wrong));
  return usual;
}

DayAsked asked_of(const PlanOptions& options, const Debrief& debrief, Findings& findings) {
  constexpr double kMostMinutes = 600.0, kMostChanges = 3.0;
  DayAsked asked;
  asked.minutes =
      number_of("--minutes", options.minutes, debrief.minutes, 1.0, kMostMinutes, findings);
  asked.at_the_bench = debrief.heard.reports.empty();
  const double changes = number_of("--changes", options.changes, static_cast<double>(asked.changes),
                                   1.0, kMostChanges, findings);
  asked.changes = static_cast<std::size_t>(changes);
  if (static_cast<double>(asked.changes) != changes) {
    Diagnostic wrong = in_option("--changes", options.changes, 0, options.changes.size());
    wrong.message = "`" + options.changes + "` is not a whole number";
    wrong.help = "1, 2 or 3";
    findings.add(std::move(wrong));
  }
  return asked;
}

std::string day_in_format(Format format, const Day& day, const Debrief& debrief, const Pack& pack) {
  if (format == Format::json) return plan_json(day);
  if (format == Format::html) return plan_sheet(day, debrief, pack);
  return plan_text(day, debrief, pack, look_of_stdout());
}

}  // namespace

int run_plan(const PlanOptions& options) {
  const Common& common = options.given.common;
  const Pack pack = load_rules(common);
  Findings findings;
  GivenCase given = read_case(options.given, pack, findings);
  Debrief& debrief = given.file.debrief;
  const bool unsaid = debrief.track == "unknown";
  DayAsked asked = asked_of(options, debrief, findings);
  asked.stages = stages_for(options.stages, pack, debrief, findings);
  debrief.minutes = asked.minutes;
  findings.throw_if_errors();
  show_diagnostics(findings.all(), common.loudness >= 0);
  std::optional<History> history;
  if (!common.log.empty())
    history = history_in(Logbook(common.log, Logbook::For::reading), pack, given.kart);
  const System units = common.units.value_or(given.kart.units);
  Day day = plan_day(pack, given.kart, debrief, units, asked, history ? &*history : nullptr);
  if (unsaid && options.stages.empty())
    day.notes.push_back("no track state was given: the day is taken to start " +
                        asked.stages.front().stage->label);
  if (history && history->runs == 0) day.notes.emplace_back("the log has no run of this kart yet");
  if (debrief.hours != Debrief{}.hours)
    day.notes.emplace_back("hours left play no part: --stages says how the day goes");
  const std::string answer = day_in_format(common.format, day, debrief, pack);
  std::fwrite(answer.data(), 1, answer.size(), stdout);
  return kSuccess;
}

}  // namespace kartwright::cli
