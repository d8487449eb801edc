#include "tests/bench/table.h"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <stdexcept>

#include <fmt/format.h>

namespace kartwright {
namespace {

constexpr const char* kLine = "{:<31} {:<17} {:>9}  {:<22} {:>9}  {:<20} {:>6}\n";

/// The value at a share of the sorted list, between two of them where it falls so.
double quantile(std::vector<double> values, double share) {
  std::sort(values.begin(), values.end());
  const double place = share * static_cast<double>(values.size() - 1);
  const auto below = static_cast<std::size_t>(place);
  const std::size_t above = std::min(below + 1, values.size() - 1);
  return values[below] + (place - static_cast<double>(below)) * (values[above] - values[below]);
}

std::string ratio_text(double ratio) {
  return ratio >= 100.0 ? fmt::format("{:.0f}", ratio) : fmt::format("{:.3g}", ratio);
}

/// "45 (43 to 49)": the median of theirs over ours, and its quarters.
std::string ratios_text(const PairedGoes& pairs) {
  if (pairs.theirs.empty()) return "";
  std::vector<double> ratios;
  for (std::size_t i = 0; i < pairs.ours.size(); ++i)
    ratios.push_back(pairs.theirs.at(i) / pairs.ours[i]);
  constexpr double kLow = 0.25, kHigh = 0.75;
  return fmt::format("{} ({} to {})", ratio_text(median_of(ratios)),
                     ratio_text(quantile(ratios, kLow)), ratio_text(quantile(ratios, kHigh)));
}

}  // namespace

double median_of(std::vector<double> values) { return quantile(std::move(values), 0.5); }

double growth_of(const std::vector<double>& x, const std::vector<double>& y) {
  double mean_x = 0.0, mean_y = 0.0;
  const auto n = static_cast<double>(x.size());
  for (std::size_t i = 0; i < x.size(); ++i) {
    mean_x += std::log(x[i]) / n;
    mean_y += std::log(y[i]) / n;
  }
  double across = 0.0, along = 0.0;
  for (std::size_t i = 0; i < x.size(); ++i) {
    const double off = std::log(x[i]) - mean_x;
    across += off * (std::log(y[i]) - mean_y);
    along += off * off;
  }
  return across / along;
}

void Group::add(const std::string& size, double amount, const PairedGoes& pairs) {
  const double ours = median_of(pairs.ours);
  lines_.push_back({.size = size,
                    .ours = time_text(ours),
                    .theirs = pairs.theirs.empty() ? "" : time_text(median_of(pairs.theirs)),
                    .ratio = ratios_text(pairs),
                    .amount = amount,
                    .figure = ours});
}

void Group::add_figure(const std::string& size, double amount, double figure,
                       const std::string& text) {
  lines_.push_back(
      {.size = size, .ours = text, .theirs = "", .ratio = "", .amount = amount, .figure = figure});
}

std::string Group::growth() const {
  std::vector<double> amounts, figures;
  for (const Line& line : lines_) {
    if (line.amount <= 0.0 || line.figure <= 0.0) continue;
    amounts.push_back(line.amount);
    figures.push_back(line.figure);
  }
  return amounts.size() < 2 ? "" : fmt::format("{:.2f}", growth_of(amounts, figures));
}

void Group::print() const {
  for (const Line& line : lines_) {
    const bool first = &line == &lines_.front();
    const bool last = &line == &lines_.back();
    fmt::print(kLine, first ? what_ : "", line.size, line.ours, first ? peer_ : "", line.theirs,
               line.ratio, last ? growth() : "");
  }
  std::fflush(stdout);
}

void print_head() {
  fmt::print(kLine, "what", "size", "ours", "peer", "theirs", "theirs over ours", "n^");
}

std::string time_text(double seconds) {
  if (seconds >= 1.0) return fmt::format("{:.3g} s", seconds);
  if (seconds >= 1e-3) return fmt::format("{:.3g} ms", 1e3 * seconds);
  if (seconds >= 1e-6) return fmt::format("{:.3g} us", 1e6 * seconds);
  return fmt::format("{:.3g} ns", 1e9 * seconds);
}

void agree(bool same, const std::string& what) {
  if (!same) throw std::runtime_error("the two sides came to other answers: " + what);
}

}  // namespace kartwright
