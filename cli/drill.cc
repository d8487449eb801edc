// drill: a task, the trainee's answers, what the kart does, and what the answers are worth.

#include <charconv>
#include <cstdio>
#include <filesystem>

#include <fmt/format.h>
#include <fmt/ranges.h>
#include <spdlog/spdlog.h>

#include "cli/commands.h"
#include "cli/diagnostics.h"
#include "cli/dialogue.h"
#include "cli/drill_json.h"
#include "cli/drill_record.h"
#include "cli/drill_text.h"
#include "cli/drill_worksheet.h"
#include "cli/state_folder.h"
#include "engine/document/replace_file.h"
#include "engine/practice/answer.h"
#include "engine/practice/draw_task.h"

namespace kartwright::cli {
namespace {

std::uint64_t number_or(const std::string& word, std::uint64_t fallback) {
  std::uint64_t number = fallback;
  std::from_chars(word.data(), word.data() + word.size(), number);
  return number;
}

/// The record of a trainee in the state folder.
struct Keeping {
  std::string folder, file;
  std::vector<DrillRecord> records = {};
};

Keeping open_record(const DrillOptions& options) {
  const auto folder = state_folder();
  if (!folder)
    throw FileError(FileError::What::cannot_create,
                    "there is no folder to keep a record in: set XDG_STATE_HOME or HOME");
  Keeping keeping{.folder = *folder, .file = record_file(options.trainee)};
  Findings findings;
  keeping.records = read_records(state_text(keeping.folder, keeping.file),
                                 keeping.folder + "/" + keeping.file, findings);
  show_diagnostics(findings.all(), options.common.loudness >= 0);
  return keeping;
}

/// Behind what the file holds by now: another session may have written to it meanwhile.
void keep(const DrillRecord& record, Keeping& keeping) {
  keeping.records.push_back(record);
  append_state(keeping.folder, keeping.file, record_line(record));
}

[[noreturn]] void no_such(const std::string& option, const std::string& what,
                          const std::string& name, const std::vector<std::string>& known) {
  throw InputError({Diagnostic{.code = Code::unknown_name,
                               .file = option,
                               .message = "there is no " + what + " `" + name + "`",
                               .help = suggestion(name, known)}});
}

template <typename List>
std::vector<std::string> ids_in(const List& all) {
  std::vector<std::string> out;
  for (const auto& each : all) out.push_back(each.id);
  return out;
}

const DrillLevel& level_named(const std::string& id, const Pack& pack) {
  const DrillLevel* const level = pack.drills.level(id);
  if (level == nullptr) no_such("--level", "level", id, ids_in(pack.drills.levels));
  return *level;
}

DrillTask case_named(const std::string& id, const Pack& pack, Ear& ear, std::uint64_t seed) {
  if (const DrillCase* const named = pack.drills.named(id))
    return named_task(*named, pack, ear, seed);
  std::error_code ignored;
  const bool path = std::filesystem::exists(id, ignored) || id.ends_with(".yaml");
  if (path) return task_from_file(id, pack, seed);
  const std::vector<std::string> known = ids_in(pack.drills.cases);
  const std::string near = nearest_name(id, known);
  throw InputError({Diagnostic{.code = Code::unknown_name,
                               .file = "--case",
                               .message = "there is no case `" + id + "`",
                               .help = (near.empty() ? "" : "did you mean `" + near + "`? ") +
                                       fmt::format("all of them: {}", fmt::join(known, ", "))}});
}

/// A session: what is asked, of whom, and what was finished.
class Session {
 public:
  Session(const DrillOptions& options, const Pack& pack)
      : options_(options), pack_(pack), ear_(pack) {
    if (!options.trainee.empty()) keeping_ = open_record(options);
  }

  int run() {
    const std::uint64_t count = number_or(options_.count, 1);
    const std::uint64_t first =
        number_or(options_.seed, keeping_ ? next_seed(keeping_->records) : 1);
    for (std::uint64_t i = 0; i < count && !ended_; ++i) drill(first + i, i + 1, count);
    if (options_.common.format == Format::json) show(drill_json(finished_));
    return interrupted_ ? kInterrupted : kSuccess;
  }

 private:
  DrillTask next_task(std::uint64_t seed) {
    if (!options_.case_id.empty()) return case_named(options_.case_id, pack_, ear_, seed);
    if (pack_.drills.levels.empty()) no_such("--level", "level", options_.level, {});
    if (!options_.level.empty())
      return drawn_task(level_named(options_.level, pack_), pack_, ear_, seed);
    if (keeping_) {
      const Progress progress = progress_of(keeping_->records, pack_);
      return drawn_task(level_named(progress.next_level, pack_), pack_, ear_, seed);
    }
    const auto& levels = pack_.drills.levels;
    const std::size_t at = seed == 0 ? 0 : (seed - 1) % levels.size();
    return drawn_task(levels[at], pack_, ear_, seed);
  }

  void drill(std::uint64_t seed, std::uint64_t number, std::uint64_t count) {
    DrillTask task = next_task(seed);
    if (options_.common.units) task.kart.units = *options_.common.units;
    const Marking marking(pack_, task);
    const std::string title = title_of(task, pack_);
    read_out(task_text(marking,
                       count > 1 ? fmt::format("{} of {}, {}", number, count, title) : title,
                       look_of_stdout()));
    int refused = 0;
    const auto end = ask_end();
    if (!end) return;
    const auto choice = ask_choice(marking, refused);
    if (!choice) return;
    DrillResult result = result_of(marking, *end, *choice, refused);
    if (options_.common.format == Format::text) {
      show("\n" + result_text(result, look_of_stdout()));
      if (number < count) show("\n");
    }
    if (keeping_) keep(result.record, *keeping_);
    finished_.push_back({std::move(result), title, task.said, task.debrief.track});
  }

  /// The answer's page goes to stdout; where that is JSON, the task goes where questions go.
  void read_out(const std::string& text) const {
    std::FILE* const out = options_.common.format == Format::json ? stderr : stdout;
    std::fwrite(text.data(), 1, text.size(), out);
    std::fflush(out);
  }
  static void show(const std::string& text) {
    std::fwrite(text.data(), 1, text.size(), stdout);
    std::fflush(stdout);
  }

  /// One answer that is not empty; nothing where the session ends.
  std::optional<std::string> ask(const std::string& prompt) {
    for (;;) {
      const Reply reply = dialogue_.ask(prompt);
      const bool quits = reply.what == Reply::What::text && reply.text == "quit";
      if (reply.what == Reply::What::text && !quits) {
        if (!reply.text.empty()) return reply.text;
        continue;
      }
      ended_ = true;
      interrupted_ = reply.what == Reply::What::interrupted;
      tell_end();
      return std::nullopt;
    }
  }

  void tell_end() {
    const std::string kept = keeping_ && !finished_.empty() ? " and kept" : "";
    dialogue_.say(fmt::format("The session ends: {} finished{}.", finished_.size(), kept));
  }

  std::optional<KartEnd> ask_end() {
    dialogue_.blank_line();
    dialogue_.say("Which end is at fault: front, rear, both, neither or broken?");
    while (const auto text = ask("End: ")) {
      if (const auto end = end_named(*text)) return end;
      if (text->starts_with("?")) {
        dialogue_.say(
            "front or rear: that end has too little or too much. both: each has its share. "
            "neither: leave it. broken: a fault, not a setting.");
        continue;
      }
      const std::string near = suggestion(*text, {"front", "rear", "both", "neither", "broken"});
      dialogue_.say("`" + *text + "` is none of these. " + near);
    }
    return std::nullopt;
  }

  void explain(const std::string& text, const Marking& marking) {
    const std::string about = text.substr(1);
    const bool alone = about.find_first_not_of(' ') == std::string::npos;
    const Adjustment* const adjustment =
        alone ? nullptr : adjustment_in(about, marking, offers_of(marking));
    if (adjustment == nullptr) {
      dialogue_.say(
          "An adjustment by name or number, a direction, a size: `rear wider 10`, `3 out 1`. Or "
          "`leave it`, or `check` and a fault. `? caster` explains one, `quit` ends.");
      return;
    }
    for (const std::string& line : in_two_lines(*adjustment, marking)) dialogue_.say(line, 2);
  }

  std::optional<DrillChoice> ask_choice(const Marking& marking, int& refused) {
    std::size_t way = 0;  // of a change whose size is still open
    bool how_far = false;
    dialogue_.say("Which change, and how far? Or `leave it`, or `check` and a fault. `?` helps.");
    while (const auto text = ask(how_far ? "Size: " : "Change: ")) {
      if (text->starts_with("?")) {
        explain(*text, marking);
        if (how_far) dialogue_.say("How far: " + sizes_of(way, marking) + "?");
        continue;
      }
      const TraineeAnswer answer = how_far ? size_or_answer(*text, way, marking)
                                           : read_answer(*text, marking, offers_of(marking));
      if (answer.what == TraineeAnswer::What::choice) {
        if (!answer.text.empty()) dialogue_.say(answer.text + ".");
        return answer.choice;
      }
      const bool asks = answer.what == TraineeAnswer::What::how_far;
      if (asks) way = answer.choice.way;
      how_far = asks || (how_far && still_open(answer, way));
      if (asks) dialogue_.say("How far: " + answer.text + "?");
      if (answer.what == TraineeAnswer::What::refused) ++refused;
      if (!asks) tell(answer);
    }
    return std::nullopt;
  }

  /// True where an answer at `Size:` was a size of that way, or nothing at all.
  static bool still_open(const TraineeAnswer& answer, std::size_t way) {
    if (answer.what == TraineeAnswer::What::unknown) return true;
    return answer.choice.kind == DrillChoice::Kind::change && answer.choice.way == way;
  }

  /// A size, or another answer altogether where it is none.
  static TraineeAnswer size_or_answer(const std::string& text, std::size_t way,
                                      const Marking& marking) {
    TraineeAnswer size = read_size(text, way, marking);
    if (size.what != TraineeAnswer::What::unknown) return size;
    TraineeAnswer other = read_answer(text, marking, {});
    return other.what == TraineeAnswer::What::unknown ? size : other;
  }

  void tell(const TraineeAnswer& answer) {
    const bool refused = answer.what == TraineeAnswer::What::refused;
    dialogue_.say((refused ? "That cannot be done: " : "") + answer.text +
                  (answer.help.empty() ? "." : ": " + answer.help));
  }

  const DrillOptions& options_;
  const Pack& pack_;
  Ear ear_;
  std::optional<Keeping> keeping_;
  Dialogue dialogue_;
  std::vector<FinishedDrill> finished_ = {};
  bool ended_ = false, interrupted_ = false;
};

int show_progress(const DrillOptions& options, const Pack& pack) {
  const Progress progress = progress_of(open_record(options).records, pack);
  const std::string text = options.common.format == Format::json
                               ? progress_json(options.trainee, progress)
                               : progress_text(options.trainee, progress, look_of_stdout());
  std::fwrite(text.data(), 1, text.size(), stdout);
  return kSuccess;
}

int print_worksheet(const DrillOptions& options, const Pack& pack) {
  const DrillLevel* const level =
      options.level.empty() ? nullptr : &level_named(options.level, pack);
  const std::string text = worksheet(pack, level,
                                     {.tasks = number_or(options.print, 1),
                                      .seed = number_or(options.seed, 1),
                                      .units = options.common.units.value_or(System::metric)},
                                     look_of_stdout());
  std::fwrite(text.data(), 1, text.size(), stdout);
  return kSuccess;
}

}  // namespace

int run_drill(const DrillOptions& options) {
  const Pack pack = load_rules(options.common);
  if (!options.level.empty()) static_cast<void>(level_named(options.level, pack));
  try {
    if (options.progress) return show_progress(options, pack);
    if (!options.print.empty()) return print_worksheet(options, pack);
    return Session(options, pack).run();
  } catch (const FileError& error) {
    spdlog::error("{}", printable(error.what()));
    return error.kind() == FileError::What::cannot_create ? kCannotCreate : kInputOutput;
  }
}

}  // namespace kartwright::cli
