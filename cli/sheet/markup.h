// markup.h - HTML and SVG that is well formed because it cannot be put together otherwise: a text
// comes in through words() or as the value of an attribute, and is escaped there.

#pragma once

#include <initializer_list>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace kartwright::cli {

/// Elements and texts, one behind the other.
class Markup {
 public:
  Markup() = default;
  /// Several, one behind the other.
  Markup(std::initializer_list<Markup> parts);

  Markup& operator+=(const Markup& more);
  bool empty() const { return html_.empty(); }
  const std::string& html() const { return html_; }

 private:
  friend Markup words(std::string_view text);
  friend Markup words_in_lines(std::string_view lines);
  friend Markup element(std::string_view name,
                        const std::vector<std::pair<std::string_view, std::string>>& attributes,
                        const Markup& inside);
  std::string html_;
};

using Attributes = std::vector<std::pair<std::string_view, std::string>>;

/// A text of anybody: controls and marks of text direction are taken out, the rest is escaped.
Markup words(std::string_view text);

/// The same with the breaks of its lines, for a `pre`.
Markup words_in_lines(std::string_view lines);

/// `<name a="...">inside</name>`. REQUIRES: the name and those of the attributes are ours, and the
/// element is none that has no end tag.
Markup element(std::string_view name, const Attributes& attributes, const Markup& inside);
Markup element(std::string_view name, const Markup& inside);

/// A text with `& < > " '` escaped, fit for content and for a value in quotes.
std::string escaped(std::string_view text);

}  // namespace kartwright::cli
