#include "tests/fuzz/target.h"

namespace kartwright::fuzz {

const std::vector<Target>& targets() {
  static const std::vector<Target> kTargets{
      {"debrief", fuzz_debrief, 4096}, {"kart", fuzz_kart, 8192},  {"laps", fuzz_laps, 8192},
      {"line", fuzz_line, 4096},       {"log", fuzz_log, 1 << 17}, {"rules", fuzz_rules, 8192},
  };
  return kTargets;
}

}  // namespace kartwright::fuzz
