// kart_pack.h - a small pack for the tests of the kart room: a few adjustments of every sort, by
// hand, so that a change of the rules cannot change what these tests say.

#pragma once

#include <string>
#include <vector>

#include "engine/kart/kart.h"

namespace kartwright {

/// axle and front-bar (positions), rear-width, toe, and the three pressures; four measures, three
/// facts. The same object each time.
const Pack& kart_pack();

/// What reading a kart file gave.
struct ReadKart {
  Kart kart;
  std::vector<Diagnostic> found;
};

/// Reads a kart file against a pack.
ReadKart read_kart_text(const std::string& text, const Pack& pack);
/// The same against kart_pack().
ReadKart read_kart_text(const std::string& text);

/// "path:line:col: K001: message (help)" a line each, for messages of tests that fail.
std::string told(const std::vector<Diagnostic>& found);

}  // namespace kartwright
