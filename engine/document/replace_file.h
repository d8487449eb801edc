// replace_file.h - a file exchanged for another in one step: either the old or the new one is
// there, whatever happens on the way, and the old one is kept beside it.

#pragma once

#include <stdexcept>
#include <string>

namespace kartwright {

/// Why a file was not exchanged; the old one still stands.
class FileError : public std::runtime_error {
 public:
  enum class What { cannot_create, not_written };
  FileError(What what, const std::string& message) : std::runtime_error(message), what_(what) {}
  What kind() const { return what_; }

 private:
  What what_;
};

/// Writes `text` in the place of a file: as `PATH.being-written` beside it, flushed to the disk,
/// then renamed over it. What it held is put beside it first, as `PATH.SUFFIX`, or `PATH.SUFFIX-2`
/// and so on where that is there already; gives that path. Its permissions are taken over; a link
/// is followed. Of two that write at once one waits for the other, five seconds at the most. What a
/// writer left that was ended half way is cleared away by the next one. Throws FileError where it
/// cannot be done, or where the file no longer holds `before`; then nothing has changed.
std::string replace_file(const std::string& path, const std::string& before,
                         const std::string& text, const std::string& suffix);

/// The old text again, in one step that needs no room on the disk: what replace_file put beside it
/// takes its place. False where that cannot be.
bool take_back(const std::string& path, const std::string& kept);

/// Writes `text` to a file that need not be there yet, in one step as well and without keeping an
/// old one. Unless it is `open_to_all`, only its owner may read it. Throws FileError.
void put_file(const std::string& path, const std::string& text, bool open_to_all = false);

}  // namespace kartwright
