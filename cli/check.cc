// check: a measurement goes in, a verdict comes out; without one, how to measure.

#include <cstdio>

#include <fmt/format.h>
#include <spdlog/spdlog.h>

#include "cli/check_json.h"
#include "cli/check_text.h"
#include "cli/commands.h"
#include "cli/diagnostics.h"
#include "engine/advice/gauge_check.h"

namespace kartwright::cli {
namespace {

/// Options of the command itself, which a misspelt one may have meant.
const std::vector<std::string>& own_options() {
  static const std::vector<std::string> kOwn{"kart",  "format",  "units",
                                             "rules", "verbose", "quiet"};
  return kOwn;
}

[[noreturn]] void refuse_check(std::string message, std::string help) {
  throw InputError({Diagnostic{.code = Code::bad_option,
                               .file = "check",
                               .message = std::move(message),
                               .help = std::move(help)}});
}

/// Readings without the name of their check: the checks that take them.
[[noreturn]] void refuse_nameless(const CheckOptions& options, const Pack& pack) {
  std::vector<std::string> near;
  for (const Gauge& gauge : pack.gauges) {
    const std::string& option = options.readings.front().first;
    if (gauge.reading(option) == nullptr && gauge.choice(option) == nullptr) continue;
    near.push_back("`check " + gauge.id + "`");
  }
  refuse_check(
      fmt::format("`--{}` is given, but no check is named", options.readings.front().first),
      near.empty() ? "`kartwright check` lists them"
                   : fmt::format("did you mean {}?", fmt::join(near, " or ")));
}

/// The checks that the words name one after the other, each by as many words as it takes; empty
/// where a word is left over.
std::vector<std::string> checks_in(const std::vector<std::string>& words, const Pack& pack) {
  std::vector<std::string> out;
  for (std::size_t at = 0; at < words.size();) {
    std::size_t end = words.size();
    const auto name = [&] {
      return fmt::format("{}", fmt::join(words.begin() + static_cast<std::ptrdiff_t>(at),
                                         words.begin() + static_cast<std::ptrdiff_t>(end), "-"));
    };
    while (end > at && pack.gauge(name()) == nullptr) --end;
    if (end == at) return {};
    out.push_back(name());
    at = end;
  }
  return out;
}

const Gauge& chosen_gauge(const CheckOptions& options, const Pack& pack) {
  const std::string word = fmt::format("{}", fmt::join(options.what, "-"));
  if (const Gauge* gauge = pack.gauge(word)) return *gauge;
  if (const auto several = checks_in(options.what, pack); !several.empty()) {
    refuse_check(fmt::format("`{}` are checks of their own", fmt::join(several, "` and `")),
                 fmt::format("one check is asked at a time: `kartwright check {}`",
                             fmt::join(several, "`, then `kartwright check ")));
  }
  std::vector<std::string> known;
  for (const Gauge& gauge : pack.gauges) known.push_back(gauge.id);
  const std::string near = nearest_name(word, known);
  refuse_check("`" + word + "` is not a check",
               near.empty() ? fmt::format("one of {}", fmt::join(known, ", "))
                            : "did you mean `" + near + "`?");
}

std::optional<Kart> kart_of(const CheckOptions& options, const Pack& pack) {
  if (options.kart.empty()) return std::nullopt;
  spdlog::info("kart: {}", options.kart);
  Findings findings;
  Kart kart = read_kart(read_document(options.kart), pack, findings);
  findings.throw_if_errors();
  show_diagnostics(findings.all(), options.common.loudness >= 0);
  return kart;
}

std::string verdict_on(const Gauge& gauge, const CheckOptions& options, const Pack& pack) {
  const GaugeReadings given = read_gauge_readings(gauge, options.readings, own_options());
  const std::optional<Kart> kart = kart_of(options, pack);
  const GaugeCheck check = check_gauge(gauge, given, pack, kart ? &*kart : nullptr);
  if (options.common.format == Format::json) return gauge_check_json(check);
  const System written = given.written.value_or(kart ? kart->units : System::metric);
  return gauge_check_text(check, pack, options.common.units.value_or(written), look_of_stdout());
}

}  // namespace

int run_check(const CheckOptions& options) {
  const Pack pack = load_rules(options.common);
  const bool json = options.common.format == Format::json;
  std::string answer;
  if (options.what.empty()) {
    if (!options.readings.empty()) refuse_nameless(options, pack);
    answer = json ? gauge_list_json(pack) : gauge_list_text(pack, look_of_stdout());
  } else {
    const Gauge& gauge = chosen_gauge(options, pack);
    const System units = options.common.units.value_or(System::metric);
    if (!options.readings.empty()) {
      answer = verdict_on(gauge, options, pack);
    } else {
      answer =
          json ? gauge_how_json(gauge, pack) : gauge_how_text(gauge, pack, units, look_of_stdout());
    }
  }
  std::fwrite(answer.data(), 1, answer.size(), stdout);
  return kSuccess;
}

}  // namespace kartwright::cli
