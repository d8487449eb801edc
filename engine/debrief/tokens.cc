#include "engine/debrief/tokens.h"

#include <algorithm>
#include <utility>

#include "engine/debrief/glyphs.h"

namespace kartwright {
namespace {

bool is_upper(char c) { return c >= 'A' && c <= 'Z'; }
bool is_lower(char c) { return c >= 'a' && c <= 'z'; }
char lowered(char c) { return is_upper(c) ? static_cast<char>(c - 'A' + 'a') : c; }

bool is_capitals(std::string_view word) {
  return std::count_if(word.begin(), word.end(), is_upper) >= 2 &&
         std::none_of(word.begin(), word.end(), is_lower);
}

/// One walk over the text. Each step takes a token, or passes over what is none.
class Walk {
 public:
  explicit Walk(std::string_view said) : said_(said) {}

  std::vector<Token> run() {
    while (at_ < said_.size()) step();
    if (!speaks_softly()) {
      for (Token& token : tokens_) token.capitals = false;
    }
    return std::move(tokens_);
  }

 private:
  void step() {
    switch (kind(at_)) {
      case GlyphKind::letter:
      case GlyphKind::digit:
        return take_word();
      case GlyphKind::point:
      case GlyphKind::stop:
        return take_stops();
      case GlyphKind::comma:
        return take_comma();
      case GlyphKind::ampersand:
        return add(Token::Kind::word, "and", pass());
      case GlyphKind::hyphen:
        return take_hyphens();
      case GlyphKind::apostrophe:
      case GlyphKind::gap:
        pass();
    }
  }

  /// Capitals mean something only beside a word in small letters.
  bool speaks_softly() const {
    return std::any_of(tokens_.begin(), tokens_.end(), [](const Token& token) {
      return token.kind == Token::Kind::word && token.text.size() > 1 && !token.capitals;
    });
  }

  /// The ends of the text are gaps.
  GlyphKind kind(std::size_t at) const {
    return at < said_.size() ? kind_of(glyph_at(said_, at)) : GlyphKind::gap;
  }

  bool is_wordly(std::size_t at) const {
    return kind(at) == GlyphKind::letter || kind(at) == GlyphKind::digit;
  }

  Stretch pass() {
    const std::size_t from = at_;
    at_ += glyph_at(said_, at_).bytes;
    return {from, at_};
  }

  void add(Token::Kind kind, std::string text, Stretch at) {
    tokens_.push_back({kind, std::move(text), at, false});
  }

  /// An apostrophe before more of the word, or the point of a number.
  bool joins(std::size_t at) const {
    const std::size_t next = at + glyph_at(said_, at).bytes;
    if (kind(at) == GlyphKind::apostrophe) return is_wordly(next);
    return kind(at) == GlyphKind::point && kind(at - 1) == GlyphKind::digit &&
           kind(next) == GlyphKind::digit;
  }

  /// A word, or a number with what hangs on it: "3rd".
  void take_word() {
    const auto is = kind(at_) == GlyphKind::digit ? Token::Kind::number : Token::Kind::word;
    const std::size_t from = at_;
    std::string text;
    while (at_ < said_.size() && (is_wordly(at_) || joins(at_))) {
      const bool apostrophe = kind(at_) == GlyphKind::apostrophe;
      const Stretch glyph = pass();
      if (apostrophe)
        text += '\'';
      else
        text += said_.substr(glyph.from, glyph.to - glyph.from);
    }
    const bool capitals = is_capitals(text);
    std::transform(text.begin(), text.end(), text.begin(), lowered);
    tokens_.push_back({is, std::move(text), {from, at_}, capitals});
  }

  void take_comma() {
    const Stretch at = pass();
    add(Token::Kind::comma, std::string(said_.substr(at.from, at.to - at.from)), at);
  }

  /// Marks that touch are one stop, so that "!!" and "..." keep their weight.
  void take_stops() {
    const std::size_t from = at_;
    while (kind(at_) == GlyphKind::point || kind(at_) == GlyphKind::stop) pass();
    add(Token::Kind::stop, std::string(said_.substr(from, at_ - from)), {from, at_});
  }

  /// A hyphen parts words; several, or one that stands free, are a dash and part thoughts.
  void take_hyphens() {
    const std::size_t from = at_;
    while (kind(at_) == GlyphKind::hyphen) pass();
    const bool free = from > 0 && said_[from - 1] == ' ' && kind(at_) == GlyphKind::gap;
    if (free || at_ - from > 1) add(Token::Kind::comma, "-", {from, at_});
  }

  std::string_view said_;
  std::size_t at_ = 0;
  std::vector<Token> tokens_;
};

}  // namespace

Stretch cover(Stretch a, Stretch b) { return {std::min(a.from, b.from), std::max(a.to, b.to)}; }

std::vector<Token> tokens_of(std::string_view said) { return Walk(said).run(); }

std::string quote(std::string_view said, Stretch at) {
  const std::string_view words = said.substr(at.from, at.to - at.from);
  std::string quoted;
  for (std::size_t i = 0; i < words.size();) {
    const Glyph glyph = glyph_at(words, i);
    if (glyph.broken)
      quoted += "\xEF\xBF\xBD";
    else if (is_control(glyph))
      quoted += ' ';
    else
      quoted += words.substr(i, glyph.bytes);
    i += glyph.bytes;
  }
  const std::size_t first = quoted.find_first_not_of(' ');
  if (first == std::string::npos) return {};
  return quoted.substr(first, quoted.find_last_not_of(' ') - first + 1);
}

}  // namespace kartwright
