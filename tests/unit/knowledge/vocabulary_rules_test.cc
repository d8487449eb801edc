// The vocabulary that comes with the program: no phrase, in any of its forms, has two meanings.

#include <map>
#include <set>

#include <gtest/gtest.h>

#include "engine/debrief/tokens.h"
#include "engine/debrief/verb_forms.h"
#include "tests/support/pit.h"
#include "tests/support/small_words.h"

namespace kartwright {
namespace {

std::vector<std::string> said(const std::vector<std::string>& words);

/// A word of a phrase in all its forms, or all that its class may stand for; each cut into words as
/// a sentence would be.
std::vector<std::string> forms(const std::string& word) {
  std::vector<std::string> out{word};
  if (word.starts_with('<')) {
    out.clear();
    for (const WordClass& each : rules().word_classes) {
      if ('<' + each.id + '>' != word) continue;
      for (const auto& words : each.words) {
        for (std::string& form : said(words)) out.push_back(std::move(form));
      }
    }
    return out;
  }
  if (word.ends_with('*')) out = verb_forms(std::string_view(word).substr(0, word.size() - 1));
  for (std::string& form : out) {
    std::string cut;
    for (const Token& token : tokens_of(form)) cut += (cut.empty() ? "" : " ") + token.text;
    form = cut;
  }
  return out;
}

/// All ways in which a phrase can be said.
std::vector<std::string> said(const std::vector<std::string>& phrase) {
  std::vector<std::string> all{""};
  for (const std::string& word : phrase) {
    std::vector<std::string> longer;
    for (const std::string& before : all) {
      for (const std::string& form : forms(word)) {
        longer.push_back(before + (before.empty() ? "" : " ") + form);
      }
    }
    all = std::move(longer);
  }
  return all;
}

std::string meaning(const Phrase& phrase) {
  std::string out = std::to_string(static_cast<int>(phrase.means)) + " " + phrase.id;
  if (phrase.phase) out += " at " + std::string(name_of(*phrase.phase));
  if (phrase.severity) out += " of " + std::to_string(*phrase.severity);
  return out;
}

using Meanings = std::map<std::string, std::set<std::string>>;

/// What each run of words can mean.
Meanings meanings(const std::vector<Phrase>& phrases) {
  Meanings out;
  for (const Phrase& phrase : phrases) {
    for (const std::string_view wording : wordings_of(phrase)) {
      for (const std::string& words : said(words_in(wording))) out[words].insert(meaning(phrase));
    }
  }
  return out;
}

TEST(VocabularyOfTheRules, NoPhraseHasTwoMeanings) {
  const Meanings all = meanings(rules().phrases);
  EXPECT_GT(all.size(), 10'000U);
  for (const auto& [words, means] : all) {
    EXPECT_EQ(means.size(), 1U) << "`" << words << "` means " << testing::PrintToString(means);
  }
}

TEST(VocabularyOfTheRules, TwoMeaningsWouldBeSeenInAnyForm) {
  using Means = Phrase::Means;
  const Meanings all = meanings({phrase_of("it hop*", Means::symptom, "hop"),
                                 phrase_of("it hopping", Means::symptom, "two-wheels"),
                                 phrase_of("two-wheels", Means::symptom, "two-wheels"),
                                 phrase_of("two wheels", Means::praise)});
  EXPECT_EQ(all.at("it hopping").size(), 2U);
  EXPECT_EQ(all.at("it hopped").size(), 1U);
  EXPECT_EQ(all.at("two wheels").size(), 2U);
}

TEST(VocabularyOfTheRules, NoPhraseIsWrittenTwice) {
  std::map<std::string_view, int> times;
  for (const Phrase& phrase : rules().phrases) {
    for (const std::string_view words : wordings_of(phrase)) ++times[words];
  }
  EXPECT_GT(times.size(), 10'000U);
  for (const auto& [words, count] : times) EXPECT_EQ(count, 1) << words;
}

}  // namespace
}  // namespace kartwright
