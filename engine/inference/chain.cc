#include "engine/inference/chain.h"

#include <algorithm>
#include <cstddef>
#include <utility>

namespace kartwright {
namespace {

std::size_t at(Atom atom) { return static_cast<std::size_t>(atom); }

struct Edge {
  Atom to = 0;
  bool negative = false;
};

/// From premise to head.
std::vector<std::vector<Edge>> edges_of(const Program& program) {
  std::vector<std::vector<Edge>> edges(at(program.atoms));
  for (const Clause& clause : program.clauses) {
    for (const Atom need : clause.needs) edges[at(need)].push_back({clause.head, false});
    for (const Atom absent : clause.without) edges[at(absent)].push_back({clause.head, true});
  }
  return edges;
}

/// Strongly connected components (Tarjan 1972), without recursion since rule sets may chain deeply.
/// Components come out heads first, so their numbers fall along edges.
class Components {
 public:
  explicit Components(const std::vector<std::vector<Edge>>& edges)
      : edges_(edges), index_(edges.size(), -1), low_(edges.size(), 0), of_(edges.size(), -1) {
    for (std::size_t atom = 0; atom < edges.size(); ++atom) {
      if (index_[atom] < 0) walk(static_cast<Atom>(atom));
    }
  }

  int of(Atom atom) const { return of_[at(atom)]; }
  int count() const { return count_; }

 private:
  void enter(Atom atom) {
    index_[at(atom)] = low_[at(atom)] = next_++;
    open_.push_back(atom);
    path_.emplace_back(atom, 0);
  }

  void walk(Atom root) {
    enter(root);
    while (!path_.empty()) {
      auto& [atom, next_edge] = path_.back();
      if (next_edge == edges_[at(atom)].size()) {
        leave(atom);
        continue;
      }
      const Atom to = edges_[at(atom)][next_edge++].to;
      if (index_[at(to)] < 0) {
        enter(to);
      } else if (of_[at(to)] < 0) {
        low_[at(atom)] = std::min(low_[at(atom)], index_[at(to)]);
      }
    }
  }

  void leave(Atom atom) {
    path_.pop_back();
    if (!path_.empty()) {
      int& below = low_[at(path_.back().first)];
      below = std::min(below, low_[at(atom)]);
    }
    if (low_[at(atom)] != index_[at(atom)]) return;
    Atom member = -1;
    do {
      member = open_.back();
      open_.pop_back();
      of_[at(member)] = count_;
    } while (member != atom);
    ++count_;
  }

  const std::vector<std::vector<Edge>>& edges_;
  std::vector<int> index_, low_, of_;
  std::vector<Atom> open_;
  std::vector<std::pair<Atom, std::size_t>> path_;
  int next_ = 0, count_ = 0;
};

/// A way from `from` to `to` inside one component, as the atoms along it; breadth first, so a short
/// one.
std::vector<Atom> way(const std::vector<std::vector<Edge>>& edges, const Components& components,
                      Atom from, Atom to) {
  std::vector<Atom> came_from(edges.size(), -1);
  std::vector<Atom> queue{from};
  came_from[at(from)] = from;
  for (std::size_t next = 0; next < queue.size() && came_from[at(to)] < 0; ++next) {
    for (const Edge& edge : edges[at(queue[next])]) {
      if (components.of(edge.to) != components.of(from) || came_from[at(edge.to)] >= 0) continue;
      came_from[at(edge.to)] = queue[next];
      queue.push_back(edge.to);
    }
  }
  std::vector<Atom> path{to};
  while (path.back() != from) path.push_back(came_from[at(path.back())]);
  std::reverse(path.begin(), path.end());
  return path;
}

/// The lowest layer of each component: above what it needs, strictly above what it needs absent.
std::vector<int> layer_of_components(const std::vector<std::vector<Edge>>& edges,
                                     const Components& components) {
  std::vector<std::vector<Atom>> members(static_cast<std::size_t>(components.count()));
  for (std::size_t atom = 0; atom < edges.size(); ++atom) {
    members[at(components.of(static_cast<Atom>(atom)))].push_back(static_cast<Atom>(atom));
  }
  std::vector<int> layer(members.size(), 0);
  for (std::size_t c = members.size(); c-- > 0;) {
    for (const Atom atom : members[c]) {
      for (const Edge& edge : edges[at(atom)]) {
        int& above = layer[at(components.of(edge.to))];
        above = std::max(above, layer[c] + (edge.negative ? 1 : 0));
      }
    }
  }
  return layer;
}

/// Fires the clauses of one layer after another, each until nothing new follows. What a lower layer
/// still waits for never comes, so nothing need be cleared between two layers.
class Run {
 public:
  Run(const Program& program, Model& model)
      : program_(program), model_(model), waiting_(at(program.atoms)) {}

  void layer(const std::vector<int>& clauses) {
    for (const int clause : clauses) prepare(clause);
    while (!ready_.empty()) {
      std::sort(ready_.begin(), ready_.end());
      const std::vector<int> round = std::exchange(ready_, {});
      for (const int clause : round) conclude(clause);
    }
  }

 private:
  const Clause& clause(int number) const {
    return program_.clauses[static_cast<std::size_t>(number)];
  }

  void prepare(int number) {
    const std::vector<Atom>& without = clause(number).without;
    const bool blocked =
        std::any_of(without.begin(), without.end(), [this](Atom a) { return model_.holds[at(a)]; });
    if (blocked) return;
    int missing = 0;
    for (const Atom need : clause(number).needs) {
      if (model_.holds[at(need)]) continue;
      waiting_[at(need)].push_back(slots_.size());
      ++missing;
    }
    if (missing == 0) {
      ready_.push_back(number);
    } else {
      slots_.push_back({number, missing});
    }
  }

  void conclude(int number) {
    const Atom head = clause(number).head;
    if (model_.holds[at(head)]) return;
    model_.holds[at(head)] = true;
    model_.maker[at(head)] = number;
    for (const std::size_t slot : waiting_[at(head)]) {
      if (--slots_[slot].missing == 0) ready_.push_back(slots_[slot].clause);
    }
  }

  struct Slot {
    int clause;
    int missing;
  };
  const Program& program_;
  Model& model_;
  std::vector<std::vector<std::size_t>> waiting_;
  std::vector<Slot> slots_;
  std::vector<int> ready_;
};

}  // namespace

std::variant<Layers, NegationCycle> stratify(const Program& program) {
  const std::vector<std::vector<Edge>> edges = edges_of(program);
  const Components components(edges);
  for (std::size_t from = 0; from < edges.size(); ++from) {
    for (const Edge& edge : edges[from]) {
      const auto atom = static_cast<Atom>(from);
      if (!edge.negative || components.of(atom) != components.of(edge.to)) continue;
      NegationCycle cycle{atom};
      for (const Atom step : way(edges, components, edge.to, atom)) cycle.push_back(step);
      return cycle;
    }
  }
  const std::vector<int> layer = layer_of_components(edges, components);
  Layers layers;
  for (std::size_t i = 0; i < program.clauses.size(); ++i) {
    const auto at_layer = at(layer[at(components.of(program.clauses[i].head))]);
    if (layers.size() <= at_layer) layers.resize(at_layer + 1);
    layers[at_layer].push_back(static_cast<int>(i));
  }
  return layers;
}

Model forward_chain(const Program& program, const Layers& layers, const std::vector<Atom>& given) {
  Model model{.holds = std::vector<bool>(at(program.atoms), false),
              .maker = std::vector<int>(at(program.atoms), -1)};
  for (const Atom atom : given) model.holds[at(atom)] = true;
  Run run(program, model);
  for (const std::vector<int>& clauses : layers) run.layer(clauses);
  return model;
}

}  // namespace kartwright
