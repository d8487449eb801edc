// codes.h - every diagnostic code there is. Codes are stable: never renumbered, never reused.

#pragma once

#include <array>
#include <string_view>

namespace kartwright {

/// D: documents, Q: quantities, R: rule packs, K: kart files, B: debriefs, O: options.
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
};

struct CodeText {
  Code code;
  std::string_view name;     ///< as printed, `D005`
  std::string_view meaning;  ///< one line
};

inline constexpr std::array kCodes{
    CodeText{Code::not_utf8, "D001", "the file is not UTF-8 text"},
    CodeText{Code::not_yaml, "D002", "the file is not YAML"},
    CodeText{Code::too_large, "D003", "the file is too large to be one of ours"},
    CodeText{Code::too_deep, "D004", "the file is nested too deep"},
    CodeText{Code::duplicate_key, "D005", "a key stands twice in one map"},
    CodeText{Code::more_than_one_document, "D006", "the file holds more than one document"},
    CodeText{Code::anchor_or_alias, "D007", "anchors, aliases and merge keys are not used here"},
    CodeText{Code::tag, "D008", "tags are not used here"},
    CodeText{Code::unclosed_quote, "D009", "a quote is opened and never closed"},
    CodeText{Code::wrong_shape, "D010", "a list, a map or a plain value was expected"},
    CodeText{Code::missing_key, "D011", "a key that must be there is missing"},
    CodeText{Code::unknown_key, "D012", "a key that is not known here"},
    CodeText{Code::unknown_name, "D013", "a name that is not known here"},
    CodeText{Code::bad_number, "D014", "a plain number was expected"},
    CodeText{Code::cannot_read, "D015", "the file cannot be read"},
    CodeText{Code::bad_quantity, "Q001", "a number with the right unit was expected"},
    CodeText{Code::duplicate_id, "R001", "an id is used twice"},
    CodeText{Code::not_positive_definite, "R002", "spreads and correlations that cannot be"},
    CodeText{Code::negation_cycle, "R003", "a fact that depends on its own absence"},
    CodeText{Code::bad_condition, "R004", "a condition that cannot be read"},
    CodeText{Code::bad_rule, "R005", "a rule that cannot be used"},
    CodeText{Code::no_axes, "R006", "a rule pack without axes"},
    CodeText{Code::setting_out_of_range, "K001", "a setting outside its own range or list"},
    CodeText{Code::setting_off_step, "K002", "a setting between two steps"},
    CodeText{Code::over_class_limit, "K003", "a setting outside the class limit"},
    CodeText{Code::implausible, "K004", "a value no kart has"},
    CodeText{Code::settings_disagree, "K005", "two settings that contradict each other"},
    CodeText{Code::bad_report, "B001", "a report that cannot be read"},
    CodeText{Code::phase_not_felt, "B002", "a symptom at a phase where it is not felt"},
    CodeText{Code::bad_fact, "B003", "a fact that cannot be read"},
    CodeText{Code::bad_option, "O001", "an option that cannot be used"},
};

/// The printed name of a code.
constexpr std::string_view code_name(Code code) {
  return kCodes[static_cast<std::size_t>(code)].name;
}

}  // namespace kartwright
