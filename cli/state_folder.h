// state_folder.h - the folder where the program keeps what it must remember between two starts,
// after the XDG Base Directory specification. Nothing is written anywhere else unasked.

#pragma once

#include <optional>
#include <string>

namespace kartwright::cli {

/// $XDG_STATE_HOME/kartwright, or else $HOME/.local/state/kartwright; nothing where neither is an
/// absolute path: then nothing can be kept. It need not be there.
std::optional<std::string> state_folder();

/// What a file of the folder holds; nothing where there is none.
std::optional<std::string> read_state(const std::string& folder, const std::string& name);

/// Puts a file into the folder in one step: the old text or the new one is there, whatever happens.
/// The folder is made, for its owner alone, where it is not there. Throws FileError.
void write_state(const std::string& folder, const std::string& name, const std::string& text);

/// What a file of the folder holds; empty where there is none. Throws InputError with its place
/// where there is one that cannot be read, or a folder in its place.
std::string state_text(const std::string& folder, const std::string& name);

/// Puts a line behind what a file of the folder holds, in one write: what others append meanwhile
/// stays as well. A line that was torn off is ended first. Made, for its owner alone, where it is
/// not there. Throws FileError.
void append_state(const std::string& folder, const std::string& name, const std::string& line);

/// Takes a file out of the folder; one that is not there is no mistake. False where it stays.
bool remove_state(const std::string& folder, const std::string& name);

}  // namespace kartwright::cli
