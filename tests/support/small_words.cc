#include "tests/support/small_words.h"

#include <utility>

namespace kartwright {
namespace {

using Means = Phrase::Means;

class Writer {
 public:
  void add(Means means, const std::string& id, std::initializer_list<std::string_view> phrases) {
    for (const std::string_view words : phrases) {
      pack_.phrases.push_back(phrase_of(words, means, id));
    }
  }

  Phrase& last() { return pack_.phrases.back(); }

  void add_symptoms() {
    add(Means::symptom, "push", {"push*", "wash* out", "tight", "won't turn"});
    add(Means::symptom, "push", {"tight off"});
    last().phase = Phase::exit;
    add(Means::symptom, "push", {"plows"});
    last().severity = 3;
    add(Means::symptom, "loose", {"loose"});
    add(Means::symptom, "loose", {"loose off"});
    last().phase = Phase::exit;
    add(Means::symptom, "loose", {"wheelspin"});
    last().phase = Phase::exit;
    add(Means::symptom, "hop", {"hop*", "chatter*"});
    add(Means::symptom, "slide", {"slide*"});
    add(Means::symptom, "pulls", {"pull*", "drifts to the left", "something is not right"});
    add(Means::symptom, "two-wheels", {"on two-wheels"});
  }

  void add_remarks() {
    add(Means::phase, "entry", {"going in", "on entry", "turn in"});
    add(Means::phase, "mid", {"in the middle", "mid"});
    add(Means::phase, "exit", {"off", "coming off", "on exit"});
    add(Means::phase, "any", {"everywhere"});
    add(Means::severity, "3", {"bad", "badly", "really", "a lot"});
    add(Means::severity, "1", {"a little", "slight", "a bit"});
    add(Means::side, "left", {"left", "lefts"});
    add(Means::side, "right", {"right", "rights"});
    add(Means::when, "early", {"early"});
    add(Means::when, "late", {"late in the run"});
    add(Means::confidence, "sure", {"definitely"});
    add(Means::confidence, "unsure", {"i think", "maybe"});
  }

  void add_the_rest() {
    add(Means::negation, "", {"no", "not", "nor", "doesn't", "is gone"});
    add(Means::praise, "", {"great", "good", "no complaints", "fine everywhere else"});
    add(Means::fact, "turn-in=brake", {"turn in on the brake"});
    add(Means::fact, "hit=yes", {"hit the kerb"});
    add(Means::laps, "faster", {"faster"});
    add(Means::place, "", {"turn", "turn four", "in the hairpin"});
    add(Means::filler, "", {"it", "is", "was", "the", "any more", "to", "in", "there", "now"});
  }

  Pack finish() {
    pack_.hearing.praise_denies = {"push", "loose", "hop"};
    return std::move(pack_);
  }

 private:
  Pack pack_;
};

Pack written() {
  Writer writer;
  writer.add_symptoms();
  writer.add_remarks();
  writer.add_the_rest();
  return writer.finish();
}

}  // namespace

Phrase phrase_of(std::string_view words, Phrase::Means means, std::string id) {
  Phrase phrase;
  phrase.wordings = words;
  phrase.means = means;
  phrase.id = std::move(id);
  return phrase;
}

const Pack& small_words() {
  static const Pack kPack = written();
  return kPack;
}

std::string shown(const Report& report) {
  std::string text = report.symptom + '@' + std::string(name_of(report.phase)) + '=' +
                     std::to_string(report.severity);
  if (report.side) text += ',' + std::string(name_of(*report.side));
  if (report.when) text += ',' + std::string(name_of(*report.when));
  if (report.confidence != Confidence::fair) text += ',' + std::string(name_of(report.confidence));
  return text;
}

std::vector<std::string> shown(const std::vector<Report>& reports) {
  std::vector<std::string> texts;
  for (const Report& report : reports) {
    if (!report.from_praise) texts.push_back(shown(report));
  }
  return texts;
}

}  // namespace kartwright
