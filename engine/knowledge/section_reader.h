// section_reader.h - what the readers of all rule files share: ids, provenance, rows, moves,
// spreads.

#pragma once

#include <array>
#include <string>
#include <vector>

#include "engine/document/fields.h"
#include "engine/knowledge/condition_reader.h"
#include "engine/knowledge/names.h"
#include "engine/knowledge/pack.h"

namespace kartwright {

/// Where one rule file is being read from and what may be named in it.
struct Section {
  const Document& document;
  const Names& names;
  const std::vector<Axis>& axes;  ///< complete before any other section is read
  Findings& findings;

  Source source(const Node& node) const { return {document.name, node.span.line}; }
  void refuse(const Node& node, Code code, std::string message, std::string help = {}) const;
};

/// Reads id, because, provenance and status into a rule.
void read_rule(Fields& fields, const Section& section, Rule& rule);
Provenance read_provenance(Fields& fields, const Section& section);

/// `when:`, or a condition that always holds.
Condition read_when(Fields& fields, const Section& section);

/// `row: {front-grip: 1, ...}`; names are axes or families.
std::vector<RowTerm> read_row(const Node& node, const Section& section);

/// `moves: {rear-grip: -0.5 ± 0.2}`; a family names every phase. Sorted by axis.
std::vector<Cell> read_moves(const Node& node, const Section& section);

Spread read_spread(const Node& node, const Section& section);

/// The items of a list; anything else is reported and has none.
const std::vector<Node>& list_items(const Node& node, std::string_view what,
                                    const Section& section);

/// `yes` is true, `no` or nothing is false; anything else is reported.
bool read_flag(Fields& fields, std::string_view key, const Section& section);

/// Reports a `kind` that is there and says nothing.
void refuse_no_kind(Fields& fields, const Section& section);

/// The text under each of two directions, `{wider: ..., narrower: ...}`.
std::array<std::string, 2> read_per_direction(Fields& fields, std::string_view key,
                                              const std::array<std::string, 2>& directions,
                                              const Section& section);

/// Reports names that are not known.
void check_names(const Node* node, std::string_view what, const std::vector<std::string>& texts,
                 const std::vector<std::string>& known, const Section& section);

/// The axes of one layer, as they come. An axis named twice is reported.
std::vector<Axis> read_axes(const std::vector<Document>& documents, Findings& findings);

void read_symptom(const Node& node, const Section& section, Pack& pack);
/// Reports symptoms of one layer that name another of it as a neighbour and are not named by it.
/// What a crew says of a built-in symptom need not be said there.
void check_neighbours(const std::vector<Symptom>& symptoms, Findings& findings);
void read_lists(Fields& fields, const Section& section, Pack& pack);
void read_words(const Node& list, const Section& section, Pack& pack);
void read_word_classes(const Node& list, const Section& section, Pack& pack);
void read_adjustment(Fields& fields, const Section& section, Pack& pack);
void read_fault(Fields& fields, const Section& section, Pack& pack);
void read_track(Fields& fields, const Section& section, Pack& pack);
void read_gauge(Fields& fields, const Section& section, Pack& pack);
void read_readings(const Node& list, const Section& section, Pack& pack);
void read_drills(Fields& fields, const Section& section, Pack& pack);
void read_properties(const Node& list, const Section& section, Pack& pack);

}  // namespace kartwright
