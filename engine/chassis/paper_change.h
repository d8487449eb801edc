// paper_change.h - a change to try on paper: a setting of the kart, or one of its sizes, elsewhere.

#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/chassis/parameters.h"
#include "engine/debrief/report_grammar.h"

namespace kartwright {

/// One setting, dimension or measure with another value.
struct PaperChange {
  std::string id;
  const Setting* setting = nullptr;        ///< on the kart; nullptr for a dimension or a measure
  const MeasureDef* definition = nullptr;  ///< in the pack; nullptr for a setting
  double from = 0.0, to = 0.0;             ///< SI, or the index of a position
  std::string warning;                     ///< it goes beyond range or class; empty where not
  Kind kind() const;
};

/// Reads `rear-width=1380mm`, `front-bar=in`, `mass-height=300 mm`, `front-share=43 %`. What is not
/// known, cannot be read, or is on no kart goes to `findings` with the plausible range; what only
/// this kart or its class does not allow is kept, with a warning. The kart and pack outlive it.
std::optional<PaperChange> parse_paper_change(std::string_view text, const Kart& kart,
                                              const Pack& pack, const WrittenAt& at,
                                              Findings& findings);

/// The places of a sweep, `rear-width=1320mm..1400mm`, from one to the other by the setting's own
/// step, or in ten for a dimension.
std::vector<PaperChange> parse_sweep(std::string_view text, const Kart& kart, const Pack& pack,
                                     const WrittenAt& at, Findings& findings);

/// The kart with the change made. What the physics does not claim changes nothing.
KnownKart changed(const KnownKart& known, const Kart& kart, const Pack& pack,
                  const std::vector<PaperChange>& changes);

/// True where the loads follow the change.
bool moves_loads(const PaperChange& change);

/// A value of it as a kart file writes it.
std::string print_value(const PaperChange& change, double value, System system);

}  // namespace kartwright
