#!/bin/sh
# clang-tidy with the list of .clang-tidy over all of engine/ and cli/, several files at once.
#   sh tests/tidy.sh      needs clang-tidy 14; ends with 0 where there is nothing to say
set -eu
cd "$(dirname "$0")/.."
tool=$(command -v clang-tidy-14 || command -v clang-tidy) || {
  echo 'tidy.sh: clang-tidy is not installed' >&2
  exit 1
}
cmake -S . -B build-tidy -DKARTWRIGHT_TESTS=OFF -DCMAKE_UNITY_BUILD=ON \
  -DCMAKE_EXPORT_COMPILE_COMMANDS=ON >/dev/null
cmake --build build-tidy --target freeze --parallel >/dev/null
cmake --build build-tidy --target kartwright_engine --parallel >/dev/null
# A unity file is made of others; that it includes sources is no finding.
find build-tidy/CMakeFiles -name 'unity_*.cxx' | LC_ALL=C sort |
  xargs -P "$(nproc)" -n 1 "$tool" -p build-tidy --config-file=.clang-tidy --quiet \
    --checks=-bugprone-suspicious-include --header-filter='(engine|cli)/.*'
