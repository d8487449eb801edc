#include "tests/fuzz/oracle.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "cli/diagnostics.h"
#include "cli/page.h"
#include "engine/document/utf8.h"
#include "engine/kart/change_setting.h"
#include "engine/knowledge/built_in.h"

namespace kartwright::fuzz {

namespace {

/// The lines of a text as an editor counts them.
std::vector<std::string_view> lines_in(std::string_view text) {
  std::vector<std::string_view> lines;
  for (std::size_t from = 0; from <= text.size();) {
    const std::size_t end = std::min(text.find('\n', from), text.size());
    lines.push_back(text.substr(from, end - from));
    from = end + 1;
  }
  return lines;
}

/// A text of nothing but blanks, comments and directives has no place to point at.
bool says_nothing(const std::vector<std::string_view>& lines) {
  return std::all_of(lines.begin(), lines.end(), [](std::string_view line) {
    const std::size_t first = line.find_first_not_of(" \t\r");
    return first == std::string_view::npos || line[first] == '#' || line.front() == '%';
  });
}

bool stands_in(const Span& span, const std::vector<std::string_view>& lines) {
  if (span.line == 0 && span.column == 0 && says_nothing(lines)) return true;
  if (span.line < 1 || span.column < 1 || span.length < 1) return false;
  const auto line = static_cast<std::size_t>(span.line) - 1;
  if (line >= lines.size()) return false;
  return static_cast<std::size_t>(span.column) <= characters(lines[line]) + 1;
}

/// A fault of the whole file has no place in it.
bool is_of_the_file(const Diagnostic& found) {
  return (found.code == Code::too_large || found.code == Code::no_laps) && found.span.line == 0;
}

void check_places_of(const Node& node, const std::vector<std::string_view>& lines) {
  hold(stands_in(node.span, lines),
       fmt::format("a value at {}:{}", node.span.line, node.span.column));
  for (const Node& item : node.items) check_places_of(item, lines);
  for (const Entry& entry : node.entries) {
    hold(stands_in(entry.span, lines),
         fmt::format("a key at {}:{}", entry.span.line, entry.span.column));
    check_places_of(entry.value, lines);
  }
}

void check_number(double number, const char* what) {
  hold(std::isfinite(number), fmt::format("{} is {}", what, number));
}

void check_share(double number, const char* what) {
  hold(number >= 0.0 && number <= 1.0, fmt::format("{} is {}", what, number));
}

void check_belief(const Advice& advice) {
  const Belief& belief = advice.belief;
  hold(belief.mean.allFinite() && belief.covariance.allFinite() && belief.shares.allFinite(),
       "a belief that is not finite");
  for (Eigen::Index axis = 0; axis < belief.mean.size(); ++axis) {
    hold(belief.covariance(axis, axis) > 0.0, "an axis that is known to the last digit");
    const double moved = belief.mean(axis) - advice.prior.mean(axis);
    const double shares = belief.shares.cols() == 0 ? 0.0 : belief.shares.row(axis).sum();
    hold(std::abs(moved - shares) <= 1e-6 * std::max(1.0, std::abs(moved)),
         fmt::format("the shares of an axis sum to {}, and it moved by {}", shares, moved));
  }
}

void check_changes(const Advice& advice) {
  double before = INFINITY;
  for (const Change& change : advice.changes) {
    const Candidate& candidate = change.candidate;
    check_number(candidate.room_cost, "the price of room");
    check_number(candidate.parts.score(), "a score");
    check_number(candidate.option.steps, "the steps of a move");
    hold(candidate.relief <= 1.0 + 1e-9, "a change that takes out more than all of the error");
    hold(candidate.option.legal(), "a change that may not be made");
    if (candidate.held_back()) continue;
    hold(candidate.parts.score() <= before + 1e-9, "a worse change stands before a better one");
    before = candidate.parts.score();
  }
  for (const Together& bundle : advice.bundles)
    hold(bundle.relief <= 1.0 + 1e-9 && std::isfinite(bundle.minutes), "a bundle of no worth");
}

void check_draws(const Advice& advice) {
  if (!advice.draws) return;
  double sum = advice.draws->nothing;
  for (const double first : advice.draws->first) {
    check_share(first, "how often a change comes first");
    sum += first;
  }
  hold(std::abs(sum - 1.0) <= 1e-9, fmt::format("the draws sum to {}", sum));
}

}  // namespace

void hold(bool promise, const std::string& what) {
  if (!promise) throw Broken(what);
}

const Pack& shipped_rules() {
  static const Pack kRules = built_in_pack();
  return kRules;
}

const Kart& usual_kart_of_rules() {
  static const Kart kUsual = typical_kart(shipped_rules());
  return kUsual;
}

void check_words(std::string_view text, const std::string& what) {
  hold(!first_invalid_utf8(text), what + " is not UTF-8");
  while (!text.empty()) {
    const cli::Glyph glyph = cli::first_glyph(text);
    hold(glyph.code == U'\n' || !cli::is_unsafe(glyph.code), what + " steers the terminal");
    text.remove_prefix(glyph.length);
  }
}

void check_shown(const Diagnostic& found) {
  for (const std::size_t width : {std::size_t{40}, std::size_t{80}}) {
    check_words(cli::render(found, {.width = width}), "a message");
    const std::string plain = cli::render(found, {.width = width, .unicode = false});
    const bool ascii = std::all_of(plain.begin(), plain.end(),
                                   [](char c) { return static_cast<unsigned char>(c) < 0x7F; });
    hold(ascii, "a message in ASCII: " + plain);
  }
}

void check_found(const std::vector<Diagnostic>& found, std::string_view text,
                 const std::string& name) {
  const std::vector<std::string_view> lines = lines_in(text);
  for (const Diagnostic& each : found) {
    const std::string told =
        fmt::format("{}:{}:{}: {}", each.file, each.span.line, each.span.column, each.message);
    hold(!each.message.empty() && each.file == name, "a finding of nothing: " + told);
    hold(stands_in(each.span, lines) || is_of_the_file(each), "a finding nowhere: " + told);
    check_shown(each);
  }
}

void check_refusal(const std::vector<Diagnostic>& found, std::string_view text,
                   const std::string& name) {
  check_found(found, text, name);
  hold(std::any_of(found.begin(), found.end(),
                   [](const Diagnostic& each) { return each.severity == Severity::error; }),
       "refused without an error");
}

void check_places(const Document& document) {
  check_places_of(document.root, lines_in(document.text));
}

void check_advice(const Advice& advice) {
  check_belief(advice);
  check_changes(advice);
  check_draws(advice);
  check_number(advice.loss_none, "the error as it is");
  check_number(advice.track_relief, "what the track takes out");
  check_number(advice.effort_rate, "the price of a minute");
  check_number(advice.coherence.chi2, "how the reports fit together");
  for (const FaultOdds& fault : advice.checks)
    check_share(fault.probability, "the odds of a fault");
  for (const Question& question : advice.questions) {
    check_number(question.worth, "what a question is worth");
    hold(question.worth >= 0.0, "a question worth less than nothing");
  }
  hold(!advice.text.empty(), "an advice without a reading");
}

void check_kart(const Kart& kart) {
  for (const auto& [id, setting] : kart.settings) {
    check_number(setting.now, id.c_str());
    check_number(setting.minutes, "minutes");
    hold(!setting.travel.places.empty(), id + " can stand nowhere");
    for (const double place : setting.travel.places) {
      check_number(place, id.c_str());
      const std::string written = print_setting(setting, place, kart.units);
      check_words(written, id);
    }
    hold(std::is_sorted(setting.travel.places.begin(), setting.travel.places.end()),
         id + " has places out of order");
  }
  for (const auto& [id, value] : kart.measures) check_number(value, id.c_str());
  for (const auto& [id, value] : kart.dimensions) check_number(value, id.c_str());
}

}  // namespace kartwright::fuzz
