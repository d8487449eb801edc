#include "cli/drill_worksheet.h"

#include <algorithm>

#include <fmt/format.h>

#include "cli/drill_text.h"
#include "engine/practice/draw_task.h"

namespace kartwright::cli {
namespace {

std::string heading(const std::string& title, const std::string& below, Look look) {
  Page page(look);
  page.paragraph(title);
  page.paragraph(below);
  return page.text() + "\n";
}

std::string line_to_write_on(std::string_view what, Look look) {
  const std::string start = std::string(what) + " ";
  const std::size_t end = std::min<std::size_t>(look.width, 72);
  return start + std::string(end > start.size() ? end - start.size() : 0, '_') + "\n";
}

}  // namespace

std::string worksheet(const Pack& pack, const DrillLevel* level, const WorksheetPlan& plan,
                      Look look) {
  look.colour = false;
  const auto& levels = pack.drills.levels;
  Ear ear(pack);
  std::string tasks = heading("Kart setup drill",
                              "Name the end of the kart at fault, then one change and its size, or "
                              "leave it alone, or what to check first.",
                              look);
  std::string answers = heading(
      "Answers", "Practice on paper: real work follows the cautions of its own answer.", look);
  for (std::uint64_t i = 0; i < plan.tasks && !levels.empty(); ++i) {
    const DrillLevel& of = level != nullptr ? *level : levels[i % levels.size()];
    DrillTask task = drawn_task(of, pack, ear, plan.seed + i);
    task.kart.units = plan.units;
    const Marking marking(pack, task);
    const int number = static_cast<int>(i) + 1;
    tasks += task_text(marking, fmt::format("{}: {}", number, title_of(task, pack)), look) + "\n" +
             line_to_write_on("End:", look) + "\n" + line_to_write_on("Change and size:", look) +
             "\n\n";
    answers += solution_text(marking, number, look) + "\n";
  }
  return tasks + "\f" + answers;
}

}  // namespace kartwright::cli
