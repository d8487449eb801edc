#include "engine/practice/dice.h"

#include <vector>

namespace kartwright {
namespace {

std::mt19937_64 seeded(std::initializer_list<std::uint64_t> numbers) {
  constexpr unsigned kHalf = 32;
  std::vector<std::uint32_t> words;
  for (const std::uint64_t number : numbers) {
    words.push_back(static_cast<std::uint32_t>(number));
    words.push_back(static_cast<std::uint32_t>(number >> kHalf));
  }
  std::seed_seq sequence(words.begin(), words.end());
  return std::mt19937_64(sequence);
}

}  // namespace

DrillDice::DrillDice(std::initializer_list<std::uint64_t> numbers) : engine_(seeded(numbers)) {}

double DrillDice::share() {
  constexpr unsigned kSpare = 11;  // 53 bits fit into a double
  return static_cast<double>(engine_() >> kSpare) * 0x1.0p-53;
}

}  // namespace kartwright
