// log_edits.h - a sound log, and edits of it behind the back of its program: cells with values of
// any kind, rows and tables that are gone, another version.
//
// A database of random bytes is refused by its library; what it lets through is what can harm.

#pragma once

#include <string>
#include <string_view>

namespace kartwright::fuzz {

/// How a list of edits begins.
inline constexpr std::string_view kEdits = "edits of a log\n";

/// The bytes of a log with two runs of the harbour's kart 27, every field and list in use.
const std::string& sound_log();

/// Makes the edits of `text` in a log, one a line:
///     set TABLE COLUMN ROW KIND VALUE      KIND is text, blob, whole, real or nothing; ROW from 0
///     delete TABLE ROW                     VALUE may hold \xNN
///     drop TABLE
///     version N
/// A line that is none of these, or that the database refuses, is passed over; false where none
/// was made.
bool edit_log(const std::string& path, std::string_view text);

}  // namespace kartwright::fuzz
