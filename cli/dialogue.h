// dialogue.h - asks on stderr and reads a line from stdin; stdout is kept for the answer.
//
// Works on a terminal and with a script of answers alike. Ctrl-C ends the question, not the
// program. The width is looked up anew before everything that is said.

#pragma once

#include <csignal>
#include <cstdio>
#include <string>
#include <string_view>

#include "cli/page.h"

namespace kartwright::cli {

/// What came back for a question. `end`: Ctrl-D, or the script is over. `interrupted`: Ctrl-C.
struct Reply {
  enum class What { text, end, interrupted };
  What what = What::text;
  std::string text = {};  ///< printable, without the end of the line
};

class Dialogue {
 public:
  static constexpr std::size_t kLongest = 4000;  ///< bytes of one reply; what is over is not read

  /// From now on Ctrl-C is a reply. Where it is ignored, as in a script that runs by itself, it
  /// stays so. One at a time.
  explicit Dialogue(int in = STDIN_FILENO, std::FILE* out = stderr);
  /// Ctrl-C is again what it was before.
  ~Dialogue();
  Dialogue(const Dialogue&) = delete;
  Dialogue& operator=(const Dialogue&) = delete;

  bool on_terminal() const { return terminal_; }  ///< false: the replies are a script

  /// A paragraph, wrapped to the width as it is now; lines after the first hang by `hang` columns.
  void say(std::string_view text, std::size_t hang = 0) const;
  void blank_line() const;

  /// Waits for one line. A reply of a script is written behind the prompt, as if it had been typed;
  /// a reply that was too long is told of. Throws InputError where there is nothing to read from.
  Reply ask(std::string_view prompt);

 private:
  static constexpr int kEnd = -1, kInterrupted = -2;
  Look look() const;
  void write(std::string_view text) const;
  int next_byte();  ///< or kEnd, kInterrupted
  Reply::What read_line(std::string& line, bool& cut);

  int in_;
  std::FILE* out_;
  bool terminal_;
  bool catches_ = false;
  struct sigaction before_ = {};
  sigset_t mask_before_ = {};
  std::string block_ = {};  ///< read and not yet used
  std::size_t used_ = 0;
};

}  // namespace kartwright::cli
