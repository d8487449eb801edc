// beside.h - what was asked for beside the advice itself.

#pragma once

#include <optional>
#include <vector>

#include "cli/why_not_answer.h"
#include "engine/advice/next_steps.h"
#include "engine/advice/sketch.h"
#include "engine/advice/turning.h"
#include "engine/document/diagnostic.h"

namespace kartwright::cli {

struct Beside {
  std::vector<WhyNotAnswer> why_not = {};
  std::optional<Turning> turning = {};
  bool asked_after = false;                  ///< what comes after the change that leads
  std::optional<NextSteps> next_steps = {};  ///< that; nothing where none leads
  std::optional<Sketch> sketch = {};         ///< the kart on paper, for pictures
  std::vector<Diagnostic> warnings = {};     ///< of the input, where the answer has to carry them
};

}  // namespace kartwright::cli
