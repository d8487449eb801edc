#include "cli/ask.h"

#include "cli/dialogue.h"
#include "cli/interview_text.h"
#include "engine/document/replace_file.h"

namespace kartwright::cli {
namespace {

constexpr std::size_t kHang = 3;
constexpr std::size_t kMostInVain = 20;  ///< replies of a script in a row that say nothing

bool says_yes(const std::string& text) {
  return text == "y" || text == "Y" || text == "yes" || text == "Yes" || text == "YES";
}

bool says_no(const std::string& text) {
  return text == "n" || text == "N" || text == "no" || text == "No" || text == "NO";
}

std::string track_of(const Debrief& debrief, const Pack& pack) {
  const TrackState* track = pack.track(debrief.track);
  return track == nullptr ? "track not known" : "track " + track->label;
}

std::string message_of(const InputError& error) {
  return error.found().empty() ? error.what() : error.found().front().message;
}

}  // namespace

DriverAsked::DriverAsked(Dialogue& dialogue, const DebriefKeeper& keeper, const Pack& pack)
    : dialogue_(dialogue), keeper_(keeper), pack_(pack) {}

/// One that can be offered; of any other it is said why not.
std::optional<KeptDebrief> DriverAsked::kept_one() {
  if (!keeper_.has_one()) return std::nullopt;
  if (!dialogue_.on_terminal()) {
    dialogue_.say(
        "A debrief of this kart was broken off and is kept. It is left alone, since the answers "
        "come from a script.");
    return std::nullopt;
  }
  try {
    return keeper_.read(pack_);
  } catch (const InputError& error) {
    dialogue_.say("A debrief of this kart was broken off, but it cannot be read any more: " +
                  message_of(error) + ". So from the start.");
    return std::nullopt;
  }
}

std::optional<Debrief> DriverAsked::offer(const std::string& kart, AskingEnd& end) {
  end = AskingEnd::finished;
  std::optional<KeptDebrief> kept = kept_one();
  if (!kept) return std::nullopt;
  dialogue_.say("A debrief was broken off: " + kart + ", " + track_of(kept->debrief, pack_) + ", " +
                count_of_answers(kept->answers) + ".");
  dialogue_.say("Go on with it? y yes, n no (forgets it)");
  while (true) {
    const Reply reply = dialogue_.ask("> ");
    over_ = reply.what == Reply::What::end;
    if (over_) return std::nullopt;
    if (reply.what == Reply::What::interrupted) {
      end = AskingEnd::interrupted;
      dialogue_.say("Broken off; what was kept stays.");
      return std::nullopt;
    }
    if (says_no(reply.text)) {
      keeper_.forget();
      return std::nullopt;
    }
    if (!says_yes(reply.text)) {
      dialogue_.say("y to go on with it, n to forget it");
      continue;
    }
    taken_up_ = kept->answers;
    kept_ = true;
    return std::move(kept->debrief);
  }
}

void DriverAsked::warn_of_no_folder() {
  if (warned_ || !dialogue_.on_terminal() || keeper_.can_keep()) return;
  warned_ = true;
  dialogue_.say(
      "Neither XDG_STATE_HOME nor HOME is set: what is answered cannot be kept if this is "
      "broken off.");
}

void DriverAsked::keep(const Interview& interview) {
  if (!dialogue_.on_terminal() || !keeper_.can_keep() || warned_) return;
  const std::size_t answers = taken_up_ + interview.answers();
  try {
    if (answers == 0)
      keeper_.forget();
    else
      keeper_.keep({.debrief = interview.debrief(), .answers = answers});
    kept_ = answers > 0;
  } catch (const FileError& error) {
    kept_ = false;
    warned_ = true;
    dialogue_.say("What is answered cannot be kept if this is broken off: " +
                  std::string(error.what()));
  }
}

void DriverAsked::tell_interrupted(const Interview& interview) const {
  if (!kept_) {
    dialogue_.say("Broken off; nothing is kept.");
    return;
  }
  dialogue_.say("Broken off; " + count_of_answers(taken_up_ + interview.answers()) +
                " kept. To go on: kartwright advise --ask" + keeper_.options());
}

AskingEnd DriverAsked::put_questions(Interview& interview) {
  std::size_t in_vain = 0;
  for (std::size_t number = 1; interview.next();) {
    const Asking asked = *interview.next();
    dialogue_.blank_line();
    dialogue_.say(question_line(asked, number), kHang);
    dialogue_.say(key_line(asked), kHang);
    const Reply reply = dialogue_.ask("> ");
    if (reply.what == Reply::What::interrupted) return AskingEnd::interrupted;
    if (reply.what == Reply::What::end) return AskingEnd::finished;
    const AnswerTaken answered = interview.answer(reply.text);
    for (const std::string& line : answer_lines(answered, asked, pack_)) dialogue_.say(line, kHang);
    if (answered.understood.kind == Understood::Kind::done) return AskingEnd::finished;
    in_vain = answered.taken ? 0 : in_vain + 1;
    if (in_vain == kMostInVain && !dialogue_.on_terminal()) {
      dialogue_.say("The script does not answer what is asked: no more questions.");
      return AskingEnd::finished;
    }
    if (!answered.taken) continue;
    const bool back = answered.understood.kind == Understood::Kind::back;
    number = back ? number - 1 : number + 1;
    keep(interview);
  }
  dialogue_.blank_line();
  dialogue_.say("No further question is worth a point.");
  return AskingEnd::finished;
}

AskingEnd DriverAsked::ask(const InterviewOf& of, Debrief& debrief) {
  warn_of_no_folder();
  Interview interview(of, debrief);
  dialogue_.say(
      "Answer with a key, a word or a sentence; ? where it is not known, b back, d done. "
      "First so far: " +
      what_leads(interview.advice()) + ".");
  const AskingEnd end = over_ ? AskingEnd::finished : put_questions(interview);
  debrief = interview.debrief();
  if (end == AskingEnd::interrupted) tell_interrupted(interview);
  dialogue_.blank_line();
  return end;
}

void DriverAsked::advised() const {
  // One that could not be kept any more may still stand there from before.
  if ((kept_ || warned_) && !keeper_.forget())
    dialogue_.say("What was answered stays in " + keeper_.path() + "; it may be removed.");
}

}  // namespace kartwright::cli
