#!/bin/sh
# Configures build/ as all the tests want it, and builds what is named, or everything.
#   sh tests/build.sh [TARGET...]      what one script has built here the next does not build again
set -eu
cd "$(dirname "$0")/.."
# A folder that is there already keeps the tool that it was made for.
! command -v ninja >/dev/null || export CMAKE_GENERATOR=Ninja
# Where it is there, clang compiles what the sanitizers watch; `WATCHED_BY=` leaves that to gcc.
watched_by=${WATCHED_BY-$(! command -v clang++ >/dev/null || echo clang++)}
watch_all=$([ "${WATCH:-}" = all ] && echo ON || echo OFF)
cmake -S . -B build -DKARTWRIGHT_TESTS=ON -DKARTWRIGHT_LOCALES="$(pwd)/build/locale" \
  -DKARTWRIGHT_WERROR=ON -DKARTWRIGHT_SANITIZE=ON -DKARTWRIGHT_COVERAGE="${COVERAGE:-OFF}" \
  -DKARTWRIGHT_WATCHED_BY="$watched_by" -DKARTWRIGHT_WATCH_ALL="$watch_all" \
  -DKARTWRIGHT_BENCH="${BENCH:-OFF}" -DCMAKE_UNITY_BUILD=ON
[ $# -eq 0 ] || set -- --target "$@"
cmake --build build --parallel "${JOBS:-$(nproc)}" "$@"
