#include "tests/schemas/document_json.h"

#include <cmath>
#include <regex>

#include <yaml-cpp/yaml.h>

#include "engine/document/edit.h"
#include "engine/document/fields.h"

namespace kartwright {
namespace {

using JsonTree = nlohmann::json;

bool is_quoted(const Document& document, const Node& node) {
  const std::size_t at = offset_of(document, node.span);
  return at < document.text.size() &&
         std::string_view("\"'|>").find(document.text[at]) != std::string_view::npos;
}

JsonTree tree_of(const Document& document, const Node& node) {
  switch (node.type) {
    case Node::Type::null:
      return nullptr;
    case Node::Type::scalar:
      return is_quoted(document, node) ? JsonTree(node.text) : plain_scalar(node.text);
    case Node::Type::list: {
      JsonTree list = JsonTree::array();
      for (const Node& item : node.items) list.push_back(tree_of(document, item));
      return list;
    }
    case Node::Type::map:
      break;
  }
  JsonTree map = JsonTree::object();
  for (const Entry& entry : node.entries) map[entry.key] = tree_of(document, entry.value);
  return map;
}

JsonTree tree_of(const YAML::Node& node) {
  if (node.IsScalar())
    return node.Tag() == "!" ? JsonTree(node.Scalar()) : plain_scalar(node.Scalar());
  if (node.IsSequence()) {
    JsonTree list = JsonTree::array();
    for (const YAML::Node& item : node) list.push_back(tree_of(item));
    return list;
  }
  if (!node.IsMap()) return nullptr;
  JsonTree map = JsonTree::object();
  for (const auto& entry : node) map[entry.first.Scalar()] = tree_of(entry.second);
  return map;
}

}  // namespace

JsonTree plain_scalar(std::string_view text) {
  static const std::regex kWhole("[-+]?[0-9]+");
  static const std::regex kNumber("[-+]?(\\.[0-9]+|[0-9]+(\\.[0-9]*)?)([eE][-+]?[0-9]+)?");
  const std::string whole(text);
  if (whole == "true" || whole == "True" || whole == "TRUE") return true;
  if (whole == "false" || whole == "False" || whole == "FALSE") return false;
  if (whole.size() > 18 || !std::regex_match(whole, kNumber)) return whole;
  if (std::regex_match(whole, kWhole)) return std::stoll(whole);
  const double number = std::stod(whole);
  return std::isfinite(number) ? JsonTree(number) : JsonTree(whole);
}

JsonTree json_of(const Document& document) { return tree_of(document, document.root); }

JsonTree json_of_lenient(const std::string& text) { return tree_of(YAML::Load(text)); }

}  // namespace kartwright
