#!/bin/sh
# Configures build/ as all the tests want it, and builds what is named, or everything.
#   sh tests/build.sh [TARGET...]      what one script has built here the next does not build again
set -eu
cd "$(dirname "$0")/.."
cmake -S . -B build -DKARTWRIGHT_TESTS=ON -DKARTWRIGHT_LOCALES="$(pwd)/build/locale" \
  -DKARTWRIGHT_WERROR=ON -DKARTWRIGHT_BENCH=ON -DKARTWRIGHT_SANITIZE=ON \
  -DKARTWRIGHT_COVERAGE="${COVERAGE:-OFF}" -DKARTWRIGHT_WATCHED_BY="${WATCHED_BY:-}" \
  -DCMAKE_UNITY_BUILD=ON -DCMAKE_UNITY_BUILD_BATCH_SIZE=16
[ $# -eq 0 ] || set -- --target "$@"
cmake --build build --parallel "${JOBS:-$(nproc)}" "$@"
