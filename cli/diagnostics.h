// diagnostics.h - shows what is wrong with an input: place, source line, caret, help.

#pragma once

#include <string>
#include <vector>

#include "engine/document/diagnostic.h"

namespace kartwright::cli {

/// `path:line:col: error[K003]: what is wrong`, the source line, a caret, `help: ...`.
std::string render(const Diagnostic& diagnostic);

/// All of them to stderr; warnings only where wanted.
void show_diagnostics(const std::vector<Diagnostic>& found, bool warnings);

/// 66 where a file could not be read, 2 where an option is wrong, else 65.
int exit_code_for(const std::vector<Diagnostic>& found);

}  // namespace kartwright::cli
