// terminal.h - runs a program on a terminal of its own: keys go in, what the screen was sent comes
// out. What the terminal echoes of the keys is part of that.

#pragma once

#include <chrono>
#include <string>

#include <sys/types.h>

#include "tests/support/process.h"

namespace kartwright {

struct ScreenSize {
  unsigned short columns = 80, rows = 24;
};

class Terminal {
 public:
  using Seconds = std::chrono::duration<double>;
  static constexpr Seconds kSoon{10.0};  ///< a slow machine's idea of it

  /// Starts the command: of it only `argv` and `env` count. Throws std::system_error.
  explicit Terminal(const Command& command, ScreenSize size = {});
  /// A program that still runs is ended.
  ~Terminal();
  Terminal(const Terminal&) = delete;
  Terminal& operator=(const Terminal&) = delete;

  /// Keys, as they are; the enter key is `\r`, as on a keyboard. Wait for the prompt before: what
  /// is typed ahead is echoed at once.
  void type(const std::string& keys);
  /// The text and the enter key.
  void answer(const std::string& text) { type(text + "\r"); }
  void press_ctrl_c() { type("\x03"); }
  void press_ctrl_d() { type("\x04"); }

  /// Waits until the output holds the text behind the last one expected, and gives what stood
  /// between them. Throws std::runtime_error with what was seen where it does not come in time.
  std::string expect(const std::string& text, Seconds within = kSoon);

  /// As if the window were pulled: the program is told of it by SIGWINCH.
  void resize(ScreenSize size);

  /// All output so far, without carriage returns.
  const std::string& seen() const { return seen_; }

  /// Waits for the end: exit code as Ended has it, and all output. Throws std::runtime_error with
  /// what was seen where the program does not end in time.
  Ended finish(Seconds within = kSoon);

 private:
  using Clock = std::chrono::steady_clock;
  bool read_until(Clock::time_point end);  ///< false: nothing more will come, or not in time
  [[noreturn]] void give_up(const std::string& why) const;

  int screen_ = -1;
  pid_t child_ = -1;
  std::string seen_ = {};
  std::size_t matched_ = 0;
};

}  // namespace kartwright
