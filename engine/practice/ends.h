// ends.h - which end of the kart is at fault, and how right an answer to that is.
//
// The handling error of an end is the weighed square of what is believed of its axes, m'Wm over
// them; which axes are an end's is data (`drill-ends` of the rules). With s the front's share:
//   front s    rear 1 - s    both 2 min(s, 1 - s)    neither min(1, 0.45 / J)    broken p
// p being the probability of the likeliest fault that must not be run. Where such a fault is at
// least as likely as not, the ends count 1 - p times as much; where the kart is best left alone,
// neither counts 1 and the ends half. The largest is made 100, the others in proportion.

#pragma once

#include <array>
#include <optional>
#include <string_view>

#include "engine/practice/marking.h"

namespace kartwright {

enum class KartEnd { front, rear, both, neither, broken };
inline constexpr std::array kKartEnds{KartEnd::front, KartEnd::rear, KartEnd::both,
                                      KartEnd::neither, KartEnd::broken};
std::string_view name_of(KartEnd end);

struct EndMarks {
  KartEnd right = KartEnd::neither;
  std::array<double, 5> marks = {};  ///< 0 to 100, by KartEnd
  double front = 0.0, rear = 0.0;    ///< notches squared
  double of(KartEnd end) const { return marks.at(static_cast<std::size_t>(end)); }
};

EndMarks mark_ends(const Marking& marking);

/// The end that a word means, also by its first letters; nothing where it is none or several.
std::optional<KartEnd> end_named(std::string_view word);

}  // namespace kartwright
