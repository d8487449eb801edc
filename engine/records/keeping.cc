#include "engine/records/keeping.h"

#include <algorithm>

#include "engine/debrief/debrief_file.h"
#include "engine/decision/options.h"
#include "engine/kart/change_setting.h"

namespace kartwright {

std::vector<RunSetting> setup_of(const Document& file, const Kart& kart) {
  std::vector<RunSetting> setup;
  for (const auto& [id, setting] : kart.settings) {
    const Node* const node = setting_node(file, id);
    if (node != nullptr) setup.push_back({id, node->text});
  }
  return setup;
}

std::vector<RunChange> differences(const std::vector<RunSetting>& before,
                                   const std::vector<RunSetting>& after, const Kart& kart) {
  std::vector<RunChange> changes;
  for (const RunSetting& now : after) {
    const auto was = std::find_if(before.begin(), before.end(), [&](const RunSetting& each) {
      return each.adjustment == now.adjustment;
    });
    const Setting* const setting = kart.setting(now.adjustment);
    if (was == before.end() || setting == nullptr || was->value == now.value) continue;
    const auto from = setting_value(*setting, was->value);
    const auto to = setting_value(*setting, now.value);
    if (!from || !to) continue;
    const double steps = steps_between(*setting, *from, *to);
    if (steps == 0.0) continue;
    changes.push_back({.adjustment = now.adjustment,
                       .from = was->value,
                       .to = now.value,
                       .steps = steps,
                       .origin = Origin::found});
  }
  return changes;
}

void write_alike(const std::vector<RunSetting>& before, std::vector<RunSetting>& after,
                 const Kart& kart) {
  for (RunSetting& now : after) {
    const Setting* const setting = kart.setting(now.adjustment);
    if (setting == nullptr) continue;
    for (const RunSetting& was : before) {
      if (was.adjustment != now.adjustment) continue;
      const auto from = setting_value(*setting, was.value);
      const auto to = setting_value(*setting, now.value);
      if (from && to && steps_between(*setting, *from, *to) == 0.0) now.value = was.value;
    }
  }
}

std::string free_moment(const Logbook& log, const std::string& kart, std::string at,
                        std::int64_t own) {
  const auto taken = [&] {
    const std::optional<Run> there = log.run_at(kart, at);
    return there && there->id != own;
  };
  while (taken()) at = later(at, 1);
  return at;
}

Run keep_run(Logbook& log, Run run, const Kart& kart) {
  Logbook::Writing all(log);
  const std::optional<Run> ready = log.made_ready(run.kart);
  run.at = free_moment(log, run.kart, run.at, ready ? ready->id : 0);
  const std::optional<Run> before = ready ? ready : log.last_driven(run.kart, run.at);
  if (ready) {
    run.id = ready->id;
    run.changes = ready->changes;
    run.notes.insert(run.notes.begin(), ready->notes.begin(), ready->notes.end());
  }
  if (before) {
    for (RunChange& change : differences(before->settings, run.settings, kart))
      run.changes.push_back(std::move(change));
    write_alike(before->settings, run.settings, kart);
  }
  run.id = log.put(run);
  all.commit();
  return run;
}

namespace {

template <typename T>
void take(T& held, const T& given) {
  if (given != T{}) held = given;
}

template <typename T>
void put_behind(std::vector<T>& held, const std::vector<T>& given) {
  held.insert(held.end(), given.begin(), given.end());
}

}  // namespace

Run add_to_run(Logbook& log, std::int64_t id, const Run& more) {
  Logbook::Writing all(log);
  Run run = log.run(id).value();
  if (!run.laps.empty() && !more.laps.empty()) {
    throw InputError({Diagnostic{.code = Code::bad_record,
                                 .file = log.path(),
                                 .message = name_of(run) + " has its laps already",
                                 .help = "no lap is taken away; were they of another run?"}});
  }
  take(run.session, more.session);
  take(run.track, more.track);
  take(run.air, more.air);
  take(run.road, more.road);
  take(run.tyres, more.tyres);
  take(run.tyre_laps, more.tyre_laps);
  take(run.driver, more.driver);
  take(run.load, more.load);
  run.driven = true;
  run.complete = run.complete || more.complete;
  if (!more.said.empty()) run.said += (run.said.empty() ? "" : "; ") + more.said;
  put_behind(run.laps, more.laps);
  put_behind(run.reports, more.reports);
  settle_reports(run.reports);
  put_behind(run.facts, more.facts);
  put_behind(run.notes, more.notes);
  log.put(run);
  all.commit();
  return run;
}

}  // namespace kartwright
