#include "engine/document/replace_file.h"

#include <cerrno>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <system_error>

#include <fcntl.h>
#include <stdlib.h>
#include <sys/stat.h>
#include <unistd.h>

namespace kartwright {

namespace {

namespace fs = std::filesystem;

constexpr const char* kMark = "\xEF\xBB\xBF";

[[noreturn]] void fail(FileError::What what, const std::string& path, const std::string& why) {
  throw FileError(what, path + " " + why);
}

std::string system_words() { return std::generic_category().message(errno); }

std::string held_by(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

/// A copy that does not write over anything.
std::string keep_beside(const std::string& real, const std::string& suffix) {
  constexpr int kMostKept = 1000;
  for (int n = 1; n <= kMostKept; ++n) {
    const std::string kept = real + "." + suffix + (n == 1 ? "" : "-" + std::to_string(n));
    std::error_code error;
    if (fs::copy_file(real, kept, fs::copy_options::none, error)) return kept;
    if (error != std::errc::file_exists) {
      fail(FileError::What::cannot_create, kept, "cannot be written: " + error.message());
    }
  }
  fail(FileError::What::cannot_create, real, "has too many old copies beside it");
}

/// An open temporary that is gone again unless it was renamed.
class Temporary {
 public:
  explicit Temporary(const std::string& real)
      : path_(real + ".XXXXXX"), file_(mkstemp(path_.data())) {
    if (file_ < 0)
      fail(FileError::What::cannot_create, real, "cannot be replaced: " + system_words());
  }
  ~Temporary() {
    if (file_ >= 0) close(file_);
    if (!kept_) unlink(path_.c_str());
  }
  Temporary(const Temporary&) = delete;
  Temporary& operator=(const Temporary&) = delete;

  void write(const std::string& text, mode_t mode) {
    std::size_t done = 0;
    while (done < text.size()) {
      const ssize_t n = ::write(file_, text.data() + done, text.size() - done);
      if (n < 0 && errno == EINTR) continue;
      if (n <= 0) fail(FileError::What::not_written, path_, "was not written: " + system_words());
      done += static_cast<std::size_t>(n);
    }
    const bool good = fchmod(file_, mode) == 0 && fsync(file_) == 0 && close(file_) == 0;
    file_ = -1;
    if (!good) fail(FileError::What::not_written, path_, "was not written: " + system_words());
  }

  void take_the_place_of(const std::string& real) {
    if (std::rename(path_.c_str(), real.c_str()) != 0) {
      fail(FileError::What::cannot_create, real, "cannot be replaced: " + system_words());
    }
    kept_ = true;
    // The name is on the disk only when its folder is.
    const int folder = open(fs::path(real).parent_path().c_str(), O_RDONLY | O_DIRECTORY);
    const bool good = folder >= 0 && fsync(folder) == 0;
    if (folder >= 0) close(folder);
    if (!good) fail(FileError::What::not_written, real, "may be lost: " + system_words());
  }

 private:
  std::string path_;
  int file_;
  bool kept_ = false;
};

}  // namespace

std::string replace_file(const std::string& path, const std::string& before,
                         const std::string& text, const std::string& suffix) {
  std::error_code error;
  const std::string real = fs::canonical(path, error).string();
  struct stat status {};
  if (error || stat(real.c_str(), &status) != 0 || !S_ISREG(status.st_mode)) {
    fail(FileError::What::cannot_create, path, "is no file that can be replaced");
  }
  if (access(real.c_str(), W_OK) != 0) {
    fail(FileError::What::cannot_create, path, "cannot be written: " + system_words());
  }
  // A reader leaves a byte order mark out; it stays in the file.
  const std::string held = held_by(real);
  const std::string mark = held.starts_with(kMark) && !before.starts_with(kMark) ? kMark : "";
  Temporary temporary(real);
  temporary.write(mark + text, status.st_mode & 07777U);
  if (held_by(real) != mark + before) {
    fail(FileError::What::not_written, path, "was changed by somebody else meanwhile");
  }
  std::string kept = keep_beside(real, suffix);
  temporary.take_the_place_of(real);
  return kept;
}

void put_file(const std::string& path, const std::string& text) {
  constexpr mode_t kOwnerOnly = 0600;
  Temporary temporary(path);
  temporary.write(text, kOwnerOnly);
  temporary.take_the_place_of(path);
}

}  // namespace kartwright
