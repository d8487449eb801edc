// weigh: four readings of the scales in, or one axle lifted; where the weight is, and which move
// would mend it.

#include <cstdio>

#include <fmt/format.h>
#include <spdlog/spdlog.h>

#include "cli/commands.h"
#include "cli/diagnostics.h"
#include "cli/sheet/weigh_sheet.h"
#include "cli/tell.h"
#include "cli/weigh_json.h"
#include "cli/weigh_text.h"
#include "engine/document/replace_file.h"
#include "engine/kart/save_corner_weights.h"

namespace kartwright::cli {
namespace {

[[noreturn]] void refuse_pack() {
  throw InputError(
      {Diagnostic{.code = Code::bad_rule,
                  .file = "weigh",
                  .message = "the rules lack a measure or a dimension that weighing asks for",
                  .help = "keep the built-in `measures` and `dimensions`; --rules adds to them"}});
}

/// The kart, and its file where it has one.
struct WeighedKart {
  std::optional<Document> file;
  Kart kart;
};

WeighedKart weighed_kart(const WeighOptions& options, const Pack& pack, Findings& findings) {
  if (options.kart.empty()) return {{}, typical_kart(pack)};
  spdlog::info("kart: {}", options.kart);
  Document file = read_document(options.kart);
  Kart kart = read_kart(file, pack, findings);
  return {std::move(file), std::move(kart)};
}

/// Into the kart file; says on stderr where the old one is kept.
int save(const Document& file, const Weighing& read, const Common& common) {
  const auto text = with_corner_weights(file, read.on, read.written);
  if (!text) {
    throw InputError({Diagnostic{
        .code = Code::wrong_shape,
        .file = file.name,
        .message = "the readings cannot be put into this file without changing more of it",
        .help = "put `measured: {corner-weights: ...}` into it by hand; `kartwright start` shows "
                "how"}});
  }
  try {
    const std::string kept = replace_file(file.name, file.text, *text, "before-weighing");
    if (common.loudness >= 0) {
      tell("kartwright: readings saved in {}; the file before it is {}\n", printable(file.name),
           printable(kept));
    }
    return kSuccess;
  } catch (const FileError& error) {
    tell("kartwright: not saved: {}\n", printable(error.what()));
    return error.kind() == FileError::What::cannot_create ? kCannotCreate : kInputOutput;
  }
}

[[noreturn]] void refuse_nothing_new() {
  throw InputError(
      {Diagnostic{.code = Code::bad_option,
                  .file = "--save",
                  .message = "there is no new reading to save",
                  .help = "the kart file has these four already; give --lf, --rf, --lr "
                          "and --rr"}});
}

struct WeighAnswered {
  std::string text;
  std::optional<Weighing> four;
};

std::optional<KartOutline> weighed_outline(const Kart& kart, const Pack& pack) {
  const std::optional<KnownKart> known = known_kart(kart, pack);
  if (!known) return std::nullopt;
  return outline_of(known->kart, known->front_tyre_width, known->rear_tyre_width);
}

WeighAnswered lifted(const WeighOptions& options, const Kart& kart, const Pack& pack,
                     Findings& findings) {
  const LiftedWeighing read = read_lift(options.lift, kart, pack, findings);
  findings.throw_if_errors();
  const System units = options.common.units.value_or(read.written);
  const HeightAnswer answer = lifted_height(kart, read, pack, units);
  switch (options.common.format) {
    case Format::json:
      return {height_json(answer), {}};
    case Format::html:
      return {height_sheet(answer), {}};
    default:
      return {height_text(answer, look_of_stdout()), {}};
  }
}

WeighAnswered on_four(const WeighOptions& options, const Kart& kart, const Pack& pack,
                      Findings& findings) {
  const Weighing read = read_weighing(options.four, kart, pack, findings);
  findings.throw_if_errors();
  const System units = options.common.units.value_or(read.written);
  const std::optional<WeighingAnswer> answer = weigh(kart, read, pack, units);
  if (!answer) refuse_pack();
  switch (options.common.format) {
    case Format::json:
      return {weigh_json(*answer), read};
    case Format::html:
      return {weigh_sheet(*answer, weighed_outline(kart, pack)), read};
    default:
      return {weigh_text(*answer, look_of_stdout()), read};
  }
}

}  // namespace

int run_weigh(const WeighOptions& options) {
  const Pack pack = load_rules(options.common);
  Findings findings;
  const auto [file, kart] = weighed_kart(options, pack, findings);
  findings.throw_if_errors();
  const WeighAnswered answered = options.lifted ? lifted(options, kart, pack, findings)
                                                : on_four(options, kart, pack, findings);
  if (options.save && answered.four && answered.four->from_kart_file) refuse_nothing_new();
  show_diagnostics(findings.all(), options.common.loudness >= 0);
  std::fwrite(answered.text.data(), 1, answered.text.size(), stdout);
  if (!options.save || !file || !answered.four) return kSuccess;
  return save(*file, *answered.four, options.common);
}

}  // namespace kartwright::cli
