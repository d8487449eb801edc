#include "engine/knowledge/condition_reader.h"

#include <algorithm>
#include <array>
#include <utility>

namespace kartwright {
namespace {

Condition of_test(Test test) { return {.op = Condition::Op::test, .test = std::move(test)}; }

Condition joined(Condition::Op op, std::vector<Condition> parts) {
  if (op == Condition::Op::all && parts.size() == 1) return std::move(parts.front());
  return {.op = op, .parts = std::move(parts)};
}

std::string not_a(const std::string& name, const char* what, const std::string& of) {
  return "`" + name + "` is not a " + what + " of `" + of + "`";
}

class ConditionReader {
 public:
  ConditionReader(const Document& document, const Names& names, Findings& findings)
      : document_(document), names_(names), findings_(findings) {}

  Condition read(const Node& node) {
    if (node.type != Node::Type::map || node.entries.empty()) {
      return refuse(node, "a condition must be a map of tests");
    }
    std::vector<Condition> parts;
    for (const Entry& entry : node.entries) parts.push_back(read_key(entry));
    return joined(Condition::Op::all, std::move(parts));
  }

 private:
  using Reader = Condition (ConditionReader::*)(const Node&);

  Condition read_key(const Entry& entry) {
    static constexpr std::array<std::pair<std::string_view, Reader>, 9> kReaders{{
        {"track", &ConditionReader::track},
        {"laps", &ConditionReader::laps},
        {"fact", &ConditionReader::fact},
        {"report", &ConditionReader::report},
        {"setting", &ConditionReader::setting},
        {"measure", &ConditionReader::measure},
        {"all", &ConditionReader::all},
        {"any", &ConditionReader::any},
        {"not", &ConditionReader::negated},
    }};
    std::vector<std::string> known;
    for (const auto& [key, reader] : kReaders) {
      if (key == entry.key) return (this->*reader)(entry.value);
      known.emplace_back(key);
    }
    findings_.add(document_.at(entry.span, Code::bad_condition, "`" + entry.key + "` is not a test",
                               suggestion(entry.key, known)));
    return {};
  }

  Condition refuse(const Node& node, std::string message, std::string help = {}) {
    findings_.add(
        document_.at(node.span, Code::bad_condition, std::move(message), std::move(help)));
    return {};
  }

  Condition list(const Node& node, Condition::Op op) {
    if (node.type != Node::Type::list || node.items.empty()) {
      return refuse(node, "`all` and `any` take a list of conditions");
    }
    std::vector<Condition> parts;
    for (const Node& item : node.items) parts.push_back(read(item));
    return {.op = op, .parts = std::move(parts)};
  }
  Condition all(const Node& node) { return list(node, Condition::Op::all); }
  Condition any(const Node& node) { return list(node, Condition::Op::any); }
  Condition negated(const Node& node) {
    return {.op = Condition::Op::negated, .parts = {read(node)}};
  }

  Condition track(const Node& node) { return fact_test("track", node); }
  Condition laps(const Node& node) {
    if (!names_.fact_values.contains("laps")) return refuse(node, "there is no fact `laps`");
    return fact_test("laps", node);
  }

  /// A fact by its bare name has the value yes; a map names the values it may have.
  Condition fact(const Node& node) {
    if (node.type == Node::Type::scalar) {
      if (!known_name(document_, node, findings_, "a fact", names_.facts())) return {};
      return of_test(FactTest{node.text, {"yes"}});
    }
    return each(node, [this](const Entry& entry) {
      if (!names_.fact_values.contains(entry.key)) {
        findings_.add(document_.at(entry.span, Code::unknown_name,
                                   "`" + entry.key + "` is not a fact",
                                   suggestion(entry.key, names_.facts())));
        return Condition{};
      }
      return fact_test(entry.key, entry.value);
    });
  }

  Condition fact_test(const std::string& fact, const Node& node) {
    const auto known = names_.fact_values.find(fact);
    const std::vector<std::string> values = scalar_list(document_, node, findings_, fact);
    for (const std::string& value : values) {
      if (known == names_.fact_values.end()) break;
      if (std::find(known->second.begin(), known->second.end(), value) != known->second.end())
        continue;
      findings_.add(document_.at(node.span, Code::unknown_name, not_a(value, "value", fact),
                                 suggestion(value, known->second)));
    }
    return of_test(FactTest{fact, values});
  }

  Condition report(const Node& node) {
    if (node.type == Node::Type::scalar) {
      if (!known_name(document_, node, findings_, "a symptom", names_.symptoms)) return {};
      return of_test(ReportTest{.symptom = node.text});
    }
    Fields fields(document_, node, findings_, "a report test");
    ReportTest test;
    if (const Node* symptom = fields.required("symptom")) {
      known_name(document_, *symptom, findings_, "a symptom", names_.symptoms);
      test.symptom = symptom->text;
    }
    if (const Node* phase = fields.optional("phase")) {
      test.phase = phase_named(phase->text);
      if (!test.phase) refuse(*phase, "`" + phase->text + "` is not a phase");
    }
    if (const Node* severity = fields.optional("at-least")) {
      const bool good =
          severity->text.size() == 1 && severity->text >= "0" && severity->text <= "3";
      if (good) test.at_least = severity->text[0] - '0';
      if (!good) refuse(*severity, "`at-least` is 0, 1, 2 or 3");
    }
    fields.finish();
    return of_test(test);
  }

  template <typename One>
  Condition each(const Node& node, One one) {
    if (node.type != Node::Type::map || node.entries.empty()) {
      return refuse(node, "this test must be a map");
    }
    std::vector<Condition> parts;
    for (const Entry& entry : node.entries) parts.push_back(one(entry));
    return joined(Condition::Op::all, std::move(parts));
  }

  Condition setting(const Node& node) {
    return each(node, [this](const Entry& entry) {
      SettingTest test{.adjustment = entry.key};
      const auto directions = names_.directions.find(entry.key);
      if (directions == names_.directions.end()) {
        findings_.add(document_.at(entry.span, Code::unknown_name,
                                   "`" + entry.key + "` is not an adjustment",
                                   suggestion(entry.key, names_.adjustments)));
        return Condition{};
      }
      if (entry.value.type != Node::Type::map) {
        return positions(entry, std::move(test));
      }
      if (!names_.positions.at(entry.key).empty()) {
        return refuse(entry.value, "`" + entry.key + "` has named positions, not a range");
      }
      const auto kind = kind_named(names_.kinds.at(entry.key));
      if (!kind) return Condition{};  // told where it is defined
      Fields fields(document_, entry.value, findings_, "a setting test");
      if (fields.required("within") != nullptr) {
        if (const auto within = fields.quantity("within", *kind)) test.within = within->si;
      }
      if (const Node* end = fields.required("of")) {
        known_name(document_, *end, findings_, "a direction of it", directions->second);
        test.of_end = end->text;
      }
      fields.finish();
      return of_test(test);
    });
  }

  Condition positions(const Entry& entry, SettingTest test) {
    test.positions = scalar_list(document_, entry.value, findings_, entry.key);
    const std::vector<std::string>& known = names_.positions.at(entry.key);
    for (const std::string& position : test.positions) {
      if (std::find(known.begin(), known.end(), position) != known.end()) continue;
      findings_.add(document_.at(entry.value.span, Code::unknown_name,
                                 not_a(position, "position", entry.key),
                                 suggestion(position, known)));
    }
    return of_test(std::move(test));
  }

  Condition measure(const Node& node) {
    return each(node, [this](const Entry& entry) {
      MeasureTest test{.measure = entry.key};
      const std::vector<std::string>& known = names_.measures;
      if (std::find(known.begin(), known.end(), entry.key) == known.end()) {
        findings_.add(document_.at(entry.span, Code::unknown_name,
                                   "`" + entry.key + "` is not a measure",
                                   suggestion(entry.key, known)));
        return Condition{};
      }
      if (entry.value.type == Node::Type::map) return measure_limit(entry, std::move(test));
      if (entry.value.text != "above-band" && entry.value.text != "below-band") {
        return refuse(entry.value, "a measure is tested against its band or a limit",
                      "above-band, below-band, or a map with `above` or `below`");
      }
      if (entry.value.text == "below-band") test.side = MeasureTest::Side::below;
      return of_test(test);
    });
  }

  Condition measure_limit(const Entry& entry, MeasureTest test) {
    const auto kind = kind_named(names_.kinds.at(entry.key));
    if (!kind) return {};  // told where it is defined
    Fields fields(document_, entry.value, findings_, "a measure test");
    const auto above = fields.quantity("above", *kind);
    const auto below = fields.quantity("below", *kind);
    fields.finish();
    if (fields.optional("above") != nullptr && !above) return {};  // told
    if (fields.optional("below") != nullptr && !below) return {};
    if (above.has_value() == below.has_value()) {
      return refuse(entry.value, "a measure test names `above` or `below`, one of them");
    }
    test.side = above ? MeasureTest::Side::above : MeasureTest::Side::below;
    test.limit = above ? above->si : below->si;
    return of_test(std::move(test));
  }

  const Document& document_;
  const Names& names_;
  Findings& findings_;
};

}  // namespace

std::optional<Kind> kind_named(std::string_view name) {
  static constexpr std::array<std::pair<std::string_view, Kind>, 8> kKinds{{
      {"length", Kind::length},
      {"mass", Kind::mass},
      {"angle", Kind::angle},
      {"pressure", Kind::pressure},
      {"ratio", Kind::ratio},
      {"stiffness", Kind::stiffness},
      {"twist", Kind::twist},
      {"count", Kind::count},
  }};
  for (const auto& [text, kind] : kKinds) {
    if (text == name) return kind;
  }
  return name.empty() ? std::optional(Kind::count) : std::nullopt;
}

std::optional<Kind> read_kind(const Document& document, const Node& node, const std::string& name,
                              Findings& findings) {
  const std::optional<Kind> kind = kind_named(name);
  if (!kind) {
    findings.add(document.at(node.span, Code::unknown_name,
                             "`" + name + "` is not a kind of number",
                             "length, mass, angle, pressure, ratio or count"));
  }
  return kind;
}

Condition read_condition(const Document& document, const Node& node, const Names& names,
                         Findings& findings) {
  return ConditionReader(document, names, findings).read(node);
}

}  // namespace kartwright
