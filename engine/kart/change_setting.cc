#include "engine/kart/change_setting.h"

#include <algorithm>

#include <fmt/format.h>

#include "engine/document/edit.h"
#include "engine/kart/travel.h"

namespace kartwright {

namespace {

constexpr std::string_view kSettings = "settings";

std::optional<Quantity> quantity_in(const std::string& text, Kind kind) {
  const ParsedQuantity parsed = parse_quantity(text, kind);
  const auto* const quantity = std::get_if<Quantity>(&parsed);
  return quantity == nullptr ? std::nullopt : std::optional(*quantity);
}

/// As closely as a kart file is read: at the end of its travel a hair more would be beyond it.
bool reads_as(const std::string& text, const Setting& setting, double value) {
  const std::optional<double> read = setting_value(setting, text);
  return read && same_value(*read, value, setting.travel.step);
}

/// As the crew writes it where that reads back, else with as many decimals as it takes.
std::string written(const Setting& setting, double value, System system) {
  std::string text = print_setting(setting, value, system);
  if (reads_as(text, setting, value)) return text;
  const std::string unit = text.substr(text.find_last_of(' ') + 1);
  const auto one = quantity_in("1 " + unit, setting.adjustment->kind);
  if (!one) return text;
  for (int decimals = 0; decimals <= 12; ++decimals) {
    text = fmt::format("{:.{}f} {}", value / one->si, decimals, unit);
    if (reads_as(text, setting, value)) break;
  }
  return text;
}

Node without_setting(Node root, std::string_view adjustment) {
  for (Entry& section : root.entries) {
    if (section.key != kSettings) continue;
    for (Entry& each : section.value.entries) {
      if (each.key == adjustment) each.value = {};
    }
  }
  return root;
}

bool only_that_changed(const Document& before, const std::string& text, const Setting& setting,
                       double to) {
  const std::string& id = setting.adjustment->id;
  try {
    const Document after = parse_document(before.name, text);
    const Node* const node = setting_node(after, id);
    return node != nullptr && node->type == Node::Type::scalar &&
           reads_as(node->text, setting, to) &&
           same_node(without_setting(before.root, id), without_setting(after.root, id));
  } catch (const InputError&) {
    return false;
  }
}

}  // namespace

std::optional<double> setting_value(const Setting& setting, const std::string& text) {
  const std::vector<std::string>& names = setting.travel.names;
  if (names.empty()) {
    const auto read = quantity_in(text, setting.adjustment->kind);
    return read ? std::optional(read->si) : std::nullopt;
  }
  const auto found = std::find(names.begin(), names.end(), text);
  if (found == names.end()) return {};
  return static_cast<double>(found - names.begin());
}

const Node* setting_node(const Document& document, std::string_view adjustment) {
  const Node* const section = document.root.find(kSettings);
  return section == nullptr ? nullptr : section->find(adjustment);
}

std::optional<std::string> with_setting(const Document& document, const Setting& setting,
                                        double to) {
  const Node* const node = setting_node(document, setting.adjustment->id);
  if (node == nullptr || node->type != Node::Type::scalar || document.text.empty()) return {};
  const auto now = quantity_in(node->text, setting.adjustment->kind);
  const System system = now && now->written ? *now->written : System::metric;
  const std::size_t from = offset_of(document, node->span);
  std::string text = document.text;
  text.replace(from, end_of_value(document, node->span, from) - from, written(setting, to, system));
  if (!only_that_changed(document, text, setting, to)) return {};
  return text;
}

}  // namespace kartwright
