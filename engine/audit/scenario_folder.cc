#include "engine/audit/scenario_folder.h"

#include <algorithm>
#include <array>
#include <filesystem>
#include <set>

namespace kartwright {
namespace {

namespace fs = std::filesystem;

bool is_debrief(const Document& document) {
  static constexpr std::array<std::string_view, 5> kKeys{"said", "reports", "expect", "track",
                                                         "laps"};
  return std::any_of(kKeys.begin(), kKeys.end(),
                     [&](std::string_view key) { return document.root.find(key) != nullptr; });
}

/// The kart file that a debrief points at, beside its own.
std::optional<Document> kart_beside(const Document& debrief) {
  const Node* const kart = debrief.root.find("kart");
  if (kart == nullptr || kart->type != Node::Type::scalar) return std::nullopt;
  return read_document((fs::path(debrief.name).parent_path() / kart->text).string());
}

std::set<std::string> yaml_files(const std::string& folder) {
  std::error_code error;
  std::set<std::string> paths;
  fs::recursive_directory_iterator found(folder, error);
  for (; !error && found != fs::recursive_directory_iterator(); found.increment(error)) {
    if (found->path().extension() == ".yaml") paths.insert(found->path().string());
  }
  if (!error) return paths;
  throw InputError(
      {Diagnostic{.code = Code::cannot_read, .file = folder, .message = error.message()}});
}

}  // namespace

std::vector<ScenarioFile> read_scenario_folder(const std::string& folder) {
  std::vector<ScenarioFile> files;
  for (const std::string& path : yaml_files(folder)) {
    try {
      Document debrief = read_document(path);
      if (!is_debrief(debrief)) continue;
      std::optional<Document> kart = kart_beside(debrief);
      files.push_back({.path = path, .debrief = std::move(debrief), .kart = std::move(kart)});
    } catch (const InputError& error) {
      files.push_back({.path = path, .broken = error.found()});
    }
  }
  return files;
}

}  // namespace kartwright
