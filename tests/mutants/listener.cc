// listener.cc - notes which sites of mutants each test reached, into the file that
// KARTWRIGHT_REACHED names: a line for each test with its name, the milliseconds it took, and a
// number for each site. What is set up before a test counts for it.

#include <algorithm>
#include <fstream>

#include <gtest/gtest.h>

#include "tests/mutants/mutant.h"

namespace {

class ReachedSites : public testing::EmptyTestEventListener {
  void OnTestEnd(const testing::TestInfo& test) override {
    const char* file = std::getenv("KARTWRIGHT_REACHED");
    if (file == nullptr) return;
    std::ofstream out(file, std::ios::app);
    out << test.test_suite_name() << '.' << test.name() << ' ' << test.result()->elapsed_time();
    for (int site = 0; site < kart_mutant::kMost; ++site) {
      if (kart_mutant::reached[site] != 0) out << ' ' << site;
    }
    out << '\n';
    std::fill_n(kart_mutant::reached, kart_mutant::kMost, 0);
  }
};

[[maybe_unused]] const bool kListening = [] {
  testing::UnitTest::GetInstance()->listeners().Append(new ReachedSites);
  return true;
}();

}  // namespace
