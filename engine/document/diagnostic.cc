#include "engine/document/diagnostic.h"

#include <algorithm>
#include <numeric>

namespace kartwright {

bool Findings::has_errors() const {
  return std::any_of(found_.begin(), found_.end(),
                     [](const Diagnostic& d) { return d.severity == Severity::error; });
}

void Findings::throw_if_errors() const {
  if (has_errors()) throw InputError(found_);
}

int edit_distance(std::string_view a, std::string_view b) {
  const std::size_t width = b.size() + 1;
  std::vector<int> before(width), last(width), row(width);
  std::iota(last.begin(), last.end(), 0);
  for (std::size_t i = 1; i <= a.size(); ++i) {
    row[0] = static_cast<int>(i);
    for (std::size_t j = 1; j < width; ++j) {
      const int replace = last[j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1);
      row[j] = std::min({replace, last[j] + 1, row[j - 1] + 1});
      const bool swapped = i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1];
      if (swapped) row[j] = std::min(row[j], before[j - 2] + 1);
    }
    std::swap(before, last);
    std::swap(last, row);
  }
  return last.back();
}

std::string nearest_name(std::string_view misspelt, const std::vector<std::string>& known) {
  const int allowed = std::max<int>(1, static_cast<int>(misspelt.size()) / 3);
  std::string best;
  int best_distance = allowed + 1;
  for (const std::string& name : known) {
    const int distance = edit_distance(misspelt, name);
    if (distance >= static_cast<int>(misspelt.size()) && distance > 0) continue;  // all is changed
    if (distance < best_distance || (distance == best_distance && !best.empty() && name < best)) {
      best = name;
      best_distance = distance;
    }
  }
  return best;
}

std::string suggestion(std::string_view misspelt, const std::vector<std::string>& known) {
  constexpr std::size_t kFew = 8;
  const std::string near = nearest_name(misspelt, known);
  if (!near.empty()) return "did you mean `" + near + "`?";
  if (known.empty() || known.size() > kFew) return {};
  std::string list = "one of ";
  for (const std::string& name : known) list += (&name == known.data() ? "" : ", ") + name;
  return list;
}

}  // namespace kartwright
