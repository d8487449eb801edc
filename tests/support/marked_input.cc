#include "tests/support/marked_input.h"

#include <algorithm>
#include <ostream>
#include <stdexcept>

namespace kartwright {
namespace {

std::string key_of(const std::string& line) {
  std::string key = line.substr(0, line.find(':'));
  std::erase(key, '^');
  return key;
}

}  // namespace

WrongInput MarkedInput::wrong() const {
  const std::size_t at = text.find('^');
  if (at == std::string::npos) throw std::invalid_argument(text + " has no mark");
  const auto line = std::count(text.begin(), text.begin() + static_cast<std::ptrdiff_t>(at), '\n');
  const std::size_t start = at == 0 ? std::string::npos : text.rfind('\n', at - 1);
  const std::size_t column = at - (start == std::string::npos ? 0 : start + 1);
  std::string plain = text;
  plain.erase(at, 1);
  return {name,    plain, code, static_cast<int>(line) + 1, static_cast<int>(column) + 1,
          message, help};
}

// NOLINTNEXTLINE(readability-identifier-naming): the name is GoogleTest's
void PrintTo(const MarkedInput& marked, std::ostream* out) { *out << marked.name; }

std::string list_of_one(const std::string& list, const std::vector<std::string>& lines,
                        const std::string& line, const std::string& left_out) {
  std::string text = list + ":\n  - " + line + "\n";
  for (const std::string& each : lines) {
    if (key_of(each) != key_of(line) && key_of(each) != left_out) text += "    " + each + "\n";
  }
  return text;
}

}  // namespace kartwright
