// A lap file: read with and without its groups, compared, shown, written anew and read back.

#include <algorithm>
#include <cmath>
#include <sstream>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "cli/compare_json.h"
#include "cli/compare_text.h"
#include "engine/records/lap_comparison.h"
#include "tests/fuzz/oracle.h"

namespace kartwright::fuzz {
namespace {

constexpr const char* kLapFile = "laps.csv";
constexpr double kWorth = 0.1;

LapFile read_laps_of(const std::string& text, const LapsWanted& wanted, Findings& findings) {
  std::istringstream in(text);
  return read_lap_file(in, kLapFile, wanted, findings);
}

/// As many digits of a time as a lap file may have.
std::string written_time(double seconds) {
  constexpr std::size_t kLongest = 12;
  std::string text = fmt::format("{:.9f}", seconds).substr(0, kLongest);
  if (text.back() == '.') text.pop_back();
  return text;
}

std::string as_table(const LapFile& file) {
  std::string out = "lap,time,group\n";
  for (const FileLap& lap : file.laps) {
    std::string group;
    for (const char c : file.groups.at(lap.group)) group += c == '"' ? "\"\"" : std::string(1, c);
    out += fmt::format("{},{},\"{}\"\n", lap.number, written_time(lap.seconds), group);
  }
  return out;
}

void check_table(const LapFile& file) {
  for (const FileLap& lap : file.laps) {
    hold(std::isfinite(lap.seconds) && lap.seconds > 0, "a lap of no time");
    hold(lap.group < file.groups.size(), "a lap of no group");
  }
  const bool tiny = std::any_of(file.laps.begin(), file.laps.end(),
                                [](const FileLap& lap) { return lap.seconds < 1e-6; });
  const bool without_group = std::any_of(file.groups.begin(), file.groups.end(),
                                         [](const std::string& group) { return group.empty(); });
  if (tiny || without_group) return;  // a table with groups cannot say these
  Findings findings;
  const LapFile again = read_laps_of(as_table(file), {.needs_group = true}, findings);
  hold(!findings.has_errors() || file.laps.empty(), "a lap file cannot be read back");
  hold(again.laps.size() == file.laps.size() && again.groups == file.groups,
       "a lap file reads back as another one");
  for (std::size_t i = 0; i < file.laps.size(); ++i) {
    hold(again.laps[i].number == file.laps[i].number &&
             std::abs(again.laps[i].seconds - file.laps[i].seconds) <= 1e-6,
         "a lap reads back as another one");
  }
}

void check_fit(const ClockFit& fit) {
  for (const double number : {fit.start, fit.middle, fit.drift, fit.drift_error, fit.residual_sd})
    hold(std::isfinite(number), "a fit that is not finite");
  for (const SettingEffect& effect : fit.effects) {
    hold(std::isfinite(effect.seconds) && std::isfinite(effect.error), "an effect of no size");
    hold(effect.low <= effect.seconds && effect.seconds <= effect.high,
         "an effect outside its interval");
  }
}

void check_comparison(const LapComparison& compared) {
  check_fit(compared.clock.fit);
  if (compared.clock.fit_tame) check_fit(*compared.clock.fit_tame);
  for (const ClockJudgement& judged : compared.clock.judged)
    hold(judged.laps_needed >= 0, "fewer laps than none are needed");
  const std::string json = cli::compare_json(compared);
  hold(nlohmann::json::accept(json), "the comparison is no JSON");
  check_words(json, "the comparison in JSON");
  check_words(cli::compare_text(compared, {.width = 60}), "the comparison");
}

/// Nothing where the file is refused.
bool take_laps(std::string_view bytes, const LapsWanted& wanted) {
  Findings findings;
  try {
    const LapFile file = read_laps_of(std::string(bytes), wanted, findings);
    findings.throw_if_errors();
    check_found(findings.all(), bytes, kLapFile);
    if (!wanted.all_laps) check_table(file);
    const auto compared = compare_laps(file, kWorth, findings);
    if (compared) check_comparison(*compared);
    hold(compared || findings.has_errors(), "laps are not compared, and nobody says why");
    return true;
  } catch (const InputError& error) {
    check_refusal(error.found(), bytes, kLapFile);
    return false;
  }
}

}  // namespace

Fate fuzz_laps(std::string_view bytes) {
  const bool all = take_laps(bytes, {.all_laps = true});
  const bool in_groups = take_laps(bytes, {.needs_group = true});
  const bool of_one = take_laps(bytes, {.only_column = "kart", .only_value = "27"});
  return all || in_groups || of_one ? Fate::taken : Fate::refused;
}

}  // namespace kartwright::fuzz
