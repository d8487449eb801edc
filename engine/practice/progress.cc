#include "engine/practice/progress.h"

#include <algorithm>
#include <cmath>
#include <map>

namespace kartwright {
namespace {

constexpr double kEndRight = 70.0;
constexpr double kAnswerRight = 80.0;
constexpr int kEnough = 3;  ///< drills of a level

/// A choice without its size.
std::string short_name(const DrillChoice& choice, const Marking& marking) {
  if (choice.kind != DrillChoice::Kind::change) return marking.words_of(choice);
  return marking.adjustment_of(choice).phrases.at(marking.option_of(choice).direction);
}

std::optional<Mistake> mistake_in(const DrillChoice& choice, const Marking& marking) {
  if (marking.mark_of(choice) >= kAnswerRight) return std::nullopt;
  const DrillChoice& best = marking.best();
  const std::string said = short_name(choice, marking);
  const std::string right = short_name(best, marking);
  if (said != right) return Mistake{said, right};
  const double far = std::abs(marking.option_of(choice).steps);
  const bool more = far > std::abs(marking.option_of(best).steps);
  return Mistake{more ? "too much" : "too little", "enough of " + right};
}

std::vector<double> marks_at(const std::vector<DrillRecord>& records, const std::string& level) {
  std::vector<double> marks;
  for (const DrillRecord& each : records) {
    if (each.level == level) marks.push_back(each.mark);
  }
  return marks;
}

double mean_of_last(const std::vector<double>& marks, std::size_t n) {
  double sum = 0.0;
  const std::size_t from = marks.size() > n ? marks.size() - n : 0;
  for (std::size_t i = from; i < marks.size(); ++i) sum += marks[i];
  return marks.empty() ? 0.0 : sum / static_cast<double>(marks.size() - from);
}

void add_level(const std::vector<DrillRecord>& records, const std::string& id,
               const std::string& label, Progress& progress) {
  const std::vector<double> marks = marks_at(records, id);
  if (marks.empty()) return;
  progress.levels.push_back({.id = id,
                             .label = label,
                             .drills = static_cast<int>(marks.size()),
                             .mean = mean_of_last(marks, marks.size()),
                             .latest = marks.back()});
}

std::vector<std::pair<Mistake, int>> counted(const std::vector<DrillRecord>& records) {
  std::map<std::pair<std::string, std::string>, int> counts;
  for (const DrillRecord& record : records) {
    for (const Mistake& each : record.mistakes) ++counts[{each.said, each.right}];
  }
  std::vector<std::pair<Mistake, int>> out;
  for (const auto& [names, count] : counts) out.push_back({{names.first, names.second}, count});
  std::stable_sort(out.begin(), out.end(),
                   [](const auto& a, const auto& b) { return a.second > b.second; });
  return out;
}

}  // namespace

DrillRecord record_of(const Marking& marking, KartEnd end, const DrillChoice& choice, int refused) {
  const EndMarks ends = mark_ends(marking);
  DrillRecord out{.seed = marking.task().seed,
                  .level = marking.task().level,
                  .task = marking.task().id,
                  .end = std::string(name_of(end)),
                  .end_right = std::string(name_of(ends.right)),
                  .end_mark = ends.of(end),
                  .choice = marking.words_of(choice),
                  .best = marking.words_of(marking.best()),
                  .mark = marking.mark_of(choice),
                  .refused = refused};
  if (out.end_mark < kEndRight) out.mistakes.push_back({out.end, out.end_right});
  if (auto mistake = mistake_in(choice, marking)) out.mistakes.push_back(std::move(*mistake));
  return out;
}

Progress progress_of(const std::vector<DrillRecord>& records, const Pack& pack) {
  Progress out{.mistakes = counted(records), .drills = static_cast<int>(records.size())};
  for (const DrillRecord& each : records) out.refused += each.refused;
  for (const DrillLevel& level : pack.drills.levels) {
    add_level(records, level.id, level.label, out);
    const std::vector<double> marks = marks_at(records, level.id);
    const bool done = marks.size() >= kEnough && mean_of_last(marks, kEnough) >= kAnswerRight;
    if (!done && out.next_level.empty()) out.next_level = level.id;
  }
  add_level(records, "", "files of your own", out);
  if (out.next_level.empty() && !pack.drills.levels.empty())
    out.next_level = pack.drills.levels.back().id;
  return out;
}

std::uint64_t next_seed(const std::vector<DrillRecord>& records) {
  return records.empty() ? 1 : records.back().seed + 1;
}

}  // namespace kartwright
