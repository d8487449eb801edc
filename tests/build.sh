#!/bin/sh
# Configures build/ as all the tests want it, and builds what is named, or everything.
#   sh tests/build.sh [TARGET...]      what one script has built here the next does not build again
set -eu
cd "$(dirname "$0")/.."
# A folder that is there already keeps the tool that it was made for.
! command -v ninja >/dev/null || export CMAKE_GENERATOR=Ninja
cmake -S . -B build -DKARTWRIGHT_TESTS=ON -DKARTWRIGHT_LOCALES="$(pwd)/build/locale" \
  -DKARTWRIGHT_WERROR=ON -DKARTWRIGHT_SANITIZE=ON -DKARTWRIGHT_COVERAGE="${COVERAGE:-OFF}" \
  -DKARTWRIGHT_WATCHED_BY="${WATCHED_BY:-}" -DCMAKE_UNITY_BUILD=ON
[ $# -eq 0 ] || set -- --target "$@"
cmake --build build --parallel "${JOBS:-$(nproc)}" "$@"
