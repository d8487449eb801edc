#include "cli/json_line.h"

#include <algorithm>
#include <string_view>
#include <utility>
#include <vector>

#include <rapidjson/reader.h>

#include "engine/document/utf8.h"

namespace kartwright::cli {
namespace {

using rapidjson::SizeType;

int characters_in(std::string_view text) { return static_cast<int>(characters(text)); }

/// A stream that can be asked in the middle of the reading how far it is: of the library's own the
/// reader takes copies.
struct LineStream : rapidjson::StringStream {
  using GenericStringStream::GenericStringStream;
};

/// Takes the reader's events, whose names are the library's, and makes nodes of them. An event that
/// returns false ends the reading.
class LineBuilder {
 public:
  LineBuilder(std::string_view text, const LineStream& stream) : text_(text), stream_(stream) {}

  Node take_root() { return std::move(root_); }

  // NOLINTBEGIN(readability-identifier-naming)
  bool Null() {
    const Span span = take_token(0);
    return attach({.type = Node::Type::null,
                   .span = expects_value() ? open_.back().key_span : span,
                   .entries = {}});
  }
  bool Bool(bool truth) { return scalar(truth ? "true" : "false"); }
  bool Int(int) { return false; }
  bool Uint(unsigned) { return false; }
  bool Int64(std::int64_t) { return false; }
  bool Uint64(std::uint64_t) { return false; }
  bool Double(double) { return false; }
  bool RawNumber(const char* digits, SizeType length, bool) { return scalar({digits, length}); }
  bool String(const char* text, SizeType length, bool) { return scalar({text, length}); }

  bool Key(const char* text, SizeType length, bool) {
    constexpr SizeType kLongest = 256;  // YAML ends a key at some length: the strict reader says so
    if (length > kLongest) return false;
    Frame& frame = open_.back();
    frame.key.assign(text, length);
    frame.key_span = take_token(length);
    return frame.node.find(frame.key) == nullptr;
  }

  bool StartObject() { return open(Node::Type::map); }
  bool StartArray() { return !open_.empty() && open(Node::Type::list); }
  bool EndObject(SizeType) { return close(); }
  bool EndArray(SizeType) { return close(); }
  // NOLINTEND(readability-identifier-naming)

 private:
  struct Frame {
    Node node;
    std::string key = {};
    Span key_span = {};
  };

  bool expects_value() const { return !open_.empty() && open_.back().node.type == Node::Type::map; }

  /// The place of what was read last, that is so many bytes long in the document.
  Span take_token(std::size_t bytes) {
    const std::size_t start = std::min(text_.find_first_not_of(" \t\r\n,:", read_), text_.size());
    column_ += characters_in(text_.substr(read_, start - read_));
    const int length = std::max(1, characters_in(text_.substr(start, bytes)));
    const Span span{.line = 1, .column = column_, .length = length};
    column_ += characters_in(text_.substr(start, stream_.Tell() - start));
    read_ = stream_.Tell();
    return span;
  }

  bool scalar(std::string_view text) {
    return attach({.type = Node::Type::scalar,
                   .text = std::string(text),
                   .span = take_token(text.size()),
                   .entries = {}});
  }

  bool open(Node::Type type) {
    if (static_cast<int>(open_.size()) >= kDeepest) return false;
    open_.push_back({.node = {.type = type, .span = take_token(0), .entries = {}}});
    return true;
  }

  bool close() {
    take_token(0);
    Node node = std::move(open_.back().node);
    open_.pop_back();
    return attach(std::move(node));
  }

  bool attach(Node node) {
    if (open_.empty()) {
      root_ = std::move(node);
      return root_.type == Node::Type::map;
    }
    Frame& frame = open_.back();
    if (frame.node.type == Node::Type::map) {
      frame.node.entries.push_back({std::move(frame.key), frame.key_span, std::move(node)});
    } else {
      frame.node.items.push_back(std::move(node));
    }
    return true;
  }

  std::string_view text_;
  const LineStream& stream_;
  std::vector<Frame> open_;
  std::size_t read_ = 0;  ///< bytes of the text that are behind us
  int column_ = 1;        ///< of the character there
  Node root_;
};

}  // namespace

std::optional<Document> parse_json_line(std::string name, std::string line) {
  constexpr unsigned kHow =
      rapidjson::kParseValidateEncodingFlag | rapidjson::kParseNumbersAsStringsFlag;
  constexpr char kDelete = 0x7F;  // the one control character that JSON lets through
  if (line.find(kDelete) != std::string::npos || line.find('\0') != std::string::npos)
    return std::nullopt;
  Document document{
      .name = std::move(name), .text = std::move(line), .root = {}, .line_starts = {0}};
  LineStream stream(document.text.c_str());
  LineBuilder builder(document.text, stream);
  rapidjson::Reader reader;
  if (reader.Parse<kHow>(stream, builder).IsError()) return std::nullopt;
  document.root = builder.take_root();
  return document;
}

}  // namespace kartwright::cli
