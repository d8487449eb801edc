#include "engine/records/run_record.h"

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

std::vector<std::string> faults_of(const Run& run) {
  std::vector<std::string> faults;
  std::set<int> numbers;
  for (const RunLap& lap : run.laps) {
    if (!numbers.insert(lap.number).second)
      faults.push_back(fmt::format("lap {} stands twice", lap.number));
    if (!(lap.seconds > 0.0) || !std::isfinite(lap.seconds))
      faults.push_back(fmt::format("lap {} takes {} s", lap.number, lap.seconds));
  }
  for (const Report& report : run.reports) {
    if (report.severity < 0 || report.severity > 3)
      faults.push_back(fmt::format("a severity of {}", report.severity));
  }
  std::set<std::string> told;
  for (auto change = run.changes.rbegin(); change != run.changes.rend(); ++change) {
    if (!std::isfinite(change->steps))
      faults.push_back(
          fmt::format("a change of {} by {} steps", change->adjustment, change->steps));
    const std::string now = run.setting(change->adjustment);
    if (told.insert(change->adjustment).second && !now.empty() && now != change->to) {
      faults.push_back(fmt::format("`{}` was changed to {} and stands at {}", change->adjustment,
                                   change->to, now));
    }
  }
  if (!parse_moment(run.at)) faults.push_back("`" + run.at + "` is no moment");
  if (run.kart.empty()) faults.emplace_back("a run of no kart");
  return faults;
}

}  // namespace kartwright
