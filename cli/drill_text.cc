#include "cli/drill_text.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

namespace kartwright::cli {
namespace {

/// "1300 to 1400 mm": where a setting may stand.
std::string range_of(const Setting& setting, System units) {
  if (setting.travel.places.empty()) return {};
  std::vector<double> legal;
  for (const double place : setting.travel.places) {
    if (class_allows(setting, place)) legal.push_back(place);
  }
  if (legal.empty()) return {};
  const std::string low = print_setting(setting, legal.front(), units);
  const std::string high = print_setting(setting, legal.back(), units);
  const std::size_t unit = low.rfind(' ');
  const bool shared = unit != std::string::npos && high.ends_with(low.substr(unit));
  return (shared ? low.substr(0, unit) : low) + " to " + high;
}

std::string limit_of(const Setting& setting) {
  const bool limited =
      setting.limit.at_least || setting.limit.at_most || !setting.limit.allowed.empty();
  return limited ? ", class" : "";
}

void list_setting(Page& page, int number, const Setting& setting, System units) {
  const Adjustment& adjustment = *setting.adjustment;
  const std::string now = print_setting(setting, setting.now, units);
  const std::string range = range_of(setting, units) + limit_of(setting);
  const std::string ways = adjustment.directions[0] + " / " + adjustment.directions[1];
  const std::string count = number > 0 ? fmt::format("{:>2} ", number) : "   ";
  const std::string line = count + left(adjustment.label, 21) + " " + left(ways, 16) + " " +
                           right(now, 8) + "  " + range;
  if (columns(line) <= page.room()) return page.row(line);
  page.paragraph(fmt::format("{}{}: now {}; {}; {}", count, adjustment.label, now, range, ways), 4);
}

/// True where a setting stands elsewhere than on the typical kart, or is limited.
bool stands_out(const Setting& setting, const Kart& typical) {
  const Setting* const usual = typical.setting(setting.adjustment->id);
  return usual == nullptr || usual->now != setting.now || !limit_of(setting).empty();
}

void list_settings(Page& page, const Marking& marking) {
  const std::vector<std::string> offers = offers_of(marking);
  const Kart typical = typical_kart(marking.pack());
  const System units = marking.task().kart.units;
  int number = 0;
  page.section("SETTINGS");
  for (const std::string& id : offers)
    list_setting(page, ++number, *marking.task().kart.setting(id), units);
  std::vector<std::string> others;
  for (const auto& [id, setting] : marking.task().kart.settings) {
    if (std::find(offers.begin(), offers.end(), id) != offers.end()) continue;
    if (stands_out(setting, typical)) list_setting(page, 0, setting, units);
    if (!stands_out(setting, typical)) others.push_back(setting.adjustment->label);
  }
  if (!others.empty()) page.paragraph("as usual, by name: " + joined(others, ", "), 4);
}

void tell_facts(Page& page, const Marking& marking) {
  std::vector<std::string> facts;
  for (const StatedFact& stated : marking.task().debrief.heard.facts) {
    const FactDef* const fact = marking.pack().fact(stated.fact);
    facts.push_back((fact != nullptr ? fact->label : stated.fact) + ": " + stated.value);
  }
  page.section("CREW");
  for (const std::string& fact : facts) page.paragraph(fact, 2);
}

/// Without "-0".
double rounded(double points) { return std::round(points) + 0.0; }

void tell_worth(Page& page, const std::string& whose, const DrillWorth& worth) {
  std::vector<std::string> parts;
  for (const DrillWorth::Part& part : worth.parts)
    parts.push_back(fmt::format("{:+.0f} {}", rounded(part.points), part.what));
  page.paragraph(fmt::format("{}: {:.0f} points{}{}", whose, rounded(worth.points),
                             parts.empty() ? "" : " = ", joined(parts, ", ")),
                 2);
}

void tell_care(Page& page, const std::vector<std::string_view>& cautions) {
  page.section("CARE");
  page.paragraph("This is practice on paper. Real work follows its cautions, every time:");
  for (const std::string_view each : cautions) page.paragraph(fmt::format("- {}", each), 2);
}

}  // namespace

std::vector<std::string> offers_of(const Marking& marking) {
  const DrillLevel* const level = marking.pack().drills.level(marking.task().level);
  std::vector<std::string> out;
  if (level == nullptr) {
    for (const auto& [id, setting] : marking.task().kart.settings) out.push_back(id);
    return out;
  }
  for (const std::string& id : level->offers) {
    if (marking.task().kart.setting(id) != nullptr) out.push_back(id);
  }
  return out;
}

std::string title_of(const DrillTask& task, const Pack& pack) {
  const DrillLevel* const level = pack.drills.level(task.level);
  const std::string label = level != nullptr ? level->label : "a debrief of your own";
  if (task.title.empty()) return fmt::format("{}, seed {}", label, task.seed);
  return label + ": " + task.title;
}

std::string task_text(const Marking& marking, const std::string& title, Look look) {
  Page page(look);
  const DrillTask& task = marking.task();
  const TrackState* const track = marking.pack().track(task.debrief.track);
  page.section("DRILL");
  page.paragraph(title);
  page.section("TRACK");
  page.paragraph(track != nullptr ? track->label : task.debrief.track);
  page.section("SAID");
  page.paragraph(task.said.empty() ? "nothing in words" : "\"" + task.said + "\"", 1);
  tell_facts(page, marking);
  page.section("TIME");
  page.paragraph(fmt::format("{:g} min until the kart goes out", task.debrief.minutes));
  list_settings(page, marking);
  return page.text();
}

std::string result_text(const DrillResult& result, Look look) {
  Page page(look);
  const DrillRecord& record = result.record;
  page.section("YOU SAID");
  page.paragraph(record.end + "; " + record.choice, 2);
  page.section("KART");
  for (const std::string& each : result.told) page.paragraph(each, 2);
  if (!result.luck.empty()) page.paragraph(result.luck);
  page.section("END");
  page.paragraph(fmt::format(
      "{}: {:.0f} of 100. Handling error believed at the front {:.1f}, at "
      "the rear {:.1f} notches squared, so the answer is {}.",
      record.end, record.end_mark, result.ends.front, result.ends.rear, record.end_right));
  page.section("SCORE");
  const bool good = record.mark >= 80.0;
  page.paragraph(
      fmt::format("{:.0f} of 100, by what could be expected, not by how it came off", record.mark),
      0, good ? Tint::good : Tint::none);
  tell_worth(page, "yours", result.worth);
  if (record.choice != record.best) tell_worth(page, "best, " + record.best, result.best_worth);
  if (record.choice == record.best) page.paragraph("nothing was worth more");
  page.section("WHY");
  page.paragraph(result.because);
  page.paragraph("The reading: " + result.reading);
  tell_care(page, result.cautions);
  return page.text();
}

std::string solution_text(const Marking& marking, int number, Look look) {
  Page page(look);
  const EndMarks ends = mark_ends(marking);
  page.section(fmt::format("TASK {}", number));
  page.paragraph(fmt::format("{}; {}", name_of(ends.right), marking.words_of(marking.best())));
  page.paragraph(because_of(marking));
  page.paragraph("The reading: " + marking.advice().text);
  return page.text();
}

std::string progress_text(const std::string& trainee, const Progress& progress, Look look) {
  Page page(look);
  page.section("TRAINEE");
  page.paragraph(fmt::format("{}: {} {} finished", trainee, progress.drills,
                             progress.drills == 1 ? "drill" : "drills"));
  page.section("LEVELS");
  for (const LevelProgress& level : progress.levels) {
    page.paragraph(fmt::format("{}: {} done, mean {:.0f}, latest {:.0f}", level.label, level.drills,
                               level.mean, level.latest),
                   2);
  }
  page.section("TAKEN");
  for (const auto& [mistake, count] : progress.mistakes)
    page.paragraph(fmt::format("{} for {}: {} x", mistake.said, mistake.right, count), 2);
  if (progress.refused > 0) {
    page.paragraph(fmt::format("answers that could not be done: {}", progress.refused), 2);
  }
  page.section("NEXT");
  const bool quoted = trainee.find(' ') != std::string::npos;
  const std::string name = quoted ? "\"" + trainee + "\"" : trainee;
  page.paragraph("kartwright drill --trainee " + name + " --level " + progress.next_level, 2);
  return page.text();
}

}  // namespace kartwright::cli
