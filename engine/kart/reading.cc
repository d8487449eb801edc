#include "engine/kart/reading.h"

#include <algorithm>

#include <fmt/format.h>

namespace kartwright {

void KartReading::error(Span span, Code code, std::string message, std::string help) {
  findings.add(document.at(span, code, std::move(message), std::move(help)));
}

void KartReading::warning(Span span, Code code, std::string message, std::string help) {
  Diagnostic diagnostic = document.at(span, code, std::move(message), std::move(help));
  diagnostic.severity = Severity::warning;
  findings.add(std::move(diagnostic));
}

std::optional<Quantity> KartReading::quantity(const Node& node, Kind kind) {
  const std::optional<Quantity> read = scalar_quantity(document, node, findings, kind);
  if (read && read->written && kind == Kind::length) {
    ++(*read->written == System::metric ? metric_lengths : imperial_lengths);
  }
  return read;
}

System KartReading::units() const {
  return imperial_lengths > metric_lengths ? System::imperial : System::metric;
}

std::vector<const Entry*> named_entries(KartReading& reading, const Node* section,
                                        std::string_view title, std::string_view each,
                                        const std::vector<std::string>& known) {
  std::vector<const Entry*> entries;
  if (section == nullptr) return entries;
  if (section->type != Node::Type::map) {
    reading.error(section->span, Code::wrong_shape,
                  fmt::format("`{}` must be a map of keys and values", title));
  }
  for (const Entry& entry : section->entries) {
    if (std::find(known.begin(), known.end(), entry.key) == known.end()) {
      reading.error(entry.span, Code::unknown_name, fmt::format("`{}` is not {}", entry.key, each),
                    suggestion(entry.key, known));
    } else if (entry.value.type == Node::Type::null) {
      reading.error(entry.span, Code::wrong_shape, fmt::format("`{}` has no value", entry.key),
                    "fill it in, or take the line out");
    } else {
      entries.push_back(&entry);
    }
  }
  return entries;
}

const Node* given(const Node* section, std::string_view key) {
  const Node* const found = section == nullptr ? nullptr : section->find(key);
  return found != nullptr && found->type != Node::Type::null ? found : nullptr;
}

std::vector<std::string> read_positions(KartReading& reading, const Adjustment& adjustment,
                                        const Node& node) {
  std::vector<std::string> names;
  const auto take = [&](const Node& item) {
    if (item.type != Node::Type::scalar) return;  // told by scalar_list
    const std::string each = fmt::format("a position of `{}`", adjustment.id);
    if (known_name(reading.document, item, reading.findings, each, adjustment.positions)) {
      names.push_back(item.text);
    }
  };
  scalar_list(reading.document, node, reading.findings, adjustment.id);
  if (node.type == Node::Type::scalar) take(node);
  for (const Node& item : node.items) take(item);
  return names;
}

std::string listing(const std::vector<std::string>& names) {
  return fmt::format("{}", fmt::join(names, ", "));
}

std::string as_written(const Quantity& quantity, Kind kind) {
  return print_quantity(quantity.si, kind, quantity.written.value_or(System::metric));
}

}  // namespace kartwright
