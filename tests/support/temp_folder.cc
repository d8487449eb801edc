#include "tests/support/temp_folder.h"

#include <cerrno>
#include <cstdlib>
#include <fstream>
#include <system_error>

namespace kartwright {

TempFolder::TempFolder() {
  std::string name = (std::filesystem::temp_directory_path() / "kartwright-XXXXXX").string();
  if (mkdtemp(name.data()) == nullptr) {
    throw std::system_error(errno, std::generic_category(), "mkdtemp");
  }
  path_ = name;
}

TempFolder::~TempFolder() {
  std::error_code ignored;
  std::filesystem::remove_all(path_, ignored);
}

std::string TempFolder::write(const std::string& name, const std::string& text) const {
  const std::filesystem::path file = path_ / name;
  std::filesystem::create_directories(file.parent_path());
  std::ofstream(file, std::ios::binary) << text;
  return file.string();
}

}  // namespace kartwright
