// kartwright.h - the program under test, run as a crew would.

#pragma once

#include <map>
#include <string>
#include <vector>

#include "tests/support/process.h"

namespace kartwright {

using Words = std::vector<std::string>;
using Environment = std::map<std::string, std::string>;

/// The program with these options, in the C.UTF-8 locale and with a state folder of the tests
/// unless `env` says otherwise.
Command kartwright(const Words& options, const Environment& env = {});
Ended run_kartwright(const Words& options, const Environment& env = {});

/// True where the sanitizers watch the program: KARTWRIGHT_WATCHED is its path then.
bool watched();

/// The program's path, for shells.
std::string binary();

/// scenario_files(); where the sanitizers watch every third, since each costs several processes.
std::vector<std::string> scenarios_to_run();

/// The debrief that cli/demo.sh shows.
std::string demo_debrief();

std::vector<std::string> lines_of(const std::string& text);

/// Display columns of a line of UTF-8 without wide characters: its code points.
std::size_t width_of(const std::string& line);

bool is_ascii(const std::string& text);

/// True where some byte is a control character other than the end of a line.
bool has_control(const std::string& text);

}  // namespace kartwright
