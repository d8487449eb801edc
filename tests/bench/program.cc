#include "tests/bench/program.h"

#include <algorithm>
#include <chrono>
#include <fstream>
#include <thread>

#include <fcntl.h>
#include <spawn.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

extern char** environ;

namespace kartwright {
namespace {

double seconds(const timeval& time) {
  return static_cast<double>(time.tv_sec) + 1e-6 * static_cast<double>(time.tv_usec);
}

/// Nothing where it cannot be started.
std::optional<pid_t> start(std::vector<std::string> arguments, const std::string& program) {
  arguments.insert(arguments.begin(), program);
  std::vector<char*> argv;
  for (std::string& argument : arguments) argv.push_back(argument.data());
  argv.push_back(nullptr);
  posix_spawn_file_actions_t actions;
  posix_spawn_file_actions_init(&actions);
  posix_spawn_file_actions_addopen(&actions, STDOUT_FILENO, "/dev/null", O_WRONLY, 0);
  pid_t child = 0;
  const int failed = posix_spawn(&child, argv[0], &actions, nullptr, argv.data(), environ);
  posix_spawn_file_actions_destroy(&actions);
  return failed == 0 ? std::optional(child) : std::nullopt;
}

std::optional<Taken> ended(int status, const rusage& usage) {
  if (!WIFEXITED(status) || WEXITSTATUS(status) != 0) return std::nullopt;
  return Taken{usage.ru_maxrss, seconds(usage.ru_utime) + seconds(usage.ru_stime)};
}

/// Most resident memory so far; 0 where the process is no more.
long high_water_kib(pid_t process) {
  std::ifstream status("/proc/" + std::to_string(process) + "/status");
  for (std::string word; status >> word;) {
    long kib = 0;
    if (word == "VmHWM:" && status >> kib) return kib;
  }
  return 0;
}

}  // namespace

std::optional<Taken> run_program(std::vector<std::string> arguments, const std::string& program) {
  const std::optional<pid_t> child = start(std::move(arguments), program);
  int status = 0;
  rusage usage{};
  if (!child || wait4(*child, &status, 0, &usage) != *child) return std::nullopt;
  return ended(status, usage);
}

std::optional<Taken> watch_program(std::vector<std::string> arguments) {
  constexpr std::chrono::milliseconds kLookAgain(5);
  const std::optional<pid_t> child = start(std::move(arguments), KARTWRIGHT_BINARY);
  if (!child) return std::nullopt;
  int status = 0;
  rusage usage{};
  long peak = 0;
  for (pid_t gone = 0; gone == 0; gone = wait4(*child, &status, WNOHANG, &usage)) {
    peak = std::max(peak, high_water_kib(*child));
    std::this_thread::sleep_for(kLookAgain);
  }
  std::optional<Taken> taken = ended(status, usage);
  if (taken) taken->peak_kib = peak;
  return taken;
}

}  // namespace kartwright
