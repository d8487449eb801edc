// tell.h - messages on standard error. Where that is closed or full nobody can be told, and that
// must not end the program, nor change its exit code.

#pragma once

#include <cstdio>
#include <string>
#include <utility>

#include <fmt/format.h>

namespace kartwright::cli {

/// A message as fmt::format makes it, whole in one write. What cannot be written is dropped.
template <typename... Args>
void tell(fmt::format_string<Args...> format, Args&&... args) {
  const std::string text = fmt::format(format, std::forward<Args>(args)...);
  std::fwrite(text.data(), 1, text.size(), stderr);
}

}  // namespace kartwright::cli
