// rule_words.h - the words behind options that are not the program's but the rules'.

#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "engine/knowledge/pack.h"

namespace kartwright::cli {

/// The words of a value that option_values.h names; none where it names no such value.
std::vector<std::string> rule_words(std::string_view value, const Pack& pack);

}  // namespace kartwright::cli
