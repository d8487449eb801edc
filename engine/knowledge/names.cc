#include "engine/knowledge/names.h"

#include <algorithm>

namespace kartwright {
namespace {

constexpr std::string_view kRoom = "room:";

std::string text_under(const Node& node, std::string_view key) {
  const Node* found = node.find(key);
  return found != nullptr && found->type == Node::Type::scalar ? found->text : std::string();
}

std::vector<std::string> texts_under(const Node& node, std::string_view key) {
  std::vector<std::string> texts;
  const Node* found = node.find(key);
  if (found == nullptr) return texts;
  if (found->type == Node::Type::scalar) return {found->text};
  for (const Node& item : found->items) texts.push_back(item.text);
  return texts;
}

void add(std::vector<std::string>& to, const std::string& name) {
  if (!name.empty() && std::find(to.begin(), to.end(), name) == to.end()) to.push_back(name);
}

template <typename Visit>
void each_item(const Node& root, std::string_view key, Visit visit) {
  const Node* list = root.find(key);
  if (list == nullptr) return;
  for (const Node& item : list->items) visit(item);
}

void gather_lists(const Node& root, Names& names) {
  each_item(root, "axes", [&](const Node& item) {
    const std::string id = text_under(item, "axis");
    add(names.axes, id);
    add(names.families, id.substr(0, id.find('.')));
  });
  each_item(root, "symptoms",
            [&](const Node& item) { add(names.symptoms, text_under(item, "symptom")); });
  each_item(root, "word-classes",
            [&](const Node& item) { add(names.word_classes, text_under(item, "class")); });
  each_item(root, "cautions",
            [&](const Node& item) { add(names.cautions, text_under(item, "caution")); });
  each_item(root, "measures", [&](const Node& item) {
    const std::string id = text_under(item, "measure");
    add(names.measures, id);
    names.kinds[id] = text_under(item, "kind");
  });
  each_item(root, "drill-levels",
            [&](const Node& item) { add(names.drill_levels, text_under(item, "level")); });
  each_item(root, "facts", [&](const Node& item) {
    names.fact_values[text_under(item, "fact")] = texts_under(item, "values");
  });
}

void gather_adjustment(const Node& root, Names& names) {
  const std::string id = text_under(root, "adjustment");
  if (id.empty()) return;
  add(names.adjustments, id);
  names.directions[id] = texts_under(root, "directions");
  names.positions[id] = texts_under(root, "positions");
  names.kinds[id] = text_under(root, "kind");
}

}  // namespace

std::vector<std::string> Names::facts() const {
  std::vector<std::string> ids;
  for (const auto& [id, values] : fact_values) ids.push_back(id);
  return ids;
}

std::vector<std::string> Names::axes_and_families() const {
  std::vector<std::string> all = axes;
  for (const std::string& family : families) add(all, family);
  return all;
}

std::string room_fact(const std::string& adjustment, const std::string& direction) {
  std::string id(kRoom);
  id.reserve(kRoom.size() + adjustment.size() + 1 + direction.size());
  return id.append(adjustment).append(":").append(direction);
}

bool is_room_fact(std::string_view fact) { return fact.starts_with(kRoom); }

Names gather_names(const std::vector<const Document*>& documents) {
  Names names;
  for (const Document* document : documents) {
    gather_lists(document->root, names);
    gather_adjustment(document->root, names);
    add(names.tracks, text_under(document->root, "track"));
    add(names.faults, text_under(document->root, "fault"));
  }
  names.fact_values["track"] = names.tracks;
  for (const auto& [id, directions] : names.directions) {
    for (const std::string& direction : directions) {
      names.fact_values[room_fact(id, direction)] = {"none", "some"};
    }
  }
  return names;
}

}  // namespace kartwright
