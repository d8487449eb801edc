#include "engine/debrief/nearest.h"

#include <algorithm>
#include <tuple>
#include <utility>

#include "engine/debrief/vocabulary.h"
#include "engine/document/diagnostic.h"

namespace kartwright {
namespace {

constexpr std::size_t kSuggestions = 3;
constexpr std::size_t kWordsLookedUp = 8;    // of one run: a reader of suggestions wants no more
constexpr std::size_t kTextsLookedUp = 200;  // of one debrief, for the same reason
constexpr std::size_t kLongest = 40;         // letters of a text worth comparing

/// Only what would change the reading is worth suggesting.
bool says_something(const Phrase& phrase) {
  using Means = Phrase::Means;
  return phrase.means != Means::filler && phrase.means != Means::negation &&
         phrase.means != Means::place;
}

Letters letters_of(std::string_view text) {
  Letters letters;
  for (const char c : text) {
    const std::size_t kind = static_cast<unsigned char>(c) % letters.count.size();
    ++letters.count[kind];
    letters.present |= 1U << kind;
  }
  return letters;
}

bool has_more_than(int most, std::uint32_t bits) {
  while (bits != 0 && most >= 0) {
    bits &= bits - 1;
    --most;
  }
  return most < 0;
}

/// False only where no `most` edits can turn a text of the one bag of letters into one of the
/// other: each edit brings at most one letter and takes at most one away.
bool may_be_near(const Letters& a, const Letters& b, int most) {
  if (has_more_than(most, a.present & ~b.present)) return false;
  if (has_more_than(most, b.present & ~a.present)) return false;
  int missing = 0, spare = 0;
  for (std::size_t i = 0; i < a.count.size(); ++i) {
    missing += std::max(0, b.count[i] - a.count[i]);
    spare += std::max(0, a.count[i] - b.count[i]);
  }
  return std::max(missing, spare) <= most;
}

}  // namespace

Nearest::Nearest(const std::vector<Phrase>& phrases) : by_length_(kLongest + 1) {
  std::size_t number = 0;
  for (const Phrase& phrase : phrases) {
    if (!says_something(phrase)) continue;
    for (const std::string_view words : wordings_of(phrase)) {
      ++number;
      if (words.find(' ') == std::string_view::npos) {
        for (std::string& form : forms_of(words)) add(std::move(form), number);
      } else {
        std::string text(words);
        std::erase(text, '*');
        add(std::move(text), number);
      }
    }
  }
}

void Nearest::add(std::string text, std::size_t wording) {
  if (text.size() > kLongest) return;
  const Letters letters = letters_of(text);
  std::vector<Known>& as_long = by_length_[text.size()];
  as_long.push_back({std::move(text), wording, letters});
}

const std::vector<Nearest::Found>& Nearest::near(const std::string& text) {
  static const std::vector<Found> kNone;
  if (seen_.size() >= kTextsLookedUp && !seen_.contains(text)) return kNone;
  const auto [entry, fresh] = seen_.try_emplace(text);
  std::vector<Found>& found = entry->second;
  const std::size_t limit = std::max<std::size_t>(1, text.size() / 3);
  if (!fresh || text.size() <= limit || text.size() > kLongest) return found;
  const Letters letters = letters_of(text);
  const int most = static_cast<int>(limit);
  for (std::size_t n = text.size() - limit; n <= std::min(text.size() + limit, kLongest); ++n) {
    for (const Known& known : by_length_[n]) {
      if (!may_be_near(letters, known.letters, most)) continue;  // spares most of the work
      const int edits = edit_distance(text, known.text);
      if (edits <= most) found.push_back({edits, &known});
    }
  }
  return found;
}

std::vector<std::string> Nearest::to(const std::string& text,
                                     const std::vector<std::string>& words) {
  std::vector<Found> found = near(text);
  for (std::size_t i = 0; i < std::min(words.size(), kWordsLookedUp); ++i) {
    const std::vector<Found>& more = near(words[i]);
    found.insert(found.end(), more.begin(), more.end());
  }
  std::sort(found.begin(), found.end(), [](const Found& a, const Found& b) {
    return std::tie(a.edits, a.known->text) < std::tie(b.edits, b.known->text);
  });
  std::vector<std::string> nearest;
  std::vector<std::size_t> taken;
  for (const Found& one : found) {
    if (nearest.size() == kSuggestions) break;
    const bool known = std::find(taken.begin(), taken.end(), one.known->wording) != taken.end() ||
                       std::find(nearest.begin(), nearest.end(), one.known->text) != nearest.end();
    if (known) continue;
    taken.push_back(one.known->wording);
    nearest.push_back(one.known->text);
  }
  return nearest;
}

}  // namespace kartwright
