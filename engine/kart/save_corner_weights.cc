#include "engine/kart/save_corner_weights.h"

#include <algorithm>
#include <array>
#include <string_view>

#include <fmt/format.h>

#include "engine/document/edit.h"

namespace kartwright {

namespace {

constexpr std::string_view kSection = "measured";
constexpr std::string_view kEntry = "corner-weights";

struct CornerKey {
  std::string_view key;
  double CornerLoads::*load;
};

constexpr std::array kCorners{
    CornerKey{"left-front", &CornerLoads::left_front},
    CornerKey{"right-front", &CornerLoads::right_front},
    CornerKey{"left-rear", &CornerLoads::left_rear},
    CornerKey{"right-rear", &CornerLoads::right_rear},
};

std::optional<double> read_back(const std::string& text) {
  const ParsedQuantity parsed = parse_quantity(text, Kind::mass);
  const auto* const quantity = std::get_if<Quantity>(&parsed);
  return quantity == nullptr ? std::nullopt : std::optional(quantity->si);
}

/// The fewest decimals that read back as the same double.
std::string exact_mass(double kg, System units) {
  const std::string_view unit = units == System::metric ? "kg" : "lb";
  const double one = read_back(fmt::format("1 {}", unit)).value_or(1.0);
  std::string text;
  for (int decimals = 0; decimals <= 15; ++decimals) {
    text = fmt::format("{:.{}f} {}", kg / one, decimals, unit);
    if (read_back(text) == kg) break;
  }
  return text;
}

std::string written_map(const CornerLoads& on, System units) {
  std::string text;
  for (const CornerKey& corner : kCorners) {
    text += fmt::format("{}{}: {}", text.empty() ? "" : ", ", corner.key,
                        exact_mass(on.*corner.load, units));
  }
  return "{" + text + "}";
}

std::string_view line_end(const Document& document) {
  return document.text.find("\r\n") == std::string::npos ? "\n" : "\r\n";
}

const Entry* entry_of(const Node& map, std::string_view key) {
  const auto found = std::find_if(map.entries.begin(), map.entries.end(),
                                  [&](const Entry& entry) { return entry.key == key; });
  return found == map.entries.end() ? nullptr : &*found;
}

/// The four values exchanged where they stand.
std::optional<std::string> with_values_replaced(const Document& document, const Node& corners,
                                                const CornerLoads& on, System units) {
  struct Piece {
    std::size_t from, to;
    std::string text;
  };
  std::vector<Piece> pieces;
  for (const CornerKey& corner : kCorners) {
    const Node* const value = corners.find(corner.key);
    if (value == nullptr || value->type != Node::Type::scalar) return {};
    const std::size_t from = offset_of(document, value->span);
    pieces.push_back(
        {from, end_of_value(document, value->span, from), exact_mass(on.*corner.load, units)});
  }
  std::sort(pieces.begin(), pieces.end(),
            [](const Piece& a, const Piece& b) { return a.from > b.from; });
  std::string text = document.text;
  for (const Piece& piece : pieces) text.replace(piece.from, piece.to - piece.from, piece.text);
  return text;
}

/// Behind the colon of a key without a value.
std::optional<std::string> with_text_behind(const Document& document, const Entry& entry,
                                            const std::string& put_in) {
  const std::size_t colon = document.text.find(':', offset_of(document, entry.span));
  if (colon == std::string::npos) return {};
  std::string text = document.text;
  text.insert(colon + 1, put_in);
  return text;
}

/// Before the first entry of the section, in braces or in lines as that is.
std::string with_entry_before(const Document& document, const Node& section,
                              const std::string& entry) {
  const Span first = section.entries.front().span;
  const std::size_t at = offset_of(document, first);
  const bool braces = document.text.at(offset_of(document, section.span)) == '{';
  const std::string between =
      braces ? ", "
             : std::string(line_end(document)) +
                   std::string(static_cast<std::size_t>(first.column) - 1, ' ');
  std::string text = document.text;
  return text.insert(at, entry + between);
}

std::string with_section_behind(const Document& document, const std::string& entry) {
  const std::string_view end = line_end(document);
  std::string text = document.text;
  if (!text.ends_with('\n')) text += end;
  return text + fmt::format("{}:{}  {}{}", kSection, end, entry, end);
}

std::optional<std::string> edited(const Document& document, const CornerLoads& on, System units) {
  const std::string map = written_map(on, units);
  const std::string entry = fmt::format("{}: {}", kEntry, map);
  const Entry* const section = entry_of(document.root, kSection);
  if (section == nullptr) return with_section_behind(document, entry);
  if (section->value.type == Node::Type::null) {
    return with_text_behind(document, *section, fmt::format("{}  {}", line_end(document), entry));
  }
  const Entry* const corners = entry_of(section->value, kEntry);
  if (corners != nullptr && corners->value.type == Node::Type::null) {
    return with_text_behind(document, *corners, " " + map);
  }
  if (corners != nullptr) return with_values_replaced(document, corners->value, on, units);
  if (section->value.entries.empty()) return {};
  return with_entry_before(document, section->value, entry);
}

/// The file without its corner weights; a section that is empty then counts as none.
Node without_weights(Node root) {
  std::erase_if(root.entries, [](Entry& entry) {
    if (entry.key != kSection) return false;
    std::erase_if(entry.value.entries, [](const Entry& each) { return each.key == kEntry; });
    return entry.value.entries.empty() && entry.value.type != Node::Type::scalar &&
           entry.value.type != Node::Type::list;
  });
  return root;
}

bool says_the_same(const Document& before, const std::string& text, const CornerLoads& on) {
  try {
    const Document after = parse_document(before.name, text);
    if (!same_node(without_weights(before.root), without_weights(after.root))) return false;
    const Node* const section = after.root.find(kSection);
    const Node* const corners = section == nullptr ? nullptr : section->find(kEntry);
    return corners != nullptr &&
           std::all_of(kCorners.begin(), kCorners.end(), [&](const CornerKey& corner) {
             const Node* const value = corners->find(corner.key);
             return value != nullptr && read_back(value->text) == on.*corner.load;
           });
  } catch (const InputError&) {
    return false;
  }
}

}  // namespace

std::optional<std::string> with_corner_weights(const Document& document, const CornerLoads& on,
                                               System units) {
  if (document.root.type != Node::Type::map || document.text.empty()) return {};
  std::optional<std::string> text = edited(document, on, units);
  if (!text || !says_the_same(document, *text, on)) return {};
  return text;
}

}  // namespace kartwright
