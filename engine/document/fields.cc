#include "engine/document/fields.h"

#include <algorithm>
#include <charconv>
#include <cmath>

namespace kartwright {

Fields::Fields(const Document& document, const Node& node, Findings& findings, std::string what)
    : document_(document), node_(node), findings_(findings), what_(std::move(what)) {
  if (node.type == Node::Type::map) return;
  const bool empty = node.type == Node::Type::null;
  findings.add(document.at(node.span, Code::wrong_shape,
                           empty ? what_ + " is empty; it must be a map of keys and values"
                                 : what_ + " must be a map of keys and values"));
}

const Node* Fields::optional(std::string_view key) {
  known_.emplace_back(key);
  const Node* found = node_.find(key);
  return found != nullptr && found->type != Node::Type::null ? found : nullptr;
}

const Node* Fields::required(std::string_view key) {
  const Node* found = optional(key);
  if (found == nullptr && node_.type == Node::Type::map) {
    findings_.add(
        document_.at(node_.span, Code::missing_key, what_ + " needs `" + std::string(key) + "`"));
  }
  return found;
}

std::string Fields::text(std::string_view key) {
  const Node* node = required(key);
  return node == nullptr ? std::string() : scalar_text(document_, *node, findings_, key);
}

std::string Fields::text_or(std::string_view key, std::string fallback) {
  const Node* node = optional(key);
  return node == nullptr ? std::move(fallback) : scalar_text(document_, *node, findings_, key);
}

double Fields::number(std::string_view key) {
  const Node* node = required(key);
  return node == nullptr ? 0.0 : scalar_number(document_, *node, findings_, key);
}

double Fields::number_or(std::string_view key, double fallback) {
  const Node* node = optional(key);
  return node == nullptr ? fallback : scalar_number(document_, *node, findings_, key);
}

std::vector<std::string> Fields::texts_or_none(std::string_view key) {
  const Node* node = optional(key);
  if (node == nullptr) return {};
  return scalar_list(document_, *node, findings_, key);
}

std::optional<Quantity> Fields::quantity(std::string_view key, Kind kind) {
  const Node* node = optional(key);
  return node == nullptr ? std::nullopt : scalar_quantity(document_, *node, findings_, kind);
}

void Fields::finish() {
  for (const Entry& entry : node_.entries) {
    if (std::find(known_.begin(), known_.end(), entry.key) != known_.end()) continue;
    findings_.add(document_.at(entry.span, Code::unknown_key,
                               "`" + entry.key + "` is not a key of " + what_,
                               suggestion(entry.key, known_)));
  }
}

std::string scalar_text(const Document& document, const Node& node, Findings& findings,
                        std::string_view what) {
  if (node.type == Node::Type::scalar) return node.text;
  findings.add(document.at(node.span, Code::wrong_shape,
                           "`" + std::string(what) + "` must be a plain value"));
  return {};
}

std::vector<std::string> scalar_list(const Document& document, const Node& node, Findings& findings,
                                     std::string_view what) {
  if (node.type == Node::Type::scalar) return {node.text};
  if (node.type != Node::Type::list) {
    findings.add(
        document.at(node.span, Code::wrong_shape,
                    "`" + std::string(what) + "` must be a plain value or a list of them"));
    return {};
  }
  std::vector<std::string> texts;
  for (const Node& item : node.items) texts.push_back(scalar_text(document, item, findings, what));
  return texts;
}

std::optional<double> bare_number(std::string_view text) {
  if (text.starts_with('+') && !text.starts_with("+-")) text.remove_prefix(1);
  const std::string_view digits = text.substr(text.starts_with('-') ? 1 : 0);
  const bool digit_behind = digits.size() > 1 && digits[1] >= '0' && digits[1] <= '9';
  if (digits.starts_with('0') && digit_behind) return {};  // `010` is eight to some readers
  double value = 0.0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc{} || end != text.data() + text.size() || !std::isfinite(value)) return {};
  return value;
}

double scalar_number(const Document& document, const Node& node, Findings& findings,
                     std::string_view what) {
  const std::string text = scalar_text(document, node, findings, what);
  const std::optional<double> value = bare_number(text);
  if (!value && node.type == Node::Type::scalar) {
    findings.add(document.at(node.span, Code::bad_number,
                             "`" + text + "` is not a number for `" + std::string(what) + "`"));
  }
  return value.value_or(0.0);
}

std::optional<Quantity> scalar_quantity(const Document& document, const Node& node,
                                        Findings& findings, Kind kind) {
  const std::string text = scalar_text(document, node, findings, "a quantity");
  if (node.type != Node::Type::scalar) return std::nullopt;
  const ParsedQuantity parsed = parse_quantity(text, kind);
  if (const auto* error = std::get_if<QuantityError>(&parsed)) {
    findings.add(document.at(node.span, Code::bad_quantity, "`" + text + "`: " + error->what,
                             "expected " + error->expected));
    return std::nullopt;
  }
  return std::get<Quantity>(parsed);
}

bool known_name(const Document& document, const Node& node, Findings& findings,
                std::string_view what, const std::vector<std::string>& known) {
  if (std::find(known.begin(), known.end(), node.text) != known.end()) return true;
  findings.add(document.at(node.span, Code::unknown_name,
                           "`" + node.text + "` is not " + std::string(what),
                           suggestion(node.text, known)));
  return false;
}

}  // namespace kartwright
