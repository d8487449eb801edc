#include "engine/audit/cases.h"

#include <algorithm>
#include <iterator>
#include <map>

#include <fmt/format.h>

#include "engine/debrief/debrief_file.h"
#include "engine/document/fields.h"
#include "engine/inference/derive.h"
#include "engine/inference/firing.h"
#include "engine/knowledge/every_rule.h"

namespace kartwright {
namespace {

constexpr std::string_view kCasesEnd = ".cases.yaml";

std::vector<NamedRule> read_rules(Fields& fields, std::string_view key) {
  const Node* const node = fields.optional(key);
  if (node == nullptr) return {};
  if (node->type == Node::Type::scalar) return {{node->text, node->span}};
  if (node->type == Node::Type::map) {
    fields.findings().add(fields.document().at(node->span, Code::wrong_shape,
                                               fmt::format("`{}` must be a list of rules", key)));
  }
  std::vector<NamedRule> rules;
  for (const Node& item : node->items) {
    rules.push_back({scalar_text(fields.document(), item, fields.findings(), "a rule"), item.span});
  }
  return rules;
}

/// A rule named twice in one case: for nothing, or in both lists.
void refuse_twins(const Document& document, const RuleCase& one, Findings& findings) {
  std::set<std::string_view> seen;
  for (const std::vector<NamedRule>* list : {&one.fires, &one.silent}) {
    for (const NamedRule& rule : *list) {
      if (seen.insert(rule.id).second) continue;
      findings.add(document.at(rule.span, Code::duplicate_id,
                               fmt::format("the case names `{}` twice", rule.id),
                               "keep one of the two"));
    }
  }
}

std::optional<RuleCase> read_case(const Document& document, const Node& node, const Pack& pack,
                                  Findings& findings) {
  const DebriefFrame frame{
      .what = "a case", .beside = {"case", "fires", "silent"}, .in_words = false};
  DebriefFile file = read_debrief(document, node, frame, pack, findings);
  if (node.type != Node::Type::map) return {};
  Fields fields(document, node, findings, "a case");
  const Node* const name = fields.required("case");
  RuleCase one{.name = name == nullptr ? "" : scalar_text(document, *name, findings, "case"),
               .span = name == nullptr ? node.span : name->span,
               .debrief = std::move(file.debrief),
               .kart = std::move(file.kart)};
  one.fires = read_rules(fields, "fires");
  one.silent = read_rules(fields, "silent");
  if (!file.kart_path.empty()) {
    findings.add(document.at(node.find("kart")->span, Code::wrong_shape,
                             "a case holds its kart itself", "such as `{settings: {axle: hard}}`"));
  }
  if (one.fires.empty() && one.silent.empty()) {
    findings.add(document.at(one.span, Code::missing_key,
                             "a case names at least one rule under `fires` or `silent`"));
  }
  refuse_twins(document, one, findings);
  return one;
}

void refuse_same_names(const Document& document, const std::vector<RuleCase>& cases,
                       Findings& findings) {
  std::map<std::string_view, int> seen;
  for (const RuleCase& one : cases) {
    const auto [first, fresh] = seen.emplace(one.name, one.span.line);
    if (fresh || one.name.empty()) continue;
    findings.add(document.at(one.span, Code::duplicate_id,
                             fmt::format("two cases are called `{}`", one.name),
                             fmt::format("the first stands in line {}", first->second)));
  }
}

/// All documents against one pack.
class Runner {
 public:
  explicit Runner(const Pack& pack) : pack_(pack), typical_(typical_kart(pack)) {
    for (const RuleRef& rule : every_rule(pack)) rules_.emplace(rule.rule->id, rule);
  }

  void take(const Document& document) {
    Findings findings;
    try {
      const std::vector<RuleCase> cases = read_cases(document, pack_, findings);
      for (const RuleCase& one : cases) count(one);
      if (!findings.has_errors()) run_all(document, cases, findings);
      keep(findings.all());
    } catch (const InputError& error) {
      keep(error.found());
    }
  }

  void ask_for_both(const std::set<std::string>& files) {
    for (const RuleRef& ref : every_rule(pack_)) {
      const Rule& rule = *ref.rule;
      if (!files.empty() && !files.contains(rule.source.file)) continue;
      const bool fires = fires_.contains(rule.id), silent = silent_.contains(rule.id);
      if (fires && silent) continue;
      const std::string_view lacks = fires    ? "where it stays silent"
                                     : silent ? "where it fires"
                                              : "where it fires, and none where it stays silent";
      found_.push_back({.code = Code::rule_without_case,
                        .file = rule.source.file,
                        .span = {.line = rule.source.line, .column = 1},
                        .message = fmt::format("`{}` has no case {}", rule.id, lacks),
                        .help = "cases stand in " + cases_beside(rule.source.file)});
    }
  }

  std::vector<Diagnostic> take_found() { return std::move(found_); }

 private:
  static std::string cases_beside(std::string_view file) {
    constexpr std::string_view kEnd = ".yaml";
    if (file.ends_with(kEnd)) file.remove_suffix(kEnd.size());
    return std::string(file) + std::string(kCasesEnd);
  }

  void keep(const std::vector<Diagnostic>& more) {
    found_.insert(found_.end(), more.begin(), more.end());
  }

  void count(const RuleCase& one) {
    for (const NamedRule& rule : one.fires) fires_.insert(rule.id);
    for (const NamedRule& rule : one.silent) silent_.insert(rule.id);
  }

  void run_all(const Document& document, const std::vector<RuleCase>& cases, Findings& findings) {
    for (const RuleCase& one : cases) {
      const Kart& kart = one.kart ? *one.kart : typical_;
      const std::vector<Report>& reports = one.debrief.heard.reports;
      Situation situation{
          .pack = pack_,
          .kart = kart,
          .reports = reports,
          .facts = settle_facts(pack_, kart, reports, given_facts(pack_, kart, one.debrief))};
      measure_loads(situation);
      for (const NamedRule& named : one.fires) {
        const RuleRef* const rule = look_up(document, named, findings);
        if (rule == nullptr || fires(*rule, situation)) continue;
        findings.add(document.at(named.span, Code::rule_silent,
                                 fmt::format("`{}` stays silent on `{}`", named.id, one.name),
                                 "the rule stands at " + rule->rule->source.text()));
      }
      for (const NamedRule& named : one.silent) {
        const RuleRef* const rule = look_up(document, named, findings);
        if (rule == nullptr || !fires(*rule, situation)) continue;
        findings.add(document.at(named.span, Code::rule_fires,
                                 fmt::format("`{}` fires on `{}`", named.id, one.name),
                                 "the rule stands at " + rule->rule->source.text()));
      }
    }
  }

  /// The rule, where it is one of the file that the cases stand beside.
  const RuleRef* look_up(const Document& document, const NamedRule& named,
                         Findings& findings) const {
    const std::string beside = rule_file_beside(document.name);
    const auto found = rules_.find(named.id);
    if (found == rules_.end()) {
      std::vector<std::string> known;
      for (const auto& [id, rule] : rules_) {
        if (rule.rule->source.file == beside) known.push_back(id);
      }
      findings.add(document.at(named.span, Code::unknown_name,
                               fmt::format("`{}` is not a rule", named.id),
                               suggestion(named.id, known)));
      return nullptr;
    }
    const Source& source = found->second.rule->source;
    if (source.file == beside) return &found->second;
    findings.add(document.at(
        named.span, Code::foreign_rule, fmt::format("`{}` is not a rule of {}", named.id, beside),
        fmt::format("it stands at {}; its cases in {}", source.text(), cases_beside(source.file))));
    return nullptr;
  }

  const Pack& pack_;
  Kart typical_;
  std::map<std::string, RuleRef, std::less<>> rules_;
  std::set<std::string> fires_, silent_;
  std::vector<Diagnostic> found_;
};

}  // namespace

std::vector<RuleCase> read_cases(const Document& document, const Pack& pack, Findings& findings) {
  Fields fields(document, document.root, findings, "a cases file");
  const Node* const list = fields.required("cases");
  fields.finish();
  if (list == nullptr) return {};
  if (list->type != Node::Type::list) {
    findings.add(document.at(list->span, Code::wrong_shape, "`cases` must be a list"));
  }
  std::vector<RuleCase> cases;
  for (const Node& item : list->items) {
    std::optional<RuleCase> one = read_case(document, item, pack, findings);
    if (one) cases.push_back(std::move(*one));
  }
  refuse_same_names(document, cases, findings);
  return cases;
}

std::string rule_file_beside(std::string_view cases) {
  if (cases.ends_with(kCasesEnd)) cases.remove_suffix(kCasesEnd.size());
  return std::string(cases) + ".yaml";
}

std::vector<Diagnostic> check_cases(const Pack& pack, const std::vector<Document>& documents,
                                    const std::set<std::string>& files) {
  Runner runner(pack);
  for (const Document& document : documents) runner.take(document);
  runner.ask_for_both(files);
  return runner.take_found();
}

}  // namespace kartwright
