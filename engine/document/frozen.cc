#include "engine/document/frozen.h"

#include <cassert>
#include <cstdint>

namespace kartwright {
namespace {

// Numbers are little-endian base 128, texts are a length and the bytes.

void put(std::string& out, std::size_t number) {
  while (number >= 128) {
    out.push_back(static_cast<char>((number & 127U) | 128U));
    number >>= 7U;
  }
  out.push_back(static_cast<char>(number));
}

void put(std::string& out, const std::string& text) {
  put(out, text.size());
  out += text;
}

void put(std::string& out, const Span& span) {
  put(out, static_cast<std::size_t>(span.line));
  put(out, static_cast<std::size_t>(span.column));
  put(out, static_cast<std::size_t>(span.length));
}

void put(std::string& out, const Node& node) {
  put(out, static_cast<std::size_t>(node.type));
  put(out, node.span);
  put(out, node.text);
  put(out, node.items.size());
  for (const Node& item : node.items) put(out, item);
  put(out, node.entries.size());
  for (const Entry& entry : node.entries) {
    put(out, entry.key);
    put(out, entry.span);
    put(out, entry.value);
  }
}

class Thawer {
 public:
  explicit Thawer(std::string_view bytes) : bytes_(bytes) {}

  std::size_t number() {
    std::size_t value = 0;
    for (unsigned shift = 0;; shift += 7) {
      assert(at_ < bytes_.size());
      const auto byte = static_cast<unsigned char>(bytes_[at_++]);
      value |= static_cast<std::size_t>(byte & 127U) << shift;
      if (byte < 128) return value;
    }
  }

  std::string text() {
    const std::size_t size = number();
    assert(size <= bytes_.size() - at_);
    std::string value(bytes_.substr(at_, size));
    at_ += size;
    return value;
  }

  Span span() {
    const auto line = static_cast<int>(number());
    const auto column = static_cast<int>(number());
    return {.line = line, .column = column, .length = static_cast<int>(number())};
  }

  Node node() {
    Node made;
    made.type = static_cast<Node::Type>(number());
    made.span = span();
    made.text = text();
    made.items.resize(number());
    for (Node& item : made.items) item = node();
    made.entries.resize(number());
    for (Entry& entry : made.entries) {
      entry.key = text();
      entry.span = span();
      entry.value = node();
    }
    return made;
  }

 private:
  std::string_view bytes_;
  std::size_t at_ = 0;
};

}  // namespace

std::string freeze(const std::vector<Document>& documents) {
  std::string out;
  put(out, documents.size());
  for (const Document& document : documents) {
    put(out, document.name);
    put(out, document.root);
  }
  return out;
}

std::vector<Document> thaw(std::string_view bytes) {
  Thawer thawer(bytes);
  std::vector<Document> documents(thawer.number());
  for (Document& document : documents) {
    document.name = thawer.text();
    document.root = thawer.node();
  }
  return documents;
}

}  // namespace kartwright
