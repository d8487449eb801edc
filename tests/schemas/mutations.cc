#include "tests/schemas/mutations.h"

#include <array>

namespace kartwright {
namespace {

using JsonValue = nlohmann::json;
using Pointer = JsonValue::json_pointer;

void add_places(const JsonValue& json, const Pointer& at, std::vector<std::string>& places) {
  places.push_back(at.to_string());
  if (json.is_object()) {
    for (const auto& entry : json.items()) add_places(entry.value(), at / entry.key(), places);
  }
  if (!json.is_array()) return;
  for (std::size_t i = 0; i < json.size(); ++i) add_places(json[i], at / i, places);
}

void drop(JsonValue& json, const Pointer& at) {
  if (at.empty()) return;
  JsonValue& parent = json.at(at.parent_pointer());
  if (parent.is_object()) parent.erase(at.back());
  if (parent.is_array()) parent.erase(std::stoul(at.back()));
}

}  // namespace

std::string name_of(Slip slip) {
  constexpr std::array<const char*, kSlips> kNames{"dropped", "key added", "in a list", "in a map",
                                                   "nothing", "misspelt",  "a text",    "a number"};
  return kNames.at(static_cast<std::size_t>(slip));
}

std::vector<std::string> places_in(const JsonValue& json) {
  std::vector<std::string> places;
  add_places(json, Pointer(), places);
  return places;
}

JsonValue with_slip(JsonValue json, const std::string& place, Slip slip) {
  const Pointer at(place);
  JsonValue& value = json.at(at);
  switch (slip) {
    case Slip::dropped:
      drop(json, at);
      break;
    case Slip::key_added:
      if (value.is_object()) value["unheard-of"] = 1;
      break;
    case Slip::in_a_list:
      if (value.is_primitive()) value = JsonValue::array({value});
      break;
    case Slip::in_a_map:
      if (value.is_primitive()) value = JsonValue{{"unheard-of", value}};
      break;
    case Slip::nothing:
      value = nullptr;
      break;
    case Slip::misspelt:
      if (value.is_string()) value = value.get<std::string>() + "x";
      break;
    case Slip::a_text:
      if (!value.is_string()) value = "unheard of";
      break;
    case Slip::a_number:
      if (value.is_string()) value = 17;
      break;
  }
  return json;
}

void each_slip(const JsonValue& good, const SomeSlips& some,
               const std::function<void(const std::string&, Slip, const JsonValue&)>& visit) {
  std::size_t count = 0;
  for (const std::string& place : places_in(good)) {
    for (int i = 0; i < kSlips; ++i) {
      if (count++ % some.stride != some.first) continue;
      const auto slip = static_cast<Slip>(i);
      const JsonValue mutated = with_slip(good, place, slip);
      if (mutated != good) visit(place, slip, mutated);
    }
  }
}

}  // namespace kartwright
