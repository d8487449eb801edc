// small_rules.h - a small set of rule files in the form of the real ones, so that a change of the
// rules cannot change what the tests of the loader say; and a way to catch what is found wrong.

#pragma once

#include <iosfwd>
#include <string>
#include <vector>

#include "engine/document/document.h"
#include "engine/knowledge/pack.h"

namespace kartwright {

/// axes.yaml (front-grip and rear-grip by phase, response), symptoms.yaml, facts.yaml, words.yaml,
/// rear-width.yaml, axle.yaml, bent-axle.yaml, cold.yaml and green.yaml, each with its text.
std::vector<Document> small_rules();

/// The pack of small_rules with a crew's own file, `own.yaml`, behind them.
Pack small_pack_with(const std::string& own);

/// What `work` throws as InputError; nothing where it does not throw.
template <typename Work>
std::vector<Diagnostic> found_by(Work work) {
  try {
    work();
  } catch (const InputError& error) {
    return error.found();
  }
  return {};
}

/// What is wrong with a crew's own file on top of the small rules.
std::vector<Diagnostic> found_in_own(const std::string& own);

/// A test's table of wrong inputs: the one finding that each must give. Empty texts fit anything.
struct WrongInput {
  const char* name;  ///< of the case, letters and underscores
  std::string text;
  Code code;
  int line, column;
  std::string message;  ///< a part of it
  std::string help;     ///< a part of it
};

/// How GoogleTest prints a case.
void PrintTo(const WrongInput& wrong, std::ostream* out);

/// Fails the running test unless `found` is the one finding of a case.
void expect_the_one_finding(const WrongInput& wrong, const std::vector<Diagnostic>& found);

/// The name of a case, for INSTANTIATE_TEST_SUITE_P.
template <typename Info>
std::string case_name(const Info& info) {
  return info.param.name;
}

}  // namespace kartwright
