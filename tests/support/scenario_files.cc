#include "tests/support/scenario_files.h"

#include <algorithm>
#include <filesystem>
#include <fstream>

namespace kartwright {
namespace {

const std::filesystem::path kScenarios = std::filesystem::path(KARTWRIGHT_SOURCE_DIR) / "scenarios";

/// True where a line starts with the key; reading all of them as YAML would take half a second.
bool expects(const std::filesystem::path& path) {
  std::ifstream text(path);
  for (std::string line; std::getline(text, line);) {
    if (line.starts_with("expect:")) return true;
  }
  return false;
}

std::vector<std::string> files_that_expect() {
  std::vector<std::string> files;
  for (const auto& entry : std::filesystem::recursive_directory_iterator(kScenarios)) {
    if (entry.path().extension() == ".yaml" && expects(entry.path()))
      files.push_back(entry.path().string());
  }
  std::sort(files.begin(), files.end());
  return files;
}

}  // namespace

std::vector<std::string> scenario_files() {
  // Every test is a process of its own, and needs the list to know its name.
  static const std::vector<std::string> all = files_that_expect();
  return all;
}

std::string scenario_name(const std::string& path) {
  const std::filesystem::path whole(path);  // both are absolute: no folder has to be asked
  return whole.lexically_relative(kScenarios).replace_extension().generic_string();
}

}  // namespace kartwright
