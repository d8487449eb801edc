// log_files.h - logs for tests: a run with everything in it, and files that are no logs, or logs no
// more.

#pragma once

#include <string>
#include <vector>

#include "engine/kart/kart.h"
#include "engine/records/logbook.h"
#include "tests/support/temp_folder.h"

namespace kartwright {

inline constexpr Logbook::For kReading = Logbook::For::reading;
inline constexpr Logbook::For kWriting = Logbook::For::writing;
inline constexpr Logbook::For kKeeping = Logbook::For::keeping;

/// A run, by a name that GoogleTest does not hide in its tests.
using LoggedRun = Run;

/// The bytes of a file.
std::string bytes_of(const std::string& path);

/// A run of `blue 27` with every field given, none as it is by default.
Run whole_run(const std::string& at = "2026-11-14T10:30:00");
/// A run of a kart, with three laps and nothing else.
Run plain_run(const std::string& kart, const std::string& at);

/// Every field of a run in words, for comparing and for messages of tests that fail.
std::string in_words(const Run& run);

/// A log at a path with so many runs of `blue 27`, an hour apart; gives the path.
std::string log_of_runs(const std::string& path, int runs);

/// The kart file `blue27.yaml` of the pack of kart_pack.h: an axle, a rear width, a toe; the class
/// allows 1390 mm. And the kart of it, with another rear width.
std::string blue_kart_file(const std::string& rear_width = "1360 mm");
Kart blue_kart(const std::string& rear_width = "1360 mm");

/// While it stands no file of this process may grow beyond so many bytes, as on a full disk.
class FullDisk {
 public:
  explicit FullDisk(std::size_t bytes);
  ~FullDisk();
  FullDisk(const FullDisk&) = delete;
  FullDisk& operator=(const FullDisk&) = delete;

 private:
  unsigned long before_;
  void (*handler_)(int);
};

/// What each of these gives.
std::vector<Diagnostic> found_with_log(const std::string& text);  ///< a file with this text as log
std::vector<Diagnostic> a_log_of_tomorrow();
std::vector<Diagnostic> a_log_cut_short();
std::vector<Diagnostic> a_log_that_cannot_grow();
std::vector<Diagnostic> a_log_held_by_another();
std::vector<Diagnostic> a_lap_of_no_time();
std::vector<Diagnostic> a_run_that_differs();
std::vector<Diagnostic> a_run_that_is_not_there();
std::vector<Diagnostic> a_change_beyond_the_class();

/// Changes a database behind the back of its program; checks of its tables are left out.
void change_by_sql(const std::string& path, const std::string& sql);

}  // namespace kartwright
