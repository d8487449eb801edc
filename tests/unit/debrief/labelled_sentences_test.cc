// The labelled debriefs of tests/debriefs: nearly all come out whole, and those that do not are
// listed.

#include <filesystem>
#include <fstream>
#include <set>
#include <sstream>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "tests/support/pit.h"
#include "tests/support/small_words.h"

namespace kartwright {
namespace {

using Items = std::set<std::string>;

struct LabelledSentence {
  std::string said;
  Items label;
  bool fresh = false;  ///< written without a look at the vocabulary
};

const std::filesystem::path kDebriefs =
    std::filesystem::path(KARTWRIGHT_SOURCE_DIR) / "tests" / "debriefs";

Items items_of(const std::string& text) {
  std::istringstream words(text);
  Items items;
  for (std::string word; words >> word;) items.insert(word);
  return items;
}

std::vector<LabelledSentence> labelled_sentences() {
  std::vector<LabelledSentence> all;
  for (const auto& entry : std::filesystem::directory_iterator(kDebriefs)) {
    if (entry.path().extension() != ".tsv") continue;
    std::ifstream file(entry.path());
    for (std::string line; std::getline(file, line);) {
      const std::size_t tab = line.find('\t');
      all.push_back({line.substr(0, tab), items_of(line.substr(tab + 1)),
                     entry.path().filename().string().starts_with("fresh")});
    }
  }
  return all;
}

/// What was heard, as the labels write it.
Items heard_items(const std::string& said) {
  const Heard heard = heard_by_rules(said);
  Items items;
  for (const std::string& report : shown(heard.reports)) items.insert(report);
  for (const StatedFact& fact : heard.facts) items.insert(fact.fact + ':' + fact.value);
  if (!heard.praise.empty()) items.insert("praise");
  if (!heard.not_understood.empty()) items.insert("?");
  return items;
}

TEST(LabelledSentences, AreManyAndAThirdOfThemFresh) {
  const std::vector<LabelledSentence> all = labelled_sentences();
  std::size_t fresh = 0;
  for (const LabelledSentence& sentence : all) {
    EXPECT_FALSE(sentence.said.empty() || sentence.label.empty()) << sentence.said;
    fresh += sentence.fresh;
  }
  EXPECT_GE(all.size(), 150U);
  EXPECT_GE(3 * fresh, all.size());
}

TEST(LabelledSentences, ComeOutWholeButForThoseListed) {
  std::set<std::string> listed;
  std::ifstream file(kDebriefs / "misses.txt");
  for (std::string line; std::getline(file, line);) listed.insert(line);
  const std::vector<LabelledSentence> all = labelled_sentences();
  for (const LabelledSentence& sentence : all) {
    const Items heard = heard_items(sentence.said);
    if (listed.erase(sentence.said) == 0)
      EXPECT_EQ(heard, sentence.label) << sentence.said;
    else
      EXPECT_NE(heard, sentence.label) << "comes out whole now: " << sentence.said;
  }
  EXPECT_TRUE(listed.empty()) << "in no file: " << *listed.begin();
}

TEST(LabelledSentences, ThatAreMissedAreFewerThanOneInTwenty) {
  std::size_t misses = 0;
  const std::vector<LabelledSentence> all = labelled_sentences();
  for (const LabelledSentence& sentence : all)
    misses += heard_items(sentence.said) != sentence.label;
  EXPECT_LE(20 * misses, all.size()) << misses << " of " << all.size();
}

}  // namespace
}  // namespace kartwright
