// temp_folder.h - a folder of its own for a test, gone with it.

#pragma once

#include <filesystem>
#include <string>

namespace kartwright {

class TempFolder {
 public:
  /// Throws std::system_error where none can be made.
  TempFolder();
  ~TempFolder();
  TempFolder(const TempFolder&) = delete;
  TempFolder& operator=(const TempFolder&) = delete;

  std::string path() const { return path_.string(); }
  /// Writes a file in it, folders on the way included; gives its path.
  std::string write(const std::string& name, const std::string& text) const;

 private:
  std::filesystem::path path_;
};

}  // namespace kartwright
