// diagnostics.h - shows what is wrong with an input: place, source line, caret, help.

#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "cli/json_writer.h"
#include "cli/page.h"
#include "engine/document/diagnostic.h"

namespace kartwright::cli {

/// `path:line:col: error[K003]: what is wrong`, the source line, a caret, `help: ...`. The source
/// line is cut to the width around the caret.
std::string render(const Diagnostic& diagnostic, Look look);

/// error, warning or note.
std::string_view word_of(Severity severity);

/// One as a JSON object: code, message, help, file, line, column.
void write_diagnostic(JsonWriter& out, const Diagnostic& diagnostic);

/// All of them to stderr, errors first, then warnings, then notes; the last two only where wanted.
void show_diagnostics(const std::vector<Diagnostic>& found, bool warnings);

/// 66 where a file could not be read, 2 where an option is wrong, else 65.
int exit_code_for(const std::vector<Diagnostic>& found);

}  // namespace kartwright::cli
