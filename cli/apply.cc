// apply: a chosen change into the kart file, and the next run opened in the log.

#include "engine/records/apply.h"

#include <algorithm>
#include <cstdio>

#include <fmt/format.h>
#include <nlohmann/json.hpp>
#include <spdlog/spdlog.h>

#include "cli/apply_text.h"
#include "cli/commands.h"
#include "cli/diagnostics.h"
#include "cli/log_words.h"
#include "cli/run_json.h"
#include "cli/tell.h"
#include "engine/decision/options.h"
#include "engine/document/fields.h"
#include "engine/document/replace_file.h"
#include "engine/kart/change_setting.h"
#include "engine/records/keeping.h"

namespace kartwright::cli {
namespace {

[[noreturn]] void refuse_change(const std::string& message, const std::string& help) {
  throw InputError({Diagnostic{
      .code = Code::no_such_change, .file = "--change", .message = message, .help = help}});
}

/// A change with everything that will be told and written of it.
struct Chosen {
  RunChange change;
  AllowedChange allowed;
  std::optional<Run> tried = {};
  std::optional<MadeChange> made = {};  ///< where the kart file has it already
};

WrittenAt set_option(const std::string& text) { return {.file = "--set", .source = text}; }

RunChange change_of(const AllowedChange& allowed, const ApplyOptions& options, System units) {
  const Setting& setting = *allowed.setting;
  return {.adjustment = setting.adjustment->id,
          .from = print_setting(setting, setting.now, units),
          .to = print_setting(setting, allowed.to, units),
          .steps = steps_between(setting, setting.now, allowed.to),
          .asked_by = printable(options.asked_by),
          .why = printable(options.why)};
}

/// The change of a rank in an advice that the log remembers.
Chosen by_rank(const ApplyOptions& options, const Kart& kart, const Pack& pack, Logbook& log,
               Findings& findings) {
  const std::optional<std::string> advice = log.last_advice(kart.name);
  if (!advice)
    refuse_change("the log remembers no advice for this kart", "`kartwright advise --log` first");
  const nlohmann::json json = nlohmann::json::parse(*advice, nullptr, false);
  const auto rank = bare_number(options.change);
  const auto changes =
      json.is_object() ? json.value("changes", nlohmann::json::array()) : nlohmann::json::array();
  const auto found = std::find_if(changes.begin(), changes.end(), [&](const auto& each) {
    return rank && each.value("rank", 0) == *rank;
  });
  if (found == changes.end()) {
    refuse_change(fmt::format("the last advice has no change of rank `{}`", options.change),
                  fmt::format("it ranks {}; or name the change with --set", changes.size()));
  }
  const std::string text = found->value("adjustment", "") + "=" + found->value("to", "");
  const auto allowed = allowed_change(text, kart, pack, set_option(text), findings);
  findings.throw_if_errors();
  Chosen chosen{.change = change_of(*allowed, options, kart.units), .allowed = *allowed};
  if (chosen.change.from != found->value("from", "")) {
    refuse_change(
        fmt::format("the advice was for {} at {}, and the kart file has {}",
                    chosen.change.adjustment, found->value("from", ""), chosen.change.from),
        "ask again with `kartwright advise --log`");
  }
  chosen.change.origin = Origin::advice;
  chosen.change.rank = static_cast<int>(*rank);
  chosen.change.relief = found->value("relief", 0.0);
  chosen.change.advice = *advice;
  return chosen;
}

Chosen chosen_change(const ApplyOptions& options, const Document& file, const Kart& kart,
                     const Pack& pack, Logbook* log, Findings& findings) {
  if (options.undo) {
    const WayBack back = log != nullptr ? way_back(*log, kart) : way_back(file, kart, pack);
    Chosen chosen{back.change, {back.setting, back.to}, back.tried};
    chosen.change.asked_by = printable(options.asked_by);
    return chosen;
  }
  if (!options.change.empty()) return by_rank(options, kart, pack, *log, findings);
  const auto allowed = allowed_change(options.set, kart, pack, set_option(options.set), findings);
  findings.throw_if_errors();
  return {change_of(*allowed, options, kart.units), *allowed};
}

/// The log that a change is looked up in; nothing where none has to be.
std::unique_ptr<Logbook> log_to_look_in(const ApplyOptions& options) {
  const bool looks = options.undo || !options.change.empty();
  if (options.common.log.empty() || !looks) return {};
  return std::make_unique<Logbook>(options.common.log, Logbook::For::writing);
}

/// The log that a change is kept in, which is made where it is not there yet.
std::unique_ptr<Logbook> log_to_keep_in(const ApplyOptions& options) {
  if (options.common.log.empty() || options.dry_run) return {};
  return std::make_unique<Logbook>(options.common.log, Logbook::For::keeping);
}

/// The change that is asked for, where an earlier command made it in the kart file and was ended
/// before the log had it; nothing where it is not so.
std::optional<Chosen> half_made(const ApplyOptions& options, const Document& file, const Kart& kart,
                                const Pack& pack, std::unique_ptr<Logbook>& log) {
  if (options.common.log.empty() || options.dry_run) return {};
  try {
    std::optional<MadeChange> made = made_since_copy(file, kart, pack, options.undo);
    if (!made) return {};
    const std::string adjustment = made->change.adjustment;
    Kart was = kart;
    Setting& moved = was.settings.at(adjustment);
    const double now = moved.now;
    moved.now = setting_value(moved, made->change.from).value_or(now);
    Findings not_told;
    if (log == nullptr) log = log_to_keep_in(options);
    if (!is_unrecorded(*log, kart, made->change)) return {};
    Chosen chosen = chosen_change(options, file, was, pack, log.get(), not_told);
    if (chosen.change.adjustment != adjustment || steps_between(moved, chosen.allowed.to, now) != 0)
      return {};
    chosen.allowed.setting = kart.setting(adjustment);
    chosen.change.from = made->change.from;
    chosen.change.to = made->change.to;
    made->change = chosen.change;
    chosen.made = std::move(made);
    return chosen;
  } catch (const InputError&) {
    return {};  // whoever asks for the change as it is now is told why not
  }
}

/// What the kart file gives rise to that it did not before: a pressure of all tyres, say, that one
/// end no longer has.
void tell_new_warnings(const Findings& before, const Document& file, const std::string& text,
                       const Pack& pack, const ApplyOptions& options) {
  Findings after;
  read_kart(parse_document(file.name, text), pack, after);
  std::vector<Diagnostic> fresh;
  for (const Diagnostic& each : after.all()) {
    const bool known = std::any_of(before.all().begin(), before.all().end(), [&](const auto& old) {
      return old.code == each.code && old.message == each.message;
    });
    if (!known) fresh.push_back(each);
  }
  show_diagnostics(fresh, options.common.loudness >= 0);
}

}  // namespace

int run_apply(const ApplyOptions& options) {
  const Pack pack = load_rules(options.common);
  Findings findings;
  const Document file = read_document(options.kart);
  Kart kart = read_kart(file, pack, findings);
  kart.name = printable(kart.name);
  const std::string now = moment_of(options.at, findings);
  findings.throw_if_errors();
  std::unique_ptr<Logbook> log = log_to_look_in(options);
  std::optional<Chosen> half = half_made(options, file, kart, pack, log);
  Chosen chosen =
      half ? std::move(*half) : chosen_change(options, file, kart, pack, log.get(), findings);
  show_diagnostics(findings.all(), options.common.loudness >= 0);
  const std::string text =
      chosen.made ? file.text : file_with(file, *chosen.allowed.setting, chosen.allowed.to);
  tell_new_warnings(findings, file, text, pack, options);
  const Document after = parse_document(file.name, text);
  if (!options.undo && !chosen.made) {
    // The log has both as the kart file has them, so that they can be held against it.
    chosen.change.from = setting_node(file, chosen.change.adjustment)->text;
    chosen.change.to = setting_node(after, chosen.change.adjustment)->text;
  }
  AppliedPage page{.change = chosen.change,
                   .setting = chosen.allowed.setting,
                   .far = chosen.allowed.far,
                   .dry_run = options.dry_run,
                   .made_before = chosen.made.has_value(),
                   .file = options.kart,
                   .lines = changed_lines(file, after)};
  if (log == nullptr) log = log_to_keep_in(options);
  try {
    if (chosen.made) {
      page.applied = record_change(*chosen.made, chosen.tried, kart, *log, now);
    } else if (!options.dry_run) {
      page.applied = apply_change(file, text, chosen.change, chosen.tried, kart, log.get(), now);
    }
  } catch (const FileError& error) {
    tell("kartwright: nothing was changed: {}\n", printable(error.what()));
    return error.kind() == FileError::What::cannot_create ? kCannotCreate : kInputOutput;
  }
  const std::string answer = options.common.format == Format::json
                                 ? apply_json(page)
                                 : apply_text(page, pack, look_of_stdout());
  std::fwrite(answer.data(), 1, answer.size(), stdout);
  return kSuccess;
}

}  // namespace kartwright::cli
