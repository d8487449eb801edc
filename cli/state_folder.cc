#include "cli/state_folder.h"

#include <cerrno>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <system_error>

#include <sys/stat.h>

#include "engine/document/replace_file.h"

namespace kartwright::cli {
namespace {

namespace fs = std::filesystem;

/// A folder that the surroundings name; relative ones are left alone, as the specification asks.
std::optional<fs::path> folder_from(const char* variable) {
  const char* value = std::getenv(variable);  // NOLINT(concurrency-mt-unsafe): one thread
  if (value == nullptr || *value != '/') return std::nullopt;
  return fs::path(value);
}

/// Folders that are there already keep their permissions.
void make_folders(const fs::path& folder) {
  constexpr mode_t kOwnerOnly = 0700;
  if (folder.has_parent_path() && folder.has_relative_path()) make_folders(folder.parent_path());
  if (mkdir(folder.c_str(), kOwnerOnly) == 0 || errno == EEXIST) return;
  throw FileError(FileError::What::cannot_create,
                  folder.string() + " cannot be made: " + std::generic_category().message(errno));
}

std::string path_of(const std::string& folder, const std::string& name) {
  return (fs::path(folder) / name).string();
}

}  // namespace

std::optional<std::string> state_folder() {
  if (const auto state = folder_from("XDG_STATE_HOME")) return (*state / "kartwright").string();
  if (const auto home = folder_from("HOME"))
    return (*home / ".local" / "state" / "kartwright").string();
  return std::nullopt;
}

std::optional<std::string> read_state(const std::string& folder, const std::string& name) {
  std::error_code none;
  if (!fs::is_regular_file(path_of(folder, name), none)) return std::nullopt;
  std::ifstream file(path_of(folder, name), std::ios::binary);
  if (!file) return std::nullopt;
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

void write_state(const std::string& folder, const std::string& name, const std::string& text) {
  make_folders(folder);
  put_file(path_of(folder, name), text);
}

void remove_state(const std::string& folder, const std::string& name) {
  std::error_code ignored;
  fs::remove(path_of(folder, name), ignored);
}

}  // namespace kartwright::cli
