// log_errors.h - what the database library throws, in the words and codes of this program.

#pragma once

#include <string>

#include <SQLiteCpp/SQLiteCpp.h>

#include "engine/document/diagnostic.h"

namespace kartwright {

/// Throws InputError for what went wrong with the log at a path.
[[noreturn]] void refuse_log(const std::string& path, Code code, const std::string& message,
                             const std::string& help = {});
[[noreturn]] void refuse_log(const std::string& path, const SQLite::Exception& error);

/// Does something with a log; what the library throws becomes InputError.
template <typename Work>
auto with_log(const std::string& path, const Work& work) {
  try {
    return work();
  } catch (const SQLite::Exception& error) {
    refuse_log(path, error);
  }
}

}  // namespace kartwright
