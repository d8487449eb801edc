// fields.h - reads typed values out of a document's maps, collecting every mistake on the way.
//
// A loader names the keys it knows, takes each one as the type it needs, and ends with `finish`,
// which reports the keys nobody asked for. After a mistake a harmless value is returned and reading
// goes on.

#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/document/document.h"
#include "engine/quantity/quantity.h"

namespace kartwright {

class Fields {
 public:
  /// `what` names the map in messages: "an adjustment". A node that is not a map is reported.
  Fields(const Document& document, const Node& node, Findings& findings, std::string what);

  /// The value under a key, or nullptr (the key counts as known from now on).
  const Node* optional(std::string_view key);
  /// The same; a missing key is reported.
  const Node* required(std::string_view key);

  std::string text(std::string_view key);                           ///< required scalar
  std::string text_or(std::string_view key, std::string fallback);  ///< optional scalar
  double number(std::string_view key);                              ///< required bare number
  double number_or(std::string_view key, double fallback);
  std::vector<std::string> texts_or_none(std::string_view key);  ///< a scalar, a list, or nothing
  /// Optional quantity with a unit.
  std::optional<Quantity> quantity(std::string_view key, Kind kind);

  /// Reports every key that was never asked for, with the nearest one that was.
  void finish();

  const Document& document() const { return document_; }
  const Node& node() const { return node_; }
  Findings& findings() const { return findings_; }

 private:
  const Document& document_;
  const Node& node_;
  Findings& findings_;
  std::string what_;
  std::vector<std::string> known_;
};

/// The scalar text of a node; anything else is reported and read as empty.
std::string scalar_text(const Document& document, const Node& node, Findings& findings,
                        std::string_view what);
/// A list of scalars, or one scalar as a list of one.
std::vector<std::string> scalar_list(const Document& document, const Node& node, Findings& findings,
                                     std::string_view what);
/// A finite bare number by std::from_chars.
std::optional<double> bare_number(std::string_view text);
double scalar_number(const Document& document, const Node& node, Findings& findings,
                     std::string_view what);
std::optional<Quantity> scalar_quantity(const Document& document, const Node& node,
                                        Findings& findings, Kind kind);
/// Reports an unknown name with the nearest known one, and returns false; true where it is known.
bool known_name(const Document& document, const Node& node, Findings& findings,
                std::string_view what, const std::vector<std::string>& known);

}  // namespace kartwright
