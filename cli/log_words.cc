#include "cli/log_words.h"

#include <algorithm>
#include <chrono>
#include <ctime>
#include <filesystem>

#include <fmt/chrono.h>
#include <fmt/format.h>

#include "cli/commands.h"
#include "cli/lap_options.h"
#include "cli/page.h"
#include "engine/debrief/debrief_file.h"
#include "engine/debrief/report_grammar.h"
#include "engine/document/fields.h"
#include "engine/records/lap_flags.h"
#include "engine/records/lap_time.h"

namespace kartwright::cli {
namespace {

/// A part of an option's value that cannot be used.
void refuse_part(const std::string& option, const std::string& value, std::size_t at,
                 std::size_t length, Code code, const std::string& message, const std::string& help,
                 Findings& findings) {
  findings.add({.code = code,
                .file = option,
                .span = {.line = 1,
                         .column = static_cast<int>(columns(value.substr(0, at))) + 1,
                         .length = std::max(1, static_cast<int>(length))},
                .message = message,
                .help = help,
                .source = value});
}

/// `3=traffic`, `1=counts`, several parted by commas.
void flag_by_crew(const std::vector<std::string>& flags, std::vector<RunLap>& laps,
                  Findings& findings) {
  for (const std::string& text : flags) {
    for (const std::string& each : parts_of_list(text)) {
      const std::size_t equals = each.find('=');
      const auto number = bare_number(each.substr(0, equals));
      const auto flag =
          equals == std::string::npos ? std::nullopt : lap_flag_named(each.substr(equals + 1));
      const auto lap = std::find_if(laps.begin(), laps.end(), [&](const RunLap& lap_of_run) {
        return number && lap_of_run.number == *number;
      });
      if (flag && lap != laps.end()) {
        lap->flag = *flag;
        lap->by_crew = true;
        continue;
      }
      refuse_part("--flag", text, 0, text.size(), Code::bad_option,
                  flag ? "the run has no lap `" + each.substr(0, equals) + "`"
                       : "`" + each + "` does not say which lap is what",
                  "LAP=out, in, traffic or counts, as `3=traffic`", findings);
    }
  }
}

std::vector<RunLap> laps_of_file(const LogOptions& options, Findings& findings) {
  LapsWanted wanted = laps_wanted(options.only, options.columns, false, findings);
  wanted.all_laps = true;
  const LapFile file = read_laps(options.csv, wanted, findings);
  std::vector<RunLap> laps;
  for (const FileLap& lap : file.laps) {
    laps.push_back({.number = static_cast<int>(laps.size()) + 1, .seconds = lap.seconds});
  }
  return laps;
}

void read_laps_of_run(const LogOptions& options, const Pack& pack, Run& run, Findings& findings) {
  run.laps = options.csv.empty() ? read_lap_words(options.laps, findings)
                                 : laps_of_file(options, findings);
  flag_by_crew(options.flags, run.laps, findings);
  flag_laps(run.laps, slow_share(options.slow, pack, findings));
}

/// Reports, facts and words, as `advise` takes them.
void read_debrief_of_run(const LogOptions& options, const Pack& pack, Run& run,
                         std::vector<NotUnderstood>& not_understood, Findings& findings) {
  Debrief debrief;
  for (const std::string& text : options.reports) {
    const auto report = parse_report(text, pack, {.file = "--report", .source = text}, findings);
    if (report) debrief.heard.reports.push_back(*report);
  }
  for (const std::string& text : options.facts) {
    const auto fact = parse_fact(text, pack, {.file = "--fact", .source = text}, findings);
    if (fact) debrief.heard.facts.push_back(*fact);
  }
  if (!options.said.empty()) add_words(debrief, printable(options.said), pack);
  settle_reports(debrief.heard.reports);
  run.reports = debrief.heard.reports;
  run.facts = debrief.heard.facts;
  not_understood = debrief.heard.not_understood;
}

std::optional<int> laps_on_tyres(const std::string& text, Findings& findings) {
  if (text.empty()) return {};
  constexpr double kMost = 100'000.0;
  const auto laps = bare_number(text);
  if (laps && *laps >= 0.0 && *laps <= kMost && *laps == static_cast<int>(*laps))
    return static_cast<int>(*laps);
  refuse_part("--tyre-laps", text, 0, text.size(), Code::bad_option,
              "`" + text + "` is no number of laps", "a whole number", findings);
  return {};
}

}  // namespace

double slow_share(const std::string& text, const Pack& pack, Findings& findings) {
  constexpr double kNone = 1e9;
  const double usual = pack.learning.slow_lap > 0.0 ? pack.learning.slow_lap : kNone;
  if (text.empty()) return usual;
  const ParsedQuantity parsed = parse_quantity(text, Kind::ratio);
  const auto* const share = std::get_if<Quantity>(&parsed);
  if (share != nullptr && share->si > 0.0 && share->si <= 1.0) return share->si;
  refuse_part("--flag-over", text, 0, text.size(), Code::bad_option,
              "`" + text + "` is no share of a lap", "above 0 and up to 100 %, as `3%`", findings);
  return usual;
}

namespace {

/// What is between two lap times: blanks and semicolons; commas too, where blanks or points say
/// that they are no decimal ones.
std::string with_blanks_between(std::string text) {
  for (char& c : text) {
    if (c == ';' || c == '\t' || c == '\n') c = ' ';
  }
  const bool points = text.find('.') != std::string::npos;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] != ',') continue;
    const bool last = i + 1 == text.size() || text[i + 1] == ' ';
    const std::size_t from = text.find_last_of(' ', i) + 1;
    const std::size_t to = std::min(text.find(' ', i), text.size());
    const std::string word = text.substr(from, to - from);
    const bool parts =
        word.find('.') != std::string::npos || std::count(word.begin(), word.end(), ',') > 1;
    if (last || (points && parts)) text[i] = ' ';
  }
  return text;
}

/// A lap of a kart takes some seconds and not an hour.
bool is_a_lap(double seconds) {
  constexpr double kShortest = 5.0;
  constexpr double kLongest = 1200.0;
  return seconds >= kShortest && seconds <= kLongest;
}

}  // namespace

std::vector<RunLap> read_lap_words(std::string_view text, Findings& findings) {
  std::vector<RunLap> laps;
  const std::string whole(text);
  const std::string parted = with_blanks_between(whole);
  std::size_t at = 0;
  while ((at = parted.find_first_not_of(' ', at)) != std::string::npos) {
    const std::size_t end = std::min(parted.find(' ', at), parted.size());
    std::string word = parted.substr(at, end - at);
    const auto seconds =
        parse_lap_time(word.ends_with('s') ? word.substr(0, word.size() - 1) : word);
    if (seconds && is_a_lap(*seconds)) {
      laps.push_back({.number = static_cast<int>(laps.size()) + 1, .seconds = *seconds});
    } else {
      refuse_part("--laps", whole, at, word.size(), Code::bad_lap,
                  "`" + word + (seconds ? "` is no lap of a kart" : "` is no lap time"),
                  "from 5 seconds to 20 minutes, as `31.42` or `1:02.417`, laps parted by blanks",
                  findings);
    }
    at = end;
  }
  return laps;
}

std::optional<double> read_temperature(const std::string& option, const std::string& text,
                                       Findings& findings) {
  if (text.empty()) return {};
  constexpr double kColdest = -30.0;
  constexpr double kHottest = 80.0;
  std::string digits = text;
  while (!digits.empty() && std::string_view(" \xC2\xB0").find(digits.back()) != std::string::npos)
    digits.pop_back();
  const char unit = digits.empty() ? ' ' : digits.back();
  if (!digits.empty()) digits.pop_back();
  while (!digits.empty() && std::string_view(" \xC2\xB0").find(digits.back()) != std::string::npos)
    digits.pop_back();
  std::replace(digits.begin(), digits.end(), ',', '.');
  const auto number = bare_number(digits);
  const bool celsius = unit == 'C' || unit == 'c';
  if (number && (celsius || unit == 'F' || unit == 'f')) {
    const double degrees = celsius ? *number : (*number - 32.0) / 1.8;
    if (degrees >= kColdest && degrees <= kHottest) return degrees;
  }
  refuse_part(option, text, 0, text.size(), Code::bad_quantity,
              "`" + text + "` is no temperature of a day",
              "a number and its unit, from -30 °C to 80 °C, as `12 C` or `54 F`", findings);
  return {};
}

Run run_of(const LogOptions& options, const Pack& pack, std::vector<NotUnderstood>& not_understood,
           Findings& findings) {
  Run run;
  run.at = moment_of(options.at, findings);
  run.session = printable(options.session);
  run.track = options.track;
  if (!run.track.empty()) check_track(run.track, pack, findings);
  run.air = read_temperature("--air", options.air, findings);
  run.road = read_temperature("--road", options.road, findings);
  run.tyres = printable(options.tyres);
  run.tyre_laps = laps_on_tyres(options.tyre_laps, findings);
  run.driver = printable(options.driver);
  run.load = printable(options.load);
  run.complete = options.complete;
  run.said = printable(options.said);
  for (const std::string& note : options.notes) {
    if (!note.empty()) run.notes.push_back({printable(note)});
  }
  read_laps_of_run(options, pack, run, findings);
  read_debrief_of_run(options, pack, run, not_understood, findings);
  return run;
}

std::string kart_named(const std::string& word, const Pack& pack) {
  std::error_code ignored;
  if (word.empty() || !std::filesystem::is_regular_file(word, ignored)) return printable(word);
  Findings findings;
  const Kart kart = load_kart(word, pack, findings);
  findings.throw_if_errors();
  return printable(kart.name);
}

std::string moment_now() {
  const std::time_t now = std::chrono::system_clock::to_time_t(std::chrono::system_clock::now());
  return fmt::format("{:%Y-%m-%dT%H:%M:%S}", fmt::localtime(now));
}

std::string moment_of(const std::string& at, Findings& findings) {
  if (at.empty()) return moment_now();
  const auto moment = parse_moment(at);
  if (!moment) {
    refuse_part("--at", at, 0, at.size(), Code::bad_option, "`" + at + "` is no date and time",
                "when it was driven, as `2026-11-14 10:30`", findings);
    return {};
  }
  constexpr int kADay = 86'400;  // clocks of laptops differ, and so do time zones
  if (*moment > later(moment_now(), kADay)) {
    findings.add({.code = Code::bad_option,
                  .severity = Severity::warning,
                  .file = "--at",
                  .span = {.line = 1, .column = 1, .length = static_cast<int>(at.size())},
                  .message = "`" + at + "` is still to come by this machine's clock",
                  .help = "a run in the wrong year stands before or behind all others",
                  .source = at});
  }
  return *moment;
}

}  // namespace kartwright::cli
