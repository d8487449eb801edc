// reading.h - what every part of the kart reader shares: the document, the pack, the findings, and
// which system the lengths are written in.

#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/document/fields.h"
#include "engine/kart/kart.h"

namespace kartwright {

struct KartReading {
  const Document& document;
  const Pack& pack;
  Findings& findings;
  int metric_lengths = 0;
  int imperial_lengths = 0;

  void error(Span span, Code code, std::string message, std::string help = {});
  void warning(Span span, Code code, std::string message, std::string help = {});
  /// Reads a value with a unit and counts the system of lengths; what cannot be read is reported.
  std::optional<Quantity> quantity(const Node& node, Kind kind);
  /// The system most lengths so far are written in; metric where there are as many of each.
  System units() const;
};

/// The entries of a section whose keys are names, such as adjustment ids. Reports a section that is
/// not a map, a key that is not one of `known` (`each` says of what: "an adjustment") and a key
/// without a value; returns the others. A section that is not there has none.
std::vector<const Entry*> named_entries(KartReading& reading, const Node* section,
                                        std::string_view title, std::string_view each,
                                        const std::vector<std::string>& known);

/// The value under a key of a section, or nullptr where either is missing or empty.
const Node* given(const Node* section, std::string_view key);

/// The named positions of an adjustment that a node lists, one alone or several; what is not one is
/// reported and left out.
std::vector<std::string> read_positions(KartReading& reading, const Adjustment& adjustment,
                                        const Node& node);

/// "soft, medium, hard".
std::string listing(const std::vector<std::string>& names);

/// A value in the system it was written in, for messages.
std::string as_written(const Quantity& quantity, Kind kind);

/// The ids of a part of the pack, in its order.
template <typename Part>
std::vector<std::string> ids_of(const std::vector<Part>& parts) {
  std::vector<std::string> ids;
  for (const Part& part : parts) ids.push_back(part.id);
  return ids;
}

}  // namespace kartwright
