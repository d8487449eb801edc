// The pages of the codes that the log gives.

#include <array>

#include "engine/document/code_pages.h"

namespace kartwright {
namespace {

constexpr std::array kLogPages{
    CodePage{.code = Code::not_a_log,
             .shown = Shown::apart,
             .what = "the file behind --log is no log: another file, or another program's database",
             .why = "what somebody keeps there would be written over",
             .avoid = "the kart file given as the log",
             .prefer = "a file of its own for the log, made by `kartwright log add`"},
    CodePage{.code = Code::newer_log,
             .shown = Shown::apart,
             .what = "the log says that it is of a version that this program does not know yet",
             .why = "written into by an older program, it could lose what the newer one keeps",
             .avoid = "the log of the new program, opened by an old one on another laptop",
             .prefer = "the same program on every laptop of the crew"},
    CodePage{.code = Code::damaged_log,
             .shown = Shown::apart,
             .what = "the file is a log, and pages of it are missing or make no sense",
             .why = "what could still be read might be wrong without anybody seeing it",
             .avoid = "a log copied while the stick was pulled out",
             .prefer = "a copy taken with nothing writing, or an export now and then"},
    CodePage{.code = Code::log_not_created,
             .shown = Shown::apart,
             .what = "the log, or the small file that SQLite keeps beside it, cannot be written",
             .why = "a run that is not on the disk is not acknowledged",
             .avoid = "a log in a folder that may only be read",
             .prefer = "a log in a folder of your own"},
    CodePage{.code = Code::log_not_written,
             .shown = Shown::apart,
             .what = "the disk is full, or it failed while the log was written",
             .why = "a write is all or nothing: the log holds what it held before",
             .avoid = "a log on a stick without room",
             .prefer = "some megabytes free where the log is"},
    CodePage{.code = Code::log_busy,
             .shown = Shown::apart,
             .what = "another program held the log for more than five seconds",
             .why = "two that write at once would each undo what the other writes",
             .avoid = "the log open in a database browser with changes not yet saved",
             .prefer = "one writer at a time"},
    CodePage{.code = Code::bad_record,
             .shown = Shown::apart,
             .what = "a run of an export lacks something, or says what no run can say",
             .why = "a run taken in half would teach the crew something that never happened",
             .avoid = "an export with a lap time of 0 written in by hand",
             .prefer = "an export as `kartwright log export` writes it"},
    CodePage{.code = Code::run_differs,
             .shown = Shown::apart,
             .what = "the log has a run of that kart at that moment, and it is not the same",
             .why = "which of the two is right cannot be known, so nothing is taken over",
             .avoid = "two exports of one run, one of them changed by hand",
             .prefer = "a note added to the run in the log"},
    CodePage{.code = Code::no_such_run,
             .shown = Shown::apart,
             .what = "a number that is no run of the log, or a kart that has none in it",
             .why = "an answer about another run would look like this one's",
             .avoid = "the number of a run in somebody else's log",
             .prefer = "a number as `kartwright log list` prints it"},
    CodePage{.code = Code::no_such_change,
             .shown = Shown::apart,
             .what = "the setting is not legal or not here, or there is nothing to take back",
             .why = "the kart file says how the kart stands, and it must be able to stand so",
             .avoid = "a rear width beyond what the class allows",
             .prefer = "a rear width that the class and the bars allow"},
};

}  // namespace

std::span<const CodePage> log_pages() { return kLogPages; }

}  // namespace kartwright
