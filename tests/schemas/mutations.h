// mutations.h - a good value made a little wrong, in every place and in every way that people and
// programs slip.

#pragma once

#include <functional>
#include <string>
#include <vector>

#include <nlohmann/json.hpp>

namespace kartwright {

enum class Slip {
  dropped,    ///< a key or an item is left out
  key_added,  ///< a key that is not known
  in_a_list,  ///< a plain value as a list of it
  in_a_map,   ///< a plain value under a key
  nothing,    ///< null in its place
  misspelt,   ///< a letter behind a text
  a_text,     ///< a text in place of a list, a map, a number or a truth
  a_number,   ///< a number in place of a text
};
std::string name_of(Slip slip);
inline constexpr int kSlips = 8;

/// The places of all values in one, as JSON pointers, the root first.
std::vector<std::string> places_in(const nlohmann::json& json);

/// The value with a slip at a place; the same where the slip cannot be made there.
nlohmann::json with_slip(nlohmann::json json, const std::string& place, Slip slip);

/// Of all slips that can be made every `stride`-th, from the `first` on.
struct SomeSlips {
  std::size_t first = 0, stride = 1;
};

/// Calls `visit(place, slip, mutated)` with slips that change something.
void each_slip(const nlohmann::json& good, const SomeSlips& some,
               const std::function<void(const std::string&, Slip, const nlohmann::json&)>& visit);

}  // namespace kartwright
