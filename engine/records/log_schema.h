// log_schema.h - the tables of a log, and how an older log becomes one of today.

#pragma once

#include <span>

namespace SQLite {
class Database;
}

namespace kartwright {

/// What stands in the header of a log, so that no other database is taken for one.
inline constexpr int kLogMark = 0x6B777267;

/// migrations()[n] takes a log of version n, as its `user_version` says, to version n + 1. A log of
/// version 0 is empty. Steps are never changed once they were released.
std::span<const char* const> migrations();

/// Takes a database through the steps that it has not been through, all of them in one transaction,
/// and marks it as a log of the version that it then is. One that has been through as many or more
/// is not touched. Throws SQLite::Exception where a step cannot be done; then nothing has changed.
void bring_up(SQLite::Database& db, std::span<const char* const> steps);

/// The version this program writes.
inline int log_version() { return static_cast<int>(migrations().size()); }

}  // namespace kartwright
