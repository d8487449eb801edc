// code_pages.h - a page for every diagnostic code: what it means, why the program insists, an
// example to avoid and the same done right.
//
// The examples are run: `avoid` gives its code and nothing else, `prefer` gives nothing at all.

#pragma once

#include <span>
#include <string_view>

#include "engine/document/codes.h"

namespace kartwright {

/// How the two examples of a page are to be read.
enum class Shown {
  apart,         ///< not in a few lines: the examples are sentences
  kart,          ///< a kart file
  debrief,       ///< a debrief file
  rules,         ///< a rule file on top of the built-in rules
  rules_alone,   ///< a rule file with no others beneath it
  command_line,  ///< as typed
  audited,       ///< a rule file on top of the built-in ones, as `rules check` looks at it
  cases,         ///< a file of cases beside a built-in rule file, which its first line names
  claims,        ///< a rule file on top of the built-in rules, held to what it claims itself
  laps,          ///< a lap file, as `compare` reads it
};

struct CodePage {
  Code code;
  Shown shown = Shown::kart;
  std::string_view what;    ///< what it means
  std::string_view why;     ///< why the program insists
  std::string_view avoid;   ///< a few lines, exactly as written, none of them empty
  std::string_view prefer;  ///< the same, done right
};

/// "in a kart file"; empty for Shown::apart.
std::string_view where(Shown shown);

/// The pages, letter by letter, each in the order of codes.h.
std::span<const CodePage> document_pages();  ///< D, Q
std::span<const CodePage> rule_pages();      ///< R
std::span<const CodePage> pit_pages();       ///< K, B, O
std::span<const CodePage> audit_pages();     ///< A
std::span<const CodePage> case_pages();      ///< C
std::span<const CodePage> property_pages();  ///< P
std::span<const CodePage> lap_pages();       ///< L
std::span<const CodePage> log_pages();       ///< N

/// The page of a code, or nullptr.
const CodePage* page_of(Code code);

}  // namespace kartwright
