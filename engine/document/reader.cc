// The strict YAML reader: the parser's events become nodes, and what people do not mean is refused
// here.

#include <algorithm>
#include <cerrno>
#include <cstdio>
#include <cstring>
#include <filesystem>
#include <memory>
#include <sstream>
#include <unordered_set>

#include <yaml-cpp/eventhandler.h>
#include <yaml-cpp/exceptions.h>
#include <yaml-cpp/parser.h>

#include "engine/document/document.h"
#include "engine/document/utf8.h"
#include "engine/document/yaml_words.h"

namespace kartwright {
namespace {

Node node_of(Node::Type type, Span span, std::string text = {}) {
  Node node;
  node.type = type;
  node.span = span;
  node.text = std::move(text);
  return node;
}

/// Thrown to leave the parser early; the findings already say why.
struct Abandoned {};

/// Offset just behind the closing quote of the quoted scalar at `begin`, or npos.
std::size_t closing_quote(std::string_view text, std::size_t begin) {
  const char quote = text[begin];
  for (std::size_t i = begin + 1; i < text.size(); ++i) {
    if (quote == '"' && text[i] == '\\') {
      ++i;
    } else if (text[i] == quote) {
      const bool doubled = quote == '\'' && i + 1 < text.size() && text[i + 1] == quote;
      if (!doubled) return i + 1;
      ++i;
    }
  }
  return std::string_view::npos;
}

/// Column of each byte of a text and of its end, from 1, in characters.
std::vector<int> columns_of(std::string_view text) {
  std::vector<int> columns(text.size() + 1, 1);
  for (std::size_t i = 0; i < text.size(); ++i) {
    const bool follows = (static_cast<unsigned char>(text[i]) & 0xC0U) == 0x80U;
    columns[i + 1] = text[i] == '\n' ? 1 : columns[i] + (follows ? 0 : 1);
  }
  return columns;
}

std::vector<std::size_t> line_starts_of(std::string_view text) {
  std::vector<std::size_t> starts{0};
  for (std::size_t end = text.find('\n'); end < text.size(); end = text.find('\n', end + 1)) {
    starts.push_back(end + 1);
  }
  return starts;
}

class Builder final : public YAML::EventHandler {
 public:
  Builder(const Document& document, Findings& findings)
      : document_(document), findings_(findings), columns_(columns_of(document.text)) {}

  Node take_root() { return std::move(root_); }

  /// No place for a mark that is none; the end of the text for one behind it.
  Span span_at(const YAML::Mark& mark) const {
    if (mark.pos < 0) return {};
    const auto at = static_cast<std::size_t>(mark.pos);
    if (at < document_.text.size()) return {.line = mark.line + 1, .column = columns_[at]};
    return {.line = static_cast<int>(document_.line_starts.size()), .column = columns_.back()};
  }

  void OnDocumentStart(const YAML::Mark& mark) override {
    if (++documents_ > 1) {
      refuse(span_at(mark), Code::more_than_one_document,
             "a second document, or something left over, starts here", "one document a file");
      throw Abandoned{};
    }
  }
  void OnDocumentEnd() override {}

  void OnNull(const YAML::Mark& mark, YAML::anchor_t anchor) override {
    check_properties(mark, starts_with_bang(mark), anchor);
    Node node;
    // The parser gives an empty value the place of whatever comes next; the key is where people
    // look.
    node.span = expects_value() ? stack_.back().key_span : span_at(mark);
    attach(std::move(node));
  }

  void OnAlias(const YAML::Mark& mark, YAML::anchor_t /*anchor*/) override {
    refuse(span_at(mark), Code::anchor_or_alias, "an alias", "write the value out again");
    attach(node_of(Node::Type::null, span_at(mark)));
  }

  void OnScalar(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                const std::string& value) override {
    // The parser gives quoted scalars the tag `!` of its own accord.
    const bool tagged = starts_with_bang(mark) || (!tag.empty() && tag != "?" && tag != "!");
    check_properties(mark, tagged, anchor);
    const auto at = static_cast<std::size_t>(mark.pos);
    const Span span = span_of(value, mark);
    const bool quoted =
        at < document_.text.size() && (document_.text[at] == '"' || document_.text[at] == '\'');
    if (quoted && closing_quote(document_.text, at) == std::string_view::npos) {
      refuse(span, Code::unclosed_quote, "a quote opens here and never closes", "close the quote");
      throw Abandoned{};
    }
    if (!quoted && value == "<<" && expects_key()) {
      refuse(span, Code::anchor_or_alias, "a merge key", "write the keys out again");
    }
    attach(node_of(Node::Type::scalar, span, value));
  }

  void OnSequenceStart(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                       YAML::EmitterStyle::value /*style*/) override {
    open(mark, tag, anchor, Node::Type::list);
  }
  void OnSequenceEnd() override { close(); }
  void OnMapStart(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                  YAML::EmitterStyle::value /*style*/) override {
    open(mark, tag, anchor, Node::Type::map);
  }
  void OnMapEnd() override { close(); }

 private:
  struct Frame {
    Node node;
    bool has_key = false;
    std::string key = {};
    Span key_span = {};
    std::unordered_set<std::string> keys = {};
  };

  bool expects_key() const {
    return !stack_.empty() && stack_.back().node.type == Node::Type::map && !stack_.back().has_key;
  }
  bool expects_value() const { return !stack_.empty() && stack_.back().has_key; }

  /// A scalar's place, no longer than its first line.
  Span span_of(const std::string& value, const YAML::Mark& mark) const {
    Span span = span_at(mark);
    const auto at = std::min(static_cast<std::size_t>(mark.pos), document_.text.size());
    const std::string_view written = std::string_view(document_.text).substr(at, value.size());
    span.length = std::max(1, static_cast<int>(characters(written.substr(0, written.find('\n')))));
    return span;
  }

  void refuse(Span span, Code code, std::string message, std::string help) {
    findings_.add(document_.at(span, code, std::move(message), std::move(help)));
  }

  bool starts_with_bang(const YAML::Mark& mark) const {
    const auto at = static_cast<std::size_t>(mark.pos);
    return at < document_.text.size() && document_.text[at] == '!';
  }

  void check_properties(const YAML::Mark& mark, bool tagged, YAML::anchor_t anchor) {
    if (anchor != 0)
      refuse(span_at(mark), Code::anchor_or_alias, "an anchor", "leave the `&` name out");
    if (tagged) refuse(span_at(mark), Code::tag, "a tag", "leave the `!` word out");
  }

  void open(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
            Node::Type type) {
    check_properties(mark, !tag.empty() && tag != "?", anchor);
    if (static_cast<int>(stack_.size()) >= kDeepest) {
      refuse(span_at(mark), Code::too_deep, "nested too deep",
             "at most " + std::to_string(kDeepest) + " levels");
      throw Abandoned{};
    }
    stack_.push_back({.node = node_of(type, span_at(mark))});
  }

  void close() {
    Node node = std::move(stack_.back().node);
    stack_.pop_back();
    attach(std::move(node));
  }

  void attach(Node node) {
    if (stack_.empty()) {
      root_ = std::move(node);
    } else if (expects_key()) {
      take_key(std::move(node));
    } else if (expects_value()) {
      Frame& frame = stack_.back();
      frame.node.entries.push_back({std::move(frame.key), frame.key_span, std::move(node)});
      frame.has_key = false;
    } else {
      stack_.back().node.items.push_back(std::move(node));
    }
  }

  void take_key(Node node) {
    Frame& frame = stack_.back();
    if (node.type != Node::Type::scalar) {
      refuse(node.span, Code::wrong_shape, "a key must be a plain word", {});
    } else if (!frame.keys.insert(node.text).second) {
      refuse(node.span, Code::duplicate_key, "`" + node.text + "` stands twice in this map",
             "keep one of the two");
    }
    frame.has_key = true;
    frame.key = std::move(node.text);
    frame.key_span = node.span;
  }

  const Document& document_;
  Findings& findings_;
  std::vector<Frame> stack_;
  std::vector<int> columns_;
  Node root_;
  int documents_ = 0;
};

/// Control characters but for tab and line ends: YAML has none, and the parser ends a file at one.
bool is_control(char c) {
  const auto byte = static_cast<unsigned char>(c);
  return (byte < 0x20 && c != '\t' && c != '\n' && c != '\r') || byte == 0x7F;
}

/// The parser looks for the end of what a line opens, and would fill the memory with a huge one.
void check_lines(const Document& document, Findings& findings) {
  const std::vector<std::size_t>& starts = document.line_starts;
  for (std::size_t i = 0; i < starts.size(); ++i) {
    const std::size_t end = i + 1 < starts.size() ? starts[i + 1] : document.text.size();
    if (end - starts[i] <= kLongestLine) continue;
    findings.add(document.at({.line = static_cast<int>(i) + 1, .column = 1}, Code::too_large,
                             "this line is longer than 64 KiB", "break it up"));
  }
}

/// The parser keeps all of a bracket until it closes. Counted without regard to quotes: no file of
/// ours comes near either bound.
void check_brackets(const Document& document, Findings& findings) {
  constexpr int kMostOpen = 1'000;
  constexpr std::size_t kLongest = 1U << 17U;  // bytes
  const std::string& text = document.text;
  int open = 0;
  std::size_t opened = 0;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    if (c == '[' || c == '{') {
      if (open++ == 0) opened = i;
    } else if ((c == ']' || c == '}') && open > 0) {
      --open;
    }
    const bool long_open = open > 0 && i - opened > kLongest;
    if (open <= kMostOpen && !long_open) continue;
    const auto line = static_cast<int>(
        std::count(text.begin(), text.begin() + static_cast<std::ptrdiff_t>(i), '\n'));
    findings.add(document.at({.line = line + 1, .column = 1},
                             long_open ? Code::too_large : Code::too_deep,
                             long_open ? "a bracket is open for more than 128 KiB"
                                       : "more than a thousand brackets are open",
                             "close them; is this the right file?"));
    return;
  }
}

/// What makes a text unfit to be parsed at all.
void check_text(const Document& document, Findings& findings) {
  const std::string& text = document.text;
  if (text.size() > kLargestFile) {
    findings.add(document.at({}, Code::too_large, "the file is larger than 1 MiB", {}));
  } else {
    check_lines(document, findings);
    if (!findings.has_errors()) check_brackets(document, findings);
  }
  std::optional<std::size_t> bad = first_invalid_utf8(text);
  const auto control =
      static_cast<std::size_t>(std::find_if(text.begin(), text.end(), is_control) - text.begin());
  if (control < std::min(bad.value_or(text.size()), text.size())) bad = control;
  if (!bad) return;
  const std::string_view before = std::string_view(text).substr(0, *bad);
  const std::size_t line_start = before.rfind('\n') + 1;  // npos + 1 is 0
  const Span span{.line = static_cast<int>(std::count(before.begin(), before.end(), '\n')) + 1,
                  .column = static_cast<int>(characters(before.substr(line_start))) + 1};
  const auto byte = static_cast<unsigned>(static_cast<unsigned char>(text[*bad]));
  constexpr std::string_view kDigits = "0123456789ABCDEF";
  const std::string hex{'0', 'x', kDigits[byte / 16], kDigits[byte % 16]};
  Diagnostic found = byte < 0x80
                         ? document.at(span, Code::not_utf8, "a control character, byte " + hex,
                                       "take it out; is this a text file?")
                         : document.at(span, Code::not_utf8, "byte " + hex + " is not UTF-8 text",
                                       "save the file as UTF-8");
  found.source.clear();
  findings.add(std::move(found));
}

void parse_into(Document& document, Findings& findings) {
  Builder builder(document, findings);
  try {
    // A line end behind the last line, so that a quote left open there is seen as such.
    std::istringstream stream(document.text + '\n');
    YAML::Parser parser(stream);
    // The second call is there to notice what a first document would leave behind.
    if (parser.HandleNextDocument(builder)) parser.HandleNextDocument(builder);
  } catch (const Abandoned&) {  // NOLINT(bugprone-empty-catch): the findings say why
  } catch (const YAML::Exception& e) {
    const std::string line = document.line(builder.span_at(e.mark).line);
    const bool tab = line.find('\t') < line.find_first_not_of(" \t");
    YamlFault fault = in_our_words(tab ? YAML::ErrorMsg::TAB_IN_INDENTATION : e.msg);
    findings.add(document.at(builder.span_at(e.mark), fault.code, std::move(fault.message),
                             std::move(fault.help)));
  }
  document.root = builder.take_root();
}

struct CloseFile {
  void operator()(std::FILE* file) const { std::fclose(file); }
};

/// Reads at most one byte more than is allowed, so that a huge file is noticed and not swallowed.
std::string read_all(std::FILE* file, bool& failed) {
  std::string text;
  std::string block(64U << 10U, '\0');
  while (text.size() <= kLargestFile) {
    const std::size_t got = std::fread(block.data(), 1, block.size(), file);
    text.append(block, 0, got);
    if (got < block.size()) break;
  }
  failed = std::ferror(file) != 0;
  return text;
}

[[noreturn]] void cannot_read(const std::string& path, const std::string& why) {
  throw InputError({Diagnostic{.code = Code::cannot_read, .file = path, .message = why}});
}

}  // namespace

Document parse_document(std::string name, std::string text) {
  constexpr std::string_view kByteOrderMark = "\xEF\xBB\xBF";
  while (text.starts_with(kByteOrderMark)) text.erase(0, kByteOrderMark.size());
  Document document{.name = std::move(name), .text = std::move(text), .root = {}};
  document.line_starts = line_starts_of(document.text);
  Findings findings;
  check_text(document, findings);
  findings.throw_if_errors();
  parse_into(document, findings);
  findings.throw_if_errors();
  return document;
}

Document read_document(const std::string& path) {
  bool failed = false;
  if (path == "-") {
    std::string text = read_all(stdin, failed);
    if (failed) cannot_read("standard input", "it cannot be read to its end");
    return parse_document("standard input", std::move(text));
  }
  std::error_code ignored;
  if (std::filesystem::is_directory(path, ignored))
    cannot_read(path, "this is a folder, not a file");
  const std::unique_ptr<std::FILE, CloseFile> file(std::fopen(path.c_str(), "rb"));
  if (!file) cannot_read(path, std::strerror(errno));
  std::string text = read_all(file.get(), failed);
  if (failed) cannot_read(path, "the file cannot be read to its end");
  return parse_document(path, std::move(text));
}

}  // namespace kartwright
