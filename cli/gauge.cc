#include "cli/gauge.h"

#include <algorithm>
#include <cmath>
#include <vector>

namespace kartwright::cli {

std::string gauge(const Candidate& candidate, std::size_t width) {
  const Option& option = candidate.option;
  const double a = legal_end(*option.setting, 0);
  const double b = legal_end(*option.setting, 1);
  const double low = std::min({a, b, option.from});
  const double high = std::max({a, b, option.from});
  const auto cell = [&](double place) {
    const double share = high > low ? (place - low) / (high - low) : 0.0;
    return static_cast<std::size_t>(std::lround(share * static_cast<double>(width - 1)));
  };
  std::vector<std::string> cells(width, "·");
  if (candidate.wanted) cells[cell(*candidate.wanted)] = "◇";
  cells[cell(option.from)] = "○";
  cells[cell(option.to)] = "●";
  std::string out;
  for (const std::string& c : cells) out += c;
  return out;
}

}  // namespace kartwright::cli
