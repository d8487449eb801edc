#include "tests/mutants/rule_mutation.h"

#include <algorithm>
#include <array>
#include <map>
#include <optional>
#include <set>
#include <utility>

#include <fmt/format.h>

#include "engine/document/fields.h"

namespace kartwright {
namespace {

/// Which item or entry to take at every map or list on the way down.
using Path = std::vector<std::size_t>;

Node& at(Node& root, const Path& path) {
  Node* node = &root;
  for (const std::size_t step : path)
    node = node->type == Node::Type::map ? &node->entries.at(step).value : &node->items.at(step);
  return *node;
}

Path below(Path path, std::size_t step) {
  path.push_back(step);
  return path;
}

void remove(Node& root, const Path& path) {
  Node& parent = at(root, Path(path.begin(), path.end() - 1));
  const auto step = static_cast<std::ptrdiff_t>(path.back());
  if (parent.type == Node::Type::map) {
    parent.entries.erase(parent.entries.begin() + step);
  } else {
    parent.items.erase(parent.items.begin() + step);
  }
}

/// The path to the value of a key.
std::optional<Path> path_of(const Node& map, const Path& path, std::string_view key) {
  for (std::size_t i = 0; i < map.entries.size(); ++i) {
    if (map.entries[i].key == key) return below(path, i);
  }
  return std::nullopt;
}

std::string text_of(const Node& map, std::string_view key) {
  const Node* const node = map.find(key);
  return node == nullptr ? "" : node->text;
}

/// A number of a rule that a slip can change.
struct Number {
  std::string name;
  Path path;
};

/// Something that can be mutated.
struct Part {
  std::string sort, rule;
  std::optional<Path> whole = {};      ///< what goes where it is removed
  std::vector<Number> signs = {};      ///< each can be flipped by itself
  std::vector<Number> strengths = {};  ///< halved and doubled together
  std::optional<Path> when = {};       ///< a condition that can be negated
  std::optional<Path> answer = {};     ///< a yes or no that can be the other
  bool has_cases = false;
};

void flip_answer(Node& node) { node.text = node.text == "yes" ? "no" : "yes"; }

void negate(Node& when) {
  Node denied{.type = Node::Type::map, .span = when.span, .entries = {}};
  denied.entries.push_back({"not", when.span, when});
  when = std::move(denied);
}

void scale(Node& root, const std::vector<Number>& numbers, double factor) {
  for (const Number& number : numbers) {
    Node& node = at(root, number.path);
    node.text = scaled_text(node.text, factor);
  }
}

/// Numbers other than 0 under a key: the value itself, or those of a map.
std::vector<Number> numbers_under(const Node& map, const Path& path, std::string_view key) {
  std::vector<Number> out;
  const std::optional<Path> found = path_of(map, path, key);
  if (!found) return out;
  const Node& value = *map.find(key);
  if (leading_number(value.text) != 0.0) out.push_back({"", *found});
  for (std::size_t i = 0; i < value.entries.size(); ++i) {
    if (leading_number(value.entries[i].value.text) != 0.0)
      out.push_back({value.entries[i].key, below(*found, i)});
  }
  return out;
}

std::string sort_of_rule(const Node& rule) {
  constexpr std::array<std::pair<std::string_view, std::string_view>, 5> kSorts{
      {{"moves", "effect"},
       {"row", "reading"},
       {"decibans", "evidence"},
       {"then", "derivation"},
       {"says", "verdict"}}};
  for (const auto& [key, sort] : kSorts) {
    if (rule.find(key) != nullptr) return std::string(sort);
  }
  return "";
}

/// Parts of all rule files, found by walking them.
class PartFinder {
 public:
  explicit PartFinder(const Node& root) { walk(root, {}, root); }
  std::vector<Part> take() { return std::move(parts_); }

 private:
  void walk(const Node& node, const Path& path, const Node& parent) {
    if (node.type == Node::Type::map) {
      look_at(node, path, parent);
      for (std::size_t i = 0; i < node.entries.size(); ++i)
        walk(node.entries[i].value, below(path, i), node);
    }
    for (std::size_t i = 0; i < node.items.size(); ++i) walk(node.items[i], below(path, i), parent);
  }

  void look_at(const Node& map, const Path& path, const Node& parent) {
    if (map.find("id") != nullptr && map.find("because") != nullptr) rule(map, path);
    if (map.find("shift") != nullptr) brings(map, path, text_of(parent, "track"));
    if (map.find("a") != nullptr && map.find("b") != nullptr) correlation(map, path);
    if (map.find("fault") != nullptr && map.find("prior") != nullptr) fault(map, path);
    const Node* const values = map.find("values");
    if (values != nullptr && values->type == Node::Type::map && parent.find("fact") != nullptr)
      fact_prior(map, path, text_of(parent, "fact"));
    if (map.find("gauge") != nullptr) edges(map, path);
  }

  void rule(const Node& map, const Path& path) {
    Part part{.sort = sort_of_rule(map), .rule = text_of(map, "id"), .whole = path};
    if (part.sort.empty()) return;
    part.has_cases = part.sort != "verdict";
    part.when = path_of(map, path, "when");
    for (const std::string_view key : {"moves", "value", "decibans"}) {
      for (Number& number : numbers_under(map, path, key)) part.signs.push_back(std::move(number));
    }
    part.strengths = part.signs;
    if (const std::vector<Number> row = numbers_under(map, path, "row"); row.size() > 1)
      part.signs.insert(part.signs.end(), row.begin(), row.end());
    if (part.sort == "verdict") verdict(map, path, part);
    parts_.push_back(std::move(part));
  }

  void verdict(const Node& map, const Path& path, Part& part) {
    part.answer = path_of(map, path, "ok");
    for (const std::string_view key : {"states", "stops"}) {
      const std::optional<Path> found = path_of(map, path, key);
      if (!found) continue;
      parts_.push_back(
          {.sort = "verdict", .rule = fmt::format("{} of {}", key, part.rule), .whole = found});
    }
  }

  void brings(const Node& map, const Path& path, const std::string& track) {
    Part part{.sort = "forecast", .rule = "what comes after " + track, .whole = path};
    part.signs = part.strengths = numbers_under(map, path, "shift");
    parts_.push_back(std::move(part));
  }

  void correlation(const Node& map, const Path& path) {
    Part part{.sort = "correlation",
              .rule = text_of(map, "a") + " with " + text_of(map, "b"),
              .whole = path};
    part.signs = part.strengths = numbers_under(map, path, "value");
    parts_.push_back(std::move(part));
  }

  void fault(const Node& map, const Path& path) {
    const std::string name = text_of(map, "fault");
    Part prior{.sort = "fault", .rule = "prior of " + name};
    prior.signs = prior.strengths = numbers_under(map, path, "prior");
    parts_.push_back(std::move(prior));
    if (const std::optional<Path> stop = path_of(map, path, "stop"))
      parts_.push_back({.sort = "fault", .rule = "stop of " + name, .whole = stop});
  }

  void fact_prior(const Node& map, const Path& path, const std::string& fact) {
    parts_.push_back({.sort = "fact",
                      .rule = fmt::format("prior {} of {}", path.back() + 1, fact),
                      .whole = path,
                      .when = path_of(map, path, "when")});
  }

  /// An edge between two verdicts stands in both, and is moved in both.
  void edges(const Node& map, const Path& path) {
    const std::optional<Path> list = path_of(map, path, "verdicts");
    if (!list) return;
    std::map<std::pair<std::string, std::string>, std::vector<Number>> found;
    const std::vector<Node>& verdicts = map.find("verdicts")->items;
    for (std::size_t i = 0; i < verdicts.size(); ++i) {
      for (const std::string_view key : {"from", "to"}) {
        for (Number& number : numbers_under(verdicts[i], below(*list, i), key))
          found[{text_of(verdicts[i], "of"), text_of(verdicts[i], key)}].push_back(number);
      }
    }
    for (const auto& [edge, numbers] : found) {
      parts_.push_back(
          {.sort = "edge",
           .rule = fmt::format("{} at {} in {}", edge.first, edge.second, text_of(map, "gauge")),
           .signs = {},
           .strengths = numbers});
    }
  }

  std::vector<Part> parts_ = {};
};

/// The mutants of one part of one document.
void add_mutants(const Part& part, std::size_t document, std::vector<RuleMutant>& out) {
  const auto add = [&](RuleSlip slip, std::string place, std::function<void(Node&)> edit) {
    out.push_back({slip, part.sort, part.rule, std::move(place), document, std::move(edit)});
  };
  if (part.whole) {
    const auto gone = [path = *part.whole](Node& root) { remove(root, path); };
    add(RuleSlip::removed, "", gone);
    if (part.has_cases) add(RuleSlip::forgotten, "", gone);
  }
  for (const Number& number : part.signs)
    add(RuleSlip::flipped, number.name, [number](Node& root) { scale(root, {number}, -1.0); });
  if (part.sort == "edge")
    add(RuleSlip::flipped, "", [all = part.strengths](Node& root) { scale(root, all, -1.0); });
  if (part.when)
    add(RuleSlip::negated, "", [path = *part.when](Node& root) { negate(at(root, path)); });
  if (part.answer)
    add(RuleSlip::negated, "", [path = *part.answer](Node& root) { flip_answer(at(root, path)); });
  if (part.strengths.empty()) return;
  add(RuleSlip::halved, "", [all = part.strengths](Node& root) { scale(root, all, 0.5); });
  add(RuleSlip::doubled, "", [all = part.strengths](Node& root) { scale(root, all, 2.0); });
}

bool is_named(const Node& one, const std::string& rule) { return one.text == rule; }

/// True where nothing is left of a case.
bool forget_in(Node& one, const std::string& rule) {
  bool left = false;
  for (const std::string_view key : {"fires", "silent"}) {
    const auto entry = std::find_if(one.entries.begin(), one.entries.end(),
                                    [&](const Entry& each) { return each.key == key; });
    if (entry == one.entries.end()) continue;
    std::erase_if(entry->value.items, [&](const Node& each) { return is_named(each, rule); });
    const bool gone = is_named(entry->value, rule) ||
                      (entry->value.type == Node::Type::list && entry->value.items.empty());
    if (gone) one.entries.erase(entry);
    left = left || !gone;
  }
  return !left;
}

void forget(std::vector<Document>& cases, const std::string& rule) {
  for (Document& document : cases) {
    for (Entry& entry : document.root.entries)
      std::erase_if(entry.value.items, [&](Node& one) { return forget_in(one, rule); });
  }
}

}  // namespace

std::string_view name_of(RuleSlip slip) {
  constexpr std::array<std::string_view, kSlips> kNames{"removed", "forgotten", "flipped",
                                                        "negated", "halved",    "doubled"};
  return kNames.at(static_cast<std::size_t>(slip));
}

std::string RuleMutant::text() const {
  return fmt::format("{} {}{}{}", rule, name_of(slip), place.empty() ? "" : " at ", place);
}

std::vector<RuleMutant> rule_mutants(const std::vector<Document>& rules) {
  std::vector<RuleMutant> out;
  for (std::size_t i = 0; i < rules.size(); ++i) {
    for (const Part& part : PartFinder(rules[i].root).take()) add_mutants(part, i, out);
  }
  return out;
}

MutantAtWork::MutantAtWork(const RuleMutant& mutant, RuleFiles& files)
    : files_(files), document_(mutant.document), before_(files.rules.at(mutant.document)) {
  mutant.edit(files_.rules[document_].root);
  if (mutant.slip != RuleSlip::forgotten) return;
  cases_before_ = files_.cases;
  forget(files_.cases, mutant.rule);
}

MutantAtWork::~MutantAtWork() {
  files_.rules[document_] = std::move(before_);
  if (!cases_before_.empty()) files_.cases = std::move(cases_before_);
}

double leading_number(std::string_view text) {
  const std::size_t end = std::min(text.find_first_not_of("+-.0123456789"), text.size());
  const std::string_view digits = text.substr(text.starts_with('+') ? 1 : 0);
  return bare_number(digits.substr(0, end - (text.starts_with('+') ? 1 : 0))).value_or(0.0);
}

std::string scaled_text(std::string_view text, double factor) {
  std::size_t end = std::min(text.find_first_not_of("+-.0123456789"), text.size());
  double number = leading_number(text) * factor;
  if (end < text.size() && text[end] == '/') {
    number /= leading_number(text.substr(end + 1));
    end = std::min(text.find(' ', end), text.size());
  }
  return fmt::format("{}{:g}{}", text.starts_with('+') && number > 0.0 ? "+" : "", number,
                     text.substr(end));
}

}  // namespace kartwright
