#include "cli/apply_text.h"

#include <algorithm>
#include <map>

#include <fmt/format.h>

#include "cli/json_writer.h"
#include "cli/run_text.h"

namespace kartwright::cli {
namespace {

int lines_in(const Document& file) { return static_cast<int>(file.line_starts.size()); }

/// How many adjustments stand elsewhere than before the changes of a run.
std::size_t moved_before(const Run& run) {
  std::map<std::string, double> steps;
  for (const RunChange& change : run.changes) steps[change.adjustment] += change.steps;
  return static_cast<std::size_t>(std::count_if(
      steps.begin(), steps.end(), [](const auto& each) { return each.second != 0.0; }));
}

void care_of(const Adjustment& adjustment, const Pack& pack, Page& out) {
  out.section("CARE");
  for (const std::string& id : adjustment.cautions) {
    if (const Caution* const caution = pack.caution(id)) out.paragraph(caution->text, 2);
  }
}

}  // namespace

std::vector<ChangedLine> changed_lines(const Document& before, const Document& after) {
  std::vector<ChangedLine> lines;
  for (int n = 1; n <= std::min(lines_in(before), lines_in(after)); ++n) {
    if (before.line(n) != after.line(n)) lines.push_back({n, before.line(n), after.line(n)});
  }
  return lines;
}

std::string apply_text(const AppliedPage& page, const Pack& pack, Look look) {
  Page out(look);
  const Adjustment& adjustment = *page.setting->adjustment;
  const std::size_t direction = page.change.steps > 0.0 ? 0 : 1;
  out.section(page.dry_run ? "WOULD BE" : "CHANGED");
  out.paragraph(change_phrase(page.change, pack), 2);
  for (const ChangedLine& line : page.lines) {
    out.paragraph(fmt::format("{}, line {}:", page.file, line.number), 2);
    out.as_written("- " + line.before + "\n+ " + line.after, 2);
  }
  if (page.made_before) out.paragraph("the kart file had it already; now the log has it too", 2);
  if (page.far)
    out.paragraph("this is farther than is wise at once: what it did will be hard to tell", 2);
  if (!page.applied.kept.empty()) out.paragraph("the file before it is " + page.applied.kept, 2);
  out.section("LOG");
  if (page.applied.run) {
    out.paragraph(fmt::format("run {} is made ready; `kartwright log add` fills it in when it is "
                              "driven",
                              page.applied.run->id),
                  2);
    if (const std::size_t moved = moved_before(*page.applied.run); moved > 1)
      out.paragraph(
          fmt::format("{} settings are moved before one run: what each does cannot be told "
                      "apart well",
                      moved),
          2);
  } else if (!page.dry_run) {
    out.paragraph("no --log was given, so what came of it will not be known", 2);
  }
  if (page.change.origin != Origin::undo) {
    out.section("WATCH FOR");
    out.paragraph("right: " + adjustment.watch[direction], 2);
    out.paragraph("wrong: " + adjustment.back_out[direction], 2);
    if (!page.dry_run) out.paragraph("the way back: the same command with --undo", 2);
  }
  care_of(adjustment, pack, out);
  return out.text();
}

std::string apply_json(const AppliedPage& page) {
  JsonWriter out;
  out.object([&] {
    out.field("schema", "kartwright/apply/1");
    out.field("adjustment", page.change.adjustment);
    out.field("from", page.change.from);
    out.field("to", page.change.to);
    out.field("steps", page.change.steps);
    out.field("origin", name_of(page.change.origin));
    out.field("dry_run", page.dry_run);
    out.field("farther_than_wise", page.far);
    out.list("lines", page.lines, [&](const ChangedLine& line) {
      out.object([&] {
        out.field("line", line.number);
        out.field("before", line.before);
        out.field("after", line.after);
      });
    });
    out.field("kept", page.applied.kept.empty() ? std::optional<std::string>()
                                                : std::optional(page.applied.kept));
    out.field("run", page.applied.run ? std::optional(page.applied.run->id)
                                      : std::optional<std::int64_t>());
  });
  return out.line();
}

}  // namespace kartwright::cli
