#include "engine/debrief/verb_forms.h"

#include <initializer_list>

namespace kartwright {
namespace {

bool is_vowel(char c) { return std::string_view("aeiou").find(c) != std::string_view::npos; }

bool ends_in_one_of(std::string_view word, std::initializer_list<std::string_view> endings) {
  for (const std::string_view ending : endings) {
    if (word.size() > ending.size() && word.ends_with(ending)) return true;
  }
  return false;
}

bool ends_in_consonant_y(std::string_view verb) {
  return verb.size() > 1 && verb.back() == 'y' && !is_vowel(verb[verb.size() - 2]);
}

/// Consonant, vowel, consonant, and that vowel the only one: hop, snap, skid. Never w, x or y:
/// plow.
bool doubles_last(std::string_view verb) {
  if (verb.size() < 3 || std::string_view("wxy").find(verb.back()) != std::string_view::npos) {
    return false;
  }
  const std::size_t vowel = verb.size() - 2;
  return !is_vowel(verb.back()) && verb.find_first_of("aeiouy") == vowel && is_vowel(verb[vowel]);
}

std::string with_s(const std::string& verb) {
  if (ends_in_consonant_y(verb)) return verb.substr(0, verb.size() - 1) + "ies";
  const bool hisses = ends_in_one_of(verb, {"s", "x", "z", "ch", "sh", "o"});
  return verb + (hisses ? "es" : "s");
}

std::string with_ed(const std::string& verb) {
  if (verb.ends_with('e')) return verb + "d";
  if (ends_in_consonant_y(verb)) return verb.substr(0, verb.size() - 1) + "ied";
  return (doubles_last(verb) ? verb + verb.back() : verb) + "ed";
}

std::string with_ing(const std::string& verb) {
  if (ends_in_one_of(verb, {"ie"})) return verb.substr(0, verb.size() - 2) + "ying";
  const bool mute = verb.ends_with('e') && !ends_in_one_of(verb, {"ee", "oe", "ye"});
  if (mute && verb.size() > 2) return verb.substr(0, verb.size() - 1) + "ing";
  return (doubles_last(verb) ? verb + verb.back() : verb) + "ing";
}

}  // namespace

std::vector<std::string> verb_forms(std::string_view verb) {
  const std::string plain(verb);
  if (plain.empty()) return {};
  return {plain, with_s(plain), with_ed(plain), with_ing(plain)};
}

}  // namespace kartwright
