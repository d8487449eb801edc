// mutant.h - what a copy of the engine calls in place of its operators, so that one build holds
// every mutant. A site calls with the number of its first mutant; KARTWRIGHT_MUTANT says which one
// is on.
//
// No mutant evaluates an operand that the program would not, but for the second one of a changed
// `&&` or `||`, and that only where the program would come to it.

#pragma once

#include <cstdlib>
#include <initializer_list>
#include <type_traits>

namespace kart_mutant {

inline constexpr int kMost = 1 << 15;

inline unsigned char reached[kMost];  ///< by the number of a site's first mutant

inline const int active = [] {
  const char* text = std::getenv("KARTWRIGHT_MUTANT");
  return text == nullptr ? 0 : std::atoi(text);
}();

/// Which mutant of the site is on, 1 and up; 0 for none.
inline int variant(int site, int mutants) {
  reached[site] = 1;
  const int which = active - site;
  return which >= 0 && which < mutants ? which + 1 : 0;
}

inline bool on(int site) { return variant(site, 1) != 0; }

// --- arithmetic
// -----------------------------------------------------------------------------------

template <class A, class B>
auto plus(int site, A a, B b) -> decltype(a + b) {
  return on(site) ? a - b : a + b;
}

template <class A, class B>
auto minus(int site, A a, B b) -> decltype(a - b) {
  return on(site) ? a + b : a - b;
}

template <class A, class B>
auto times(int site, A a, B b) -> decltype(a * b) {
  return on(site) ? a / b : a * b;
}

template <class A, class B>
auto over(int site, A a, B b) -> decltype(a / b) {
  return on(site) ? a * b : a / b;
}

template <class A, class B>
auto modulo(int site, A a, B b) -> decltype(a % b) {
  return on(site) ? a * b : a % b;
}

template <class A, class B>
A& add_to(int site, A& a, B b) {
  return on(site) ? a -= b : a += b;
}

template <class A, class B>
A& take_from(int site, A& a, B b) {
  return on(site) ? a += b : a -= b;
}

template <class A, class B>
A& multiply(int site, A& a, B b) {
  return on(site) ? a /= b : a *= b;
}

template <class A, class B>
A& divide(int site, A& a, B b) {
  return on(site) ? a *= b : a /= b;
}

template <class A>
A& up(int site, A& a) {
  return on(site) ? --a : ++a;
}

template <class A>
A& down(int site, A& a) {
  return on(site) ? ++a : --a;
}

/// The sign dropped.
template <class A>
auto negative(int site, A a) -> decltype(-a) {
  return on(site) ? +a : -a;
}

template <int site, class A>
A largest(A a, A b) {
  return (a < b) == on(site) ? a : b;
}

template <int site, class A>
A smallest(A a, A b) {
  return (b < a) == on(site) ? a : b;
}

template <int site, class A>
A largest(std::initializer_list<A> all) {
  A best = *all.begin();
  for (const A& one : all) best = largest<site>(best, one);
  return best;
}

template <int site, class A>
A smallest(std::initializer_list<A> all) {
  A best = *all.begin();
  for (const A& one : all) best = smallest<site>(best, one);
  return best;
}

// --- comparisons: first the end moved, then the sense turned round
// --------------------------------

template <class A, class B>
bool less(int site, A a, B b) {
  const int which = variant(site, 2);
  return which == 0 ? a < b : which == 1 ? a <= b : a >= b;
}

template <class A, class B>
bool at_most(int site, A a, B b) {
  const int which = variant(site, 2);
  return which == 0 ? a <= b : which == 1 ? a < b : a > b;
}

template <class A, class B>
bool more(int site, A a, B b) {
  const int which = variant(site, 2);
  return which == 0 ? a > b : which == 1 ? a >= b : a <= b;
}

template <class A, class B>
bool at_least(int site, A a, B b) {
  const int which = variant(site, 2);
  return which == 0 ? a >= b : which == 1 ? a > b : a < b;
}

template <class A, class B>
bool same(int site, A a, B b) {
  return (a == b) != on(site);
}

template <class A, class B>
bool other(int site, A a, B b) {
  return (a != b) != on(site);
}

// --- truth
// ----------------------------------------------------------------------------------------

/// A condition turned round.
template <class A>
bool truth(int site, const A& a) {
  return static_cast<bool>(a) != on(site);
}

/// `!a`, the `!` dropped.
template <class A>
bool no(int site, const A& a) {
  return static_cast<bool>(a) == on(site);
}

inline bool first[kMost];  ///< what the first operand of a changed site was

/// The first operand of `a && b`. Mutants: 1 is `a || b`, 2 is `b`, 3 is `a`.
template <class A>
bool both_first(int site, const A& a) {
  const int which = variant(site, 3);
  if (which == 1) first[site] = static_cast<bool>(a);
  return which == 1 || which == 2 || static_cast<bool>(a);
}

template <class A>
bool both_second(int site, const A& a) {
  const int which = variant(site, 3);
  if (which == 1) return first[site] || static_cast<bool>(a);
  return which == 3 || static_cast<bool>(a);
}

/// The first operand of `a || b`. Mutants: 1 is `a && b`, 2 is `b`, 3 is `a`.
template <class A>
bool either_first(int site, const A& a) {
  const int which = variant(site, 3);
  if (which == 1) first[site] = static_cast<bool>(a);
  return which != 1 && which != 2 && static_cast<bool>(a);
}

template <class A>
bool either_second(int site, const A& a) {
  const int which = variant(site, 3);
  if (which == 1) return first[site] && static_cast<bool>(a);
  return which != 3 && static_cast<bool>(a);
}

// --- values and statements
// ------------------------------------------------------------------------

/// 0 and 1 changed for each other, anything else half as large again or one more.
template <class A>
A literal(int site, A a) {
  if (!on(site)) return a;
  if constexpr (std::is_same_v<A, bool>) return !a;
  if (a == A(0)) return A(1);
  if (a == A(1)) return A(0);
  return std::is_floating_point_v<A> ? A(a * 1.5) : A(a + 1);
}

/// 0 returned instead.
template <class A>
A returned(int site, A a) {
  return on(site) ? A{} : a;
}

/// Whether a statement is carried out.
inline bool done(int site) { return !on(site); }

}  // namespace kart_mutant
