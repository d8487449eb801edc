#include "cli/sheet/sheet.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "cli/sheet/sheet_style.h"

namespace kartwright::cli {
namespace {

constexpr std::size_t kNeverWrapped = 1'000'000;

/// "READING" as a heading reads: "Reading". The style sets it in capitals again.
std::string heading_of(std::string_view word) {
  std::string out(word);
  for (std::size_t i = 1; i < out.size(); ++i) {
    if (out[i] >= 'A' && out[i] <= 'Z') out[i] = static_cast<char>(out[i] + 32);
  }
  return out;
}

std::string style_of(const PagePiece& piece) {
  if (piece.tint == Tint::stop) return "stop";
  if (piece.tint == Tint::good) return "good";
  return piece.indent > 0 || piece.text.starts_with("  ") ? "in" : "";
}

Markup paragraph_of(const PagePiece& piece) {
  const std::string style = style_of(piece);
  const Attributes attributes = style.empty() ? Attributes{} : Attributes{{"class", style}};
  return element("p", attributes, words(piece.text));
}

/// How wide a letter is, in letters: only of running text are they one on average.
double wide_of(char letter) {
  constexpr double kBroad = 1.75;
  return std::string_view("mwMW@%").find(letter) == std::string_view::npos ? 1.0 : kBroad;
}

/// Letters of each paragraph, row of a table and line of a `pre`. A long text in a cell has the
/// other cells' width beside it empty: it counts for more.
std::vector<double> letters_of(const Markup& markup) {
  static constexpr std::array<std::string_view, 4> kEnds{"/p", "/tr", "/caption", "/h2"};
  constexpr double kLongCell = 150.0, kOfLongCell = 1.0;
  std::vector<double> out;
  double letters = 0.0;
  double cell = 0.0;
  const auto close = [&] {
    if (letters > 0.0) out.push_back(letters);
    letters = cell = 0.0;
  };
  const auto close_cell = [&] {
    if (letters - cell > kLongCell) letters += kOfLongCell * (letters - cell);
    cell = letters;
  };
  std::string_view html = markup.html();
  while (!html.empty()) {
    if (html.front() != '<') {
      if (html.front() == '\n') close();
      letters += wide_of(html.front());
      html.remove_prefix(first_glyph(html).length);
      continue;
    }
    const std::size_t end = std::min(html.find('>'), html.size() - 1);
    const std::string_view tag = html.substr(1, end - 1);
    if (tag == "/td" || tag == "/th") close_cell();
    if (std::find(kEnds.begin(), kEnds.end(), tag) != kEnds.end()) close();
    html.remove_prefix(end + 1);
  }
  close();
  return out;
}

}  // namespace

Look look_of_sheet() { return {.width = kNeverWrapped, .unicode = true, .colour = false}; }

Markup paragraphs_of(const PageSection& section, const std::vector<Markup>& tables) {
  Markup out;
  std::string lines;
  std::size_t next = 0;
  const auto close = [&] {
    if (lines.empty()) return;
    out += next < tables.size() ? tables[next++] : element("pre", words_in_lines(lines));
    lines.clear();
  };
  for (const PagePiece& piece : section.pieces) {
    if (piece.as == PagePiece::As::paragraph) {
      close();
      out += paragraph_of(piece);
    } else {
      lines += (lines.empty() ? "" : "\n") + std::string(piece.indent, ' ') + piece.text;
    }
  }
  close();
  return out;
}

Markup table_of(const SheetTable& table) {
  const auto is_figure = [&](std::size_t i) {
    return i < table.figures.size() && table.figures[i];
  };
  const auto cell = [&](const char* name, std::size_t i, Attributes attributes,
                        const Markup& text) {
    if (is_figure(i)) attributes.emplace_back("class", "figure");
    return element(name, attributes, text);
  };
  Markup head;
  for (std::size_t i = 0; i < table.head.size(); ++i)
    head += cell("th", i, {{"scope", "col"}}, words(table.head[i]));
  Markup body;
  for (std::size_t r = 0; r < table.rows.size(); ++r) {
    Markup cells;
    const std::vector<Markup>& row = table.rows[r];
    for (std::size_t i = 0; i < row.size(); ++i) {
      cells += i == 0 ? cell("th", i, {{"scope", "row"}}, row[i]) : cell("td", i, {}, row[i]);
    }
    body += table.first_leads && r == 0 ? element("tr", {{"class", "first"}}, cells)
                                        : element("tr", cells);
  }
  Markup inside;
  if (!table.caption.empty()) inside += element("caption", words(table.caption));
  inside += element("thead", element("tr", head));
  inside += element("tbody", body);
  return element("table", inside);
}

void Sheet::section(std::string_view word, const Markup& inside) {
  if (inside.empty()) return;
  std::vector<Part>& where = pictures_.empty() && !droppable_ ? lead_ : rest_;
  const Markup whole =
      word.empty() ? inside : Markup{element("h2", words(heading_of(word))), inside};
  where.push_back({.markup = whole, .letters = letters_of(whole), .droppable = droppable_});
}

void Sheet::picture(const Picture& picture, std::string_view caption) {
  pictures_ += element("figure", {picture.markup, element("figcaption", words(caption))});
  picture_units_ += picture.height;
  caption_letters_ += static_cast<double>(columns(caption));
}

void Sheet::wide(std::string_view word, std::string_view legend,
                 const std::vector<Markup>& tables) {
  Markup inside;
  std::vector<double> tallest;
  for (const Markup& table : tables) {
    inside += element("div", table);
    const std::vector<double> letters = letters_of(table);
    if (letters.size() > tallest.size()) tallest = letters;
  }
  if (inside.empty()) return;
  const Markup whole{element("h2", words(heading_of(word))), element("p", words(legend)),
                     element("div", {{"class", tables.size() > 1 ? "halves" : "one"}}, inside)};
  wide_.push_back({.markup = whole, .letters = tallest});
}

namespace {

/// What a sheet of A4 or Letter holds: inside its margins the lesser width of the two, and a little
/// more than the lesser height (261 mm), since what is estimated is 5 to 15 % too much.
constexpr double kPaperWidth = 190.0, kPaperHeight = 272.0;  // mm

/// A size of print: its name in the style, what a line and a letter of it take, mm, and by how much
/// the rows of the wide tables are taller than that, for they wrap. Measured in a browser over a
/// hundred sheets, nine of ten take less.
struct PrintSize {
  std::string_view name;
  double line = 0, letter = 0, wide = 1.0;
};
constexpr std::array<PrintSize, 4> kSizes{{{"usual", 3.55, 1.54, 1.6},
                                           {"tight", 3.1, 1.35, 1.5},
                                           {"tighter", 2.45, 1.16, 1.4},
                                           {"tightest", 2.05, 0.97, 1.2}}};

double lines_of(const std::vector<double>& letters, double width, const PrintSize& size) {
  double lines = 0.0;
  for (const double each : letters) lines += std::ceil(each * size.letter / width);
  return lines;
}

/// The frame that every sheet stands in.
std::string file_of(std::string_view title, std::string_view size, const Markup& body) {
  return "<!DOCTYPE html>\n<html lang=\"en\" class=\"" + std::string(size) +
         "\"><head><meta charset=\"utf-8\">"
         "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\"><title>" +
         words(title).html() + "</title><style>" + std::string(sheet_style()) +
         "</style></head>\n" + element("body", body).html() + "</html>\n";
}

Markup last_word() {
  return element("footer",
                 element("p", words("kartwright: a second opinion. The class's rules, the "
                                    "event's officials and qualified people have the "
                                    "last word.")));
}

}  // namespace

double Sheet::height(std::size_t size, const std::vector<bool>& left_out) const {
  const PrintSize& print = kSizes.at(size);
  const bool plain = pictures_.empty();
  const double column = plain ? kPaperWidth / 2.0 - 4.0 : 0.6 * kPaperWidth - 6.0;
  constexpr double kBetween = 0.6;  // of a line, between two parts
  double lines = 0.0;
  for (const Part& part : lead_) lines += lines_of(part.letters, column, print) + kBetween;
  for (std::size_t i = 0; i < rest_.size(); ++i)
    if (!left_out[i]) lines += lines_of(rest_[i].letters, column, print) + kBetween;
  const double beside = 0.4 * kPaperWidth - 4.0;
  const double pictures = picture_units_ / Drawing::kWidth * beside +
                          print.line * (2.0 + caption_letters_ * print.letter / beside);
  double wide = 0.0;
  for (const Part& part : wide_)
    wide += print.wide * (lines_of(part.letters, kPaperWidth / 2.0 - 4.0, print) + 2.0);
  const double words = print.line * lines / (plain ? 2.0 : 1.0);
  constexpr double kHeading = 1.6;  // of its letters and lines to the others
  const double heading =
      kHeading *
      lines_of({kHeading * static_cast<double>(columns(what_ + about_))}, kPaperWidth, print);
  return std::max(words, plain ? 0.0 : pictures) + print.line * (heading + wide + 5.0);
}

Sheet::Print Sheet::print() const {
  Print out;
  out.left_out.resize(rest_.size());
  const auto fits = [&](std::size_t size) { return height(size, out.left_out) <= kPaperHeight; };
  const std::size_t smallest = kSizes.size() - 1;
  for (std::size_t i = rest_.size(); i-- > 0 && !fits(smallest);)
    out.left_out[i] = rest_[i].droppable;
  // What was left out before the one that was too long may find room after all.
  for (std::size_t i = 0; i < rest_.size(); ++i) {
    if (!out.left_out[i]) continue;
    out.left_out[i] = false;
    out.left_out[i] = !fits(smallest);
  }
  while (out.size < smallest && !fits(out.size)) ++out.size;
  return out;
}

std::string Sheet::html() const {
  const Print paper = print();
  Markup lead;
  for (const Part& part : lead_) lead += element("section", part.markup);
  Markup rest;
  for (std::size_t i = 0; i < rest_.size(); ++i) {
    const Attributes where{{"class", paper.left_out[i] ? "on-screen" : "always"}};
    rest += element("section", where, rest_[i].markup);
  }
  if (std::find(paper.left_out.begin(), paper.left_out.end(), true) != paper.left_out.end())
    rest += element("p", {{"class", "on-paper"}},
                    words("More stands in the file than this sheet of paper holds."));
  Markup main = element("div", {{"class", "lead"}}, lead);
  if (!pictures_.empty()) main += element("div", {{"class", "pictures"}}, pictures_);
  if (!rest.empty()) main += element("div", {{"class", "rest"}}, rest);
  for (const Part& part : wide_) main += element("section", {{"class", "wide"}}, part.markup);
  const Markup heading{words(what_ + " "), element("span", element("bdi", words(about_)))};
  const Markup body{element("header", element("h1", heading)),
                    element("main", {{"class", pictures_.empty() ? "plain" : "beside"}}, main),
                    last_word()};
  return file_of(what_ + ": " + about_, kSizes.at(paper.size).name, body);
}

}  // namespace kartwright::cli
