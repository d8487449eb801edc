// version.h - which kartwright this is. The values are written at build time, from the project's
// version and from what `git describe` says of the sources (cli/version.cmake).

#pragma once

#include <string>

namespace kartwright::cli {

extern const char* const kVersion;  ///< `0.1.0`
extern const char* const kSources;  ///< tag and commit, or empty where there is no repository
extern const char* const kDay;      ///< of the commit, `2026-11-27`, or empty

/// `kartwright 0.1.0 (4b1fbc2)`.
std::string version_text();

}  // namespace kartwright::cli
