#include "cli/dialogue.h"

#include <array>
#include <cerrno>
#include <system_error>

#include <poll.h>
#include <unistd.h>

#include "engine/document/diagnostic.h"

namespace kartwright::cli {
namespace {

// The one thing a signal handler may touch.
// NOLINTNEXTLINE(cppcoreguidelines-avoid-non-const-global-variables)
volatile std::sig_atomic_t interrupted = 0;

void mark_interrupted(int /*signal*/) { interrupted = 1; }

/// What cannot be read is not taken for the end of the answers.
[[noreturn]] void refuse_input(int why) {
  throw InputError({Diagnostic{
      .code = Code::cannot_read,
      .file = "standard input",
      .message = "it cannot be read any further: " + std::generic_category().message(why)}});
}

sigset_t ctrl_c_alone() {
  sigset_t set;
  sigemptyset(&set);
  sigaddset(&set, SIGINT);
  return set;
}

}  // namespace

Dialogue::Dialogue(int in, std::FILE* out) : in_(in), out_(out), terminal_(isatty(in) == 1) {
  interrupted = 0;
  // Held back but while waiting for a reply, so that none can slip in between look and wait.
  const sigset_t held = ctrl_c_alone();
  sigprocmask(SIG_BLOCK, &held, &mask_before_);
  sigaction(SIGINT, nullptr, &before_);
  catches_ = before_.sa_handler != SIG_IGN;
  if (!catches_) return;
  struct sigaction catching = {};
  catching.sa_handler = mark_interrupted;
  sigemptyset(&catching.sa_mask);
  sigaction(SIGINT, &catching, nullptr);
}

Dialogue::~Dialogue() {
  if (catches_) sigaction(SIGINT, &before_, nullptr);
  sigprocmask(SIG_SETMASK, &mask_before_, nullptr);
}

Look Dialogue::look() const {
  Look look = look_of_stderr();
  look.colour = false;
  return look;
}

void Dialogue::write(std::string_view text) const {
  std::fwrite(text.data(), 1, text.size(), out_);
  std::fflush(out_);
}

void Dialogue::say(std::string_view text, std::size_t hang) const {
  const Look now = look();
  std::string lines;
  std::size_t indent = 0;
  for (const std::string& line : wrap(spelled(text, now), now.width - hang)) {
    lines += std::string(indent, ' ') + line + "\n";
    indent = hang;
  }
  write(lines);
}

void Dialogue::blank_line() const { write("\n"); }

int Dialogue::next_byte() {
  while (used_ == block_.size()) {
    if (interrupted != 0) return kInterrupted;
    pollfd waits{.fd = in_, .events = POLLIN, .revents = 0};
    sigset_t while_waiting = mask_before_;
    if (catches_) sigdelset(&while_waiting, SIGINT);
    if (ppoll(&waits, 1, nullptr, &while_waiting) < 0 && errno == EINTR) continue;
    std::array<char, 4096> read_now{};
    const ssize_t n = ::read(in_, read_now.data(), read_now.size());
    if (n < 0 && errno == EINTR) continue;
    if (n < 0) refuse_input(errno);
    if (n == 0) return kEnd;
    block_.assign(read_now.data(), static_cast<std::size_t>(n));
    used_ = 0;
  }
  return static_cast<unsigned char>(block_[used_++]);
}

/// A last line without its end is a line.
Reply::What Dialogue::read_line(std::string& line, bool& cut) {
  for (bool any = false;; any = true) {
    const int byte = next_byte();
    if (byte == kInterrupted) return Reply::What::interrupted;
    if (byte == kEnd && !any) return Reply::What::end;
    if (byte == kEnd || byte == '\n') break;
    if (line.size() < kLongest)
      line += static_cast<char>(byte);
    else
      cut = true;
  }
  if (!line.empty() && line.back() == '\r') line.pop_back();
  return Reply::What::text;
}

Reply Dialogue::ask(std::string_view prompt) {
  if (terminal_) write(spelled(prompt, look()));
  std::string line;
  bool cut = false;
  Reply reply{.what = read_line(line, cut)};
  reply.text = printable(line);
  if (!terminal_) say(std::string(prompt) + reply.text, columns(prompt));
  if (terminal_ && reply.what != Reply::What::text) blank_line();
  if (cut) say("That was too long: only its start was read.");
  return reply;
}

}  // namespace kartwright::cli
