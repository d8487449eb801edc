#include "tests/scenarios/expectation.h"

#include <array>
#include <cmath>

#include "engine/debrief/debrief_file.h"
#include "engine/debrief/report_grammar.h"
#include "engine/decision/headline.h"
#include "engine/decision/options.h"
#include "engine/document/fields.h"

namespace kartwright {
namespace {

constexpr double kHalfNotch = 0.5;
constexpr std::array<std::string_view, 5> kLevels{"low", "fair", "high", "not-low", "not-high"};

template <typename Items, typename Id>
std::vector<std::string> ids_of(const Items& items, Id id) {
  std::vector<std::string> ids;
  for (const auto& item : items) ids.push_back(id(item));
  return ids;
}

template <typename Items>
std::vector<std::string> ids_of(const Items& items) {
  return ids_of(items, [](const auto& item) { return item.id; });
}

std::vector<std::string> headlines() {
  using enum Headline;
  return ids_of(std::array{stop_and_fix, ask_again, leave_alone, wait_for_track, change},
                [](Headline each) { return std::string(name_of(each)); });
}

std::vector<std::string> reasons() {
  using enum Refusal;
  return ids_of(std::array{end_stop, class_limit, no_part, no_time, makes_worse, not_on_this_kart,
                           effect_unknown},
                [](Refusal each) { return std::string(name_of(each)); });
}

/// The keys of `expect`, taken one by one.
class Reader {
 public:
  Reader(const Document& document, const Node& node, const Pack& pack, Findings& findings)
      : fields_(document, node, findings, "`expect`"),
        document_(document),
        pack_(pack),
        findings_(findings) {}

  Expectation read() {
    if (fields_.node().entries.empty()) wrong(fields_.node().span, "`expect` expects nothing");
    Expectation out{.headline = name("headline", "a headline", headlines())};
    out.first = moves("first");
    out.not_first = moves("not-first");
    out.ranked = moves("ranked");
    out.not_ranked = moves("not-ranked");
    out.refused = refused();
    out.first_check = name("first-check", "a fault", ids_of(pack_.faults));
    out.checks = faults("checks");
    out.no_checks = faults("no-checks");
    out.axes = axes();
    out.heard = heard();
    out.not_understood = count("not-understood");
    out.facts = facts();
    out.look_over = flag("look-over");
    fields_.finish();
    return out;
  }

 private:
  void wrong(const Span& span, std::string message) {
    findings_.add(document_.at(span, Code::wrong_shape, std::move(message)));
  }

  bool known(const Node& node, std::string_view what, const std::vector<std::string>& names) {
    return known_name(document_, node, findings_, what, names);
  }

  /// The value under a key, where it has the shape; another is reported.
  const Node* shaped(std::string_view key, Node::Type type) {
    const Node* const node = fields_.optional(key);
    if (node == nullptr || node->type == type) return node;
    wrong(node->span,
          "`" + std::string(key) + "` must be a " + (type == Node::Type::map ? "map" : "list"));
    return nullptr;
  }

  std::optional<std::string> name(std::string_view key, std::string_view what,
                                  const std::vector<std::string>& names) {
    const Node* const node = fields_.optional(key);
    if (node == nullptr || !known(*node, what, names)) return std::nullopt;
    return node->text;
  }

  NamedMove move(Fields& fields) {
    const Node* const adjustment = fields.required("adjustment");
    const Node* const direction = fields.required("direction");
    if (adjustment == nullptr || direction == nullptr) return {};
    if (!known(*adjustment, "an adjustment", ids_of(pack_.adjustments))) return {};
    const auto& directions = pack_.adjustment(adjustment->text)->directions;
    known(*direction, "a direction", {directions.begin(), directions.end()});
    return {adjustment->text, direction->text};
  }

  std::vector<Node> maps(std::string_view key) {
    const Node* const node = fields_.optional(key);
    if (node == nullptr) return {};
    if (node->type == Node::Type::list) return node->items;
    return {*node};
  }

  std::vector<NamedMove> moves(std::string_view key) {
    std::vector<NamedMove> out;
    for (const Node& node : maps(key)) {
      Fields fields(document_, node, findings_, "a move");
      out.push_back(move(fields));
      fields.finish();
    }
    return out;
  }

  std::vector<RefusedMove> refused() {
    std::vector<RefusedMove> out;
    for (const Node& node : maps("refused")) {
      Fields fields(document_, node, findings_, "a refused move");
      RefusedMove each{.move = move(fields), .reason = {}};
      if (const Node* const reason = fields.required("reason")) {
        if (known(*reason, "a reason", reasons())) each.reason = reason->text;
      }
      fields.finish();
      out.push_back(each);
    }
    return out;
  }

  std::vector<std::string> faults(std::string_view key) {
    const Node* const node = fields_.optional(key);
    if (node == nullptr) return {};
    if (node->type == Node::Type::scalar) known(*node, "a fault", ids_of(pack_.faults));
    for (const Node& each : node->items) known(each, "a fault", ids_of(pack_.faults));
    return scalar_list(document_, *node, findings_, key);
  }

  std::map<std::string, Level> axes() {
    std::map<std::string, Level> out;
    const Node* const node = shaped("axes", Node::Type::map);
    if (node == nullptr) return out;
    for (const Entry& entry : node->entries) {
      const Node key{.text = entry.key, .span = entry.span, .entries = {}};
      if (!known(
              Node{.type = Node::Type::scalar, .text = key.text, .span = key.span, .entries = {}},
              "an axis", ids_of(pack_.axes)))
        continue;
      for (std::size_t i = 0; i < kLevels.size(); ++i) {
        if (entry.value.text == kLevels.at(i)) out[entry.key] = static_cast<Level>(i);
      }
      if (!out.contains(entry.key)) known(entry.value, "a level", {kLevels.begin(), kLevels.end()});
    }
    return out;
  }

  std::optional<std::vector<Report>> heard() {
    const Node* const node = shaped("heard", Node::Type::list);
    if (node == nullptr) return std::nullopt;
    std::vector<Report> out;
    for (const Node& item : node->items) {
      const WrittenAt at{
          .file = document_.name, .span = item.span, .source = document_.line(item.span.line)};
      const auto report = parse_report(item.text, pack_, at, findings_);
      if (report) out.push_back(*report);
    }
    return out;
  }

  std::optional<int> count(std::string_view key) {
    const Node* const node = fields_.optional(key);
    if (node == nullptr) return std::nullopt;
    const double number = scalar_number(document_, *node, findings_, key);
    if (number < 0.0 || number != std::floor(number)) wrong(node->span, "a count was expected");
    return static_cast<int>(number);
  }

  std::optional<bool> flag(std::string_view key) {
    const auto word = name(key, "an answer", {"yes", "no"});
    if (!word) return std::nullopt;
    return *word == "yes";
  }

  std::map<std::string, std::string> facts() {
    std::map<std::string, std::string> out;
    const Node* const node = shaped("facts", Node::Type::map);
    if (node == nullptr) return out;
    for (const Entry& entry : node->entries) {
      const FactDef* const fact = pack_.fact(entry.key);
      if (fact == nullptr) {
        wrong(entry.span, "`" + entry.key + "` is not a fact");
      } else if (known(entry.value, "a value of `" + entry.key + "`", fact->values)) {
        out[entry.key] = entry.value.text;
      }
    }
    return out;
  }

  Fields fields_;
  const Document& document_;
  const Pack& pack_;
  Findings& findings_;
};

}  // namespace

std::string_view name_of(Level level) { return kLevels.at(static_cast<std::size_t>(level)); }

bool lies(double mean, Level level) {
  switch (level) {
    case Level::low:
      return mean <= -kHalfNotch;
    case Level::high:
      return mean >= kHalfNotch;
    case Level::not_low:
      return mean > -kHalfNotch;
    case Level::not_high:
      return mean < kHalfNotch;
    case Level::fair:
      break;
  }
  return mean > -kHalfNotch && mean < kHalfNotch;
}

Scenario read_scenario(const Document& document, const Pack& pack, Findings& findings) {
  DebriefFile file = read_debrief(document, pack, findings);
  Scenario scenario{.path = document.name,
                    .title = {},
                    .because = {},
                    .debrief = std::move(file.debrief),
                    .kart = typical_kart(pack),
                    .expect = {}};
  if (!file.kart_path.empty()) {
    scenario.kart = read_kart(read_document(file.kart_path), pack, findings);
  } else if (file.kart) {
    scenario.kart = std::move(*file.kart);
  }
  // The debrief's own keys were judged by read_debrief; these three are left to us.
  Findings known_already;
  Fields fields(document, document.root, known_already, "a scenario");
  scenario.title = fields.text("title");
  scenario.because = fields.text("because");
  const Node* const expect = fields.required("expect");
  for (const Diagnostic& missing : known_already.all()) findings.add(missing);
  if (expect != nullptr) scenario.expect = Reader(document, *expect, pack, findings).read();
  return scenario;
}

}  // namespace kartwright
