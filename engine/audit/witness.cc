#include "engine/audit/witness.h"

#include <algorithm>
#include <string_view>

#include <fmt/format.h>

#include "engine/debrief/debrief_file.h"
#include "engine/inference/derive.h"
#include "engine/inference/firing.h"
#include "engine/knowledge/engine_facts.h"

namespace kartwright {
namespace {

bool is_plain(std::string_view text) {
  const auto plain = [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-' || c == '.';
  };
  return !text.empty() && text[0] >= 'a' && text[0] <= 'z' && text != "null" &&
         std::all_of(text.begin(), text.end(), plain);
}

/// A scalar as YAML has it, quoted where it is not a plain word.
std::string quoted_where_needed(std::string_view text) {
  if (is_plain(text)) return std::string(text);
  std::string out = "\"";
  for (const char c : text) {
    const auto byte = static_cast<unsigned char>(c);
    if (c == '"' || c == '\\') out += '\\';
    out += byte < 0x20U || byte == 0x7FU ? fmt::format("\\x{:02X}", byte) : std::string(1, c);
  }
  return out + "\"";
}

/// Text that stays on the one line of a comment.
std::string on_one_line(std::string text) {
  std::replace_if(
      text.begin(), text.end(), [](char c) { return static_cast<unsigned char>(c) < 0x20U; }, ' ');
  return text;
}

std::string reported_text(const Report& report) {
  std::string text = report.symptom;
  if (report.phase != Phase::any) text += "@" + std::string(name_of(report.phase));
  return quoted_where_needed(text + "=" + std::to_string(report.severity));
}

std::string quantity_text(double si, Kind kind) { return print_quantity(si, kind, System::metric); }

/// Writes the sections of a kart that a sample asks for; the rest of the kart stays out.
class KartText {
 public:
  KartText(const Sample& sample, const Pack& pack) : sample_(sample), pack_(pack) {}

  std::string text() const {
    return "kart:\n  kart: made up for this case\n" + settings() + ranges() + limits() +
           measured() + bands();
  }

 private:
  using Lines = std::vector<std::string>;

  static std::string section(std::string_view title, const Lines& lines) {
    return lines.empty() ? "" : fmt::format("{}\n{}\n", title, fmt::join(lines, "\n"));
  }

  std::string settings() const {
    Lines lines;
    for (const auto& [id, stand] : sample_.stands) {
      if (!stand.setting) continue;
      const std::string now = print_setting(*stand.setting, stand.setting->now, System::metric);
      const bool named = !stand.setting->travel.names.empty();
      lines.push_back(fmt::format("    {}: {}", quoted_where_needed(id),
                                  named ? quoted_where_needed(now) : now));
    }
    return section("  settings:", lines);
  }

  std::string ranges() const {
    Lines lines;
    for (const auto& [id, stand] : sample_.stands) {
      if (!stand.setting || !stand.range) continue;
      const Kind kind = stand.setting->adjustment->kind;
      lines.push_back(fmt::format("    {}: {{from: {}, to: {}, step: {}}}", quoted_where_needed(id),
                                  quantity_text(stand.range->from, kind),
                                  quantity_text(stand.range->to, kind),
                                  quantity_text(stand.range->step, kind)));
    }
    return section("  ranges:", lines);
  }

  std::string limits() const {
    Lines lines;
    for (const auto& [id, stand] : sample_.stands) {
      if (!stand.setting) continue;
      const ClassLimit& limit = stand.setting->limit;
      const Kind kind = stand.setting->adjustment->kind;
      Lines parts;
      if (limit.at_least) parts.push_back("at-least: " + quantity_text(*limit.at_least, kind));
      if (limit.at_most) parts.push_back("at-most: " + quantity_text(*limit.at_most, kind));
      Lines allowed;
      for (const std::string& position : limit.allowed)
        allowed.push_back(quoted_where_needed(position));
      if (!allowed.empty()) parts.push_back(fmt::format("allowed: [{}]", fmt::join(allowed, ", ")));
      if (parts.empty()) continue;
      lines.push_back(
          fmt::format("      {}: {{{}}}", quoted_where_needed(id), fmt::join(parts, ", ")));
    }
    return section("  class:\n    limits:", lines);
  }

  std::string measured() const {
    Lines lines;
    for (const auto& [id, measured] : sample_.measures) {
      if (!measured.value) continue;
      lines.push_back(fmt::format("    {}: {}", quoted_where_needed(id),
                                  quantity_text(*measured.value, pack_.measure(id)->kind)));
    }
    return section("  measured:", lines);
  }

  std::string bands() const {
    Lines lines;
    for (const auto& [id, measured] : sample_.measures) {
      if (!measured.band) continue;
      const Kind kind = pack_.measure(id)->kind;
      lines.push_back(fmt::format("    {}: {{from: {}, to: {}}}", quoted_where_needed(id),
                                  quantity_text(measured.band->first, kind),
                                  quantity_text(measured.band->second, kind)));
    }
    return section("  bands:", lines);
  }

  const Sample& sample_;
  const Pack& pack_;
};

bool needs_a_kart(const Sample& sample) {
  return std::any_of(sample.stands.begin(), sample.stands.end(),
                     [](const auto& each) { return !each.second.typical; }) ||
         std::any_of(sample.measures.begin(), sample.measures.end(),
                     [](const auto& each) { return each.second.value.has_value(); });
}

/// Letters, figures and dashes of an id, and no more of them than a file name bears.
std::string slug(std::string_view id) {
  constexpr std::size_t kMost = 100;
  std::string out;
  for (const char c : id.substr(0, kMost)) {
    const bool good = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || (c >= 'A' && c <= 'Z');
    out += good ? c : '-';
  }
  return out;
}

}  // namespace

std::string debrief_text(const Sample& sample, const Pack& pack, const std::string& shows) {
  const std::string track(engine_facts::kTrack);
  const auto stated = sample.facts.find(track);
  const bool known = stated != sample.facts.end() && pack.track(stated->second) != nullptr;
  std::string out = "# " + on_one_line(shows) + "\n";
  out += "track: " + (known ? quoted_where_needed(stated->second) : "unknown") + "\n";
  if (!sample.reports.empty()) out += "reports:\n";
  for (const Report& report : sample.reports) out += "  - " + reported_text(report) + "\n";
  std::string facts;
  for (const auto& [id, value] : sample.facts) {
    if (id == track && known) continue;
    facts += "  " + quoted_where_needed(id) + ": " + quoted_where_needed(value) + "\n";
  }
  if (!facts.empty()) out += "facts:\n" + facts;
  return needs_a_kart(sample) ? out + KartText(sample, pack).text() : out;
}

bool all_fire(const Document& debrief, const std::vector<RuleRef>& rules, const Pack& pack) {
  Findings findings;
  DebriefFile file = read_debrief(debrief, pack, findings);
  if (findings.has_errors()) return false;
  const Kart kart = file.kart ? std::move(*file.kart) : typical_kart(pack);
  const std::vector<Report>& reports = file.debrief.heard.reports;
  Situation situation{
      .pack = pack,
      .kart = kart,
      .reports = reports,
      .facts = settle_facts(pack, kart, reports, given_facts(pack, kart, file.debrief))};
  measure_loads(situation);
  return std::all_of(rules.begin(), rules.end(),
                     [&](const RuleRef& rule) { return fires(rule, situation); });
}

std::optional<Witness> witness_of(const Sample& sample, const std::vector<RuleRef>& rules,
                                  const Pack& pack, const std::string& shows) {
  Witness witness{.name = {}, .text = debrief_text(sample, pack, shows)};
  for (const RuleRef& rule : rules) {
    witness.name += (witness.name.empty() ? "" : "--") + slug(rule.rule->id);
  }
  witness.name += ".yaml";
  try {
    if (all_fire(parse_document(witness.name, witness.text), rules, pack)) return witness;
  } catch (const InputError&) {
    // A name that no debrief file can hold, or facts that cannot be settled: told elsewhere.
  }
  return std::nullopt;
}

}  // namespace kartwright
