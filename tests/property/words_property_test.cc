// Random joins of the vocabulary and of noise: whatever is said is understood or handed back, in
// time that grows with its length and no faster.

#include <algorithm>
#include <chrono>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "engine/debrief/spelling.h"
#include "engine/debrief/vocabulary.h"
#include "tests/support/any.h"
#include "tests/support/pit.h"
#include "tests/support/throws.h"

namespace kartwright {
namespace {

const int kSpeeches = throws_of_the_dice(2'000);

/// A word that no driver says: consonants that stand together in no word of the vocabulary.
std::string any_noise(Random& random) {
  static const std::string kLetters = "zxqvkjw";
  std::string word = "zx";
  for (int i = 0; i < 8; ++i) word += kLetters[any_below(random, kLetters.size())];
  return word + std::to_string(whole(random, 100, 999));
}

struct Saying {
  const Phrase* phrase = nullptr;
  std::string_view words;
};

/// Every wording of every phrase of the rules.
const std::vector<Saying>& sayings() {
  static const std::vector<Saying> kSayings = [] {
    std::vector<Saying> all;
    for (const Phrase& phrase : rules().phrases) {
      for (const std::string_view words : wordings_of(phrase)) all.push_back({&phrase, words});
    }
    return all;
  }();
  return kSayings;
}

/// A wording as it may be said, the first way each of its words may be.
std::string said_as(const Saying& saying) {
  std::string text;
  for (const std::string& word : words_in(saying.words)) {
    std::string said = word;
    if (word.starts_with('<')) {
      const auto same = [&](const WordClass& each) { return '<' + each.id + '>' == word; };
      const auto found =
          std::find_if(rules().word_classes.begin(), rules().word_classes.end(), same);
      said.clear();
      for (const std::string& part : found->words.front()) said += (said.empty() ? "" : " ") + part;
    }
    std::erase(said, '*');
    text += (text.empty() ? "" : " ") + said;
  }
  return text;
}

struct Speech {
  std::string text;
  std::vector<std::string> noise;  ///< that must come back
};

/// Noise right before a corner may be its name, and noise behind "like" a picture: those are quoted
/// with what they belong to, so none is put there.
bool takes_noise(const std::string& text, const Phrase* next) {
  if (next != nullptr && next->means == Phrase::Means::place) return false;
  const std::size_t tail = text.size() > 40 ? text.size() - 40 : 0;
  return text.find("like", tail) == std::string::npos &&
         text.find(" as ", tail) == std::string::npos;
}

Speech any_speech(Random& random, std::size_t items) {
  static const std::vector<std::string> kJoins{" ",  " ",     " ",     " ", ", ",
                                               ". ", " and ", " but ", "! "};
  Speech speech;
  for (std::size_t i = 0; i < items; ++i) {
    const Saying& saying = any_of(random, sayings());
    if (one_in(random, 4) && takes_noise(speech.text, saying.phrase)) {
      speech.noise.push_back(any_noise(random));
      speech.text += speech.noise.back() + any_of(random, kJoins);
    }
    speech.text += said_as(saying) + any_of(random, kJoins);
  }
  return speech;
}

TEST(AnySpeech, LosesNoWordThatItDoesNotUnderstand) {
  Random random(20'26);
  std::size_t checked = 0;
  for (int i = 0; i < kSpeeches; ++i) {
    const Speech speech = any_speech(random, 1 + any_below(random, 8));
    const Heard heard = heard_by_rules(speech.text);
    std::string back;
    for (const NotUnderstood& left : heard.not_understood) back += left.words + '\n';
    for (const std::string& word : speech.noise) {
      EXPECT_NE(back.find(word), std::string::npos) << word << " in: " << speech.text;
    }
    checked += speech.noise.size();
    if (testing::Test::HasFailure()) return;
  }
  EXPECT_GT(checked, static_cast<std::size_t>(kSpeeches / 2));
}

TEST(AnySpeech, SaysSomethingOfEveryWholeSentence) {
  Random random(7);
  for (int i = 0; i < kSpeeches; ++i) {
    const Speech speech = any_speech(random, 1 + any_below(random, 3));
    const Heard heard = heard_by_rules(speech.text);
    EXPECT_FALSE(heard.reports.empty() && heard.facts.empty() && heard.praise.empty() &&
                 heard.not_understood.empty())
        << speech.text;
  }
}

/// One slip in a word: a letter doubled, left out or swapped with the next. The first stays.
std::string with_slip(const std::string& word, Random& random) {
  std::string slipped = word;
  const std::size_t at = 1 + any_below(random, word.size() - 2);
  switch (any_below(random, 3)) {
    case 0:
      slipped.insert(at, 1, slipped[at]);
      break;
    case 1:
      slipped.erase(at, 1);
      break;
    default:
      std::swap(slipped[at], slipped[at + 1]);
  }
  return slipped;
}

TEST(AnyTypo, IsReadAsMeantOrHandedBackNeverAsAnotherSymptom) {
  const Vocabulary vocabulary(rules().phrases, rules().word_classes, rules().light_words);
  const auto known = vocabulary.all_words();
  Random random(11);
  std::size_t tried = 0, read = 0;
  for (const auto& [phrase, words] : sayings()) {
    const bool single =
        phrase->means == Phrase::Means::symptom && words.find(' ') == std::string_view::npos;
    if (!single || phrase->severity == 0) continue;
    std::string word(words);
    std::erase(word, '*');
    if (word.size() < 6 || word.find_first_not_of("abcdefghijklmnopqrstuvwxyz") != word.npos)
      continue;
    const std::string typo = with_slip(word, random);
    if (known.contains(typo)) continue;
    const Heard heard = heard_by_rules("it was " + typo + " going in");
    ++tried;
    for (const Report& report : heard.reports) EXPECT_EQ(report.symptom, phrase->id) << typo;
    EXPECT_FALSE(heard.reports.empty() && heard.not_understood.empty()) << typo;
    read += !heard.reports.empty();
  }
  EXPECT_GT(tried, 100U);
  EXPECT_GE(10 * read, 9 * tried) << read << " of " << tried;
}

/// The least time of a few runs, so that a busy machine does not count.
double least_seconds(const std::string& text) {
  double least = 1e9;
  for (int i = 0; i < 3; ++i) {
    const auto start = std::chrono::steady_clock::now();
    const Heard heard = heard_by_rules(text);
    const std::chrono::duration<double> took = std::chrono::steady_clock::now() - start;
    least = std::min(least, took.count());
  }
  return least;
}

TEST(AnySpeech, OfFourTimesTheLengthTakesNoMoreThanAFewTimesAsLong) {
  Random random(3);
  const std::string once = any_speech(random, 400).text;
  const double short_one = least_seconds(once);
  const double long_one = least_seconds(once + once + once + once);
  EXPECT_LT(long_one, 8.0 * short_one) << short_one << " s, then " << long_one << " s";
}

}  // namespace
}  // namespace kartwright
