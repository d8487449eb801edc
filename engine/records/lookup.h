// lookup.h - runs and karts of a log as a crew names them.

#pragma once

#include <string>

#include "engine/records/logbook.h"

namespace kartwright {

/// The run of a number. Throws InputError with Code::no_such_run where there is none.
Run run_numbered(const Logbook& log, const std::string& number);

/// The kart of this name; without a name the only one in the log. Throws InputError with
/// Code::no_such_run where it is not there, or where there are several.
std::string kart_in_log(const std::string& name, const Logbook& log);

}  // namespace kartwright
