#include "engine/knowledge/load.h"

#include <algorithm>
#include <filesystem>
#include <iterator>
#include <map>
#include <set>
#include <tuple>

#include "engine/knowledge/section_reader.h"

namespace kartwright {

namespace {

void read_file(const Section& section, Pack& pack) {
  const Node& root = section.document.root;
  if (root.type == Node::Type::null) return;
  Fields fields(section.document, root, section.findings, "a rule file");
  // A file has one subject, or lists of many things.
  if (root.find("adjustment") != nullptr) {
    read_adjustment(fields, section, pack);
  } else if (root.find("fault") != nullptr) {
    read_fault(fields, section, pack);
  } else if (root.find("track") != nullptr) {
    read_track(fields, section, pack);
  } else {
    read_lists(fields, section, pack);
  }
  if (const Node* words = fields.optional("words")) read_words(*words, section, pack);
  if (const Node* readings = fields.optional("readings")) read_readings(*readings, section, pack);
  fields.finish();
}

/// Puts `more` behind `all`; what has the id of something there takes its place.
template <typename T>
void replace_or_add(std::vector<T>& all, std::vector<T>&& more) {
  for (T& item : more) {
    const auto same =
        std::find_if(all.begin(), all.end(), [&](const T& t) { return t.id == item.id; });
    if (same == all.end()) {
      all.push_back(std::move(item));
    } else {
      *same = std::move(item);
    }
  }
}

template <typename T>
void sort_by_id(std::vector<T>& all) {
  std::sort(all.begin(), all.end(), [](const T& a, const T& b) { return a.id < b.id; });
}

template <typename T>
void append(std::vector<T>& all, std::vector<T>&& more) {
  std::move(more.begin(), more.end(), std::back_inserter(all));
}

void merge(Pack& pack, Pack&& more) {
  append(pack.correlations, std::move(more.correlations));
  append(pack.phrases, std::move(more.phrases));
  if (more.hearing.fair > 0.0) pack.hearing = std::move(more.hearing);
  if (!more.look_over.empty()) pack.look_over = std::move(more.look_over);
  replace_or_add(pack.symptoms, std::move(more.symptoms));
  replace_or_add(pack.tracks, std::move(more.tracks));
  replace_or_add(pack.facts, std::move(more.facts));
  replace_or_add(pack.derives, std::move(more.derives));
  replace_or_add(pack.readings, std::move(more.readings));
  replace_or_add(pack.adjustments, std::move(more.adjustments));
  replace_or_add(pack.faults, std::move(more.faults));
  replace_or_add(pack.measures, std::move(more.measures));
  replace_or_add(pack.dimensions, std::move(more.dimensions));
  replace_or_add(pack.cautions, std::move(more.cautions));
}

void sort_all(Pack& pack) {
  sort_by_id(pack.symptoms);
  sort_by_id(pack.tracks);
  sort_by_id(pack.facts);
  sort_by_id(pack.derives);
  sort_by_id(pack.readings);
  sort_by_id(pack.adjustments);
  sort_by_id(pack.faults);
  sort_by_id(pack.measures);
  sort_by_id(pack.dimensions);
  sort_by_id(pack.cautions);
  for (Adjustment& adjustment : pack.adjustments) sort_by_id(adjustment.effects);
  for (Fault& fault : pack.faults) sort_by_id(fault.evidence);
  std::stable_sort(pack.correlations.begin(), pack.correlations.end(),
                   [](const Correlation& x, const Correlation& y) {
                     return std::tie(x.a, x.b) < std::tie(y.a, y.b);
                   });
}

/// Ids defined twice within one layer. Rules share one space of ids, so that `explain` finds one
/// thing.
class IdCheck {
 public:
  explicit IdCheck(Findings& findings) : findings_(findings) {}

  void of(const Pack& pack) {
    for (const Symptom& s : pack.symptoms) {
      once("symptom", s.id, s.source);
      if (s.reading) once("rule", s.reading->id, s.reading->source);
    }
    for (const TrackState& t : pack.tracks) once("track", t.id, t.source);
    for (const FactDef& f : pack.facts) once("fact", f.id, f.source);
    for (const Adjustment& a : pack.adjustments) {
      once("adjustment", a.id, a.source);
      for (const EffectRule& e : a.effects) once("rule", e.id, e.source);
    }
    for (const Fault& f : pack.faults) {
      once("fault", f.id, f.source);
      for (const EvidenceRule& e : f.evidence) once("rule", e.id, e.source);
    }
    for (const DeriveRule& r : pack.derives) once("rule", r.id, r.source);
    for (const ReadingRule& r : pack.readings) once("rule", r.id, r.source);
  }

 private:
  void once(const std::string& space, const std::string& id, const Source& source) {
    const auto [first, fresh] = seen_.emplace(std::pair(space, id), source);
    if (fresh) return;
    findings_.add({.code = Code::duplicate_id,
                   .file = source.file,
                   .span = {.line = source.line, .column = 1},
                   .message = "the " + space + " id `" + id + "` is used twice",
                   .help = "the first stands at " + first->second.text()});
  }

  Findings& findings_;
  std::map<std::pair<std::string, std::string>, Source> seen_;
};

Pack read_layer(const std::vector<Document>& documents, const Names& names,
                const std::vector<Axis>& axes, Findings& findings) {
  Pack pack;
  for (const Document& document : documents) {
    read_file({.document = document, .names = names, .axes = axes, .findings = findings}, pack);
  }
  IdCheck(findings).of(pack);
  return pack;
}

}  // namespace

Pack load_pack(const std::vector<Document>& base, const std::vector<Document>& own) {
  Findings findings;
  std::vector<const Document*> both;
  for (const Document& document : base) both.push_back(&document);
  for (const Document& document : own) both.push_back(&document);
  const Names names = gather_names(both);
  const std::vector<Axis> axes = read_axes(both, findings);
  Pack pack = read_layer(base, names, axes, findings);
  merge(pack, read_layer(own, names, axes, findings));
  pack.axes = axes;
  sort_all(pack);
  if (axes.empty()) {
    findings.add({.code = Code::no_axes, .message = "the rule pack names no axes"});
  }
  findings.throw_if_errors();
  return pack;
}

std::vector<Document> read_rule_folder(const std::string& folder) {
  namespace fs = std::filesystem;
  std::error_code error;
  std::set<std::string> paths;
  fs::recursive_directory_iterator found(folder, error);
  for (; !error && found != fs::recursive_directory_iterator(); found.increment(error)) {
    if (found->path().extension() == ".yaml") paths.insert(found->path().string());
  }
  if (error) {
    throw InputError(
        {Diagnostic{.code = Code::cannot_read, .file = folder, .message = error.message()}});
  }
  std::vector<Document> documents;
  for (const std::string& path : paths) documents.push_back(read_document(path));
  return documents;
}

}  // namespace kartwright
