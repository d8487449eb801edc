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

template <typename T>
void append(std::vector<T>& all, std::vector<T>&& more) {
  std::move(more.begin(), more.end(), std::back_inserter(all));
}

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
  } else if (root.find("gauge") != nullptr) {
    read_gauge(fields, section, pack);
  } else {
    read_lists(fields, section, pack);
  }
  if (const Node* words = fields.optional("words")) read_words(*words, section, pack);
  if (const Node* classes = fields.optional("word-classes")) {
    read_word_classes(*classes, section, pack);
  }
  append(pack.light_words, fields.texts_or_none("light-words"));
  append(pack.ordinary_words, fields.texts_or_none("ordinary-words"));
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

void merge(Pack& pack, Pack&& more) {
  append(pack.correlations, std::move(more.correlations));
  append(pack.phrases, std::move(more.phrases));
  append(pack.light_words, std::move(more.light_words));
  append(pack.ordinary_words, std::move(more.ordinary_words));
  replace_or_add(pack.word_classes, std::move(more.word_classes));
  if (more.hearing.fair > 0.0) pack.hearing = std::move(more.hearing);
  if (more.learning.drift > 0.0) pack.learning = more.learning;
  if (!more.day.empty()) pack.day = std::move(more.day);
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
  replace_or_add(pack.quantities, std::move(more.quantities));
  replace_or_add(pack.cautions, std::move(more.cautions));
  replace_or_add(pack.properties, std::move(more.properties));
  replace_or_add(pack.gauges, std::move(more.gauges));
  replace_or_add(pack.drills.levels, std::move(more.drills.levels));
  replace_or_add(pack.drills.cases, std::move(more.drills.cases));
  replace_or_add(pack.drills.words, std::move(more.drills.words));
  replace_or_add(pack.drills.ends, std::move(more.drills.ends));
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
  sort_by_id(pack.quantities);
  sort_by_id(pack.cautions);
  sort_by_id(pack.properties);
  sort_by_id(pack.gauges);
  std::stable_sort(pack.drills.levels.begin(), pack.drills.levels.end(),
                   [](const DrillLevel& x, const DrillLevel& y) {
                     return std::tie(x.place, x.id) < std::tie(y.place, y.id);
                   });
  sort_by_id(pack.drills.cases);
  sort_by_id(pack.drills.words);
  sort_by_id(pack.drills.ends);
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
    for (const DayStage& d : pack.day) once("stage", d.id, d.source);
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
    for (const Axis& a : pack.axes) once("axis", a.id, a.source);
    for (const MeasureDef& m : pack.measures) once("measure", m.id, m.source);
    for (const MeasureDef& d : pack.dimensions) once("dimension", d.id, d.source);
    for (const QuantityPage& q : pack.quantities) once("quantity", q.id, q.source);
    for (const Caution& c : pack.cautions) once("caution", c.id, c.source);
    for (const Property& p : pack.properties) once("property", p.id, p.source);
    for (const Gauge& g : pack.gauges) {
      once("gauge", g.id, g.source);
      for (const GaugeVerdict& v : g.verdicts) once("rule", v.id, v.source);
    }
    for (const DrillLevel& l : pack.drills.levels) once("level", l.id, l.source);
    for (const DrillCase& c : pack.drills.cases) once("drill", c.id, c.source);
    for (const DrillWords& w : pack.drills.words) once("driver's words", w.id, w.source);
    for (const DrillEnd& e : pack.drills.ends) once("end", e.id, e.source);
  }

 private:
  void once(const std::string& space, const std::string& id, const Source& source) {
    if (id.empty()) return;  // said already
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

/// One layer of files, and the axes of that layer alone.
struct Layer {
  const std::vector<Document>& documents;
  std::vector<Axis> axes;
};

Pack read_layer(const Layer& layer, const Names& names, const std::vector<Axis>& axes,
                Findings& findings) {
  Pack pack;
  for (const Document& document : layer.documents) {
    read_file({.document = document, .names = names, .axes = axes, .findings = findings}, pack);
  }
  pack.axes = layer.axes;
  IdCheck(findings).of(pack);
  check_neighbours(pack.symptoms, findings);
  return pack;
}

std::vector<Axis> merged_axes(const Layer& base, const Layer& own) {
  std::vector<Axis> axes = base.axes;
  replace_or_add(axes, std::vector<Axis>(own.axes));
  std::sort(axes.begin(), axes.end(), [](const Axis& a, const Axis& b) {
    return std::tie(a.family, a.phase) < std::tie(b.family, b.phase);
  });
  return axes;
}

/// What each notch of severity reads on what a row names.
std::map<std::string, double> reads(const SymptomReading& reading) {
  std::map<std::string, double> out;
  for (const RowTerm& term : reading.row) out[term.axis] += term.factor * reading.value;
  return out;
}

/// True where two symptoms read on the same axes, each the other way.
bool opposite(const Symptom& a, const Symptom& b) {
  if (!a.reading || !b.reading) return false;
  const auto one = reads(*a.reading);
  const auto other = reads(*b.reading);
  return std::equal(
      one.begin(), one.end(), other.begin(), other.end(),
      [](const auto& x, const auto& y) { return x.first == y.first && x.second * y.second < 0.0; });
}

/// Symptoms that are one question with another must be its opposite, and in one pair only.
void check_pairs(const Pack& pack, Findings& findings) {
  std::map<std::string, std::string> pairs;  // by both
  for (const Symptom& symptom : pack.symptoms) {
    const Symptom* other = symptom.against.empty() ? nullptr : pack.symptom(symptom.against);
    if (other == nullptr) continue;
    std::string wrong;
    if (!opposite(symptom, *other)) wrong = " do not read the opposite of each other";
    const bool fresh =
        pairs.emplace(symptom.id, other->id).second && pairs.emplace(other->id, symptom.id).second;
    if (wrong.empty() && !fresh) wrong = " are not the only pair that one of them is in";
    if (wrong.empty()) continue;
    findings.add({.code = Code::bad_rule,
                  .file = symptom.source.file,
                  .span = {.line = symptom.source.line, .column = 1},
                  .message = "`" + symptom.id + "` and `" + other->id + "`" + wrong,
                  .help = "`against` stands at one of two symptoms that read on the same axes, one "
                          "of too much and one of too little"});
  }
}

/// What only the whole pack can be asked.
void check_whole(const Pack& pack, Findings& findings) {
  if (pack.axes.empty()) {
    findings.add({.code = Code::no_axes, .message = "the rule pack names no axes"});
  }
  if (findings.has_errors()) return;
  IdCheck(findings).of(pack);  // a rule of one layer may have the id of another kind of rule
  check_pairs(pack, findings);
  const bool reads = std::any_of(pack.symptoms.begin(), pack.symptoms.end(),
                                 [](const Symptom& s) { return s.reading.has_value(); });
  if (reads && pack.hearing.fair == 0.0) {
    findings.add({.code = Code::missing_key,
                  .message = "the rule pack reads symptoms but has no `hearing`",
                  .help = "how far the driver's words are trusted"});
  }
}

}  // namespace

Pack load_pack(const std::vector<Document>& base, const std::vector<Document>& own) {
  Findings findings;
  std::vector<const Document*> both;
  for (const Document& document : base) both.push_back(&document);
  for (const Document& document : own) both.push_back(&document);
  const Names names = gather_names(both);
  const Layer lower{base, read_axes(base, findings)};
  const Layer upper{own, read_axes(own, findings)};
  const std::vector<Axis> axes = merged_axes(lower, upper);
  Pack pack = read_layer(lower, names, axes, findings);
  merge(pack, read_layer(upper, names, axes, findings));
  pack.axes = axes;
  sort_all(pack);
  check_whole(pack, findings);
  findings.throw_if_errors();
  return pack;
}

namespace {

std::vector<Document> read_folder(const std::string& folder, bool cases) {
  namespace fs = std::filesystem;
  std::error_code error;
  std::set<std::string> paths;
  fs::recursive_directory_iterator found(folder, error);
  for (; !error && found != fs::recursive_directory_iterator(); found.increment(error)) {
    const std::string path = found->path().string();
    if (path.ends_with(".yaml") && path.ends_with(".cases.yaml") == cases) paths.insert(path);
  }
  if (error) {
    throw InputError(
        {Diagnostic{.code = Code::cannot_read, .file = folder, .message = error.message()}});
  }
  std::vector<Document> documents;
  for (const std::string& path : paths) documents.push_back(read_document(path));
  return documents;
}

}  // namespace

std::vector<Document> read_rule_folder(const std::string& folder) {
  return read_folder(folder, false);
}

std::vector<Document> read_case_folder(const std::string& folder) {
  return read_folder(folder, true);
}

}  // namespace kartwright
