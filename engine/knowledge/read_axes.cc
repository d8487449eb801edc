// The axes and their correlations: read before everything else, since rules point into them.

#include "engine/knowledge/section_reader.h"

namespace kartwright {
namespace {

Axis read_axis(const Node& node, const Document& document, Findings& findings) {
  Fields fields(document, node, findings, "an axis");
  Axis axis;
  axis.id = fields.text("axis");
  const std::size_t dot = axis.id.find('.');
  axis.family = axis.id.substr(0, dot);
  if (dot != std::string::npos) axis.phase = phase_named(axis.id.substr(dot + 1));
  axis.label = fields.text("label");
  axis.low = fields.text("low");
  axis.high = fields.text("high");
  axis.weight = fields.number("weight");
  axis.spread = fields.number("spread");
  axis.source = {document.name, node.span.line};
  fields.finish();
  const bool phase_good = dot == std::string::npos || (axis.phase && *axis.phase < Phase::straight);
  if (!phase_good || axis.weight <= 0.0 || axis.spread <= 0.0) {
    findings.add(document.at(node.span, Code::bad_rule, "an axis that cannot be",
                             "phase entry, mid or exit; weight and spread above zero"));
  }
  return axis;
}

}  // namespace

std::vector<Axis> read_axes(const std::vector<Document>& documents, Findings& findings) {
  std::vector<Axis> axes;
  for (const Document& document : documents) {
    const Node* list = document.root.find("axes");
    if (list == nullptr) continue;
    if (list->type != Node::Type::list) {
      findings.add(document.at(list->span, Code::wrong_shape, "`axes` must be a list"));
    }
    for (const Node& item : list->items) axes.push_back(read_axis(item, document, findings));
  }
  return axes;
}

}  // namespace kartwright
