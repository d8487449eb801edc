#include "engine/knowledge/section_reader.h"

#include <algorithm>
#include <charconv>

namespace kartwright {
namespace {

/// `8 groups`, `1 group` or a bare count.
int read_groups(Fields& fields, std::string_view key, const Section& section) {
  const Node* node = fields.optional(key);
  if (node == nullptr) return 0;
  std::string_view text = node->text;
  int count = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), count);
  const std::string_view rest(end, static_cast<std::size_t>(text.data() + text.size() - end));
  const bool good =
      error == std::errc{} && count >= 0 && (rest.empty() || rest == " group" || rest == " groups");
  if (!good)
    section.refuse(*node, Code::bad_number, "expected a number of groups", "such as `8 groups`");
  return good ? count : 0;
}

}  // namespace

void Section::refuse(const Node& node, Code code, std::string message, std::string help) const {
  findings.add(document.at(node.span, code, std::move(message), std::move(help)));
}

Provenance read_provenance(Fields& fields, const Section& section) {
  const Node* node = fields.required("provenance");
  if (node == nullptr) return {};
  Fields inner(section.document, *node, section.findings, "a provenance");
  Provenance provenance;
  if (const Node* practice = inner.optional("practice")) {
    provenance.practice =
        known_name(section.document, *practice, section.findings, "a kind of practice", {"common"});
  }
  provenance.note = inner.text_or("note", "");
  const Node* published = inner.optional("published");
  if (published != nullptr) {
    Fields groups(section.document, *published, section.findings, "a published provenance");
    provenance.groups_for = read_groups(groups, "for", section);
    provenance.groups_against = read_groups(groups, "against", section);
    const std::string note = groups.text_or("note", "");
    if (!note.empty()) provenance.note += (provenance.note.empty() ? "" : "; ") + note;
    groups.finish();
  }
  inner.finish();
  if (node->find("practice") == nullptr && published == nullptr) {
    section.refuse(*node, Code::bad_rule, "a provenance names common practice or published groups",
                   "`practice: common` or `published: {for: 2 groups}`");
  }
  return provenance;
}

void read_rule(Fields& fields, const Section& section, Rule& rule) {
  rule.id = fields.text("id");
  rule.because = fields.text("because");
  rule.provenance = read_provenance(fields, section);
  rule.source = section.source(fields.node());
  const Node* status = fields.required("status");
  if (status == nullptr) return;
  static const std::vector<std::string> kStatuses{"experimental", "test", "stable"};
  if (!known_name(section.document, *status, section.findings, "a status", kStatuses)) return;
  const auto found = std::find(kStatuses.begin(), kStatuses.end(), status->text);
  rule.status = static_cast<Status>(found - kStatuses.begin());
}

Condition read_when(Fields& fields, const Section& section) {
  fields.optional("when");
  const Node* node = fields.node().find("when");
  if (node == nullptr) return {};
  return read_condition(section.document, *node, section.names, section.findings);
}

std::vector<RowTerm> read_row(const Node& node, const Section& section) {
  std::vector<RowTerm> row;
  const std::vector<std::string> known = section.names.axes_and_families();
  for (const Entry& entry : node.entries) {
    if (std::find(known.begin(), known.end(), entry.key) == known.end()) {
      section.findings.add(section.document.at(entry.span, Code::unknown_name,
                                               "`" + entry.key + "` is not an axis",
                                               suggestion(entry.key, known)));
      continue;
    }
    row.push_back(
        {entry.key, scalar_number(section.document, entry.value, section.findings, entry.key)});
  }
  if (node.entries.empty()) section.refuse(node, Code::bad_rule, "a row names at least one axis");
  std::sort(row.begin(), row.end(),
            [](const RowTerm& a, const RowTerm& b) { return a.axis < b.axis; });
  return row;
}

std::vector<Cell> read_moves(const Node& node, const Section& section) {
  std::vector<Cell> cells;
  for (const Entry& entry : node.entries) {
    const Spread spread = read_spread(entry.value, section);
    bool found = false;
    for (std::size_t axis = 0; axis < section.axes.size(); ++axis) {
      if (section.axes[axis].id != entry.key && section.axes[axis].family != entry.key) continue;
      found = true;
      cells.push_back({axis, spread.mean, spread.sd});
    }
    if (found) continue;
    section.findings.add(
        section.document.at(entry.span, Code::unknown_name, "`" + entry.key + "` is not an axis",
                            suggestion(entry.key, section.names.axes_and_families())));
  }
  std::sort(cells.begin(), cells.end(),
            [](const Cell& a, const Cell& b) { return a.axis < b.axis; });
  const auto twice = std::adjacent_find(
      cells.begin(), cells.end(), [](const Cell& a, const Cell& b) { return a.axis == b.axis; });
  if (twice != cells.end()) section.refuse(node, Code::bad_rule, "one axis is moved twice");
  if (node.entries.empty()) section.refuse(node, Code::bad_rule, "`moves` names at least one axis");
  return cells;
}

Spread read_spread(const Node& node, const Section& section) {
  const std::string text =
      scalar_text(section.document, node, section.findings, "a mean and spread");
  const auto parsed = parse_spread(text);
  if (const auto* error = std::get_if<QuantityError>(&parsed)) {
    section.refuse(node, Code::bad_quantity, "`" + text + "`: " + error->what,
                   "expected " + error->expected);
    return {0.0, 1.0};
  }
  return std::get<Spread>(parsed);
}

const std::vector<Node>& list_items(const Node& node, std::string_view what,
                                    const Section& section) {
  if (node.type != Node::Type::list) {
    section.refuse(node, Code::wrong_shape, "`" + std::string(what) + "` must be a list",
                   "each of its items behind a dash");
  }
  return node.items;
}

bool read_flag(Fields& fields, std::string_view key, const Section& section) {
  const Node* node = fields.optional(key);
  if (node == nullptr || node->text == "no") return false;
  if (node->text != "yes") {
    section.refuse(*node, Code::bad_rule, "`" + std::string(key) + "` is yes or no");
  }
  return true;
}

void refuse_no_kind(Fields& fields, const Section& section) {
  const Node* const kind = fields.optional("kind");
  if (kind == nullptr || kind->type != Node::Type::scalar || !kind->text.empty()) return;
  section.refuse(*kind, Code::unknown_name, "`kind` says nothing",
                 "length, mass, angle, pressure, ratio or count");
}

std::array<std::string, 2> read_per_direction(Fields& fields, std::string_view key,
                                              const std::array<std::string, 2>& directions,
                                              const Section& section) {
  const Node* node = fields.required(key);
  if (node == nullptr || directions[0].empty()) return {};
  Fields inner(section.document, *node, section.findings, "`" + std::string(key) + "`");
  std::array<std::string, 2> texts{inner.text(directions[0]), inner.text(directions[1])};
  inner.finish();
  return texts;
}

void check_names(const Node* node, std::string_view what, const std::vector<std::string>& texts,
                 const std::vector<std::string>& known, const Section& section) {
  for (const std::string& text : texts) {
    if (std::find(known.begin(), known.end(), text) != known.end()) continue;
    section.refuse(*node, Code::unknown_name, "`" + text + "` is not " + std::string(what),
                   suggestion(text, known));
  }
}

}  // namespace kartwright
