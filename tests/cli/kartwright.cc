#include "tests/cli/kartwright.h"

#include <algorithm>
#include <cstdlib>
#include <sstream>

#include "tests/support/scenario_files.h"
#include "tests/support/temp_folder.h"

namespace kartwright {

std::string binary() { return watched() ? std::getenv("KARTWRIGHT_WATCHED") : KARTWRIGHT_BINARY; }

bool watched() { return std::getenv("KARTWRIGHT_WATCHED") != nullptr; }

Command kartwright(const Words& options, const Environment& env) {
  Command command{.argv = {binary()}, .env = env};
  command.argv.insert(command.argv.end(), options.begin(), options.end());
  command.env.try_emplace("LC_ALL", "C.UTF-8");
  static const TempFolder remembered;  // never the tester's own
  command.env.try_emplace("XDG_STATE_HOME", remembered.path());
  return command;
}

Ended run_kartwright(const Words& options, const Environment& env) {
  return run(kartwright(options, env));
}

std::vector<std::string> scenarios_to_run() {
  std::vector<std::string> all = scenario_files();
  if (!watched()) return all;
  std::vector<std::string> some;
  for (std::size_t i = 0; i < all.size(); i += 3) some.push_back(all[i]);
  return some;
}

std::string demo_debrief() { return KARTWRIGHT_SOURCE_DIR "/scenarios/harbour/heat-2.yaml"; }

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines;
  std::istringstream stream(text);
  for (std::string line; std::getline(stream, line);) lines.push_back(line);
  return lines;
}

std::size_t width_of(const std::string& line) {
  return static_cast<std::size_t>(std::count_if(line.begin(), line.end(), [](char c) {
    return (static_cast<unsigned char>(c) >> 6U) != 2U;
  }));
}

bool is_ascii(const std::string& text) {
  return std::all_of(text.begin(), text.end(),
                     [](char c) { return static_cast<unsigned char>(c) < 0x80U; });
}

bool has_control(const std::string& text) {
  return std::any_of(text.begin(), text.end(), [](char c) {
    const auto byte = static_cast<unsigned char>(c);
    return (byte < 0x20U && c != '\n') || byte == 0x7FU;
  });
}

}  // namespace kartwright
