// The fuzzers' main: libFuzzer's own, for the target that the program is named after.

#include <algorithm>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <exception>
#include <filesystem>
#include <random>

#include "tests/fuzz/mutate.h"
#include "tests/fuzz/oracle.h"
#include "tests/fuzz/target.h"

namespace {

using kartwright::fuzz::Target;

const Target* chosen = nullptr;

const Target* target_named(const std::string& name) {
  for (const Target& each : kartwright::fuzz::targets()) {
    if (each.name == name) return &each;
  }
  return nullptr;
}

int run(std::string_view bytes) {
  try {
    chosen->run(bytes);
  } catch (const std::exception& error) {
    std::fprintf(stderr, "broken: %s\n", error.what());
    std::abort();
  }
  return 0;
}

}  // namespace

extern "C" {

std::size_t LLVMFuzzerMutate(std::uint8_t* data, std::size_t size, std::size_t most);

int LLVMFuzzerInitialize(int* /*argc*/, char*** argv) {
  const std::string name = std::filesystem::path((*argv)[0]).filename().string();
  chosen = target_named(name);
  if (chosen == nullptr) {
    std::fprintf(stderr, "there is no target `%s`; tests/fuzz.sh knows them\n", name.c_str());
    std::exit(2);
  }
  return run("{}");  // reads the rules before any input is timed
}

int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  if (size > chosen->longest) return -1;
  return run({reinterpret_cast<const char*>(data), size});
}

// Half of the time words and lines, the other half bytes.
std::size_t LLVMFuzzerCustomMutator(std::uint8_t* data, std::size_t size, std::size_t most,
                                    unsigned seed) {
  if (seed % 2 == 0) return LLVMFuzzerMutate(data, size, most);
  const std::string text(reinterpret_cast<const char*>(data), size);
  const std::string other = kartwright::fuzz::mutated(text, chosen->name, seed / 2);
  const std::size_t length = std::min(other.size(), most);
  std::copy_n(other.begin(), length, data);
  return length;
}

}  // extern "C"
