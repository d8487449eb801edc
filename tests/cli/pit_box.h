// pit_box.h - a folder with a kart file and a log in it, and the commands that keep them.

#pragma once

#include <string>

#include "tests/cli/kartwright.h"
#include "tests/support/temp_folder.h"

namespace kartwright {

/// The bytes of a file; empty where there is none.
std::string file_text(const std::string& path);

/// A text with something in it exchanged where it first stands.
std::string with_exchanged(std::string text, const std::string& before, const std::string& after);

class PitBox {
 public:
  PitBox();
  /// With another text in the kart file.
  explicit PitBox(const std::string& kart_text);

  const TempFolder& folder() const { return folder_; }
  std::string kart() const { return folder_.path() + "/blue27.yaml"; }
  std::string log() const { return folder_.path() + "/day.db"; }

  /// The program with `--log` behind these words.
  Ended with_log(Words words) const;
  /// `log add` with the kart file and these options.
  Ended add(const Words& more, const Words& laps = {"--laps", "31.5 31.4 31.45"}) const;
  /// `apply` with the kart file, the log and these options.
  Ended apply(const Words& more) const;
  /// The last advice on a push going in, remembered by the log.
  Ended advise() const;
  /// An export of the log.
  std::string exported(const std::string& format = "json") const;
  /// How many runs the log has, as `log list` says.
  std::size_t runs() const;

 private:
  TempFolder folder_;
};

/// The kart file of a new pit box.
std::string pit_box_kart();

/// A log at a path with an export taken in.
Ended import_into(const std::string& log, const std::string& file);

}  // namespace kartwright
