// sheet.h - an answer as one self-contained HTML file: no script, no network, light and dark, for a
// phone, a desk and one sheet of paper.
//
// The words of a sheet are those of the page of text; tables and pictures come in their place.

#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "cli/page.h"
#include "cli/sheet/drawing.h"

namespace kartwright::cli {

/// How a page is laid out whose words go into a sheet: not wrapped, in Unicode, without colour.
Look look_of_sheet();

/// A table with a heading for every column; the first cell of a row heads it.
struct SheetTable {
  std::string caption;
  std::vector<std::string> head;
  std::vector<std::vector<Markup>> rows;
  std::vector<bool> figures = {};  ///< columns of numbers stand on the right; missing: words
  bool first_leads = false;        ///< the first row is the one to act on
};
Markup table_of(const SheetTable& table);

/// The paragraphs of a section. Rows that stand one below the other give their place to the next of
/// `tables`; without one they stay as they are.
Markup paragraphs_of(const PageSection& section, const std::vector<Markup>& tables = {});

class Sheet {
 public:
  /// `what` is the kind of answer, "Advice"; `about` whose it is, the kart's name.
  Sheet(std::string_view what, std::string_view about) : what_(what), about_(about) {}

  /// A section under its word. What may be left out on paper never stands before the pictures.
  void section(std::string_view word, const Markup& inside);
  void section(const PageSection& section) { this->section(section.word, paragraphs_of(section)); }
  /// A picture beside the words, with its caption. On a phone the sections added before the first
  /// picture stand before it, the others behind the last.
  void picture(const Picture& picture, std::string_view caption);
  /// Below words and pictures, as wide as both: one table, or the halves of one side by side, with
  /// what their signs mean.
  void wide(std::string_view word, std::string_view legend, const std::vector<Markup>& tables);
  /// The sections that come next are left out on paper, from the last one on, where they do not fit
  /// on the sheet; the sheet says so there.
  void droppable_from_here() { droppable_ = true; }
  void needed_from_here() { droppable_ = false; }

  /// The whole file.
  std::string html() const;

 private:
  struct Part {
    Markup markup = {};
    std::vector<double> letters = {};  ///< of each of its paragraphs and rows
    bool droppable = false;
  };
  /// What goes on paper, and how large.
  struct Print {
    std::size_t size = 0;
    std::vector<bool> left_out = {};  ///< of `rest_`
  };
  Print print() const;
  double height(std::size_t size, const std::vector<bool>& left_out) const;

  std::string what_, about_;
  std::vector<Part> lead_ = {}, rest_ = {}, wide_ = {};
  Markup pictures_ = {};
  double picture_units_ = 0.0;
  double caption_letters_ = 0.0;
  bool droppable_ = false;
};

}  // namespace kartwright::cli
