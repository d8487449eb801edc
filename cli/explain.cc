// explain: any symptom, adjustment, fault, track state, fact, rule or message in plain words.

#include "engine/advice/explain.h"

#include <algorithm>
#include <cstdio>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "cli/commands.h"
#include "cli/page.h"
#include "cli/safe_json.h"
#include "engine/document/diagnostic.h"

namespace kartwright::cli {
namespace {

std::string capitals(std::string text) {
  std::transform(text.begin(), text.end(), text.begin(),
                 [](char c) { return c >= 'a' && c <= 'z' ? static_cast<char>(c - 32) : c; });
  return text;
}

std::string as_text(const Explanation& explanation, Look look) {
  Page page(look);
  page.section(capitals(explanation.kind));
  page.paragraph(explanation.id == explanation.title
                     ? explanation.id
                     : explanation.title + " (" + explanation.id + ")");
  for (const ExplainedPart& part : explanation.sections) {
    page.section("");
    const bool wrapped = part.stands.empty();
    page.paragraph(part.heading + (wrapped ? "" : ", " + part.stands) + ":");
    for (const std::string& paragraph : part.paragraphs) {
      if (wrapped) page.paragraph("  " + paragraph, 2);
      if (!wrapped) page.as_written(paragraph, 2);
    }
  }
  return page.text();
}

std::string as_json(const Explanation& explanation) {
  nlohmann::ordered_json sections = nlohmann::ordered_json::array();
  for (const ExplainedPart& part : explanation.sections) {
    sections.push_back({{"heading", part.heading}, {"paragraphs", part.paragraphs}});
    if (!part.stands.empty()) sections.back()["stands"] = part.stands;
  }
  const nlohmann::ordered_json out{{"schema", "kartwright/explain/1"},
                                   {"kind", explanation.kind},
                                   {"id", explanation.id},
                                   {"title", explanation.title},
                                   {"sections", sections}};
  return json_line(out);
}

std::string topics_text(const Pack& pack, Look look) {
  Page page(look);
  for (const auto& [kind, ids] : explainable(pack)) {
    if (kind == "rules") continue;
    page.section(kind == "adjustments"  ? "ADJUST"
                 : kind == "quantities" ? "FIGURES"
                                        : capitals(kind));
    page.paragraph(fmt::format("{}", fmt::join(ids, ", ")));
  }
  page.section("");
  page.paragraph("and every rule named in an answer: `kartwright explain ID`");
  return page.text();
}

std::string topics_json(const Pack& pack) {
  nlohmann::ordered_json kinds = nlohmann::ordered_json::object();
  for (const auto& [kind, ids] : explainable(pack)) kinds[kind] = ids;
  const nlohmann::ordered_json out{{"schema", "kartwright/explain-list/1"}, {"kinds", kinds}};
  return json_line(out);
}

/// "Rear Width" and "rear_width" are rear-width.
std::string id_of(const std::vector<std::string>& words) {
  std::string id;
  for (const std::string& word : words) id += (id.empty() ? "" : "-") + word;
  std::transform(id.begin(), id.end(), id.begin(), [](char c) {
    if (c == ' ' || c == '_') return '-';
    return c >= 'A' && c <= 'Z' ? static_cast<char>(c + 32) : c;
  });
  return id;
}

[[noreturn]] void refuse(const std::string& id, const Pack& pack) {
  std::vector<std::string> known;
  for (const auto& [kind, ids] : explainable(pack))
    known.insert(known.end(), ids.begin(), ids.end());
  std::string help = suggestion(id, known);
  if (help.empty()) help = "`kartwright explain` lists what there is";
  throw InputError({Diagnostic{.code = Code::unknown_name,
                               .file = "explain",
                               .message = "nothing here is called `" + id + "`",
                               .help = help}});
}

}  // namespace

int run_explain(const ExplainOptions& options) {
  const Pack pack = load_rules(options.common);
  const bool json = options.common.format == Format::json;
  std::string answer;
  if (options.id.empty()) {
    answer = json ? topics_json(pack) : topics_text(pack, look_of_stdout());
  } else {
    const std::string id = id_of(options.id);
    const std::optional<Explanation> found = explain(id, pack);
    if (!found) refuse(id, pack);
    answer = json ? as_json(*found) : as_text(*found, look_of_stdout());
  }
  std::fwrite(answer.data(), 1, answer.size(), stdout);
  return kSuccess;
}

}  // namespace kartwright::cli
