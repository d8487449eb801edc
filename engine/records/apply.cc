#include "engine/records/apply.h"

#include <algorithm>
#include <csignal>
#include <filesystem>

#include <fmt/format.h>

#include "engine/chassis/paper_change.h"
#include "engine/decision/options.h"
#include "engine/document/replace_file.h"
#include "engine/kart/change_setting.h"
#include "engine/records/keeping.h"

namespace kartwright {

namespace {

constexpr const char* kKept = "before-change";
constexpr const char* kKeptOfUndo = "before-undo";  // so that an undo is not undone in its turn

void refuse(Findings& findings, const WrittenAt& at, const std::string& message,
            const std::string& help) {
  findings.add({.code = Code::no_such_change,
                .file = at.file,
                .span = at.span,
                .message = message,
                .help = help,
                .source = at.source});
}

[[noreturn]] void refuse(const std::string& file, const std::string& message,
                         const std::string& help) {
  throw InputError(
      {Diagnostic{.code = Code::no_such_change, .file = file, .message = message, .help = help}});
}

/// "on this kart it goes from 1300 mm to 1400 mm", as far as the class allows.
std::string where_it_goes(const Setting& setting, System units) {
  std::vector<double> legal;
  for (const double place : setting.travel.places) {
    if (class_allows(setting, place)) legal.push_back(place);
  }
  if (legal.empty()) return "the kart file allows nowhere";
  return fmt::format("on this kart, as its class allows, it goes from {} to {}",
                     print_setting(setting, legal.front(), units),
                     print_setting(setting, legal.back(), units));
}

bool has_the_part(const Setting& setting, double to) {
  if (!setting.adjustment->parts) return true;
  const std::string name = print_setting(setting, to, System::metric);
  const auto& box = setting.in_the_box;
  return std::find(box.begin(), box.end(), name) != box.end();
}

/// While it lives, what asks the program to end waits.
class HeldSignals {
 public:
  HeldSignals() {
    sigset_t asking;
    sigemptyset(&asking);
    for (const int each : {SIGHUP, SIGINT, SIGPIPE, SIGTERM}) sigaddset(&asking, each);
    pthread_sigmask(SIG_BLOCK, &asking, &before_);
  }
  ~HeldSignals() { pthread_sigmask(SIG_SETMASK, &before_, nullptr); }
  HeldSignals(const HeldSignals&) = delete;
  HeldSignals& operator=(const HeldSignals&) = delete;

 private:
  sigset_t before_ = {};
};

[[noreturn]] void cannot_look(const std::string& path, const std::error_code& why) {
  throw InputError({Diagnostic{
      .code = Code::cannot_read, .file = path, .message = "cannot be read: " + why.message()}});
}

/// The newest copy that was kept beside a kart file, as replace_file numbers them. Throws
/// InputError where one cannot be looked at: an older one would be taken for it.
std::optional<std::string> newest_copy(const std::string& path, const std::string& suffix) {
  std::error_code error;
  const std::filesystem::path real = std::filesystem::canonical(path, error);
  if (error) cannot_look(path, error);
  const std::string first = real.string() + "." + suffix;
  std::optional<std::string> newest;
  for (int n = 1;; ++n) {
    const std::string kept = first + (n == 1 ? "" : "-" + std::to_string(n));
    const bool there = std::filesystem::exists(kept, error);
    if (error) cannot_look(kept, error);
    if (!there) return newest;
    newest = kept;
  }
}

WayBack back_from(const RunChange& change, const Setting* setting, const std::string& why) {
  const auto to = setting == nullptr ? std::nullopt : setting_value(*setting, change.from);
  const auto stood = setting == nullptr ? std::nullopt : setting_value(*setting, change.to);
  if (!to || !stood || steps_between(*setting, *stood, setting->now) != 0.0) {
    refuse("--undo",
           fmt::format("the kart file no longer has `{}` at {}, where {} left it",
                       change.adjustment, change.to, why),
           "give the setting that is wanted with --set");
  }
  WayBack back{.change = change, .setting = setting, .to = *to};
  back.change.from = change.to;
  back.change.to = change.from;
  back.change.steps = -change.steps;
  back.change.origin = Origin::undo;
  back.change.why = "takes back " + why;
  back.change.rank = {};
  back.change.relief = {};
  back.change.advice = {};
  return back;
}

/// The run made ready, with a change more.
Run ready_with(const Logbook& log, const RunChange& change, const Kart& kart, const Document& file,
               const std::string& now) {
  std::optional<Run> ready = log.made_ready(kart.name);
  if (!ready) {
    ready = Run{.kart = kart.name,
                .at = free_moment(log, kart.name, now),
                .driven = false,
                .settings = setup_of(file, kart)};
    const std::optional<Run> before = log.last_driven(kart.name);
    if (before) {
      ready->changes = differences(before->settings, ready->settings, kart);
      write_alike(before->settings, ready->settings, kart);
    }
  }
  ready->changes.push_back(change);
  for (RunSetting& setting : ready->settings) {
    if (setting.adjustment == change.adjustment) setting.value = change.to;
  }
  return *ready;
}

void put_in_log(Logbook& log, Run& ready, const RunChange& change,
                const std::optional<Run>& tried) {
  ready.id = log.put(ready);
  if (!tried) return;
  Run judged = *tried;
  judged.verdicts.push_back({.adjustment = change.adjustment,
                             .verdict = ClockVerdict::revert,
                             .by = "crew",
                             .text = "taken back"});
  log.put(judged);
}

}  // namespace

std::optional<AllowedChange> allowed_change(std::string_view text, const Kart& kart,
                                            const Pack& pack, const WrittenAt& at,
                                            Findings& findings) {
  const auto change = parse_paper_change(text, kart, pack, at, findings);
  if (!change) return {};
  if (change->setting == nullptr) {
    refuse(findings, at, "`" + change->id + "` is measured, not set",
           "a setting of the kart is changed, as `rear-width=1370mm`");
    return {};
  }
  const Setting& setting = *change->setting;
  if (!change->warning.empty()) {
    refuse(findings, at, change->warning, where_it_goes(setting, kart.units));
  } else if (!has_the_part(setting, change->to)) {
    refuse(findings, at,
           fmt::format("`{}` is not in the box", print_value(*change, change->to, kart.units)),
           "the parts that are here stand under `parts` in the kart file");
  } else if (steps_between(setting, setting.now, change->to) == 0.0) {
    refuse(findings, at, "the kart stands there already", "");
  } else {
    const Adjustment& adjustment = *setting.adjustment;
    const double most = adjustment.most_at_once / std::abs(adjustment.reference_step);
    const double steps = std::abs(steps_between(setting, setting.now, change->to));
    return AllowedChange{&setting, change->to, steps > most + 1e-9};
  }
  return {};
}

WayBack way_back(const Logbook& log, const Kart& kart) {
  const std::vector<Run> runs = log.runs(kart.name);
  int taken_back = 0;
  for (auto run = runs.rbegin(); run != runs.rend(); ++run) {
    for (auto change = run->changes.rbegin(); change != run->changes.rend(); ++change) {
      if (change->origin == Origin::undo) {
        ++taken_back;
      } else if (taken_back > 0) {
        --taken_back;
      } else {
        WayBack back =
            back_from(*change, kart.setting(change->adjustment), "the change of " + name_of(*run));
        if (run->driven) back.tried = *run;
        return back;
      }
    }
  }
  refuse("--undo", "the log holds no change of this kart that could be taken back",
         "`kartwright log list` shows the changes");
}

WayBack way_back(const Document& file, const Kart& kart, const Pack& pack) {
  const std::optional<std::string> kept = newest_copy(file.name, kKept);
  if (!kept) {
    refuse("--undo", "no copy of the kart file was kept beside it",
           "`kartwright apply` keeps one with every change it makes");
  }
  Findings findings;
  const Document before = read_document(*kept);
  const Kart was = read_kart(before, pack, findings);
  const std::vector<RunChange> made =
      differences(setup_of(before, was), setup_of(file, kart), kart);
  if (made.empty()) {
    refuse("--undo", "the kart stands as in " + *kept + " already", "with --log, --undo goes on");
  }
  if (made.size() > 1) {
    refuse("--undo",
           fmt::format("{} settings differ from {}, and one change is taken back at a time",
                       made.size(), *kept),
           "give the setting that is wanted with --set");
  }
  return back_from(made.front(), kart.setting(made.front().adjustment),
                   "the change that " + *kept + " was kept for");
}

std::optional<MadeChange> made_since_copy(const Document& file, const Kart& kart, const Pack& pack,
                                          bool undone) {
  const std::optional<std::string> kept = newest_copy(file.name, undone ? kKeptOfUndo : kKept);
  if (!kept) return {};
  Findings findings;
  Document before = read_document(*kept);
  const Kart was = read_kart(before, pack, findings);
  std::vector<RunChange> made = differences(setup_of(before, was), setup_of(file, kart), kart);
  if (made.size() != 1) return {};
  return MadeChange{std::move(before), std::move(made.front())};
}

bool is_unrecorded(const Logbook& log, const Kart& kart, const RunChange& change) {
  std::optional<Run> last = log.made_ready(kart.name);
  if (!last) last = log.last_driven(kart.name);
  if (!last) return true;
  const Setting* const setting = kart.setting(change.adjustment);
  return std::none_of(last->settings.begin(), last->settings.end(), [&](const RunSetting& each) {
    if (setting == nullptr || each.adjustment != change.adjustment) return false;
    const auto value = setting_value(*setting, each.value);
    return value && steps_between(*setting, *value, setting->now) == 0.0;
  });
}

std::string file_with(const Document& file, const Setting& setting, double to) {
  const std::optional<std::string> text = with_setting(file, setting, to);
  if (text) return *text;
  throw InputError(
      {Diagnostic{.code = Code::wrong_shape,
                  .file = file.name,
                  .message = fmt::format("`{}` cannot be changed in this file without changing "
                                         "more of it",
                                         setting.adjustment->id),
                  .help = "write the setting as a plain value under `settings`; `kartwright "
                          "start` shows how"}});
}

Applied apply_change(const Document& file, const std::string& text, const RunChange& change,
                     const std::optional<Run>& tried, const Kart& kart, Logbook* log,
                     const std::string& now) {
  Applied applied;
  const char* const suffix = change.origin == Origin::undo ? kKeptOfUndo : kKept;
  if (log == nullptr) {
    applied.kept = replace_file(file.name, file.text, text, suffix);
    return applied;
  }
  Logbook::Writing all(*log);
  applied.run = ready_with(*log, change, kart, file, now);
  put_in_log(*log, *applied.run, change, tried);
  const HeldSignals held;
  applied.kept = replace_file(file.name, file.text, text, suffix);
  try {
    all.commit();
  } catch (...) {
    if (take_back(file.name, applied.kept)) throw;
    throw InputError({Diagnostic{.code = Code::log_not_written,
                                 .file = log->path(),
                                 .message = "the log was not written, and " + file.name +
                                            ", which has the change, could not be put back",
                                 .help = "as it was it stands in " + applied.kept}});
  }
  return applied;
}

Applied record_change(const MadeChange& made, const std::optional<Run>& tried, const Kart& kart,
                      Logbook& log, const std::string& now) {
  Applied applied;
  Logbook::Writing all(log);
  applied.run = ready_with(log, made.change, kart, made.before, now);
  put_in_log(log, *applied.run, made.change, tried);
  all.commit();
  return applied;
}

}  // namespace kartwright
