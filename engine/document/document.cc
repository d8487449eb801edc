#include "engine/document/document.h"

#include <algorithm>

namespace kartwright {
namespace {

std::string_view line_of(const Document& document, int n) {
  const std::vector<std::size_t>& starts = document.line_starts;
  const auto at = static_cast<std::size_t>(n) - 1;
  if (n < 1 || at >= starts.size()) return {};
  const std::string_view text = document.text;
  const std::size_t end = at + 1 < starts.size() ? starts[at + 1] - 1 : text.size();
  std::string_view line = text.substr(starts[at], end - starts[at]);
  if (line.ends_with('\r')) line.remove_suffix(1);
  return line;
}

}  // namespace

const Node* Node::find(std::string_view key) const {
  const auto entry =
      std::find_if(entries.begin(), entries.end(), [&](const Entry& e) { return e.key == key; });
  return entry == entries.end() ? nullptr : &entry->value;
}

std::string Document::line(int n) const { return std::string(line_of(*this, n)); }

Diagnostic Document::at(Span span, Code code, std::string message, std::string help) const {
  Diagnostic found{.code = code,
                   .file = name,
                   .span = span,
                   .message = std::move(message),
                   .help = std::move(help)};
  show_source(found, line_of(*this, span.line));
  return found;
}

}  // namespace kartwright
