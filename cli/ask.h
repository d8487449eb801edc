// ask.h - `advise --ask`: the driver is asked, on stderr, before the advice is given.

#pragma once

#include "cli/kept_debrief.h"
#include "engine/advice/interview.h"

namespace kartwright::cli {

class Dialogue;

/// How the asking ended; after `interrupted` no advice is given.
enum class AskingEnd { finished, interrupted };

class DriverAsked {
 public:
  /// `keeper` keeps what was answered for as long as it is not finished, where it is typed: a
  /// script can be run again. All must outlive it.
  DriverAsked(Dialogue& dialogue, const DebriefKeeper& keeper, const Pack& pack);

  /// Offers a debrief that was broken off, where there is one. Gives it where it is taken up;
  /// `end` tells whether that was interrupted.
  std::optional<Debrief> offer(const std::string& kart, AskingEnd& end);

  /// Asks until nothing is worth asking; what was answered is put into the debrief.
  AskingEnd ask(const InterviewOf& of, Debrief& debrief);

  /// The advice was given: what was kept of this debrief is forgotten.
  void advised() const;

 private:
  std::optional<KeptDebrief> kept_one();
  AskingEnd put_questions(Interview& interview);
  void keep(const Interview& interview);
  void tell_interrupted(const Interview& interview) const;
  void warn_of_no_folder();

  Dialogue& dialogue_;
  const DebriefKeeper& keeper_;
  const Pack& pack_;
  std::size_t taken_up_ = 0;  ///< answers of the debrief that was broken off
  bool kept_ = false;         ///< what was answered is on the disk
  bool warned_ = false;
  bool over_ = false;  ///< the end of the input came before the first question
};

}  // namespace kartwright::cli
