#include "engine/document/replace_file.h"

#include <cerrno>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <system_error>
#include <utility>

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <time.h>  // NOLINT(modernize-deprecated-headers): POSIX has more in it
#include <unistd.h>

namespace kartwright {

namespace {

namespace fs = std::filesystem;

constexpr const char* kMark = "\xEF\xBB\xBF";
constexpr const char* kBeingWritten = "being-written";
constexpr mode_t kOwnerOnly = 0600;

[[noreturn]] void fail(FileError::What what, const std::string& path, const std::string& why) {
  throw FileError(what, path + " " + why);
}

std::string system_words() { return std::generic_category().message(errno); }

/// What a file holds, whole. Throws FileError.
std::string held_by(const std::string& path) {
  errno = 0;
  std::ifstream file(path, std::ios::binary);
  std::ostringstream text;
  // A file without a byte fails to give one, which is no error.
  const bool read = file && (file.peek() == EOF || text << file.rdbuf()) && !file.bad();
  if (!read) fail(FileError::What::not_written, path, "cannot be read: " + system_words());
  return text.str();
}

/// Writes all of a text to an open file and onto the disk. False with errno where that fails.
bool put_on_disk(int file, const std::string& text, mode_t mode) {
  std::size_t done = 0;
  while (done < text.size()) {
    const ssize_t n = ::write(file, text.data() + done, text.size() - done);
    if (n < 0 && errno == EINTR) continue;
    if (n <= 0) return false;
    done += static_cast<std::size_t>(n);
  }
  return fchmod(file, mode) == 0 && fsync(file) == 0;
}

/// A file that was made here: open, and gone again unless it is to stay.
class Made {
 public:
  Made() = default;
  Made(std::string path, int file) : path_(std::move(path)), file_(file) {}
  ~Made() {
    if (file_ < 0) return;
    if (!stays_) unlink(path_.c_str());
    close(file_);  // after that, since it is the lock that says whose the name is
  }
  Made(Made&& other) noexcept
      : path_(std::move(other.path_)),
        file_(std::exchange(other.file_, -1)),
        stays_(other.stays_) {}
  Made(const Made&) = delete;
  Made& operator=(const Made&) = delete;
  Made& operator=(Made&&) = delete;

  const std::string& path() const { return path_; }
  int file() const { return file_; }
  void stays() { stays_ = true; }
  void is_called(std::string path) { path_ = std::move(path); }

 private:
  std::string path_;
  int file_ = -1;
  bool stays_ = false;
};

bool reads_as(const std::string& path, const std::string& text) {
  try {
    return held_by(path) == text;
  } catch (const FileError&) {
    return false;
  }
}

/// Whether an open file is still the one that bears the name.
bool bears(int file, const std::string& path) {
  struct stat open_one {};
  struct stat named {};
  return fstat(file, &open_one) == 0 && lstat(path.c_str(), &named) == 0 &&
         open_one.st_dev == named.st_dev && open_one.st_ino == named.st_ino;
}

enum class Owner { me, another, nobody };

/// Takes the lock of a file, for as long as it is open. Some file systems know none.
Owner take_lock(int file, const std::string& path) {
  while (flock(file, LOCK_EX | LOCK_NB) != 0) {
    if (errno == EWOULDBLOCK) return Owner::another;
    if (errno != EINTR) break;
  }
  return bears(file, path) ? Owner::me : Owner::nobody;
}

/// Takes away a new text whose writer was ended before it was done: nobody holds it any more. False
/// where somebody does. Throws FileError where it cannot be taken away.
bool clear_away(const std::string& path, const std::string& real) {
  const int file = open(path.c_str(), O_RDWR | O_NOFOLLOW | O_CLOEXEC);
  if (file < 0 && errno == ENOENT) return true;
  Made left(path, file);  // goes at the end, but where it is another's
  if (file < 0)
    fail(FileError::What::cannot_create, real,
         "cannot be replaced, see " + path + ": " + system_words());
  const Owner owner = take_lock(file, path);
  if (owner != Owner::me) left.stays();
  return owner != Owner::another;
}

/// A new file beside another, under a name that only one process at a time has. `cannot` is what is
/// said of the other one where it cannot be made.
Made new_text_beside(const std::string& real, const std::string& cannot = "cannot be replaced") {
  constexpr int kTries = 100;
  constexpr timespec kBetween{.tv_sec = 0, .tv_nsec = 50'000'000};
  const std::string path = real + "." + kBeingWritten;
  for (int i = 0; i < kTries; ++i) {
    const int file =
        open(path.c_str(), O_RDWR | O_CREAT | O_EXCL | O_NOFOLLOW | O_CLOEXEC, kOwnerOnly);
    if (file < 0 && errno != EEXIST)
      fail(FileError::What::cannot_create, real, cannot + ": " + system_words());
    if (file >= 0) {
      if (take_lock(file, path) == Owner::me) return {path, file};
      close(file);
    } else if (!clear_away(path, real)) {
      nanosleep(&kBetween, nullptr);
    }
  }
  fail(FileError::What::cannot_create, real, "is being written by somebody else, see " + path);
}

/// Gives a file a name that no other has. Some file systems cannot see to that; there the name was
/// free a moment ago. False with errno where it fails.
bool give_free_name(Made& file, const std::string& path) {
  const char* const from = file.path().c_str();
  const bool named = renameat2(AT_FDCWD, from, AT_FDCWD, path.c_str(), RENAME_NOREPLACE) == 0 ||
                     ((errno == EINVAL || errno == ENOSYS) && std::rename(from, path.c_str()) == 0);
  if (named) file.is_called(path);
  return named;
}

/// The old text in a file of its own, that does not write over anything and has its name only when
/// it is whole. A newest one that holds it already, as where its writer was ended just then, is
/// taken.
Made keep_beside(const std::string& real, const std::string& suffix, const std::string& text,
                 mode_t mode) {
  constexpr int kMostKept = 1000;
  std::string newest;
  for (int n = 1; n <= kMostKept; ++n) {
    std::string path = fmt::format("{}.{}{}", real, suffix, n == 1 ? "" : fmt::format("-{}", n));
    struct stat there {};
    if (lstat(path.c_str(), &there) == 0) {
      newest = path;
      continue;
    }
    if (!newest.empty() && reads_as(newest, text)) return {newest, -1};
    Made kept = new_text_beside(path, "cannot be written");
    if (!put_on_disk(kept.file(), text, mode))
      fail(FileError::What::not_written, path, "was not written: " + system_words());
    if (!give_free_name(kept, path))
      fail(FileError::What::cannot_create, path, "cannot be written: " + system_words());
    return kept;
  }
  fail(FileError::What::cannot_create, real, "has too many old copies beside it");
}

/// The folder of a file, open so that it can be put on the disk. One that may not be read cannot.
class Folder {
 public:
  explicit Folder(const std::string& real) {
    const std::string path = fs::path(real).parent_path().string();
    file_ = open(path.empty() ? "." : path.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (file_ < 0 && errno != EACCES)
      fail(FileError::What::cannot_create, real, "cannot be replaced: " + system_words());
  }
  ~Folder() {
    if (file_ >= 0) close(file_);
  }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;

  /// False with errno where it failed; some file systems know no such thing, and say EINVAL.
  bool put_on_disk() const { return file_ < 0 || fsync(file_) == 0 || errno == EINVAL; }

 private:
  int file_;
};

/// Renames the new text over the old one. What bears a name is on the disk only when its folder is:
/// false with errno where that fails.
bool take_the_place(Made& fresh, const std::string& real) {
  const Folder folder(real);
  if (!bears(fresh.file(), fresh.path()))  // where no locks are known, another may have come
    fail(FileError::What::not_written, real, "is being written by somebody else");
  if (std::rename(fresh.path().c_str(), real.c_str()) != 0)
    fail(FileError::What::cannot_create, real, "cannot be replaced: " + system_words());
  fresh.stays();
  return folder.put_on_disk();
}

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
  const mode_t mode = status.st_mode & 07777U;
  Made fresh = new_text_beside(real);
  if (!put_on_disk(fresh.file(), mark + text, mode))
    fail(FileError::What::not_written, path, "was not written: " + system_words());
  if (held_by(real) != mark + before)
    fail(FileError::What::not_written, path, "was changed by somebody else meanwhile");
  Made kept = keep_beside(real, suffix, mark + before, mode);
  if (!take_the_place(fresh, real)) {
    const std::string why = system_words();
    take_back(path, kept.path());  // since it is not sure to last
    fail(FileError::What::not_written, path, "was not written: " + why);
  }
  kept.stays();
  return kept.path();
}

bool take_back(const std::string& path, const std::string& kept) {
  std::error_code error;
  fs::rename(kept, fs::canonical(path, error), error);
  return !error;
}

void put_file(const std::string& path, const std::string& text, bool open_to_all) {
  constexpr mode_t kAllMayRead = 0644;
  Made fresh = new_text_beside(path);
  if (!put_on_disk(fresh.file(), text, open_to_all ? kAllMayRead : kOwnerOnly))
    fail(FileError::What::not_written, path, "was not written: " + system_words());
  if (!take_the_place(fresh, path))
    fail(FileError::What::not_written, path, "may be lost when the power goes: " + system_words());
}

}  // namespace kartwright
