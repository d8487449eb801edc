#include "tests/support/process.h"

#include <array>
#include <cerrno>
#include <csignal>
#include <cstdio>
#include <cstring>
#include <memory>
#include <system_error>
#include <thread>

#include <fcntl.h>
#include <spawn.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

namespace kartwright {
namespace {

void check(int error, const char* what) {
  if (error != 0) throw std::system_error(error, std::generic_category(), what);
}

/// A file without a name, gone when closed.
class Scratch {
 public:
  Scratch() : file_(std::tmpfile(), &std::fclose) { check(file_ ? 0 : errno, "tmpfile"); }
  int descriptor() const { return fileno(file_.get()); }

  void fill(const std::string& text) {
    std::fwrite(text.data(), 1, text.size(), file_.get());
    std::rewind(file_.get());
  }

  std::string text() {
    std::rewind(file_.get());
    std::string all;
    std::array<char, 4096> block{};
    for (std::size_t n = 0; (n = std::fread(block.data(), 1, block.size(), file_.get())) > 0;) {
      all.append(block.data(), n);
    }
    return all;
  }

 private:
  std::unique_ptr<std::FILE, int (*)(std::FILE*)> file_;
};

/// The descriptors that the program starts with.
class Descriptors {
 public:
  Descriptors() { check(posix_spawn_file_actions_init(&actions_), "file actions"); }
  ~Descriptors() { posix_spawn_file_actions_destroy(&actions_); }
  Descriptors(const Descriptors&) = delete;
  Descriptors& operator=(const Descriptors&) = delete;

  void put(int descriptor, int as) {
    check(posix_spawn_file_actions_adddup2(&actions_, descriptor, as), "dup2");
  }
  void send_stdout(Stdout where, int kept) {
    switch (where) {
      case Stdout::kept:
        put(kept, STDOUT_FILENO);
        return;
      case Stdout::closed:
        check(posix_spawn_file_actions_addclose(&actions_, STDOUT_FILENO), "close");
        return;
      case Stdout::full_disk:
        check(posix_spawn_file_actions_addopen(&actions_, STDOUT_FILENO, "/dev/full", O_WRONLY, 0),
              "open");
        return;
    }
  }
  const posix_spawn_file_actions_t* get() const { return &actions_; }

 private:
  posix_spawn_file_actions_t actions_ = {};
};

bool decides_how_it_looks(const std::string& variable) {
  const std::string name = variable.substr(0, variable.find('='));
  return name == "LANG" || name == "LANGUAGE" || name.starts_with("LC_") || name == "TZ" ||
         name == "COLUMNS" || name == "NO_COLOR" || name == "TERM";
}

std::vector<char*> pointers(std::vector<std::string>& texts) {
  std::vector<char*> all;
  for (std::string& text : texts) all.push_back(text.data());
  all.push_back(nullptr);
  return all;
}

}  // namespace

std::vector<std::string> surroundings_of(const Command& command) {
  const std::map<std::string, std::string>& more = command.env;
  std::vector<std::string> all;
  for (char** each = environ; *each != nullptr; ++each) {
    const std::string variable = *each;
    const bool replaced = more.contains(variable.substr(0, variable.find('=')));
    if (!replaced && !decides_how_it_looks(variable)) all.push_back(variable);
  }
  for (const auto& [name, value] : more) {
    std::string variable = name;
    variable += '=';
    variable += value;
    all.push_back(std::move(variable));
  }
  return all;
}

Ended run(const Command& command) {
  Scratch in, out, err;
  in.fill(command.input);
  Descriptors descriptors;
  descriptors.put(in.descriptor(), STDIN_FILENO);
  descriptors.put(err.descriptor(), STDERR_FILENO);
  descriptors.send_stdout(command.out, out.descriptor());

  std::vector<std::string> argv = command.argv, env = surroundings_of(command);
  pid_t child = 0;
  check(posix_spawn(&child, argv.at(0).c_str(), descriptors.get(), nullptr, pointers(argv).data(),
                    pointers(env).data()),
        argv.at(0).c_str());
  if (command.killed_after) {
    std::this_thread::sleep_for(*command.killed_after);
    kill(child, SIGKILL);
  }
  int status = 0;
  rusage usage{};
  while (wait4(child, &status, 0, &usage) < 0) check(errno == EINTR ? 0 : errno, "wait4");
  return {.exit = WIFEXITED(status) ? WEXITSTATUS(status) : 128 + WTERMSIG(status),
          .out = out.text(),
          .err = err.text(),
          .peak_kib = usage.ru_maxrss};
}

}  // namespace kartwright
