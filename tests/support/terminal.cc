#include "tests/support/terminal.h"

#include <array>
#include <cerrno>
#include <csignal>
#include <stdexcept>
#include <system_error>
#include <thread>
#include <vector>

#include <poll.h>
#include <pty.h>
#include <sys/ioctl.h>
#include <sys/wait.h>
#include <unistd.h>

namespace kartwright {
namespace {

[[noreturn]] void fail(const char* what) {
  throw std::system_error(errno, std::generic_category(), what);
}

winsize window(ScreenSize size) {
  return {.ws_row = size.rows, .ws_col = size.columns, .ws_xpixel = 0, .ws_ypixel = 0};
}

std::vector<char*> pointers_to(std::vector<std::string>& texts) {
  std::vector<char*> all;
  for (std::string& text : texts) all.push_back(text.data());
  all.push_back(nullptr);
  return all;
}

/// In the child: a program run by hand can be interrupted, whatever the tests run under.
[[noreturn]] void become(char* const* argv, char* const* env) {
  std::signal(SIGINT, SIG_DFL);
  sigset_t none;
  sigemptyset(&none);
  sigprocmask(SIG_SETMASK, &none, nullptr);
  execve(argv[0], argv, env);
  _exit(127);
}

}  // namespace

Terminal::Terminal(const Command& command, ScreenSize size) {
  std::vector<std::string> words = command.argv;
  std::vector<std::string> surroundings = surroundings_of(command);
  const std::vector<char*> argv = pointers_to(words);
  const std::vector<char*> env = pointers_to(surroundings);
  winsize shape = window(size);
  child_ = forkpty(&screen_, nullptr, nullptr, &shape);
  if (child_ < 0) fail("forkpty");
  if (child_ == 0) become(argv.data(), env.data());
}

Terminal::~Terminal() {
  if (child_ > 0) {
    kill(child_, SIGKILL);
    while (waitpid(child_, nullptr, 0) < 0 && errno == EINTR) {
    }
  }
  if (screen_ >= 0) close(screen_);
}

void Terminal::type(const std::string& keys) {
  std::size_t done = 0;
  while (done < keys.size()) {
    const ssize_t n = ::write(screen_, keys.data() + done, keys.size() - done);
    if (n < 0 && errno != EINTR) fail("typing");
    if (n > 0) done += static_cast<std::size_t>(n);
  }
}

bool Terminal::read_until(Clock::time_point end) {
  const auto left = std::chrono::ceil<std::chrono::milliseconds>(end - Clock::now());
  pollfd waits{.fd = screen_, .events = POLLIN, .revents = 0};
  const int ready = left.count() <= 0 ? 0 : poll(&waits, 1, static_cast<int>(left.count()));
  if (ready < 0) return errno == EINTR;
  if (ready == 0) return false;
  std::array<char, 4096> block{};
  const ssize_t n = ::read(screen_, block.data(), block.size());
  if (n < 0 && errno == EINTR) return true;
  if (n <= 0) return false;  // EIO: nobody has the terminal open any more
  for (const char c : std::string_view(block.data(), static_cast<std::size_t>(n))) {
    if (c != '\r') seen_ += c;
  }
  return true;
}

void Terminal::give_up(const std::string& why) const {
  throw std::runtime_error(why + "; seen so far:\n" + seen_);
}

std::string Terminal::expect(const std::string& text, Seconds within) {
  const auto end = Clock::now() + std::chrono::duration_cast<Clock::duration>(within);
  std::size_t found = 0;
  while ((found = seen_.find(text, matched_)) == std::string::npos) {
    if (!read_until(end)) give_up("`" + text + "` did not come");
  }
  const std::string before = seen_.substr(matched_, found - matched_);
  matched_ = found + text.size();
  return before;
}

void Terminal::resize(ScreenSize size) {
  const winsize shape = window(size);
  if (ioctl(screen_, TIOCSWINSZ, &shape) != 0) fail("resize");
}

Ended Terminal::finish(Seconds within) {
  const auto end = Clock::now() + std::chrono::duration_cast<Clock::duration>(within);
  while (read_until(end)) {
  }
  int status = 0;
  pid_t ended = 0;
  while ((ended = waitpid(child_, &status, WNOHANG)) == 0 && Clock::now() < end)
    std::this_thread::sleep_for(std::chrono::milliseconds(2));
  if (ended != child_) give_up("the program did not end");
  child_ = -1;
  return {.exit = WIFEXITED(status) ? WEXITSTATUS(status) : 128 + WTERMSIG(status),
          .out = seen_,
          .err = {}};
}

}  // namespace kartwright
