// chain.h - forward chaining over ground rules with negation as failure.
//
// The rules are layered so that a fact is settled before its absence is relied on (Apt, Blair and
// Walker 1988, stratified programs); what is concluded is the perfect model, whatever the order of
// rules or facts. Work is linear in the size of the rules: every rule counts down the premises it
// still waits for (Dowling and Gallier 1984).

#pragma once

#include <cstddef>
#include <span>
#include <variant>
#include <vector>

namespace kartwright {

/// A proposition, numbered from 0.
using Atom = int;

/// `head` holds where all of `needs` hold and none of `without` do.
struct Clause {
  Atom head = 0;
  std::vector<Atom> needs = {};
  std::vector<Atom> without = {};
};

struct Program {
  int atoms = 0;
  std::vector<Clause> clauses;
};

/// Lists of different lengths, stored end to end.
template <typename T>
struct Rows {
  std::vector<int> ends;  ///< by row: where it ends in `items`
  std::vector<T> items;

  std::size_t size() const { return ends.size(); }
  std::span<const T> operator[](std::size_t row) const {
    const int start = row == 0 ? 0 : ends[row - 1];
    return {items.data() + start, items.data() + ends[row]};
  }
};

/// A program in layers, indexed once so that chaining reads it from end to end. Its clauses are
/// counted by position: from the lowest layer up, and by number within one.
struct Layers {
  std::vector<int> ends;      ///< by layer, lowest first: the position after its last clause
  std::vector<int> numbers;   ///< by position: index into Program::clauses
  std::vector<Atom> heads;    ///< by position
  Rows<Atom> needs, without;  ///< by position
  Rows<int> waiting;          ///< by atom: the positions that need it, ascending

  std::size_t size() const { return ends.size(); }
};

/// Atoms of a cycle that passes through a negation, first repeated last.
using NegationCycle = std::vector<Atom>;

/// The layers, or a cycle that makes them impossible. REQUIRES: atoms of the clauses lie in
/// 0..atoms-1.
std::variant<Layers, NegationCycle> stratify(const Program& program);

/// What holds, and why.
struct Model {
  std::vector<bool> holds;  ///< by atom
  std::vector<int>
      maker;  ///< by atom: the clause that concluded it, or -1 where it was given or does not hold
};

/// The perfect model of the program with `given` holding from the start. Of several clauses that
/// conclude an atom in the same round the one with the lowest number is kept as its maker.
/// REQUIRES: the layers are this program's.
Model forward_chain(const Program& program, const Layers& layers, const std::vector<Atom>& given);

}  // namespace kartwright
