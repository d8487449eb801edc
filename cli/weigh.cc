// weigh: four readings of the scales in, or one axle lifted; where the weight is, and which move
// would mend it.

#include <cstdio>

#include <spdlog/spdlog.h>

#include "cli/commands.h"
#include "cli/diagnostics.h"
#include "cli/weigh_json.h"
#include "cli/weigh_text.h"

namespace kartwright::cli {
namespace {

[[noreturn]] void refuse_pack() {
  throw InputError(
      {Diagnostic{.code = Code::bad_rule,
                  .file = "weigh",
                  .message = "the rules lack a measure or a dimension that weighing asks for",
                  .help = "keep the built-in `measures` and `dimensions`; --rules adds to them"}});
}

Kart weighed_kart(const WeighOptions& options, const Pack& pack, Findings& findings) {
  if (options.kart.empty()) return typical_kart(pack);
  spdlog::info("kart: {}", options.kart);
  return read_kart(read_document(options.kart), pack, findings);
}

std::string lifted(const WeighOptions& options, const Kart& kart, const Pack& pack,
                   Findings& findings) {
  const LiftedWeighing read = read_lift(options.lift, kart, pack, findings);
  findings.throw_if_errors();
  const System units = options.common.units.value_or(read.written);
  const HeightAnswer answer = lifted_height(kart, read, pack, units);
  return options.common.format == Format::json ? height_json(answer)
                                               : height_text(answer, look_of_stdout());
}

std::string on_four(const WeighOptions& options, const Kart& kart, const Pack& pack,
                    Findings& findings) {
  const Weighing read = read_weighing(options.four, kart, pack, findings);
  findings.throw_if_errors();
  const System units = options.common.units.value_or(read.written);
  const std::optional<WeighingAnswer> answer = weigh(kart, read, pack, units);
  if (!answer) refuse_pack();
  return options.common.format == Format::json ? weigh_json(*answer)
                                               : weigh_text(*answer, look_of_stdout());
}

}  // namespace

int run_weigh(const WeighOptions& options) {
  const Pack pack = load_rules(options.common);
  Findings findings;
  const Kart kart = weighed_kart(options, pack, findings);
  const std::string answer = options.lifted ? lifted(options, kart, pack, findings)
                                            : on_four(options, kart, pack, findings);
  show_diagnostics(findings.all(), options.common.loudness >= 0);
  std::fwrite(answer.data(), 1, answer.size(), stdout);
  return kSuccess;
}

}  // namespace kartwright::cli
