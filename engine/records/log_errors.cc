#include "engine/records/log_errors.h"

#include <new>

#include <sqlite3.h>

namespace kartwright {

void refuse_log(const std::string& path, Code code, const std::string& message,
                const std::string& help) {
  throw InputError({Diagnostic{.code = code, .file = path, .message = message, .help = help}});
}

void refuse_log(const std::string& path, const SQLite::Exception& error) {
  const std::string words = error.what();
  switch (error.getErrorCode()) {
    case SQLITE_NOTADB:
      refuse_log(path, Code::not_a_log, "this is no log", "a log is made by `kartwright log add`");
    case SQLITE_CORRUPT:
      refuse_log(path, Code::damaged_log, "the log is damaged: " + words,
                 "keep the file as it is, and take a copy or an export of it instead");
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
      refuse_log(path, Code::log_busy, "another program is writing into the log",
                 "nothing was written; try again when it is done");
    case SQLITE_FULL:
    case SQLITE_IOERR:
      refuse_log(path, Code::log_not_written, "the log was not written: " + words,
                 "what it held before it still holds; make room on the disk and try again");
    case SQLITE_READONLY:
    case SQLITE_PERM:
    case SQLITE_CANTOPEN:
      refuse_log(path, Code::log_not_created, "the log cannot be written here: " + words,
                 "check the path, and that you may write into its folder");
    case SQLITE_PROTOCOL:
      refuse_log(path, Code::log_busy, "the log cannot be locked",
                 "nothing was written; is it on a disk that other machines write to?");
    case SQLITE_NOMEM:
      throw std::bad_alloc();
    case SQLITE_ERROR:
      // Our own SQL is tested: a table or a column that it misses was lost by the file.
      if (words.find("no such ") == std::string::npos) throw;
      refuse_log(path, Code::damaged_log, "the log is damaged: " + words,
                 "keep the file as it is, and take a copy or an export of it instead");
    default:
      throw;
  }
}

}  // namespace kartwright
