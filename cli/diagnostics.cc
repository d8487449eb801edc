#include "cli/diagnostics.h"

#include <algorithm>
#include <cstdio>

#include <fmt/format.h>

#include "cli/arguments.h"
#include "cli/page.h"

namespace kartwright::cli {

std::string render(const Diagnostic& diagnostic) {
  const bool error = diagnostic.severity == Severity::error;
  std::string out = printable(diagnostic.file);
  if (diagnostic.span.line > 0) {
    out += fmt::format(":{}:{}", diagnostic.span.line, diagnostic.span.column);
  }
  out += fmt::format("{}{}[{}]: {}\n", out.empty() ? "" : ": ", error ? "error" : "warning",
                     code_name(diagnostic.code), printable(diagnostic.message));
  if (!diagnostic.source.empty()) {
    out += fmt::format(
        "  {}\n  {}{}\n", printable(diagnostic.source),
        std::string(static_cast<std::size_t>(std::max(0, diagnostic.span.column - 1)), ' '),
        std::string(static_cast<std::size_t>(std::max(1, diagnostic.span.length)), '^'));
  }
  if (!diagnostic.help.empty()) out += "help: " + printable(diagnostic.help) + "\n";
  return out;
}

void show_diagnostics(const std::vector<Diagnostic>& found, bool warnings) {
  for (const Diagnostic& diagnostic : found) {
    if (diagnostic.severity == Severity::warning && !warnings) continue;
    fmt::print(stderr, "{}", render(diagnostic));
  }
}

int exit_code_for(const std::vector<Diagnostic>& found) {
  const auto any = [&](auto test) { return std::any_of(found.begin(), found.end(), test); };
  if (any([](const Diagnostic& d) { return d.code == Code::cannot_read; })) return kNoInput;
  if (any([](const Diagnostic& d) { return d.file.starts_with("--") || d.file == "explain"; })) {
    return kUsage;
  }
  return kBadData;
}

}  // namespace kartwright::cli
