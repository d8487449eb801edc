#include "engine/records/run_record.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <set>

#include <fmt/format.h>

#include "engine/document/fields.h"
#include "engine/records/field_words.h"
#include "engine/records/run_fields.h"

namespace kartwright {

namespace {

/// Takes fields out of a map, each as the type it has.
class TakeFields {
 public:
  explicit TakeFields(Fields& fields) : fields_(fields) {}

  void operator()(const char* name, std::string& text) { text = fields_.text_or(name, ""); }
  void operator()(const char* name, double& number) { number = fields_.number(name); }
  void operator()(const char* name, int& number) {
    if (const Node* const node = fields_.required(name)) number = whole(name, *node);
  }
  void operator()(const char* name, bool& truth) {
    const Node* const node = fields_.optional(name);
    if (node == nullptr) return;
    truth = node->text == "true";
    if (node->text != "true" && node->text != "false") bad(*node, name, "true or false");
  }
  void operator()(const char* name, std::optional<double>& number) {
    const Node* const node = fields_.optional(name);
    if (node != nullptr)
      number = scalar_number(fields_.document(), *node, fields_.findings(), name);
  }
  void operator()(const char* name, std::optional<int>& number) {
    if (const Node* const node = fields_.optional(name)) number = whole(name, *node);
  }
  void operator()(const char* name, std::vector<std::string>& texts) {
    texts = out_of_one_text(fields_.text_or(name, ""));
  }
  template <typename Enum>
  requires std::is_enum_v<Enum>
  void operator()(const char* name, Enum& value) {
    const Node* const node = fields_.required(name);
    if (node != nullptr && !from_word(node->text, value)) bad(*node, name, "another word");
  }
  template <typename Enum>
  requires std::is_enum_v<Enum>
  void operator()(const char* name, std::optional<Enum>& value) {
    const Node* const node = fields_.optional(name);
    if (node != nullptr && !from_word(node->text, value.emplace()))
      bad(*node, name, "another word");
  }

 private:
  void bad(const Node& node, const char* name, const char* expected) {
    fields_.findings().add(fields_.document().at(
        node.span, Code::bad_record, fmt::format("`{}` is no `{}` of a run", node.text, name),
        fmt::format("{} was expected", expected)));
  }

  int whole(const char* name, const Node& node) {
    constexpr double kMost = 1e9;
    const double number = scalar_number(fields_.document(), node, fields_.findings(), name);
    if (number == std::floor(number) && std::abs(number) <= kMost) return static_cast<int>(number);
    bad(node, name, "a whole number");
    return 0;
  }

  Fields& fields_;
};

template <typename Part>
void read_part(const char* name, Fields& fields, std::vector<Part>& parts) {
  const Node* const list = fields.optional(std::string(name) + "s");
  if (list == nullptr) return;
  if (list->type != Node::Type::list) {
    fields.findings().add(fields.document().at(list->span, Code::wrong_shape,
                                               fmt::format("`{}s` must be a list", name)));
    return;
  }
  for (const Node& item : list->items) {
    Fields each(fields.document(), item, fields.findings(), std::string("a ") + name);
    TakeFields take(each);
    FieldsOf<Part>::each(parts.emplace_back(), take);
    each.finish();
  }
}

/// The moment of a run as logs write it.
void read_moment(Fields& fields, Run& run) {
  const Node* const node = fields.required("at");
  if (node == nullptr) return;
  const auto moment = parse_moment(node->text);
  if (moment) {
    run.at = *moment;
    return;
  }
  fields.findings().add(fields.document().at(node->span, Code::bad_record,
                                             fmt::format("`{}` is no moment", node->text),
                                             "date and time, as `2026-11-14T10:30:00`"));
}

}  // namespace

std::optional<Run> read_run(const Document& document, Findings& findings) {
  Findings here;
  Run run;
  Fields fields(document, document.root, here, "a run");
  run.kart = fields.text("kart");
  read_moment(fields, run);
  TakeFields take(fields);
  each_field_of_run(run, take);
  each_part_of_run(run, [&](const char* name, auto& parts) { read_part(name, fields, parts); });
  fields.finish();
  if (!here.has_errors()) {
    for (const std::string& fault : faults_of(run))
      here.add(document.at(document.root.span, Code::bad_record, fault));
  }
  for (const Diagnostic& each : here.all()) findings.add(each);
  if (here.has_errors()) return {};
  return run;
}

namespace {

using Faults = std::vector<std::string>;

void check_laps(const Run& run, Faults& faults) {
  std::set<int> numbers;
  for (const RunLap& lap : run.laps) {
    if (!numbers.insert(lap.number).second)
      faults.push_back(fmt::format("lap {} stands twice", lap.number));
    if (!(lap.seconds > 0.0) || !std::isfinite(lap.seconds))
      faults.push_back(fmt::format("lap {} takes {} s", lap.number, lap.seconds));
  }
  for (int number = 1; number <= static_cast<int>(run.laps.size()); ++number) {
    if (numbers.contains(number)) continue;
    faults.push_back(fmt::format("lap {} of {} is missing", number, *numbers.rbegin()));
    return;
  }
}

void check_changes(const Run& run, Faults& faults) {
  std::set<std::string> told;
  for (auto change = run.changes.rbegin(); change != run.changes.rend(); ++change) {
    if (!(std::abs(change->steps) <= kMostSteps))
      faults.push_back(
          fmt::format("a change of {} by {} steps", change->adjustment, change->steps));
    const std::string now = run.setting(change->adjustment);
    if (told.insert(change->adjustment).second && !now.empty() && now != change->to) {
      faults.push_back(fmt::format("`{}` was changed to {} and stands at {}", change->adjustment,
                                   change->to, now));
    }
  }
}

/// A control character, or a mark that turns the direction of what follows it. Line ends may stand
/// in a text.
bool steers_a_terminal(std::string_view text) {
  for (std::size_t i = 0; i < text.size(); ++i) {
    const auto byte = static_cast<unsigned char>(text[i]);
    if ((byte < 0x20U && byte != '\n') || byte == 0x7FU) return true;
    const std::string_view mark = text.substr(i, 3);
    if (byte == 0xC2U && mark.size() > 1 && static_cast<unsigned char>(mark[1]) < 0xA0U)
      return true;
    if ((mark >= "\xE2\x80\xAA" && mark <= "\xE2\x80\xAE") ||
        (mark >= "\xE2\x81\xA6" && mark <= "\xE2\x81\xA9"))
      return true;
  }
  return false;
}

/// Looks at texts, and finds those that no run can have.
struct CheckTexts {
  const char* part;
  Faults& faults;

  void operator()(const char* name, const std::string& text) const {
    constexpr std::array<std::string_view, 7> kNeeded{"adjustment", "value", "symptom", "fact",
                                                      "text",       "from",  "to"};
    const bool of_verdict = std::string_view(part) == "verdict";
    const bool needed = std::find(kNeeded.begin(), kNeeded.end(), name) != kNeeded.end() &&
                        !(of_verdict && std::string_view(name) == "text");
    if (text.empty() && needed) faults.push_back(fmt::format("a {} without `{}`", part, name));
    if (steers_a_terminal(text))
      faults.push_back(fmt::format("control characters in `{}` of the {}", name, part));
  }
  void operator()(const char* name, const std::vector<std::string>& texts) const {
    for (const std::string& text : texts) (*this)(name, text);
  }
  template <typename Other>
  void operator()(const char*, const Other&) const {}
};

void check_texts(const Run& run, Faults& faults) {
  const CheckTexts check_run{"run", faults};
  check_run("kart", run.kart);
  each_field_of_run(run, check_run);
  each_part_of_run(run, [&]<typename Part>(const char* name, const std::vector<Part>& parts) {
    for (const Part& part : parts) FieldsOf<Part>::each(part, CheckTexts{name, faults});
  });
}

}  // namespace

std::vector<std::string> faults_of(const Run& run) {
  Faults faults;
  check_laps(run, faults);
  for (const Report& report : run.reports) {
    if (report.severity < 0 || report.severity > 3)
      faults.push_back(fmt::format("a severity of {}", report.severity));
  }
  check_changes(run, faults);
  check_texts(run, faults);
  if (!parse_moment(run.at)) faults.push_back("`" + run.at + "` is no moment");
  if (run.kart.empty()) faults.emplace_back("a run of no kart");
  return faults;
}

}  // namespace kartwright
