#include "engine/document/edit.h"

#include <algorithm>

#include "engine/document/utf8.h"

namespace kartwright {

std::size_t offset_of(const Document& document, Span span) {
  const std::size_t line = document.line_starts.at(static_cast<std::size_t>(span.line) - 1);
  return characters_behind(document.text, line,
                           static_cast<std::size_t>(std::max(1, span.column)) - 1);
}

std::size_t end_of_value(const Document& document, Span span, std::size_t from) {
  const char first = document.text.at(from);
  if (first == '\'' || first == '"') return document.text.find(first, from + 1) + 1;
  span.column += span.length;
  return offset_of(document, span);
}

bool same_node(const Node& a, const Node& b) {
  return a.type == b.type && a.text == b.text &&
         std::equal(a.items.begin(), a.items.end(), b.items.begin(), b.items.end(), same_node) &&
         std::equal(a.entries.begin(), a.entries.end(), b.entries.begin(), b.entries.end(),
                    [](const Entry& x, const Entry& y) {
                      return x.key == y.key && same_node(x.value, y.value);
                    });
}

}  // namespace kartwright
