#include "cli/schema_folder.h"

#include <algorithm>
#include <filesystem>

#include <fmt/format.h>

namespace kartwright::cli {
namespace {

namespace fs = std::filesystem;

constexpr const char* kBelow = "share/kartwright/schemas";

/// What may stand in a comment, ends no word there, and means nothing in a URI.
bool ends_no_word(char c) {
  const auto byte = static_cast<unsigned char>(c);
  return byte > 0x20U && byte != 0x7FU && c != '#' && c != '?';
}

/// As it is where it is one word; else as a URI, which has no blanks.
std::string one_word(const std::string& path) {
  if (std::all_of(path.begin(), path.end(), ends_no_word)) return path;
  std::string uri = "file://";
  for (const char c : path) {
    uri += ends_no_word(c) && c != '%'
               ? std::string(1, c)
               : fmt::format("%{:02X}", static_cast<unsigned>(static_cast<unsigned char>(c)));
  }
  return uri;
}

}  // namespace

std::optional<std::string> schema_folder_beside(const std::string& program_folder) {
  const fs::path beside(program_folder);
  for (const fs::path& folder : {beside / ".." / kBelow, beside / kBelow}) {
    std::error_code none;
    if (fs::is_directory(folder, none)) return folder.lexically_normal().string();
  }
  return std::nullopt;
}

std::string schema_line(const std::string& folder, std::string_view kind) {
  const fs::path file = fs::path(folder) / (std::string(kind) + ".schema.json");
  std::error_code none;
  if (!fs::is_regular_file(file, none)) return {};
  return "# yaml-language-server: $schema=" + one_word(file.string()) + "\n";
}

std::string schema_line(std::string_view kind) {
  std::error_code none;
  const fs::path program = fs::read_symlink("/proc/self/exe", none);
  if (none) return {};
  const std::optional<std::string> folder = schema_folder_beside(program.parent_path().string());
  return folder ? schema_line(*folder, kind) : std::string();
}

}  // namespace kartwright::cli
