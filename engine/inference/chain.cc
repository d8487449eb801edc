#include "engine/inference/chain.h"

#include <algorithm>
#include <cstddef>
#include <limits>
#include <numeric>
#include <utility>

namespace kartwright {
namespace {

std::size_t at(Atom atom) { return static_cast<std::size_t>(atom); }

struct Edge {
  Atom to = 0;
  bool negative = false;
};

/// Collects rows from whatever `each` gives to put(row, item), which is asked twice.
template <typename T, typename Each>
Rows<T> rows_of(std::size_t count, Each each) {
  Rows<T> rows;
  rows.ends.assign(count + 1, 0);
  each([&](std::size_t row, const T&) { ++rows.ends[row + 1]; });
  std::partial_sum(rows.ends.begin(), rows.ends.end(), rows.ends.begin());
  rows.items.resize(at(rows.ends.back()));
  // Each entry starts as where its row begins, and is where it ends once the row is full.
  rows.ends.pop_back();
  each([&](std::size_t row, const T& item) { rows.items[at(rows.ends[row]++)] = item; });
  return rows;
}

/// From premise to head.
using Edges = Rows<Edge>;

Edges edges_of(const Program& program) {
  return rows_of<Edge>(at(program.atoms), [&](auto put) {
    for (const Clause& clause : program.clauses) {
      for (const Atom need : clause.needs) put(at(need), Edge{clause.head, false});
      for (const Atom absent : clause.without) put(at(absent), Edge{clause.head, true});
    }
  });
}

/// Strongly connected components (Tarjan 1972), without recursion since rule sets may chain deeply.
/// Components come out heads first, so their numbers fall along edges.
class Components {
 public:
  explicit Components(const Edges& edges)
      : edges_(edges), index_(edges.size(), -1), low_(edges.size(), 0), of_(edges.size(), -1) {
    for (std::size_t atom = 0; atom < edges.size(); ++atom) {
      if (index_[atom] < 0) walk(static_cast<Atom>(atom));
    }
  }

  int of(Atom atom) const { return of_[at(atom)]; }
  int count() const { return count_; }
  /// All atoms, component by component, heads first.
  const std::vector<Atom>& order() const { return order_; }

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
      order_.push_back(member);
    } while (member != atom);
    ++count_;
  }

  const Edges& edges_;
  std::vector<int> index_, low_, of_;
  std::vector<Atom> open_, order_;
  std::vector<std::pair<Atom, std::size_t>> path_;
  int next_ = 0, count_ = 0;
};

/// A way from `from` to `to` inside one component, as the atoms along it; breadth first, so a short
/// one.
std::vector<Atom> way(const Edges& edges, const Components& components, Atom from, Atom to) {
  std::vector<Atom> came_from(edges.size(), -1);
  std::vector<Atom> queue{from};
  came_from[at(from)] = from;
  for (std::size_t next = 0; next < queue.size(); ++next) {
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
std::vector<int> layer_of_components(const Edges& edges, const Components& components) {
  std::vector<int> layer(at(components.count()), 0);
  const std::vector<Atom>& order = components.order();
  for (std::size_t i = order.size(); i-- > 0;) {
    const int below = layer[at(components.of(order[i]))];
    for (const Edge& edge : edges[at(order[i])]) {
      int& above = layer[at(components.of(edge.to))];
      above = std::max(above, below + (edge.negative ? 1 : 0));
    }
  }
  return layer;
}

/// A list of each clause, by position.
Rows<Atom> premises(const Program& program, const std::vector<int>& numbers,
                    std::vector<Atom> Clause::*list) {
  Rows<Atom> rows;
  for (const int number : numbers) {
    const std::vector<Atom>& atoms = program.clauses[at(number)].*list;
    rows.items.insert(rows.items.end(), atoms.begin(), atoms.end());
    rows.ends.push_back(static_cast<int>(rows.items.size()));
  }
  return rows;
}

/// Indexes a program whose clauses lie in the layers of `layer_of`, by clause.
Layers layered(const Program& program, const std::vector<int>& layer_of) {
  Layers layers;
  const int highest = layer_of.empty() ? -1 : *std::max_element(layer_of.begin(), layer_of.end());
  Rows<int> by_layer = rows_of<int>(at(highest + 1), [&](auto put) {
    for (std::size_t i = 0; i < layer_of.size(); ++i) put(at(layer_of[i]), static_cast<int>(i));
  });
  layers.ends = std::move(by_layer.ends);
  layers.numbers = std::move(by_layer.items);
  for (const int number : layers.numbers) layers.heads.push_back(program.clauses[at(number)].head);
  layers.needs = premises(program, layers.numbers, &Clause::needs);
  layers.without = premises(program, layers.numbers, &Clause::without);
  layers.waiting = rows_of<int>(at(program.atoms), [&](auto put) {
    for (std::size_t i = 0; i < layers.heads.size(); ++i) {
      for (const Atom need : layers.needs[i]) put(at(need), static_cast<int>(i));
    }
  });
  return layers;
}

/// Fires the clauses of one layer after another, each until nothing new follows.
class Chaining {
 public:
  Chaining(const Layers& layers, Model& model)
      : layers_(layers), model_(model), missing_(layers.heads.size()) {}

  /// The layer of the positions from `begin` to before `end`.
  void layer(int begin, int end) {
    for (int position = begin; position < end; ++position) {
      missing_[at(position)] = count_missing(at(position));
      if (missing_[at(position)] == 0) ready_.push_back(position);
    }
    while (!ready_.empty()) {
      conclude();
      wake(end);
    }
  }

 private:
  bool holds(Atom atom) const { return model_.holds[at(atom)]; }

  /// How many premises a clause waits for; so many that they never come where one that must be
  /// absent holds.
  int count_missing(std::size_t position) const {
    for (const Atom absent : layers_.without[position]) {
      if (holds(absent)) return std::numeric_limits<int>::max();
    }
    int missing = 0;
    for (const Atom need : layers_.needs[position]) missing += holds(need) ? 0 : 1;
    return missing;
  }

  /// Fires what is ready: one round. What it concludes holds from the next round on.
  void conclude() {
    for (const int position : ready_) {
      const Atom head = layers_.heads[at(position)];
      if (holds(head)) continue;
      int& maker = model_.maker[at(head)];
      const int number = layers_.numbers[at(position)];
      if (maker < 0) fresh_.push_back(head);
      maker = maker < 0 ? number : std::min(maker, number);
    }
    ready_.clear();
  }

  /// Tells the clauses of this layer what is new. Those above count for themselves.
  void wake(int end) {
    for (const Atom atom : fresh_) {
      model_.holds[at(atom)] = true;
      for (const int position : layers_.waiting[at(atom)]) {
        if (position >= end) break;
        if (--missing_[at(position)] == 0) ready_.push_back(position);
      }
    }
    fresh_.clear();
  }

  const Layers& layers_;
  Model& model_;
  std::vector<int> missing_;  // by position
  std::vector<int> ready_;
  std::vector<Atom> fresh_;
};

}  // namespace

std::variant<Layers, NegationCycle> stratify(const Program& program) {
  const Edges edges = edges_of(program);
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
  std::vector<int> layer_of;
  layer_of.reserve(program.clauses.size());
  for (const Clause& clause : program.clauses) {
    layer_of.push_back(layer[at(components.of(clause.head))]);
  }
  return layered(program, layer_of);
}

Model forward_chain(const Program& program, const Layers& layers, const std::vector<Atom>& given) {
  Model model{.holds = std::vector<bool>(at(program.atoms), false),
              .maker = std::vector<int>(at(program.atoms), -1)};
  for (const Atom atom : given) model.holds[at(atom)] = true;
  Chaining run(layers, model);
  int begin = 0;
  for (const int end : layers.ends) {
    run.layer(begin, end);
    begin = end;
  }
  return model;
}

}  // namespace kartwright
