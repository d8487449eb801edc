// The pages of the codes that any file may give: its form, its keys, its numbers.

#include <array>

#include "engine/document/code_pages.h"

namespace kartwright {
namespace {

constexpr std::array kDocumentPages{
    CodePage{.code = Code::not_utf8,
             .shown = Shown::apart,
             .what = "some byte of the file is no UTF-8 text, or is a control character",
             .why = "to guess another encoding would change names and signs without a word, and a "
                    "control character would end the file early",
             .avoid = "a kart file saved by a spreadsheet, or by an editor as UTF-16",
             .prefer = "the same file saved as plain text, with UTF-8 as its encoding"},
    CodePage{.code = Code::not_yaml,
             .what = "the text cannot be split into keys and values",
             .why = "what comes behind such a line may belong to anything",
             .avoid = "settings: axle: hard",
             .prefer = "settings:\n  axle: hard"},
    CodePage{.code = Code::too_large,
             .shown = Shown::apart,
             .what = "the file is larger than 1 MiB, one of its lines longer than 64 KiB, or a "
                     "bracket is open for more than 128 KiB",
             .why =
                 "a kart or a debrief is a few kilobytes; anything so large is another file, and "
                 "reading it would only fill the memory",
             .avoid = "a lap logger's file of several megabytes, given as a kart file",
             .prefer = "the kart file itself; `kartwright start` writes one"},
    CodePage{.code = Code::too_deep,
             .what = "more than 32 brackets or lists stand inside each other, or more than a "
                     "thousand brackets are open",
             .why = "no file here needs more than a handful of levels, so a bracket is too many",
             .avoid = "kart: [[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[blue 27",
             .prefer = "kart: blue 27"},
    CodePage{.code = Code::duplicate_key,
             .what = "one key is written twice in the same map",
             .why = "only one of the two values can hold, and which was meant cannot be known",
             .avoid = "settings:\n  axle: hard\n  axle: soft",
             .prefer = "settings:\n  axle: hard"},
    CodePage{.code = Code::more_than_one_document,
             .what = "a line `---` begins a second document in the file",
             .why = "only one document is read, and the rest would be lost without a word",
             .avoid = "settings: {axle: hard}\n---\nsettings: {axle: soft}",
             .prefer = "settings: {axle: hard}"},
    CodePage{.code = Code::anchor_or_alias,
             .what = "`&name`, `*name` or `<<` stands for text written elsewhere",
             .why = "a file should read the same from any line; a few such names can also grow a "
                    "small file to any size",
             .avoid = "settings: {front-pressures: &front 0.75 bar, rear-pressures: *front}",
             .prefer = "settings: {front-pressures: 0.75 bar, rear-pressures: 0.75 bar}"},
    CodePage{.code = Code::tag,
             .what = "a word that begins with `!` gives a value a type of its own",
             .why = "every value has its type from its key, and the word would be lost",
             .avoid = "kart: !blue 27",
             .prefer = "kart: '!blue 27'"},
    CodePage{.code = Code::unclosed_quote,
             .what = "a quote begins a value, and no such quote ends it",
             .why = "everything down to the end of the file would belong to that value",
             .avoid = "kart: 'blue 27\nsettings: {axle: hard}",
             .prefer = "kart: 'blue 27'\nsettings: {axle: hard}"},
    CodePage{.code = Code::wrong_shape,
             .what = "a plain value, a list or a map stands where another of the three belongs",
             .why = "there is no telling what the list is about without its keys, or the other way "
                    "round",
             .avoid = "settings: [axle, hard]",
             .prefer = "settings: {axle: hard}"},
    CodePage{.code = Code::missing_key,
             .shown = Shown::rules,
             .what = "a map lacks a key that it cannot do without",
             .why = "nothing sensible can be put in its place",
             .avoid = "cautions:\n  - caution: hot-exhaust",
             .prefer = "cautions:\n  - caution: hot-exhaust\n    text: keep hands off the exhaust"},
    CodePage{.code = Code::unknown_key,
             .what = "a map has a key that means nothing there, most often a typing slip",
             .why = "passed over, the value would look as if it counted",
             .avoid = "setings:\n  axle: hard",
             .prefer = "settings:\n  axle: hard"},
    CodePage{.code = Code::unknown_name,
             .what = "an adjustment, a symptom, a track state or another thing goes by this name "
                     "nowhere in the rules",
             .why = "passed over, what was said about it would be lost",
             .avoid = "settings: {rear-widht: 1360 mm}",
             .prefer = "settings: {rear-width: 1360 mm}"},
    CodePage{.code = Code::bad_number,
             .what = "figures alone were expected: a point for decimals, no unit, no zero in front",
             .why = "`1,5` and `010` are different numbers to different readers",
             .avoid = "settings: {axle: hard}\nminutes: {axle: '7,5'}",
             .prefer = "settings: {axle: hard}\nminutes: {axle: 7.5}"},
    CodePage{.code = Code::cannot_read,
             .shown = Shown::apart,
             .what = "there is no such file or folder, or it may not be read",
             .why = "an answer without the file would be about some other kart",
             .avoid = "`--kart blue72.yaml` where the file is called blue27.yaml",
             .prefer = "`--kart blue27.yaml`, or its full path from another folder"},
    CodePage{.code = Code::bad_quantity,
             .what = "a number and a unit of the right kind were expected",
             .why = "1360 may be millimetres, and 53 may be inches; a guess would be a wrong kart",
             .avoid = "settings: {rear-width: 1360}",
             .prefer = "settings: {rear-width: 1360 mm}"},
};

}  // namespace

std::span<const CodePage> document_pages() { return kDocumentPages; }

}  // namespace kartwright
