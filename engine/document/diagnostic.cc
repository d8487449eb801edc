#include "engine/document/diagnostic.h"

#include <algorithm>
#include <numeric>

#include "engine/document/utf8.h"

namespace kartwright {

void show_source(Diagnostic& diagnostic, std::string_view line) {
  constexpr std::size_t kBefore = 200, kBehind = 200;  // characters around the column
  const auto column = static_cast<std::size_t>(std::max(1, diagnostic.span.column));
  const std::size_t skipped = column > kBefore ? column - 1 - kBefore : 0;
  const std::size_t from = characters_behind(line, 0, skipped);
  diagnostic.source = line.substr(from, characters_behind(line, from, kBefore + kBehind) - from);
  diagnostic.source_from = static_cast<int>(skipped) + 1;
}

void Findings::add(Diagnostic diagnostic) {
  std::size_t& count = diagnostic.severity == Severity::error ? errors_ : warnings_;
  if (count == kMost) return;
  ++count;
  found_.push_back(std::move(diagnostic));
  if (errors_ == kMost) throw InputError(found_);
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

namespace {

/// The only known name that begins so, "rubber"; empty where none or several do.
std::string begun_by(std::string_view start, const std::vector<std::string>& known) {
  constexpr std::size_t kEnough = 3;
  const auto begins = [&](const std::string& name) { return name.starts_with(start); };
  if (start.size() < kEnough || std::count_if(known.begin(), known.end(), begins) != 1) return {};
  return *std::find_if(known.begin(), known.end(), begins);
}

}  // namespace

std::string nearest_name(std::string_view misspelt, const std::vector<std::string>& known) {
  constexpr std::size_t kLongest = 64;  // bytes; no name of ours is longer
  if (misspelt.size() > kLongest) return {};
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
  return best.empty() ? begun_by(misspelt, known) : best;
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
