// codes.h - every diagnostic code there is. Codes are stable: never renumbered, never reused.

#pragma once

#include <array>
#include <string_view>

namespace kartwright {

/// D: documents, Q: quantities, R: rule packs, K: kart files, B: debriefs, O: options, A: the
/// audit of a rule pack that loads, C: the cases beside rule files, P: what a rule pack claims of
/// its advice, L: lap files, N: the log and what is applied from it.
enum class Code {
  not_utf8,
  not_yaml,
  too_large,
  too_deep,
  duplicate_key,
  more_than_one_document,
  anchor_or_alias,
  tag,
  unclosed_quote,
  wrong_shape,
  missing_key,
  unknown_key,
  unknown_name,
  bad_number,
  cannot_read,
  bad_quantity,
  duplicate_id,
  not_positive_definite,
  negation_cycle,
  bad_condition,
  bad_rule,
  no_axes,
  setting_out_of_range,
  setting_off_step,
  over_class_limit,
  implausible,
  settings_disagree,
  bad_report,
  phase_not_felt,
  bad_fact,
  bad_option,
  never_speaks,
  always_holds,
  same_rule_twice,
  subsumed_rule,
  unreachable_fact,
  dead_end_fact,
  idle_axis,
  unread_symptom,
  opposite_effects,
  opposite_readings,
  too_tangled,
  rule_silent,
  rule_fires,
  rule_without_case,
  foreign_rule,
  moves_not_opposite,
  sides_differ,
  units_differ,
  worse_report_lowers,
  bad_lap,
  no_such_column,
  no_laps,
  too_many_laps,
  nothing_to_compare,
  not_a_log,
  newer_log,
  damaged_log,
  log_not_created,
  log_not_written,
  log_busy,
  bad_record,
  run_differs,
  no_such_run,
  no_such_change,
};

struct CodeText {
  Code code;
  std::string_view name;     ///< as printed, `D005`
  std::string_view meaning;  ///< one line
  std::string_view mend;     ///< what to do about it
};

inline constexpr std::array kCodes{
    CodeText{Code::not_utf8, "D001", "the file is not UTF-8 text",
             "save the file as UTF-8 text; a spreadsheet or a word processor writes other files"},
    CodeText{Code::not_yaml, "D002", "the file is not YAML",
             "one `key: value` a line, the keys of a map under each other, blanks and no tabs "
             "before them; `kartwright start` writes a file to look at"},
    CodeText{Code::too_large, "D003", "the file is too large to be one of ours",
             "a kart or a debrief takes a few kilobytes; is this the right file?"},
    CodeText{Code::too_deep, "D004", "the file is nested too deep",
             "no file here goes deeper than a handful of levels; look for a bracket too many"},
    CodeText{Code::duplicate_key, "D005", "a key stands twice in one map",
             "keep one of the two: which was meant cannot be known"},
    CodeText{
        Code::more_than_one_document, "D006", "the file holds more than one document",
        "one document a file; take out the `---` and what stands behind it, or make a second file"},
    CodeText{Code::anchor_or_alias, "D007", "anchors, aliases and merge keys are not used here",
             "write the value out where it is used; quote a value that begins with `&` or `*`"},
    CodeText{Code::tag, "D008", "tags are not used here",
             "take the `!` word out; quote a value that begins with `!`"},
    CodeText{Code::unclosed_quote, "D009", "a quote is opened and never closed",
             "close the quote, or leave it out: few values need one"},
    CodeText{Code::wrong_shape, "D010", "a list, a map or a plain value was expected",
             "the message says what was expected: a plain value, a list `[a, b]`, or a map of keys "
             "and values"},
    CodeText{Code::missing_key, "D011", "a key that must be there is missing",
             "add the key that the message names"},
    CodeText{Code::unknown_key, "D012", "a key that is not known here",
             "correct the key; the nearest known one is named where there is one"},
    CodeText{Code::unknown_name, "D013", "a name that is not known here",
             "correct the name; `kartwright explain` lists what there is"},
    CodeText{Code::bad_number, "D014", "a plain number was expected",
             "write figures only, with a point for decimals and no zero in front: `12.5`"},
    CodeText{Code::cannot_read, "D015", "the file cannot be read",
             "check the path, and that you may read the file"},
    CodeText{Code::bad_quantity, "Q001", "a number with the right unit was expected",
             "write number and unit, as `1360 mm`, `53 1/2 in`, `0.8 bar` or `12 psi`"},
    CodeText{Code::duplicate_id, "R001", "an id is used twice",
             "give one of the two another id; the message says where the first stands"},
    CodeText{Code::not_positive_definite, "R002", "spreads and correlations that cannot be",
             "a spread or a correlation is larger than can be; make it smaller"},
    CodeText{Code::negation_cycle, "R003", "a fact that depends on its own absence",
             "two rules each wait for the other not to hold; the message prints the way round; "
             "break it"},
    CodeText{Code::bad_condition, "R004", "a condition that cannot be read",
             "conditions are maps of keys as `track`, `fact`, `report`, `setting`, `measure`, "
             "`all`, `any`, `not`"},
    CodeText{Code::bad_rule, "R005", "a rule that cannot be used",
             "the message says what the rule lacks or has too much of"},
    CodeText{
        Code::no_axes, "R006", "a rule pack without axes",
        "a rule pack needs `axes`; own rules usually stand on the built-in ones, with --rules"},
    CodeText{Code::setting_out_of_range, "K001", "a setting outside its own range or list",
             "check the number; where this kart goes further, say so under `ranges`"},
    CodeText{Code::setting_off_step, "K002", "a setting between two steps",
             "check the number; where this kart has other steps, say so under `ranges`. Moves are "
             "offered to the steps"},
    CodeText{Code::over_class_limit, "K003", "a setting outside the class limit",
             "the kart is not legal as it stands by its own file: check the setting, or the limit "
             "under `class`"},
    CodeText{Code::implausible, "K004", "a value no kart has",
             "check number and unit: the message names what karts have"},
    CodeText{Code::settings_disagree, "K005", "two settings that contradict each other",
             "give the one that was measured, and leave the other out"},
    CodeText{
        Code::bad_report, "B001", "a report that cannot be read",
        "write "
        "`symptom[@entry|mid|exit|straight][=0..3][,left|right][,early|late][,sure|fair|unsure]`"},
    CodeText{Code::phase_not_felt, "B002", "a symptom at a phase where it is not felt",
             "nothing need be done: it is heard, but says less than at a phase where it is felt"},
    CodeText{Code::bad_fact, "B003", "a fact that cannot be read",
             "write `id=value`; `kartwright explain ID` lists the values of a fact"},
    CodeText{Code::bad_option, "O001", "an option that cannot be used",
             "`kartwright COMMAND --help` lists the options of a command, with an example"},
    CodeText{Code::never_speaks, "A001", "a rule that can never speak",
             "no kart and no debrief fits its `when`: look for two tests that exclude each other, "
             "or for another rule that always takes its place"},
    CodeText{Code::always_holds, "A002", "a condition that holds whatever the case",
             "leave the `when` out, or test what was meant: as it stands it tells nothing apart"},
    CodeText{Code::same_rule_twice, "A003", "two rules that say the same in the same cases",
             "keep one of the two; heard twice, it weighs double"},
    CodeText{Code::subsumed_rule, "A004", "a rule that only repeats another in fewer cases",
             "leave the narrower one out, or keep the two apart with `not`; what both say weighs "
             "double where both hold"},
    CodeText{Code::unreachable_fact, "A005", "a fact that is tested and can never be",
             "let the crew state it (without `derived: yes`), or write a rule that concludes it"},
    CodeText{Code::dead_end_fact, "A006", "a fact that changes nothing",
             "write the rule that reads it, or take it out of `facts`: whoever states it is not "
             "heard"},
    CodeText{Code::idle_axis, "A007", "an axis that no change moves",
             "write an effect that moves it, or take the axis out: a complaint on it can only be "
             "listened to"},
    CodeText{
        Code::unread_symptom, "A008", "a symptom that no rule reads",
        "give it a `reading`, or test it in the evidence of a fault: whoever reports it is not "
        "heard"},
    CodeText{Code::opposite_effects, "A009", "two effects that pull one axis both ways at once",
             "the program takes their even mixture where both hold; keep the conditions apart with "
             "`not`, or mark both `contested: yes` where that is meant"},
    CodeText{Code::opposite_readings, "A010", "two readings that contradict each other at once",
             "nothing need be done where both are true of such a day; else keep the conditions "
             "apart with `not`"},
    CodeText{Code::too_tangled, "A011", "a condition too large to be judged",
             "the program uses it as it is, but the audit says nothing about it; write it with "
             "fewer `any` inside `all`, or as two rules"},
    CodeText{Code::rule_silent, "C001", "a rule that stays silent where its case says it fires",
             "compare the case with the rule's `when`, and mend the one that is wrong"},
    CodeText{Code::rule_fires, "C002", "a rule that fires where its case says it stays silent",
             "narrow the rule's `when`, or mend the case"},
    CodeText{Code::rule_without_case, "C003", "a rule that no case makes fire or keeps silent",
             "add the case that is missing to the *.cases.yaml beside the rule's file"},
    CodeText{Code::foreign_rule, "C004", "a case that names a rule of another file",
             "move the case beside the file of that rule"},
    CodeText{Code::moves_not_opposite, "P001", "a move and the move back that do not cancel",
             "let the rules of the adjustment give the same wherever it stands, or name the "
             "adjustment under `except` of the property, with the reason"},
    CodeText{Code::sides_differ, "P002", "left and right that are not answered alike",
             "give the rule for one side its twin for the other, or name the symptom under "
             "`except` of the property, with the reason"},
    CodeText{Code::units_differ, "P003", "a kart in inches that is not answered as in millimetres",
             "look for an amount in a rule that is finer than a kart file can write"},
    CodeText{Code::worse_report_lowers, "P004",
             "a worse report that lowers the belief that it is there",
             "the message names the case: look at the spread of a denial against that of a report, "
             "and at rules with `at-least`"},
    CodeText{
        Code::bad_lap, "L001", "a lap that cannot be read",
        "write one lap a row: its number, its time as `31.42` or `1:02.417`, its group; a decimal "
        "comma between commas needs quotes"},
    CodeText{Code::no_such_column, "L002", "a lap file lacks a column, or has two that it could be",
             "name the columns in the first row, or say which is meant, as `--column time=NAME`"},
    CodeText{Code::no_laps, "L003", "a lap file without a lap",
             "a row with the names of the columns, and below it a row for each lap"},
    CodeText{Code::too_many_laps, "L004", "more in a lap file than can be compared",
             "take the laps of one kart and one session out of it, with `--only COLUMN=VALUE`"},
    CodeText{Code::nothing_to_compare, "L005", "too few laps or groups to compare",
             "drive the first setting, then the other, then the first again, five laps or more of "
             "each, and name the group of every lap"},
    CodeText{Code::not_a_log, "N001", "the file is no log of this program",
             "give the log's own file behind --log; `kartwright log add` makes one"},
    CodeText{Code::newer_log, "N002", "a log that a newer program wrote",
             "use the newer kartwright, or let it export the log"},
    CodeText{Code::damaged_log, "N003", "a log that is damaged or cut short",
             "keep the file as it is; `kartwright log import` of an export makes a new one"},
    CodeText{Code::log_not_created, "N004", "a log that cannot be written where it is",
             "check the path, and that you may write into its folder"},
    CodeText{Code::log_not_written, "N005", "a log that could not be written",
             "what it held before it still holds: make room on the disk and try again"},
    CodeText{Code::log_busy, "N006", "a log that another program is writing into",
             "try again when it is done; nothing was written"},
    CodeText{Code::bad_record, "N007", "a record that is none of a log",
             "`kartwright log export` writes records as they are taken"},
    CodeText{Code::run_differs, "N008", "a run that the log holds already, and otherwise",
             "keep the log's, or give the run the moment at which it was driven"},
    CodeText{Code::no_such_run, "N009", "a run or a kart that is not in the log",
             "`kartwright log list` shows what is in it"},
    CodeText{Code::no_such_change, "N010", "a change that cannot be made or taken back",
             "the message says why; `kartwright advise` offers what may be changed"},
};

/// The printed name of a code.
constexpr std::string_view code_name(Code code) {
  return kCodes[static_cast<std::size_t>(code)].name;
}

}  // namespace kartwright
