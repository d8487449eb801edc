#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "engine/inference/mend.h"
#include "engine/inference/near_miss.h"

namespace kartwright {
namespace {

std::string either(const std::vector<std::string>& texts) {
  std::string out;
  for (const std::string& text : texts) out += (out.empty() ? "" : " or ") + text;
  return out;
}

std::string where(Phase phase) {
  if (phase == Phase::any) return "";
  return fmt::format("@{}", name_of(phase));
}

/// "a, needs b" where it is wanted, "a, must not be b" where it is not.
std::string wish(const Lack& lack, const std::string& what) {
  return (lack.asked.wanted ? "needs " : "must not be ") + what;
}

std::string off_by_text(const std::string& amount) { return " (off by " + amount + ")"; }

std::string not_fitted(const std::string& adjustment) {
  return "this kart has no " + adjustment + ", needs one";
}

/// It is as it should be, and would not stay so with the other changes.
bool held(const FactTest& test, const Lack& lack) {
  const bool is = std::any_of(lack.values.begin(), lack.values.end(), [&](const auto& value) {
    return std::find(test.values.begin(), test.values.end(), value) != test.values.end();
  });
  return is == lack.asked.wanted && std::holds_alternative<FactChange>(lack.change);
}

std::string words(const FactTest& test, const Lack& lack, const Pack& /*pack*/, System /*units*/) {
  if (const auto* setting = std::get_if<SettingChange>(&lack.change)) {
    if (!lack.seen) return not_fitted(setting->adjustment);
  }
  if (held(test, lack)) {
    const auto& to = std::get<FactChange>(lack.change).to;
    return test.fact + " is so by the reports alone, must be stated" + (to ? " as " + *to : "");
  }
  const std::string seen = lack.values.empty() ? ": nobody said" : " is " + either(lack.values);
  return test.fact + seen + ", " + wish(lack, either(test.values));
}

std::string severity_text(const Report& report) {
  if (report.denied()) return "denied";
  return fmt::format("severity {}", report.severity);
}

/// The report that a lack changes, or nullptr.
const Report* changed_one(const Lack& lack) {
  const auto& change = std::get<ReportChange>(lack.change);
  const auto found = std::find_if(lack.reports.begin(), lack.reports.end(),
                                  [&](const Report& r) { return r.phase == change.phase; });
  return found == lack.reports.end() ? nullptr : &*found;
}

std::string elsewhere(const Lack& lack) {
  std::vector<std::string> phases;
  for (const Report& report : lack.reports) {
    phases.emplace_back(report.phase == Phase::any ? "no phase" : name_of(report.phase));
  }
  if (phases.empty()) return "is not there";
  return "is not there (reported at " + either(phases) + ")";
}

std::string words(const ReportTest& test, const Lack& lack, const Pack& /*pack*/,
                  System /*units*/) {
  const auto& change = std::get<ReportChange>(lack.change);
  const Report* report = changed_one(lack);
  const std::string name = "report " + test.symptom + where(test.phase.value_or(change.phase));
  const std::string off = lack.off_by ? fmt::format(" (off by {:g})", *lack.off_by) : "";
  const std::string seen = report == nullptr ? elsewhere(lack) : "is " + severity_text(*report);
  if (!lack.asked.wanted) {
    if (test.at_least == 0) return name + " is denied, must not be";
    if (test.at_least == 1) return name + " is reported, must not be";
    return fmt::format("{} {}, must be below {}{}", name, seen, test.at_least, off);
  }
  if (test.at_least == 0) return name + " " + seen + ", needs to be denied";
  const bool any = test.at_least == 1;
  return fmt::format("{} {}, needs {}{}", name, seen,
                     any ? "to be there" : fmt::format("severity {} or more", test.at_least), off);
}

std::string words(const ReadTest& test, const Lack& lack, const Pack& /*pack*/, System /*units*/) {
  if (lack.reports.empty()) return "report " + test.symptom + " is not there, needs to be";
  return "report " + test.symptom + where(lack.reports.front().phase) +
         " reads nothing there, needs " +
         (std::get<ReportChange>(lack.change).phase == Phase::any
              ? "another phase or none"
              : std::string(name_of(std::get<ReportChange>(lack.change).phase)));
}

std::string words(const FittedTest& test, const Lack& /*lack*/, const Pack& /*pack*/,
                  System /*units*/) {
  return not_fitted(test.adjustment);
}

std::string words(const SettingTest& test, const Lack& lack, const Pack& pack, System units) {
  if (!lack.seen) return not_fitted(test.adjustment);
  const Adjustment& adjustment = *pack.adjustment(test.adjustment);
  if (!test.within) {
    return test.adjustment + " is " + either(lack.values) + ", " +
           wish(lack, either(test.positions));
  }
  const std::string now =
      test.adjustment + " " + print_quantity(*lack.seen, adjustment.kind, units);
  const double off = lack.off_by.value_or(0.0);
  const double from_end = *test.within + (lack.asked.wanted ? off : -off);
  const auto print = [&](double si) { return print_quantity(si, adjustment.kind, units); };
  std::string off_text;
  if (off > 0.0) off_text = off_by_text(print(off));
  return fmt::format("{} is {} from its {} end, needs {} {}{}", now, print(from_end), test.of_end,
                     lack.asked.wanted ? "within" : "more than", print(*test.within), off_text);
}

std::string words(const MeasureTest& test, const Lack& lack, const Pack& pack, System units) {
  const MeasureDef* def = pack.measure(test.measure);
  const Kind kind = def == nullptr ? Kind::count : def->kind;
  const bool above = test.side == MeasureTest::Side::above;
  const auto print = [&](double si) { return print_quantity(si, kind, units); };
  if (std::holds_alternative<BandChange>(lack.change)) {
    const std::string now = lack.seen ? " " + print(*lack.seen) : "";
    return fmt::format("measurement {}{} has no limit on this kart, needs one that it is {}",
                       test.measure, now, above ? "above" : "below");
  }
  const char* side =
      lack.asked.wanted ? (above ? "above" : "below") : (above ? "no more than" : "no less than");
  const std::string need = fmt::format("needs {} {}", side, print(lack.limit.value_or(0.0)));
  if (!lack.seen) return fmt::format("measurement {} was not taken, {}", test.measure, need);
  std::string off;
  if (lack.off_by) off = off_by_text(print(*lack.off_by));
  return fmt::format("measurement {} {}, {}{}", test.measure, print(*lack.seen), need, off);
}

}  // namespace

std::string in_words(const Lack& lack, const Pack& pack, System units) {
  const Requirement& asked = lack.asked;
  std::string out =
      std::visit([&](const auto& test) { return words(test, lack, pack, units); }, asked.ask);
  if (!asked.through.empty()) {
    const std::string& rule = asked.through.back();
    out += asked.wanted ? "; then " + rule + " concludes it" : "; " + rule + " concludes it";
  }
  if (!asked.silences.empty()) out += "; " + asked.silences + " has taken its place";
  return out;
}

}  // namespace kartwright
