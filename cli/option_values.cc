#include "cli/option_values.h"

#include <algorithm>

namespace kartwright::cli {

std::vector<std::string> words_in(const std::string& type) {
  std::vector<std::string> words;
  if (type.find('|') == std::string::npos) return words;
  for (std::size_t at = 0; at <= type.size();) {
    const std::size_t end = std::min(type.find('|', at), type.size());
    words.push_back(type.substr(at, end - at));
    at = end + 1;
  }
  return words;
}

}  // namespace kartwright::cli
