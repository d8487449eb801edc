#include "cli/loose_options.h"

#include <algorithm>

namespace kartwright::cli {
namespace {

bool among(const std::vector<std::string>& all, const std::string& name) {
  return std::find(all.begin(), all.end(), name) != all.end();
}

bool is_long_option(const std::string& word) { return word.starts_with("--") && word.size() > 2; }

}  // namespace

LooseOptions take_loose_options(const std::vector<std::string>& words,
                                const std::vector<std::string>& flags,
                                const std::vector<std::string>& options) {
  LooseOptions out;
  for (std::size_t i = 0; i < words.size(); ++i) {
    const std::string& word = words[i];
    const std::size_t equals = word.find('=');
    const std::string name = word.substr(0, equals);
    if (!is_long_option(word) || among(flags, name)) {
      out.rest.push_back(word);
      continue;
    }
    const bool follows = i + 1 < words.size() && !is_long_option(words[i + 1]);
    const bool declared = among(options, name);
    if (declared) out.rest.push_back(word);
    if (declared && equals == std::string::npos && i + 1 < words.size()) {
      out.rest.push_back(words[++i]);
    }
    if (declared) continue;
    if (equals != std::string::npos) {
      out.taken.emplace_back(name.substr(2), word.substr(equals + 1));
    } else if (follows) {
      out.taken.emplace_back(name.substr(2), words[++i]);
    } else if (out.without_value.empty()) {
      out.without_value = name;
    }
  }
  return out;
}

}  // namespace kartwright::cli
