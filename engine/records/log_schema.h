// log_schema.h - the tables of a log, and how an older log becomes one of today.

#pragma once

#include <span>

namespace kartwright {

/// What stands in the header of a log, so that no other database is taken for one.
inline constexpr int kLogMark = 0x6B777267;

/// migrations()[n] takes a log of version n, as its `user_version` says, to version n + 1. A log of
/// version 0 is empty. Steps are never changed once they were released.
std::span<const char* const> migrations();

/// The version this program writes.
inline int log_version() { return static_cast<int>(migrations().size()); }

}  // namespace kartwright
