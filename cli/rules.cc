// rules: is a rule pack sound, what is in it, and all there is to say of one of its rules.

#include <algorithm>
#include <array>
#include <cstdio>
#include <filesystem>

#include <fmt/format.h>
#include <spdlog/spdlog.h>

#include "cli/commands.h"
#include "cli/diagnostics.h"
#include "cli/difference_json.h"
#include "cli/difference_text.h"
#include "cli/option_values.h"
#include "cli/rules_json.h"
#include "cli/rules_text.h"
#include "cli/schema_folder.h"
#include "cli/tell.h"
#include "engine/audit/difference.h"
#include "engine/audit/scenario_folder.h"
#include "engine/document/replace_file.h"
#include "engine/knowledge/built_in.h"
#include "engine/knowledge/load.h"

namespace kartwright::cli {
namespace {

[[noreturn]] void refuse_words(std::string message, std::string help, Code code) {
  throw InputError({Diagnostic{
      .code = code, .file = "rules", .message = std::move(message), .help = std::move(help)}});
}

void write_out(const std::string& text) { std::fwrite(text.data(), 1, text.size(), stdout); }

bool as_json(const RulesOptions& options) { return options.common.format == Format::json; }

/// The cases beside the crew's own rules, or else beside the built-in ones. Throws InputError.
std::vector<Document> cases_of(const RulesOptions& options) {
  const std::string& folder = options.common.rules;
  const bool own = !folder.empty() && !read_rule_folder(folder).empty();
  return own ? read_case_folder(folder) : built_in_cases();
}

/// What keeps a file from being read at all is found like the rest.
Audit audit_of(const RulesOptions& options) {
  try {
    std::vector<Document> own;
    if (!options.common.rules.empty()) own = read_rule_folder(options.common.rules);
    spdlog::info("rules: built in, and {} files of {}", own.size(), options.common.rules);
    return audit(built_in_rules(), own, cases_of(options));
  } catch (const InputError& error) {
    Audit out;
    for (const Diagnostic& each : error.found()) out.findings.push_back({.diagnostic = each});
    return out;
  }
}

void make_folder(const std::string& path) {
  std::error_code error;
  if (!path.empty()) std::filesystem::create_directories(path, error);
  if (error)
    throw FileError(FileError::What::cannot_create,
                    path + " cannot be written: " + error.message());
}

/// Where the witness of each finding now stands; empty where it has none, or none are wanted.
/// REQUIRES: the folder is there. Throws FileError.
std::vector<std::string> write_witnesses(const Audit& audit, const std::string& folder) {
  std::vector<std::string> paths(audit.findings.size());
  if (folder.empty()) return paths;
  for (std::size_t i = 0; i < paths.size(); ++i) {
    const std::optional<Witness>& witness = audit.findings[i].witness;
    if (!witness) continue;
    const std::filesystem::path path = std::filesystem::path(folder) / witness->name;
    put_file(path.string(), schema_line("debrief") + witness->text, true);
    paths[i] = path.string();
  }
  return paths;
}

int exit_of(const Audit& audit) {
  std::vector<Diagnostic> errors;
  for (const AuditFinding& found : audit.findings) {
    if (found.diagnostic.severity == Severity::error) errors.push_back(found.diagnostic);
  }
  return errors.empty() ? kSuccess : exit_code_for(errors);
}

int run_audit(const RulesOptions& options) {
  Audit found;
  std::vector<std::string> paths;
  try {
    make_folder(options.witness);
    found = audit_of(options);
    paths = write_witnesses(found, options.witness);
  } catch (const FileError& error) {
    tell("kartwright: {}\n", printable(error.what()));
    return error.kind() == FileError::What::cannot_create ? kCannotCreate : kInputOutput;
  }
  write_out(as_json(options)
                ? check_json(found, paths)
                : check_text(found, paths, options.common.loudness < 0, look_of_stdout()));
  return exit_of(found);
}

int run_list(const RulesOptions& options) {
  const std::vector<RuleLine> lines = rule_lines(load_rules(options.common));
  write_out(as_json(options) ? list_json(lines) : list_text(lines, look_of_stdout()));
  return kSuccess;
}

int run_show(const RulesOptions& options) {
  const Pack pack = load_rules(options.common);
  const std::string& id = options.words.at(1);
  const std::optional<RulePage> page = rule_page(id, pack, cases_of(options));
  if (!page) {
    std::vector<std::string> known;
    for (const RuleLine& line : rule_lines(pack)) known.push_back(line.id);
    std::string help = suggestion(id, known);
    if (help.empty()) help = "`kartwright rules list` has them all";
    refuse_words("no rule is called `" + id + "`", help, Code::unknown_name);
  }
  write_out(as_json(options) ? show_json(*page) : show_text(*page, look_of_stdout()));
  return kSuccess;
}

int run_diff(const RulesOptions& options) {
  std::vector<ScenarioFile> scenarios;
  if (!options.scenarios.empty()) scenarios = read_scenario_folder(options.scenarios);
  const PackDifference difference = compare_packs(read_named_pack(options.words.at(1)),
                                                  read_named_pack(options.words.at(2)), scenarios);
  write_out(as_json(options) ? difference_json(difference)
                             : difference_text(difference, look_of_stdout()));
  return kSuccess;
}

struct Action {
  std::string_view name;
  std::size_t names;  ///< how many words follow it
  int (*run)(const RulesOptions& options);
  std::string_view usage;
};

constexpr std::array kActions{
    Action{"check", 0, run_audit, "kartwright rules check [--rules DIR] [--witness DIR]"},
    Action{"list", 0, run_list, "kartwright rules list"},
    Action{"show", 1, run_show, "kartwright rules show ID"},
    Action{"diff", 2, run_diff,
           "kartwright rules diff built-in DIR [--scenarios DIR], or two folders"},
};

static_assert(std::ranges::equal(kActions, value::kRulesActions, {}, &Action::name));

const Action& chosen(const RulesOptions& options) {
  std::vector<std::string> known;
  for (const Action& action : kActions) known.emplace_back(action.name);
  if (options.words.empty()) {
    refuse_words("nothing is said to do with the rules",
                 fmt::format("one of {}", fmt::join(known, ", ")), Code::bad_option);
  }
  const std::string& word = options.words.front();
  const auto* const found = std::find_if(kActions.begin(), kActions.end(),
                                         [&](const Action& action) { return action.name == word; });
  if (found == kActions.end()) {
    refuse_words("`" + word + "` is nothing to do with the rules", suggestion(word, known),
                 Code::bad_option);
  }
  return *found;
}

void refuse_stray_option(const std::string& option, const std::string& value,
                         std::string_view goes_with, const Action& action) {
  if (value.empty() || action.name == goes_with) return;
  refuse_words(fmt::format("`{}` goes with `{}`", option, goes_with),
               "`kartwright rules --help` has an example", Code::bad_option);
}

}  // namespace

int run_rules(const RulesOptions& options) {
  const Action& action = chosen(options);
  if (options.words.size() != action.names + 1) {
    const bool more = options.words.size() > action.names + 1;
    refuse_words(more ? "`" + options.words[action.names + 1] + "` is one word too many"
                      : "`" + std::string(action.name) + "` needs more words",
                 std::string(action.usage), Code::bad_option);
  }
  refuse_stray_option("--witness", options.witness, "check", action);
  refuse_stray_option("--scenarios", options.scenarios, "diff", action);
  if (action.run == run_diff && !options.common.rules.empty()) {
    refuse_words("`--rules` does not go with `diff`", std::string(action.usage), Code::bad_option);
  }
  return action.run(options);
}

}  // namespace kartwright::cli
