#include "engine/knowledge/gauge.h"

#include <algorithm>
#include <array>

namespace kartwright {
namespace {

struct FormulaName {
  std::string_view name;
  std::size_t inputs;
};

/// In the order of the enum.
constexpr std::array kFormulas{FormulaName{"itself", 1},
                               FormulaName{"difference", 2},
                               FormulaName{"half", 1},
                               FormulaName{"times", 1},
                               FormulaName{"toe-angle", 3},
                               FormulaName{"mean-rise", 2},
                               FormulaName{"front-over-rear-rise", 2},
                               FormulaName{"left-over-right-rise", 2},
                               FormulaName{"side-difference", 1},
                               FormulaName{"least-rise", 2},
                               FormulaName{"most-rise", 2},
                               FormulaName{"rise-behind", 2},
                               FormulaName{"chain-links", 4},
                               FormulaName{"chain-distance", 4},
                               FormulaName{"odd", 1}};

template <typename T>
const T* item_named(const std::vector<T>& all, std::string_view id) {
  const auto found = std::find_if(all.begin(), all.end(), [&](const T& t) { return t.id == id; });
  return found == all.end() ? nullptr : &*found;
}

}  // namespace

std::string_view name_of(Formula formula) {
  return kFormulas.at(static_cast<std::size_t>(formula)).name;
}

std::optional<Formula> formula_named(std::string_view name) {
  const auto* const found =
      std::find_if(kFormulas.begin(), kFormulas.end(),
                   [&](const FormulaName& each) { return each.name == name; });
  if (found == kFormulas.end()) return std::nullopt;
  return static_cast<Formula>(found - kFormulas.begin());
}

std::size_t inputs_of(Formula formula) {
  return kFormulas.at(static_cast<std::size_t>(formula)).inputs;
}

bool is_of_tyres(Formula formula) {
  return formula >= Formula::mean_rise && formula <= Formula::rise_behind;
}

std::string_view name_of(BandSide side) {
  static constexpr std::array<std::string_view, 3> kNames{"under", "within", "over"};
  return kNames.at(static_cast<std::size_t>(side));
}

const GaugeReading* Gauge::reading(std::string_view name) const {
  return item_named(readings, name);
}
const GaugeChoice* Gauge::choice(std::string_view name) const { return item_named(choices, name); }
const GaugeFigure* Gauge::figure(std::string_view name) const { return item_named(figures, name); }

}  // namespace kartwright
