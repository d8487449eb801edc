#include "cli/command_texts.h"

#include <algorithm>

#include "cli/arguments.h"

namespace kartwright::cli {
namespace {

struct About {
  std::string_view command;
  std::vector<std::string> paragraphs;
};

std::vector<About> in_the_pits() {
  return {
      {"advise",
       {"Takes what the driver said, the state of the track and the kart as it stands, and answers "
        "with what was understood, what is wrong, what to check before anything is tuned, which "
        "one change to make and how far, what to watch for, and how to go back. Leaving the kart "
        "alone is an answer too.",
        "Nothing that was said is dropped in silence: what was not understood is said, with the "
        "nearest thing it knows. A change is offered only inside the class limit and the "
        "adjuster's range, with the parts at hand, in the minutes left; the rest is listed with "
        "its reason. Without a kart file a typical kart answers, and the answer says so."}},
      {"check",
       {"Puts a measurement in and gets a verdict: what it means and what to do. Without a name it "
        "lists the checks, with a name alone it says how to measure and what to hand in.",
        "The limits are usual ones; `bands:` of the kart file put a crew's own in their place."}},
      {"apply",
       {"Rewrites one value of the kart file and leaves every other byte alone. The file before it "
        "is kept beside it. With a log the next run is made ready in it, with the advice that was "
        "followed. What is not legal, not here or out of range is refused."}},
      {"log",
       {"Keeps every run of every kart in one file: when, on what track, as it was set up, its "
        "laps, the debrief, and what was changed before it. `add` writes a run or adds to one, "
        "`list` and `show` tell of them, `export` and `import` carry everything over, and `verify` "
        "checks the file and what stands in it.",
        "The log is one SQLite file; copy it while nothing writes."}}};
}

std::vector<About> at_the_bench() {
  return {
      {"weigh",
       {"Takes the readings of four scales and says where the mass stands, whether the frame or "
        "the scales are crooked, and what a seat or ballast would have to move. With --lifted it "
        "works out the height of the centre of mass from one raised axle."}},
      {"whatif",
       {"Makes a change on paper and shows the loads of the four wheels before and after, where "
        "the inside rear lets go, and every size that was assumed. Loads are those of a left "
        "turn. What crews report of the same change is called a rule of thumb and stands apart."}},
      {"plan",
       {"Looks at the whole day instead of the next run: where every adjustment should stand at "
        "each stage, and what to do at each stop. A stop is made only where it brings more than "
        "its minutes cost."}},
      {"compare",
       {"Holds groups of laps against each other and takes the drift of track, tyres, fuel and "
        "driver out. Keep and revert are said only where the whole interval lies on one side of "
        "zero; all else is not settled, with the reason and with how many laps it would take."}},
      {"learned",
       {"Says for each adjustment what the rules expect, what this kart's own runs say, and how "
        "sure that is."}}};
}

std::vector<About> beside_the_track() {
  return {
      {"drill",
       {"Practice on paper: a debrief is read out, the trainee names the end at fault and picks a "
        "change, the kart answers, and the drill says what happened and why. The score is what "
        "could be expected of the answer, not how it came off.",
        "The same seed gives the same drill everywhere. Without --trainee nothing is kept."}},
      {"explain",
       {"Says in plain words what a symptom, an adjustment, a fault, a track state, a fact, a "
        "check, a figure, a size, a rule or a message is. Several words are one name."}},
      {"start",
       {"Writes a kart file to fill in, on standard output, with every key that a kart may have "
        "and a remark beside each. It asks nothing."}},
      {"rules",
       {"Looks after a rule pack. `check` finds what contradicts, repeats or can never be reached, "
        "`list` names every rule, `show` has one whole, and `diff` says how two packs differ and "
        "which answers that changes; `built-in` is the pack that the program carries.",
        "A folder of rule files given by --rules adds to the built-in pack, and what has the same "
        "name replaces it."}}};
}

}  // namespace

std::vector<std::string> about_command(std::string_view command) {
  for (const auto& abouts : {in_the_pits(), at_the_bench(), beside_the_track()}) {
    const auto found = std::ranges::find(abouts, command, &About::command);
    if (found != abouts.end()) return found->paragraphs;
  }
  return {};
}

std::vector<std::string> about_program() {
  return {
      "kartwright takes the debrief, the track and the kart as it stands, says what is really "
      "wrong, what to check before anything is tuned, which one change to make and how far, what "
      "to watch for and how to go back, and when to leave the kart alone. Every number comes with "
      "the rule, the reading or the measurement behind it. It needs no network.",
      "Answers go to standard output, messages to standard error. A file named - is standard "
      "input. Kart and debrief files are YAML with units in the values, as `rear-width: 1360 mm`; "
      "a message names file, line and column, and carries a code that `kartwright explain` knows.",
      "The work can hurt people. Every change prints the cautions that belong to it; roll "
      "structure, restraints and brakes are never tuning tools."};
}

std::vector<Told> exit_codes() {
  return {{std::to_string(kSuccess), "the answer is on standard output"},
          {std::to_string(kUsage), "wrong usage: a command, an option or a value that is none"},
          {std::to_string(kBadData), "bad data in a file, or an error that a check found"},
          {std::to_string(kNoInput), "no such input, or one that cannot be read"},
          {std::to_string(kInternal), "a fault of the program"},
          {std::to_string(kCannotCreate), "a file cannot be written"},
          {std::to_string(kInputOutput), "the output failed"},
          {std::to_string(kInterrupted), "questions were broken off with Ctrl-C"}};
}

std::vector<Told> variables_read() {
  return {{"NO_COLOR", "no colour where it holds anything; there is none but on a terminal"},
          {"COLUMNS", "width of the page, from 40 to 120; else that of the terminal, or 80"},
          {"LC_ALL, LC_CTYPE, LANG",
           "the first that is set: without UTF-8 in it the page is in ASCII; numbers are written "
           "the same way everywhere"},
          {"XDG_STATE_HOME", "where the program keeps what it must remember (~/.local/state)"},
          {"HOME",
           "where that folder is where XDG_STATE_HOME is not set; without both nothing is "
           "kept, and everything else works"},
          {"TZ", "the time zone of a run that `log add` dates by the clock"}};
}

std::vector<Told> files_kept() {
  return {
      {"$XDG_STATE_HOME/kartwright/asking-*.yaml",
       "a debrief that was broken off in `advise --ask`, one for each kart, as an ordinary "
       "debrief file; it goes when it has been taken up again"},
      {"$XDG_STATE_HOME/kartwright/drill-*.jsonl",
       "the record of a trainee, a line for each drill; written only with --trainee"},
      {"FILE.before-change, FILE.before-undo, FILE.before-weighing",
       "beside a kart file: how it was before `apply` or `weigh --save` wrote into it"},
      {"FILE.being-written",
       "beside a file that is written anew, until it takes its place; one that a killed program "
       "left is cleared away by the next"}};
}

std::vector<Told> files_installed() {
  return {{"rules/",
           "the rules that the program carries: to read, and to copy, with the cases beside them, "
           "into a folder of the crew's own for --rules"},
          {"scenarios/harbour/", "invented karts, debriefs and a log to look around with"}};
}

}  // namespace kartwright::cli
