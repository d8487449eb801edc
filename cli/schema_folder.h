// schema_folder.h - where the JSON Schemas of the program's files are found: beside the program,
// wherever it was put. Editors complete and check a file that names its schema in its first line.

#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace kartwright::cli {

/// The folder with the schemas that belongs to a program's own folder (absolute): where an install
/// puts it, `../share/kartwright/schemas`, or else where the build does, without the `..`; nothing
/// where neither is there.
std::optional<std::string> schema_folder_beside(const std::string& program_folder);

/// The line that names the schema of a kind of file (`kart`, `debrief`) to an editor, with its end.
/// A path with blanks is written as a URI. Empty where the running program has no such schema.
std::string schema_line(std::string_view kind);

/// The same for a folder of schemas.
std::string schema_line(const std::string& folder, std::string_view kind);

}  // namespace kartwright::cli
