#include "engine/debrief/clauses.h"

#include <algorithm>
#include <array>
#include <optional>
#include <span>
#include <string_view>
#include <utility>

namespace kartwright {
namespace {

using Means = Phrase::Means;

/// A word that parts what stands on its two sides.
struct Parting {
  std::string_view first, second;  // the second word may be empty
  Join join = Join::none;
  bool hard = false, exception = false;
};

constexpr std::array kPartings{
    Parting{"and", "", Join::along},
    Parting{"or", "", Join::either},
    Parting{"nor", "", Join::either},
    Parting{"then", "", Join::further},
    Parting{"plus", "", Join::further},
    Parting{"so", "it", Join::further},
    Parting{"so", "the", Join::further},
    Parting{"so", "i", Join::further},
    Parting{"also", "", Join::further},
    Parting{"but", "", Join::none, true},
    Parting{"though", "", Join::none, true},
    Parting{"although", "", Join::none, true},
    Parting{"however", "", Join::none, true},
    Parting{"except", "", Join::none, true, true},
    Parting{"apart", "from", Join::none, true, true},
    Parting{"aside", "from", Join::none, true, true},
    Parting{"other", "than", Join::none, true, true},
};

const Parting* parting_at(std::span<const Token> tokens) {
  const auto fits = [&](const Parting& p) {
    if (tokens[0].text != p.first) return false;
    return p.second.empty() || (tokens.size() > 1 && tokens[1].text == p.second);
  };
  const auto* found = std::find_if(kPartings.begin(), kPartings.end(), fits);
  return found == kPartings.end() ? nullptr : found;
}

/// Numbers as figures or words, as far as corners of a track are counted.
bool is_count(const Token& token) {
  constexpr std::array<std::string_view, 12> kCounts{"one",  "two", "three",  "four",
                                                     "five", "six", "seven",  "eight",
                                                     "nine", "ten", "eleven", "twelve"};
  return token.kind == Token::Kind::number ||
         std::find(kCounts.begin(), kCounts.end(), token.text) != kCounts.end();
}

/// "turn 3, 4 and 7", "turn 3 to 5".
bool lists_on(const Token& token) {
  return token.kind == Token::Kind::comma || token.text == "and" || token.text == "or" ||
         token.text == "to" || token.text == "through";
}

/// A number behind it may be a corner's.
bool leads_to_a_place(const Token& token) {
  constexpr std::array<std::string_view, 8> kLeads{"in",      "into", "at",  "off",
                                                   "through", "thru", "out", "of"};
  return std::find(kLeads.begin(), kLeads.end(), token.text) != kLeads.end();
}

/// What numbers count when they count no corners: "in 3 laps", "one direction".
bool is_counted(const Token& token) {
  constexpr std::array<std::string_view, 32> kCounted{
      "lap",   "laps",  "tenth",   "tenths",    "second", "seconds", "minute",     "minutes",
      "hour",  "hours", "tooth",   "teeth",     "psi",    "bar",     "mm",         "degrees",
      "times", "time",  "percent", "wheels",    "wheel",  "hands",   "hand",       "way",
      "side",  "place", "spot",    "direction", "go",     "piece",   "particular", "of"};
  return std::find(kCounted.begin(), kCounted.end(), token.text) != kCounted.end() ||
         token.text.ends_with("turn") || token.text.ends_with("corner");
}

bool is_word(const Token& token) {
  return token.kind == Token::Kind::word || token.kind == Token::Kind::number;
}

bool is_corner(const Piece& piece) { return piece.is(Means::place) && !piece.phrase->id.empty(); }

/// One pass over the tokens, that files pieces into segments and segments into clauses.
class Cutter {
 public:
  Cutter(const std::vector<Token>& tokens, const Vocabulary& vocabulary)
      : tokens_(tokens),
        vocabulary_(vocabulary),
        corner_(vocabulary.any_that_means(Means::place, "corner")),
        slight_(vocabulary.any_that_means(Means::severity, "1")) {}

  std::vector<SpokenClause> run() {
    while (at_ < tokens_.size()) step();
    end_clause();
    return std::move(clauses_);
  }

 private:
  std::span<const Token> rest() const { return std::span(tokens_).subspan(at_); }

  /// Breaks that are part of a longer phrase ("on and off the gas") are no breaks.
  void step() {
    const Token& token = tokens_[at_];
    if (token.kind == Token::Kind::stop) return take_stop(token);
    if (token.kind == Token::Kind::comma) return take_comma(token);
    const Vocabulary::Match match = match_here();
    const Parting* parting = match.words > 1 ? nullptr : parting_at(rest());
    if (parting != nullptr) return take_parting(*parting);
    take_piece(match);
  }

  /// "tight in" is going in, but "tight in the hairpin" is there: the "in" goes with the place.
  Vocabulary::Match match_here() const {
    Vocabulary::Match match = vocabulary_.longest(rest());
    const bool symptom = match.phrase != nullptr && match.phrase->means == Means::symptom;
    const std::size_t behind = at_ + match.words;
    if (!symptom || match.words < 2 || behind >= tokens_.size()) return match;
    if (tokens_[behind - 1].text != "in" || !begins_a_place(behind)) return match;
    Vocabulary::Match shorter = vocabulary_.longest(rest().first(match.words - 1));
    return shorter.phrase == nullptr ? match : shorter;
  }

  bool begins_a_place(std::size_t at) const {
    constexpr std::array<std::string_view, 18> kPointers{
        "the", "a",   "an",   "my",   "our",  "that", "this",  "these", "those",
        "all", "any", "each", "both", "some", "most", "every", "one",   "other"};
    const Token& token = tokens_[at];
    if (std::find(kPointers.begin(), kPointers.end(), token.text) != kPointers.end()) return true;
    return is_count(token) || names_a_corner(at) || means_a_place(at);
  }

  bool means_a_place(std::size_t at) const {
    const Phrase* phrase = vocabulary_.longest(std::span(tokens_).subspan(at)).phrase;
    return phrase != nullptr && (phrase->means == Means::place || phrase->means == Means::side ||
                                 phrase->means == Means::phase || phrase->means == Means::fact);
  }

  /// "quarry bend": one or two unknown words and a corner behind them.
  bool names_a_corner(std::size_t at) const {
    for (std::size_t i = at; i < std::min(at + 3, tokens_.size()) && is_word(tokens_[i]); ++i) {
      const Phrase* const phrase = vocabulary_.longest(std::span(tokens_).subspan(i)).phrase;
      if (phrase != nullptr) return i > at && phrase->means == Means::place && !phrase->id.empty();
    }
    return false;
  }

  void take_stop(const Token& token) {
    clause_.asked = token.text.find('?') != std::string::npos;
    clause_.loud = std::count(token.text.begin(), token.text.end(), '!') > 1;
    ++at_;
    end_clause();
  }

  void take_comma(const Token& token) {
    ++at_;
    end_segment();
    segment_.comma = true;
    segment_.told = token.text.find_first_of(",()[]") == std::string::npos;
  }

  /// A hard parting opens a clause, a soft one a segment.
  void take_parting(const Parting& parting) {
    at_ += parting.second.empty() ? 1 : 2;
    if (parting.hard) {
      end_clause();
      clause_.exception = parting.exception;
    } else if (parting.join != Join::further || !after_negation()) {
      end_segment();
      segment_.join = parting.join;
    }
  }

  /// "it doesn't also push": no place to part.
  bool after_negation() const {
    return !segment_.pieces.empty() && segment_.pieces.back().is(Means::negation);
  }

  void take_piece(const Vocabulary::Match& match) {
    const std::size_t first = at_;
    at_ += std::max<std::size_t>(match.words, 1);
    Piece piece = piece_of(match.phrase, first, at_);
    if (is_corner(piece)) take_name(piece);
    if (piece.is(Means::place)) take_numbers(piece);
    if (piece.is(Means::symptom)) look_inside(piece, match.wording, first);
    const std::size_t place = segment_.pieces.size();
    segment_.pieces.push_back(std::move(piece));
    for (const Vocabulary::Gap& gap : match.gaps) {
      if (gap.denied) continue;
      const bool much = take_light(first + gap.from, first + gap.from + gap.count, gap.denies);
      if (gap.denies && !much) segment_.pieces[place].denied = true;
    }
    if (leads_to_a_place(tokens_[at_ - 1])) take_bare_corners();
  }

  /// The light words inside a phrase stand behind it as pieces of their own. Where they deny, "not
  /// very heavy" is a little heavy: true where that was said.
  bool take_light(std::size_t first, std::size_t last, bool denies) {
    bool little = false;
    while (first < last) {
      const Vocabulary::Match match =
          vocabulary_.longest(std::span(tokens_).subspan(first, last - first));
      const std::size_t next = first + std::max<std::size_t>(match.words, 1);
      Piece piece = piece_of(match.phrase, first, next);
      const bool amount = piece.is(Means::severity);
      if (denies && amount && slight_ != nullptr) {
        piece.phrase = slight_;
        little = true;
      }
      const bool says = amount || piece.is(Means::confidence) || piece.is(Means::manner);
      if (says || piece.capitals) segment_.pieces.push_back(std::move(piece));
      first = next;
    }
    return little;
  }

  /// "in 3 and 7", "off two": numbers that count nothing are corners.
  void take_bare_corners() {
    const std::size_t first = at_;
    if (corner_ == nullptr || first >= tokens_.size() || !is_count(tokens_[first])) return;
    if (vocabulary_.longest(rest()).words > 1) return;
    at_ = first + 1;
    Piece corners = piece_of(corner_, first, at_);
    take_numbers(corners);
    if (at_ < tokens_.size() && is_counted(tokens_[at_])) {
      at_ = first;
      return;
    }
    segment_.pieces.push_back(std::move(corners));
  }

  Piece piece_of(const Phrase* phrase, std::size_t first, std::size_t last) const {
    const auto taken = std::span(tokens_).subspan(first, last - first);
    Piece piece{phrase, cover(taken.front().at, taken.back().at)};
    for (const Token& token : taken) {
      piece.text += piece.text.empty() ? token.text : ' ' + token.text;
    }
    piece.capitals =
        std::all_of(taken.begin(), taken.end(), [](const Token& t) { return t.capitals; });
    const std::string& head = taken.front().text;
    piece.finite = head.ends_with('s') && !head.ends_with("ss");
    return piece;
  }

  /// The phrase of a symptom may hold one of its phase, "loose off", or of a side, "drifts left".
  void look_inside(Piece& symptom, std::string_view wording, std::size_t first) const {
    Remark<Side> sides;
    for (std::size_t i = first + 1, words = 1; i < at_; i += words) {
      const Vocabulary::Match inside = vocabulary_.longest(std::span(tokens_).subspan(i, at_ - i));
      words = std::max<std::size_t>(inside.words, 1);
      const Phrase* const inner = inside.phrase;
      if (inner == nullptr) continue;
      const std::optional<Phase> phase = symptom.phrase->phase;
      if (inner->means == Means::phase && phase && inner->id == name_of(*phase)) {
        symptom.spells_phase = true;
      }
      if (inner->means != Means::side || is_negation(i - 1)) continue;
      if (const auto side = side_named(inner->id)) sides.say(*side);
    }
    symptom.side = sides.value();
    symptom.says_no = vocabulary_.says_no(wording);
  }

  /// "something's not right" is of no side.
  bool is_negation(std::size_t at) const {
    const Phrase* phrase = vocabulary_.longest(std::span(tokens_).subspan(at, 1)).phrase;
    return phrase != nullptr && phrase->means == Means::negation;
  }

  /// Up to two unknown words right before a corner are its name.
  void take_name(Piece& corner) {
    std::vector<Piece>& pieces = segment_.pieces;
    for (int words = 0; words < 2; ++words) {
      if (corner_ == nullptr || pieces.empty() || pieces.back().phrase != nullptr) return;
      corner.at = cover(corner.at, pieces.back().at);
      corner.phrase = corner_;
      pieces.pop_back();
    }
  }

  /// "turn 3, 4 and 7" is one place.
  void take_numbers(Piece& place) {
    bool counted = is_count(tokens_[at_ - 1]);
    for (std::size_t next = number_after(counted); next != at_; next = number_after(counted)) {
      at_ = next;
      place.at.to = tokens_[at_ - 1].at.to;
      if (is_corner(place) && corner_ != nullptr) place.phrase = corner_;
      counted = true;
    }
  }

  /// The token behind the number that comes next, or behind the next of a list; else where we are.
  std::size_t number_after(bool in_list) const {
    std::size_t next = at_;
    while (in_list && next < tokens_.size() && next < at_ + 2 && lists_on(tokens_[next])) ++next;
    if (next >= tokens_.size() || !is_count(tokens_[next])) return at_;
    const bool begins_a_phrase = vocabulary_.longest(std::span(tokens_).subspan(next)).words > 1;
    return begins_a_phrase ? at_ : next + 1;
  }

  /// "into turn 3" and "out of the lefts" name a phase: filler that has one, before a corner.
  void find_ways() {
    std::vector<Piece>& pieces = segment_.pieces;
    const Phrase* corner_ahead = nullptr;  // a corner or a side, with nothing but filler before it
    for (std::size_t i = pieces.size(); i-- > 0;) {
      const Piece& piece = pieces[i];
      const bool corner = is_corner(piece);
      if (corner || piece.is(Means::side)) corner_ahead = piece.phrase;
      if (!piece.is(Means::filler)) {
        if (!corner && !piece.is(Means::side)) corner_ahead = nullptr;
      } else if (piece.phrase->phase && corner_ahead != nullptr) {
        const std::string_view phase = name_of(*piece.phrase->phase);
        const Phrase* const said = vocabulary_.any_that_means(Means::phase, phase);
        if (said != nullptr) pieces[i].phrase = said;
      }
    }
  }

  /// Without pieces, the segment waits: ", and" is one break.
  void end_segment() {
    if (segment_.pieces.empty()) return;
    find_ways();
    clause_.segments.push_back(std::move(segment_));
    segment_ = {};
  }

  void end_clause() {
    end_segment();
    if (!clause_.segments.empty()) clauses_.push_back(std::move(clause_));
    clause_ = {};
    segment_ = {};
  }

  const std::vector<Token>& tokens_;
  const Vocabulary& vocabulary_;
  const Phrase* corner_;  ///< what bare numbers turn into; none: they do not
  const Phrase* slight_;
  std::size_t at_ = 0;
  Segment segment_;
  SpokenClause clause_;
  std::vector<SpokenClause> clauses_;
};

bool is_head(const Piece& piece) { return piece.is(Means::symptom) || piece.is(Means::praise); }

/// Where runs of heads (symptoms, praise) and runs of phases begin and end, by index of the pieces.
/// A symptom that implies its phase is both, where heads come first.
struct Run {
  bool heads = false;
  std::size_t first = 0, last = 0;
};

void extend(std::vector<Run>& runs, bool heads, std::size_t at) {
  if (runs.empty() || runs.back().heads != heads) runs.push_back({heads, at, at});
  runs.back().last = at;
}

std::vector<Run> runs_of(const std::vector<Piece>& pieces) {
  std::vector<Run> runs;
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    const Piece& piece = pieces[i];
    if (is_head(piece)) extend(runs, true, i);
    const bool implied = piece.is(Means::symptom) && piece.phrase->phase && runs.front().heads;
    if (piece.is(Means::phase) || implied) extend(runs, false, i);
  }
  return runs;
}

/// "loose going in tight coming off": heads and phases take turns without a comma. Cut into pairs;
/// what stands between a head and a phase of another pair goes with the head.
std::vector<Segment> paired(Segment segment) {
  const std::vector<Run> runs = runs_of(segment.pieces);
  std::vector<Segment> pairs;
  if (runs.size() >= 4 && runs.size() % 2 == 0) {
    std::size_t from = 0;
    for (std::size_t r = 1; r + 1 < runs.size(); r += 2) {
      const std::size_t to = runs[r].heads ? runs[r + 1].first : runs[r].last + 1;
      const auto begin = segment.pieces.begin();
      pairs.push_back({from == 0 ? segment.join : Join::further,
                       from == 0 ? segment.comma : true,
                       from == 0 && segment.told,
                       {begin + static_cast<long>(from), begin + static_cast<long>(to)}});
      from = to;
    }
    segment.pieces.erase(segment.pieces.begin(), segment.pieces.begin() + static_cast<long>(from));
    segment.join = Join::further;
    segment.comma = true;
  }
  pairs.push_back(std::move(segment));
  return pairs;
}

}  // namespace

std::vector<SpokenClause> clauses_of(const std::vector<Token>& tokens,
                                     const Vocabulary& vocabulary) {
  std::vector<SpokenClause> clauses = Cutter(tokens, vocabulary).run();
  for (SpokenClause& clause : clauses) {
    std::vector<Segment> segments;
    for (Segment& segment : clause.segments) {
      for (Segment& pair : paired(std::move(segment))) segments.push_back(std::move(pair));
    }
    clause.segments = std::move(segments);
  }
  return clauses;
}

}  // namespace kartwright
