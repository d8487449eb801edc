// document.h - one YAML file, strictly read, where every value knows its line and column.
//
// The reader refuses what YAML allows and people do not mean: duplicate keys, anchors, tags, a
// second document, a quote that swallows the rest. What it returns is plain data.

#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "engine/document/diagnostic.h"

namespace kartwright {

struct Entry;

/// A value of a document: nothing, a scalar, a list or a map. Keys and items keep their order.
struct Node {
  enum class Type { null, scalar, list, map };
  Type type = Type::null;
  std::string text = {};         ///< of a scalar, unquoted
  Span span = {};                ///< where the value stands
  std::vector<Node> items = {};  ///< of a list
  std::vector<Entry> entries;    ///< of a map, keys unique

  /// The value under a key of a map, or nullptr.
  const Node* find(std::string_view key) const;
};

struct Entry {
  std::string key;
  Span span;  ///< where the key stands
  Node value;
};

/// A whole file. `text` is empty where the document was frozen into the program.
struct Document {
  std::string name;  ///< as the crew named it
  std::string text;
  Node root;
  std::vector<std::size_t> line_starts = {};  ///< offsets in `text`, as the reader found them

  /// Line `n` from 1 of the text, without its end; empty where there is none.
  std::string line(int n) const;
  /// A diagnostic at a place in this document. Of a long line, what stands around it.
  Diagnostic at(Span span, Code code, std::string message, std::string help = {}) const;
};

/// Largest file, longest line (both in bytes) and deepest nesting that are read.
inline constexpr std::size_t kLargestFile = 1U << 20U;
inline constexpr std::size_t kLongestLine = 1U << 16U;
inline constexpr int kDeepest = 32;

/// Reads YAML text. Throws InputError with everything wrong with its form.
Document parse_document(std::string name, std::string text);

/// Reads a file, or standard input where the path is `-`. Throws InputError with Code::cannot_read
/// where it cannot be read, and as parse_document.
Document read_document(const std::string& path);

}  // namespace kartwright
