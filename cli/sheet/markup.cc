#include "cli/sheet/markup.h"

#include <algorithm>

#include "cli/page.h"

namespace kartwright::cli {

Markup::Markup(std::initializer_list<Markup> parts) {
  for (const Markup& part : parts) html_ += part.html_;
}

Markup& Markup::operator+=(const Markup& more) {
  html_ += more.html_;
  return *this;
}

std::string escaped(std::string_view text) {
  std::string out;
  out.reserve(text.size());
  for (const char c : text) {
    switch (c) {
      case '&':
        out += "&amp;";
        break;
      case '<':
        out += "&lt;";
        break;
      case '>':
        out += "&gt;";
        break;
      case '"':
        out += "&quot;";
        break;
      case '\'':
        out += "&#39;";
        break;
      default:
        out += c;
    }
  }
  return out;
}

Markup words(std::string_view text) {
  Markup out;
  out.html_ = escaped(printable(text));
  return out;
}

Markup words_in_lines(std::string_view lines) {
  Markup out;
  while (!lines.empty()) {
    const std::size_t end = std::min(lines.find('\n'), lines.size());
    out += words(lines.substr(0, end));
    lines.remove_prefix(std::min(end + 1, lines.size()));
    if (!lines.empty()) out.html_ += "\n";
  }
  return out;
}

Markup element(std::string_view name, const Attributes& attributes, const Markup& inside) {
  Markup out;
  out.html_ = "<" + std::string(name);
  for (const auto& [key, value] : attributes)
    out.html_ += " " + std::string(key) + "=\"" + escaped(printable(value)) + "\"";
  out.html_ += ">" + inside.html_ + "</" + std::string(name) + ">";
  return out;
}

Markup element(std::string_view name, const Markup& inside) { return element(name, {}, inside); }

}  // namespace kartwright::cli
