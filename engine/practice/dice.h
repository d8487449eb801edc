// dice.h - what a drill leaves to chance: the same on every platform for the same numbers.

#pragma once

#include <cstddef>
#include <cstdint>
#include <initializer_list>
#include <random>

#include <boost/random/normal_distribution.hpp>

namespace kartwright {

class DrillDice {
 public:
  explicit DrillDice(std::initializer_list<std::uint64_t> numbers);

  std::size_t below(std::size_t n) { return engine_() % n; }  ///< REQUIRES: n > 0
  double share();                                             ///< from 0 to under 1
  double normal() { return normal_(engine_); }                ///< N(0, 1)
  std::mt19937_64& engine() { return engine_; }

  template <typename List>
  const auto& one_of(const List& list) {  ///< REQUIRES: it is not empty
    return list[below(list.size())];
  }

 private:
  std::mt19937_64 engine_;
  boost::random::normal_distribution<double> normal_;
};

}  // namespace kartwright
