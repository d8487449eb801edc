// The pages of the codes that kart files, debriefs and options give.

#include <array>

#include "engine/document/code_pages.h"

namespace kartwright {
namespace {

constexpr std::array kPitPages{
    CodePage{
        .code = Code::setting_out_of_range,
        .what = "a setting lies beyond the range, or outside the list, that its adjustment has",
        .why = "moves are counted from where the setting stands to where it can go",
        .avoid = "settings: {rear-width: 1410 mm}",
        .prefer = R"(settings: {rear-width: 1410 mm}
ranges: {rear-width: {from: 1300 mm, to: 1420 mm}})"},
    CodePage{.code = Code::setting_off_step,
             .what = "a setting lies between two of the steps that its adjustment goes by",
             .why = "a slip of the pen looks like this; the setting is used as written, and moves "
                    "are offered to the steps",
             .avoid = "settings: {rear-width: 1362 mm}",
             .prefer = R"(settings: {rear-width: 1362 mm}
ranges: {rear-width: {from: 1302 mm, to: 1402 mm, step: 5 mm}})"},
    CodePage{.code = Code::over_class_limit,
             .what = "a setting breaks the limit that the kart file itself gives for the class",
             .why = "no change is advised that is not legal, and from here every answer would rest "
                    "on a wrong figure",
             .avoid = R"(class: {limits: {rear-width: {at-most: 1380 mm}}}
settings: {rear-width: 1390 mm})",
             .prefer = R"(class: {limits: {rear-width: {at-most: 1380 mm}}}
settings: {rear-width: 1375 mm})"},
    CodePage{.code = Code::implausible,
             .what = "a figure lies far from what any kart has",
             .why = "a digit too many or another unit is likelier than such a kart",
             .avoid = "measured: {front-share: 65 %}",
             .prefer = "measured: {front-share: 43 %}"},
    CodePage{.code = Code::settings_disagree,
             .what = "a setting is given for all tyres and again, otherwise, for one end",
             .why = "both cannot be true; where the ends differ there is no one figure for all",
             .avoid = "settings: {pressures: 0.80 bar, front-pressures: 0.70 bar}",
             .prefer = "settings: {front-pressures: 0.70 bar, rear-pressures: 0.80 bar}"},
    CodePage{.code = Code::bad_report,
             .shown = Shown::debrief,
             .what = "a report names a phase, a severity or a word that reports do not have",
             .why = "left out, the driver would not have been heard",
             .avoid = "reports: [push@apex=2]",
             .prefer = "reports: [push@mid=2]"},
    CodePage{.code = Code::phase_not_felt,
             .shown = Shown::debrief,
             .what = "a symptom is reported at a phase where drivers do not feel it",
             .why = "the phase may be a slip, and at that phase the report says little or nothing",
             .avoid = "reports: [push@straight=2]",
             .prefer = "reports: [push@exit=2]"},
    CodePage{.code = Code::bad_fact,
             .shown = Shown::debrief,
             .what = "a fact has no value, a value it cannot have, or two at once",
             .why = "rules wait for the values there are; any other would never be heard",
             .avoid = "facts: {turn-in: coasting}",
             .prefer = "facts: {turn-in: brake}"},
    CodePage{.code = Code::bad_option,
             .shown = Shown::command_line,
             .what = "an option is not known, lacks its value, or has one that cannot be used",
             .why = "an answer to another question than the one asked is worse than none",
             .avoid = "kartwright advise --minutes soon",
             .prefer = "kartwright advise --minutes 20"},
};

}  // namespace

std::span<const CodePage> pit_pages() { return kPitPages; }

}  // namespace kartwright
