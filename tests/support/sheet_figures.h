// sheet_figures.h - the figures on the pictures of a sheet, and whether they are the values of the
// same command's JSON.

#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace kartwright {

/// A text of a picture, and the JSON pointer (RFC 6901) of the value that it shows.
struct SheetFigure {
  std::string pointer, text;
};

/// In the order of the sheet.
std::vector<SheetFigure> figures_in(std::string_view html);

/// What is wrong with one, or nothing: the pointer does not resolve, or the number is not that
/// value in the unit of the text to the last digit printed.
std::string wrong_with(const SheetFigure& figure, const std::string& json);

}  // namespace kartwright
