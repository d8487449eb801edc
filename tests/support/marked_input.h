// marked_input.h - wrong inputs that show where they are wrong: a `^` stands before the place that
// the finding must point at, and is taken out before the text is read.

#pragma once

#include <iosfwd>
#include <string>
#include <vector>

#include "engine/document/document.h"
#include "tests/support/small_rules.h"

namespace kartwright {

/// A wrong input with its mark, and the one finding that it must give there. Empty texts fit
/// anything.
struct MarkedInput {
  const char* name;  ///< of the case, letters and underscores
  std::string text;  ///< with one `^`
  Code code;
  std::string message;    ///< a part of it
  std::string help = {};  ///< a part of it

  /// The text without its mark, and where the mark stood. Throws std::invalid_argument where there
  /// is none.
  WrongInput wrong() const;
};

/// How GoogleTest prints a case.
void PrintTo(const MarkedInput& marked, std::ostream* out);

/// A list of one item in YAML: `line` as it is, and those of `lines` whose key it does not have and
/// that is not `left_out`. Each of `lines` is `key: value`.
std::string list_of_one(const std::string& list, const std::vector<std::string>& lines,
                        const std::string& line, const std::string& left_out = {});

}  // namespace kartwright
