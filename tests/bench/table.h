// table.h - work timed beside a peer that does the same, and the one table of all that was timed.
//
// Ours and theirs take turns, so that what else the machine does befalls both alike, and processor
// time is what counts; a ratio is of two goes that stood side by side.

#pragma once

#include <algorithm>
#include <ctime>
#include <string>
#include <utility>
#include <vector>

namespace kartwright {

/// How long to look: `quick` for all in under a minute.
struct Effort {
  bool quick = false;
  int goes() const { return quick ? 5 : 15; }
};

/// Seconds of one piece of work, go by go. `theirs` is empty where there is no peer.
struct PairedGoes {
  std::vector<double> ours, theirs = {};
};

/// Seconds of one piece of work, done so many times. REQUIRES: times > 0.
template <typename Work>
double seconds_of(int times, const Work& work) {
  const std::clock_t start = std::clock();
  for (int i = 0; i < times; ++i) work();
  return static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC / times;
}

/// How often work is to be done to take about ten milliseconds: once at the least.
template <typename Work>
int times_for_a_go(const Work& work) {
  constexpr double kGo = 0.01, kLeast = 1e-7;
  work();  // what is done once only is done now
  return std::max(1, static_cast<int>(kGo / std::max(kLeast, seconds_of(1, work))));
}

template <typename Ours, typename Theirs>
PairedGoes pairs_of(int goes, const Ours& ours, const Theirs& theirs) {
  const int our_times = times_for_a_go(ours);
  const int their_times = times_for_a_go(theirs);
  PairedGoes pairs;
  for (int go = 0; go < goes; ++go) {
    pairs.ours.push_back(seconds_of(our_times, ours));
    pairs.theirs.push_back(seconds_of(their_times, theirs));
  }
  return pairs;
}

template <typename Ours>
PairedGoes alone(int goes, const Ours& ours) {
  const int times = times_for_a_go(ours);
  PairedGoes pairs;
  for (int go = 0; go < goes; ++go) pairs.ours.push_back(seconds_of(times, ours));
  return pairs;
}

/// REQUIRES: not empty.
double median_of(std::vector<double> values);

/// The exponent k of y = c x^k that fits best in logarithms. REQUIRES: two or more, above zero.
double growth_of(const std::vector<double>& x, const std::vector<double>& y);

/// Work of one kind by its size.
class Group {
 public:
  /// `peer` names the other side, or is empty.
  explicit Group(std::string what, std::string peer = {})
      : what_(std::move(what)), peer_(std::move(peer)) {}

  /// `amount` is the size as a number, for the growth; 0 where there is none.
  void add(const std::string& size, double amount, const PairedGoes& pairs);

  /// A figure that is not a time, in its own words.
  void add_figure(const std::string& size, double amount, double figure, const std::string& text);

  /// Its lines, the exponent of ours over the sizes on the last.
  void print() const;

 private:
  struct Line {
    std::string size, ours, theirs, ratio;
    double amount = 0.0, figure = 0.0;
  };
  std::string growth() const;

  std::string what_, peer_;
  std::vector<Line> lines_;
};

void print_head();

/// "1.25 ms", "12.5 us".
std::string time_text(double seconds);

/// Throws std::runtime_error where two sides came to other answers.
void agree(bool same, const std::string& what);

}  // namespace kartwright
