#include "engine/debrief/report_grammar.h"

#include <algorithm>
#include <vector>

namespace kartwright {
namespace {

/// Cuts at a character; each part keeps its offset in the text.
struct Part {
  std::string_view text;
  std::size_t offset = 0;
};

std::vector<Part> split(std::string_view text, char at) {
  std::vector<Part> parts;
  std::size_t begin = 0;
  while (true) {
    const std::size_t end = std::min(text.find(at, begin), text.size());
    parts.push_back({text.substr(begin, end - begin), begin});
    if (end == text.size()) return parts;
    begin = end + 1;
  }
}

template <typename T>
std::vector<std::string> ids_of(const std::vector<T>& all) {
  std::vector<std::string> ids;
  for (const T& item : all) ids.push_back(item.id);
  return ids;
}

Diagnostic diagnostic_at(const WrittenAt& at, Span span, Code code, std::string message,
                         std::string help) {
  Diagnostic found{.code = code,
                   .file = at.file,
                   .span = span,
                   .message = std::move(message),
                   .help = std::move(help)};
  show_source(found, at.source);
  return found;
}

class ReportParser {
 public:
  ReportParser(std::string_view text, const Pack& pack, const WrittenAt& at, Findings& findings)
      : text_(text), pack_(pack), at_(at), findings_(findings) {}

  std::optional<Report> parse() {
    const std::vector<Part> parts = split(text_, ',');
    head(parts.front());
    for (std::size_t i = 1; i < parts.size(); ++i) modifier(parts[i]);
    if (!good_) return std::nullopt;
    return report_;
  }

 private:
  void refuse(const Part& part, Code code, std::string message, std::string help) {
    good_ = false;
    findings_.add(diagnostic(part, code, std::move(message), std::move(help)));
  }

  Diagnostic diagnostic(const Part& part, Code code, std::string message, std::string help) const {
    Span span = at_.span;
    span.column += static_cast<int>(part.offset);
    span.length = std::max<int>(1, static_cast<int>(part.text.size()));
    return diagnostic_at(at_, span, code, std::move(message), std::move(help));
  }

  /// symptom[@phase][=severity]
  void head(const Part& part) {
    const std::size_t equals = std::min(part.text.find('='), part.text.size());
    const std::size_t at = std::min(part.text.find('@'), equals);
    symptom({part.text.substr(0, at), part.offset});
    if (at < equals) phase({part.text.substr(at + 1, equals - at - 1), part.offset + at + 1});
    if (equals < part.text.size())
      severity({part.text.substr(equals + 1), part.offset + equals + 1});
  }

  void symptom(const Part& part) {
    report_.symptom = part.text;
    symptom_ = pack_.symptom(part.text);
    if (symptom_ != nullptr) return;
    std::string help = suggestion(part.text, ids_of(pack_.symptoms));
    if (help.empty()) help = "`kartwright explain` lists the symptoms";
    refuse(part, Code::unknown_name, "`" + std::string(part.text) + "` is not a symptom", help);
  }

  void phase(const Part& part) {
    const std::optional<Phase> found = phase_named(part.text);
    if (!found) {
      refuse(part, Code::bad_report, "`" + std::string(part.text) + "` is not a phase",
             suggestion(part.text, {"entry", "mid", "exit", "straight", "any"}));
      return;
    }
    report_.phase = *found;
    if (symptom_ == nullptr || symptom_->phases.empty() || *found == Phase::any) return;
    const std::vector<Phase>& felt = symptom_->phases;
    if (std::find(felt.begin(), felt.end(), *found) != felt.end()) return;
    Diagnostic warning = diagnostic(
        part, Code::phase_not_felt,
        symptom_->label + " is not usually felt at `" + std::string(part.text) + "`", {});
    for (const Phase p : felt) {
      warning.help += (warning.help.empty() ? "felt at " : ", ") + std::string(name_of(p));
    }
    warning.severity = Severity::warning;
    findings_.add(std::move(warning));
  }

  void severity(const Part& part) {
    const bool good = part.text.size() == 1 && part.text[0] >= '0' && part.text[0] <= '3';
    if (good) {
      report_.severity = part.text[0] - '0';
    } else {
      refuse(part, Code::bad_report, "`" + std::string(part.text) + "` is not a severity",
             "0 denied, 1 slight, 2 clear, 3 severe");
    }
  }

  void modifier(const Part& part) {
    if (const auto side = side_named(part.text)) {
      report_.side = side;
    } else if (const auto when = when_named(part.text)) {
      report_.when = when;
    } else if (const auto confidence = confidence_named(part.text)) {
      report_.confidence = *confidence;
    } else {
      refuse(part, Code::bad_report, "`" + std::string(part.text) + "` says nothing about a report",
             "one of left, right, early, late, sure, fair, unsure");
    }
  }

  std::string_view text_;
  const Pack& pack_;
  const WrittenAt& at_;
  Findings& findings_;
  Report report_;
  const Symptom* symptom_ = nullptr;
  bool good_ = true;
};

std::optional<StatedFact> refuse_fact(const WrittenAt& at, Findings& findings, Code code,
                                      std::string message, std::string help) {
  findings.add(diagnostic_at(at, at.span, code, std::move(message), std::move(help)));
  return std::nullopt;
}

}  // namespace

std::optional<Report> parse_report(std::string_view text, const Pack& pack, const WrittenAt& at,
                                   Findings& findings) {
  return ReportParser(text, pack, at, findings).parse();
}

std::optional<StatedFact> parse_fact(std::string_view text, const Pack& pack, const WrittenAt& at,
                                     Findings& findings) {
  const std::size_t equals = text.find('=');
  if (equals == std::string_view::npos) {
    return refuse_fact(at, findings, Code::bad_fact, "`" + std::string(text) + "` states no value",
                       "a fact is written `id=value`, such as `hit=yes`");
  }
  return make_fact(std::string(text.substr(0, equals)), std::string(text.substr(equals + 1)), pack,
                   at, findings);
}

std::optional<StatedFact> make_fact(const std::string& id, const std::string& value,
                                    const Pack& pack, const WrittenAt& at, Findings& findings) {
  const FactDef* fact = pack.fact(id);
  if (fact == nullptr) {
    return refuse_fact(at, findings, Code::unknown_name, "`" + id + "` is not a fact",
                       suggestion(id, ids_of(pack.facts)));
  }
  if (!fact->entered) {
    return refuse_fact(at, findings, Code::bad_fact, "`" + id + "` is worked out, not stated", {});
  }
  if (std::find(fact->values.begin(), fact->values.end(), value) == fact->values.end()) {
    return refuse_fact(at, findings, Code::bad_fact,
                       "`" + value + "` is not a value of `" + id + "`",
                       suggestion(value, fact->values));
  }
  return StatedFact{.fact = id, .value = value};
}

}  // namespace kartwright
