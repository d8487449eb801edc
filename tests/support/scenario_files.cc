#include "tests/support/scenario_files.h"

#include <algorithm>
#include <filesystem>

#include "engine/document/document.h"

namespace kartwright {
namespace {

const std::filesystem::path kScenarios = std::filesystem::path(KARTWRIGHT_SOURCE_DIR) / "scenarios";

}  // namespace

std::vector<std::string> scenario_files() {
  std::vector<std::string> files;
  for (const auto& entry : std::filesystem::recursive_directory_iterator(kScenarios)) {
    if (entry.path().extension() != ".yaml") continue;
    const std::string path = entry.path().string();
    if (read_document(path).root.find("expect") != nullptr) files.push_back(path);
  }
  std::sort(files.begin(), files.end());
  return files;
}

std::string scenario_name(const std::string& path) {
  return std::filesystem::relative(path, kScenarios).replace_extension().generic_string();
}

}  // namespace kartwright
