#include "tests/bench/peers_chain.h"

#include <algorithm>
#include <sstream>
#include <stdexcept>
#include <string>

#include "engine/inference/chain.h"
#include "tests/bench/stopwatch.h"
#include "tests/support/any.h"
#include "tests/support/clips.h"
#include "tests/support/ground_rules.h"
#include "tests/support/temp_folder.h"

namespace kartwright {
namespace {

constexpr std::uint64_t kSeed = 1;
constexpr int kLevelsOfAName = 3;  // of a name

GroundRules rules_of(const ChainSize& size) { return ground_rules(size.rules, size.facts, kSeed); }

/// The rules as a writer of CLIPS rules would lay them out: a fact type for each layer, facts by
/// name and level, the rules of a layer together. CLIPS loads this several times sooner than rules
/// in no order over facts that are one number.
class ClipsText {
 public:
  explicit ClipsText(const GroundRules& rules)
      : layer_of_(layers_by_raising(rules.program)),
        type_of_(static_cast<std::size_t>(rules.program.atoms), 0) {
    const std::vector<Clause>& clauses = rules.program.clauses;
    for (std::size_t i = 0; i < clauses.size(); ++i) type(clauses[i].head) = layer_of_[i] + 1;
    types_ = 1 + *std::max_element(type_of_.begin(), type_of_.end());
    for (int t = 0; t < types_; ++t)
      text_ += "(deftemplate " + name(t) + " (slot name) (slot lvl))\n";
    text_ += "(deffacts given";
    for (const Atom atom : rules.given) text_ += ' ' + fact(atom);
    text_ += ")\n";
    for (int layer = 0; layer < types_; ++layer) {
      for (std::size_t i = 0; i < clauses.size(); ++i) {
        if (layer_of_[i] == layer) add(clauses[i], static_cast<int>(i), layer);
      }
    }
  }

  const std::string& text() const { return text_; }

  /// Prints every fact as "fact s4 2".
  std::string list_facts() const {
    std::string all;
    for (int t = 0; t < types_; ++t) all += ' ' + name(t);
    return "(do-for-all-facts ((?f" + all +
           ")) TRUE (printout t \"fact \" ?f:name \" \" ?f:lvl crlf))\n";
  }

 private:
  static std::string name(int type) { return "a" + std::to_string(type); }
  int& type(Atom atom) { return type_of_[static_cast<std::size_t>(atom)]; }

  std::string fact(Atom atom) {
    return "(" + name(type(atom)) + " (name s" + std::to_string(atom / kLevelsOfAName) + ") (lvl " +
           std::to_string(atom % kLevelsOfAName) + "))";
  }

  void add(const Clause& clause, int number, int layer) {
    text_ += "(defrule r" + std::to_string(number) + " (declare (salience " +
             std::to_string(-layer) + "))";
    for (const Atom need : clause.needs) text_ += ' ' + fact(need);
    for (const Atom absent : clause.without) text_ += " (not " + fact(absent) + ")";
    text_ += " => (assert " + fact(clause.head) + "))\n";
  }

  std::vector<int> layer_of_, type_of_;
  int types_ = 0;
  std::string text_;
};

std::string batch(const ChainSize& size, const std::string& rules_path,
                  const std::string& list_facts) {
  std::string out = "(unwatch all)\n";
  for (int i = 0; i < size.loads; ++i) {
    out +=
        "(clear)\n(defglobal ?*a* = 0 ?*b* = 0 ?*c* = 0 ?*ok* = FALSE)\n"
        "(set-reset-globals FALSE)\n(bind ?*a* (time))\n(bind ?*ok* (load* \"" +
        rules_path +
        "\"))\n(bind ?*b* (time))\n(if (neq ?*ok* TRUE) then (exit 7))\n"
        "(printout t \"load \" (- ?*b* ?*a*) crlf)\n";
  }
  out += "(loop-for-count " + std::to_string(size.resets) +
         " (bind ?*a* (time)) (reset) (bind ?*b* (time)) (run) (bind ?*c* (time))"
         " (printout t \"reset \" (- ?*b* ?*a*) crlf \"run \" (- ?*c* ?*b*) crlf))\n";
  return out + list_facts + "(exit 0)\n";
}

/// Reads what the batch printed: times by name, then the facts.
ChainTimes read_times(const std::string& printed, const ChainSize& size) {
  std::vector<double> loads, resets, runs;
  ChainTimes times;
  std::istringstream lines(printed);
  for (std::string word; lines >> word;) {
    if (word == "load") lines >> loads.emplace_back();
    if (word == "reset") lines >> resets.emplace_back();
    if (word == "run") lines >> runs.emplace_back();
    if (word == "fact") {
      std::string symbol, level;
      lines >> symbol >> level;
      times.concluded.push_back(std::stoi(symbol.substr(1)) * kLevelsOfAName + std::stoi(level));
    }
  }
  const auto many = [](const std::vector<double>& all, int count) {
    return all.size() == static_cast<std::size_t>(count);
  };
  if (!many(loads, size.loads) || !many(resets, size.resets) || !many(runs, size.resets)) {
    throw std::runtime_error("clips gave other times than it was asked for");
  }
  times.load = *std::min_element(loads.begin(), loads.end());
  times.reset = *std::min_element(resets.begin(), resets.end());
  times.run = *std::min_element(runs.begin(), runs.end());
  std::sort(times.concluded.begin(), times.concluded.end());
  return times;
}

std::vector<Atom> holding(const Model& model) {
  std::vector<Atom> out;
  for (std::size_t i = 0; i < model.holds.size(); ++i) {
    if (model.holds[i]) out.push_back(static_cast<Atom>(i));
  }
  return out;
}

int goes_for(const ChainSize& size) { return std::max(200, 400'000 / size.rules); }

}  // namespace

ChainTimes time_clips(const ChainSize& size) {
  const GroundRules rules = rules_of(size);
  const ClipsText text(rules);
  const TempFolder folder;
  const std::string path = folder.write("rules.clp", text.text());
  constexpr int kSeconds = 1200;
  return read_times(
      run_clips(folder.write("time.bat", batch(size, path, text.list_facts())), kSeconds), size);
}

ChainTimes time_ours(const ChainSize& size) {
  const GroundRules rules = rules_of(size);
  ChainTimes times;
  std::size_t kept = 0;
  times.load = time_of(goes_for(size), [&] { kept += stratify(rules.program).index(); });
  const auto layers = std::get<Layers>(stratify(rules.program));
  Model model;
  times.run =
      time_of(goes_for(size), [&] { model = forward_chain(rules.program, layers, rules.given); });
  times.concluded = holding(model);
  if (kept != 0) throw std::runtime_error("the rules have no layers");
  return times;
}

double time_from_many_starts(const ChainSize& size) {
  const GroundRules rules = rules_of(size);
  const auto layers = std::get<Layers>(stratify(rules.program));
  Random random(kSeed);
  std::vector<std::vector<Atom>> starts(200);
  for (std::vector<Atom>& start : starts) {
    // The given facts come first among the atoms, with those that could have been given.
    const std::size_t symbols = static_cast<std::size_t>(rules.given.back()) + 1;
    while (start.size() < rules.given.size()) {
      start.push_back(one_in(random, 4) ? static_cast<Atom>(any_below(random, symbols))
                                        : any_of(random, rules.given));
    }
  }
  std::size_t next = 0;
  Model model;
  return time_of(goes_for(size), [&] {
    model = forward_chain(rules.program, layers, starts[next++ % starts.size()]);
  });
}

}  // namespace kartwright
