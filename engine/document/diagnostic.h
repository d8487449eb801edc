// diagnostic.h - what is wrong with a file or an option, as a value that any presenter can show.
//
// A diagnostic is built once, where the fault is found, and rendered elsewhere. Everything wrong
// with an input is collected before anything is thrown, so that one run shows all of it.

#pragma once

#include <exception>
#include <string>
#include <string_view>
#include <vector>

#include "engine/document/codes.h"

namespace kartwright {

/// A place in a file. Lines and columns count from 1, columns in characters; 0 means no place.
struct Span {
  int line = 0;
  int column = 0;
  int length = 1;  ///< characters, at least 1
};

/// A note says what is so, and may well be meant.
enum class Severity { error, warning, note };

struct Diagnostic {
  Code code;  ///< stable; see codes.h
  Severity severity = Severity::error;
  std::string file = {};  ///< as the crew named it; `--report` and the like for options
  Span span = {};
  std::string message = {};  ///< what is wrong, lower case, no full stop
  std::string help = {};     ///< what was expected, or did-you-mean; may be empty
  std::string source = {};   ///< the line of the file, for the caret; may be empty
  int source_from = 1;       ///< column at which `source` begins: a long line is cut
};

/// Gives a diagnostic the line that it stands in; of a long line, what stands around its column.
void show_source(Diagnostic& diagnostic, std::string_view line);

/// Thrown once per input, holding everything found in it.
class InputError : public std::exception {
 public:
  explicit InputError(std::vector<Diagnostic> found) : found_(std::move(found)) {}
  const std::vector<Diagnostic>& found() const { return found_; }
  const char* what() const noexcept override { return "the input has errors"; }

 private:
  std::vector<Diagnostic> found_;
};

/// Collects diagnostics over one input. Nobody reads hundreds of them, and a hostile file must not
/// fill time and memory with them: so many errors end the reading.
class Findings {
 public:
  static constexpr std::size_t kMost = 200;

  /// Throws InputError with all of them where this is the last error that is kept. Warnings and
  /// notes beyond so many are dropped.
  void add(Diagnostic diagnostic);
  bool has_errors() const { return errors_ > 0; }
  /// Throws InputError with everything found if any of it is an error.
  void throw_if_errors() const;
  const std::vector<Diagnostic>& all() const { return found_; }

 private:
  std::vector<Diagnostic> found_;
  std::size_t errors_ = 0, warnings_ = 0;
};

/// The known name nearest to a misspelt one, or empty where none is near enough to suggest.
/// Distance is optimal string alignment (insert, delete, replace, swap of neighbours).
std::string nearest_name(std::string_view misspelt, const std::vector<std::string>& known);

/// The optimal string alignment distance itself, in edits, over bytes.
int edit_distance(std::string_view a, std::string_view b);

/// "did you mean `x`?" or, with no near name and few known ones, "one of a, b, c"; else empty.
std::string suggestion(std::string_view misspelt, const std::vector<std::string>& known);

}  // namespace kartwright
