#include "tests/bench/debriefs.h"

#include <array>
#include <random>

namespace kartwright {
namespace {

template <typename Texts>
std::string one_of(const Texts& texts, std::mt19937& random) {
  return texts.at(random() % texts.size());
}

/// `"reports":["hop@mid=2","push@entry=1"]`, one to three of them.
std::string reports(std::mt19937& random) {
  static constexpr std::array kSymptoms{"push", "loose", "hop",     "slide",     "bog",
                                        "bind", "lazy",  "twitchy", "two-wheels"};
  static constexpr std::array kPhases{"entry", "mid", "exit"};
  std::string out = R"("reports":[)";
  const auto count = 1 + random() % 3;
  for (std::size_t i = 0; i < count; ++i) {
    out += std::string(i == 0 ? "" : ",") + '"' + one_of(kSymptoms, random) + '@' +
           one_of(kPhases, random) + '=' + std::to_string(1 + random() % 3) + '"';
  }
  return out + "]";
}

std::string words(std::mt19937& random) {
  static constexpr std::array kSaid{"pushes going in and hops in the middle",
                                    "loose on exit, bit of push mid",
                                    "the front just washes out on turn in",
                                    "it hops hard in the middle and bogs coming out",
                                    "rear steps out under braking, fine in the middle",
                                    "really tight in the middle, a little loose off",
                                    "slides everywhere since the second lap",
                                    "it's lazy on turn in but good on exit"};
  return R"("said":")" + one_of(kSaid, random) + '"';
}

}  // namespace

std::string debrief_lines(int count, SaidAs said_as) {
  static constexpr std::array kTracks{"cold", "green", "rubbered-in", "greasy", "wet"};
  std::mt19937 random(7);
  std::string out;
  for (int i = 0; i < count; ++i) {
    out += std::string(R"({"track":")") + one_of(kTracks, random) + R"(",)";
    out += (said_as == SaidAs::words ? words(random) : reports(random)) + "}\n";
  }
  return out;
}

}  // namespace kartwright
