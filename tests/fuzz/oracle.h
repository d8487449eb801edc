// oracle.h - what must hold of every answer, whatever was handed in. Each throws Broken where it
// does not.

#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "engine/advice/advice.h"
#include "engine/document/diagnostic.h"
#include "engine/document/document.h"
#include "engine/kart/kart.h"
#include "tests/fuzz/target.h"

namespace kartwright::fuzz {

void hold(bool promise, const std::string& what);

/// The built-in rules, and the kart that they call typical.
const Pack& shipped_rules();
const Kart& usual_kart_of_rules();

/// Findings about a text say what is wrong, inside it: line and column of a character, or just
/// behind the last of a line. They can be shown on any page without steering the terminal.
void check_found(const std::vector<Diagnostic>& found, std::string_view text,
                 const std::string& name);
/// The same, and at least one of them is an error.
void check_refusal(const std::vector<Diagnostic>& found, std::string_view text,
                   const std::string& name);

/// It can be shown on any page, in any width, without steering the terminal.
void check_shown(const Diagnostic& found);

/// Every place in a document lies inside its text.
void check_places(const Document& document);

/// Text of ours: UTF-8, and nothing in it steers a terminal but a line end.
void check_words(std::string_view text, const std::string& what);

/// Every number is finite, odds are odds, shares sum to what they moved, and options are ordered.
void check_advice(const Advice& advice);

/// Every setting has a place, finite and inside its travel, and is written as it reads back.
void check_kart(const Kart& kart);

}  // namespace kartwright::fuzz
