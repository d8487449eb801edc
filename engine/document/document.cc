#include "engine/document/document.h"

#include <algorithm>

namespace kartwright {

const Node* Node::find(std::string_view key) const {
  const auto entry =
      std::find_if(entries.begin(), entries.end(), [&](const Entry& e) { return e.key == key; });
  return entry == entries.end() ? nullptr : &entry->value;
}

std::string Document::line(int n) const {
  std::size_t begin = 0;
  for (int i = 1; i < n && begin != std::string::npos; ++i) {
    begin = text.find('\n', begin);
    if (begin != std::string::npos) ++begin;
  }
  if (n < 1 || begin == std::string::npos) return {};
  const std::size_t end = std::min(text.find('\n', begin), text.size());
  std::string found = text.substr(begin, end - begin);
  if (!found.empty() && found.back() == '\r') found.pop_back();
  return found;
}

Diagnostic Document::at(Span span, Code code, std::string message, std::string help) const {
  return {.code = code,
          .file = name,
          .span = span,
          .message = std::move(message),
          .help = std::move(help),
          .source = line(span.line)};
}

}  // namespace kartwright
