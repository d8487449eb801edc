// The pages of the codes that lap files give.

#include <array>

#include "engine/document/code_pages.h"

namespace kartwright {
namespace {

constexpr std::array kLapPages{
    CodePage{.code = Code::bad_lap,
             .shown = Shown::laps,
             .what = "a row has no lap number, lap time or group where one should be",
             .why = "a lap dropped in silence would change what the clock says",
             .avoid = "lap,time,group\n1,31.42,A\n2,31,47,B",
             .prefer = "lap,time,group\n1,31.42,A\n2,\"31,47\",B\n3,31.40,B\n4,31.44,A\n5,31.46,A"},
    CodePage{.code = Code::no_such_column,
             .shown = Shown::laps,
             .what = "the first row names no column, or two, for the lap, its time or its group",
             .why = "a guess at which figures are meant would be an answer to another question",
             .avoid = "lap;sector;group\n1;31.42;A",
             .prefer = "lap;time;group\n1;31.42;A\n2;31.47;B\n3;31.40;B\n4;31.44;A\n5;31.46;A"},
    CodePage{.code = Code::no_laps,
             .shown = Shown::laps,
             .what = "no row of the file is a lap that counts",
             .why = "a lap without a group is left out, and here that leaves none",
             .avoid = "lap,time,group\n1,31.42,",
             .prefer = "lap,time,group\n1,31.42,A\n2,31.47,B\n3,31.40,B\n4,31.44,A\n5,31.46,A"},
    CodePage{.code = Code::too_many_laps,
             .shown = Shown::apart,
             .what = "more than 100,000 laps, more than 20 groups, a row longer than 64 KiB, or a "
                     "group with a name of more than 100 letters",
             .why = "no day of a kart is as long; it is another file, or not the column that was "
                    "meant",
             .avoid = "the laps of all karts of a season in one file",
             .prefer = "the laps of one kart and one session"},
    CodePage{.code = Code::nothing_to_compare,
             .shown = Shown::laps,
             .what = "the laps are of one group, or too few to tell the change from the track",
             .why = "how much a lap scatters must be seen before a difference means anything",
             .avoid = "lap,time,group\n1,31.42,A\n2,31.47,B",
             .prefer = "lap,time,group\n1,31.42,A\n2,31.47,B\n3,31.40,B\n4,31.44,A\n5,31.46,A"},
};

}  // namespace

std::span<const CodePage> lap_pages() { return kLapPages; }

}  // namespace kartwright
