#include "cli/state_folder.h"

#include <cerrno>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <system_error>

#include <fcntl.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include "engine/document/diagnostic.h"
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

/// A file opened to append to and held by this process alone until it is closed.
class Appended {
 public:
  explicit Appended(std::string path)
      : path_(std::move(path)),
        file_(open(path_.c_str(), O_RDWR | O_APPEND | O_CREAT | O_CLOEXEC, kOwnerMayReadAndWrite)) {
    if (file_ < 0) fail(FileError::What::cannot_create, "cannot be written: ");
    do locked_ = flock(file_, LOCK_EX) == 0;
    while (!locked_ && errno == EINTR);  // some know no locks: one write is whole all the same
  }
  ~Appended() {
    if (file_ >= 0) close(file_);
  }
  Appended(const Appended&) = delete;
  Appended& operator=(const Appended&) = delete;

  void add(const std::string& line) {
    const std::string text = (is_torn() ? "\n" : "") + line + "\n";
    struct stat before {};
    const bool sized = fstat(file_, &before) == 0;
    ssize_t written = -1;
    do written = ::write(file_, text.data(), text.size());
    while (written < 0 && errno == EINTR);
    const bool cut_off = written >= 0 && written < static_cast<ssize_t>(text.size());
    if (cut_off) errno = ENOSPC;  // a short write says no more than that
    if (written >= 0 && !cut_off && fsync(file_) == 0) return;
    const int why = errno;
    if (sized && locked_) cut_back(before.st_size);
    errno = why;
    fail(FileError::What::not_written, "was not written: ");
  }

 private:
  static constexpr mode_t kOwnerMayReadAndWrite = 0600;

  bool is_torn() const {
    struct stat status {};
    char last = '\n';
    if (fstat(file_, &status) != 0 || status.st_size == 0) return false;
    return pread(file_, &last, 1, status.st_size - 1) == 1 && last != '\n';
  }
  /// Takes away what was not written whole. Where it stays, the next one ends it.
  void cut_back(off_t size) const {
    if (ftruncate(file_, size) == 0) fsync(file_);
  }
  [[noreturn]] void fail(FileError::What what, const std::string& why) const {
    throw FileError(what, path_ + " " + why + std::generic_category().message(errno));
  }

  std::string path_;
  int file_;
  bool locked_ = false;
};

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
  // A file without a byte fails to give one, which is no error.
  const bool whole = file.peek() == EOF || text << file.rdbuf();
  if (!whole || file.bad()) return std::nullopt;
  return text.str();
}

void write_state(const std::string& folder, const std::string& name, const std::string& text) {
  make_folders(folder);
  put_file(path_of(folder, name), text);
}

std::string state_text(const std::string& folder, const std::string& name) {
  const std::string path = path_of(folder, name);
  struct stat status {};
  if (stat(path.c_str(), &status) != 0 && (errno == ENOENT || errno == ENOTDIR)) return {};
  if (auto text = read_state(folder, name)) return std::move(*text);
  throw InputError({Diagnostic{.code = Code::cannot_read,
                               .file = path,
                               .message = S_ISDIR(status.st_mode) ? "this is a folder, not a record"
                                                                  : "this record cannot be read"}});
}

void append_state(const std::string& folder, const std::string& name, const std::string& line) {
  make_folders(folder);
  Appended(path_of(folder, name)).add(line);
}

bool remove_state(const std::string& folder, const std::string& name) {
  std::error_code error;
  fs::remove(path_of(folder, name), error);
  return !error;
}

}  // namespace kartwright::cli
