#include "tests/mutants/rule_report.h"

#include <algorithm>
#include <array>

#include <fmt/format.h>

#include "engine/document/fields.h"

namespace kartwright {
namespace {

using Row = std::array<int, kJurors>;

Row counted(const std::vector<JudgedMutant>& judged, auto is) {
  Row row{};
  for (const JudgedMutant& each : judged) {
    if (is(*each.mutant)) ++row.at(static_cast<std::size_t>(each.noticed_by));
  }
  return row;
}

int sum_of(const Row& row) {
  int sum = 0;
  for (const int each : row) sum += each;
  return sum;
}

std::string line_of(std::string_view name, const Row& row) {
  const int all = sum_of(row);
  if (all == 0) return "";
  std::string line = fmt::format("{:<12}{:>7}{:>8}{:>7.1f} %", name, all, all - row[0],
                                 100.0 * (all - row[0]) / all);
  for (std::size_t i = 1; i < kJurors; ++i) line += fmt::format("{:>9}", row.at(i));
  return line + "\n";
}

std::string heading(std::string_view first) {
  std::string line = fmt::format("{:<12}{:>7}{:>8}{:>9}", first, "number", "noticed", "share");
  for (std::size_t i = 1; i < kJurors; ++i)
    line += fmt::format("{:>9}", name_of(static_cast<Juror>(i)));
  return line + "\n";
}

const Justified* reason_for(const std::string& mutant, const std::vector<Justified>& justified) {
  const auto found = std::find_if(justified.begin(), justified.end(),
                                  [&](const Justified& each) { return each.mutant == mutant; });
  return found == justified.end() ? nullptr : &*found;
}

/// True of the slips that must not pass without a reason.
bool must_be_noticed(RuleSlip slip) {
  return slip == RuleSlip::removed || slip == RuleSlip::forgotten || slip == RuleSlip::flipped;
}

std::vector<std::string> sorts_of(const std::vector<JudgedMutant>& judged) {
  std::vector<std::string> sorts;
  for (const JudgedMutant& each : judged) {
    if (std::count(sorts.begin(), sorts.end(), each.mutant->sort) == 0)
      sorts.push_back(each.mutant->sort);
  }
  std::sort(sorts.begin(), sorts.end());
  return sorts;
}

}  // namespace

std::vector<Justified> read_justified(const Document& document) {
  std::vector<Justified> out;
  Findings findings;
  Fields file(document, document.root, findings, "a file of reasons");
  if (const Node* const list = file.required("justified")) {
    for (const Node& item : list->items) {
      Fields fields(document, item, findings, "a reason");
      out.push_back({fields.text("mutant"), fields.text("because")});
      fields.finish();
    }
  }
  file.finish();
  findings.throw_if_errors();
  return out;
}

std::string rule_report(const std::vector<JudgedMutant>& judged,
                        const std::vector<Justified>& justified) {
  std::string out = heading("slip");
  for (std::size_t i = 0; i < kSlips; ++i) {
    const auto slip = static_cast<RuleSlip>(i);
    out += line_of(name_of(slip), counted(judged, [&](auto& m) { return m.slip == slip; }));
  }
  out += line_of("all", counted(judged, [](auto&) { return true; })) + "\n" + heading("sort");
  for (const std::string& sort : sorts_of(judged))
    out += line_of(sort, counted(judged, [&](auto& m) { return m.sort == sort; }));
  out += "\nnoticed by nobody:\n";
  for (const JudgedMutant& each : judged) {
    if (each.noticed_by != Juror::nobody) continue;
    const Justified* const reason = reason_for(each.mutant->text(), justified);
    out += fmt::format("  {} ({}){}\n", each.mutant->text(), each.mutant->sort,
                       reason == nullptr ? "" : ": " + reason->because);
  }
  return out;
}

std::vector<std::string> complaints_about(const std::vector<JudgedMutant>& judged,
                                          const std::vector<Justified>& justified) {
  std::vector<std::string> out;
  for (const JudgedMutant& each : judged) {
    const bool passed = each.noticed_by == Juror::nobody;
    const std::string text = each.mutant->text();
    const bool excused = reason_for(text, justified) != nullptr;
    if (passed && !excused && must_be_noticed(each.mutant->slip))
      out.push_back(fmt::format("nothing notices it: {}", text));
    if (!passed && excused)
      out.push_back(
          fmt::format("justified, but a {} notices it: {}", name_of(each.noticed_by), text));
  }
  for (const Justified& reason : justified) {
    const bool known = std::any_of(judged.begin(), judged.end(), [&](const JudgedMutant& each) {
      return each.mutant->text() == reason.mutant;
    });
    if (!known) out.push_back(fmt::format("justified, but no such mutant: {}", reason.mutant));
  }
  return out;
}

}  // namespace kartwright
