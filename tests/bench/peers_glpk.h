// peers_glpk.h - the integer problems as exact mixed-integer programmes, solved by GLPK through its
// C interface.

#pragma once

#include <string>
#include <vector>

#include "tests/published/integer_squares.h"

namespace kartwright {

struct GlpkTime {
  double seconds = 0.0;  ///< of the search alone: neither process start nor building the programme
  double value = 0.0;    ///< the optimum that it proved
  std::string by;        ///< the form and the settings that were the quickest
};

/// The quickest of two forms (a number as an integer variable, or as a choice of its values) with
/// and without presolving and cuts; each by its quickest of `goes`. Throws std::runtime_error where
/// one does not prove an optimum.
GlpkTime time_glpk(const IntegerSquares& problem, int most, int goes);

}  // namespace kartwright
