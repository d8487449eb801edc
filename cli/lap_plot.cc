#include "cli/lap_plot.h"

#include <algorithm>
#include <cmath>
#include <set>

#include "engine/records/lap_time.h"

namespace kartwright::cli {
namespace {

constexpr std::size_t kRows = 10;
constexpr std::size_t kLabelEvery = 3;
constexpr double kLeastRange = 0.01;  // seconds

bool is_plain(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9');
}

/// Rows of characters; `.` stands for the fit.
class Canvas {
 public:
  Canvas(const LapComparison& compared, std::size_t width)
      : first_(compared.laps.front().number),
        last_(compared.laps.back().number),
        most_(compared.most),
        range_(std::max(compared.most - compared.least, kLeastRange)),
        rows_(kRows, std::string(width, ' ')) {}

  std::size_t column_of(int number) const {
    const double share = last_ > first_ ? double(number - first_) / (last_ - first_) : 0.0;
    return static_cast<std::size_t>(std::lround(share * double(rows_[0].size() - 1)));
  }

  /// Row of a time; below zero and beyond the last where it is off the scale.
  long row_of(double seconds) const {
    return std::lround((most_ - seconds) / range_ * double(kRows - 1));
  }

  double seconds_of(std::size_t row) const {
    return most_ - range_ * double(row) / double(kRows - 1);
  }

  void line(const FittedLap& from, const FittedLap& to) {
    const std::size_t begin = column_of(from.number);
    const std::size_t end = column_of(to.number);
    for (std::size_t at = begin; at <= end; ++at) {
      const double share = end > begin ? double(at - begin) / double(end - begin) : 0.0;
      put(at, row_of(from.fitted + share * (to.fitted - from.fitted)), '.');
    }
  }

  void lap(const FittedLap& lap, char letter) {
    const long row = row_of(lap.seconds);
    const bool above = row < 0;
    const bool off = above || row >= long(kRows);
    const std::size_t at = column_of(lap.number);
    char& cell = rows_[std::size_t(std::clamp(row, 0L, long(kRows) - 1))][at];
    const char mark = off ? (above ? '^' : 'v') : letter;
    cell = cell == ' ' || cell == '.' || cell == mark ? mark : '*';
  }

  const std::vector<std::string>& rows() const { return rows_; }

 private:
  void put(std::size_t at, long row, char mark) {
    if (row >= 0 && row < long(kRows)) rows_[std::size_t(row)][at] = mark;
  }

  int first_, last_;
  double most_, range_;
  std::vector<std::string> rows_;
};

std::string drawn(const std::string& row, bool unicode) {
  std::string out;
  for (const char c : row) {
    if (c == '.' && unicode) {
      out += "·";
    } else {
      out += c;
    }
  }
  return out;
}

/// The first and the last lap number under the ends of the plot.
std::string lap_axis(const LapComparison& compared, std::size_t margin, std::size_t width) {
  const std::string first = std::to_string(compared.laps.front().number);
  const std::string last = std::to_string(compared.laps.back().number);
  const std::size_t room = width - std::min(width, first.size());
  const std::string middle = room > last.size() + 4 ? "lap" : "";
  const std::size_t before = (room + middle.size()) / 2;
  return std::string(margin, ' ') + first + right(middle, before) + right(last, room - before);
}

}  // namespace

std::string letters_of(const std::vector<DrivenGroup>& groups) {
  std::string letters;
  for (const DrivenGroup& group : groups) letters += group.name.empty() ? ' ' : group.name.front();
  const std::set<char> different(letters.begin(), letters.end());
  const auto plain = [](char c) { return is_plain(c) && c != 'v'; };  // `v` marks what is below
  if (different.size() == groups.size() && std::all_of(letters.begin(), letters.end(), plain))
    return letters;
  for (std::size_t i = 0; i < letters.size(); ++i) letters[i] = static_cast<char>('A' + i);
  return letters;
}

std::vector<std::string> lap_plot(const LapComparison& compared, const std::string& letters,
                                  std::size_t width, bool unicode) {
  const std::size_t margin =
      std::max(print_lap_time(compared.most).size(), print_lap_time(compared.least).size()) + 1;
  Canvas canvas(compared, width - margin);
  const std::vector<FittedLap>& laps = compared.laps;
  for (std::size_t i = 0; i < laps.size(); ++i) {
    const bool goes_on = i + 1 < laps.size() && laps[i + 1].group == laps[i].group;
    canvas.line(laps[i], goes_on ? laps[i + 1] : laps[i]);
  }
  for (const FittedLap& lap : laps) canvas.lap(lap, letters[lap.group]);
  std::vector<std::string> rows;
  for (std::size_t i = 0; i < canvas.rows().size(); ++i) {
    const std::string label = i % kLabelEvery == 0 ? print_lap_time(canvas.seconds_of(i)) : "";
    rows.push_back(right(label, margin - 1) + " " + drawn(canvas.rows()[i], unicode));
  }
  rows.push_back(lap_axis(compared, margin, width - margin));
  return rows;
}

}  // namespace kartwright::cli
