// interview.h - the questions to the driver, one at a time, the one most worth asking first.
//
// Pure: no clock, no input or output. What is answered is a debrief like any other, and the advice
// from it is the one that the same debrief would get.

#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "engine/advice/advise.h"
#include "engine/advice/answer_reader.h"

namespace kartwright {

/// How an answer moved the advice.
struct Moved {
  struct OnAxis {
    const Axis* axis = nullptr;   ///< in the pack
    double from = 0.0, to = 0.0;  ///< notches
  };
  std::vector<OnAxis> axes = {};  ///< those that differ by a tenth of a notch, the heaviest first
  std::string leads = {}, led = {};  ///< what comes first now, and what did; in plain words
};

/// What comes first in an advice, in plain words: "leave alone", "rear wider, to 1370 mm".
std::string what_leads(const Advice& advice);

/// What became of an answer.
struct AnswerTaken {
  Understood understood = {};
  bool taken = false;  ///< the debrief is another now, or one that was (back)
  bool open = false;   ///< something was heard, but not what was asked
  Moved moved = {};    ///< where something was taken
};

/// What is needed beside a debrief. The first two must outlive the interview.
struct InterviewOf {
  const Pack& pack;
  const Kart& kart;
  System units = System::metric;
  const History* history = nullptr;
};

class Interview {
 public:
  /// Points: a question worth less is not asked.
  static constexpr double kWorthAsking = 1.0;

  Interview(const InterviewOf& of, Debrief begun);

  /// The next question, or none: all are answered, not known, or worth less than a point. The track
  /// comes first where it is not known. Where nobody has said a word and so nothing is worth
  /// anything, an open question is put once.
  const std::optional<Asking>& next() const { return next_; }

  /// The answer to next(). What is not understood changes nothing. REQUIRES: next() is there.
  AnswerTaken answer(std::string_view text);

  const Debrief& debrief() const { return now_.debrief; }
  const Advice& advice() const { return advice_; }
  std::size_t answers() const { return now_.answers; }  ///< taken, without those taken back

 private:
  /// All that an answer changes.
  struct State {
    Debrief debrief = {};
    std::vector<std::pair<std::string_view, Phase>> skipped = {};
    bool opened = false;  ///< the open question was put
    std::size_t answers = 0;
  };

  void settle();  ///< works out the advice and the next question
  std::optional<Asking> pick() const;
  bool skipped(const Question& question) const;
  void skip(const Asking& asking);
  void take(const Understood& understood);

  InterviewOf of_;
  AnswerReader reader_;
  State now_;
  std::vector<State> before_ = {};
  Advice advice_ = {};
  std::optional<Asking> next_ = {};
};

}  // namespace kartwright
