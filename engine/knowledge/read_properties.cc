// The properties that a pack claims of all its advice.

#include <algorithm>
#include <array>

#include "engine/knowledge/section_reader.h"

namespace kartwright {
namespace {

/// The kind that an id names; another id is reported with the nearest.
std::optional<PropertyKind> property_named(Fields& fields, const std::string& id,
                                           const Section& section) {
  using enum PropertyKind;
  std::vector<std::string> known;
  for (const PropertyKind kind :
       std::array{opposite_moves, left_and_right, inches_and_millimetres, worse_reports}) {
    if (name_of(kind) == id) return kind;
    known.emplace_back(name_of(kind));
  }
  const Node* const node = fields.optional("id");
  if (node != nullptr) known_name(section.document, *node, section.findings, "a property", known);
  return std::nullopt;
}

Property::Exception read_exception(const Node& node, bool of_symptoms, const Section& section) {
  Fields fields(section.document, node, section.findings, "an exception");
  const std::string key = of_symptoms ? "symptom" : "adjustment";
  Property::Exception exception{.id = fields.text(key), .because = fields.text("because")};
  fields.finish();
  const std::vector<std::string>& known =
      of_symptoms ? section.names.symptoms : section.names.adjustments;
  if (!exception.id.empty()) {
    check_names(node.find(key), (of_symptoms ? "a " : "an ") + key, {exception.id}, known, section);
  }
  return exception;
}

/// What it is claimed of: `symptoms` or `adjustments`, as its kind has it, without exceptions.
void read_scope(Fields& fields, const Section& section, Property& property) {
  const bool of_symptoms = is_of_symptoms(property.kind);
  const std::string key = of_symptoms ? "symptoms" : "adjustments";
  property.only = fields.texts_or_none(key);
  const std::vector<std::string>& known =
      of_symptoms ? section.names.symptoms : section.names.adjustments;
  check_names(fields.node().find(key), of_symptoms ? "a symptom" : "an adjustment", property.only,
              known, section);
  const Node* const except = fields.optional("except");
  if (except == nullptr) return;
  for (const Node& item : list_items(*except, "except", section)) {
    property.exceptions.push_back(read_exception(item, of_symptoms, section));
    const std::string& id = property.exceptions.back().id;
    const auto& only = property.only;
    if (only.empty() || std::find(only.begin(), only.end(), id) != only.end()) continue;
    section.refuse(item, Code::bad_rule, "`" + id + "` is excepted, but it was never claimed of it",
                   "take it out here, or add it to `" + key + "`");
  }
}

}  // namespace

void read_properties(const Node& list, const Section& section, Pack& pack) {
  for (const Node& item : list_items(list, "properties", section)) {
    Fields fields(section.document, item, section.findings, "a property");
    Property property;
    read_rule(fields, section, property);
    const auto kind = property_named(fields, property.id, section);
    if (!kind) continue;
    property.kind = *kind;
    read_scope(fields, section, property);
    fields.finish();
    pack.properties.push_back(std::move(property));
  }
}

}  // namespace kartwright
