// whatif: a change is made on paper, and the loads of the wheels answer.

#include "engine/advice/whatif.h"

#include <algorithm>
#include <cstdio>

#include "cli/case_options.h"
#include "cli/commands.h"
#include "cli/diagnostics.h"
#include "cli/sheet/whatif_sheet.h"
#include "cli/whatif_json.h"
#include "cli/whatif_text.h"

namespace kartwright::cli {
namespace {

[[noreturn]] void refuse_rules() {
  throw InputError(
      {Diagnostic{.code = Code::bad_rule,
                  .file = "--rules",
                  .message = "these rules do not say what to assume of a kart's sizes",
                  .help = "every dimension that the physics asks for needs `assumed`"}});
}

bool set_already(const std::vector<PaperChange>& changes, const std::string& id) {
  return std::any_of(changes.begin(), changes.end(),
                     [&](const PaperChange& change) { return change.id == id; });
}

}  // namespace

int run_whatif(const WhatIfOptions& options) {
  const Pack pack = load_rules(options.common);
  Findings findings;
  check_track(options.track, pack, findings);
  const Kart kart = load_kart(options.kart, pack, findings);
  std::vector<PaperChange> changes;
  for (const std::string& text : options.sets) {
    auto change = parse_paper_change(text, kart, pack, at_option("--set", text), findings);
    if (change && set_already(changes, change->id)) {
      findings.add({.code = Code::bad_option,
                    .file = "--set",
                    .span = {.line = 1, .column = 1},
                    .message = "`" + change->id + "` is set twice",
                    .help = "once is enough",
                    .source = text});
    } else if (change) {
      changes.push_back(std::move(*change));
    }
  }
  std::vector<PaperChange> places;
  if (!options.sweep.empty())
    places = parse_sweep(options.sweep, kart, pack, at_option("--sweep", options.sweep), findings);
  findings.throw_if_errors();
  show_diagnostics(findings.all(), options.common.loudness >= 0);

  const System units = options.common.units.value_or(kart.units);
  const bool json = options.common.format == Format::json;
  const bool html = options.common.format == Format::html;
  std::string answer;
  if (places.empty()) {
    const std::optional<WhatIf> what = whatif(kart, pack, options.track, changes, units);
    if (!what) refuse_rules();
    answer = json   ? whatif_json(*what, kart, pack, units)
             : html ? whatif_sheet(*what, kart, pack, units)
                    : whatif_text(*what, kart, pack, units, look_of_stdout());
  } else {
    const std::vector<Sweep> sweeps = sweep(kart, pack, options.track, changes, places);
    if (sweeps.empty()) refuse_rules();
    answer = json   ? sweep_json(sweeps, kart, units)
             : html ? sweep_sheet(sweeps, kart, pack, units)
                    : sweep_text(sweeps, kart, pack, units, look_of_stdout());
  }
  std::fwrite(answer.data(), 1, answer.size(), stdout);
  return kSuccess;
}

}  // namespace kartwright::cli
