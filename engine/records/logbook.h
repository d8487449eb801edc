// logbook.h - the log: one SQLite file that keeps every run, and loses none of them.
//
// Everything that is written is one transaction, on the disk before it is acknowledged. What is
// wrong with the file itself is thrown as InputError with a code of the letter N.

#pragma once

#include <cstddef>
#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "engine/records/run.h"

namespace kartwright {

/// Which lists of a run to read; the others stay empty.
struct RunParts {
  bool settings = true, laps = true, reports = true, facts = true, notes = true, changes = true,
       verdicts = true;
  bool advice = false;  ///< of the changes: the advice that was followed, whole
  bool words = true;    ///< what was said in words, of runs, reports and facts
};

class Logbook {
 public:
  enum class For {
    reading,  ///< it must be there, and is not touched
    writing,  ///< it must be there
    keeping,  ///< it is made where it is not there
  };

  /// Opens a log, and brings an older one up to today where it may be written. A log of a newer
  /// version, a damaged one and any other file are refused and not touched. `patience` is how many
  /// milliseconds to wait for another program's writing.
  Logbook(const std::string& path, For what, int patience = 5000);
  ~Logbook();
  Logbook(const Logbook&) = delete;
  Logbook& operator=(const Logbook&) = delete;

  const std::string& path() const;

  /// A change of the log that reads what it changes: nobody else writes from here on. What was put
  /// in between goes when it is destroyed without `commit`.
  class Writing {
   public:
    explicit Writing(Logbook& log);
    ~Writing();
    Writing(const Writing&) = delete;
    Writing& operator=(const Writing&) = delete;
    void commit();

   private:
    Logbook& log_;
    bool open_ = true;
  };

  /// Puts a run in, or in the place of the one with its id; gives its id. Inside a Writing, or in a
  /// transaction of its own. REQUIRES: no other run of that kart at that moment.
  std::int64_t put(const Run& run);

  std::vector<std::string> karts() const;
  /// Of one kart, or of all where `kart` is empty.
  std::size_t count_runs(const std::string& kart) const;
  /// Of all runs, by time.
  std::vector<std::int64_t> ids() const;
  /// Runs by time, of one kart or of all where `kart` is empty; with `last` only so many of the
  /// latest.
  std::vector<Run> runs(const std::string& kart, const RunParts& parts = {},
                        std::optional<std::size_t> last = {}) const;
  std::optional<Run> run(std::int64_t id) const;
  std::optional<Run> run_at(const std::string& kart, const std::string& at) const;
  /// The last of a kart that was driven, of all or of those before a moment.
  std::optional<Run> last_driven(const std::string& kart, const std::string& before = {}) const;
  /// The one made ready behind it.
  std::optional<Run> made_ready(const std::string& kart) const;

  /// The last advice of a kart, as JSON, for whoever makes a change of it.
  void remember_advice(const std::string& kart, const std::string& at, const std::string& advice);
  std::optional<std::string> last_advice(const std::string& kart) const;

  /// What SQLite finds wrong with the file; empty where nothing.
  std::vector<std::string> damage() const;

 private:
  struct Inside;
  std::unique_ptr<Inside> in_;
};

}  // namespace kartwright
