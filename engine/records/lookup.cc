#include "engine/records/lookup.h"

#include <algorithm>

#include <fmt/format.h>

#include "engine/document/diagnostic.h"

namespace kartwright {

namespace {

[[noreturn]] void refuse_name(const Logbook& log, const std::string& message,
                              const std::string& help) {
  throw InputError({Diagnostic{
      .code = Code::no_such_run, .file = log.path(), .message = message, .help = help}});
}

}  // namespace

Run run_numbered(const Logbook& log, const std::string& number) {
  const std::size_t from = std::min(number.find_first_not_of(' '), number.size());
  const std::string digits = number.substr(from);
  const bool whole = !digits.empty() && digits.size() < 19 &&
                     digits.find_first_not_of("0123456789") == std::string::npos;
  const std::optional<Run> run = whole ? log.run(std::stoll(digits)) : std::nullopt;
  if (run) return *run;
  refuse_name(log, "the log has no run `" + digits + "`",
              "`kartwright log list` has their numbers");
}

std::string kart_in_log(const std::string& name, const Logbook& log) {
  const std::vector<std::string> karts = log.karts();
  if (name.empty() && karts.size() == 1) return karts.front();
  if (std::find(karts.begin(), karts.end(), name) != karts.end()) return name;
  if (karts.empty()) refuse_name(log, "the log is empty", "`kartwright log add` puts runs into it");
  const std::string all = fmt::format("it has {}", fmt::join(karts, ", "));
  refuse_name(log,
              name.empty() ? "the log has several karts" : "the log has no kart `" + name + "`",
              name.empty() ? "say which with --kart; " + all : all);
}

}  // namespace kartwright
