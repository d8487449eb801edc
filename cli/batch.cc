#include "cli/batch.h"

#include <atomic>
#include <cstdio>
#include <exception>
#include <memory>
#include <span>
#include <string>
#include <thread>
#include <vector>

#include "cli/batch_desk.h"

namespace kartwright::cli {
namespace {

/// Lines taken in at a time: enough to keep two threads busy, few enough to hold.
constexpr std::size_t kChunk = 32;

class File {
 public:
  explicit File(const std::string& path)
      : path_(path == "-" ? "standard input" : path),
        file_(path == "-" ? stdin : std::fopen(path.c_str(), "rb")) {
    if (file_ == nullptr) cannot_read("the file cannot be read", "check the path");
  }
  ~File() {
    if (file_ != stdin) std::fclose(file_);
  }
  File(const File&) = delete;
  File& operator=(const File&) = delete;

  /// Takes the next line in, without its end, and forgets what was known of the line before in its
  /// place but for the room that it had; false after the last. The rest of one that is too long is
  /// read and dropped.
  bool next(BatchLine& line) {
    int c = getc_unlocked(file_);
    if (c == EOF) {
      if (std::ferror(file_) != 0) cannot_read("the file cannot be read to its end");
      return false;
    }
    line.text.clear();
    line.number = ++number_;
    line.too_long = line.failed = false;
    std::size_t dropped = 0;
    for (; c != EOF && c != '\n'; c = getc_unlocked(file_)) {
      if (line.text.size() < kLongestLine) {
        line.text += static_cast<char>(c);
      } else if (line.too_long = true; ++dropped == kMostDropped) {
        refuse("a line does not end", number_);
      }
    }
    return true;
  }

 private:
  [[noreturn]] void cannot_read(const char* why, const char* help = "") const {
    throw InputError(
        {Diagnostic{.code = Code::cannot_read, .file = path_, .message = why, .help = help}});
  }

  [[noreturn]] void refuse(const char* why, int line) const {
    throw InputError({Diagnostic{.code = Code::too_large,
                                 .file = path_,
                                 .span = {.line = line, .column = 1},
                                 .message = why,
                                 .help = "one debrief a line; is this a text file?"}});
  }

  static constexpr std::size_t kMostDropped = std::size_t{64} << 20U;  ///< bytes of one line
  std::string path_;
  std::FILE* file_;
  int number_ = 0;
};

/// Answers the lines of a chunk, each desk taking the next one that is free.
void answer_all(std::span<BatchLine> lines, std::vector<std::unique_ptr<BatchDesk>>& desks) {
  std::atomic<std::size_t> next = 0;
  const auto work = [&](BatchDesk& desk) {
    for (std::size_t i = next++; i < lines.size(); i = next++) desk.answer(lines[i]);
  };
  std::vector<std::jthread> others;
  for (std::size_t d = 1; d < desks.size(); ++d) others.emplace_back([&, d] { work(*desks[d]); });
  work(*desks.front());
}

}  // namespace

int run_batch(const AdviseOptions& options, const Pack& pack) {
  File file(options.batch);
  std::vector<std::unique_ptr<BatchDesk>> desks;
  for (int d = 0; d < options.threads; ++d)
    desks.push_back(std::make_unique<BatchDesk>(options, pack));
  int exit = kSuccess;
  std::vector<BatchLine> all(kChunk);
  std::size_t taken = 0;
  do {
    taken = 0;
    while (taken < all.size() && file.next(all[taken])) ++taken;
    const std::span<BatchLine> lines(all.data(), taken);
    answer_all(lines, desks);
    for (const BatchLine& line : lines) {
      if (line.fault) std::rethrow_exception(line.fault);
      std::fwrite(line.answer.data(), 1, line.answer.size(), stdout);
      if (line.failed) exit = kBadData;
    }
  } while (taken == all.size() && std::ferror(stdout) == 0);
  return exit;
}

}  // namespace kartwright::cli
