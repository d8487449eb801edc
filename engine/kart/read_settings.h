// read_settings.h - the settings of a kart file, with how far each goes, what the class allows,
// which parts are here and how long a move takes.

#pragma once

#include "engine/kart/reading.h"

namespace kartwright {

/// The sections that speak of adjustments; nullptr where the file has none.
struct SettingSections {
  const Node* settings = nullptr;
  const Node* ranges = nullptr;
  const Node* limits = nullptr;
  const Node* parts = nullptr;
  const Node* minutes = nullptr;
};

/// The settings by adjustment id. A setting that cannot be read is reported and left out; a section
/// that speaks of an adjustment without a setting is reported.
std::map<std::string, Setting> read_settings(KartReading& reading, const SettingSections& sections);

}  // namespace kartwright
