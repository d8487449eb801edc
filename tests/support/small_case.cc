#include "tests/support/small_case.h"

#include <stdexcept>

#include <fmt/format.h>

#include "engine/debrief/report_grammar.h"
#include "engine/inference/derive.h"
#include "engine/knowledge/load.h"

namespace kartwright {

Pack pack_of(const std::vector<std::string>& files) {
  std::vector<Document> documents;
  for (const std::string& text : files) {
    documents.push_back(parse_document(fmt::format("file-{}.yaml", documents.size() + 1), text));
  }
  return load_pack(documents);
}

std::string axes_text(const std::vector<std::string>& names) {
  std::string text = "axes:\n";
  for (const std::string& name : names) {
    text += fmt::format(
        "  - {{axis: {}, label: {}, low: little, high: much, weight: 1, spread: 1}}\n", name, name);
  }
  return text;
}

SmallCase::SmallCase(const Pack& rules, std::vector<std::string> said,
                     std::vector<std::string> facts, std::string track)
    : pack(rules), kart(typical_kart(rules)) {
  debrief.track = std::move(track);
  Findings findings;
  const auto written = [](const std::string& text) {
    return WrittenAt{.file = "a test", .source = text};
  };
  for (const std::string& text : said) {
    const auto report = parse_report(text, pack, written(text), findings);
    if (report) debrief.heard.reports.push_back(*report);
  }
  for (const std::string& text : facts) {
    const auto fact = parse_fact(text, pack, written(text), findings);
    if (fact) debrief.heard.facts.push_back(*fact);
  }
  findings.throw_if_errors();
}

Situation SmallCase::settled() const {
  const std::vector<Report>& reports = debrief.heard.reports;
  return {.pack = pack,
          .kart = kart,
          .reports = reports,
          .facts = settle_facts(pack, kart, reports, given_facts(pack, kart, debrief))};
}

long axis_index(const Pack& pack, std::string_view id) {
  for (std::size_t i = 0; i < pack.axes.size(); ++i) {
    if (pack.axes[i].id == id) return static_cast<long>(i);
  }
  throw std::invalid_argument("no axis " + std::string(id));
}

}  // namespace kartwright
