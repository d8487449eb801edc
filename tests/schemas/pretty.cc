#include "tests/schemas/pretty.h"

#include <algorithm>

namespace kartwright {
namespace {

using Json = nlohmann::ordered_json;
constexpr std::size_t kWidth = 100;

std::string flat(const Json& json);

template <typename Entries, typename Each>
std::string joined_flat(const Entries& entries, const Each& each) {
  std::string out;
  for (const auto& entry : entries) out += (out.empty() ? "" : ", ") + each(entry);
  return out;
}

std::string flat(const Json& json) {
  if (json.is_object()) {
    return "{" +
           joined_flat(json.items(),
                       [](const auto& entry) {
                         return Json(entry.key()).dump() + ": " + flat(entry.value());
                       }) +
           "}";
  }
  if (json.is_array()) return "[" + joined_flat(json, flat) + "]";
  return json.dump();
}

/// Plain values, as many to a line as fit.
std::string filled(const Json& list, std::size_t indent) {
  const std::string pad(indent + 2, ' ');
  std::string out;
  std::string line = pad;
  for (std::size_t i = 0; i < list.size(); ++i) {
    const std::string next = list[i].dump() + (i + 1 < list.size() ? "," : "");
    if (line != pad && line.size() + 1 + next.size() > kWidth) {
      out += line + "\n";
      line = pad;
    }
    line += (line == pad ? "" : " ") + next;
  }
  return "[\n" + out + line + "\n" + std::string(indent, ' ') + "]";
}

/// `room`: what stands before it on its line, beside the indent.
std::string written(const Json& json, std::size_t indent, std::size_t room) {
  const std::string whole = flat(json);
  if (!json.is_structured() || json.empty() || indent + room + whole.size() <= kWidth - 1)
    return whole;
  const auto plain = [](const Json& each) { return !each.is_structured(); };
  if (json.is_array() && std::all_of(json.begin(), json.end(), plain)) return filled(json, indent);
  const std::string pad(indent + 2, ' ');
  std::string out;
  for (const auto& entry : json.items()) {
    const std::string key = json.is_object() ? Json(entry.key()).dump() + ": " : "";
    out += (out.empty() ? "" : ",\n") + pad + key + written(entry.value(), indent + 2, key.size());
  }
  const char* const ends = json.is_object() ? "{}" : "[]";
  return std::string(1, ends[0]) + "\n" + out + "\n" + std::string(indent, ' ') + ends[1];
}

}  // namespace

std::string pretty(const Json& json) { return written(json, 0, 0) + "\n"; }

}  // namespace kartwright
